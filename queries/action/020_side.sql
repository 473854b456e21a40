-- side: units before and after each action, by the shift of their first counted run
-- One row is an action x side x shift x model: production units at risk (rules 7, 10 and 13) and those of them with the code
-- (rule 8), in the action's zone where it has one. side is before, after, or transition: what the build sequence and
-- the time off the line tell apart, or, without a sequence, the rest of the shift in which it cut in.
-- Parameters: action_ids, tests, previous_seqs, next_seqs, only_some (one each an action, as register gives them); until
-- (UTC, null for all). Reads: countermeasure, tested_unit, unit, defect, unit_at_risk, shift_window.
WITH asked AS (
    SELECT
        unnest(CAST($action_ids AS VARCHAR[])) AS action_id,
        unnest(CAST($tests AS VARCHAR[])) AS test,
        unnest(CAST($previous_seqs AS BIGINT[])) AS previous_seq,
        unnest(CAST($next_seqs AS BIGINT[])) AS next_seq,
        unnest(CAST($only_some AS BOOLEAN[])) AS only_some
),

acted AS (
    SELECT
        asked.action_id,
        asked.test,
        asked.previous_seq,
        asked.next_seq,
        asked.only_some,
        countermeasure.code,
        countermeasure.zone,
        countermeasure.from_build_seq,
        countermeasure.cut_in_at,
        coalesce(running.ends_at, countermeasure.cut_in_at) AS sure_from
    FROM asked
    INNER JOIN countermeasure ON countermeasure.action_id = asked.action_id
    LEFT JOIN (
        SELECT countermeasure.action_id, max(shift_window.ends_at) AS ends_at
        FROM countermeasure
        INNER JOIN shift_window
            ON shift_window.starts_at < countermeasure.cut_in_at AND shift_window.ends_at > countermeasure.cut_in_at
        WHERE NOT shift_window.cancelled
        GROUP BY countermeasure.action_id
    ) AS running ON running.action_id = asked.action_id
    WHERE countermeasure.from_build_seq IS NOT NULL OR countermeasure.cut_in_at IS NOT NULL
),

spared AS (
    SELECT DISTINCT unit_at_risk.run_id, unit_at_risk.code
    FROM unit_at_risk
    WHERE
        unit_at_risk.windows = 1
        AND NOT unit_at_risk.at_risk
        AND unit_at_risk.code IN (SELECT acted.code FROM acted WHERE acted.only_some)
),

having_it AS (
    SELECT DISTINCT acted.action_id, defect.run_id
    FROM acted
    INNER JOIN defect
        ON defect.test = acted.test
        AND defect.code = acted.code
        AND (acted.zone IS NULL OR defect.zone = acted.zone)
),

sided AS (
    SELECT
        acted.action_id,
        acted.code,
        acted.previous_seq,
        acted.next_seq,
        tested_unit.run_id,
        tested_unit.production_date,
        tested_unit.shift,
        tested_unit.model,
        unit.build_seq,
        unit.build_seq >= acted.from_build_seq AS after_by_seq,
        CASE
            WHEN acted.from_build_seq IS NULL AND unit.line_off_at >= acted.cut_in_at AND unit.line_off_at < acted.sure_from
                THEN NULL
            ELSE unit.line_off_at >= acted.cut_in_at
        END AS after_by_time,
        unit.line_off_at IS NULL OR acted.cut_in_at IS NULL AS no_time,
        unit.build_seq IS NULL OR acted.from_build_seq IS NULL AS no_seq
    FROM acted
    INNER JOIN tested_unit ON tested_unit.test = acted.test
    INNER JOIN unit ON unit.vin = tested_unit.vin
    WHERE CAST($until AS TIMESTAMPTZ) IS NULL OR tested_unit."at" < CAST($until AS TIMESTAMPTZ)
),

judged AS (
    SELECT
        sided.action_id,
        sided.code,
        sided.run_id,
        sided.production_date,
        sided.shift,
        sided.model,
        sided.build_seq,
        sided.previous_seq,
        sided.next_seq,
        CASE
            WHEN sided.no_seq AND sided.no_time THEN NULL
            WHEN sided.no_time THEN CASE WHEN sided.after_by_seq THEN 'after' ELSE 'before' END
            WHEN sided.after_by_time IS NULL THEN 'transition'
            WHEN sided.no_seq OR sided.after_by_seq = sided.after_by_time
                THEN CASE WHEN sided.after_by_time THEN 'after' ELSE 'before' END
            ELSE 'transition'
        END AS side
    FROM sided
)

SELECT
    judged.action_id,
    judged.side,
    judged.production_date,
    judged.shift,
    judged.model,
    count(*) AS units,
    count(having_it.run_id) AS with_code
FROM judged
LEFT JOIN having_it ON having_it.action_id = judged.action_id AND having_it.run_id = judged.run_id
LEFT JOIN spared ON spared.run_id = judged.run_id AND spared.code = judged.code
WHERE
    judged.side IS NOT NULL
    AND spared.run_id IS NULL
    AND (judged.side <> 'before' OR judged.previous_seq IS NULL OR judged.build_seq >= judged.previous_seq)
    AND (judged.side <> 'after' OR judged.next_seq IS NULL OR judged.build_seq < judged.next_seq)
GROUP BY judged.action_id, judged.side, judged.production_date, judged.shift, judged.model
ORDER BY judged.action_id, judged.side, judged.production_date, judged.shift, judged.model;
