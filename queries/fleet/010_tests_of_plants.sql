-- tests_of_plants: FTT and DPHU of each test in each plant, with intervals
-- One row is a plant x test with a counted run from first_date to last_date (null: no bound). Rules 8, 9, 13 and 16:
-- Wilson score interval; mean -+ z s/sqrt(n) over the units' defect counts, for 0 defects 0 to 368.8879454/n.
-- Reads: first_run.
WITH unit_count AS (
    SELECT
        first_run.plant,
        first_run.test,
        count(*) AS tested,
        CAST(sum(first_run.passed) AS BIGINT) AS passed_first,
        CAST(sum(first_run.defects) AS BIGINT) AS defects,
        CAST(sum(first_run.defects * first_run.defects) AS BIGINT) AS squares,
        sum(first_run.demerits) AS demerits,
        min(first_run.production_date) AS first_date,
        max(first_run.production_date) AS last_date
    FROM first_run
    WHERE
        (CAST($first_date AS DATE) IS NULL OR first_run.production_date >= CAST($first_date AS DATE))
        AND (CAST($last_date AS DATE) IS NULL OR first_run.production_date <= CAST($last_date AS DATE))
    GROUP BY first_run.plant, first_run.test
),

share AS (
    SELECT
        unit_count.*,
        CAST(unit_count.tested AS DOUBLE) AS n,
        CAST(unit_count.passed_first AS DOUBLE) / unit_count.tested AS ftt,
        100 * CAST(unit_count.defects AS DOUBLE) / unit_count.tested AS dphu,
        195.9963984540054e0 * sqrt(
            CAST(unit_count.tested * unit_count.squares - unit_count.defects * unit_count.defects AS DOUBLE)
            / nullif(unit_count.tested - 1, 0)
        ) / unit_count.tested AS dphu_half
    FROM unit_count
),

-- z = 1.959963984540054; z^2 / 2, z^2 / 4 and z^2 stand as numbers
score AS (
    SELECT
        share.*,
        (share.ftt + 1.920729410347062e0 / share.n) / (1e0 + 3.841458820694124e0 / share.n) AS centre,
        1.959963984540054e0
        * sqrt(share.ftt * (1e0 - share.ftt) / share.n + 0.960364705173531e0 / (share.n * share.n))
        / (1e0 + 3.841458820694124e0 / share.n) AS half
    FROM share
)

SELECT
    score.plant,
    score.test,
    score.first_date,
    score.last_date,
    score.tested,
    score.passed_first,
    score.ftt,
    greatest(0e0, score.centre - score.half) AS low,
    least(1e0, score.centre + score.half) AS high,
    score.defects,
    score.dphu,
    CASE
        WHEN score.defects = 0 THEN 0e0
        WHEN score.tested > 1 THEN greatest(0e0, score.dphu - score.dphu_half)
    END AS dphu_low,
    CASE WHEN score.defects = 0 THEN 368.8879454e0 / score.tested ELSE score.dphu + score.dphu_half END AS dphu_high,
    score.demerits / score.tested AS demerits_per_unit
FROM score;
