-- found: where a code was found, and at which step
-- One row is a finding that counts as a defect, at the first counted run of a production unit (rules 8 and 13).
-- Parameters: code, test, from_at, to_at (UTC). Reads: classed_finding.
SELECT
    classed_finding.run_id,
    classed_finding.zone,
    classed_finding.step
FROM classed_finding
WHERE
    classed_finding.code = $code
    AND classed_finding.test = $test
    AND classed_finding.attempt = 1
    AND classed_finding.counts_as = 'defect'
    AND classed_finding.kind = 'production'
    AND classed_finding."at" >= CAST($from_at AS TIMESTAMPTZ)
    AND classed_finding."at" < CAST($to_at AS TIMESTAMPTZ);
