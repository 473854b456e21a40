-- Figures of shifts that have settled since the last look, as they stand now (rule 11)
-- One row a figure; message_id is settled: and the shift. Parameter: since. Writes: figure_sent.
-- Reads: line_by_shift, figure_now.
INSERT INTO figure_sent (message_id, figure, key, n, "value", low, high)
WITH fresh AS (
    SELECT
        l.production_date,
        l.shift,
        concat('settled:', cast(l.production_date AS VARCHAR), '/', l.shift) AS message_id
    FROM line_by_shift AS l
    WHERE l.production_date >= $since AND l.settled AND l.shift IS NOT NULL
)

SELECT n.message_id, f.figure, f.key, f.n, f."value", f.low, f.high
FROM figure_now AS f
INNER JOIN fresh AS n ON f.production_date = n.production_date AND f.shift = n.shift
WHERE f.production_date >= $since AND n.message_id NOT IN (SELECT message_id FROM figure_sent);
