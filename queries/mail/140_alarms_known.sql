-- The alarms that have left
-- One row an alarm: its kind and its key. Reads: figure_sent.
SELECT figure_sent.figure, figure_sent.key
FROM figure_sent
WHERE starts_with(figure_sent.figure, 'alarm.');
