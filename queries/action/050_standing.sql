-- standing: an action as it stands, with when its file was made
-- One row, none where there is no such action. Parameters: action_id. Reads: countermeasure, source_file.
SELECT
    countermeasure.*,
    source_file.made_at
FROM countermeasure
LEFT JOIN source_file ON source_file.file_id = countermeasure.file_id
WHERE countermeasure.action_id = $action_id;
