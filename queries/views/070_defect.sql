-- defect: the defects of production units
-- One row is a code x zone on attempt 1 of a production unit in a test. Rules 8 and 13. The figures of defects are
-- rebuilt from it in one SELECT.
-- Reads: defect_all.
CREATE OR REPLACE VIEW defect AS
SELECT
    defect_all.vin,
    defect_all.test,
    defect_all.run_id,
    defect_all.code,
    defect_all.zone,
    defect_all.step,
    defect_all.severity,
    defect_all.owner_area,
    defect_all.safety_related,
    defect_all.title,
    defect_all.quantity,
    defect_all.station,
    defect_all.bay,
    defect_all."at",
    defect_all.production_date,
    defect_all.shift,
    defect_all.crew,
    defect_all.model,
    defect_all.line,
    defect_all.build_seq,
    defect_all.line_date,
    defect_all.line_shift,
    defect_all.root_code,
    defect_all.cell,
    defect_all.demerits
FROM defect_all
WHERE defect_all.kind = 'production';

COMMENT ON VIEW defect IS
    'One row is a defect of a production unit: a code x zone on attempt 1 (rules 8 and 13); key run_id, code, zone.';
COMMENT ON COLUMN defect.vin IS 'the unit.';
COMMENT ON COLUMN defect.test IS 'the test.';
COMMENT ON COLUMN defect.run_id IS 'attempt 1.';
COMMENT ON COLUMN defect.code IS 'what was found.';
COMMENT ON COLUMN defect.zone IS 'where on the unit, or which module; null where unknown.';
COMMENT ON COLUMN defect.step IS 'the first step by name in which it was found; null where unknown.';
COMMENT ON COLUMN defect.severity IS
    'the gravest class sent, else the catalogue''s at the run''s end; null where neither gives one.';
COMMENT ON COLUMN defect.owner_area IS 'area that owns the code.';
COMMENT ON COLUMN defect.safety_related IS
    'true where the catalogue says so, or water stands in a zone hv_near.';
COMMENT ON COLUMN defect.title IS 'name of the code in words.';
COMMENT ON COLUMN defect.quantity IS 'the quantities of its findings summed; one not sent is 1 (rule 8).';
COMMENT ON COLUMN defect.station IS 'where the run ran.';
COMMENT ON COLUMN defect.bay IS 'place within the station.';
COMMENT ON COLUMN defect."at" IS 'when the run counts (UTC), its end (rule 3).';
COMMENT ON COLUMN defect.production_date IS 'day of the run''s shift (rule 3).';
COMMENT ON COLUMN defect.shift IS 'shift of the run, null between shifts.';
COMMENT ON COLUMN defect.crew IS 'crew that worked the shift, null where unknown.';
COMMENT ON COLUMN defect.model IS 'model of the unit.';
COMMENT ON COLUMN defect.line IS 'production line of the unit.';
COMMENT ON COLUMN defect.build_seq IS 'place of the unit in the build order.';
COMMENT ON COLUMN defect.line_date IS
    'day of the shift in which the unit left the line, null where it has not (rule 11).';
COMMENT ON COLUMN defect.line_shift IS 'that shift, null between shifts.';
COMMENT ON COLUMN defect.root_code IS 'the code it is counted with on the line (rule 12).';
COMMENT ON COLUMN defect.cell IS 'cell of the zone, the zone itself where it has none (rule 12).';
COMMENT ON COLUMN defect.demerits IS 'weight of its severity class; null where unclassed.';
