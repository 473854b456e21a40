-- usual_from: the day from which on so many shifts up to a day have runs
-- One row; the day itself where none has. Parameter: shifts, how many are wanted. Reads: run.
SELECT coalesce(min(worked.production_date), $production_date) AS first_date
FROM (
    SELECT DISTINCT run.production_date, run.shift
    FROM run
    WHERE
        run.production_date BETWEEN $production_date - 200 AND $production_date
        AND run.shift IS NOT NULL
        AND run.kind = 'production'
    ORDER BY run.production_date DESC
    LIMIT $shifts
) AS worked;
