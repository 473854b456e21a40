-- The rows of a table with a production date in one production month
-- In the order of the date. Parameter: month. Reads: {table}.
SELECT {table}.*
FROM {table}
WHERE coalesce(strftime({table}.production_date, '%Y-%m'), '0001-01') = $month
ORDER BY {table}.production_date;
