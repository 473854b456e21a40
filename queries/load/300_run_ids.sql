-- Ids of the runs of a test file, made from what names them (rule 1)
-- One row a row of `arriving`, in its order, which DuckDB keeps where one table is read: a file's rows of one run have been merged before. The id is the second of
-- the start times 2^30 plus 30 bits of md5, so that ids sort by time and never depend on the order of loading.
SELECT
    cast(floor(epoch(a.started_at)) AS BIGINT) * 1073741824 + (cast(concat('0x', substr(md5(
        CASE
            WHEN a.run_ref IS NULL
                THEN concat(a.vin, '|', a.test, '|', a.station, '|', cast(floor(epoch(a.started_at)) AS BIGINT))
            ELSE concat(a.station, '|', a.run_ref)
        END
    ), 1, 8)) AS BIGINT) & 1073741823) AS run_id
FROM arriving AS a;
