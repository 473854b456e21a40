-- unit: the units that a code could have been found on, in the order of their runs
-- One row is a production unit at its first counted run in the test (rules 7 and 13) within the time asked for; place
-- counts them from 0 in the order of run_id. Times are UTC, hours and days those of the plant.
-- Parameters: test, from_at, to_at (UTC). Reads: run_of_unit, unit, plant_setting.
SELECT
    row_number() OVER (ORDER BY run_of_unit.run_id) - 1 AS place,
    run_of_unit.run_id,
    run_of_unit.vin,
    run_of_unit.model,
    run_of_unit.line,
    run_of_unit.build_seq,
    run_of_unit.station,
    run_of_unit.bay,
    run_of_unit.program,
    run_of_unit."operator",
    run_of_unit."at",
    run_of_unit.production_date,
    run_of_unit.shift,
    run_of_unit.crew,
    extract(HOUR FROM run_of_unit."at" AT TIME ZONE plant_setting.timezone) AS test_hour,
    unit.line_off_at,
    unit.line_date,
    unit.line_shift,
    extract(HOUR FROM unit.line_off_at AT TIME ZONE plant_setting.timezone) AS line_hour
FROM run_of_unit
INNER JOIN unit ON unit.vin = run_of_unit.vin
CROSS JOIN plant_setting
WHERE
    run_of_unit.test = $test
    AND run_of_unit.attempt = 1
    AND run_of_unit.kind = 'production'
    AND run_of_unit."at" >= CAST($from_at AS TIMESTAMPTZ)
    AND run_of_unit."at" < CAST($to_at AS TIMESTAMPTZ)
ORDER BY place;
