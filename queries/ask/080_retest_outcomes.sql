-- retest_outcomes: what came of the tests after the first, by shift
-- One row is a shift x test with a counted run after attempt 1: how many passed, and what the others found: the same again
-- (`repeat`), something new (`retest`), something that no run before could have seen (`masked`). Rules 7 and 8.
-- Set: test = null
-- Reads: run_of_unit, finding.
WITH again AS (
    SELECT
        run_of_unit.production_date,
        run_of_unit.shift,
        run_of_unit.test,
        run_of_unit.run_id,
        run_of_unit.vin,
        run_of_unit.result,
        run_of_unit.run_id IN (
            SELECT finding.run_id
            FROM finding
            WHERE finding.counts_as = 'repeat'
        ) AS repeats,
        run_of_unit.run_id IN (
            SELECT finding.run_id
            FROM finding
            WHERE finding.counts_as = 'retest'
        ) AS finds_new,
        run_of_unit.run_id IN (
            SELECT finding.run_id
            FROM finding
            WHERE finding.counts_as = 'masked'
        ) AS unmasks
    FROM run_of_unit
    WHERE run_of_unit.attempt > 1 AND run_of_unit.kind = 'production'
)

SELECT
    again.production_date,
    again.shift,
    again.test,
    count(*) AS runs,
    count(DISTINCT again.vin) AS units,
    count_if(again.result = 'pass') AS passed,
    count_if(again.result = 'pass') / count(*) AS pass_rate,
    count_if(again.repeats) AS found_again,
    count_if(again.finds_new) AS found_new,
    count_if(again.unmasks) AS unmasked
FROM again
WHERE CAST($test AS VARCHAR) IS NULL OR again.test = $test
GROUP BY again.production_date, again.shift, again.test
ORDER BY again.production_date, again.shift, again.test;
