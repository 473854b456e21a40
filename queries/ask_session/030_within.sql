-- Makes views of a session in one of its databases
-- Place: name, a quoted identifier. Reads and writes nothing of the plant.
USE {name};
