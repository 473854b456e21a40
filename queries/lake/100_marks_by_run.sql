-- The months of a table of runs, each with its rows and a fingerprint
-- One row a production month; the fingerprint does not depend on the order of rows. Reads: {table}, lake_run_month.
SELECT
    coalesce(lake_run_month.production_month, '0001-01') AS production_month,
    count(*) AS row_count,
    cast(sum(cast(hash({table}) AS HUGEINT)) AS VARCHAR) AS fingerprint
FROM {table}
LEFT JOIN lake_run_month ON lake_run_month.run_id = {table}.run_id
GROUP BY coalesce(lake_run_month.production_month, '0001-01')
ORDER BY production_month;
