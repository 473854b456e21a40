-- containment: one row is a version of a suspect list; key containment_id, version
CREATE TABLE containment (
    containment_id VARCHAR,
    version BIGINT,
    made_at TIMESTAMPTZ,
    made_by VARCHAR,
    question VARCHAR,
    edges VARCHAR,
    sha256 VARCHAR
);
COMMENT ON TABLE containment IS 'One row is a version of a suspect list; key containment_id, version.';
COMMENT ON COLUMN containment.containment_id IS 'the list.';
COMMENT ON COLUMN containment.version IS 'its version, from 1.';
COMMENT ON COLUMN containment.made_at IS 'when it was made (UTC).';
COMMENT ON COLUMN containment.made_by IS 'keyed pseudonym of who made it (rule 18).';
COMMENT ON COLUMN containment.question IS 'what was asked, as JSON.';
COMMENT ON COLUMN containment.edges IS 'its edges with their reasons, as JSON.';
COMMENT ON COLUMN containment.sha256 IS 'fingerprint of its units.';
