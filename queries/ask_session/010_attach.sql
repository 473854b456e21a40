-- Lets an analyst's session read a database file
-- Places: path, a quoted text; name, a quoted identifier. Reads and writes nothing of the plant.
ATTACH {path} AS {name} (READ_ONLY);
