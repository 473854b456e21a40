-- touched_unit: one row is a unit whose stamps are due; empty between loads
CREATE TABLE touched_unit (
    vin VARCHAR,
    earliest_at TIMESTAMPTZ
);
COMMENT ON TABLE touched_unit IS 'One row is a unit whose stamps are due; empty between loads.';
COMMENT ON COLUMN touched_unit.vin IS 'the unit.';
COMMENT ON COLUMN touched_unit.earliest_at IS 'earliest time that the new rows tell of the unit (UTC).';
