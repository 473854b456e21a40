-- Other names of units
-- One row a name and time. Reads: unit_key.
SELECT kind, value, vin, valid_from, valid_to
FROM unit_key;
