-- Rows of a file, as they would stand in their table
-- One row a key: of rows of one file with one key the last wins. Writes: incoming. Places: key.
CREATE OR REPLACE TEMP TABLE incoming AS
SELECT a.*, $file_id AS file_id
FROM arriving AS a
QUALIFY row_number() OVER (PARTITION BY {key} ORDER BY a.file_row DESC) = 1;
