-- Codes that come back to themselves through same_as, told by several files (rule 12)
-- One row a code x test; each is counted by itself until one of them is made the root. Reads: defect_code.
WITH RECURSIVE follows AS (
    SELECT code, test, same_as, 1 AS links
    FROM defect_code
    WHERE same_as IS NOT NULL
    UNION ALL
    SELECT f.code, f.test, d.same_as, f.links + 1
    FROM follows AS f
    INNER JOIN defect_code AS d ON f.same_as = d.code AND f.test IS NOT DISTINCT FROM d.test
    WHERE d.same_as IS NOT NULL AND f.links < 100
)

SELECT DISTINCT code AS what, test
FROM follows
WHERE same_as = code
ORDER BY code, test
LIMIT 20;
