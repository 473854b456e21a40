-- Runs of a test file, with the id made from what names them (rule 1)
-- One row a run_id: a file's rows of one run have been merged before. Writes: incoming_run.
-- The id is the second of the start times 2^30 plus 30 bits of md5, so that ids sort by time and never depend on the order of loading.
CREATE OR REPLACE TEMP TABLE incoming_run AS
SELECT
    cast(floor(epoch(a.started_at)) AS BIGINT) * 1073741824 + (cast('0x' || substr(md5(
        CASE
            WHEN a.run_ref IS NULL
                THEN a.vin || '|' || a.test || '|' || a.station || '|' || cast(floor(epoch(a.started_at)) AS BIGINT)
            ELSE a.station || '|' || a.run_ref
        END
    ), 1, 8) AS BIGINT) & 1073741823) AS run_id,
    a.*,
    a.vin AS vin_sent,
    a.started_at AS started_at_sent,
    a.ended_at AS ended_at_sent,
    a.result AS result_sent,
    $file_id AS file_id
FROM arriving AS a;
