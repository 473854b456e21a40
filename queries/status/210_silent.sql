-- silent: stations and feeds of which nothing has come for longer than silence_limit, by the wall clock $now
-- One row is a station of a test, or the feed units, events or repairs; last_at is the newest row or file of it (UTC), null
-- where nothing ever came. Silence over a time in which the calendar has no shift is none. Rule 14.
-- Reads: feed_status, shift_window, plant_setting.
WITH heard AS (
    SELECT
        feed_status.feed,
        feed_status.station,
        CASE
            WHEN feed_status.station IS NULL THEN greatest(feed_status.last_row_at, feed_status.last_file_at)
            ELSE feed_status.last_row_at
        END AS last_at
    FROM feed_status
    WHERE feed_status.station IS NOT NULL OR feed_status.feed IN ('units', 'events', 'repairs')
),

calendar AS (
    SELECT max(shift_window.ends_at) AS known_until FROM shift_window
)

SELECT heard.feed, heard.station, heard.last_at
FROM heard
CROSS JOIN plant_setting
CROSS JOIN calendar
WHERE
    heard.last_at IS NULL
    OR (
        heard.last_at + plant_setting.silence_limit * INTERVAL '1' SECOND < CAST($now AS TIMESTAMPTZ)
        AND (
            calendar.known_until < CAST($now AS TIMESTAMPTZ)
            OR EXISTS (
                SELECT 1
                FROM shift_window
                WHERE
                    NOT shift_window.cancelled
                    AND shift_window.starts_at >= heard.last_at
                    AND shift_window.ends_at <= CAST($now AS TIMESTAMPTZ)
            )
        )
    )
ORDER BY heard.last_at NULLS FIRST, heard.feed, heard.station;
