-- Waiting findings or readings whose run has come; by run_ref where given, else by unit, station and second, as sent
-- Writes: incoming_part, and takes them from the waiting table. Gives: their number.
-- Places: waiting. Parameters: first_run_id, last_run_id, named.
CREATE OR REPLACE TEMP TABLE wanted AS
SELECT
    *,
    rowid AS waiting_row,
    cast(floor(epoch(started_at)) AS BIGINT) AS started_second,
    cast('0x' || substr(md5(station || '|' || run_ref), 1, 8) AS BIGINT) & 1073741823 AS name_bits
FROM {waiting};

-- A version whose start has moved leads to the version that won.
CREATE OR REPLACE TEMP TABLE met AS
WITH told AS (
    SELECT run_id, run_id AS winner_id, vin_sent, test, station, run_ref
    FROM known_run
    WHERE
        run_id BETWEEN $first_run_id AND $last_run_id
        OR ($named AND run_id & 1073741823 IN (SELECT name_bits FROM wanted WHERE name_bits IS NOT NULL))
    UNION ALL
    SELECT s.run_id, r.run_id AS winner_id, s.vin_sent, s.test, s.station, s.run_ref
    FROM superseded.run AS s
    INNER JOIN run AS r ON s.station = r.station AND s.run_ref = r.run_ref
)

SELECT w.waiting_row, min(t.winner_id) AS run_id
FROM wanted AS w
INNER JOIN told AS t
    ON w.vin = t.vin_sent AND w.test = t.test AND w.station = t.station AND w.started_second = t.run_id >> 30
WHERE w.run_ref IS NULL
GROUP BY w.waiting_row
UNION ALL
SELECT w.waiting_row, min(t.winner_id) AS run_id
FROM wanted AS w
INNER JOIN told AS t ON w.station = t.station AND w.run_ref = t.run_ref
GROUP BY w.waiting_row;

CREATE OR REPLACE TEMP TABLE incoming_part AS
SELECT
    m.run_id,
    w.* EXCLUDE (vin, test, station, started_at, run_ref, waiting_row, started_second, name_bits)
FROM met AS m
INNER JOIN wanted AS w ON m.waiting_row = w.waiting_row;

DELETE FROM {waiting}
WHERE rowid IN (SELECT waiting_row FROM met);

SELECT count(*) AS found
FROM incoming_part;
