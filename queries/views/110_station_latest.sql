-- station_latest: when each station last sent a run
-- One row is a station. Rules 11 and 14 ask whether it has sent something newer.
-- Reads: station_heard.
CREATE OR REPLACE VIEW station_latest AS
SELECT
    station_heard.station,
    max(station_heard.last_at) AS last_at
FROM station_heard
GROUP BY station_heard.station;

COMMENT ON VIEW station_latest IS
    'One row is a station and the newest run it has sent, of any test and any kind of unit (rules 11 and 14).';
COMMENT ON COLUMN station_latest.station IS 'the station.';
COMMENT ON COLUMN station_latest.last_at IS 'end of its newest run (UTC), counted or not.';
