-- The newest run end or event time received
-- One row; null in an empty store. Reads: run, event.
SELECT greatest((SELECT max(coalesce("at", started_at_sent)) FROM run), (SELECT max("at") FROM event)) AS data_clock;
