-- ftt_by_build: first-time-through by the shift in which the units left the line
-- One row is a line_date x line_shift x model x test. Rules 9, 11 (cohort), 13 and 16; a unit is in a row where its test
-- is required or it was tested.
-- Reads: line_standing, shift_window.
CREATE OR REPLACE VIEW ftt_by_build AS
WITH outcome AS (
    SELECT
        line_standing.production_date,
        line_standing.shift,
        line_standing.model,
        line_standing.test,
        count(*) AS built,
        count(*) FILTER (WHERE line_standing.attempts > 0) AS tested,
        count(*) FILTER (
            WHERE line_standing.attempts > 0 AND line_standing.first_result = 'pass'
        ) AS passed_first
    FROM line_standing
    WHERE line_standing.required OR line_standing.attempts > 0
    GROUP BY line_standing.production_date, line_standing.shift, line_standing.model, line_standing.test
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
    shift_window.crew,
    score.model,
    score.test,
    score.built,
    score.tested,
    score.passed_first,
    score.built - score.tested AS undecided,
    score.ftt,
    CASE WHEN score.tested > 0 THEN greatest(0e0, score.centre - score.half) END AS low,
    CASE WHEN score.tested > 0 THEN least(1e0, score.centre + score.half) END AS high
FROM score
LEFT JOIN shift_window
    ON shift_window.production_date = score.production_date
    AND shift_window.shift = score.shift;

COMMENT ON VIEW ftt_by_build IS
    'One row is the first-time-through of a test over the units of a model that left the line in a shift (rules 9, 11, 13, 16); key production_date, shift, model, test.';
COMMENT ON COLUMN ftt_by_build.production_date IS
    'day of the shift in which the units left the line (rules 3 and 11).';
COMMENT ON COLUMN ftt_by_build.shift IS 'that shift; null for units that left the line between shifts.';
COMMENT ON COLUMN ftt_by_build.crew IS 'crew that worked it, null where unknown.';
COMMENT ON COLUMN ftt_by_build.model IS 'the model, null where unknown.';
COMMENT ON COLUMN ftt_by_build.test IS 'the test.';
COMMENT ON COLUMN ftt_by_build.built IS 'units of the cohort that need the test or had it.';
COMMENT ON COLUMN ftt_by_build.tested IS
    'units of those with an attempt 1, whenever it was; the n of ftt (rule 9).';
COMMENT ON COLUMN ftt_by_build.passed_first IS 'units of those that passed it.';
COMMENT ON COLUMN ftt_by_build.undecided IS 'units without a counted run of the test.';
COMMENT ON COLUMN ftt_by_build.ftt IS
    'first-time-through, passed_first / tested, 0 to 1; null where none was tested (rule 9).';
COMMENT ON COLUMN ftt_by_build.low IS 'lower end of the 95 % Wilson score interval of ftt (rule 16).';
COMMENT ON COLUMN ftt_by_build.high IS 'upper end of the 95 % Wilson score interval of ftt (rule 16).';
