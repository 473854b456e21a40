-- pareto_of_plants: the defects of all plants by root code, the most frequent first
-- One row is a root code with a defect from first_date to last_date (null: no bound). Rule 12; ranks are competition ranks
-- by defects, shares are of all defects, the cumulative share runs in rank order, ties by root code.
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
        defect.root_code,
        coalesce(
            max(CASE WHEN defect.code = defect.root_code THEN defect.title END), max(defect.title)
        ) AS title,
        min(defect.severity) AS severity,
        bool_or(defect.safety_related) AS safety_related
    FROM defect
    GROUP BY defect.root_code
),

unit_tested AS (
    SELECT DISTINCT first_run.plant, first_run.vin
    FROM first_run
    WHERE
        (CAST($first_date AS DATE) IS NULL OR first_run.production_date >= CAST($first_date AS DATE))
        AND (CAST($last_date AS DATE) IS NULL OR first_run.production_date <= CAST($last_date AS DATE))
),

tested AS (
    SELECT count(*) AS units FROM unit_tested
),

counted AS (
    SELECT
        fault.root_code,
        count(DISTINCT fault.plant) AS plants,
        count(*) AS defects,
        count(DISTINCT concat_ws('/', fault.plant, fault.vin)) AS units
    FROM fault
    GROUP BY fault.root_code
),

ranked AS (
    SELECT
        counted.root_code,
        counted.plants,
        counted.defects,
        counted.units,
        CAST(rank() OVER (ORDER BY counted.defects DESC) AS BIGINT) AS rank,
        CAST(sum(counted.defects) OVER () AS BIGINT) AS all_defects,
        CAST(sum(counted.defects) OVER (
            ORDER BY counted.defects DESC, counted.root_code ASC
            ROWS BETWEEN UNBOUNDED PRECEDING AND CURRENT ROW
        ) AS BIGINT) AS running_defects
    FROM counted
)

SELECT
    ranked.root_code,
    words.title,
    words.severity,
    words.safety_related,
    ranked.plants,
    ranked.defects,
    ranked.units,
    tested.units AS tested,
    100 * CAST(ranked.defects AS DOUBLE) / nullif(tested.units, 0) AS per_100,
    ranked.rank,
    CAST(ranked.defects AS DOUBLE) / nullif(ranked.all_defects, 0) AS share,
    CAST(ranked.running_defects AS DOUBLE) / nullif(ranked.all_defects, 0) AS cumulative_share
FROM ranked
INNER JOIN words ON words.root_code = ranked.root_code
CROSS JOIN tested;
