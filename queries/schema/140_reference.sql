-- reference: one row is what a reference vehicle must show (rule 13)
CREATE TABLE reference (
    vin VARCHAR,
    test VARCHAR,
    code VARCHAR,
    zone VARCHAR
);
COMMENT ON TABLE reference IS 'One row is what a reference vehicle must show (rule 13).';
COMMENT ON COLUMN reference.vin IS 'the reference vehicle.';
COMMENT ON COLUMN reference.test IS 'the test that must find its fault.';
COMMENT ON COLUMN reference.code IS 'the code it must show.';
COMMENT ON COLUMN reference.zone IS 'the zone it must show it in, null where any.';
