-- Units that a file tells of: where its rank changes they may stand otherwise, also where no key has a rival
-- Used when a file's made_at falls. Writes: touched_unit. Reads: run, unit_sent, attribute. Parameter: file_id.
INSERT INTO touched_unit
SELECT vin, started_at_sent FROM run WHERE file_id = $file_id
UNION ALL
SELECT vin, started_at_sent FROM superseded.run WHERE file_id = $file_id
UNION ALL
SELECT vin, line_off_at FROM unit_sent WHERE file_id = $file_id
UNION ALL
SELECT vin, "at" FROM attribute WHERE file_id = $file_id;
