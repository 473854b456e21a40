-- Is every unit accounted for?
-- One row. Reads: unit, unit_status, run, rejected_row, waiting_finding, waiting_reading, as_of, plant_setting.
SELECT
    (SELECT name FROM plant_setting) AS plant,
    (SELECT as_of FROM as_of) AS data_clock,
    (SELECT count(*) FROM unit) AS units,
    (SELECT count(*) FROM unit WHERE kind = 'production' AND line_off_at IS NULL) AS without_line_off,
    (SELECT count(*) FROM unit WHERE NOT in_schedule) AS not_in_schedule,
    (SELECT count(*) FROM unit WHERE kind = 'production' AND line_state = 'undecided' AND line_off_at IS NOT NULL)
        AS undecided,
    (SELECT count(*) FROM run) AS runs,
    (SELECT count(*) FROM run WHERE NOT counts) AS void_runs,
    (SELECT count(*) FROM run WHERE void_reason = 'suspect_double') AS suspect_doubles,
    (SELECT count(*) FROM rejected_row WHERE waits_for IS NULL) AS rejected_rows,
    (SELECT count(*) FROM rejected_row WHERE waits_for IS NOT NULL) AS waiting_rows,
    (SELECT count(*) FROM waiting_finding) + (SELECT count(*) FROM waiting_reading) AS waiting_parts;
