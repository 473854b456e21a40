-- test_with_code: the tests in which a code is found, or could be by the catalogue
-- One row is a test: units with the code as a defect in the time asked for (rule 8), and what the catalogue says of it
-- last. None where neither knows the code.
-- Parameters: code, from_at, to_at (UTC). Reads: defect, catalogue, applies.
WITH found AS (
    SELECT
        defect.test,
        count(DISTINCT defect.vin) AS defects
    FROM defect
    WHERE
        defect.code = $code
        AND defect."at" >= CAST($from_at AS TIMESTAMPTZ)
        AND defect."at" < CAST($to_at AS TIMESTAMPTZ)
    GROUP BY defect.test
),

told AS (
    SELECT
        catalogue.test,
        catalogue.title,
        catalogue.owner_area,
        catalogue.safety_related,
        catalogue.handling,
        catalogue.applies_owner
    FROM catalogue
    WHERE catalogue.code = $code
    QUALIFY row_number() OVER (PARTITION BY catalogue.test ORDER BY catalogue.from_at DESC) = 1
)

SELECT
    coalesce(found.test, told.test) AS test,
    coalesce(found.defects, 0) AS defects,
    told.title,
    told.owner_area,
    coalesce(told.safety_related, false) AS safety_related,
    told.handling,
    coalesce(told.applies_owner IN (SELECT applies.owner FROM applies), false) AS only_some
FROM found
FULL JOIN told ON told.test = found.test
ORDER BY defects DESC, test;
