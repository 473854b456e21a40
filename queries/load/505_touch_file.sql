-- Units whose rows rank by their file without a rival for their key
-- Used when a file's made_at falls. Writes: touched_unit. Reads: unit_sent, attribute. Parameter: file_id.
INSERT INTO touched_unit
SELECT vin, line_off_at FROM unit_sent WHERE file_id = $file_id
UNION ALL
SELECT vin, "at" FROM attribute WHERE file_id = $file_id;
