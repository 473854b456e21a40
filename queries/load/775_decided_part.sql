-- Runs of which a finding or reading was taken back; nothing comes in
-- Writes: version, an empty incoming_part. Places: part, decided.
CREATE OR REPLACE TEMP TABLE version AS
SELECT d.run_id, d.winner_id, d.winner_file_id
FROM {decided} AS d
WHERE d.run_id IN (SELECT run_id FROM run);

CREATE OR REPLACE TEMP TABLE incoming_part AS
SELECT *
FROM {part}
LIMIT 0;
