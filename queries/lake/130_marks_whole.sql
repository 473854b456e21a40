-- A table without months, with its rows and a fingerprint
-- One row, also of an empty table. Reads: {table}.
SELECT
    '' AS production_month,
    count(*) AS row_count,
    cast(coalesce(sum(cast(hash({table}) AS HUGEINT)), 0) AS VARCHAR) AS fingerprint
FROM {table};
