-- zone: one row is a place on the unit; key zone, test
CREATE TABLE zone (
    zone VARCHAR,
    test VARCHAR,
    title VARCHAR,
    cell VARCHAR,
    outline VARCHAR,
    hv_near BOOLEAN,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE zone IS 'One row is a place on the unit; key zone, test.';
COMMENT ON COLUMN zone.zone IS 'the place.';
COMMENT ON COLUMN zone.test IS 'the test that uses it, null for all.';
COMMENT ON COLUMN zone.title IS 'name in words.';
COMMENT ON COLUMN zone.cell IS 'cell of the unit: front, mid or rear, left, centre or right, low, mid or high, joined by hyphens.';
COMMENT ON COLUMN zone.outline IS 'polygon seen from above, as x,y pairs, null where none.';
COMMENT ON COLUMN zone.hv_near IS 'true where high voltage is near: water there is safety-related.';
COMMENT ON COLUMN zone.file_id IS 'the file.';
COMMENT ON COLUMN zone.file_row IS 'row in that file.';
