-- What stands out in a shift of the demo
-- One row a sentence. Parameters: production_date, shift. Reads: ftt_by_shift, pareto_by_shift.
WITH said AS (
    SELECT
        1 AS place,
        ftt AS weight,
        concat(
            coalesce(d.title, f.test), ': ', f.passed_first, ' of ', f.tested, ' passed first time',
            CASE WHEN f.void_runs > 0 THEN concat('; ', f.void_runs, ' runs are void') ELSE '' END
        ) AS words
    FROM ftt_by_shift AS f
    LEFT JOIN test_definition AS d ON f.test = d.test
    WHERE f.production_date = cast($production_date AS DATE) AND f.shift = $shift
    UNION ALL
    SELECT
        2 AS place,
        -p.defects AS weight,
        concat(p.code, ' ', p.title, ': ', p.defects, ' defects on ', p.units, ' units') AS words
    FROM pareto_by_shift AS p
    WHERE p.production_date = cast($production_date AS DATE) AND p.shift = $shift AND p.rank = 1
)

SELECT words
FROM said
ORDER BY place, weight;
