-- codes_that_moved: which codes are more or less frequent than in the time before
-- One row is a test x code: defects per hundred tested units over the last days and over as many days before, to the newest
-- production date. z is the distance of the two counts in standard deviations where both had the same rate (Poisson); with
-- many codes a few lie beyond 2 by chance alone. Rules 8 and 9.
-- Set: days = 7, last_date = null
-- Reads: first_run, defect.
WITH span AS (
    SELECT
        coalesce(CAST($last_date AS DATE), max(first_run.production_date)) AS last_date,
        CAST($days AS INTEGER) AS days
    FROM first_run
),

tested AS (
    SELECT
        first_run.test,
        count_if(first_run.production_date > span.last_date - span.days) AS units,
        count_if(first_run.production_date <= span.last_date - span.days) AS units_before
    FROM first_run
    CROSS JOIN span
    WHERE first_run.production_date <= span.last_date AND first_run.production_date > span.last_date - 2 * span.days
    GROUP BY first_run.test
),

counted AS (
    SELECT
        defect.test,
        defect.code,
        max(defect.title) AS title,
        count_if(defect.production_date > span.last_date - span.days) AS defects,
        count_if(defect.production_date <= span.last_date - span.days) AS defects_before
    FROM defect
    CROSS JOIN span
    WHERE defect.production_date <= span.last_date AND defect.production_date > span.last_date - 2 * span.days
    GROUP BY defect.test, defect.code
)

SELECT
    counted.test,
    counted.code,
    counted.title,
    counted.defects_before,
    counted.defects,
    100 * counted.defects_before / nullif(tested.units_before, 0) AS per_100_before,
    100 * counted.defects / nullif(tested.units, 0) AS per_100,
    (counted.defects * tested.units_before - counted.defects_before * tested.units)
    / nullif(sqrt((counted.defects + counted.defects_before) * tested.units * CAST(tested.units_before AS DOUBLE)), 0) AS z
FROM counted
INNER JOIN tested ON tested.test = counted.test
ORDER BY abs(z) DESC NULLS LAST, counted.test, counted.code;
