-- units_of_lot: the units of all plants that may carry parts of a lot, and what is known of each
-- One row is a plant x unit: within a range that the feed lots gives (first and last unit included, the last moment not),
-- or with a repair that names part and lot, or with an attribute named as the part and valued as the lot. Parameters:
-- part, lot. From statistics and records; units outside the list are not thereby cleared.
-- Reads: lot, unit, repair, attribute, unit_status, event.
WITH suspect AS (
    SELECT unit.plant, unit.vin, 'range' AS evidence
    FROM lot
    INNER JOIN unit
        ON unit.plant = lot.plant
        AND (lot.from_build_seq IS NULL OR unit.build_seq >= lot.from_build_seq)
        AND (lot.to_build_seq IS NULL OR unit.build_seq <= lot.to_build_seq)
        AND (lot.from_at IS NULL OR unit.line_off_at >= lot.from_at)
        AND (lot.to_at IS NULL OR unit.line_off_at < lot.to_at)
    WHERE
        lot.part = $part
        AND lot.lot = $lot
        AND coalesce(lot.from_build_seq, lot.to_build_seq) IS NOT NULL
    UNION
    SELECT unit.plant, unit.vin, 'range' AS evidence
    FROM lot
    INNER JOIN unit
        ON unit.plant = lot.plant
        AND (lot.from_at IS NULL OR unit.line_off_at >= lot.from_at)
        AND (lot.to_at IS NULL OR unit.line_off_at < lot.to_at)
    WHERE
        lot.part = $part
        AND lot.lot = $lot
        AND coalesce(lot.from_build_seq, lot.to_build_seq) IS NULL
        AND coalesce(lot.from_at, lot.to_at) IS NOT NULL
    UNION
    SELECT repair.plant, repair.vin, 'repair' AS evidence
    FROM repair
    WHERE repair.part = $part AND repair.lot = $lot
    UNION
    SELECT attribute.plant, attribute.vin, 'attribute' AS evidence
    FROM attribute
    WHERE attribute.name = $part AND attribute.text_value = $lot
),

known AS (
    SELECT suspect.plant, suspect.vin, string_agg(suspect.evidence, ', ' ORDER BY suspect.evidence) AS evidence
    FROM suspect
    GROUP BY suspect.plant, suspect.vin
),

standing AS (
    SELECT
        unit_status.plant,
        unit_status.vin,
        string_agg(concat_ws(' ', unit_status.test, unit_status.status), ', ' ORDER BY unit_status.test) AS tests
    FROM unit_status
    GROUP BY unit_status.plant, unit_status.vin
),

placed AS (
    SELECT
        event.plant,
        event.vin,
        max_by(coalesce(event.place, event.kind), (event."at", coalesce(event.event_id, ''))) AS place,
        bool_or(event.kind = 'ship') AS shipped
    FROM event
    GROUP BY event.plant, event.vin
)

SELECT
    known.plant,
    known.vin,
    unit.build_seq,
    unit.model,
    unit.line_off_at,
    known.evidence,
    standing.tests,
    placed.place,
    coalesce(placed.shipped, false) AS shipped
FROM known
LEFT JOIN unit ON unit.plant = known.plant AND unit.vin = known.vin
LEFT JOIN standing ON standing.plant = known.plant AND standing.vin = known.vin
LEFT JOIN placed ON placed.plant = known.plant AND placed.vin = known.vin;
