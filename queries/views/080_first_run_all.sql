-- first_run_all: attempt 1 of units of any kind
-- One row is a unit x test at its first counted run. Rule 7; its defects by rule 8.
-- Reads: run_of_unit, defect_all.
CREATE OR REPLACE VIEW first_run_all AS
WITH found AS (
    SELECT
        defect_all.run_id,
        count(*) AS defects,
        CAST(sum(defect_all.quantity) AS BIGINT) AS quantity,
        sum(defect_all.demerits) AS demerits
    FROM defect_all
    GROUP BY defect_all.run_id
)

SELECT
    run_of_unit.vin,
    run_of_unit.test,
    run_of_unit.run_id,
    run_of_unit.station,
    run_of_unit.bay,
    run_of_unit.program,
    run_of_unit."operator",
    run_of_unit."at",
    run_of_unit.production_date,
    run_of_unit.shift,
    run_of_unit.crew,
    run_of_unit.result,
    run_of_unit.kind,
    run_of_unit.model,
    run_of_unit.line,
    run_of_unit.build_seq,
    CAST(CASE WHEN run_of_unit.result = 'pass' THEN 1 ELSE 0 END AS BIGINT) AS passed,
    coalesce(found.defects, 0) AS defects,
    coalesce(found.quantity, 0) AS quantity,
    coalesce(found.demerits, CAST(0 AS DOUBLE)) AS demerits
FROM run_of_unit
LEFT JOIN found ON found.run_id = run_of_unit.run_id
WHERE run_of_unit.attempt = 1;

COMMENT ON VIEW first_run_all IS
    'One row is attempt 1 of a unit of any kind in a test (rule 7); key vin, test.';
COMMENT ON COLUMN first_run_all.vin IS 'the unit.';
COMMENT ON COLUMN first_run_all.test IS 'the test.';
COMMENT ON COLUMN first_run_all.run_id IS 'attempt 1.';
COMMENT ON COLUMN first_run_all.station IS 'where it ran.';
COMMENT ON COLUMN first_run_all.bay IS 'place within the station.';
COMMENT ON COLUMN first_run_all.program IS 'program or limit set of the bench.';
COMMENT ON COLUMN first_run_all."operator" IS 'keyed pseudonym of the operator or evaluator (rule 18).';
COMMENT ON COLUMN first_run_all."at" IS 'when the run counts (UTC), its end (rule 3).';
COMMENT ON COLUMN first_run_all.production_date IS 'day of the run''s shift (rule 3).';
COMMENT ON COLUMN first_run_all.shift IS 'shift of the run, null between shifts.';
COMMENT ON COLUMN first_run_all.crew IS 'crew that worked the shift, null where unknown.';
COMMENT ON COLUMN first_run_all.result IS 'pass, fail or aborted.';
COMMENT ON COLUMN first_run_all.kind IS 'kind of the unit (rule 13).';
COMMENT ON COLUMN first_run_all.model IS 'model of the unit.';
COMMENT ON COLUMN first_run_all.line IS 'production line of the unit.';
COMMENT ON COLUMN first_run_all.build_seq IS 'place of the unit in the build order.';
COMMENT ON COLUMN first_run_all.passed IS '1 where it passed, else 0 (rule 9).';
COMMENT ON COLUMN first_run_all.defects IS 'its defects (rule 8).';
COMMENT ON COLUMN first_run_all.quantity IS 'the quantities of its defects summed.';
COMMENT ON COLUMN first_run_all.demerits IS
    'the weights of its defects summed; an unclassed defect adds none.';
