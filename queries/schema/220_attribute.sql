-- attribute: one row is a fact of a unit from upstream; key vin, name, at, station, source
CREATE TABLE attribute (
    vin VARCHAR USING COMPRESSION zstd,
    name VARCHAR,
    "at" TIMESTAMPTZ,
    station VARCHAR,
    source VARCHAR,
    text_value VARCHAR,
    number_value DOUBLE,
    measure_unit VARCHAR,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE attribute IS 'One row is a fact of a unit from upstream; key vin, name, at, station, source.';
COMMENT ON COLUMN attribute.vin IS 'the unit.';
COMMENT ON COLUMN attribute.name IS 'name of the attribute.';
COMMENT ON COLUMN attribute."at" IS 'when it was so (UTC), null where unknown.';
COMMENT ON COLUMN attribute.station IS 'where it was made or measured, null where unknown.';
COMMENT ON COLUMN attribute.source IS 'where it is known from.';
COMMENT ON COLUMN attribute.text_value IS 'its value in words.';
COMMENT ON COLUMN attribute.number_value IS 'its value as a number, null where it is none.';
COMMENT ON COLUMN attribute.measure_unit IS 'unit of measure of the number.';
COMMENT ON COLUMN attribute.file_id IS 'the file.';
COMMENT ON COLUMN attribute.file_row IS 'row in that file.';
