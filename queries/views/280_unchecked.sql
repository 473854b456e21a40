-- unchecked: passes given by a bench that was found blind
-- One row is a counted pass of a production unit at a station and bay between the last good and the next good check
-- round a failed one. Rule 13: it stays a pass, is listed, and is no escape.
-- Reads: reference_check, run_of_unit.
CREATE OR REPLACE VIEW unchecked AS
WITH blind AS (
    SELECT
        failed.test,
        failed.station,
        failed.bay,
        failed."at" AS failed_at,
        coalesce(
            max(good."at") FILTER (WHERE good."at" <= failed."at"),
            CAST('0001-01-01 00:00:00+00:00' AS TIMESTAMPTZ)
        ) AS from_at,
        coalesce(
            min(good."at") FILTER (WHERE good."at" >= failed."at"),
            CAST('9999-12-31 00:00:00+00:00' AS TIMESTAMPTZ)
        ) AS to_at,
        max(good."at") FILTER (WHERE good."at" <= failed."at") AS last_good_at,
        min(good."at") FILTER (WHERE good."at" >= failed."at") AS next_good_at
    FROM reference_check AS failed
    LEFT JOIN reference_check AS good
        ON good.test = failed.test
        AND good.station = failed.station
        AND good.bay IS NOT DISTINCT FROM failed.bay
        AND good.good
    WHERE NOT failed.good
    GROUP BY failed.test, failed.station, failed.bay, failed."at"
),

gap AS (
    SELECT
        blind.test,
        blind.station,
        blind.bay,
        blind.from_at,
        blind.to_at,
        blind.last_good_at,
        blind.next_good_at,
        min(blind.failed_at) AS failed_at
    FROM blind
    GROUP BY
        blind.test,
        blind.station,
        blind.bay,
        blind.from_at,
        blind.to_at,
        blind.last_good_at,
        blind.next_good_at
)

SELECT
    run_of_unit.vin,
    run_of_unit.test,
    run_of_unit.run_id,
    run_of_unit."at",
    run_of_unit.production_date,
    run_of_unit.shift,
    run_of_unit.crew,
    run_of_unit.station,
    run_of_unit.bay,
    gap.last_good_at,
    gap.failed_at,
    gap.next_good_at
FROM run_of_unit
INNER JOIN gap
    ON gap.test = run_of_unit.test
    AND gap.station = run_of_unit.station
    AND gap.bay IS NOT DISTINCT FROM run_of_unit.bay
    AND run_of_unit."at" > gap.from_at
    AND run_of_unit."at" < gap.to_at
WHERE run_of_unit.kind = 'production' AND run_of_unit.counts AND run_of_unit.result = 'pass';

COMMENT ON VIEW unchecked IS
    'One row is a counted pass of a production unit from a bay that failed its check before the next good one (rule 13); key run_id.';
COMMENT ON COLUMN unchecked.vin IS 'the unit.';
COMMENT ON COLUMN unchecked.test IS 'the test.';
COMMENT ON COLUMN unchecked.run_id IS 'the pass.';
COMMENT ON COLUMN unchecked."at" IS 'when the pass counts (UTC), its end (rule 3).';
COMMENT ON COLUMN unchecked.production_date IS 'day of the run''s shift (rule 3).';
COMMENT ON COLUMN unchecked.shift IS 'shift of the run, null between shifts.';
COMMENT ON COLUMN unchecked.crew IS 'crew that worked the shift, null where unknown.';
COMMENT ON COLUMN unchecked.station IS 'the station.';
COMMENT ON COLUMN unchecked.bay IS 'the bay, null where the station has one place.';
COMMENT ON COLUMN unchecked.last_good_at IS 'last good check before (UTC), null where there was none.';
COMMENT ON COLUMN unchecked.failed_at IS 'first failed check of the gap (UTC).';
COMMENT ON COLUMN unchecked.next_good_at IS 'next good check (UTC), null where none has come yet.';
