-- touched_key: one row is a unit key that may name other units than before; empty between loads
CREATE TABLE touched_key (key VARCHAR);
COMMENT ON TABLE touched_key IS 'One row is a unit key that may name other units than before; empty between loads.';
COMMENT ON COLUMN touched_key.key IS 'the key, as kind=value.';
