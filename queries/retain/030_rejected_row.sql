-- Refused rows of files that were loaded long ago; rows that wait for a unit key stay
-- Parameter: before. Writes: rejected_row. Reads: source_file.
DELETE FROM rejected_row
WHERE
    waits_for IS NULL
    AND file_id IN (SELECT file_id FROM source_file WHERE loaded_at < $before);
