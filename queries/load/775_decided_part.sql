-- Runs of which a finding or reading was taken back; nothing comes in
-- Writes: version, an empty incoming_part. Places: part, decided.
CREATE OR REPLACE TEMP TABLE version AS
SELECT r.run_id, r.run_id AS winner_id, r.file_id AS winner_file_id, r.test
FROM run AS r
WHERE r.run_id IN (SELECT run_id FROM {decided});

CREATE OR REPLACE TEMP TABLE incoming_part AS
SELECT *
FROM {part}
LIMIT 0;
