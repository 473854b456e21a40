-- Rows of a file, as they would stand in their table
-- One row a key: of rows of one file with one key the last wins. Writes: incoming. Places: key.
CREATE OR REPLACE TEMP TABLE incoming AS
SELECT a.*
FROM arriving AS a
QUALIFY row_number() OVER (PARTITION BY a.file_id, {key} ORDER BY a.file_row DESC) = 1;
