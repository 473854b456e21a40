-- Figures of shifts that have settled since the last look, as they stand now (rule 11)
-- One row a figure; message_id is settled: and the shift. Parameters: first, last. Writes: figure_sent.
-- Reads: settled_now, figure_now.
INSERT INTO figure_sent (message_id, figure, key, n, "value", low, high)
SELECT n.message_id, f.figure, f.key, f.n, f."value", f.low, f.high
FROM figure_now AS f
INNER JOIN settled_now AS n ON f.production_date = n.production_date AND f.shift = n.shift
WHERE f.production_date BETWEEN $first AND $last;
