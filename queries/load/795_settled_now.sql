-- Shifts that have settled since the last look
-- One row a shift; returns their number. Parameters: first, last. Writes: settled_now (temporary).
-- Reads: line_by_shift, figure_sent.
CREATE OR REPLACE TEMP TABLE settled_now AS
WITH ended AS (
    SELECT
        l.production_date,
        l.shift,
        concat('settled:', cast(l.production_date AS VARCHAR), '/', l.shift) AS message_id
    FROM line_by_shift AS l
    WHERE l.production_date BETWEEN $first AND $last AND l.settled AND l.shift IS NOT NULL
)

SELECT e.production_date, e.shift, e.message_id
FROM ended AS e
WHERE e.message_id NOT IN (SELECT message_id FROM figure_sent);

SELECT count(*) AS shifts FROM settled_now;
