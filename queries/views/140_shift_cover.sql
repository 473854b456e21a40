-- shift_cover: the 20 shifts that end with each shift
-- One row is a shift x one of the 20 windows that end with it, itself among them. Cancelled shifts and those not begun
-- at as_of are no windows; none is looked for more than 400 days back.
-- Reads: shift_window, as_of.
CREATE OR REPLACE VIEW shift_cover AS
SELECT
    ending.production_date,
    ending.shift,
    ending.crew,
    part.production_date AS part_date,
    part.shift AS part_shift
FROM shift_window AS ending
INNER JOIN as_of ON ending.starts_at <= as_of.as_of
INNER JOIN shift_window AS part
    ON part.starts_at <= ending.starts_at
    AND part.starts_at > ending.starts_at - INTERVAL '400' DAY
WHERE ending.cancelled IS NOT TRUE AND part.cancelled IS NOT TRUE
QUALIFY row_number() OVER (
    PARTITION BY ending.production_date, ending.shift
    ORDER BY part.starts_at DESC, part.production_date DESC, part.shift DESC
) <= 20;

COMMENT ON VIEW shift_cover IS
    'One row is a shift x one of the 20 shifts that end with it; key production_date, shift, part_date, part_shift.';
COMMENT ON COLUMN shift_cover.production_date IS 'day of the last of the 20 shifts (rule 3).';
COMMENT ON COLUMN shift_cover.shift IS 'the last of the 20 shifts.';
COMMENT ON COLUMN shift_cover.crew IS 'crew that worked the last shift, null where unknown.';
COMMENT ON COLUMN shift_cover.part_date IS 'day of one of the 20 shifts.';
COMMENT ON COLUMN shift_cover.part_shift IS 'one of the 20 shifts.';
