-- Write down the figures that a mail states, so that a later change of them shows (rule 4)
-- Writes: figure_sent. Reads: arriving.
INSERT INTO figure_sent BY NAME
SELECT *
FROM arriving;
