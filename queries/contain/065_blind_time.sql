-- blind_time: when a bay could not see: from its last good reference check to the next good one round a failed one
-- One row is a gap; a null end is open. Times are UTC. Rule 13.
-- Parameters: test, station, bay. Reads: unchecked.
SELECT DISTINCT
    unchecked.last_good_at,
    unchecked.next_good_at
FROM unchecked
WHERE
    unchecked.test = $test
    AND unchecked.station = $station
    AND unchecked.bay IS NOT DISTINCT FROM $bay
ORDER BY unchecked.last_good_at NULLS FIRST;
