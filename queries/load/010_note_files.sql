-- Note files taken in
-- One row of arriving is a file; its counts follow when its rows are in. Writes: source_file.
INSERT INTO source_file BY NAME SELECT * FROM arriving;
