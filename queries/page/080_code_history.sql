-- code_history: defects of each code up to a shift
-- One row is a shift x test x code with a defect, from $first_date on (rule 8).
-- Reads: defect.
SELECT
    defect.production_date,
    defect.shift,
    defect.test,
    defect.code,
    count(*) AS defects
FROM defect
WHERE defect.production_date BETWEEN $first_date AND $production_date
GROUP BY defect.production_date, defect.shift, defect.test, defect.code
ORDER BY defect.production_date, defect.shift, defect.test, defect.code;
