-- classed_finding: each finding with its run, its unit, and what the catalogue said of it then
-- One row is a finding of any run, whatever it counts as. Rules 4 (the catalogue row valid at the run's end), 8 and
-- 12. Water in a zone hv_near is safety-related whatever its severity.
-- Reads: run_of_unit, finding, catalogue, zone.
CREATE OR REPLACE VIEW classed_finding AS
SELECT
    run_of_unit.run_id,
    run_of_unit.vin,
    run_of_unit.test,
    finding.code,
    finding.zone,
    finding.step,
    finding.severity AS sent_severity,
    catalogue.severity AS catalogue_severity,
    catalogue.owner_area,
    coalesce(catalogue.safety_related, false)
    OR (run_of_unit.test = 'water' AND coalesce(own_zone.hv_near, any_zone.hv_near, false)) AS safety_related,
    catalogue.title,
    catalogue.handling,
    coalesce(catalogue.root_code, finding.code) AS root_code,
    coalesce(own_zone.cell, any_zone.cell, finding.zone) AS cell,
    coalesce(finding.quantity, 1) AS quantity,
    finding.counts_as,
    run_of_unit.station,
    run_of_unit.bay,
    run_of_unit."at",
    run_of_unit.result,
    run_of_unit.counts,
    run_of_unit.void_reason,
    run_of_unit.attempt,
    run_of_unit.production_date,
    run_of_unit.shift,
    run_of_unit.crew,
    run_of_unit.kind,
    run_of_unit.model,
    run_of_unit.line,
    run_of_unit.build_seq,
    finding.line_date,
    finding.line_shift,
    run_of_unit.earliest_at,
    catalogue.applies_owner,
    catalogue.applies_from
FROM run_of_unit
-- the day is the run's own: of the findings too one day is read where one is asked for
INNER JOIN finding
    ON finding.run_id = run_of_unit.run_id
    AND finding.production_date = run_of_unit.production_date
LEFT JOIN catalogue
    ON catalogue.code = finding.code
    AND catalogue.test = run_of_unit.test
    AND catalogue.from_at <= run_of_unit."at"
    AND catalogue.to_at > run_of_unit."at"
LEFT JOIN zone AS own_zone ON own_zone.zone = finding.zone AND own_zone.test = run_of_unit.test
LEFT JOIN zone AS any_zone
    ON any_zone.zone = finding.zone
    AND any_zone.test IS NULL
    AND own_zone.zone IS NULL;

COMMENT ON VIEW classed_finding IS
    'One row is a finding of any run with what the catalogue said of it at the run''s end (rules 4, 8, 12); key run_id, code, zone, step.';
COMMENT ON COLUMN classed_finding.run_id IS 'the run.';
COMMENT ON COLUMN classed_finding.vin IS 'the unit.';
COMMENT ON COLUMN classed_finding.test IS 'the test.';
COMMENT ON COLUMN classed_finding.code IS 'what was found.';
COMMENT ON COLUMN classed_finding.zone IS 'where on the unit, or which module; null where unknown.';
COMMENT ON COLUMN classed_finding.step IS 'track element, spray phase or test step; null where unknown.';
COMMENT ON COLUMN classed_finding.sent_severity IS 'severity class as sent, null where none was.';
COMMENT ON COLUMN classed_finding.catalogue_severity IS
    'severity class of the catalogue row valid at the run''s end, null where none is.';
COMMENT ON COLUMN classed_finding.owner_area IS
    'area that owns the code; equipment: a fault of the bench (rule 6).';
COMMENT ON COLUMN classed_finding.safety_related IS
    'true where the catalogue says so, or water stands in a zone hv_near; never null.';
COMMENT ON COLUMN classed_finding.title IS 'name of the code in words.';
COMMENT ON COLUMN classed_finding.handling IS 'the words to print beside such a unit.';
COMMENT ON COLUMN classed_finding.root_code IS 'the code it is counted with on the line (rule 12).';
COMMENT ON COLUMN classed_finding.cell IS 'cell of the zone, the zone itself where it has none (rule 12).';
COMMENT ON COLUMN classed_finding.quantity IS 'how many; 1 where not sent (rule 8).';
COMMENT ON COLUMN classed_finding.counts_as IS
    'defect, retest, masked, repeat, observation, equipment or void (rule 8).';
COMMENT ON COLUMN classed_finding.station IS 'where the run ran.';
COMMENT ON COLUMN classed_finding.bay IS 'place within the station.';
COMMENT ON COLUMN classed_finding."at" IS 'when the run counts (UTC), its end (rule 3).';
COMMENT ON COLUMN classed_finding.result IS 'result of the run.';
COMMENT ON COLUMN classed_finding.counts IS 'true where the run counts.';
COMMENT ON COLUMN classed_finding.void_reason IS 'why the run does not count, null where it does.';
COMMENT ON COLUMN classed_finding.attempt IS
    'number of the run among the counted ones, null where uncounted (rule 7).';
COMMENT ON COLUMN classed_finding.production_date IS 'day of the run''s shift (rule 3).';
COMMENT ON COLUMN classed_finding.shift IS 'shift of the run, null between shifts.';
COMMENT ON COLUMN classed_finding.crew IS 'crew that worked the shift, null where unknown.';
COMMENT ON COLUMN classed_finding.kind IS 'kind of the unit (rule 13).';
COMMENT ON COLUMN classed_finding.model IS 'model of the unit.';
COMMENT ON COLUMN classed_finding.line IS 'production line of the unit.';
COMMENT ON COLUMN classed_finding.build_seq IS 'place of the unit in the build order.';
COMMENT ON COLUMN classed_finding.line_date IS
    'day of the shift in which the unit left the line, null where it has not (rule 11).';
COMMENT ON COLUMN classed_finding.line_shift IS 'that shift, null between shifts.';
COMMENT ON COLUMN classed_finding.earliest_at IS
    'earliest time anything is known of the unit (UTC); a bound for look-ups.';
COMMENT ON COLUMN classed_finding.applies_owner IS 'key of the code''s clauses in applies (rule 10).';
COMMENT ON COLUMN classed_finding.applies_from IS 'valid_from of those clauses (UTC).';
