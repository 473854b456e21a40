-- A statement as its parse tree, to see which table functions it calls
-- One row. Parameter: statement, a SELECT as text. Reads nothing.
SELECT json_serialize_sql(CAST($statement AS VARCHAR)) AS tree;
