-- The production month of each run
-- One row a run, by run_id; an older one is replaced. Reads: run.
CREATE OR REPLACE TEMP TABLE lake_run_month AS
SELECT
    run.run_id,
    coalesce(strftime(coalesce(run.production_date, cast(run."at" AS DATE)), '%Y-%m'), '0001-01') AS production_month
FROM run
ORDER BY run.run_id;
