-- Fingerprint of the views in the store
-- One row; null before the first. Reads: schema_version.
SELECT max_by(views, version) AS views
FROM schema_version;
