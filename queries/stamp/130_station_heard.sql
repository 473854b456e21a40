-- When each station last sent a run (rules 11 and 14)
-- One row is a test and station, whatever was stamped: a newest run may also have gone. Writes: station_heard. Reads: run.
DELETE FROM station_heard;

INSERT INTO station_heard
SELECT test, station, max("at") AS last_at, count(*) AS row_count
FROM run
GROUP BY test, station;
