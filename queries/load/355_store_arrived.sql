-- Runs that have come are stored as sent, where something must be decided that looks at all runs
-- Writes: run. Reads: arriving.
INSERT INTO run BY NAME
SELECT
    a.*,
    a.vin AS vin_sent,
    a.started_at AS started_at_sent,
    a.ended_at AS ended_at_sent,
    a.result AS result_sent
FROM arriving AS a;
