-- rejected_rows_of_days: rows of the files of some days that could not be read; those that wait for a unit key do not count
-- One row. A file belongs to the days when it was made between the start of their first shift and a day after their last.
-- Reads: rejected_row, source_file, shift_window.
WITH present AS (
    SELECT
        min(shift_window.starts_at) AS starts_at,
        max(shift_window.ends_at) AS ends_at
    FROM shift_window
    WHERE shift_window.production_date BETWEEN $from_date AND $production_date
)

SELECT count(*) AS refused
FROM rejected_row
INNER JOIN source_file ON source_file.file_id = rejected_row.file_id
INNER JOIN present
    ON source_file.made_at >= present.starts_at
    AND source_file.made_at < present.ends_at + INTERVAL '1' DAY
WHERE rejected_row.waits_for IS NULL;
