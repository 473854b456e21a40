-- double_look: units that were looked at twice, the second time as an audit, with no repair between
-- One row is a test: how often both looks failed, only the first, only the audit, or neither; of production units,
-- audits that ended from $from_at up to $until (UTC), each with the last counted run before it.
-- Reads: run_of_unit, run, repair.
WITH audit AS (
    SELECT
        run_of_unit.vin,
        run_of_unit.test,
        run_of_unit.run_id,
        run_of_unit."at",
        run_of_unit.attempt,
        run_of_unit.result
    FROM run_of_unit
    INNER JOIN run ON run.run_id = run_of_unit.run_id
    WHERE
        run.purpose = 'audit'
        AND run_of_unit.counts
        AND run_of_unit.kind = 'production'
        AND run_of_unit."at" >= CAST($from_at AS TIMESTAMPTZ)
        AND run_of_unit."at" < CAST($until AS TIMESTAMPTZ)
),

paired AS (
    SELECT
        audit.test,
        audit.result <> 'pass' AS audit_failed,
        first_look.result <> 'pass' AS first_failed
    FROM audit
    INNER JOIN run AS first_look
        ON first_look.vin = audit.vin AND first_look.test = audit.test AND first_look.attempt = audit.attempt - 1
    WHERE NOT EXISTS (
        SELECT 1
        FROM repair
        WHERE
            repair.vin = audit.vin
            AND repair."class" IS DISTINCT FROM 'none'
            AND coalesce(repair.ended_at, repair.started_at, repair.entered_at) BETWEEN first_look."at" AND audit."at"
    )
)

SELECT
    paired.test,
    count(*) FILTER (WHERE paired.first_failed AND paired.audit_failed) AS both_failed,
    count(*) FILTER (WHERE paired.first_failed AND NOT paired.audit_failed) AS only_first,
    count(*) FILTER (WHERE paired.audit_failed AND NOT paired.first_failed) AS only_audit,
    count(*) FILTER (WHERE NOT paired.first_failed AND NOT paired.audit_failed) AS neither
FROM paired
GROUP BY paired.test
ORDER BY paired.test;
