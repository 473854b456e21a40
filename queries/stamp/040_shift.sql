-- Shift and production date of runs and units (rule 3)
-- One row is a moment at which the shift changes, with what holds from it on: a window, or a gap, which has the date of
-- the last window begun. Writes: shift_change, shift_hour, unit_shift. Reads: shift_window, work_run, work_unit,
-- plant_setting.
CREATE OR REPLACE TEMP TABLE shift_change AS
WITH known AS (
    SELECT *
    FROM shift_window
    WHERE NOT cancelled
),

-- The last window begun before anything in scope; earlier ones are of no interest.
first_begun AS (
    SELECT coalesce(max(starts_at), TIMESTAMPTZ '-infinity') AS starts_at
    FROM known
    WHERE
        starts_at <= least(
            (SELECT min("at") FROM work_run), (SELECT min(line_off_at) FROM work_unit)
        )
),

worked AS (
    SELECT k.*
    FROM known AS k
    CROSS JOIN first_begun AS f
    WHERE k.starts_at + INTERVAL 2 DAY >= f.starts_at
),

moment AS (
    SELECT starts_at AS "at" FROM worked
    UNION
    SELECT ends_at AS "at" FROM worked
),

-- Where a changed window overlaps its neighbour the one begun last holds the run.
begun AS (
    SELECT
        m."at",
        w.production_date,
        w.shift,
        w.ends_at
    FROM moment AS m
    ASOF INNER JOIN worked AS w ON m."at" >= w.starts_at
),

held AS (
    SELECT
        b."at",
        max_by(w.production_date, w.starts_at) AS production_date,
        max_by(w.shift, w.starts_at) AS shift
    FROM begun AS b
    INNER JOIN worked AS w
        ON
            b."at" >= w.starts_at AND b."at" < w.ends_at
            AND w.starts_at >= b."at" - INTERVAL 2 DAY
    GROUP BY b."at"
)

SELECT
    b."at",
    coalesce(h.production_date, b.production_date) AS production_date,
    h.shift
FROM begun AS b
LEFT JOIN held AS h ON b."at" = h."at";

-- The hours that each spell touches, for a moment finds its spell by its hour much sooner than by order. The last
-- spell has no end: its first hour stands for all that follow.
CREATE OR REPLACE TEMP TABLE shift_hour AS
WITH spell AS (
    SELECT *, lead("at") OVER (ORDER BY "at") AS ends_at
    FROM shift_change
)

SELECT
    unnest(range(epoch_us("at") // 3600000000, epoch_us(coalesce(ends_at, "at")) // 3600000000 + 1)) AS hour,
    "at" AS starts_at,
    coalesce(ends_at, TIMESTAMPTZ 'infinity') AS ends_at,
    production_date,
    shift
FROM spell;

CREATE OR REPLACE TEMP TABLE unit_shift AS
SELECT
    u.unit_no,
    coalesce(h.production_date, cast(u.line_off_at AT TIME ZONE p.timezone AS DATE)) AS line_date,
    h.shift AS line_shift
FROM work_unit AS u
CROSS JOIN plant_setting AS p
LEFT JOIN shift_hour AS h
    ON
        least(epoch_us(u.line_off_at) // 3600000000, (SELECT max(hour) FROM shift_hour)) = h.hour
        AND u.line_off_at >= h.starts_at AND u.line_off_at < h.ends_at
WHERE u.line_off_at IS NOT NULL;
