-- Nothing comes in
-- Writes: an empty incoming_part. Places: part.
CREATE OR REPLACE TEMP TABLE incoming_part AS
SELECT *
FROM {part}
LIMIT 0;
