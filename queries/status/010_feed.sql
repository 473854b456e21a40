-- What each feed has sent
-- One row a feed. Reads: source_file.
SELECT
    feed,
    count(*) AS files,
    cast(sum(rows) AS BIGINT) AS rows,
    cast(sum(rejected) AS BIGINT) AS rejected,
    max(made_at) AS last_made_at,
    max(loaded_at) AS last_loaded_at
FROM source_file
GROUP BY feed
ORDER BY feed;
