-- The newest step of the schema
-- One row; version is null in a store without one. Reads: schema_version.
SELECT max(version) AS version
FROM schema_version;
