-- unit_at_risk: which tested units can have a code that only some units can have
-- One row is a first run of a production unit within a shift, or within its 20, x code of its test with applies_when. Rule 10: each clause met by the
-- latest attribute (model and line too) or unknown; a unit that shows the defect is at risk.
-- Reads: scoped_unit, catalogue, applies, attribute, source_file, finding, defect_code.
CREATE OR REPLACE VIEW unit_at_risk AS
WITH asked AS (
    SELECT
        scoped_unit.windows,
        scoped_unit.production_date,
        scoped_unit.shift,
        scoped_unit.run_id,
        scoped_unit.vin,
        scoped_unit.test,
        scoped_unit.model,
        scoped_unit.line,
        scoped_unit.known_from,
        catalogue.code,
        applies.clause,
        applies.name,
        applies."value"
    FROM scoped_unit
    INNER JOIN catalogue
        ON catalogue.test = scoped_unit.test
        AND catalogue.from_at <= scoped_unit."at"
        AND catalogue.to_at > scoped_unit."at"
    INNER JOIN applies
        ON applies.owner = catalogue.applies_owner
        AND applies.valid_from IS NOT DISTINCT FROM catalogue.applies_from
),

compared AS (
    SELECT
        asked.windows,
        asked.production_date,
        asked.shift,
        asked.run_id,
        asked.vin,
        asked.test,
        asked.code,
        asked.clause,
        asked."value",
        CASE asked.name
            WHEN 'model' THEN asked.model
            WHEN 'line' THEN asked.line
            ELSE coalesce(
                max_by(
                    coalesce(dated.text_value, CAST(dated.number_value AS VARCHAR)),
                    (
                        dated."at",
                        coalesce(dated_file.made_at, CAST('0001-01-01 00:00:00+00:00' AS TIMESTAMPTZ)),
                        coalesce(dated_file.sha256, ''),
                        coalesce(dated.file_row, 0)
                    )
                ),
                max_by(
                    coalesce(undated.text_value, CAST(undated.number_value AS VARCHAR)),
                    (
                        coalesce(undated_file.made_at, CAST('0001-01-01 00:00:00+00:00' AS TIMESTAMPTZ)),
                        coalesce(undated_file.sha256, ''),
                        coalesce(undated.file_row, 0)
                    )
                )
            )
        END AS told_value
    FROM asked
    -- nothing of a unit is earlier than known_from: that spares the attributes of older units
    LEFT JOIN attribute AS dated
        ON dated.vin = asked.vin
        AND dated.name = asked.name
        AND dated."at" >= asked.known_from
        AND dated.name IN (SELECT applies.name FROM applies)
    LEFT JOIN attribute AS undated
        ON undated.vin = asked.vin
        AND undated.name = asked.name
        AND undated."at" IS NULL
        AND undated.name IN (SELECT applies.name FROM applies)
    LEFT JOIN source_file AS dated_file ON dated_file.file_id = dated.file_id
    LEFT JOIN source_file AS undated_file ON undated_file.file_id = undated.file_id
    GROUP BY
        asked.windows,
        asked.production_date,
        asked.shift,
        asked.run_id,
        asked.vin,
        asked.test,
        asked.code,
        asked.clause,
        asked."value",
        asked.name,
        asked.model,
        asked.line
),

answered AS (
    SELECT
        compared.windows,
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
        compared.windows,
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
        answered.windows,
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
        answered.windows,
        answered.production_date,
        answered.shift,
        answered.run_id,
        answered.vin,
        answered.test,
        answered.code
),

showing AS (
    SELECT DISTINCT scoped_unit.windows, scoped_unit.production_date, scoped_unit.shift, finding.run_id, finding.code
    FROM scoped_unit
    INNER JOIN finding ON finding.run_id = scoped_unit.run_id
    WHERE
        finding.counts_as = 'defect'
        -- spares the findings of codes that every unit can have
        AND finding.code IN (SELECT defect_code.code FROM defect_code WHERE defect_code.applies_when IS NOT NULL)
)

SELECT
    judged.windows,
    judged.production_date,
    judged.shift,
    judged.run_id,
    judged.vin,
    judged.test,
    judged.code,
    judged.can_have OR showing.code IS NOT NULL AS at_risk,
    judged.known OR NOT judged.can_have OR showing.code IS NOT NULL AS known
FROM judged
LEFT JOIN showing
    ON showing.windows = judged.windows
    AND showing.production_date = judged.production_date
    AND showing.shift IS NOT DISTINCT FROM judged.shift
    AND showing.run_id = judged.run_id
    AND showing.code = judged.code;

COMMENT ON VIEW unit_at_risk IS
    'One row is a first run of a production unit x code with applies_when: whether the unit can have the code (rule 10); key windows, production_date, shift, run_id, code.';
COMMENT ON COLUMN unit_at_risk.windows IS '1: the shift alone; 20: the 20 shifts that end with it.';
COMMENT ON COLUMN unit_at_risk.production_date IS
    'day of the shift (rule 3), with 20 windows of the last of them.';
COMMENT ON COLUMN unit_at_risk.shift IS 'the shift, with 20 windows the last of them; null between shifts.';
COMMENT ON COLUMN unit_at_risk.run_id IS 'attempt 1.';
COMMENT ON COLUMN unit_at_risk.vin IS 'the unit.';
COMMENT ON COLUMN unit_at_risk.test IS 'the test.';
COMMENT ON COLUMN unit_at_risk.code IS 'a code that only some units can have.';
COMMENT ON COLUMN unit_at_risk.at_risk IS
    'true where each clause is met by the latest attribute or unknown, or the unit shows the defect (rule 10).';
COMMENT ON COLUMN unit_at_risk.known IS
    'false where the unit is at risk only because an attribute is unknown (rule 10).';
