-- The rows of a table of runs in one production month, less those of runs named in {left_out}
-- In the order of run_id, which is that of time; its bounds spare the rows of other months. Parameter: month.
-- Reads: {table}, lake_run_month.
SELECT {table}.*
FROM {table}
LEFT JOIN lake_run_month ON lake_run_month.run_id = {table}.run_id
WHERE
    coalesce(lake_run_month.production_month, '0001-01') = $month
    AND (
        $month = '0001-01'
        OR {table}.run_id BETWEEN
        (SELECT min(own.run_id) FROM lake_run_month AS own WHERE own.production_month = $month)
        AND (SELECT max(own.run_id) FROM lake_run_month AS own WHERE own.production_month = $month)
    )
    AND NOT EXISTS (SELECT 1 FROM {left_out} AS gone WHERE gone.key = {table}.run_id)
ORDER BY {table}.run_id, {table}.file_id, {table}.file_row;
