-- Dates of shifts that may have settled since the last look: ended long enough ago, with units, and not written down
-- One row a date. The clock is that of the data, or the newest file of units: a plant that stands still sends those alone
-- (rule 11). Parameters: since, clock. Reads: shift_window, unit, plant_setting, source_file, figure_sent.
SELECT DISTINCT w.production_date
FROM shift_window AS w
CROSS JOIN plant_setting AS p
SEMI JOIN unit AS u ON w.production_date = u.line_date AND w.shift = u.line_shift AND u.kind = 'production'
WHERE
    w.production_date >= $since AND NOT w.cancelled
    AND w.ends_at + to_seconds(p.settle_hours * 3600)
    < greatest($clock, (SELECT max(made_at) FROM source_file WHERE feed = 'units'))
    AND concat('settled:', cast(w.production_date AS VARCHAR), '/', w.shift) NOT IN (SELECT message_id FROM figure_sent)
ORDER BY w.production_date;
