-- units_with_code: the units behind the defects of a shift
-- One row is a defect (rule 8); found_at is plant-local; handling is the catalogue's at the run's end.
-- Reads: defect, catalogue, unit_status, event, plant_setting.
WITH found AS (
    SELECT
        defect.test,
        defect.code,
        defect.vin,
        defect.zone,
        defect.station,
        defect.bay,
        defect."at"
    FROM defect
    WHERE
        defect.production_date = $production_date
        AND defect.shift IS NOT DISTINCT FROM $shift
),

placed AS (
    SELECT event.vin, event.place
    FROM event
    WHERE event.place IS NOT NULL AND event.vin IN (SELECT found.vin FROM found)
    QUALIFY row_number() OVER (PARTITION BY event.vin ORDER BY event."at" DESC, event.event_id DESC) = 1
)

SELECT
    found.test,
    found.code,
    found.vin,
    found.zone,
    found.station,
    found.bay,
    found."at" AT TIME ZONE plant_setting.timezone AS found_at,
    unit_status.status,
    placed.place,
    catalogue.handling
FROM found
CROSS JOIN plant_setting
LEFT JOIN unit_status ON unit_status.vin = found.vin AND unit_status.test = found.test
LEFT JOIN placed ON placed.vin = found.vin
LEFT JOIN catalogue
    ON catalogue.code = found.code
    AND catalogue.test = found.test
    AND catalogue.from_at <= found."at"
    AND catalogue.to_at > found."at"
ORDER BY found.test, found.code, found."at", found.vin, found.zone;
