-- waits_for_unit: which units of a shift's line cohort have yet to be decided
-- One row is a required test x status of the units that are undecided and neither held, released, diverted nor an
-- escape (rule 11); waited_for counts each unit once. One row with test null where they wait for no test.
-- Reads: unit, line_standing, escape.
WITH undecided AS (
    SELECT unit.vin
    FROM unit
    WHERE
        unit.line_date = $production_date
        AND unit.line_shift = $shift
        AND unit.line_state = 'undecided'
        AND unit.kind = 'production'
),

standing AS (
    SELECT line_standing.vin, line_standing.test, line_standing.attempts, line_standing.status
    FROM line_standing
    WHERE
        line_standing.production_date = $production_date
        AND line_standing.shift = $shift
        AND line_standing.line_state = 'undecided'
        AND line_standing.required
),

excused AS (
    SELECT standing.vin
    FROM standing
    WHERE standing.status IN ('held', 'released', 'diverted')
    UNION
    SELECT escape.vin
    FROM escape
    WHERE escape.vin IN (SELECT undecided.vin FROM undecided)
),

waited AS (
    SELECT undecided.vin
    FROM undecided
    WHERE NOT EXISTS (SELECT 1 FROM excused WHERE excused.vin = undecided.vin)
),

total AS (
    SELECT count(*) AS waited_for FROM waited
)

SELECT
    standing.test,
    standing.status,
    count(*) AS units,
    max(total.waited_for) AS waited_for
FROM waited
CROSS JOIN total
LEFT JOIN standing ON standing.vin = waited.vin AND standing.attempts = 0
GROUP BY standing.test, standing.status
ORDER BY units DESC, standing.test ASC, standing.status ASC;
