-- dphu_by_shift: defects per hundred units of each test by shift
-- One row is a production_date x shift x test with any run of a production unit. Rules 8, 9, 13 and 16: mean -+ z s/sqrt(n)
-- over the units' defect counts, clipped at 0; for 0 defects 0 to 368.8879454/n (Garwood 1936).
-- Reads: run_of_unit, first_run, defect, classed_finding.
CREATE OR REPLACE VIEW dphu_by_shift AS
WITH shown AS (
    SELECT
        run_of_unit.production_date,
        run_of_unit.shift,
        run_of_unit.crew,
        run_of_unit.test,
        count(*) FILTER (WHERE run_of_unit.attempt = 1) AS tested
    FROM run_of_unit
    WHERE run_of_unit.kind = 'production'
    GROUP BY run_of_unit.production_date, run_of_unit.shift, run_of_unit.crew, run_of_unit.test
),

faulty AS (
    SELECT
        defect.production_date,
        defect.shift,
        defect.test,
        defect.run_id,
        count(*) AS defects,
        CAST(sum(defect.quantity) AS BIGINT) AS quantity,
        sum(defect.demerits) AS demerits,
        count(*) FILTER (WHERE defect.severity IS NULL) AS unclassed
    FROM defect
    GROUP BY defect.production_date, defect.shift, defect.test, defect.run_id
),

total AS (
    SELECT
        faulty.production_date,
        faulty.shift,
        faulty.test,
        CAST(sum(faulty.defects) AS BIGINT) AS defects,
        CAST(sum(faulty.defects * faulty.defects) AS BIGINT) AS squares,
        CAST(sum(faulty.quantity) AS BIGINT) AS quantity,
        sum(faulty.demerits) AS demerits,
        CAST(sum(faulty.unclassed) AS BIGINT) AS unclassed
    FROM faulty
    GROUP BY faulty.production_date, faulty.shift, faulty.test
),

later_spot AS (
    SELECT DISTINCT
        classed_finding.production_date,
        classed_finding.shift,
        classed_finding.test,
        classed_finding.run_id,
        classed_finding.code,
        classed_finding.zone,
        classed_finding.counts_as
    FROM classed_finding
    WHERE classed_finding.kind = 'production' AND classed_finding.counts_as IN ('retest', 'masked')
),

later AS (
    SELECT
        later_spot.production_date,
        later_spot.shift,
        later_spot.test,
        count(*) FILTER (WHERE later_spot.counts_as = 'retest') AS retest_defects,
        count(*) FILTER (WHERE later_spot.counts_as = 'masked') AS masked_defects
    FROM later_spot
    GROUP BY later_spot.production_date, later_spot.shift, later_spot.test
),

counted AS (
    SELECT
        shown.production_date,
        shown.shift,
        shown.crew,
        shown.test,
        shown.tested,
        coalesce(total.defects, 0) AS defects,
        coalesce(total.squares, 0) AS squares,
        coalesce(total.quantity, 0) AS quantity,
        coalesce(total.demerits, 0e0) AS demerits,
        coalesce(later.retest_defects, 0) AS retest_defects,
        coalesce(later.masked_defects, 0) AS masked_defects,
        coalesce(total.unclassed, 0) AS unclassed
    FROM shown
    LEFT JOIN total
        ON total.production_date = shown.production_date
        AND total.shift IS NOT DISTINCT FROM shown.shift
        AND total.test = shown.test
    LEFT JOIN later
        ON later.production_date = shown.production_date
        AND later.shift IS NOT DISTINCT FROM shown.shift
        AND later.test = shown.test
),

spread AS (
    SELECT
        counted.*,
        100 * CAST(counted.defects AS DOUBLE) / nullif(counted.tested, 0) AS dphu,
        -- 100 z s / sqrt(n), s from whole numbers so that every engine gives the same
        195.9963984540054e0 * sqrt(
            CAST(counted.tested * counted.squares - counted.defects * counted.defects AS DOUBLE)
            / nullif(counted.tested - 1, 0)
        ) / nullif(counted.tested, 0) AS half
    FROM counted
)

SELECT
    spread.production_date,
    spread.shift,
    spread.crew,
    spread.test,
    spread.tested,
    spread.defects,
    spread.quantity,
    spread.dphu,
    CASE
        WHEN spread.tested = 0 THEN NULL
        WHEN spread.defects = 0 THEN 0e0
        WHEN spread.tested > 1 THEN greatest(0e0, spread.dphu - spread.half)
    END AS low,
    CASE
        WHEN spread.tested = 0 THEN NULL
        WHEN spread.defects = 0 THEN 368.8879454e0 / nullif(spread.tested, 0)
        ELSE spread.dphu + spread.half
    END AS high,
    spread.demerits,
    spread.demerits / nullif(spread.tested, 0) AS demerits_per_unit,
    spread.retest_defects,
    spread.masked_defects,
    spread.unclassed
FROM spread;

COMMENT ON VIEW dphu_by_shift IS
    'One row is the defects per hundred units of a test in a shift, of production units (rules 8, 9, 13, 16); key production_date, shift, test.';
COMMENT ON COLUMN dphu_by_shift.production_date IS 'day of the shift (rule 3).';
COMMENT ON COLUMN dphu_by_shift.shift IS 'the shift; null for the runs of that date between shifts.';
COMMENT ON COLUMN dphu_by_shift.crew IS 'crew that worked it, null where unknown.';
COMMENT ON COLUMN dphu_by_shift.test IS 'the test.';
COMMENT ON COLUMN dphu_by_shift.tested IS 'units whose attempt 1 lies in the shift; the n of dphu (rule 9).';
COMMENT ON COLUMN dphu_by_shift.defects IS 'code x zone on attempt 1 (rule 8).';
COMMENT ON COLUMN dphu_by_shift.quantity IS
    'the quantities of those defects summed; one not sent is 1 (rule 8).';
COMMENT ON COLUMN dphu_by_shift.dphu IS
    'defects per hundred units, 100 x defects / tested; null where none was tested (rule 9).';
COMMENT ON COLUMN dphu_by_shift.low IS
    'lower end of the 95 % interval of dphu, never below 0; null where one unit was tested and it has a defect (rule 16).';
COMMENT ON COLUMN dphu_by_shift.high IS
    'upper end of the 95 % interval of dphu; for 0 defects 368.8879454 / tested (rule 16).';
COMMENT ON COLUMN dphu_by_shift.demerits IS 'weights of the defects summed; an unclassed defect adds none.';
COMMENT ON COLUMN dphu_by_shift.demerits_per_unit IS 'demerits / tested.';
COMMENT ON COLUMN dphu_by_shift.retest_defects IS
    'code x zone first seen on a later run, one that ended in the shift (rule 8).';
COMMENT ON COLUMN dphu_by_shift.masked_defects IS
    'code x zone that no earlier run could have seen, on a run that ended in the shift (rule 8).';
COMMENT ON COLUMN dphu_by_shift.unclassed IS
    'defects with no severity from finding or catalogue; they add no demerits.';
