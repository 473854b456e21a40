-- proof_event: one row is a kind of event that asks for proof of every required test (rule 14)
CREATE TABLE proof_event (
    kind VARCHAR
);
COMMENT ON TABLE proof_event IS 'One row is a kind of event that asks for proof of every required test (rule 14).';
COMMENT ON COLUMN proof_event.kind IS 'event kind.';
