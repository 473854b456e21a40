-- bay_history: units tested and failed by bay, within shift and model, over the shifts up to a shift
-- One row is a shift x test x station x bay x model, from $first_date on (rules 7, 9 and 13).
-- Reads: first_run.
SELECT
    first_run.production_date,
    first_run.shift,
    first_run.test,
    first_run.station,
    first_run.bay,
    first_run.model,
    count(*) AS tested,
    count(*) - cast(sum(first_run.passed) AS BIGINT) AS failed
FROM first_run
WHERE first_run.production_date BETWEEN $first_date AND $production_date
GROUP BY
    first_run.production_date, first_run.shift, first_run.test, first_run.station, first_run.bay, first_run.model
ORDER BY
    first_run.production_date, first_run.shift, first_run.test, first_run.station, first_run.bay, first_run.model;
