-- Version 3: which event asks for proof of a test that is not clear
-- A status tells of its unit's events what views ask for; to look among all events made a shift cost what the history holds.
-- Writes: unit_status. Reads: event, proof_event.
ALTER TABLE unit_status ADD COLUMN asked_by VARCHAR;
ALTER TABLE unit_status ADD COLUMN asked_at TIMESTAMPTZ;
COMMENT ON COLUMN unit_status.asked_by IS 'kind of the first event that asks for proof of the test (rule 14); null where the test is clear or none has.';
COMMENT ON COLUMN unit_status.asked_at IS 'when that event was (UTC).';
UPDATE unit_status
SET asked_by = asked.kind, asked_at = asked."at"
FROM (
    SELECT e.vin, min_by(e.kind, (e."at", e.kind)) AS kind, min(e."at") AS "at"
    FROM event AS e
    INNER JOIN proof_event AS p ON e.kind = p.kind
    GROUP BY e.vin
) AS asked
WHERE asked.vin = unit_status.vin AND unit_status.clear_at IS NULL;
