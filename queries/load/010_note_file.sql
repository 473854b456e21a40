-- Note a file taken in
-- One row a file; its counts follow when its rows are in. Writes: source_file.
INSERT INTO source_file (file_id, feed, path, sha256, bytes, made_at, loaded_at, rows)
VALUES ($file_id, $feed, $path, $sha256, $bytes, $made_at, $loaded_at, $rows);
