-- touched_unit: one row is a unit whose stamps are due; empty between loads
CREATE TABLE touched_unit (
    vin VARCHAR
);
COMMENT ON TABLE touched_unit IS 'One row is a unit whose stamps are due; empty between loads.';
COMMENT ON COLUMN touched_unit.vin IS 'the unit.';
