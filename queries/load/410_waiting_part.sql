-- Findings or readings that came apart join those that wait for their run
-- Writes: the waiting table. Places: waiting. Parameter: file_id.
INSERT INTO {waiting} BY NAME
SELECT a.*, $file_id AS file_id
FROM arriving AS a;
