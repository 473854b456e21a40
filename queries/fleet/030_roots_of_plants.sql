-- roots_of_plants: the defects of each plant by root code
-- One row is a plant x root code with a defect from first_date to last_date (null: no bound). Rule 12: a fault seen twice
-- counts once, unit x root code x cell; units are those with an attempt 1 in any test in that time.
-- Reads: defect, first_run.
WITH fault AS (
    SELECT DISTINCT defect.plant, defect.vin, defect.root_code, defect.cell
    FROM defect
    WHERE
        (CAST($first_date AS DATE) IS NULL OR defect.production_date >= CAST($first_date AS DATE))
        AND (CAST($last_date AS DATE) IS NULL OR defect.production_date <= CAST($last_date AS DATE))
),

words AS (
    SELECT
        defect.plant,
        defect.root_code,
        coalesce(
            max(CASE WHEN defect.code = defect.root_code THEN defect.title END), max(defect.title)
        ) AS title,
        min(defect.severity) AS severity,
        bool_or(defect.safety_related) AS safety_related
    FROM defect
    GROUP BY defect.plant, defect.root_code
),

tested AS (
    SELECT first_run.plant, count(DISTINCT first_run.vin) AS units
    FROM first_run
    WHERE
        (CAST($first_date AS DATE) IS NULL OR first_run.production_date >= CAST($first_date AS DATE))
        AND (CAST($last_date AS DATE) IS NULL OR first_run.production_date <= CAST($last_date AS DATE))
    GROUP BY first_run.plant
),

counted AS (
    SELECT
        fault.plant,
        fault.root_code,
        count(*) AS defects,
        count(DISTINCT fault.vin) AS units
    FROM fault
    GROUP BY fault.plant, fault.root_code
)

SELECT
    counted.plant,
    counted.root_code,
    words.title,
    words.severity,
    words.safety_related,
    counted.defects,
    counted.units,
    tested.units AS tested,
    100 * CAST(counted.defects AS DOUBLE) / nullif(tested.units, 0) AS per_100
FROM counted
INNER JOIN words ON words.plant = counted.plant AND words.root_code = counted.root_code
INNER JOIN tested ON tested.plant = counted.plant;
