-- Makes a place in memory for the views on a folder's files
-- Place: name, a quoted identifier. Reads and writes nothing of the plant.
ATTACH ':memory:' AS {name};
