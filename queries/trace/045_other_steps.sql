-- other_steps: at which step the other codes of a test were found
-- One row is a step; the findings of other codes that count as defects at first counted runs of production units.
-- Parameters: code, test, from_at, to_at (UTC). Reads: classed_finding.
SELECT
    classed_finding.step,
    count(*) AS findings
FROM classed_finding
WHERE
    classed_finding.code <> $code
    AND classed_finding.test = $test
    AND classed_finding.attempt = 1
    AND classed_finding.counts_as = 'defect'
    AND classed_finding.kind = 'production'
    AND classed_finding."at" >= CAST($from_at AS TIMESTAMPTZ)
    AND classed_finding."at" < CAST($to_at AS TIMESTAMPTZ)
GROUP BY classed_finding.step
ORDER BY classed_finding.step;
