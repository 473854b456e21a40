-- defect_all: the defects of units of any kind
-- One row is a code x zone on attempt 1 of a unit in a test. Rule 8: it counts one, its findings' quantities are summed
-- beside it. Severity: the gravest sent, else the catalogue's; demerits: the weight of that class.
-- Reads: classed_finding, demerit_weight.
CREATE OR REPLACE VIEW defect_all AS
WITH spot AS (
    SELECT
        classed_finding.vin,
        classed_finding.test,
        classed_finding.run_id,
        classed_finding.code,
        classed_finding.zone,
        min(classed_finding.step) AS step,
        coalesce(min(classed_finding.sent_severity), classed_finding.catalogue_severity) AS severity,
        classed_finding.owner_area,
        classed_finding.safety_related,
        classed_finding.title,
        CAST(sum(classed_finding.quantity) AS BIGINT) AS quantity,
        classed_finding.station,
        classed_finding.bay,
        classed_finding."at",
        classed_finding.production_date,
        classed_finding.shift,
        classed_finding.crew,
        classed_finding.kind,
        classed_finding.model,
        classed_finding.line,
        classed_finding.build_seq,
        classed_finding.line_date,
        classed_finding.line_shift,
        classed_finding.root_code,
        classed_finding.cell,
        classed_finding.applies_owner,
        classed_finding.applies_from
    FROM classed_finding
    WHERE classed_finding.attempt = 1 AND classed_finding.counts_as = 'defect'
    GROUP BY
        classed_finding.vin,
        classed_finding.test,
        classed_finding.run_id,
        classed_finding.code,
        classed_finding.zone,
        classed_finding.catalogue_severity,
        classed_finding.owner_area,
        classed_finding.safety_related,
        classed_finding.title,
        classed_finding.station,
        classed_finding.bay,
        classed_finding."at",
        classed_finding.production_date,
        classed_finding.shift,
        classed_finding.crew,
        classed_finding.kind,
        classed_finding.model,
        classed_finding.line,
        classed_finding.build_seq,
        classed_finding.line_date,
        classed_finding.line_shift,
        classed_finding.root_code,
        classed_finding.cell,
        classed_finding.applies_owner,
        classed_finding.applies_from
)

SELECT
    spot.vin,
    spot.test,
    spot.run_id,
    spot.code,
    spot.zone,
    spot.step,
    spot.severity,
    spot.owner_area,
    spot.safety_related,
    spot.title,
    spot.quantity,
    spot.station,
    spot.bay,
    spot."at",
    spot.production_date,
    spot.shift,
    spot.crew,
    spot.kind,
    spot.model,
    spot.line,
    spot.build_seq,
    spot.line_date,
    spot.line_shift,
    spot.root_code,
    spot.cell,
    demerit_weight.weight AS demerits,
    spot.applies_owner,
    spot.applies_from
FROM spot
LEFT JOIN demerit_weight ON demerit_weight.severity = spot.severity;

COMMENT ON VIEW defect_all IS
    'One row is a defect of a unit of any kind: a code x zone on attempt 1 (rule 8); key run_id, code, zone.';
COMMENT ON COLUMN defect_all.vin IS 'the unit.';
COMMENT ON COLUMN defect_all.test IS 'the test.';
COMMENT ON COLUMN defect_all.run_id IS 'attempt 1.';
COMMENT ON COLUMN defect_all.code IS 'what was found.';
COMMENT ON COLUMN defect_all.zone IS 'where on the unit, or which module; null where unknown.';
COMMENT ON COLUMN defect_all.step IS 'the first step by name in which it was found; null where unknown.';
COMMENT ON COLUMN defect_all.severity IS
    'the gravest class sent, else the catalogue''s at the run''s end; null where neither gives one.';
COMMENT ON COLUMN defect_all.owner_area IS 'area that owns the code.';
COMMENT ON COLUMN defect_all.safety_related IS
    'true where the catalogue says so, or water stands in a zone hv_near.';
COMMENT ON COLUMN defect_all.title IS 'name of the code in words.';
COMMENT ON COLUMN defect_all.quantity IS 'the quantities of its findings summed; one not sent is 1 (rule 8).';
COMMENT ON COLUMN defect_all.station IS 'where the run ran.';
COMMENT ON COLUMN defect_all.bay IS 'place within the station.';
COMMENT ON COLUMN defect_all."at" IS 'when the run counts (UTC), its end (rule 3).';
COMMENT ON COLUMN defect_all.production_date IS 'day of the run''s shift (rule 3).';
COMMENT ON COLUMN defect_all.shift IS 'shift of the run, null between shifts.';
COMMENT ON COLUMN defect_all.crew IS 'crew that worked the shift, null where unknown.';
COMMENT ON COLUMN defect_all.kind IS 'kind of the unit (rule 13).';
COMMENT ON COLUMN defect_all.model IS 'model of the unit.';
COMMENT ON COLUMN defect_all.line IS 'production line of the unit.';
COMMENT ON COLUMN defect_all.build_seq IS 'place of the unit in the build order.';
COMMENT ON COLUMN defect_all.root_code IS 'the code it is counted with on the line (rule 12).';
COMMENT ON COLUMN defect_all.cell IS 'cell of the zone, the zone itself where it has none (rule 12).';
COMMENT ON COLUMN defect_all.line_date IS
    'day of the shift in which the unit left the line, null where it has not (rule 11).';
COMMENT ON COLUMN defect_all.line_shift IS 'that shift, null between shifts.';
COMMENT ON COLUMN defect_all.demerits IS 'weight of its severity class; null where unclassed.';
COMMENT ON COLUMN defect_all.applies_owner IS 'key of the code''s clauses in applies (rule 10).';
COMMENT ON COLUMN defect_all.applies_from IS 'valid_from of those clauses (UTC).';
