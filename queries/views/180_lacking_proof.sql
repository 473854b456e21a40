-- lacking_proof: units past an event that asks for proof, not clear in a required test and not released
-- One row is a production unit x required test. Rule 14: an escape, or unproven while a station of the test that ran
-- within 24 h before as_of has sent nothing newer than the event, for at most silence_limit after the event.
-- Reads: unit_status, run, station_heard, as_of, plant_setting.
CREATE OR REPLACE VIEW lacking_proof AS
WITH asked AS (
    SELECT
        unit_status.vin,
        unit_status.test,
        unit_status.attempts,
        unit_status.last_result,
        unit_status.earliest_at,
        unit_status.line_date,
        unit_status.line_shift,
        unit_status.asked_by,
        unit_status.asked_at,
        -- nothing of a unit is earlier: bounds the look-up of its runs
        coalesce(unit_status.earliest_at, CAST('0001-01-01 00:00:00+00:00' AS TIMESTAMPTZ)) AS known_from
    FROM unit_status
    WHERE
        unit_status.required
        AND unit_status.clear_at IS NULL
        AND unit_status.asked_at IS NOT NULL
        AND unit_status.status NOT IN ('scrapped', 'diverted', 'passed', 'released')
        AND unit_status.kind = 'production'
),

voided AS (
    SELECT
        asked.line_date,
        asked.line_shift,
        asked.vin,
        asked.test,
        run.void_reason,
        row_number() OVER (
            PARTITION BY asked.line_date, asked.line_shift, asked.vin, asked.test
            ORDER BY run."at" DESC, run.started_at DESC, run.run_id DESC
        ) AS newest
    FROM asked
    INNER JOIN run ON run.vin = asked.vin AND run.test = asked.test AND run."at" >= asked.known_from
    WHERE NOT run.counts
),

recent_station AS (
    SELECT
        station_heard.test,
        station_heard.station,
        station_heard.last_at
    FROM station_heard
    INNER JOIN as_of ON station_heard.last_at >= as_of.as_of - INTERVAL '24' HOUR
),

silent AS (
    SELECT
        asked.line_date,
        asked.line_shift,
        asked.vin,
        asked.test,
        recent_station.station,
        recent_station.last_at,
        row_number() OVER (
            PARTITION BY asked.line_date, asked.line_shift, asked.vin, asked.test
            ORDER BY recent_station.last_at, recent_station.station
        ) AS longest
    FROM asked
    INNER JOIN recent_station
        ON recent_station.test = asked.test
        AND recent_station.last_at <= asked.asked_at
    CROSS JOIN as_of
    CROSS JOIN plant_setting
    WHERE as_of.as_of <= asked.asked_at + plant_setting.silence_limit * INTERVAL '1' SECOND
)

SELECT
    asked.vin,
    asked.test,
    CASE
        WHEN asked.attempts > 0 AND asked.last_result = 'pass' THEN 'disturbed'
        WHEN asked.attempts > 0 THEN 'failed'
        WHEN voided.void_reason = 'bypass' THEN 'bypassed'
        WHEN voided.vin IS NOT NULL THEN 'void'
        ELSE 'no_record'
    END AS reason,
    asked.asked_by AS event,
    asked.asked_at AS event_at,
    silent.station AS silent_station,
    silent.last_at AS silent_since,
    asked.earliest_at,
    asked.line_date,
    asked.line_shift
FROM asked
-- the shift of the unit goes along, so that one shift's proofs are looked for in that shift alone
LEFT JOIN voided
    ON voided.line_date IS NOT DISTINCT FROM asked.line_date
    AND voided.line_shift IS NOT DISTINCT FROM asked.line_shift
    AND voided.vin = asked.vin
    AND voided.test = asked.test
    AND voided.newest = 1
LEFT JOIN silent
    ON silent.line_date IS NOT DISTINCT FROM asked.line_date
    AND silent.line_shift IS NOT DISTINCT FROM asked.line_shift
    AND silent.vin = asked.vin
    AND silent.test = asked.test
    AND silent.longest = 1;

COMMENT ON VIEW lacking_proof IS
    'One row is a production unit past a proof event, not clear in a required test and not released (rule 14); key vin, test.';
COMMENT ON COLUMN lacking_proof.vin IS 'the unit.';
COMMENT ON COLUMN lacking_proof.test IS 'the required test in which it is not clear.';
COMMENT ON COLUMN lacking_proof.reason IS
    'failed, disturbed, bypassed, void or no_record, the first that applies (rule 14).';
COMMENT ON COLUMN lacking_proof.event IS 'kind of the first proof event that it passed.';
COMMENT ON COLUMN lacking_proof.event_at IS 'when it passed it (UTC).';
COMMENT ON COLUMN lacking_proof.silent_station IS
    'the station of the test that has sent nothing newer than the event, the one silent longest; null: an escape.';
COMMENT ON COLUMN lacking_proof.silent_since IS 'newest run of that station (UTC), null for an escape.';
COMMENT ON COLUMN lacking_proof.earliest_at IS
    'earliest time anything is known of the unit (UTC); a bound for look-ups.';
COMMENT ON COLUMN lacking_proof.line_date IS 'day of the shift in which the unit left the line (rule 11), null where it has not.';
COMMENT ON COLUMN lacking_proof.line_shift IS 'shift in which the unit left the line, null between shifts.';
