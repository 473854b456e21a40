-- disturbs: one row is a kind of repair that disturbs a test, so that a pass before it proves nothing (rule 14)
CREATE TABLE disturbs (
    field VARCHAR,
    "value" VARCHAR,
    test VARCHAR
);
COMMENT ON TABLE disturbs IS 'One row is a kind of repair that disturbs a test, so that a pass before it proves nothing (rule 14).';
COMMENT ON COLUMN disturbs.field IS 'what of the repair is compared: action, code or owner_area.';
COMMENT ON COLUMN disturbs."value" IS 'the value that disturbs.';
COMMENT ON COLUMN disturbs.test IS 'the test that is disturbed.';
