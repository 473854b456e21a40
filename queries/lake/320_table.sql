-- A table of one plant, read from its parts
-- Reads: {source}.
CREATE VIEW {table} AS
SELECT * FROM {source};
