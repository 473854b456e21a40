-- check: the checks of benches by reference units
-- One row is a counted run of a reference unit in its declared test (rule 13), from $from_at up to $until (UTC).
-- Reads: reference_check.
SELECT
    reference_check.test,
    reference_check.station,
    reference_check.bay,
    reference_check."at",
    reference_check.production_date,
    reference_check.shift,
    reference_check.good
FROM reference_check
WHERE
    reference_check."at" >= CAST($from_at AS TIMESTAMPTZ)
    AND reference_check."at" < CAST($until AS TIMESTAMPTZ)
ORDER BY reference_check.test, reference_check.station, reference_check.bay, reference_check."at";
