-- Whether stamps are due: a load is under way, or one was broken off
-- One row. Reads: touched_unit.
SELECT count(*) > 0 AS due
FROM touched_unit;
