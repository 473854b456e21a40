-- The rows of a table of units in one production month, less those of units named in {left_out}
-- In the order of vin. Parameter: month. Reads: {table}, lake_unit_month.
SELECT {table}.*
FROM {table}
LEFT JOIN lake_unit_month ON lake_unit_month.vin = {table}.vin
WHERE
    coalesce(lake_unit_month.production_month, '0001-01') = $month
    AND NOT EXISTS (SELECT 1 FROM {left_out} AS gone WHERE gone.key = {table}.vin)
ORDER BY {table}.vin;
