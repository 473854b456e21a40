-- unproven: units whose proof may still be on its way from a silent station
-- One row is a production unit x required test. Rule 14: no escape yet, as a station of the test has sent nothing newer
-- than the event.
-- Reads: lacking_proof.
CREATE OR REPLACE VIEW unproven AS
SELECT
    lacking_proof.vin,
    lacking_proof.test,
    lacking_proof.reason,
    lacking_proof.event,
    lacking_proof.event_at,
    lacking_proof.silent_station AS station,
    lacking_proof.silent_since
FROM lacking_proof
WHERE lacking_proof.silent_station IS NOT NULL;

COMMENT ON VIEW unproven IS
    'One row is a production unit past a proof event whose proof may still come from a silent station (rule 14); key vin, test.';
COMMENT ON COLUMN unproven.vin IS 'the unit.';
COMMENT ON COLUMN unproven.test IS 'the required test in which it is not clear.';
COMMENT ON COLUMN unproven.reason IS
    'what it is known to lack: failed, disturbed, bypassed, void or no_record (rule 14).';
COMMENT ON COLUMN unproven.event IS 'kind of the first proof event that it passed.';
COMMENT ON COLUMN unproven.event_at IS 'when it passed it (UTC).';
COMMENT ON COLUMN unproven.station IS
    'the station that has sent nothing newer than the event; of several the one silent longest.';
COMMENT ON COLUMN unproven.silent_since IS 'newest run of that station (UTC).';
