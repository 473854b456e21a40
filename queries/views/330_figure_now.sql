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
),

-- Names as JSON writes them (RFC 8259, 7): backslash, quote and what breaks a line behind a backslash.
backslashed AS (
    SELECT
        figure.*,
        replace(replace(figure.shift, chr(92), concat(chr(92), chr(92))), '"', concat(chr(92), '"')) AS shift_said,
        replace(replace(figure.code, chr(92), concat(chr(92), chr(92))), '"', concat(chr(92), '"')) AS code_said
    FROM figure
),

said AS (
    SELECT
        backslashed.*,
        replace(
            replace(replace(backslashed.shift_said, chr(9), concat(chr(92), 't')), chr(10), concat(chr(92), 'n')),
            chr(13), concat(chr(92), 'r')
        ) AS json_shift,
        replace(
            replace(replace(backslashed.code_said, chr(9), concat(chr(92), 't')), chr(10), concat(chr(92), 'n')),
            chr(13), concat(chr(92), 'r')
        ) AS json_code
    FROM backslashed
)

SELECT
    said.production_date,
    said.shift,
    said.test,
    said.code,
    said.figure,
    concat(
        '{"production_date":"', CAST(said.production_date AS VARCHAR), '"',
        CASE WHEN said.shift IS NULL THEN '' ELSE concat(',"shift":"', said.json_shift, '"') END,
        CASE WHEN said.test IS NULL THEN '' ELSE concat(',"test":"', said.test, '"') END,
        CASE WHEN said.code IS NULL THEN '' ELSE concat(',"code":"', said.json_code, '"') END,
        '}'
    ) AS key,
    said.n,
    said."value",
    said.low,
    said.high
FROM said;

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
