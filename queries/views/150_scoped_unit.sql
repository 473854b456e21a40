-- scoped_unit: the tested units of each shift, and of the 20 shifts that end with it
-- One row is a shift x production unit x test at attempt 1 in that shift (windows 1), or in one of its 20 (windows 20).
-- Rules 7 and 13.
-- Reads: tested_unit, shift_cover.
CREATE OR REPLACE VIEW scoped_unit AS
SELECT
    1 AS windows,
    tested_unit.production_date,
    tested_unit.shift,
    tested_unit.test,
    tested_unit.vin,
    tested_unit.run_id,
    tested_unit."at",
    tested_unit.model,
    tested_unit.line,
    tested_unit.known_from
FROM tested_unit
UNION ALL
SELECT
    20 AS windows,
    shift_cover.production_date,
    shift_cover.shift,
    tested_unit.test,
    tested_unit.vin,
    tested_unit.run_id,
    tested_unit."at",
    tested_unit.model,
    tested_unit.line,
    tested_unit.known_from
FROM shift_cover
INNER JOIN tested_unit
    ON tested_unit.production_date = shift_cover.part_date
    AND tested_unit.shift = shift_cover.part_shift;

COMMENT ON VIEW scoped_unit IS
    'One row is a tested production unit x test within a shift, or within the 20 shifts that end with it (rules 7 and 13); key windows, production_date, shift, run_id.';
COMMENT ON COLUMN scoped_unit.windows IS '1: the shift alone; 20: the 20 shifts that end with it.';
COMMENT ON COLUMN scoped_unit.production_date IS
    'day of the shift (rule 3), with 20 windows of the last of them.';
COMMENT ON COLUMN scoped_unit.shift IS 'the shift, with 20 windows the last of them; null between shifts.';
COMMENT ON COLUMN scoped_unit.test IS 'the test.';
COMMENT ON COLUMN scoped_unit.vin IS 'the unit.';
COMMENT ON COLUMN scoped_unit.run_id IS 'attempt 1.';
COMMENT ON COLUMN scoped_unit."at" IS 'when the run counts (UTC), its end (rule 3).';
COMMENT ON COLUMN scoped_unit.model IS 'model of the unit, null where unknown.';
COMMENT ON COLUMN scoped_unit.line IS 'production line of the unit, null where unknown.';
COMMENT ON COLUMN scoped_unit.known_from IS
    'earliest time anything is known of the unit (UTC), year 1 where unknown; a bound for look-ups.';
