-- bay_by_shift: the bays of a test beside each other, by shift
-- One row is a production_date x shift x test x station x bay with any run of a production unit. Rules 9, 13 and 16; no
-- interval where void runs exceed 5 % of the units presented. The raw rate is what the bench itself would say.
-- Reads: run_of_unit.
CREATE OR REPLACE VIEW bay_by_shift AS
WITH outcome AS (
    SELECT
        run_of_unit.production_date,
        run_of_unit.shift,
        run_of_unit.crew,
        run_of_unit.test,
        run_of_unit.station,
        run_of_unit.bay,
        count(DISTINCT run_of_unit.vin) AS presented,
        count(*) FILTER (WHERE run_of_unit.attempt = 1) AS tested,
        count(*) FILTER (WHERE run_of_unit.attempt = 1 AND run_of_unit.result = 'pass') AS passed_first,
        count(*) FILTER (WHERE run_of_unit.result = 'pass') AS raw_passed,
        count(*) FILTER (WHERE run_of_unit.result <> 'aborted') AS raw_runs,
        count(*) FILTER (
            WHERE NOT run_of_unit.counts AND run_of_unit.void_reason IS DISTINCT FROM 'aborted'
        ) AS void_runs
    FROM run_of_unit
    WHERE run_of_unit.kind = 'production'
    GROUP BY
        run_of_unit.production_date,
        run_of_unit.shift,
        run_of_unit.crew,
        run_of_unit.test,
        run_of_unit.station,
        run_of_unit.bay
),

share AS (
    SELECT
        outcome.*,
        CAST(outcome.passed_first AS DOUBLE) / nullif(outcome.tested, 0) AS ftt,
        CASE WHEN 20 * outcome.void_runs <= outcome.presented THEN CAST(nullif(outcome.tested, 0) AS DOUBLE) END AS n
    FROM outcome
),

-- z = 1.959963984540054; z^2 / 2, z^2 / 4 and z^2 stand as numbers
score AS (
    SELECT
        share.*,
        (share.ftt + 1.920729410347062e0 / share.n) / (1e0 + 3.841458820694124e0 / share.n) AS centre,
        1.959963984540054e0
        * sqrt(share.ftt * (1e0 - share.ftt) / share.n + 0.960364705173531e0 / (share.n * share.n))
        / (1e0 + 3.841458820694124e0 / share.n) AS half
    FROM share
)

SELECT
    score.production_date,
    score.shift,
    score.crew,
    score.test,
    score.station,
    score.bay,
    score.presented,
    score.tested,
    score.passed_first,
    score.ftt,
    CASE WHEN score.n > 0 THEN greatest(0e0, score.centre - score.half) END AS low,
    CASE WHEN score.n > 0 THEN least(1e0, score.centre + score.half) END AS high,
    score.raw_passed,
    CAST(score.raw_passed AS DOUBLE) / nullif(score.raw_runs, 0) AS raw_pass_rate,
    score.void_runs
FROM score;

COMMENT ON VIEW bay_by_shift IS
    'One row is a bay of a test in a shift, of production units (rules 9, 13, 16); key production_date, shift, test, station, bay.';
COMMENT ON COLUMN bay_by_shift.production_date IS 'day of the shift (rule 3).';
COMMENT ON COLUMN bay_by_shift.shift IS 'the shift; null for the runs of that date between shifts.';
COMMENT ON COLUMN bay_by_shift.crew IS 'crew that worked it, null where unknown.';
COMMENT ON COLUMN bay_by_shift.test IS 'the test.';
COMMENT ON COLUMN bay_by_shift.station IS 'the station.';
COMMENT ON COLUMN bay_by_shift.bay IS 'place within the station, null where it has one.';
COMMENT ON COLUMN bay_by_shift.presented IS 'units with any run in the bay that ended in the shift.';
COMMENT ON COLUMN bay_by_shift.tested IS
    'units whose attempt 1 was in the bay and the shift; the n of ftt (rule 9).';
COMMENT ON COLUMN bay_by_shift.passed_first IS 'units of those that passed it.';
COMMENT ON COLUMN bay_by_shift.ftt IS
    'first-time-through of the bay, passed_first / tested, 0 to 1; null where none was tested (rule 9).';
COMMENT ON COLUMN bay_by_shift.low IS
    'lower end of the 95 % Wilson score interval of ftt; null where void runs exceed 5 % of presented (rule 16).';
COMMENT ON COLUMN bay_by_shift.high IS
    'upper end of the 95 % Wilson score interval of ftt; null where void runs exceed 5 % of presented (rule 16).';
COMMENT ON COLUMN bay_by_shift.raw_passed IS 'runs that passed, counted or not.';
COMMENT ON COLUMN bay_by_shift.raw_pass_rate IS 'raw_passed / all runs but aborted ones, 0 to 1.';
COMMENT ON COLUMN bay_by_shift.void_runs IS 'uncounted runs but the aborted ones (rules 2, 4, 5, 6).';
