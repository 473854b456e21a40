-- rattle_by_lot: how often each lot rattles, where a lot is known only as a range of the build order
-- One row is a lot of the part: its units on the test as the range tells them, and as the units themselves tell their lot.
-- Ranges overlap where several lots were open at once: the range then mixes them, and only the units' own word parts them.
-- Set: part = tail trim clip, code = SR-TAILTRIM, attribute = clip_lot
-- Reads: lot, unit, tested_unit, defect, attribute_latest.
WITH tested AS (
    SELECT
        unit.vin,
        unit.build_seq,
        unit.line_off_at,
        own.text_value AS own_lot,
        tested_unit.run_id IN (
            SELECT defect.run_id
            FROM defect
            WHERE defect.code = $code
        ) AS rattles
    FROM tested_unit
    INNER JOIN unit ON unit.vin = tested_unit.vin
    LEFT JOIN attribute_latest AS own ON own.vin = unit.vin AND own.name = $attribute
    WHERE tested_unit.test = (SELECT min(catalogue.test) FROM catalogue WHERE catalogue.code = $code)
)

SELECT
    lot.lot,
    lot.from_build_seq,
    lot.to_build_seq,
    count(*) AS units,
    count_if(tested.rattles) AS rattling,
    100 * count_if(tested.rattles) / count(*) AS per_100,
    count_if(tested.own_lot = lot.lot) AS own_units,
    count_if(tested.own_lot = lot.lot AND tested.rattles) AS own_rattling,
    100 * count_if(tested.own_lot = lot.lot AND tested.rattles) / nullif(count_if(tested.own_lot = lot.lot), 0) AS own_per_100
FROM lot
INNER JOIN tested
    ON (lot.from_build_seq IS NULL OR tested.build_seq >= lot.from_build_seq)
    AND (lot.to_build_seq IS NULL OR tested.build_seq <= lot.to_build_seq)
    AND (lot.from_at IS NULL OR tested.line_off_at >= lot.from_at)
    AND (lot.to_at IS NULL OR tested.line_off_at < lot.to_at)
WHERE lot.part = $part
GROUP BY lot.lot, lot.from_build_seq, lot.to_build_seq, lot.from_at, lot.to_at
ORDER BY lot.from_build_seq, lot.lot;
