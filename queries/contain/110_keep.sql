-- keep: a version of a suspect list and its units; versions before it stay
-- Parameters: containment_id, version, made_at, made_by, question, edges, sha256. Reads: arriving. Writes: containment,
-- containment_unit.
INSERT INTO containment
SELECT
    $containment_id AS containment_id,
    $version AS version,
    CAST($made_at AS TIMESTAMPTZ) AS made_at,
    $made_by AS made_by,
    $question AS question,
    $edges AS edges,
    $sha256 AS sha256;

INSERT INTO containment_unit
SELECT
    $containment_id AS containment_id,
    $version AS version,
    arriving.vin,
    arriving.evidence,
    arriving.place,
    arriving.residual_risk
FROM arriving;
