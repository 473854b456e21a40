-- Version 3: which event asks for proof of a test that is not clear, and of which test and shift a finding is
-- A status tells of its unit's events what views ask for, and a finding of its run; to look among all events and runs made
-- a shift cost what the history holds. Writes: unit_status, finding. Reads: event, proof_event, run, unit.
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

ALTER TABLE finding ADD COLUMN test VARCHAR;
ALTER TABLE finding ADD COLUMN vin VARCHAR;
ALTER TABLE finding ADD COLUMN "at" TIMESTAMPTZ;
ALTER TABLE finding ADD COLUMN kind VARCHAR;
ALTER TABLE finding ADD COLUMN production_date DATE;
ALTER TABLE finding ADD COLUMN line_date DATE;
ALTER TABLE finding ADD COLUMN line_shift VARCHAR;
ALTER TABLE superseded.finding ADD COLUMN test VARCHAR;
ALTER TABLE superseded.finding ADD COLUMN vin VARCHAR;
ALTER TABLE superseded.finding ADD COLUMN "at" TIMESTAMPTZ;
ALTER TABLE superseded.finding ADD COLUMN kind VARCHAR;
ALTER TABLE superseded.finding ADD COLUMN production_date DATE;
ALTER TABLE superseded.finding ADD COLUMN line_date DATE;
ALTER TABLE superseded.finding ADD COLUMN line_shift VARCHAR;
COMMENT ON COLUMN finding.test IS 'stamp: test of the run; this and what follows spare views the look-up among all runs.';
COMMENT ON COLUMN finding.vin IS 'stamp: unit of the run, as in run.';
COMMENT ON COLUMN finding."at" IS 'stamp: when the run counts (UTC), as in run (rule 3).';
COMMENT ON COLUMN finding.kind IS 'stamp: kind of the unit, as in unit (rule 13).';
COMMENT ON COLUMN finding.production_date IS 'stamp: day of the shift of the run, as in run (rule 3).';
COMMENT ON COLUMN finding.line_date IS 'stamp: day of the shift in which the unit left the line, as in unit (rule 11).';
COMMENT ON COLUMN finding.line_shift IS 'stamp: that shift, as in unit.';
UPDATE finding
SET
    test = told.test,
    vin = told.vin,
    "at" = told."at",
    kind = told.kind,
    production_date = told.production_date,
    line_date = told.line_date,
    line_shift = told.line_shift
FROM (
    SELECT r.run_id, r.test, r.vin, r."at", r.kind, r.production_date, u.line_date, u.line_shift
    FROM run AS r
    LEFT JOIN unit AS u ON r.vin = u.vin
) AS told
WHERE told.run_id = finding.run_id;

COMMENT ON TABLE station_heard IS 'One row is a test x station and the newest run it has sent; kept up to date whenever units are stamped (rules 11 and 14).';
