-- lot_not_through: units that got a lot and have not passed a test, with where they are
-- One row is a unit: evidence is `told` where the unit names the lot, `range` where only the build order lets it have it.
-- At a moment of the past (UTC) it tells what was so then; without one, what is so by all that was received. A missing pass
-- is no proof of a fault, and a pass none of its absence.
-- Set: part = tail trim clip, lot = C-4471, attribute = clip_lot, test = squeak_rattle, moment = null
-- Reads: lot, unit, attribute_latest, run, event.
WITH had AS (
    SELECT
        unit.vin,
        unit.build_seq,
        unit.model,
        unit.line_off_at,
        CASE WHEN own.text_value = lot.lot THEN 'told' ELSE 'range' END AS evidence
    FROM lot
    INNER JOIN unit
        ON (lot.from_build_seq IS NULL OR unit.build_seq >= lot.from_build_seq)
        AND (lot.to_build_seq IS NULL OR unit.build_seq <= lot.to_build_seq)
        AND (lot.from_at IS NULL OR unit.line_off_at >= lot.from_at)
        AND (lot.to_at IS NULL OR unit.line_off_at < lot.to_at)
    LEFT JOIN attribute_latest AS own ON own.vin = unit.vin AND own.name = $attribute
    WHERE
        lot.part = $part
        AND lot.lot = $lot
        AND unit.kind = 'production'
        AND (own.text_value IS NULL OR own.text_value = lot.lot)
),

told AS (
    SELECT
        event.vin,
        max_by(event.kind, event."at") AS last_event,
        max_by(event.place, event."at") AS place,
        max(event."at") AS since
    FROM event
    WHERE CAST($moment AS TIMESTAMPTZ) IS NULL OR event."at" <= CAST($moment AS TIMESTAMPTZ)
    GROUP BY event.vin
)

SELECT
    had.vin,
    had.build_seq,
    had.model,
    had.evidence,
    coalesce(told.place, 'on the line') AS place,
    told.last_event,
    coalesce(told.since, had.line_off_at) AS since
FROM had
LEFT JOIN told ON told.vin = had.vin
WHERE
    (CAST($moment AS TIMESTAMPTZ) IS NULL OR had.line_off_at <= CAST($moment AS TIMESTAMPTZ))
    AND NOT EXISTS (
        SELECT 1
        FROM run
        WHERE
            run.vin = had.vin
            AND run.test = $test
            AND run.counts
            AND run.result = 'pass'
            AND (CAST($moment AS TIMESTAMPTZ) IS NULL OR run."at" <= CAST($moment AS TIMESTAMPTZ))
    )
ORDER BY had.evidence DESC, had.build_seq;
