-- line_history: the line cohorts up to a shift
-- One row is a shift from $first_date on, the shift itself included, oldest first (rule 11).
-- Reads: line_by_shift, shift_window.
SELECT
    line_by_shift.production_date,
    line_by_shift.shift,
    line_by_shift.crew,
    line_by_shift.built,
    line_by_shift.went_through,
    line_by_shift.failed_one,
    line_by_shift.undecided,
    line_by_shift.ftt,
    line_by_shift.low,
    line_by_shift.high,
    line_by_shift.worst,
    line_by_shift.best,
    line_by_shift.rty,
    line_by_shift.defects,
    line_by_shift.dphu,
    line_by_shift.dphu_low,
    line_by_shift.dphu_high,
    line_by_shift.settled
FROM line_by_shift
LEFT JOIN shift_window
    ON shift_window.production_date = line_by_shift.production_date
    AND shift_window.shift = line_by_shift.shift
WHERE line_by_shift.production_date BETWEEN $first_date AND $production_date
ORDER BY shift_window.starts_at;
