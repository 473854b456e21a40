-- A schema for the tables and views of one plant
-- Nothing where it is there. Reads: nothing.
CREATE SCHEMA IF NOT EXISTS {plant};
