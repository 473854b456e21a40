-- version: the newest version of a suspect list
-- One row, none where there is none. Parameter: containment_id. Reads: containment.
SELECT
    containment.version,
    containment.sha256,
    containment.made_at,
    containment.made_by
FROM containment
WHERE containment.containment_id = $containment_id
ORDER BY containment.version DESC
LIMIT 1;
