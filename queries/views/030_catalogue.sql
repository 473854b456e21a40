-- catalogue: what the catalogue says of a code in a test, for a span of time
-- One row is a code x test x span; the spans of a code in a test do not overlap.
-- Rules 4 (dated: the row valid at the run's end applies; the newest valid_from wins) and 12 (same_as followed to
-- its root). A row that names the test goes before one for all tests.
-- Reads: defect_code, test_definition.
CREATE OR REPLACE VIEW catalogue AS
WITH RECURSIVE test_name AS (
    SELECT test_definition.test FROM test_definition
    UNION
    SELECT defect_code.test FROM defect_code WHERE defect_code.test IS NOT NULL
),

entry AS (
    SELECT
        defect_code.code,
        test_name.test,
        defect_code.test IS NOT NULL AS names_test,
        coalesce(defect_code.valid_from, CAST('0001-01-01 00:00:00+00:00' AS TIMESTAMPTZ)) AS from_at,
        coalesce(defect_code.valid_to, CAST('9999-12-31 00:00:00+00:00' AS TIMESTAMPTZ)) AS to_at,
        defect_code.title,
        defect_code.severity,
        defect_code.owner_area,
        coalesce(defect_code.safety_related, false) AS safety_related,
        defect_code.handling,
        defect_code.same_as,
        concat('code:', defect_code.code, ':', coalesce(defect_code.test, '')) AS applies_owner,
        defect_code.valid_from AS applies_from
    FROM defect_code
    INNER JOIN test_name ON defect_code.test = test_name.test OR defect_code.test IS NULL
),

edge AS (
    SELECT entry.code, entry.test, entry.from_at FROM entry
    UNION
    SELECT entry.code, entry.test, entry.to_at FROM entry
    UNION
    -- a joined code changes with the codes that it is joined to
    SELECT joined.code, joined.test, other.from_at
    FROM entry AS joined
    INNER JOIN entry AS other ON other.test = joined.test
    WHERE joined.same_as IS NOT NULL
    UNION
    SELECT joined.code, joined.test, other.to_at
    FROM entry AS joined
    INNER JOIN entry AS other ON other.test = joined.test
    WHERE joined.same_as IS NOT NULL
),

span AS (
    SELECT
        edge.code,
        edge.test,
        edge.from_at,
        lead(edge.from_at) OVER (PARTITION BY edge.code, edge.test ORDER BY edge.from_at) AS to_at
    FROM edge
),

valid AS (
    SELECT
        span.code,
        span.test,
        span.from_at,
        span.to_at,
        entry.title,
        entry.severity,
        entry.owner_area,
        entry.safety_related,
        entry.handling,
        entry.same_as,
        entry.applies_owner,
        entry.applies_from
    FROM span
    INNER JOIN entry
        ON entry.code = span.code
        AND entry.test = span.test
        AND entry.from_at <= span.from_at
        AND entry.to_at > span.from_at
    QUALIFY row_number() OVER (
        PARTITION BY span.code, span.test, span.from_at
        ORDER BY entry.names_test DESC, entry.from_at DESC
    ) = 1
),

chain AS (
    SELECT valid.code, valid.test, valid.from_at, valid.same_as AS joined_to, 1 AS links
    FROM valid
    WHERE valid.same_as IS NOT NULL
    UNION ALL
    SELECT chain.code, chain.test, chain.from_at, valid.same_as, chain.links + 1
    FROM chain
    INNER JOIN valid
        ON valid.code = chain.joined_to
        AND valid.test = chain.test
        AND valid.from_at <= chain.from_at
        AND valid.to_at > chain.from_at
    WHERE valid.same_as IS NOT NULL AND chain.links < 100
),

root AS (
    SELECT chain.code, chain.test, chain.from_at, max_by(chain.joined_to, chain.links) AS root_code
    FROM chain
    GROUP BY chain.code, chain.test, chain.from_at
    -- codes that come back to themselves have no root: each is counted by itself
    HAVING max(chain.links) < 100
)

SELECT
    valid.code,
    valid.test,
    valid.from_at,
    valid.to_at,
    valid.title,
    valid.severity,
    valid.owner_area,
    valid.safety_related,
    valid.handling,
    coalesce(root.root_code, valid.code) AS root_code,
    valid.applies_owner,
    valid.applies_from
FROM valid
LEFT JOIN root ON root.code = valid.code AND root.test = valid.test AND root.from_at = valid.from_at;

COMMENT ON VIEW catalogue IS
    'One row is what the catalogue says of a code in a test for a span of time (rules 4 and 12); key code, test, from_at.';
COMMENT ON COLUMN catalogue.code IS 'the code.';
COMMENT ON COLUMN catalogue.test IS
    'the test; a row of the catalogue that names no test stands here for each test.';
COMMENT ON COLUMN catalogue.from_at IS 'from when (UTC), inclusive; year 1 for ever before.';
COMMENT ON COLUMN catalogue.to_at IS 'until when (UTC), exclusive; year 9999 for ever after.';
COMMENT ON COLUMN catalogue.title IS 'name in words.';
COMMENT ON COLUMN catalogue.severity IS 'severity class A, B, C or D; null where the catalogue gives none.';
COMMENT ON COLUMN catalogue.owner_area IS 'area that owns it; equipment: a fault of the bench (rule 6).';
COMMENT ON COLUMN catalogue.safety_related IS 'true where a fault of this code can hurt; never null.';
COMMENT ON COLUMN catalogue.handling IS 'the words to print beside such a unit.';
COMMENT ON COLUMN catalogue.root_code IS
    'the code it is counted with on the line, same_as followed to its end (rule 12).';
COMMENT ON COLUMN catalogue.applies_owner IS 'key of its clauses in applies (rule 10).';
COMMENT ON COLUMN catalogue.applies_from IS
    'valid_from of its clauses in applies (UTC), null where that has none.';
