-- lot: the lots of parts, by sequence or time range
-- One row is a range of a lot; both ends belong to it, a null end is open. Times are UTC.
-- Reads: lot.
SELECT
    lot.part,
    lot.lot,
    lot.from_build_seq,
    lot.to_build_seq,
    lot.from_at,
    lot.to_at
FROM lot
ORDER BY lot.part, lot.lot, lot.from_build_seq, lot.from_at;
