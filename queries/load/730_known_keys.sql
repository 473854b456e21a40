-- Other names of units, of the kinds that feeds name them by
-- One row a name and time. Reads: unit_key. Parameter: kinds.
SELECT kind, "value", vin, valid_from, valid_to
FROM unit_key
WHERE list_contains($kinds, kind);
