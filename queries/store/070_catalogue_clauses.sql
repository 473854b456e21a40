-- Rows of the catalogue with an applies_when (rule 10)
-- One row a catalogue row. Reads: defect_code.
SELECT code, test, valid_from, applies_when
FROM defect_code
WHERE applies_when IS NOT NULL AND applies_when <> '';
