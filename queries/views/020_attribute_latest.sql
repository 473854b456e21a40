-- attribute_latest: the latest value of each attribute of a unit
-- One row is a unit x attribute. Rule 10 reads it so; of two values of one time the file ranked higher wins (rule 1).
-- Reads: attribute, source_file.
CREATE OR REPLACE VIEW attribute_latest AS
SELECT
    attribute.vin,
    attribute.name,
    attribute."at",
    attribute.station,
    attribute.source,
    attribute.text_value,
    attribute.number_value,
    attribute.measure_unit
FROM attribute
LEFT JOIN source_file ON source_file.file_id = attribute.file_id
QUALIFY row_number() OVER (
    PARTITION BY attribute.vin, attribute.name
    ORDER BY
        attribute."at" DESC NULLS LAST,
        source_file.made_at DESC NULLS LAST,
        source_file.sha256 DESC NULLS LAST,
        attribute.file_row DESC NULLS LAST,
        attribute.station DESC NULLS LAST,
        attribute.source DESC NULLS LAST
) = 1;

COMMENT ON VIEW attribute_latest IS
    'One row is the latest value of an attribute of a unit (rule 10); key vin, name.';
COMMENT ON COLUMN attribute_latest.vin IS 'the unit.';
COMMENT ON COLUMN attribute_latest.name IS 'name of the attribute.';
COMMENT ON COLUMN attribute_latest."at" IS
    'when it was so (UTC), null where unknown; a known time is later than an unknown one.';
COMMENT ON COLUMN attribute_latest.station IS 'where it was made or measured, null where unknown.';
COMMENT ON COLUMN attribute_latest.source IS 'where it is known from.';
COMMENT ON COLUMN attribute_latest.text_value IS 'its value in words.';
COMMENT ON COLUMN attribute_latest.number_value IS 'its value as a number, null where it is none.';
COMMENT ON COLUMN attribute_latest.measure_unit IS 'unit of measure of the number.';
