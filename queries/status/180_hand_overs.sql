-- hand_overs: how long units take from the test before to a station, and from it to the test after, by shift
-- One row is a station x shift with a first run between $from_at and $to_at; the medians are in seconds, over the first
-- runs of units in each test. Which test comes before is told by all units together, for a wrong clock turns the order of
-- a unit's own runs round. A slow clock makes the first shorter and the second longer by as much. Doubles of rule 2 are
-- left out. Reads: run.
WITH recent AS (
    SELECT
        run.vin,
        run.test,
        run.station,
        run.production_date,
        run.shift,
        run.started_at,
        run."at"
    FROM run
    WHERE
        run."at" >= $from_at
        AND run."at" < $to_at
        AND run.void_reason IS DISTINCT FROM 'suspect_double'
    QUALIFY row_number() OVER (PARTITION BY run.vin, run.test ORDER BY run.started_at, run.run_id) = 1
),

placed AS (
    SELECT
        recent.vin,
        recent.test,
        row_number() OVER (PARTITION BY recent.vin ORDER BY recent.started_at, recent.test) AS place
    FROM recent
),

test_order AS (
    SELECT placed.test, avg(placed.place) AS place
    FROM placed
    GROUP BY placed.test
),

way AS (
    SELECT
        recent.station,
        recent.production_date,
        recent.shift,
        recent.started_at,
        recent."at",
        lag(recent."at") OVER unit_way AS left_at,
        lead(recent.started_at) OVER unit_way AS reached_at
    FROM recent
    INNER JOIN test_order ON test_order.test = recent.test
    WINDOW unit_way AS (PARTITION BY recent.vin ORDER BY test_order.place, recent.test)
)

SELECT
    way.station,
    way.production_date,
    way.shift,
    count(way.left_at) AS n_before,
    median(date_diff('second', date_trunc('second', way.left_at), date_trunc('second', way.started_at))) AS before,
    count(way.reached_at) AS n_after,
    median(date_diff('second', date_trunc('second', way."at"), date_trunc('second', way.reached_at))) AS "after"
FROM way
WHERE way.shift IS NOT NULL
GROUP BY way.station, way.production_date, way.shift
ORDER BY way.station, way.production_date, way.shift;
