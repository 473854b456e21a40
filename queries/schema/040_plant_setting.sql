-- plant_setting: one row is the plant's own settings of plant.toml
CREATE TABLE plant_setting (
    name VARCHAR,
    timezone VARCHAR,
    date_by VARCHAR,
    starts_on DATE,
    silence_limit BIGINT,
    settle_hours DOUBLE
);
COMMENT ON TABLE plant_setting IS 'One row is the plant''s own settings of plant.toml.';
COMMENT ON COLUMN plant_setting.name IS 'name of the plant.';
COMMENT ON COLUMN plant_setting.timezone IS 'time zone of the plant (IANA name).';
COMMENT ON COLUMN plant_setting.date_by IS 'start or end: which day a shift over midnight belongs to.';
COMMENT ON COLUMN plant_setting.starts_on IS 'first day of the record.';
COMMENT ON COLUMN plant_setting.silence_limit IS 'seconds a silent station is waited for (rule 14).';
COMMENT ON COLUMN plant_setting.settle_hours IS 'hours after its end in which a shift may settle (rule 11).';
