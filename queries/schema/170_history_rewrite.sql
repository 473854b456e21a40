-- history_rewrite: one row is a change of plant.toml that moved the past, with its reason (rule 4)
CREATE TABLE history_rewrite (
    made_at TIMESTAMPTZ,
    reason VARCHAR,
    changed VARCHAR,
    was VARCHAR
);
COMMENT ON TABLE history_rewrite IS 'One row is a change of plant.toml that moved the past, with its reason (rule 4).';
COMMENT ON COLUMN history_rewrite.made_at IS 'when it was made, by the wall clock, UTC.';
COMMENT ON COLUMN history_rewrite.reason IS 'the reason given with --rewrite-history.';
COMMENT ON COLUMN history_rewrite.changed IS 'names of the declared tables that changed, comma separated.';
COMMENT ON COLUMN history_rewrite.was IS 'their rows before, as JSON.';
