-- Every unit, for stamps from nothing
-- What was heard of the stations is forgotten, so that all runs are looked through. Writes: touched_unit, station_heard.
INSERT INTO touched_unit
SELECT vin, earliest_at
FROM unit;

DELETE FROM station_heard;
