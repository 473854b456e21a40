-- Note a step of the schema
-- Parameters: version, made_at, tool.
INSERT INTO schema_version (version, made_at, tool)
VALUES ($version, $made_at, $tool);
