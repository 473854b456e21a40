-- All rows of a table without months
-- Reads: {table}.
SELECT {table}.* FROM {table};
