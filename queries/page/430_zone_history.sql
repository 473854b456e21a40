-- zone_history: defects by zone up to a shift
-- One row is a shift x zone with a defect, from $first_date on, over all tests (rule 8).
-- Reads: defect.
SELECT
    defect.production_date,
    defect.shift,
    defect.zone,
    count(*) AS defects
FROM defect
WHERE
    defect.production_date BETWEEN $first_date AND $production_date
    AND defect.zone IS NOT NULL
GROUP BY defect.production_date, defect.shift, defect.zone
ORDER BY defect.production_date, defect.shift, defect.zone;
