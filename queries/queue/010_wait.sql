-- wait: how long units wait from a fail to the pass that clears them
-- One row is a loop of a production unit in a test that began before $until and had not ended by $from_at (UTC;
-- $first_date is the production date of the latter); ended_at is null where the unit still waits. Reads: fail_loop, open_unit.
SELECT
    fail_loop.failed_at AS began_at,
    fail_loop.passed_at AS ended_at,
    fail_loop.fails
FROM fail_loop
WHERE
    fail_loop.production_date >= $first_date
    AND fail_loop.passed_at >= CAST($from_at AS TIMESTAMPTZ)
    AND fail_loop.failed_at < CAST($until AS TIMESTAMPTZ)
UNION ALL
SELECT
    open_unit.since AS began_at,
    NULL AS ended_at,
    open_unit.loops AS fails
FROM open_unit
WHERE open_unit.loops > 0 AND open_unit.since < CAST($until AS TIMESTAMPTZ)
ORDER BY began_at, ended_at;
