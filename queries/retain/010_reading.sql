-- Readings that are old and decide nothing
-- A reading decides where its name is a required condition (rule 4) and it is its run's lowest or highest of that name: those
-- stay, so that stamps made anew are the same. Parameter: before_run_id, the first run that is young enough.
-- Writes: reading. Reads: reading, condition_limit.
DELETE FROM reading AS old
WHERE
    old.run_id < $before_run_id
    AND NOT EXISTS (
        SELECT 1
        FROM (
            SELECT run_id, name, min(value) AS lowest, max(value) AS highest
            FROM reading
            WHERE run_id < $before_run_id AND name IN (SELECT name FROM condition_limit WHERE required)
            GROUP BY run_id, name
        ) AS decides
        WHERE
            decides.run_id = old.run_id
            AND decides.name = old.name
            AND (old.value = decides.lowest OR old.value = decides.highest)
    );
