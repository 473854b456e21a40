-- What is made from here on is made in this schema
-- Reads: nothing.
USE {plant};
