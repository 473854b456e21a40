-- Runs with one name: the bench's own, else unit, test, station and second of the start, as sent (rule 1)
-- One row a name that stands twice. Reads: run.
SELECT
    coalesce(
        station || ' ' || run_ref,
        concat_ws(' ', vin_sent, test, station, cast(date_trunc('second', started_at_sent) AS VARCHAR))
    ) AS what,
    count(*) AS rows
FROM run
GROUP BY what
HAVING count(*) > 1
LIMIT 20;
