-- codes_before: the codes seen up to a shift, and whether they were seen before a day
-- One row is a test x code with a defect up to the shift's day (rule 8); safety_related: by the catalogue, or as found
-- from $first_date on. Reads: finding, catalogue, defect.
WITH seen AS (
    SELECT finding.test, finding.code, min(finding.production_date) AS first_seen
    FROM finding
    WHERE
        finding.counts_as = 'defect'
        AND finding.kind = 'production'
        AND finding.production_date <= $production_date
    GROUP BY finding.test, finding.code
),

told AS (
    SELECT
        catalogue.test,
        catalogue.code,
        max(catalogue.title) AS title,
        bool_or(catalogue.safety_related) AS safety_related
    FROM catalogue
    GROUP BY catalogue.test, catalogue.code
),

found AS (
    SELECT DISTINCT defect.test, defect.code
    FROM defect
    WHERE defect.safety_related AND defect.production_date BETWEEN $first_date AND $production_date
)

SELECT
    seen.test,
    seen.code,
    told.title,
    coalesce(told.safety_related, false) OR found.code IS NOT NULL AS safety_related,
    seen.first_seen < $first_date AS before
FROM seen
LEFT JOIN told ON told.test = seen.test AND told.code = seen.code
LEFT JOIN found ON found.test = seen.test AND found.code = seen.code
ORDER BY seen.test, seen.code;
