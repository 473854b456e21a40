-- bay_codes: defects, and units with them, of each code by bay, within shift and model, over the shifts up to a shift
-- One row is a shift x test x station x bay x model x code with a defect, from $first_date on (rule 8).
-- Reads: defect.
SELECT
    defect.production_date,
    defect.shift,
    defect.test,
    defect.station,
    defect.bay,
    defect.model,
    defect.code,
    count(*) AS defects,
    count(DISTINCT defect.vin) AS units
FROM defect
WHERE defect.production_date BETWEEN $first_date AND $production_date
GROUP BY
    defect.production_date, defect.shift, defect.test, defect.station, defect.bay, defect.model, defect.code
ORDER BY
    defect.production_date, defect.shift, defect.test, defect.station, defect.bay, defect.model, defect.code;
