-- clock_offsets: what plant.toml adds to the times of a station in a shift
-- One row is a station x seconds in force while the shift ran. Reads: clock_offset.
SELECT DISTINCT clock_offset.station, clock_offset.seconds
FROM clock_offset
WHERE
    clock_offset.valid_from < $ends_at
    AND (clock_offset.valid_to IS NULL OR clock_offset.valid_to > $starts_at)
ORDER BY clock_offset.station, clock_offset.seconds;
