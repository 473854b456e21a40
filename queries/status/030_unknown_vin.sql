-- Units that only a test knows, with the scheduled VINs nearest to theirs (rule 17)
-- One row is an unknown VIN, a test it was run in and one of at most three VINs near it, nulls where none is near; the 50 newest VINs.
-- Near is an edit distance, swaps included, of at most 2. It is asked of the scheduled units of the same weeks alone, and there of those
-- that two edits can reach: two of them change at most four places, and one sign lost with another gained leaves the signs between in
-- their order, one place on. Units without a run of that test go first.
-- Reads: unit, run. Parameters: since, scheduled_since, first_run_id (bounds of what is recent).
WITH told AS (
    SELECT
        u.vin,
        r.test,
        count(*) AS runs,
        max(r."at") AS last_at,
        max_by(r.station, r."at") AS station
    FROM unit AS u
    INNER JOIN run AS r ON u.vin = r.vin
    WHERE NOT u.in_schedule AND r.run_id >= $first_run_id AND r."at" >= $since
    GROUP BY u.vin, r.test
),

newest AS (
    SELECT vin, max(last_at) AS last_at
    FROM told
    GROUP BY vin
    ORDER BY last_at DESC, vin ASC
    LIMIT 50
),

scheduled AS (
    SELECT vin
    FROM unit
    WHERE in_schedule AND coalesce(line_off_at, earliest_at, $since) >= $scheduled_since
),

pair AS (
    SELECT n.vin, s.vin AS near_vin, length(n.vin) AS signs
    FROM newest AS n
    INNER JOIN scheduled AS s ON length(n.vin) = length(s.vin)
),

-- CASE keeps the dear distance from all pairs but those that the cheap one leaves; as two filters they would be asked together.
near AS (
    SELECT
        vin,
        near_vin,
        CASE
            WHEN
                hamming(vin, near_vin) <= 4
                OR hamming(vin, near_vin) + hamming(substr(vin, 2), substr(near_vin, 1, signs - 1)) <= signs
                OR hamming(vin, near_vin) + hamming(substr(near_vin, 2), substr(vin, 1, signs - 1)) <= signs
                THEN damerau_levenshtein(vin, near_vin)
        END AS distance
    FROM pair
    WHERE distance <= 2
),

tested AS (
    SELECT DISTINCT vin, test
    FROM run
    WHERE run_id >= $first_run_id AND vin IN (SELECT near_vin FROM near)
),

ranked AS (
    SELECT
        t.vin,
        t.test,
        n.near_vin,
        n.distance,
        d.vin IS NOT NULL AS near_was_tested,
        row_number() OVER (
            PARTITION BY t.vin, t.test
            ORDER BY d.vin IS NOT NULL, n.distance, n.near_vin
        ) AS rank
    FROM told AS t
    INNER JOIN near AS n ON t.vin = n.vin
    LEFT JOIN tested AS d ON n.near_vin = d.vin AND t.test = d.test
)

SELECT
    t.vin,
    t.test,
    t.runs,
    t.last_at,
    t.station,
    r.near_vin,
    r.distance,
    r.near_was_tested
FROM told AS t
INNER JOIN newest AS n ON t.vin = n.vin
LEFT JOIN ranked AS r ON t.vin = r.vin AND t.test = r.test AND r.rank <= 3
ORDER BY n.last_at DESC, t.vin ASC, t.test ASC, r.rank ASC;
