-- The answers of a shift to some questions, anew
-- Parameters: production_date, shift (null between shifts), questions. Reads: arriving. Writes: answer.
DELETE FROM answer
WHERE
    production_date = $production_date
    AND shift IS NOT DISTINCT FROM $shift
    AND list_contains($questions, question);

INSERT INTO answer BY NAME
SELECT *
FROM arriving;
