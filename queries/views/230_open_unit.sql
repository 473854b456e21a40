-- open_unit: what still waits for repair, retest, a reading or a decision
-- One row is a production unit x test in which it is not clear, where required or failed. Rules 4, 5, 13 and 14;
-- scrapped and diverted units are not open.
-- Reads: unit_status, unit, run, event, repair, classed_finding, as_of.
CREATE OR REPLACE VIEW open_unit AS
WITH standing AS (
    SELECT
        unit_status.vin,
        unit_status.test,
        unit.model,
        unit.line,
        unit.build_seq,
        unit_status.status,
        unit_status.reason,
        unit_status.waiting_since AS since,
        -- nothing of a unit is earlier: bounds the look-ups of its events, runs and repairs
        coalesce(unit_status.earliest_at, CAST('0001-01-01 00:00:00+00:00' AS TIMESTAMPTZ)) AS known_from
    FROM unit_status
    INNER JOIN unit ON unit.vin = unit_status.vin AND unit.earliest_at IS NOT DISTINCT FROM unit_status.earliest_at
    WHERE
        unit.kind = 'production'
        AND unit_status.clear_at IS NULL
        AND (unit_status.required OR unit_status.last_result <> 'pass')
        AND unit_status.status IN ('failed', 'disturbed', 'held', 'void', 'pending', 'bypassed')
),

failed AS (
    SELECT
        standing.vin,
        standing.test,
        count(*) AS loops,
        max(run."at") AS failed_at,
        max_by(run.run_id, run.attempt) AS last_run_id
    FROM standing
    INNER JOIN run ON run.vin = standing.vin AND run.test = standing.test AND run."at" >= standing.known_from
    WHERE run.counts AND run.result <> 'pass'
    GROUP BY standing.vin, standing.test
),

mended AS (
    SELECT
        standing.vin,
        standing.test,
        max(repair.ended_at) AS mended_at,
        bool_or(repair.ended_at IS NULL) AS in_repair
    FROM standing
    LEFT JOIN failed ON failed.vin = standing.vin AND failed.test = standing.test
    INNER JOIN repair
        ON repair.vin = standing.vin
        AND (repair.test = standing.test OR repair.test IS NULL OR standing.status = 'disturbed')
        AND coalesce(repair.ended_at, repair.started_at, repair.entered_at) >= coalesce(failed.failed_at, standing.since)
    WHERE repair."class" IS DISTINCT FROM 'none'
    GROUP BY standing.vin, standing.test
),

found AS (
    SELECT DISTINCT
        failed.vin,
        failed.test,
        classed_finding.code,
        classed_finding.handling
    FROM failed
    INNER JOIN classed_finding ON classed_finding.run_id = failed.last_run_id
    WHERE classed_finding.counts_as IN ('defect', 'retest', 'masked', 'repeat')
),

code_list AS (
    SELECT spot.vin, spot.test, string_agg(spot.code, ', ' ORDER BY spot.code) AS codes
    FROM (SELECT DISTINCT found.vin, found.test, found.code FROM found) AS spot
    GROUP BY spot.vin, spot.test
),

handling_list AS (
    SELECT words.vin, words.test, string_agg(words.handling, '; ' ORDER BY words.handling) AS handling
    FROM (SELECT DISTINCT found.vin, found.test, found.handling FROM found WHERE found.handling IS NOT NULL) AS words
    GROUP BY words.vin, words.test
),

placed AS (
    SELECT
        waiting.vin,
        max_by(event.place, (event."at", event.event_id)) AS place
    FROM (SELECT DISTINCT standing.vin, standing.known_from FROM standing) AS waiting
    INNER JOIN event ON event.vin = waiting.vin AND event."at" >= waiting.known_from
    WHERE event.place IS NOT NULL
    GROUP BY waiting.vin
)

SELECT
    standing.vin,
    standing.test,
    standing.model,
    standing.line,
    standing.build_seq,
    standing.status,
    CASE
        WHEN standing.status IN ('held', 'bypassed') THEN 'decision'
        WHEN standing.status = 'pending' THEN 'reading'
        WHEN mended.in_repair THEN 'repair'
        WHEN standing.status = 'failed' AND mended.vin IS NULL THEN 'repair'
        ELSE 'retest'
    END AS waiting_for,
    standing.since,
    date_diff('second', date_trunc('second', standing.since), date_trunc('second', as_of.as_of)) / 3600e0 AS hours,
    coalesce(failed.loops, 0) AS loops,
    placed.place,
    code_list.codes,
    handling_list.handling,
    standing.reason
FROM standing
CROSS JOIN as_of
LEFT JOIN failed ON failed.vin = standing.vin AND failed.test = standing.test
LEFT JOIN mended ON mended.vin = standing.vin AND mended.test = standing.test
LEFT JOIN placed ON placed.vin = standing.vin
LEFT JOIN code_list ON code_list.vin = standing.vin AND code_list.test = standing.test
LEFT JOIN handling_list ON handling_list.vin = standing.vin AND handling_list.test = standing.test;

COMMENT ON VIEW open_unit IS
    'One row is a production unit x test in which it is not clear, where required or failed; scrapped and diverted units are not open; key vin, test.';
COMMENT ON COLUMN open_unit.vin IS 'the unit.';
COMMENT ON COLUMN open_unit.test IS 'the test.';
COMMENT ON COLUMN open_unit.model IS 'model of the unit.';
COMMENT ON COLUMN open_unit.line IS 'production line of the unit.';
COMMENT ON COLUMN open_unit.build_seq IS 'place of the unit in the build order.';
COMMENT ON COLUMN open_unit.status IS
    'failed, disturbed, held, void, pending or bypassed: what it stands at.';
COMMENT ON COLUMN open_unit.waiting_for IS
    'repair (one is open, or it failed and none has ended since), retest, reading (a required condition has not arrived, rule 4) or decision (held or bypassed).';
COMMENT ON COLUMN open_unit.since IS 'since when it waits (UTC).';
COMMENT ON COLUMN open_unit.hours IS 'hours from since to as_of, whole seconds.';
COMMENT ON COLUMN open_unit.loops IS 'counted fails of the unit in the test so far.';
COMMENT ON COLUMN open_unit.place IS 'place of its latest event that names one, null where none does.';
COMMENT ON COLUMN open_unit.codes IS
    'codes of its latest counted fail, in alphabetical order; null where it has none.';
COMMENT ON COLUMN open_unit.handling IS
    'the catalogue''s handling words of those codes; null where they have none.';
COMMENT ON COLUMN open_unit.reason IS 'what the status rests on, in a word, as stamped in unit_status.';
