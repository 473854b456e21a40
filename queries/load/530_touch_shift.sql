-- A row of the calendar touches the units with runs, or off the line, in or near its window
-- Writes: touched_unit. Reads: incoming, run, unit.
INSERT INTO touched_unit
WITH span AS (
    SELECT min(starts_at) - INTERVAL 4 DAY AS first_at, max(ends_at) + INTERVAL 4 DAY AS last_at
    FROM incoming
)

SELECT r.vin, min(r.started_at_sent) AS earliest_at
FROM run AS r
CROSS JOIN span AS s
WHERE r."at" BETWEEN s.first_at AND s.last_at OR r.shift IS NULL
GROUP BY r.vin
UNION ALL
SELECT u.vin, u.earliest_at
FROM unit AS u
CROSS JOIN span AS s
WHERE u.line_off_at BETWEEN s.first_at AND s.last_at OR (u.line_off_at IS NOT NULL AND u.line_shift IS NULL);
