-- waiting_by_place: what waits where, for what, and for how long
-- One row is a place x test x what the units wait for; oldest is the unit that has waited longest. Rules 13 and 14.
-- Reads: open_unit.
SELECT
    coalesce(open_unit.place, 'not told') AS place,
    open_unit.test,
    open_unit.status,
    open_unit.waiting_for,
    count(*) AS units,
    median(open_unit.hours) AS hours_median,
    max(open_unit.hours) AS hours_longest,
    max_by(open_unit.vin, open_unit.hours) AS oldest,
    max(open_unit.loops) AS most_loops
FROM open_unit
GROUP BY coalesce(open_unit.place, 'not told'), open_unit.test, open_unit.status, open_unit.waiting_for
ORDER BY units DESC, place, open_unit.test, open_unit.status, open_unit.waiting_for;
