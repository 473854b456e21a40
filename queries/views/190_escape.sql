-- escape: units past an event that asks for proof without it
-- One row is a production unit x required test. Rule 14.
-- Reads: lacking_proof.
CREATE OR REPLACE VIEW escape AS
SELECT
    lacking_proof.vin,
    lacking_proof.test,
    lacking_proof.reason,
    lacking_proof.event,
    lacking_proof.event_at
FROM lacking_proof
WHERE lacking_proof.silent_station IS NULL;

COMMENT ON VIEW escape IS
    'One row is a production unit past a proof event, not clear in a required test and not released (rule 14); key vin, test.';
COMMENT ON COLUMN escape.vin IS 'the unit.';
COMMENT ON COLUMN escape.test IS 'the required test in which it is not clear.';
COMMENT ON COLUMN escape.reason IS
    'failed, disturbed, bypassed, void or no_record, the first that applies (rule 14).';
COMMENT ON COLUMN escape.event IS 'kind of the first proof event that it passed.';
COMMENT ON COLUMN escape.event_at IS 'when it passed it (UTC).';
