-- code_counts: units with each code in a span of days and in the days before, by plant
-- One row is a plant x test x code seen in either span: recent_from to recent_to, before_from to before_to, all included.
-- Units are those with an attempt 1 of the test in the span; a plant that tested nobody in one of them is left out.
-- Reads: first_run, defect.
WITH tested AS (
    SELECT
        first_run.plant,
        first_run.test,
        count(*) FILTER (WHERE first_run.production_date >= CAST($recent_from AS DATE)) AS recent_tested,
        count(*) FILTER (WHERE first_run.production_date <= CAST($before_to AS DATE)) AS before_tested
    FROM first_run
    WHERE
        first_run.production_date BETWEEN CAST($before_from AS DATE) AND CAST($recent_to AS DATE)
        AND (
            first_run.production_date >= CAST($recent_from AS DATE)
            OR first_run.production_date <= CAST($before_to AS DATE)
        )
    GROUP BY first_run.plant, first_run.test
),

showing AS (
    SELECT
        defect.plant,
        defect.test,
        defect.code,
        max(defect.title) AS title,
        bool_or(defect.safety_related) AS safety_related,
        count(DISTINCT CASE WHEN defect.production_date >= CAST($recent_from AS DATE) THEN defect.vin END) AS recent_units,
        count(DISTINCT CASE WHEN defect.production_date <= CAST($before_to AS DATE) THEN defect.vin END) AS before_units
    FROM defect
    WHERE defect.production_date BETWEEN CAST($before_from AS DATE) AND CAST($recent_to AS DATE)
    GROUP BY defect.plant, defect.test, defect.code
)

SELECT
    showing.plant,
    showing.test,
    showing.code,
    showing.title,
    showing.safety_related,
    showing.recent_units,
    tested.recent_tested,
    showing.before_units,
    tested.before_tested
FROM showing
INNER JOIN tested ON tested.plant = showing.plant AND tested.test = showing.test
WHERE tested.recent_tested > 0 AND tested.before_tested > 0 AND showing.recent_units + showing.before_units > 0;
