-- containment_unit: one row is a unit of a suspect list; key containment_id, version, vin
CREATE TABLE containment_unit (
    containment_id VARCHAR,
    version BIGINT,
    vin VARCHAR,
    evidence VARCHAR,
    place VARCHAR,
    residual_risk DOUBLE
);
COMMENT ON TABLE containment_unit IS 'One row is a unit of a suspect list; key containment_id, version, vin.';
COMMENT ON COLUMN containment_unit.containment_id IS 'the list.';
COMMENT ON COLUMN containment_unit.version IS 'its version.';
COMMENT ON COLUMN containment_unit.vin IS 'the unit.';
COMMENT ON COLUMN containment_unit.evidence IS 'class of the evidence.';
COMMENT ON COLUMN containment_unit.place IS 'where the unit is.';
COMMENT ON COLUMN containment_unit.residual_risk IS 'chance that it has the fault although its test passed.';
