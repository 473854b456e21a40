-- The place of the plant's own views in the copy
-- Writes the schema mine of the copy.
CREATE SCHEMA IF NOT EXISTS mine;
