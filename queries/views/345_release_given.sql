-- release_given: each release that someone gave by name and on a paper
-- One row is such an event. A release without either covers nothing (rule 14).
-- Reads: event.
CREATE OR REPLACE VIEW release_given AS
SELECT
    event.event_id,
    event.vin,
    event."at",
    event.reference,
    event.entered_by
FROM event
WHERE event.kind = 'release' AND event.entered_by IS NOT NULL AND event.reference IS NOT NULL;

COMMENT ON VIEW release_given IS
    'One row is a release that someone gave by name and on a paper (rule 14); key event_id.';
COMMENT ON COLUMN release_given.event_id IS 'the event.';
COMMENT ON COLUMN release_given.vin IS 'the unit.';
COMMENT ON COLUMN release_given."at" IS 'when (UTC); it covers what the unit lacked then, and what had been found until then.';
COMMENT ON COLUMN release_given.reference IS 'number of the paper behind it.';
COMMENT ON COLUMN release_given.entered_by IS 'keyed pseudonym of who gave it (rule 18).';
