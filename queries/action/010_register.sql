-- register: the actions against defects, with the test each is in and what the catalogue says of its code
-- One row is an action_id. cut_seq orders actions of one code: the build sequence given, else that behind the last unit
-- that left the line before the cut-in; previous_seq and next_seq are those of its neighbours in an overlapping zone,
-- together names one that cut in at the same place. test is null where none knows the code. Times are plant-local.
-- Parameters: until (UTC, null for all that is known). Reads: countermeasure, unit, finding, catalogue, applies, plant_setting.
WITH found AS (
    SELECT
        defect.code,
        max_by(defect.test, defect.defects) AS test
    FROM (
        SELECT finding.code, finding.test, count(*) AS defects
        FROM finding
        WHERE
            finding.counts_as = 'defect'
            AND finding.kind = 'production'
            AND finding.code IN (SELECT countermeasure.code FROM countermeasure WHERE countermeasure.test IS NULL)
        GROUP BY finding.code, finding.test
    ) AS defect
    GROUP BY defect.code
),

told AS (
    SELECT
        catalogue.code,
        catalogue.test,
        catalogue.title,
        catalogue.safety_related,
        catalogue.handling,
        catalogue.applies_owner IN (SELECT applies.owner FROM applies) AS only_some
    FROM catalogue
    QUALIFY row_number() OVER (PARTITION BY catalogue.code, catalogue.test ORDER BY catalogue.from_at DESC) = 1
),

left_before AS (
    SELECT countermeasure.action_id, max(unit.build_seq) + 1 AS seq
    FROM countermeasure
    INNER JOIN unit ON unit.line_off_at < countermeasure.cut_in_at AND unit.kind = 'production'
    WHERE countermeasure.from_build_seq IS NULL
    GROUP BY countermeasure.action_id
),

placed AS (
    SELECT
        countermeasure.*,
        coalesce(
            countermeasure.test,
            found.test,
            (SELECT min(told.test) FROM told WHERE told.code = countermeasure.code)
        ) AS own_test,
        coalesce(countermeasure.from_build_seq, left_before.seq) AS cut_seq
    FROM countermeasure
    LEFT JOIN found ON found.code = countermeasure.code
    LEFT JOIN left_before ON left_before.action_id = countermeasure.action_id
    CROSS JOIN plant_setting
    WHERE
        CAST($until AS TIMESTAMPTZ) IS NULL
        OR countermeasure.opened_on IS NULL
        OR countermeasure.opened_on <= CAST(CAST($until AS TIMESTAMPTZ) AT TIME ZONE plant_setting.timezone AS DATE)
)

SELECT
    placed.action_id,
    placed.own_test AS test,
    placed.code,
    placed.zone,
    placed.owner_area,
    placed.owner,
    placed.text,
    placed.opened_on,
    placed.due_on,
    placed.from_build_seq,
    placed.cut_in_at AT TIME ZONE plant_setting.timezone AS cut_in_at,
    placed.baseline_from,
    placed.baseline_to,
    placed.expected_ratio,
    placed.closed_on,
    test_definition.title AS test_title,
    told.title,
    coalesce(told.safety_related, false) AS safety_related,
    told.handling,
    coalesce(told.only_some, false) AS only_some,
    placed.cut_seq,
    max(other.cut_seq) FILTER (WHERE other.cut_seq < placed.cut_seq) AS previous_seq,
    min(other.cut_seq) FILTER (WHERE other.cut_seq > placed.cut_seq) AS next_seq,
    min(other.action_id) FILTER (WHERE other.cut_seq = placed.cut_seq) AS together
FROM placed
CROSS JOIN plant_setting
LEFT JOIN test_definition ON test_definition.test = placed.own_test
LEFT JOIN told ON told.code = placed.code AND told.test = placed.own_test
LEFT JOIN placed AS other
    ON other.code = placed.code
    AND other.own_test = placed.own_test
    AND other.action_id <> placed.action_id
    AND (other.zone IS NULL OR placed.zone IS NULL OR other.zone = placed.zone)
GROUP BY ALL
ORDER BY placed.opened_on, placed.action_id;
