-- Findings or readings that are taken back go; of the runs that another file told the same of, that one is decided again
-- Writes: the table, its twin in superseded, the waiting table, touched_unit, and decided (one row a run). Places: part, waiting, decided.
CREATE OR REPLACE TEMP TABLE {decided} AS
SELECT r.run_id
FROM run AS r
WHERE
    r.run_id IN (
        SELECT t.run_id
        FROM {part} AS t
        SEMI JOIN taken_back AS b ON t.file_id = b.file_id AND t.file_row = b.file_row
    )
    AND r.run_id IN (SELECT s.run_id FROM superseded.{part} AS s);

INSERT INTO touched_unit
SELECT r.vin, r.started_at_sent
FROM run AS r
WHERE
    r.run_id IN (
        SELECT t.run_id
        FROM {part} AS t
        SEMI JOIN taken_back AS b ON t.file_id = b.file_id AND t.file_row = b.file_row
    );

DELETE FROM {part} AS t
USING taken_back AS b
WHERE t.file_id = b.file_id AND t.file_row = b.file_row;

DELETE FROM superseded.{part} AS t
USING taken_back AS b
WHERE t.file_id = b.file_id AND t.file_row = b.file_row;

DELETE FROM {waiting} AS t
USING taken_back AS b
WHERE t.file_id = b.file_id AND t.file_row = b.file_row;
