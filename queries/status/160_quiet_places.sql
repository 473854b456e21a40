-- quiet_places: the longest silence of each place while a shift ran, and what the other places did meanwhile
-- One row is a test x station x bay with a run in the shift; times are UTC. The silence may last to the shift's end or
-- to the data clock. runs are the place's own; others ran at the other places of its test (of all tests where it is the
-- test's only place), others_meanwhile of them during its silence.
-- Reads: run, shift_window, as_of.
WITH ran AS (
    SELECT run.test, run.station, run.bay, run."at"
    FROM run
    WHERE
        run.production_date = $production_date
        AND run.shift = $shift
        AND run.void_reason IS DISTINCT FROM 'suspect_double'
),

place AS (
    SELECT
        ran.test,
        ran.station,
        ran.bay,
        count(*) AS runs,
        CAST(sum(count(*)) OVER (PARTITION BY ran.test) AS BIGINT) AS runs_of_test,
        CAST(sum(count(*)) OVER () AS BIGINT) AS runs_of_all
    FROM ran
    GROUP BY ran.test, ran.station, ran.bay
),

mark AS (
    SELECT ran.test, ran.station, ran.bay, ran."at"
    FROM ran
    UNION ALL
    SELECT place.test, place.station, place.bay, least(shift_window.ends_at, as_of.as_of) AS "at"
    FROM place
    CROSS JOIN as_of
    INNER JOIN shift_window
        ON shift_window.production_date = $production_date
        AND shift_window.shift = $shift
),

silence AS (
    SELECT
        mark.test,
        mark.station,
        mark.bay,
        mark."at" AS from_at,
        lead(mark."at") OVER (PARTITION BY mark.test, mark.station, mark.bay ORDER BY mark."at") AS to_at
    FROM mark
),

longest AS (
    SELECT silence.test, silence.station, silence.bay, silence.from_at, silence.to_at
    FROM silence
    WHERE silence.to_at IS NOT NULL
    QUALIFY row_number() OVER (
        PARTITION BY silence.test, silence.station, silence.bay
        ORDER BY
            date_diff('second', date_trunc('second', silence.from_at), date_trunc('second', silence.to_at)) DESC,
            silence.from_at
    ) = 1
)

SELECT
    longest.test,
    longest.station,
    longest.bay,
    longest.from_at,
    longest.to_at,
    place.runs,
    max(CASE WHEN place.runs < place.runs_of_test THEN place.runs_of_test ELSE place.runs_of_all END) - place.runs AS others,
    count(ran."at") AS others_meanwhile
FROM longest
INNER JOIN place
    ON place.test = longest.test
    AND place.station = longest.station
    AND place.bay IS NOT DISTINCT FROM longest.bay
LEFT JOIN ran
    ON ran."at" > longest.from_at
    AND ran."at" < longest.to_at
    AND (ran.test = longest.test OR place.runs = place.runs_of_test)
    AND (ran.test <> longest.test OR ran.station <> longest.station OR ran.bay IS DISTINCT FROM longest.bay)
GROUP BY longest.test, longest.station, longest.bay, longest.from_at, longest.to_at, place.runs
ORDER BY longest.test, longest.station, longest.bay;
