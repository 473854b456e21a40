-- attribute: values of some attributes of the units of trace/unit
-- One row is a value; place as in trace/unit. A unit may have several values of an attribute: trace/attribute_latest
-- tells which is the latest.
-- Parameters: names, test, from_at, to_at (UTC). Reads: attribute, run_of_unit.
WITH tested AS (
    SELECT
        run_of_unit.vin,
        CAST(row_number() OVER (ORDER BY run_of_unit.run_id) - 1 AS INTEGER) AS place
    FROM run_of_unit
    WHERE
        run_of_unit.test = $test
        AND run_of_unit.attempt = 1
        AND run_of_unit.kind = 'production'
        AND run_of_unit."at" >= CAST($from_at AS TIMESTAMPTZ)
        AND run_of_unit."at" < CAST($to_at AS TIMESTAMPTZ)
)

SELECT
    tested.place,
    CAST(list_position($names, attribute.name) AS INTEGER) AS number,
    CASE WHEN attribute.number_value IS NULL THEN attribute.text_value END AS text_value,
    attribute.number_value,
    attribute.station
FROM attribute
INNER JOIN tested ON tested.vin = attribute.vin
WHERE list_contains($names, attribute.name);
