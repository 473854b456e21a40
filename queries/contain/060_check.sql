-- check: the reference checks of each place of a test
-- One row is a station and bay: its checks, and those that showed all they should (rule 13).
-- Parameters: test, from_at, to_at (UTC). Reads: reference_check.
SELECT
    reference_check.station,
    reference_check.bay,
    count(*) AS checks,
    count(*) FILTER (WHERE reference_check.good) AS good
FROM reference_check
WHERE
    reference_check.test = $test
    AND reference_check."at" >= CAST($from_at AS TIMESTAMPTZ)
    AND reference_check."at" < CAST($to_at AS TIMESTAMPTZ)
GROUP BY reference_check.station, reference_check.bay
ORDER BY reference_check.station, reference_check.bay;
