-- The production month of each unit: in which it left the line, else was first heard of
-- One row a unit, by production_month. Reads: unit.
CREATE OR REPLACE TEMP TABLE lake_unit_month AS
SELECT
    unit.vin,
    coalesce(strftime(coalesce(unit.line_date, cast(unit.earliest_at AS DATE)), '%Y-%m'), '0001-01') AS production_month
FROM unit
ORDER BY production_month, unit.vin;
