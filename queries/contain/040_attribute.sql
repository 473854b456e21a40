-- attribute: latest values of some attributes of production units
-- One row is a unit x attribute (rule 10). Parameter: names. Reads: attribute_latest, unit.
SELECT
    attribute_latest.vin,
    attribute_latest.name,
    coalesce(attribute_latest.text_value, CAST(attribute_latest.number_value AS VARCHAR)) AS text_value,
    attribute_latest.number_value
FROM attribute_latest
INNER JOIN unit ON unit.vin = attribute_latest.vin
WHERE list_contains($names, attribute_latest.name) AND unit.kind = 'production'
ORDER BY attribute_latest.vin, attribute_latest.name;
