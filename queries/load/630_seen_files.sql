-- Files of the inbox that need no second look: all but those refused or held under another plant.toml
-- One row a file. Parameter: settings. Reads: seen_file.
SELECT path, bytes, changed_at, state IN ('loaded', 'known') AS taken
FROM seen_file
WHERE state IN ('loaded', 'known') OR settings = $settings;
