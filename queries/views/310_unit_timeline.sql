-- unit_timeline: everything known of a unit, in order
-- One row is something that happened to a unit of any kind, or was found on it. Order by at, then step_no.
-- Reads: unit, attribute, run, finding, repair, event.
CREATE OR REPLACE VIEW unit_timeline AS
SELECT
    unit.vin,
    unit.line_off_at AS "at",
    1 AS step_no,
    'line_off' AS what,
    CAST(NULL AS VARCHAR) AS test,
    unit.line AS place,
    unit.line_state AS outcome,
    concat_ws(' ', unit.kind, unit.model, CAST(unit.build_seq AS VARCHAR)) AS detail,
    CAST(NULL AS BIGINT) AS run_id
FROM unit
WHERE unit.line_off_at IS NOT NULL
UNION ALL
SELECT
    attribute.vin,
    attribute."at",
    2 AS step_no,
    'attribute' AS what,
    CAST(NULL AS VARCHAR) AS test,
    attribute.station AS place,
    coalesce(attribute.text_value, CAST(attribute.number_value AS VARCHAR)) AS outcome,
    concat_ws(' ', attribute.name, attribute.measure_unit, attribute.source) AS detail,
    CAST(NULL AS BIGINT) AS run_id
FROM attribute
UNION ALL
SELECT
    run.vin,
    run."at",
    3 AS step_no,
    'run' AS what,
    run.test,
    nullif(concat_ws(' ', run.station, run.bay), '') AS place,
    run.result AS outcome,
    CASE WHEN run.counts THEN concat('attempt ', CAST(run.attempt AS VARCHAR)) ELSE concat('void: ', run.void_reason) END
        AS detail,
    run.run_id
FROM run
UNION ALL
SELECT
    run.vin,
    run."at",
    4 AS step_no,
    'finding' AS what,
    run.test,
    finding.zone AS place,
    finding.code AS outcome,
    concat_ws(' ', finding.counts_as, finding.severity, finding.step, finding.note) AS detail,
    run.run_id
FROM run
INNER JOIN finding ON finding.run_id = run.run_id
UNION ALL
SELECT
    repair.vin,
    coalesce(repair.ended_at, repair.started_at, repair.entered_at) AS "at",
    5 AS step_no,
    'repair' AS what,
    repair.test,
    repair.place,
    repair."class" AS outcome,
    nullif(
        concat_ws(
            ' ', repair.action, repair.code, repair.zone, repair.part, repair.lot,
            CASE WHEN repair.ended_at IS NULL THEN '(open)' END
        ),
        ''
    ) AS detail,
    CAST(NULL AS BIGINT) AS run_id
FROM repair
UNION ALL
SELECT
    event.vin,
    event."at",
    6 AS step_no,
    'event' AS what,
    CAST(NULL AS VARCHAR) AS test,
    event.place,
    event.kind AS outcome,
    nullif(concat_ws(' ', event.reference, event.note), '') AS detail,
    CAST(NULL AS BIGINT) AS run_id
FROM event;

COMMENT ON VIEW unit_timeline IS
    'One row is something that happened to a unit of any kind, or was found on it; order by at, step_no.';
COMMENT ON COLUMN unit_timeline.vin IS 'the unit.';
COMMENT ON COLUMN unit_timeline."at" IS
    'when (UTC), null where unknown; of a run its end, of a repair its end, else its start, else its entry.';
COMMENT ON COLUMN unit_timeline.step_no IS
    'order of rows of one time: 1 line_off, 2 attribute, 3 run, 4 finding, 5 repair, 6 event.';
COMMENT ON COLUMN unit_timeline.what IS 'line_off, attribute, run, finding, repair or event.';
COMMENT ON COLUMN unit_timeline.test IS 'the test, null where it is of none.';
COMMENT ON COLUMN unit_timeline.place IS 'where: line, station and bay, zone or place.';
COMMENT ON COLUMN unit_timeline.outcome IS
    'what came of it: state on the line, value, result, code, class of repair or kind of event.';
COMMENT ON COLUMN unit_timeline.detail IS
    'the rest in words: of a run its attempt or why it is void, of a finding what it counts as.';
COMMENT ON COLUMN unit_timeline.run_id IS 'the run, null where it is of none.';
