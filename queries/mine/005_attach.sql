-- The copy to work on, before anybody reads it
-- Places: path, a quoted text; name, a quoted identifier. Reads and writes nothing.
ATTACH {path} AS {name};
