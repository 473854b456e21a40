-- Contested runs whose incoming version tells the same as the one that stands
-- One row: their number. Reads: incoming_run, run.
SELECT count(*) AS repeated
FROM incoming_run AS i
INNER JOIN run AS r ON i.run_id = r.run_id
WHERE
    (i.vin_sent, i.bay, i.ended_at_sent, i.result_sent, i.purpose, i.program, i."operator", i.last_step, i.revision)
    IS NOT DISTINCT FROM
    (r.vin_sent, r.bay, r.ended_at_sent, r.result_sent, r.purpose, r.program, r."operator", r.last_step, r.revision);
