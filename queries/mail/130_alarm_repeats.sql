-- One code in one zone again and again within so many units of its test, for an alarm
-- One row is a defect of such a run of defects (rule 8), found_at plant-local; production_date and shift are those of
-- its last one. Parameters: since, number (so many defects), within (so many units). Reads: first_run, defect, classed_finding,
-- test_definition, plant_setting.
WITH tested AS (
    SELECT
        first_run.run_id,
        row_number() OVER (PARTITION BY first_run.test ORDER BY first_run."at", first_run.run_id) AS place_in_line
    FROM first_run
    WHERE first_run."at" >= $since
),

found AS (
    SELECT
        defect.test,
        defect.code,
        defect.zone,
        defect.title AS code_title,
        defect.vin,
        defect.station,
        defect.bay,
        defect."at",
        defect.production_date,
        defect.shift,
        tested.place_in_line
    FROM defect
    INNER JOIN tested ON tested.run_id = defect.run_id
    WHERE defect."at" >= $since
),

spaced AS (
    SELECT
        found.test,
        found.code,
        found.zone,
        found.production_date,
        found.shift,
        found.place_in_line,
        lag(found.place_in_line, $number - 1) OVER (
            PARTITION BY found.test, found.code, found.zone
            ORDER BY found.place_in_line
        ) AS began
    FROM found
),

hit AS (
    SELECT
        spaced.test,
        spaced.code,
        spaced.zone,
        min(spaced.began) AS began,
        max(spaced.place_in_line) AS ended,
        max_by(spaced.production_date, spaced.place_in_line) AS production_date,
        max_by(spaced.shift, spaced.place_in_line) AS shift
    FROM spaced
    WHERE spaced.place_in_line - spaced.began < $within
    GROUP BY spaced.test, spaced.code, spaced.zone
),

handled AS (
    SELECT
        classed_finding.vin,
        string_agg(DISTINCT classed_finding.handling, ' ' ORDER BY classed_finding.handling) AS handling
    FROM classed_finding
    WHERE
        classed_finding.handling IS NOT NULL
        AND classed_finding.counts_as NOT IN ('equipment', 'observation')
        AND classed_finding.vin IN (SELECT found.vin FROM found)
    GROUP BY classed_finding.vin
)

SELECT
    hit.test,
    coalesce(test_definition.title, hit.test) AS title,
    hit.code,
    hit.zone,
    hit.production_date,
    hit.shift,
    found.code_title,
    found.vin,
    found.station,
    found.bay,
    found."at" AT TIME ZONE plant_setting.timezone AS found_at,
    handled.handling
FROM hit
INNER JOIN found
    ON found.test = hit.test
    AND found.code = hit.code
    AND found.zone IS NOT DISTINCT FROM hit.zone
    AND found.place_in_line BETWEEN hit.began AND hit.ended
CROSS JOIN plant_setting
LEFT JOIN test_definition ON test_definition.test = hit.test
LEFT JOIN handled ON handled.vin = found.vin
ORDER BY hit.test, hit.code, hit.zone, found.place_in_line;
