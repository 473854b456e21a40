-- Version 4: a vehicle that plant.toml declares is a reference unit where nothing else tells its kind; keys are JSON
-- Rule 13. Such units are stamped anew. Until now a code with a quote or a backslash stood in a key as it is. Writes:
-- touched_unit, figure_sent. Reads: reference, unit.
INSERT INTO touched_unit
SELECT u.vin, u.earliest_at
FROM unit AS u
WHERE u.vin IN (SELECT r.vin FROM reference AS r);

UPDATE figure_sent
SET key = concat(
    regexp_extract(key, '^(.*?,"code":")', 1),
    replace(replace(regexp_extract(key, ',"code":"(.*)"\}$', 1), '\', '\\'), '"', '\"'),
    '"}'
)
WHERE regexp_matches(regexp_extract(key, ',"code":"(.*)"\}$', 1), '["\\]');
