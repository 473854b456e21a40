-- superseded: losing versions of rows, whole, in tables shaped like those they lost in (rule 1)
-- One row is a version that another file outranks; kept so that the same files in any order give the same tables.
-- Reads: the tables before it.
CREATE SCHEMA superseded;
CREATE TABLE superseded.unit_sent AS SELECT * FROM main.unit_sent LIMIT 0;
CREATE TABLE superseded.attribute AS SELECT * FROM main.attribute LIMIT 0;
CREATE TABLE superseded.run AS SELECT * FROM main.run LIMIT 0;
CREATE TABLE superseded.finding AS SELECT * FROM main.finding LIMIT 0;
CREATE TABLE superseded.reading AS SELECT * FROM main.reading LIMIT 0;
CREATE TABLE superseded.repair AS SELECT * FROM main.repair LIMIT 0;
CREATE TABLE superseded.event AS SELECT * FROM main.event LIMIT 0;
CREATE TABLE superseded.defect_code AS SELECT * FROM main.defect_code LIMIT 0;
CREATE TABLE superseded.zone AS SELECT * FROM main.zone LIMIT 0;
CREATE TABLE superseded.countermeasure AS SELECT * FROM main.countermeasure LIMIT 0;
CREATE TABLE superseded.lot AS SELECT * FROM main.lot LIMIT 0;
CREATE TABLE superseded.correction AS SELECT * FROM main.correction LIMIT 0;
CREATE TABLE superseded.unit_key AS SELECT * FROM main.unit_key LIMIT 0;
CREATE TABLE superseded.shift_window AS SELECT * FROM main.shift_window LIMIT 0;
