-- Windows of plant.toml, where the feed shifts gives none (rule 3)
-- Writes: shift_window where a window differs. Reads: arriving.
CREATE OR REPLACE TEMP TABLE fresh_window AS
SELECT a.*
FROM arriving AS a
ANTI JOIN (SELECT production_date, shift FROM shift_window WHERE file_id IS NOT NULL) AS w
    ON a.production_date = w.production_date AND a.shift = w.shift;

DELETE FROM shift_window AS w
WHERE
    w.file_id IS NULL
    AND NOT EXISTS (
        SELECT 1 FROM fresh_window AS f
        WHERE
            f.production_date = w.production_date AND f.shift = w.shift
            AND f.starts_at = w.starts_at AND f.ends_at = w.ends_at AND f.crew IS NOT DISTINCT FROM w.crew
    );

INSERT INTO shift_window BY NAME
SELECT f.*
FROM fresh_window AS f
ANTI JOIN shift_window AS w ON f.production_date = w.production_date AND f.shift = w.shift;
