-- attribute_latest: the latest value of one attribute of the units of trace/unit
-- One row is a unit that has it; columns as in trace/attribute.
-- Parameters: name, test, from_at, to_at (UTC). Reads: attribute_latest, run_of_unit.
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
    CAST(1 AS INTEGER) AS number,
    CASE WHEN attribute_latest.number_value IS NULL THEN attribute_latest.text_value END AS text_value,
    attribute_latest.number_value,
    attribute_latest.station
FROM attribute_latest
INNER JOIN tested ON tested.vin = attribute_latest.vin
WHERE attribute_latest.name = $name;
