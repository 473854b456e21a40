-- A view of the plant's own, as its file has it
-- Places: name, a quoted identifier; query, the SELECT of the file; comment, a quoted text. Writes a view of the schema mine.
CREATE OR REPLACE VIEW mine.{name} AS
{query};
COMMENT ON VIEW mine.{name} IS {comment};
