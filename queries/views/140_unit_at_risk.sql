-- unit_at_risk: which tested units can have a code that only some units can have
-- One row is a first run of a production unit x code of its test with applies_when. Rule 10: each clause met by the
-- latest attribute (model and line too) or unknown; a unit that shows the defect is at risk.
-- Reads: tested_unit, catalogue, applies, attribute, source_file, finding.
CREATE OR REPLACE VIEW unit_at_risk AS
WITH dated AS (
    SELECT
        tested_unit.production_date,
        tested_unit.shift,
        tested_unit.run_id,
        attribute.name,
        coalesce(attribute.text_value, CAST(attribute.number_value AS VARCHAR)) AS told_value,
        attribute."at",
        attribute.file_id,
        attribute.file_row
    FROM tested_unit
    INNER JOIN attribute
        ON attribute.vin = tested_unit.vin
        -- nothing of a unit is earlier: spares the attributes of older units
        AND attribute."at" >= tested_unit.known_from
    WHERE attribute.name IN (SELECT applies.name FROM applies)
    UNION ALL
    SELECT
        tested_unit.production_date,
        tested_unit.shift,
        tested_unit.run_id,
        attribute.name,
        coalesce(attribute.text_value, CAST(attribute.number_value AS VARCHAR)) AS told_value,
        CAST('0001-01-01 00:00:00+00:00' AS TIMESTAMPTZ) AS "at",
        attribute.file_id,
        attribute.file_row
    FROM tested_unit
    INNER JOIN attribute ON attribute.vin = tested_unit.vin
    WHERE attribute."at" IS NULL AND attribute.name IN (SELECT applies.name FROM applies)
),

told AS (
    SELECT
        dated.production_date,
        dated.shift,
        dated.run_id,
        dated.name,
        max_by(
            dated.told_value,
            (
                dated."at",
                coalesce(source_file.made_at, CAST('0001-01-01 00:00:00+00:00' AS TIMESTAMPTZ)),
                coalesce(source_file.sha256, ''),
                coalesce(dated.file_row, 0)
            )
        ) AS told_value
    FROM dated
    LEFT JOIN source_file ON source_file.file_id = dated.file_id
    GROUP BY dated.production_date, dated.shift, dated.run_id, dated.name
),

asked AS (
    SELECT
        tested_unit.production_date,
        tested_unit.shift,
        tested_unit.run_id,
        tested_unit.vin,
        tested_unit.test,
        tested_unit.model,
        tested_unit.line,
        catalogue.code,
        applies.clause,
        applies.name,
        applies."value"
    FROM tested_unit
    INNER JOIN catalogue
        ON catalogue.test = tested_unit.test
        AND catalogue.from_at <= tested_unit."at"
        AND catalogue.to_at > tested_unit."at"
    INNER JOIN applies
        ON applies.owner = catalogue.applies_owner
        AND applies.valid_from IS NOT DISTINCT FROM catalogue.applies_from
),

compared AS (
    SELECT
        asked.production_date,
        asked.shift,
        asked.run_id,
        asked.vin,
        asked.test,
        asked.code,
        asked.clause,
        asked."value",
        CASE asked.name WHEN 'model' THEN asked.model WHEN 'line' THEN asked.line ELSE told.told_value END AS told_value
    FROM asked
    LEFT JOIN told
        ON told.run_id = asked.run_id
        AND told.production_date = asked.production_date
        AND told.name = asked.name
),

answered AS (
    SELECT
        compared.production_date,
        compared.shift,
        compared.run_id,
        compared.vin,
        compared.test,
        compared.code,
        compared.clause,
        bool_or(compared.told_value IS NOT NULL) AS known,
        bool_or(coalesce(compared.told_value = compared."value", false)) AS met
    FROM compared
    GROUP BY
        compared.production_date,
        compared.shift,
        compared.run_id,
        compared.vin,
        compared.test,
        compared.code,
        compared.clause
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
