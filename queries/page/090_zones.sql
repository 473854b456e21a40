-- zones: the defects of a shift by zone
-- One row is a zone of the catalogue, with or without a defect, or a zone that a defect names; zone null: none named.
-- leading is the code with most defects there, ties by code.
-- Reads: defect, zone.
WITH counted AS (
    SELECT defect.zone, defect.code, count(*) AS defects
    FROM defect
    WHERE
        defect.production_date = $production_date
        AND defect.shift IS NOT DISTINCT FROM $shift
    GROUP BY defect.zone, defect.code
),

found AS (
    SELECT
        counted.zone,
        CAST(sum(counted.defects) AS BIGINT) AS defects
    FROM counted
    GROUP BY counted.zone
),

leader AS (
    SELECT counted.zone, counted.code
    FROM counted
    QUALIFY row_number() OVER (PARTITION BY counted.zone ORDER BY counted.defects DESC, counted.code) = 1
),

-- one zone may be described for several tests: the row for all tests goes first
place AS (
    SELECT zone.zone, zone.title, zone.cell, zone.outline, zone.hv_near
    FROM zone
    QUALIFY row_number() OVER (PARTITION BY zone.zone ORDER BY zone.test NULLS FIRST) = 1
)

SELECT
    coalesce(place.zone, found.zone) AS zone,
    place.title,
    place.cell,
    place.outline,
    place.hv_near,
    coalesce(found.defects, 0) AS defects,
    leader.code AS leading
FROM place
FULL OUTER JOIN found ON found.zone = place.zone
LEFT JOIN leader ON leader.zone IS NOT DISTINCT FROM found.zone AND found.defects IS NOT NULL
ORDER BY 1;
