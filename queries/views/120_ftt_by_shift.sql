-- ftt_by_shift: first-time-through of each test by shift
-- One row is a production_date x shift x test with any run of a production unit; between shifts one row a date, shift
-- null. Rules 3, 9 (pending, worst, best), 11 (settled, of the stations alone), 13 and 16 (Wilson 1927 score interval).
-- Reads: run_of_unit, unit_status, station_latest, plant_setting.
CREATE OR REPLACE VIEW ftt_by_shift AS
WITH outcome AS (
    SELECT
        run_of_unit.production_date,
        run_of_unit.shift,
        run_of_unit.crew,
        run_of_unit.test,
        run_of_unit.shift_ends_at,
        count(DISTINCT run_of_unit.vin) FILTER (WHERE run_of_unit.kind = 'production') AS presented,
        count(*) FILTER (WHERE run_of_unit.kind = 'production' AND run_of_unit.attempt = 1) AS tested,
        count(*) FILTER (
            WHERE run_of_unit.kind = 'production' AND run_of_unit.attempt = 1 AND run_of_unit.result = 'pass'
        ) AS passed_first,
        count(DISTINCT unit_status.vin) FILTER (WHERE run_of_unit.kind = 'production') AS pending,
        count(*) FILTER (
            WHERE run_of_unit.kind = 'production'
            AND NOT run_of_unit.counts AND run_of_unit.void_reason IS DISTINCT FROM 'aborted'
        ) AS void_runs,
        count(*) FILTER (
            WHERE run_of_unit.kind = 'production'
            AND NOT run_of_unit.counts AND run_of_unit.void_reason = 'aborted'
        ) AS aborted_runs,
        count(DISTINCT run_of_unit.vin) FILTER (
            WHERE run_of_unit.kind = 'production' AND run_of_unit.attempt >= 2
        ) AS retested,
        -- rule 11: every station that ran, whatever kind of unit it had
        min(station_latest.last_at) AS heard_until
    FROM run_of_unit
    LEFT JOIN unit_status
        ON unit_status.vin = run_of_unit.vin
        AND unit_status.test = run_of_unit.test
        AND unit_status.production_date = run_of_unit.production_date
        AND unit_status.shift IS NOT DISTINCT FROM run_of_unit.shift
        AND unit_status.attempts = 0
    LEFT JOIN station_latest ON station_latest.station = run_of_unit.station
    GROUP BY
        run_of_unit.production_date,
        run_of_unit.shift,
        run_of_unit.crew,
        run_of_unit.test,
        run_of_unit.shift_ends_at
    HAVING count(*) FILTER (WHERE run_of_unit.kind = 'production') > 0
),

share AS (
    SELECT
        outcome.*,
        CAST(nullif(outcome.tested, 0) AS DOUBLE) AS n,
        CAST(outcome.passed_first AS DOUBLE) / nullif(outcome.tested, 0) AS ftt
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
    score.presented,
    score.tested,
    score.passed_first,
    score.ftt,
    CASE WHEN score.tested > 0 THEN greatest(0e0, score.centre - score.half) END AS low,
    CASE WHEN score.tested > 0 THEN least(1e0, score.centre + score.half) END AS high,
    score.pending,
    CAST(score.passed_first AS DOUBLE) / nullif(score.tested + score.pending, 0) AS worst,
    CAST(score.passed_first + score.pending AS DOUBLE) / nullif(score.tested + score.pending, 0) AS best,
    score.void_runs,
    score.aborted_runs,
    score.retested,
    coalesce(
        score.heard_until
        > score.shift_ends_at + CAST(plant_setting.settle_hours * 3600 AS BIGINT) * INTERVAL '1' SECOND,
        false
    ) AS settled
FROM score
LEFT JOIN plant_setting ON true;

COMMENT ON VIEW ftt_by_shift IS
    'One row is the first-time-through of a test in a shift, of production units (rules 9, 11, 13, 16); key production_date, shift, test.';
COMMENT ON COLUMN ftt_by_shift.production_date IS 'day of the shift (rule 3).';
COMMENT ON COLUMN ftt_by_shift.shift IS 'the shift; null for the runs of that date between shifts.';
COMMENT ON COLUMN ftt_by_shift.crew IS 'crew that worked it, null where unknown.';
COMMENT ON COLUMN ftt_by_shift.test IS 'the test.';
COMMENT ON COLUMN ftt_by_shift.presented IS
    'units with any run ended in the shift: void, aborted and bypassed ones too.';
COMMENT ON COLUMN ftt_by_shift.tested IS 'units whose attempt 1 lies in the shift; the n of ftt (rule 9).';
COMMENT ON COLUMN ftt_by_shift.passed_first IS 'units of those that passed it.';
COMMENT ON COLUMN ftt_by_shift.ftt IS
    'first-time-through, passed_first / tested, 0 to 1; null where none was tested (rule 9).';
COMMENT ON COLUMN ftt_by_shift.low IS 'lower end of the 95 % Wilson score interval of ftt (rule 16).';
COMMENT ON COLUMN ftt_by_shift.high IS 'upper end of the 95 % Wilson score interval of ftt (rule 16).';
COMMENT ON COLUMN ftt_by_shift.pending IS
    'units with void runs only, the last of them in the shift (rule 9).';
COMMENT ON COLUMN ftt_by_shift.worst IS 'ftt if every pending unit failed, 0 to 1 (rule 9).';
COMMENT ON COLUMN ftt_by_shift.best IS 'ftt if every pending unit passed, 0 to 1 (rule 9).';
COMMENT ON COLUMN ftt_by_shift.void_runs IS 'uncounted runs but the aborted ones (rules 2, 4, 5, 6).';
COMMENT ON COLUMN ftt_by_shift.aborted_runs IS 'uncounted aborted runs (rule 5).';
COMMENT ON COLUMN ftt_by_shift.retested IS 'units with a run at attempt 2 or later in the shift.';
COMMENT ON COLUMN ftt_by_shift.settled IS
    'true where every station of the test that ran in the shift has sent a run newer than its end + settle_hours (rule 11).';
