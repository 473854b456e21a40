-- feed_status: what each station and feed sent last, and how long it has been silent
-- One row is a station of a test (its feed is the test), or another feed. Rule 14; time is told from as_of.
-- Reads: station_heard, station, event, repair, unit_sent, source_file, test_definition, as_of, plant_setting.
CREATE OR REPLACE VIEW feed_status AS
WITH sent AS (
    SELECT station_heard.test AS feed, station_heard.station, station_heard.last_at AS last_row_at, station_heard.row_count
    FROM station_heard
    UNION ALL
    SELECT station.test, station.station, NULL, 0
    FROM station
    UNION ALL
    SELECT 'events', NULL, max(event."at"), count(*)
    FROM event
    UNION ALL
    SELECT 'repairs', NULL, max(coalesce(repair.ended_at, repair.started_at, repair.entered_at)), count(*)
    FROM repair
    UNION ALL
    SELECT 'units', NULL, max(unit_sent.line_off_at), count(*)
    FROM unit_sent
    UNION ALL
    SELECT source_file.feed, NULL, max(source_file.made_at), 0
    FROM source_file
    WHERE
        source_file.feed NOT IN ('events', 'repairs', 'units')
        AND NOT EXISTS (SELECT 1 FROM test_definition WHERE test_definition.test = source_file.feed)
    GROUP BY source_file.feed
),

newest AS (
    SELECT
        sent.feed,
        sent.station,
        max(sent.last_row_at) AS last_row_at,
        CAST(sum(sent.row_count) AS BIGINT) AS row_count
    FROM sent
    GROUP BY sent.feed, sent.station
),

filed AS (
    SELECT source_file.feed, max(source_file.made_at) AS last_file_at
    FROM source_file
    GROUP BY source_file.feed
),

heard AS (
    SELECT
        newest.feed,
        newest.station,
        -- rows of units that were sent without a line-off tell no time of their own
        CASE
            WHEN newest.station IS NULL THEN coalesce(newest.last_row_at, filed.last_file_at)
            ELSE newest.last_row_at
        END AS last_row_at,
        filed.last_file_at
    FROM newest
    LEFT JOIN filed ON filed.feed = newest.feed
    WHERE newest.station IS NOT NULL OR newest.last_row_at IS NOT NULL OR newest.row_count > 0
)

SELECT
    heard.feed,
    heard.station,
    heard.last_row_at,
    CAST(date_diff('second', date_trunc('second', heard.last_row_at), date_trunc('second', as_of.as_of)) AS DOUBLE)
        AS silent_for,
    CASE
        WHEN heard.last_row_at IS NULL THEN 'never'
        WHEN heard.last_row_at + plant_setting.silence_limit * INTERVAL '1' SECOND < as_of.as_of THEN 'silent'
        ELSE 'sending'
    END AS state,
    heard.last_file_at
FROM heard
CROSS JOIN as_of
LEFT JOIN plant_setting ON true;

COMMENT ON VIEW feed_status IS
    'One row is a station of a test, or a feed without stations: what it sent last (rule 14); key feed, station.';
COMMENT ON COLUMN feed_status.feed IS 'the feed; a test''s name for its stations.';
COMMENT ON COLUMN feed_status.station IS 'the station, null for a feed without stations.';
COMMENT ON COLUMN feed_status.last_row_at IS
    'newest time its rows tell (UTC): end of a run, event, repair, line-off; else when the newest file was made; null where nothing came yet.';
COMMENT ON COLUMN feed_status.silent_for IS 'seconds from last_row_at to as_of.';
COMMENT ON COLUMN feed_status.state IS
    'sending; silent: nothing for longer than silence_limit; never: declared, but nothing came yet.';
COMMENT ON COLUMN feed_status.last_file_at IS
    'when the newest file of the feed was made (UTC), null where none came.';
