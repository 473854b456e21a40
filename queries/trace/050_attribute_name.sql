-- attribute_name: which attributes there are
-- One row is an attribute: its rows, those with a number, its measure unit, and whether it comes from several stations.
-- Reads: attribute.
SELECT
    attribute.name,
    count(*) AS rows,
    count(attribute.number_value) AS numbers,
    max(attribute.measure_unit) AS measure_unit,
    coalesce(min(attribute.station) <> max(attribute.station), false) AS has_stations
FROM attribute
GROUP BY attribute.name
ORDER BY attribute.name;
