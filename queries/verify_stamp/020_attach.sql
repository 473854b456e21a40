-- The store beside its copy, read only
-- Places: path (quoted as a string).
ATTACH {path} AS stored (READ_ONLY);
