-- rejected_rows: rows that could not be read, in files made since a shift began
-- One row; a row that only waits for another name of its unit is not counted (rule 17).
-- Reads: rejected_row, source_file, shift_window.
WITH present AS (
    SELECT shift_window.starts_at, shift_window.ends_at
    FROM shift_window
    WHERE
        shift_window.production_date = $production_date
        AND shift_window.shift = $shift
)

SELECT count(*) AS refused
FROM rejected_row
INNER JOIN source_file ON source_file.file_id = rejected_row.file_id
INNER JOIN present
    ON source_file.made_at >= present.starts_at
    AND source_file.made_at < present.ends_at + INTERVAL '1' DAY
WHERE rejected_row.waits_for IS NULL;
