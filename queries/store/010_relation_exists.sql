-- Is there a table or view of this name?
-- One row where there is. Parameter: name.
SELECT 1 AS found
FROM information_schema.tables
WHERE table_schema = 'main' AND table_name = $name;
