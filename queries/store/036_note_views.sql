-- Note which views are in the store
-- Parameter: views. Writes: schema_version.
UPDATE schema_version
SET views = $views
WHERE version = (SELECT max(version) FROM schema_version);
