-- shifts_of_plants: FTT and DPHU of each test by plant and shift, with intervals
-- One row is a plant x production_date x shift x test from first_date to last_date (null: no bound). Rules 9 and 16.
-- Reads: ftt_by_shift, dphu_by_shift.
SELECT
    ftt_by_shift.plant,
    ftt_by_shift.production_date,
    ftt_by_shift.shift,
    ftt_by_shift.crew,
    ftt_by_shift.test,
    ftt_by_shift.tested,
    ftt_by_shift.passed_first,
    ftt_by_shift.ftt,
    ftt_by_shift.low,
    ftt_by_shift.high,
    ftt_by_shift.pending,
    dphu_by_shift.defects,
    dphu_by_shift.dphu,
    dphu_by_shift.low AS dphu_low,
    dphu_by_shift.high AS dphu_high,
    ftt_by_shift.settled
FROM ftt_by_shift
INNER JOIN dphu_by_shift
    ON dphu_by_shift.plant = ftt_by_shift.plant
    AND dphu_by_shift.production_date = ftt_by_shift.production_date
    AND dphu_by_shift.shift IS NOT DISTINCT FROM ftt_by_shift.shift
    AND dphu_by_shift.crew IS NOT DISTINCT FROM ftt_by_shift.crew
    AND dphu_by_shift.test = ftt_by_shift.test
WHERE
    (CAST($first_date AS DATE) IS NULL OR ftt_by_shift.production_date >= CAST($first_date AS DATE))
    AND (CAST($last_date AS DATE) IS NULL OR ftt_by_shift.production_date <= CAST($last_date AS DATE));
