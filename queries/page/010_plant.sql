-- plant: what a page says of the plant it is of
-- One row. data_clock is plant-local, null while nothing is loaded.
-- Reads: plant_setting, as_of.
SELECT
    plant_setting.name,
    as_of.as_of AT TIME ZONE plant_setting.timezone AS data_clock
FROM plant_setting
CROSS JOIN as_of;
