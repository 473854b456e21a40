-- line_by_shift: the figures of all tests together, by the shift in which the units left the line
-- One row is a line_date x line_shift with a production unit. Rules 11 (cohort, ftt, rty, settled), 12 (a fault seen
-- twice counts once), 13 and 16. rty: ISO 22400-2's first pass yields multiplied over the required tests.
-- Reads: unit, line_standing, shift_window, defect, run, station_latest, source_file, plant_setting, lacking_proof.
CREATE OR REPLACE VIEW line_by_shift AS
WITH test_ftt AS (
    SELECT
        line_standing.production_date,
        line_standing.shift,
        line_standing.test,
        CAST(count(*) FILTER (WHERE line_standing.attempts > 0 AND line_standing.first_result = 'pass') AS DOUBLE)
        / nullif(count(*) FILTER (WHERE line_standing.attempts > 0), 0) AS ftt
    FROM line_standing
    WHERE line_standing.required
    GROUP BY line_standing.production_date, line_standing.shift, line_standing.test
),

rolled AS (
    SELECT
        test_ftt.production_date,
        test_ftt.shift,
        CASE
            WHEN min(test_ftt.ftt) = 0 THEN 0e0
            WHEN count(*) > count(test_ftt.ftt) THEN NULL
            ELSE exp(sum(ln(nullif(test_ftt.ftt, 0))))
        END AS rty
    FROM test_ftt
    GROUP BY test_ftt.production_date, test_ftt.shift
),

heard AS (
    SELECT
        asked.production_date,
        asked.shift,
        min(station_latest.last_at) AS heard_until
    FROM (
        SELECT DISTINCT line_standing.production_date, line_standing.shift, line_standing.test
        FROM line_standing
        WHERE line_standing.required
    ) AS asked
    INNER JOIN run
        ON run.production_date = asked.production_date
        AND run.shift = asked.shift
        AND run.test = asked.test
    INNER JOIN station_latest ON station_latest.station = run.station
    GROUP BY asked.production_date, asked.shift
),

schedule AS (
    SELECT max(source_file.made_at) AS heard_until FROM source_file WHERE source_file.feed = 'units'
),

excused AS (
    SELECT DISTINCT line_standing.production_date, line_standing.shift, line_standing.vin
    FROM line_standing
    LEFT JOIN lacking_proof
        ON lacking_proof.line_date = line_standing.production_date
        AND lacking_proof.line_shift IS NOT DISTINCT FROM line_standing.shift
        AND lacking_proof.vin = line_standing.vin
        AND lacking_proof.earliest_at IS NOT DISTINCT FROM line_standing.earliest_at
        AND lacking_proof.silent_station IS NULL
    WHERE
        line_standing.line_state = 'undecided'
        AND line_standing.required
        AND (line_standing.status IN ('held', 'released', 'diverted') OR lacking_proof.vin IS NOT NULL)
),

fault AS (
    SELECT DISTINCT
        defect.line_date AS production_date,
        defect.line_shift AS shift,
        defect.vin,
        defect.root_code,
        defect.cell
    FROM defect
    WHERE defect.line_date IS NOT NULL
),

faulty AS (
    SELECT fault.production_date, fault.shift, fault.vin, count(*) AS defects
    FROM fault
    GROUP BY fault.production_date, fault.shift, fault.vin
),

unit_count AS (
    SELECT
        unit.line_date AS production_date,
        unit.line_shift AS shift,
        count(*) AS built,
        count(*) FILTER (WHERE unit.line_state = 'went_through') AS went_through,
        count(*) FILTER (WHERE unit.line_state = 'failed_one') AS failed_one,
        count(*) FILTER (WHERE unit.line_state = 'undecided') AS undecided,
        count(*) FILTER (WHERE unit.line_state = 'undecided' AND excused.vin IS NULL) AS waited_for,
        CAST(coalesce(sum(faulty.defects), 0) AS BIGINT) AS defects,
        CAST(coalesce(sum(faulty.defects * faulty.defects), 0) AS BIGINT) AS squares
    FROM unit
    LEFT JOIN excused
        ON excused.production_date = unit.line_date
        AND excused.shift IS NOT DISTINCT FROM unit.line_shift
        AND excused.vin = unit.vin
    LEFT JOIN faulty
        ON faulty.production_date = unit.line_date
        AND faulty.shift IS NOT DISTINCT FROM unit.line_shift
        AND faulty.vin = unit.vin
    WHERE unit.kind = 'production' AND unit.line_date IS NOT NULL
    GROUP BY unit.line_date, unit.line_shift
),

share AS (
    SELECT
        unit_count.*,
        -- rule 11: no ftt while more than 5 % are undecided
        CASE
            WHEN 20 * unit_count.undecided <= unit_count.built
                THEN CAST(nullif(unit_count.went_through + unit_count.failed_one, 0) AS DOUBLE)
        END AS n
    FROM unit_count
),

score AS (
    SELECT
        share.*,
        share.went_through / share.n AS ftt,
        (share.went_through / share.n + 1.920729410347062e0 / share.n) / (1e0 + 3.841458820694124e0 / share.n) AS centre,
        1.959963984540054e0 * sqrt(
            (share.went_through / share.n) * (share.failed_one / share.n) / share.n
            + 0.960364705173531e0 / (share.n * share.n)
        ) / (1e0 + 3.841458820694124e0 / share.n) AS half,
        100 * CAST(share.defects AS DOUBLE) / nullif(share.built, 0) AS dphu,
        195.9963984540054e0 * sqrt(
            CAST(share.built * share.squares - share.defects * share.defects AS DOUBLE) / nullif(share.built - 1, 0)
        ) / nullif(share.built, 0) AS dphu_half
    FROM share
)

SELECT
    score.production_date,
    score.shift,
    shift_window.crew,
    score.built,
    score.went_through,
    score.failed_one,
    score.undecided,
    score.ftt,
    CASE WHEN score.n > 0 THEN greatest(0e0, score.centre - score.half) END AS low,
    CASE WHEN score.n > 0 THEN least(1e0, score.centre + score.half) END AS high,
    CAST(score.went_through AS DOUBLE) / nullif(score.built, 0) AS worst,
    CAST(score.went_through + score.undecided AS DOUBLE) / nullif(score.built, 0) AS best,
    rolled.rty,
    score.defects,
    score.dphu,
    CASE
        WHEN score.defects = 0 THEN 0e0
        WHEN score.built > 1 THEN greatest(0e0, score.dphu - score.dphu_half)
    END AS dphu_low,
    CASE
        WHEN score.defects = 0 THEN 368.8879454e0 / nullif(score.built, 0)
        ELSE score.dphu + score.dphu_half
    END AS dphu_high,
    coalesce(
        score.waited_for = 0
        AND schedule.heard_until
        > shift_window.ends_at + CAST(plant_setting.settle_hours * 3600 AS BIGINT) * INTERVAL '1' SECOND
        AND coalesce(heard.heard_until, CAST('9999-12-31 00:00:00+00:00' AS TIMESTAMPTZ))
        > shift_window.ends_at + CAST(plant_setting.settle_hours * 3600 AS BIGINT) * INTERVAL '1' SECOND,
        false
    ) AS settled
FROM score
CROSS JOIN schedule
LEFT JOIN plant_setting ON true
LEFT JOIN shift_window
    ON shift_window.production_date = score.production_date
    AND shift_window.shift = score.shift
LEFT JOIN rolled
    ON rolled.production_date = score.production_date
    AND rolled.shift IS NOT DISTINCT FROM score.shift
LEFT JOIN heard
    ON heard.production_date = score.production_date
    AND heard.shift = score.shift;

COMMENT ON VIEW line_by_shift IS
    'One row is the units that left the line in a shift, all required tests together, of production units (rules 11, 12, 13, 16); key production_date, shift.';
COMMENT ON COLUMN line_by_shift.production_date IS
    'day of the shift in which the units left the line (rules 3 and 11).';
COMMENT ON COLUMN line_by_shift.shift IS 'that shift; null for units that left the line between shifts.';
COMMENT ON COLUMN line_by_shift.crew IS 'crew that worked it, null where unknown.';
COMMENT ON COLUMN line_by_shift.built IS 'units that left the line; the n of dphu.';
COMMENT ON COLUMN line_by_shift.went_through IS
    'units that passed attempt 1 in every required test without a repair (rule 11).';
COMMENT ON COLUMN line_by_shift.failed_one IS
    'units with a failed attempt 1, a repair, a bypass or a scrap (rule 11).';
COMMENT ON COLUMN line_by_shift.undecided IS 'the other units (rule 11).';
COMMENT ON COLUMN line_by_shift.ftt IS
    'went_through / (went_through + failed_one), 0 to 1; null while more than 5 % of the units are undecided (rule 11).';
COMMENT ON COLUMN line_by_shift.low IS 'lower end of the 95 % Wilson score interval of ftt (rule 16).';
COMMENT ON COLUMN line_by_shift.high IS 'upper end of the 95 % Wilson score interval of ftt (rule 16).';
COMMENT ON COLUMN line_by_shift.worst IS 'ftt if every undecided unit failed, 0 to 1.';
COMMENT ON COLUMN line_by_shift.best IS 'ftt if every undecided unit went through, 0 to 1.';
COMMENT ON COLUMN line_by_shift.rty IS
    'rolled throughput yield, the product of the required tests'' ftt over these units; null where one is null (rule 11).';
COMMENT ON COLUMN line_by_shift.defects IS 'unit x root code x cell, each once over all tests (rule 12).';
COMMENT ON COLUMN line_by_shift.dphu IS 'defects per hundred units built (rules 9 and 12).';
COMMENT ON COLUMN line_by_shift.dphu_low IS
    'lower end of the 95 % interval of dphu, never below 0; null where one unit was built and has a defect (rule 16).';
COMMENT ON COLUMN line_by_shift.dphu_high IS
    'upper end of the 95 % interval of dphu; for 0 defects 368.8879454 / built (rule 16).';
COMMENT ON COLUMN line_by_shift.settled IS
    'true where stations and units feed have sent something newer than the shift''s end + settle_hours and no unit is waited for (rule 11).';
