-- place: where units are
-- One row is a unit: the newest event that moves or decides, and the newest place told.
-- Parameter: vins. Reads: event.
SELECT
    event.vin,
    max_by(event.kind, (event."at", event.event_id))
    FILTER (WHERE event.kind NOT IN ('release', 'unhold')) AS kind,
    max_by(event.place, (event."at", event.event_id)) FILTER (WHERE event.place IS NOT NULL) AS place
FROM event
WHERE list_contains($vins, event.vin)
GROUP BY event.vin
ORDER BY event.vin;
