-- unit_at_risk: which tested units can have a code that only some units can have
-- One row is a first run of a production unit x code of its test with applies_when. Rule 10: each clause met by the
-- latest attribute (model and line too) or unknown; a unit that shows the defect is at risk.
-- Reads: run_of_unit, catalogue, applies, attribute, source_file, finding.
CREATE OR REPLACE VIEW unit_at_risk AS
WITH tested AS (
    SELECT
        run_of_unit.production_date,
        run_of_unit.shift,
        run_of_unit.run_id,
        run_of_unit.vin,
        run_of_unit.test,
        run_of_unit."at",
        run_of_unit.model,
        run_of_unit.line
    FROM run_of_unit
    WHERE run_of_unit.attempt = 1 AND run_of_unit.kind = 'production'
),

told AS (
    SELECT
        tested.production_date,
        tested.shift,
        tested.run_id,
        attribute.name,
        max_by(
            coalesce(attribute.text_value, CAST(attribute.number_value AS VARCHAR)),
            (
                coalesce(attribute."at", CAST('0001-01-01 00:00:00+00:00' AS TIMESTAMPTZ)),
                coalesce(source_file.made_at, CAST('0001-01-01 00:00:00+00:00' AS TIMESTAMPTZ)),
                coalesce(source_file.sha256, ''),
                coalesce(attribute.file_row, 0)
            )
        ) AS told_value
    FROM tested
    INNER JOIN attribute ON attribute.vin = tested.vin
    LEFT JOIN source_file ON source_file.file_id = attribute.file_id
    WHERE
        attribute.name IN (SELECT applies.name FROM applies)
        AND attribute.name NOT IN ('model', 'line')
    GROUP BY tested.production_date, tested.shift, tested.run_id, attribute.name
),

fact AS (
    SELECT told.production_date, told.shift, told.run_id, told.name, told.told_value FROM told
    UNION ALL
    SELECT tested.production_date, tested.shift, tested.run_id, 'model', tested.model FROM tested
    UNION ALL
    SELECT tested.production_date, tested.shift, tested.run_id, 'line', tested.line FROM tested
),

asked AS (
    SELECT
        tested.production_date,
        tested.shift,
        tested.run_id,
        tested.vin,
        tested.test,
        catalogue.code,
        applies.clause,
        applies.name,
        applies."value"
    FROM tested
    INNER JOIN catalogue
        ON catalogue.test = tested.test
        AND catalogue.from_at <= tested."at"
        AND catalogue.to_at > tested."at"
    INNER JOIN applies
        ON applies.owner = catalogue.applies_owner
        AND applies.valid_from IS NOT DISTINCT FROM catalogue.applies_from
),

answered AS (
    SELECT
        asked.production_date,
        asked.shift,
        asked.run_id,
        asked.vin,
        asked.test,
        asked.code,
        asked.clause,
        bool_or(fact.told_value IS NOT NULL) AS known,
        bool_or(coalesce(fact.told_value = asked."value", false)) AS met
    FROM asked
    LEFT JOIN fact
        ON fact.run_id = asked.run_id
        AND fact.production_date = asked.production_date
        AND fact.name = asked.name
    GROUP BY
        asked.production_date,
        asked.shift,
        asked.run_id,
        asked.vin,
        asked.test,
        asked.code,
        asked.clause
),

judged AS (
    SELECT
        answered.production_date,
        answered.shift,
        answered.run_id,
        answered.vin,
        answered.test,
        answered.code,
        bool_and(answered.met OR NOT answered.known) AS can_have,
        bool_and(answered.known) AS known
    FROM answered
    GROUP BY
        answered.production_date,
        answered.shift,
        answered.run_id,
        answered.vin,
        answered.test,
        answered.code
),

showing AS (
    SELECT DISTINCT finding.run_id, finding.code
    FROM finding
    WHERE finding.counts_as = 'defect'
)

SELECT
    judged.production_date,
    judged.shift,
    judged.run_id,
    judged.vin,
    judged.test,
    judged.code,
    judged.can_have OR showing.code IS NOT NULL AS at_risk,
    judged.known OR NOT judged.can_have OR showing.code IS NOT NULL AS known
FROM judged
LEFT JOIN showing ON showing.run_id = judged.run_id AND showing.code = judged.code;

COMMENT ON VIEW unit_at_risk IS
    'One row is a first run of a production unit x code with applies_when: whether the unit can have the code (rule 10); key run_id, code.';
COMMENT ON COLUMN unit_at_risk.production_date IS 'day of the run''s shift (rule 3).';
COMMENT ON COLUMN unit_at_risk.shift IS 'shift of the run, null between shifts.';
COMMENT ON COLUMN unit_at_risk.run_id IS 'attempt 1.';
COMMENT ON COLUMN unit_at_risk.vin IS 'the unit.';
COMMENT ON COLUMN unit_at_risk.test IS 'the test.';
COMMENT ON COLUMN unit_at_risk.code IS 'a code that only some units can have.';
COMMENT ON COLUMN unit_at_risk.at_risk IS
    'true where each clause is met by the latest attribute or unknown, or the unit shows the defect (rule 10).';
COMMENT ON COLUMN unit_at_risk.known IS
    'false where the unit is at risk only because an attribute is unknown (rule 10).';
