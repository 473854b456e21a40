-- safety_listed: production units with a safety-related finding that no release covers
-- One row is a unit x test x code x zone. A safety-related fail is never cleared by itself, nor by a harsh void (rule 4):
-- it is listed until a release that came after it.
-- Reads: finding, defect_code, zone, classed_finding, release_given.
CREATE OR REPLACE VIEW safety_listed AS
WITH unreleased AS (
    -- what is released was mostly long ago: it is left out before any run is looked at
    SELECT DISTINCT finding.vin
    FROM finding
    WHERE
        finding.kind = 'production'
        AND (
            finding.code IN (SELECT defect_code.code FROM defect_code WHERE defect_code.safety_related)
            OR finding.zone IN (SELECT zone.zone FROM zone WHERE zone.hv_near)
        )
        AND NOT EXISTS (
            SELECT 1
            FROM release_given
            WHERE release_given.vin = finding.vin AND release_given."at" >= finding."at"
        )
),

-- Of a unit that is on the list all is read: what was found again had been found before.
listed AS (
    SELECT finding.run_id
    FROM finding
    WHERE finding.vin IN (SELECT unreleased.vin FROM unreleased)
),

told AS (
    SELECT
        classed_finding.vin,
        classed_finding.test,
        classed_finding.code,
        classed_finding.zone,
        classed_finding.title,
        classed_finding.handling,
        classed_finding."at",
        classed_finding.counts,
        max(classed_finding."at") OVER (
            PARTITION BY classed_finding.vin, classed_finding.test, classed_finding.code, classed_finding.zone
        ) AS last_seen_at
    FROM classed_finding
    WHERE
        classed_finding.run_id IN (SELECT listed.run_id FROM listed)
        AND classed_finding.kind = 'production'
        AND classed_finding.safety_related
        AND classed_finding.counts_as IN ('defect', 'retest', 'masked', 'repeat', 'void')
        AND classed_finding.void_reason IS DISTINCT FROM 'suspect_double'
        AND classed_finding.result IN ('fail', 'aborted')
),

-- The words are those of the catalogue row valid when it was last seen (rule 4).
seen AS (
    SELECT
        told.vin,
        told.test,
        told.code,
        told.zone,
        max(CASE WHEN told."at" = told.last_seen_at THEN told.title END) AS title,
        max(CASE WHEN told."at" = told.last_seen_at THEN told.handling END) AS handling,
        min(told."at") AS first_seen_at,
        told.last_seen_at,
        bool_and(NOT told.counts) AS only_void
    FROM told
    GROUP BY told.vin, told.test, told.code, told.zone, told.last_seen_at
)

SELECT
    seen.vin,
    seen.test,
    seen.code,
    seen.zone,
    seen.title,
    seen.handling,
    seen.first_seen_at,
    seen.last_seen_at,
    seen.only_void
FROM seen
WHERE NOT EXISTS (
    SELECT 1
    FROM release_given
    WHERE release_given.vin = seen.vin AND release_given."at" >= seen.last_seen_at
);

COMMENT ON VIEW safety_listed IS
    'One row is a safety-related finding of a production unit''s fail that no later release covers (rules 4 and 15); key vin, test, code, zone.';
COMMENT ON COLUMN safety_listed.vin IS 'the unit.';
COMMENT ON COLUMN safety_listed.test IS 'the test.';
COMMENT ON COLUMN safety_listed.code IS 'the code.';
COMMENT ON COLUMN safety_listed.zone IS 'where on the unit, null where unknown.';
COMMENT ON COLUMN safety_listed.title IS 'name of the code in words, by the catalogue when it was last found.';
COMMENT ON COLUMN safety_listed.handling IS
    'the words to print beside such a unit, by the catalogue when it was last found.';
COMMENT ON COLUMN safety_listed.first_seen_at IS 'end of the first run that found it (UTC).';
COMMENT ON COLUMN safety_listed.last_seen_at IS
    'end of the latest run that found it (UTC); a release before it does not cover it.';
COMMENT ON COLUMN safety_listed.only_void IS
    'true where only void runs found it: a harsh test condemns no unit and clears none (rule 4).';
