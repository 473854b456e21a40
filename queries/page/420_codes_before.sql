-- codes_before: the codes seen up to a shift, and whether they were seen before a day
-- One row is a test x code with a defect up to the shift's day (rule 8).
-- Reads: defect.
WITH seen AS (
    SELECT
        defect.test,
        defect.code,
        min(defect.production_date) AS first_seen,
        bool_or(defect.safety_related) AS safety_related,
        max(defect.title) AS title
    FROM defect
    WHERE defect.production_date <= $production_date
    GROUP BY defect.test, defect.code
)

SELECT
    seen.test,
    seen.code,
    seen.title,
    coalesce(seen.safety_related, false) AS safety_related,
    seen.first_seen < $first_date AS before
FROM seen
ORDER BY seen.test, seen.code;
