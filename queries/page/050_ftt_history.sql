-- ftt_history: first-time-through of each test up to a shift
-- One row is a shift x test from $first_date on, the shift itself included; starts_at null: between shifts.
-- Reads: ftt_by_shift, shift_window.
SELECT
    ftt_by_shift.production_date,
    ftt_by_shift.shift,
    ftt_by_shift.crew,
    shift_window.starts_at,
    ftt_by_shift.test,
    ftt_by_shift.presented,
    ftt_by_shift.tested,
    ftt_by_shift.passed_first,
    ftt_by_shift.ftt,
    ftt_by_shift.low,
    ftt_by_shift.high,
    ftt_by_shift.pending,
    ftt_by_shift.void_runs,
    ftt_by_shift.aborted_runs,
    ftt_by_shift.retested,
    ftt_by_shift.settled
FROM ftt_by_shift
LEFT JOIN shift_window
    ON shift_window.production_date = ftt_by_shift.production_date
    AND shift_window.shift = ftt_by_shift.shift
WHERE ftt_by_shift.production_date BETWEEN $first_date AND $production_date
ORDER BY shift_window.starts_at, ftt_by_shift.test;
