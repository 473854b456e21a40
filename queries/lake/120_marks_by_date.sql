-- The months of a table with a production date, each with its rows and a fingerprint
-- One row a production month. Reads: {table}.
SELECT
    coalesce(strftime({table}.production_date, '%Y-%m'), '0001-01') AS production_month,
    count(*) AS row_count,
    cast(sum(cast(hash({table}) AS HUGEINT)) AS VARCHAR) AS fingerprint
FROM {table}
GROUP BY coalesce(strftime({table}.production_date, '%Y-%m'), '0001-01')
ORDER BY production_month;
