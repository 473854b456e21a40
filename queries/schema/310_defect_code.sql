-- defect_code: one row is a code of the catalogue, for a while; key code, test, valid_from
CREATE TABLE defect_code (
    code VARCHAR,
    test VARCHAR,
    title VARCHAR,
    severity VARCHAR,
    owner_area VARCHAR,
    safety_related BOOLEAN,
    handling VARCHAR,
    applies_when VARCHAR,
    same_as VARCHAR,
    valid_from TIMESTAMPTZ,
    valid_to TIMESTAMPTZ,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE defect_code IS 'One row is a code of the catalogue, for a while; key code, test, valid_from.';
COMMENT ON COLUMN defect_code.code IS 'the code.';
COMMENT ON COLUMN defect_code.test IS 'the test it belongs to, null for all.';
COMMENT ON COLUMN defect_code.title IS 'name in words.';
COMMENT ON COLUMN defect_code.severity IS 'severity class A, B, C or D.';
COMMENT ON COLUMN defect_code.owner_area IS 'area that owns it; equipment: a fault of the bench (rule 6).';
COMMENT ON COLUMN defect_code.safety_related IS 'true where a fault of this code can hurt.';
COMMENT ON COLUMN defect_code.handling IS 'the words to print beside such a unit.';
COMMENT ON COLUMN defect_code.applies_when IS 'which units can have it, as attribute clauses (rule 10).';
COMMENT ON COLUMN defect_code.same_as IS 'the code it is counted with (rule 12).';
COMMENT ON COLUMN defect_code.valid_from IS 'from when (UTC), null for ever before.';
COMMENT ON COLUMN defect_code.valid_to IS 'until when, exclusive (UTC), null for ever after.';
COMMENT ON COLUMN defect_code.file_id IS 'the file.';
COMMENT ON COLUMN defect_code.file_row IS 'row in that file.';
