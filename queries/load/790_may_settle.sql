-- Shifts that may have settled since the last look: ended long enough ago, and not written down
-- One row: their number. Parameters: since, clock. Reads: shift_window, plant_setting, figure_sent.
SELECT count(*) AS shifts
FROM shift_window AS w
CROSS JOIN plant_setting AS p
WHERE
    w.production_date >= $since AND NOT w.cancelled
    AND w.ends_at + to_seconds(p.settle_hours * 3600) < $clock
    AND concat('settled:', cast(w.production_date AS VARCHAR), '/', w.shift) NOT IN (SELECT message_id FROM figure_sent);
