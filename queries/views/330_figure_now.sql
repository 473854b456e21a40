-- figure_now: the figures that reports state, one a row, as they stand now
-- One row is a figure x key of its view. What a report sends is copied from here into figure_sent, so that figure_change
-- can compare the two.
-- Reads: ftt_by_shift, dphu_by_shift, line_by_shift, pareto_by_shift.
CREATE OR REPLACE VIEW figure_now AS
WITH measure AS (
    SELECT 'ftt' AS measure
    UNION ALL
    SELECT 'rty' AS measure
    UNION ALL
    SELECT 'dphu' AS measure
),

figure AS (
    SELECT
        ftt_by_shift.production_date,
        ftt_by_shift.shift,
        ftt_by_shift.test,
        CAST(NULL AS VARCHAR) AS code,
        'ftt_by_shift.ftt' AS figure,
        ftt_by_shift.tested AS n,
        ftt_by_shift.ftt AS "value",
        ftt_by_shift.low,
        ftt_by_shift.high
    FROM ftt_by_shift
    UNION ALL
    SELECT
        dphu_by_shift.production_date,
        dphu_by_shift.shift,
        dphu_by_shift.test,
        CAST(NULL AS VARCHAR) AS code,
        'dphu_by_shift.dphu' AS figure,
        dphu_by_shift.tested AS n,
        dphu_by_shift.dphu AS "value",
        dphu_by_shift.low,
        dphu_by_shift.high
    FROM dphu_by_shift
    UNION ALL
    SELECT
        line_by_shift.production_date,
        line_by_shift.shift,
        CAST(NULL AS VARCHAR) AS test,
        CAST(NULL AS VARCHAR) AS code,
        concat('line_by_shift.', measure.measure) AS figure,
        CASE
            WHEN measure.measure = 'ftt' THEN line_by_shift.went_through + line_by_shift.failed_one
            ELSE line_by_shift.built
        END AS n,
        CASE
            WHEN measure.measure = 'ftt' THEN line_by_shift.ftt
            WHEN measure.measure = 'rty' THEN line_by_shift.rty
            ELSE line_by_shift.dphu
        END AS "value",
        CASE
            WHEN measure.measure = 'ftt' THEN line_by_shift.low
            WHEN measure.measure = 'dphu' THEN line_by_shift.dphu_low
        END AS low,
        CASE
            WHEN measure.measure = 'ftt' THEN line_by_shift.high
            WHEN measure.measure = 'dphu' THEN line_by_shift.dphu_high
        END AS high
    FROM line_by_shift
    CROSS JOIN measure
    UNION ALL
    SELECT
        pareto_by_shift.production_date,
        pareto_by_shift.shift,
        pareto_by_shift.test,
        pareto_by_shift.code,
        'pareto_by_shift.per_100_at_risk' AS figure,
        pareto_by_shift.at_risk AS n,
        pareto_by_shift.per_100_at_risk AS "value",
        CAST(NULL AS DOUBLE) AS low,
        CAST(NULL AS DOUBLE) AS high
    FROM pareto_by_shift
)

SELECT
    figure.production_date,
    figure.shift,
    figure.test,
    figure.code,
    figure.figure,
    concat(
        '{"production_date":"', CAST(figure.production_date AS VARCHAR), '"',
        CASE WHEN figure.shift IS NULL THEN '' ELSE concat(',"shift":"', figure.shift, '"') END,
        CASE WHEN figure.test IS NULL THEN '' ELSE concat(',"test":"', figure.test, '"') END,
        CASE WHEN figure.code IS NULL THEN '' ELSE concat(',"code":"', figure.code, '"') END,
        '}'
    ) AS key,
    figure.n,
    figure."value",
    figure.low,
    figure.high
FROM figure;

COMMENT ON VIEW figure_now IS
    'One row is a figure that a report states, as it stands now; key figure, key.';
COMMENT ON COLUMN figure_now.production_date IS 'day of the shift (rule 3).';
COMMENT ON COLUMN figure_now.shift IS 'the shift; null for what lies between shifts.';
COMMENT ON COLUMN figure_now.test IS 'the test, null for the line.';
COMMENT ON COLUMN figure_now.code IS 'the code, null where the figure is of none.';
COMMENT ON COLUMN figure_now.figure IS 'view and column of the figure.';
COMMENT ON COLUMN figure_now.key IS
    'key of its row in that view, as a JSON object: production_date, shift, test, code, those that it has.';
COMMENT ON COLUMN figure_now.n IS 'units behind it (rule 16).';
COMMENT ON COLUMN figure_now."value" IS 'the figure, in the unit of its column.';
COMMENT ON COLUMN figure_now.low IS 'lower end of its interval (rule 16), null where it has none.';
COMMENT ON COLUMN figure_now.high IS 'upper end of its interval (rule 16), null where it has none.';
