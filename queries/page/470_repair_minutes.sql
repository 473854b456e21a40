-- repair_minutes: minutes of repair behind the defects of the 20 shifts that end with a shift
-- One row is a test x code with a repair that began and ended; a repair is counted once (rule 15: class other than none).
-- Reads: shift_cover, defect, repair.
WITH mended AS (
    SELECT DISTINCT
        defect.test,
        defect.code,
        repair.repair_id,
        date_diff('second', repair.started_at, repair.ended_at) / 60 AS minutes
    FROM shift_cover
    INNER JOIN defect
        ON defect.production_date = shift_cover.part_date
        AND defect.shift = shift_cover.part_shift
    INNER JOIN repair
        ON repair.vin = defect.vin
        AND repair.code = defect.code
        AND (repair.test IS NULL OR repair.test = defect.test)
    WHERE
        shift_cover.production_date = $production_date
        AND shift_cover.shift = $shift
        -- no window reaches so far back
        AND defect.production_date BETWEEN $production_date - 402 AND $production_date
        AND repair."class" IS DISTINCT FROM 'none'
        AND repair.started_at >= defect."at"
        AND repair.ended_at >= repair.started_at
)

SELECT
    mended.test,
    mended.code,
    count(*) AS repairs,
    sum(mended.minutes) AS minutes
FROM mended
GROUP BY mended.test, mended.code
ORDER BY mended.test, mended.code;
