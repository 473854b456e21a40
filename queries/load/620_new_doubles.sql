-- Suspect doubles among the runs of the files loaded at a moment (rule 2)
-- One row: their number. Parameter: loaded_at. Reads: run, source_file.
SELECT count(*) AS doubles
FROM run
WHERE
    void_reason = 'suspect_double'
    AND file_id IN (SELECT file_id FROM source_file WHERE loaded_at = $loaded_at);
