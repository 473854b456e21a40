-- A store of schema version 3 with the rows of four units, as the tool of that version left it; never changed again

-- schema_version: one row is a step of the schema that the store has taken
CREATE TABLE schema_version (
    version BIGINT,
    made_at TIMESTAMPTZ,
    tool VARCHAR,
    views VARCHAR
);
COMMENT ON TABLE schema_version IS 'One row is a step of the schema that the store has taken.';
COMMENT ON COLUMN schema_version.version IS 'number of the schema.';
COMMENT ON COLUMN schema_version.made_at IS 'when the step was taken, by the wall clock, UTC.';
COMMENT ON COLUMN schema_version.tool IS 'version of the tool that took it.';
COMMENT ON COLUMN schema_version.views IS 'fingerprint of the views installed with it, lower-case hexadecimal.';

-- source_file: one row is a file taken in; key file_id
CREATE TABLE source_file (
    file_id BIGINT,
    feed VARCHAR,
    path VARCHAR,
    sha256 VARCHAR,
    bytes BIGINT,
    made_at TIMESTAMPTZ,
    loaded_at TIMESTAMPTZ,
    rows BIGINT,
    accepted BIGINT,
    repeated BIGINT,
    amended BIGINT,
    rejected BIGINT
);
COMMENT ON TABLE source_file IS 'One row is a file taken in; key file_id.';
COMMENT ON COLUMN source_file.file_id IS '60 bits of the content''s sha256.';
COMMENT ON COLUMN source_file.feed IS 'the feed it belongs to, as plant.toml or the file''s name says.';
COMMENT ON COLUMN source_file.path IS 'where it lay when it was first loaded.';
COMMENT ON COLUMN source_file.sha256 IS 'fingerprint of the bytes (FIPS 180-4), lower-case hexadecimal.';
COMMENT ON COLUMN source_file.bytes IS 'size of the file in bytes.';
COMMENT ON COLUMN source_file.made_at IS 'when the file was made: its name''s time, else its modification time; the earliest under which this content came (rule 1).';
COMMENT ON COLUMN source_file.loaded_at IS 'when the content was first loaded, by the wall clock, UTC.';
COMMENT ON COLUMN source_file.rows IS 'data rows in the file.';
COMMENT ON COLUMN source_file.accepted IS 'rows that became new rows of a table.';
COMMENT ON COLUMN source_file.repeated IS 'rows that a table already held, the same.';
COMMENT ON COLUMN source_file.amended IS 'rows that replaced, or lost to, another version of the same row.';
COMMENT ON COLUMN source_file.rejected IS 'rows refused, in rejected_row.';

-- rejected_row: one row is a row of a file that was refused, or that waits for a unit key; key file_id, file_row
CREATE TABLE rejected_row (
    file_id BIGINT,
    file_row BIGINT,
    feed VARCHAR,
    reason VARCHAR,
    waits_for VARCHAR,
    raw VARCHAR
);
COMMENT ON TABLE rejected_row IS 'One row is a row of a file that was refused, or that waits for a unit key; key file_id, file_row.';
COMMENT ON COLUMN rejected_row.file_id IS 'the file.';
COMMENT ON COLUMN rejected_row.file_row IS 'the row''s number in the file, the first data row is 1.';
COMMENT ON COLUMN rejected_row.feed IS 'the feed the row came by.';
COMMENT ON COLUMN rejected_row.reason IS 'why it was refused, in a sentence a person can act on.';
COMMENT ON COLUMN rejected_row.waits_for IS 'null for a refused row; for a waiting one the unit key it waits for, as kind=value.';
COMMENT ON COLUMN rejected_row.raw IS 'the row as it stood in the file, as a JSON object.';

-- plant_setting: one row is the plant's own settings of plant.toml
CREATE TABLE plant_setting (
    name VARCHAR,
    timezone VARCHAR,
    date_by VARCHAR,
    starts_on DATE,
    silence_limit BIGINT,
    settle_hours DOUBLE
);
COMMENT ON TABLE plant_setting IS 'One row is the plant''s own settings of plant.toml.';
COMMENT ON COLUMN plant_setting.name IS 'name of the plant.';
COMMENT ON COLUMN plant_setting.timezone IS 'time zone of the plant (IANA name).';
COMMENT ON COLUMN plant_setting.date_by IS 'start or end: which day a shift over midnight belongs to.';
COMMENT ON COLUMN plant_setting.starts_on IS 'first day of the record.';
COMMENT ON COLUMN plant_setting.silence_limit IS 'seconds a silent station is waited for (rule 14).';
COMMENT ON COLUMN plant_setting.settle_hours IS 'hours after its end in which a shift may settle (rule 11).';

-- proof_event: one row is a kind of event that asks for proof of every required test (rule 14)
CREATE TABLE proof_event (
    kind VARCHAR
);
COMMENT ON TABLE proof_event IS 'One row is a kind of event that asks for proof of every required test (rule 14).';
COMMENT ON COLUMN proof_event.kind IS 'event kind.';

-- demerit_weight: one row is the weight of a severity class
CREATE TABLE demerit_weight (
    severity VARCHAR,
    weight DOUBLE
);
COMMENT ON TABLE demerit_weight IS 'One row is the weight of a severity class.';
COMMENT ON COLUMN demerit_weight.severity IS 'severity class A, B, C or D.';
COMMENT ON COLUMN demerit_weight.weight IS 'demerits of one defect of that class.';

-- test_definition: one row is a test the plant declares
CREATE TABLE test_definition (
    test VARCHAR,
    title VARCHAR,
    length_seconds DOUBLE,
    max_quantity BIGINT,
    position BIGINT
);
COMMENT ON TABLE test_definition IS 'One row is a test the plant declares.';
COMMENT ON COLUMN test_definition.test IS 'name of the test.';
COMMENT ON COLUMN test_definition.title IS 'name in words.';
COMMENT ON COLUMN test_definition.length_seconds IS 'seconds a run takes where its feed has no end (rule 3).';
COMMENT ON COLUMN test_definition.max_quantity IS 'highest credible quantity of one finding (rule 8).';
COMMENT ON COLUMN test_definition.position IS 'place of the test in the order of plant.toml, from 1.';

-- test_step: one row is a step of a test, in the order in which the test runs them (rule 8, masked)
CREATE TABLE test_step (
    test VARCHAR,
    step VARCHAR,
    position BIGINT
);
COMMENT ON TABLE test_step IS 'One row is a step of a test, in the order in which the test runs them (rule 8, masked).';
COMMENT ON COLUMN test_step.test IS 'name of the test.';
COMMENT ON COLUMN test_step.step IS 'name of the step.';
COMMENT ON COLUMN test_step.position IS 'place of the step in the test, from 1.';

-- test_plan: one row is whether a test is required, from a time on; the newest not after a run's end applies (rule 4)
CREATE TABLE test_plan (
    test VARCHAR,
    valid_from TIMESTAMPTZ,
    valid_to TIMESTAMPTZ,
    required VARCHAR,
    owner VARCHAR
);
COMMENT ON TABLE test_plan IS 'One row is whether a test is required, from a time on; the newest not after a run''s end applies (rule 4).';
COMMENT ON COLUMN test_plan.test IS 'name of the test.';
COMMENT ON COLUMN test_plan.valid_from IS 'from when the row applies (UTC).';
COMMENT ON COLUMN test_plan.valid_to IS 'when the next row of this test takes over (UTC), null where none does.';
COMMENT ON COLUMN test_plan.required IS 'every: each unit at risk must have it; when_run: only units that were run.';
COMMENT ON COLUMN test_plan.owner IS 'key of its clauses in applies, null where the test is for every unit.';

-- condition_limit: one row is a condition of a test with its limits, from a time on (rule 4)
CREATE TABLE condition_limit (
    test VARCHAR,
    name VARCHAR,
    valid_from TIMESTAMPTZ,
    valid_to TIMESTAMPTZ,
    lower DOUBLE,
    upper DOUBLE,
    measure_unit VARCHAR,
    required BOOLEAN
);
COMMENT ON TABLE condition_limit IS 'One row is a condition of a test with its limits, from a time on (rule 4).';
COMMENT ON COLUMN condition_limit.test IS 'name of the test.';
COMMENT ON COLUMN condition_limit.name IS 'name of the condition, as a reading.';
COMMENT ON COLUMN condition_limit.valid_from IS 'from when the row applies (UTC).';
COMMENT ON COLUMN condition_limit.valid_to IS 'when the next row of this condition takes over (UTC), null where none does.';
COMMENT ON COLUMN condition_limit.lower IS 'lowest value of a sound test, null where open.';
COMMENT ON COLUMN condition_limit.upper IS 'highest value of a sound test, null where open.';
COMMENT ON COLUMN condition_limit.measure_unit IS 'unit of measure of the value.';
COMMENT ON COLUMN condition_limit.required IS 'true: a pass without it is pending (missing).';

-- defect_condition: one row is a comparison of defect_when; a finding that misses one is an observation (rule 8)
CREATE TABLE defect_condition (
    test VARCHAR,
    name VARCHAR,
    comparison VARCHAR,
    number_value DOUBLE,
    text_value VARCHAR
);
COMMENT ON TABLE defect_condition IS 'One row is a comparison of defect_when; a finding that misses one is an observation (rule 8).';
COMMENT ON COLUMN defect_condition.test IS 'name of the test.';
COMMENT ON COLUMN defect_condition.name IS 'field of the finding that is compared: rating, quantity, severity, code, zone or step.';
COMMENT ON COLUMN defect_condition.comparison IS 'one of <=, <, >=, >, =, !=.';
COMMENT ON COLUMN defect_condition.number_value IS 'what a number is compared with, null for a text.';
COMMENT ON COLUMN defect_condition.text_value IS 'what a text is compared with, null for a number.';

-- applies: one row is an accepted value of one clause of an applies_when; a clause holds when one of its values does (rule 10)
CREATE TABLE applies (
    owner VARCHAR,
    valid_from TIMESTAMPTZ,
    clause BIGINT,
    name VARCHAR,
    "value" VARCHAR
);
COMMENT ON TABLE applies IS 'One row is an accepted value of one clause of an applies_when; a clause holds when one of its values does (rule 10).';
COMMENT ON COLUMN applies.owner IS 'whose clause it is: plan:TEST:DATE of the plan or code:CODE:TEST of the catalogue.';
COMMENT ON COLUMN applies.valid_from IS 'valid_from of the owning row (UTC), null where that has none.';
COMMENT ON COLUMN applies.clause IS 'number of the clause, from 1; all clauses must hold.';
COMMENT ON COLUMN applies.name IS 'name of the attribute, or model, or line.';
COMMENT ON COLUMN applies."value" IS 'accepted value.';

-- station: one row is a bay of a station of a test
CREATE TABLE station (
    station VARCHAR,
    test VARCHAR,
    bay VARCHAR,
    alias VARCHAR
);
COMMENT ON TABLE station IS 'One row is a bay of a station of a test.';
COMMENT ON COLUMN station.station IS 'name of the station.';
COMMENT ON COLUMN station.test IS 'test that the station runs.';
COMMENT ON COLUMN station.bay IS 'name of the bay, null where the station has one place.';
COMMENT ON COLUMN station.alias IS 'another name under which a feed may send the bay, null where none.';

-- reference: one row is what a reference vehicle must show (rule 13)
CREATE TABLE reference (
    vin VARCHAR,
    test VARCHAR,
    code VARCHAR,
    zone VARCHAR
);
COMMENT ON TABLE reference IS 'One row is what a reference vehicle must show (rule 13).';
COMMENT ON COLUMN reference.vin IS 'the reference vehicle.';
COMMENT ON COLUMN reference.test IS 'the test that must find its fault.';
COMMENT ON COLUMN reference.code IS 'the code it must show.';
COMMENT ON COLUMN reference.zone IS 'the zone it must show it in, null where any.';

-- disturbs: one row is a kind of repair that disturbs a test, so that a pass before it proves nothing (rule 14)
CREATE TABLE disturbs (
    field VARCHAR,
    "value" VARCHAR,
    test VARCHAR
);
COMMENT ON TABLE disturbs IS 'One row is a kind of repair that disturbs a test, so that a pass before it proves nothing (rule 14).';
COMMENT ON COLUMN disturbs.field IS 'what of the repair is compared: action, code or owner_area.';
COMMENT ON COLUMN disturbs."value" IS 'the value that disturbs.';
COMMENT ON COLUMN disturbs.test IS 'the test that is disturbed.';

-- clock_offset: one row is a bench clock known to be wrong for a while
CREATE TABLE clock_offset (
    station VARCHAR,
    valid_from TIMESTAMPTZ,
    valid_to TIMESTAMPTZ,
    seconds DOUBLE
);
COMMENT ON TABLE clock_offset IS 'One row is a bench clock known to be wrong for a while.';
COMMENT ON COLUMN clock_offset.station IS 'name of the station.';
COMMENT ON COLUMN clock_offset.valid_from IS 'from when the offset applies, by the bench''s own time (UTC).';
COMMENT ON COLUMN clock_offset.valid_to IS 'until when, exclusive, by the bench''s own time (UTC), null where open.';
COMMENT ON COLUMN clock_offset.seconds IS 'seconds added to the bench''s time.';

-- history_rewrite: one row is a change of plant.toml that moved the past, with its reason (rule 4)
CREATE TABLE history_rewrite (
    made_at TIMESTAMPTZ,
    reason VARCHAR,
    changed VARCHAR,
    was VARCHAR
);
COMMENT ON TABLE history_rewrite IS 'One row is a change of plant.toml that moved the past, with its reason (rule 4).';
COMMENT ON COLUMN history_rewrite.made_at IS 'when it was made, by the wall clock, UTC.';
COMMENT ON COLUMN history_rewrite.reason IS 'the reason given with --rewrite-history.';
COMMENT ON COLUMN history_rewrite.changed IS 'names of the declared tables that changed, comma separated.';
COMMENT ON COLUMN history_rewrite.was IS 'their rows before, as JSON.';

-- shift_window: one row is one shift of the calendar; key production_date, shift (rule 3)
CREATE TABLE shift_window (
    production_date DATE,
    shift VARCHAR,
    crew VARCHAR,
    starts_at TIMESTAMPTZ,
    ends_at TIMESTAMPTZ,
    cancelled BOOLEAN,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE shift_window IS 'One row is one shift of the calendar; key production_date, shift (rule 3).';
COMMENT ON COLUMN shift_window.production_date IS 'the day the shift belongs to.';
COMMENT ON COLUMN shift_window.shift IS 'name of the shift.';
COMMENT ON COLUMN shift_window.crew IS 'crew that worked it, null where unknown.';
COMMENT ON COLUMN shift_window.starts_at IS 'start, inclusive (UTC).';
COMMENT ON COLUMN shift_window.ends_at IS 'end, exclusive (UTC).';
COMMENT ON COLUMN shift_window.cancelled IS 'true where the shift was not worked; its window then holds no run.';
COMMENT ON COLUMN shift_window.file_id IS 'file of the feed shifts, null where plant.toml made the row.';
COMMENT ON COLUMN shift_window.file_row IS 'row in that file.';

-- unit_sent: one row is what a row of the units feed told of a unit; key vin and all it told
CREATE TABLE unit_sent (
    vin VARCHAR,
    build_seq BIGINT,
    model VARCHAR,
    line VARCHAR,
    kind VARCHAR,
    line_off_at TIMESTAMPTZ,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE unit_sent IS 'One row is what a row of the units feed told of a unit; key vin and all it told.';
COMMENT ON COLUMN unit_sent.vin IS 'vehicle identification number as sent.';
COMMENT ON COLUMN unit_sent.build_seq IS 'place in the build order.';
COMMENT ON COLUMN unit_sent.model IS 'model.';
COMMENT ON COLUMN unit_sent.line IS 'production line.';
COMMENT ON COLUMN unit_sent.kind IS 'production, trial, reference or training.';
COMMENT ON COLUMN unit_sent.line_off_at IS 'when the unit left the line (UTC).';
COMMENT ON COLUMN unit_sent.file_id IS 'the file.';
COMMENT ON COLUMN unit_sent.file_row IS 'row in that file.';

-- unit: one row is a vehicle; key vin; made from unit_sent, events, runs and corrections
CREATE TABLE unit (
    vin VARCHAR,
    build_seq BIGINT,
    model VARCHAR,
    line VARCHAR,
    kind VARCHAR,
    line_off_at TIMESTAMPTZ,
    in_schedule BOOLEAN,
    line_date DATE,
    line_shift VARCHAR,
    line_state VARCHAR,
    earliest_at TIMESTAMPTZ,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE unit IS 'One row is a vehicle; key vin; made from unit_sent, events, runs and corrections.';
COMMENT ON COLUMN unit.vin IS 'vehicle identification number.';
COMMENT ON COLUMN unit.build_seq IS 'place in the build order, null where unknown.';
COMMENT ON COLUMN unit.model IS 'model, null where unknown.';
COMMENT ON COLUMN unit.line IS 'production line, null where unknown.';
COMMENT ON COLUMN unit.kind IS 'production, trial, reference or training (rule 13).';
COMMENT ON COLUMN unit.line_off_at IS 'when the unit left the line (UTC): the units feed, else its first event line_off; null where neither told (rule 11).';
COMMENT ON COLUMN unit.in_schedule IS 'false where only a test, repair or event told of the unit (rule 17).';
COMMENT ON COLUMN unit.line_date IS 'production date of line_off_at, null where that is.';
COMMENT ON COLUMN unit.line_shift IS 'shift of line_off_at, null between shifts.';
COMMENT ON COLUMN unit.line_state IS 'went_through, failed_one or undecided (rule 11).';
COMMENT ON COLUMN unit.earliest_at IS 'earliest time anything is known of the unit (UTC); a bound for look-ups.';
COMMENT ON COLUMN unit.file_id IS 'file of the newest units row, null where not in the schedule.';
COMMENT ON COLUMN unit.file_row IS 'row in that file.';

-- unit_key: one row is another name of a unit, for a while; key kind, value, valid_from
CREATE TABLE unit_key (
    kind VARCHAR,
    "value" VARCHAR,
    vin VARCHAR,
    valid_from TIMESTAMPTZ,
    valid_to TIMESTAMPTZ,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE unit_key IS 'One row is another name of a unit, for a while; key kind, value, valid_from.';
COMMENT ON COLUMN unit_key.kind IS 'what kind of name: skid, body number.';
COMMENT ON COLUMN unit_key."value" IS 'the name.';
COMMENT ON COLUMN unit_key.vin IS 'the unit it names.';
COMMENT ON COLUMN unit_key.valid_from IS 'from when (UTC), null for ever before.';
COMMENT ON COLUMN unit_key.valid_to IS 'until when, exclusive (UTC), null for ever after.';
COMMENT ON COLUMN unit_key.file_id IS 'the file.';
COMMENT ON COLUMN unit_key.file_row IS 'row in that file.';

-- attribute: one row is a fact of a unit from upstream; key vin, name, at, station, source
CREATE TABLE attribute (
    vin VARCHAR,
    name VARCHAR,
    "at" TIMESTAMPTZ,
    station VARCHAR,
    source VARCHAR,
    text_value VARCHAR,
    number_value DOUBLE,
    measure_unit VARCHAR,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE attribute IS 'One row is a fact of a unit from upstream; key vin, name, at, station, source.';
COMMENT ON COLUMN attribute.vin IS 'the unit.';
COMMENT ON COLUMN attribute.name IS 'name of the attribute.';
COMMENT ON COLUMN attribute."at" IS 'when it was so (UTC), null where unknown.';
COMMENT ON COLUMN attribute.station IS 'where it was made or measured, null where unknown.';
COMMENT ON COLUMN attribute.source IS 'where it is known from.';
COMMENT ON COLUMN attribute.text_value IS 'its value in words.';
COMMENT ON COLUMN attribute.number_value IS 'its value as a number, null where it is none.';
COMMENT ON COLUMN attribute.measure_unit IS 'unit of measure of the number.';
COMMENT ON COLUMN attribute.file_id IS 'the file.';
COMMENT ON COLUMN attribute.file_row IS 'row in that file.';

-- run: one row is a test run, the winning version; key run_id
CREATE TABLE run (
    run_id BIGINT,
    vin VARCHAR,
    test VARCHAR,
    station VARCHAR,
    bay VARCHAR,
    run_ref VARCHAR,
    started_at TIMESTAMPTZ,
    ended_at TIMESTAMPTZ,
    result VARCHAR,
    purpose VARCHAR,
    program VARCHAR,
    "operator" VARCHAR,
    last_step VARCHAR,
    revision BIGINT,
    vin_sent VARCHAR,
    started_at_sent TIMESTAMPTZ,
    ended_at_sent TIMESTAMPTZ,
    result_sent VARCHAR,
    "at" TIMESTAMPTZ,
    counts BOOLEAN,
    void_reason VARCHAR,
    attempt BIGINT,
    production_date DATE,
    shift VARCHAR,
    file_id BIGINT,
    file_row BIGINT,
    kind VARCHAR,
    model VARCHAR,
    line VARCHAR,
    build_seq BIGINT,
    earliest_at TIMESTAMPTZ
);
COMMENT ON TABLE run IS 'One row is a test run, the winning version; key run_id.';
COMMENT ON COLUMN run.run_id IS 'time-ordered: second of the start as sent times 2^30, plus 30 bits of md5 of what names the run (rule 1).';
COMMENT ON COLUMN run.vin IS 'the unit, corrections applied (rule 17).';
COMMENT ON COLUMN run.test IS 'the test.';
COMMENT ON COLUMN run.station IS 'where it ran.';
COMMENT ON COLUMN run.bay IS 'place within the station, null where it has one.';
COMMENT ON COLUMN run.run_ref IS 'the bench''s own name of the run, null where the feed has none.';
COMMENT ON COLUMN run.started_at IS 'start (UTC), clock offset and corrections applied.';
COMMENT ON COLUMN run.ended_at IS 'end (UTC), clock offset and corrections applied; null where not sent.';
COMMENT ON COLUMN run.result IS 'pass, fail, aborted or bypass, corrections applied; of rows that disagree the worst (rule 5).';
COMMENT ON COLUMN run.purpose IS 'normal, retest or audit.';
COMMENT ON COLUMN run.program IS 'program or limit set of the bench.';
COMMENT ON COLUMN run."operator" IS 'keyed pseudonym of the operator or evaluator (rule 18).';
COMMENT ON COLUMN run.last_step IS 'last step completed, null where the test ran whole (rule 8, masked).';
COMMENT ON COLUMN run.revision IS 'version of the run as the bench counts it, null is 0 (rule 1).';
COMMENT ON COLUMN run.vin_sent IS 'vin as sent.';
COMMENT ON COLUMN run.started_at_sent IS 'start as sent (UTC).';
COMMENT ON COLUMN run.ended_at_sent IS 'end as sent (UTC).';
COMMENT ON COLUMN run.result_sent IS 'result as sent, the worst of its rows.';
COMMENT ON COLUMN run."at" IS 'stamp: when the run counts, its end, else its start plus the test''s length (rule 3).';
COMMENT ON COLUMN run.counts IS 'stamp: true where the run counts (rules 2, 4, 5, 6).';
COMMENT ON COLUMN run.void_reason IS 'stamp: why it does not count, null where it does; the first of suspect_double, bypass, aborted, equipment, missing, weak, harsh.';
COMMENT ON COLUMN run.attempt IS 'stamp: number among the counted runs of the unit in the test, null where uncounted (rule 7).';
COMMENT ON COLUMN run.production_date IS 'stamp: day of the shift that holds at (rule 3).';
COMMENT ON COLUMN run.shift IS 'stamp: shift that holds at, null between shifts.';
COMMENT ON COLUMN run.file_id IS 'file of the winning version.';
COMMENT ON COLUMN run.file_row IS 'first row of the run in that file.';
COMMENT ON COLUMN run.kind IS 'stamp: kind of the unit, as in unit (rule 13); this and what follows spare views the look-up among all units.';
COMMENT ON COLUMN run.model IS 'stamp: model of the unit, as in unit.';
COMMENT ON COLUMN run.line IS 'stamp: production line of the unit, as in unit.';
COMMENT ON COLUMN run.build_seq IS 'stamp: place of the unit in the build order, as in unit.';
COMMENT ON COLUMN run.earliest_at IS 'stamp: earliest time anything is known of the unit (UTC), as in unit; a bound for look-ups.';

-- finding: one row is a finding of a run; key run_id, code, zone, step
CREATE TABLE finding (
    run_id BIGINT,
    code VARCHAR,
    zone VARCHAR,
    step VARCHAR,
    severity VARCHAR,
    quantity BIGINT,
    rating DOUBLE,
    note VARCHAR,
    counts_as VARCHAR,
    file_id BIGINT,
    file_row BIGINT,
    test VARCHAR,
    vin VARCHAR,
    "at" TIMESTAMPTZ,
    kind VARCHAR,
    production_date DATE,
    line_date DATE,
    line_shift VARCHAR
);
COMMENT ON TABLE finding IS 'One row is a finding of a run; key run_id, code, zone, step.';
COMMENT ON COLUMN finding.run_id IS 'the run.';
COMMENT ON COLUMN finding.code IS 'what was found.';
COMMENT ON COLUMN finding.zone IS 'where on the unit, or which module; null where unknown.';
COMMENT ON COLUMN finding.step IS 'track element, spray phase or test step; null where unknown.';
COMMENT ON COLUMN finding.severity IS 'severity class as sent, null where the catalogue is to say.';
COMMENT ON COLUMN finding.quantity IS 'how many, null is 1; outside 1..max_quantity set to null (rule 8).';
COMMENT ON COLUMN finding.rating IS 'rating as sent.';
COMMENT ON COLUMN finding.note IS 'remark as sent.';
COMMENT ON COLUMN finding.counts_as IS 'stamp: defect, retest, masked, repeat, observation, equipment or void (rule 8).';
COMMENT ON COLUMN finding.file_id IS 'file; null for a stamped UNSPECIFIED.';
COMMENT ON COLUMN finding.file_row IS 'row in that file.';
COMMENT ON COLUMN finding.test IS 'stamp: test of the run; this and what follows spare views the look-up among all runs.';
COMMENT ON COLUMN finding.vin IS 'stamp: unit of the run, as in run.';
COMMENT ON COLUMN finding."at" IS 'stamp: when the run counts (UTC), as in run (rule 3).';
COMMENT ON COLUMN finding.kind IS 'stamp: kind of the unit, as in unit (rule 13).';
COMMENT ON COLUMN finding.production_date IS 'stamp: day of the shift of the run, as in run (rule 3).';
COMMENT ON COLUMN finding.line_date IS 'stamp: day of the shift in which the unit left the line, as in unit (rule 11).';
COMMENT ON COLUMN finding.line_shift IS 'stamp: that shift, as in unit.';

-- reading: one row is a measured number of a run; key run_id, name, sample
CREATE TABLE reading (
    run_id BIGINT,
    name VARCHAR,
    sample BIGINT,
    "value" DOUBLE,
    lower DOUBLE,
    upper DOUBLE,
    measure_unit VARCHAR,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE reading IS 'One row is a measured number of a run; key run_id, name, sample.';
COMMENT ON COLUMN reading.run_id IS 'the run.';
COMMENT ON COLUMN reading.name IS 'what was measured.';
COMMENT ON COLUMN reading.sample IS 'number of the sample, from 1.';
COMMENT ON COLUMN reading."value" IS 'the number.';
COMMENT ON COLUMN reading.lower IS 'lower limit as sent, null where none.';
COMMENT ON COLUMN reading.upper IS 'upper limit as sent, null where none.';
COMMENT ON COLUMN reading.measure_unit IS 'unit of measure.';
COMMENT ON COLUMN reading.file_id IS 'the file.';
COMMENT ON COLUMN reading.file_row IS 'row in that file.';

-- waiting_finding: one row is a finding whose run has not come yet
CREATE TABLE waiting_finding (
    test VARCHAR,
    vin VARCHAR,
    station VARCHAR,
    started_at TIMESTAMPTZ,
    run_ref VARCHAR,
    code VARCHAR,
    zone VARCHAR,
    step VARCHAR,
    severity VARCHAR,
    quantity BIGINT,
    rating DOUBLE,
    note VARCHAR,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE waiting_finding IS 'One row is a finding whose run has not come yet.';
COMMENT ON COLUMN waiting_finding.test IS 'the test.';
COMMENT ON COLUMN waiting_finding.vin IS 'vin as sent.';
COMMENT ON COLUMN waiting_finding.station IS 'station.';
COMMENT ON COLUMN waiting_finding.started_at IS 'start of the run as sent (UTC).';
COMMENT ON COLUMN waiting_finding.run_ref IS 'the bench''s name of the run, null where none.';
COMMENT ON COLUMN waiting_finding.code IS 'what was found.';
COMMENT ON COLUMN waiting_finding.zone IS 'where.';
COMMENT ON COLUMN waiting_finding.step IS 'at which step.';
COMMENT ON COLUMN waiting_finding.severity IS 'severity class as sent.';
COMMENT ON COLUMN waiting_finding.quantity IS 'how many.';
COMMENT ON COLUMN waiting_finding.rating IS 'rating as sent.';
COMMENT ON COLUMN waiting_finding.note IS 'remark as sent.';
COMMENT ON COLUMN waiting_finding.file_id IS 'the file.';
COMMENT ON COLUMN waiting_finding.file_row IS 'row in that file.';

-- waiting_reading: one row is a reading whose run has not come yet
CREATE TABLE waiting_reading (
    test VARCHAR,
    vin VARCHAR,
    station VARCHAR,
    started_at TIMESTAMPTZ,
    run_ref VARCHAR,
    name VARCHAR,
    sample BIGINT,
    "value" DOUBLE,
    lower DOUBLE,
    upper DOUBLE,
    measure_unit VARCHAR,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE waiting_reading IS 'One row is a reading whose run has not come yet.';
COMMENT ON COLUMN waiting_reading.test IS 'the test.';
COMMENT ON COLUMN waiting_reading.vin IS 'vin as sent.';
COMMENT ON COLUMN waiting_reading.station IS 'station.';
COMMENT ON COLUMN waiting_reading.started_at IS 'start of the run as sent (UTC).';
COMMENT ON COLUMN waiting_reading.run_ref IS 'the bench''s name of the run, null where none.';
COMMENT ON COLUMN waiting_reading.name IS 'what was measured.';
COMMENT ON COLUMN waiting_reading.sample IS 'number of the sample.';
COMMENT ON COLUMN waiting_reading."value" IS 'the number.';
COMMENT ON COLUMN waiting_reading.lower IS 'lower limit as sent.';
COMMENT ON COLUMN waiting_reading.upper IS 'upper limit as sent.';
COMMENT ON COLUMN waiting_reading.measure_unit IS 'unit of measure.';
COMMENT ON COLUMN waiting_reading.file_id IS 'the file.';
COMMENT ON COLUMN waiting_reading.file_row IS 'row in that file.';

-- repair: one row is a repair; key repair_id
CREATE TABLE repair (
    repair_id VARCHAR,
    vin VARCHAR,
    test VARCHAR,
    code VARCHAR,
    zone VARCHAR,
    started_at TIMESTAMPTZ,
    ended_at TIMESTAMPTZ,
    action VARCHAR,
    "class" VARCHAR,
    owner_area VARCHAR,
    place VARCHAR,
    part VARCHAR,
    lot VARCHAR,
    entered_at TIMESTAMPTZ,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE repair IS 'One row is a repair; key repair_id.';
COMMENT ON COLUMN repair.repair_id IS 'id as sent, else 60 bits of md5 over the row, hexadecimal.';
COMMENT ON COLUMN repair.vin IS 'the unit.';
COMMENT ON COLUMN repair.test IS 'the test whose finding it mends, null where unknown.';
COMMENT ON COLUMN repair.code IS 'the code it mends.';
COMMENT ON COLUMN repair.zone IS 'where.';
COMMENT ON COLUMN repair.started_at IS 'start (UTC).';
COMMENT ON COLUMN repair.ended_at IS 'end (UTC), null while open.';
COMMENT ON COLUMN repair.action IS 'what was done.';
COMMENT ON COLUMN repair."class" IS 'repaired, replaced, adjusted or none (rule 15).';
COMMENT ON COLUMN repair.owner_area IS 'area that owns the cause.';
COMMENT ON COLUMN repair.place IS 'where it was done.';
COMMENT ON COLUMN repair.part IS 'part that was changed.';
COMMENT ON COLUMN repair.lot IS 'lot of that part.';
COMMENT ON COLUMN repair.entered_at IS 'when it was entered (UTC).';
COMMENT ON COLUMN repair.file_id IS 'the file.';
COMMENT ON COLUMN repair.file_row IS 'row in that file.';

-- event: one row is where a unit is, or what was decided of it; key event_id
CREATE TABLE event (
    event_id VARCHAR,
    vin VARCHAR,
    "at" TIMESTAMPTZ,
    kind VARCHAR,
    place VARCHAR,
    reference VARCHAR,
    note VARCHAR,
    entered_by VARCHAR,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE event IS 'One row is where a unit is, or what was decided of it; key event_id.';
COMMENT ON COLUMN event.event_id IS 'id as sent, else 60 bits of md5 over the row, hexadecimal.';
COMMENT ON COLUMN event.vin IS 'the unit.';
COMMENT ON COLUMN event."at" IS 'when (UTC).';
COMMENT ON COLUMN event.kind IS 'line_off, move, hold, unhold, scrap, divert, rework, signed_off, release, ship or return.';
COMMENT ON COLUMN event.place IS 'where.';
COMMENT ON COLUMN event.reference IS 'number of the paper behind it.';
COMMENT ON COLUMN event.note IS 'remark.';
COMMENT ON COLUMN event.entered_by IS 'keyed pseudonym of who entered it (rule 18).';
COMMENT ON COLUMN event.file_id IS 'the file.';
COMMENT ON COLUMN event.file_row IS 'row in that file.';

-- unit_status: one row is what a unit stands at in a test; key vin, test
CREATE TABLE unit_status (
    vin VARCHAR,
    test VARCHAR,
    required BOOLEAN,
    attempts BIGINT,
    first_run_id BIGINT,
    first_result VARCHAR,
    last_run_id BIGINT,
    last_result VARCHAR,
    clear_at TIMESTAMPTZ,
    waiting_since TIMESTAMPTZ,
    status VARCHAR,
    reason VARCHAR,
    production_date DATE,
    shift VARCHAR,
    kind VARCHAR,
    line_date DATE,
    line_shift VARCHAR,
    asked_by VARCHAR,
    asked_at TIMESTAMPTZ,
    earliest_at TIMESTAMPTZ
);
COMMENT ON TABLE unit_status IS 'One row is what a unit stands at in a test; key vin, test.';
COMMENT ON COLUMN unit_status.vin IS 'the unit.';
COMMENT ON COLUMN unit_status.test IS 'the test.';
COMMENT ON COLUMN unit_status.required IS 'true where the plan requires the test of this unit.';
COMMENT ON COLUMN unit_status.attempts IS 'counted runs.';
COMMENT ON COLUMN unit_status.first_run_id IS 'attempt 1, null where no run counts.';
COMMENT ON COLUMN unit_status.first_result IS 'its result.';
COMMENT ON COLUMN unit_status.last_run_id IS 'latest counted run.';
COMMENT ON COLUMN unit_status.last_result IS 'its result.';
COMMENT ON COLUMN unit_status.clear_at IS 'when it became clear, null where it is not (a pass at the latest counted run, no disturbing repair after it).';
COMMENT ON COLUMN unit_status.waiting_since IS 'since when it waits, null where it does not.';
COMMENT ON COLUMN unit_status.status IS 'scrapped, diverted, passed, released, held, failed, disturbed, bypassed, pending, void or untested, the first that applies.';
COMMENT ON COLUMN unit_status.reason IS 'what the status rests on, in a word: void reason, repair, release reference.';
COMMENT ON COLUMN unit_status.production_date IS 'day of the first counted run, else of the last void run.';
COMMENT ON COLUMN unit_status.shift IS 'shift of the same run, null between shifts.';
COMMENT ON COLUMN unit_status.earliest_at IS 'earliest time anything is known of the unit (UTC); a bound for look-ups.';
COMMENT ON COLUMN unit_status.kind IS 'kind of the unit, as in unit (rule 13).';
COMMENT ON COLUMN unit_status.line_date IS 'day of the shift in which the unit left the line, as in unit (rule 11).';
COMMENT ON COLUMN unit_status.line_shift IS 'that shift, as in unit.';
COMMENT ON COLUMN unit_status.asked_by IS 'kind of the first event that asks for proof of the test (rule 14); null where the test is clear or none has.';
COMMENT ON COLUMN unit_status.asked_at IS 'when that event was (UTC).';

-- defect_code: one row is a code of the catalogue, for a while; key code, test, valid_from
CREATE TABLE defect_code (
    code VARCHAR,
    test VARCHAR,
    title VARCHAR,
    severity VARCHAR,
    owner_area VARCHAR,
    safety_related BOOLEAN,
    handling VARCHAR,
    applies_when VARCHAR,
    same_as VARCHAR,
    valid_from TIMESTAMPTZ,
    valid_to TIMESTAMPTZ,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE defect_code IS 'One row is a code of the catalogue, for a while; key code, test, valid_from.';
COMMENT ON COLUMN defect_code.code IS 'the code.';
COMMENT ON COLUMN defect_code.test IS 'the test it belongs to, null for all.';
COMMENT ON COLUMN defect_code.title IS 'name in words.';
COMMENT ON COLUMN defect_code.severity IS 'severity class A, B, C or D.';
COMMENT ON COLUMN defect_code.owner_area IS 'area that owns it; equipment: a fault of the bench (rule 6).';
COMMENT ON COLUMN defect_code.safety_related IS 'true where a fault of this code can hurt.';
COMMENT ON COLUMN defect_code.handling IS 'the words to print beside such a unit.';
COMMENT ON COLUMN defect_code.applies_when IS 'which units can have it, as attribute clauses (rule 10).';
COMMENT ON COLUMN defect_code.same_as IS 'the code it is counted with (rule 12).';
COMMENT ON COLUMN defect_code.valid_from IS 'from when (UTC), null for ever before.';
COMMENT ON COLUMN defect_code.valid_to IS 'until when, exclusive (UTC), null for ever after.';
COMMENT ON COLUMN defect_code.file_id IS 'the file.';
COMMENT ON COLUMN defect_code.file_row IS 'row in that file.';

-- zone: one row is a place on the unit; key zone, test
CREATE TABLE zone (
    zone VARCHAR,
    test VARCHAR,
    title VARCHAR,
    cell VARCHAR,
    outline VARCHAR,
    hv_near BOOLEAN,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE zone IS 'One row is a place on the unit; key zone, test.';
COMMENT ON COLUMN zone.zone IS 'the place.';
COMMENT ON COLUMN zone.test IS 'the test that uses it, null for all.';
COMMENT ON COLUMN zone.title IS 'name in words.';
COMMENT ON COLUMN zone.cell IS 'cell of the unit: front, mid or rear, left, centre or right, low, mid or high, joined by hyphens.';
COMMENT ON COLUMN zone.outline IS 'polygon seen from above, as x,y pairs, null where none.';
COMMENT ON COLUMN zone.hv_near IS 'true where high voltage is near: water there is safety-related.';
COMMENT ON COLUMN zone.file_id IS 'the file.';
COMMENT ON COLUMN zone.file_row IS 'row in that file.';

-- countermeasure: one row is an action against a defect; key action_id
CREATE TABLE countermeasure (
    action_id VARCHAR,
    test VARCHAR,
    code VARCHAR,
    zone VARCHAR,
    owner_area VARCHAR,
    owner VARCHAR,
    "text" VARCHAR,
    opened_on DATE,
    due_on DATE,
    from_build_seq BIGINT,
    cut_in_at TIMESTAMPTZ,
    baseline_from DATE,
    baseline_to DATE,
    expected_ratio DOUBLE,
    closed_on DATE,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE countermeasure IS 'One row is an action against a defect; key action_id.';
COMMENT ON COLUMN countermeasure.action_id IS 'id as sent, else 60 bits of md5 over the row, hexadecimal.';
COMMENT ON COLUMN countermeasure.test IS 'the test.';
COMMENT ON COLUMN countermeasure.code IS 'the code it acts on.';
COMMENT ON COLUMN countermeasure.zone IS 'the zone, null for all.';
COMMENT ON COLUMN countermeasure.owner_area IS 'area that owns it.';
COMMENT ON COLUMN countermeasure.owner IS 'who answers for it.';
COMMENT ON COLUMN countermeasure."text" IS 'what is done.';
COMMENT ON COLUMN countermeasure.opened_on IS 'when it was opened.';
COMMENT ON COLUMN countermeasure.due_on IS 'when it is due.';
COMMENT ON COLUMN countermeasure.from_build_seq IS 'first unit built with it.';
COMMENT ON COLUMN countermeasure.cut_in_at IS 'when it cut in (UTC).';
COMMENT ON COLUMN countermeasure.baseline_from IS 'first day of the baseline.';
COMMENT ON COLUMN countermeasure.baseline_to IS 'last day of the baseline.';
COMMENT ON COLUMN countermeasure.expected_ratio IS 'ratio of after to before that was hoped for.';
COMMENT ON COLUMN countermeasure.closed_on IS 'when it was closed.';
COMMENT ON COLUMN countermeasure.file_id IS 'the file.';
COMMENT ON COLUMN countermeasure.file_row IS 'row in that file.';

-- lot: one row is a lot of a part, by sequence or time range; key part, lot, from_build_seq, from_at
CREATE TABLE lot (
    part VARCHAR,
    lot VARCHAR,
    from_build_seq BIGINT,
    to_build_seq BIGINT,
    from_at TIMESTAMPTZ,
    to_at TIMESTAMPTZ,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE lot IS 'One row is a lot of a part, by sequence or time range; key part, lot, from_build_seq, from_at.';
COMMENT ON COLUMN lot.part IS 'the part.';
COMMENT ON COLUMN lot.lot IS 'the lot.';
COMMENT ON COLUMN lot.from_build_seq IS 'first unit.';
COMMENT ON COLUMN lot.to_build_seq IS 'last unit.';
COMMENT ON COLUMN lot.from_at IS 'from when (UTC).';
COMMENT ON COLUMN lot.to_at IS 'until when (UTC).';
COMMENT ON COLUMN lot.file_id IS 'the file.';
COMMENT ON COLUMN lot.file_row IS 'row in that file.';

-- correction: one row is a mended field of a run or a unit; key correction_id
CREATE TABLE correction (
    correction_id VARCHAR,
    run_id BIGINT,
    vin VARCHAR,
    field VARCHAR,
    "value" VARCHAR,
    reason VARCHAR,
    made_by VARCHAR,
    made_at TIMESTAMPTZ,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE correction IS 'One row is a mended field of a run or a unit; key correction_id.';
COMMENT ON COLUMN correction.correction_id IS 'id as sent, else 60 bits of md5 over the row, hexadecimal.';
COMMENT ON COLUMN correction.run_id IS 'the run, null where a unit is mended.';
COMMENT ON COLUMN correction.vin IS 'the unit, null where a run is mended.';
COMMENT ON COLUMN correction.field IS 'run: vin, started_at, ended_at or result; unit: model, line, kind, build_seq or line_off_at.';
COMMENT ON COLUMN correction."value" IS 'the right value.';
COMMENT ON COLUMN correction.reason IS 'why.';
COMMENT ON COLUMN correction.made_by IS 'keyed pseudonym of who made it (rule 18).';
COMMENT ON COLUMN correction.made_at IS 'when (UTC).';
COMMENT ON COLUMN correction.file_id IS 'the file.';
COMMENT ON COLUMN correction.file_row IS 'row in that file.';

-- answer: one row is a computed figure that SQL cannot give, written when a shift's report is made
CREATE TABLE answer (
    production_date DATE,
    shift VARCHAR,
    question VARCHAR,
    test VARCHAR,
    code VARCHAR,
    zone VARCHAR,
    subject VARCHAR,
    name VARCHAR,
    n BIGINT,
    "value" DOUBLE,
    low DOUBLE,
    high DOUBLE,
    words VARCHAR,
    method VARCHAR
);
COMMENT ON TABLE answer IS 'One row is a computed figure that SQL cannot give, written when a shift''s report is made.';
COMMENT ON COLUMN answer.production_date IS 'day of the shift.';
COMMENT ON COLUMN answer.shift IS 'the shift.';
COMMENT ON COLUMN answer.question IS 'what was asked.';
COMMENT ON COLUMN answer.test IS 'the test, null where none.';
COMMENT ON COLUMN answer.code IS 'the code, null where none.';
COMMENT ON COLUMN answer.zone IS 'the zone, null where none.';
COMMENT ON COLUMN answer.subject IS 'what the figure is of.';
COMMENT ON COLUMN answer.name IS 'name of the figure.';
COMMENT ON COLUMN answer.n IS 'units behind it.';
COMMENT ON COLUMN answer."value" IS 'the figure.';
COMMENT ON COLUMN answer.low IS 'lower end of its interval.';
COMMENT ON COLUMN answer.high IS 'upper end of its interval.';
COMMENT ON COLUMN answer.words IS 'the figure in words.';
COMMENT ON COLUMN answer.method IS 'how it was computed.';

-- report_sent: one row is a report to one recipient
CREATE TABLE report_sent (
    period VARCHAR,
    production_date DATE,
    shift VARCHAR,
    recipient VARCHAR,
    message_id VARCHAR,
    state VARCHAR,
    tries BIGINT,
    sent_at TIMESTAMPTZ
);
COMMENT ON TABLE report_sent IS 'One row is a report to one recipient.';
COMMENT ON COLUMN report_sent.period IS 'shift, day or week.';
COMMENT ON COLUMN report_sent.production_date IS 'day of the report.';
COMMENT ON COLUMN report_sent.shift IS 'the shift, null for day and week.';
COMMENT ON COLUMN report_sent.recipient IS 'address.';
COMMENT ON COLUMN report_sent.message_id IS 'Message-ID, the same on a retry.';
COMMENT ON COLUMN report_sent.state IS 'waiting, sent, refused or failed.';
COMMENT ON COLUMN report_sent.tries IS 'how often it was tried.';
COMMENT ON COLUMN report_sent.sent_at IS 'when the relay took it (UTC).';

-- figure_sent: one row is a figure of a report that left, or of a shift when it first settled
CREATE TABLE figure_sent (
    message_id VARCHAR,
    figure VARCHAR,
    key VARCHAR,
    n BIGINT,
    "value" DOUBLE,
    low DOUBLE,
    high DOUBLE
);
COMMENT ON TABLE figure_sent IS 'One row is a figure of a report that left, or of a shift when it first settled.';
COMMENT ON COLUMN figure_sent.message_id IS 'the report, settled: and the shift where none left.';
COMMENT ON COLUMN figure_sent.figure IS 'view and column of the figure.';
COMMENT ON COLUMN figure_sent.key IS 'key of its row, as JSON.';
COMMENT ON COLUMN figure_sent.n IS 'units behind it.';
COMMENT ON COLUMN figure_sent."value" IS 'the figure as sent.';
COMMENT ON COLUMN figure_sent.low IS 'lower end of its interval.';
COMMENT ON COLUMN figure_sent.high IS 'upper end of its interval.';

-- containment: one row is a version of a suspect list; key containment_id, version
CREATE TABLE containment (
    containment_id VARCHAR,
    version BIGINT,
    made_at TIMESTAMPTZ,
    made_by VARCHAR,
    question VARCHAR,
    edges VARCHAR,
    sha256 VARCHAR
);
COMMENT ON TABLE containment IS 'One row is a version of a suspect list; key containment_id, version.';
COMMENT ON COLUMN containment.containment_id IS 'the list.';
COMMENT ON COLUMN containment.version IS 'its version, from 1.';
COMMENT ON COLUMN containment.made_at IS 'when it was made (UTC).';
COMMENT ON COLUMN containment.made_by IS 'keyed pseudonym of who made it (rule 18).';
COMMENT ON COLUMN containment.question IS 'what was asked, as JSON.';
COMMENT ON COLUMN containment.edges IS 'its edges with their reasons, as JSON.';
COMMENT ON COLUMN containment.sha256 IS 'fingerprint of its units.';

-- containment_unit: one row is a unit of a suspect list; key containment_id, version, vin
CREATE TABLE containment_unit (
    containment_id VARCHAR,
    version BIGINT,
    vin VARCHAR,
    evidence VARCHAR,
    place VARCHAR,
    residual_risk DOUBLE
);
COMMENT ON TABLE containment_unit IS 'One row is a unit of a suspect list; key containment_id, version, vin.';
COMMENT ON COLUMN containment_unit.containment_id IS 'the list.';
COMMENT ON COLUMN containment_unit.version IS 'its version.';
COMMENT ON COLUMN containment_unit.vin IS 'the unit.';
COMMENT ON COLUMN containment_unit.evidence IS 'class of the evidence.';
COMMENT ON COLUMN containment_unit.place IS 'where the unit is.';
COMMENT ON COLUMN containment_unit.residual_risk IS 'chance that it has the fault although its test passed.';

-- touched_unit: one row is a unit whose stamps are due; empty between loads
CREATE TABLE touched_unit (
    vin VARCHAR,
    earliest_at TIMESTAMPTZ
);
COMMENT ON TABLE touched_unit IS 'One row is a unit whose stamps are due; empty between loads.';
COMMENT ON COLUMN touched_unit.vin IS 'the unit.';
COMMENT ON COLUMN touched_unit.earliest_at IS 'earliest time that the new rows tell of the unit (UTC).';

-- twin: one row is a version of a run that equals one of another file but for one hour (rule 2)
CREATE TABLE twin (
    run_id BIGINT,
    file_id BIGINT,
    twin_run_id BIGINT,
    twin_file_id BIGINT,
    step_seconds BIGINT,
    by_name BOOLEAN,
    vin VARCHAR
);
COMMENT ON TABLE twin IS 'One row is a version of a run that equals one of another file but for one hour (rule 2).';
COMMENT ON COLUMN twin.run_id IS 'the run of the later file.';
COMMENT ON COLUMN twin.file_id IS 'the later file.';
COMMENT ON COLUMN twin.twin_run_id IS 'the run of the earlier file.';
COMMENT ON COLUMN twin.twin_file_id IS 'the earlier file.';
COMMENT ON COLUMN twin.step_seconds IS '3600 or -3600: how far the later file moved the run.';
COMMENT ON COLUMN twin.by_name IS 'true where both are versions of one run_ref.';
COMMENT ON COLUMN twin.vin IS 'the unit, as sent.';

-- station_heard: one row is a test x station and when it last sent a run
CREATE TABLE station_heard (
    test VARCHAR,
    station VARCHAR,
    last_at TIMESTAMPTZ,
    row_count BIGINT
);
COMMENT ON TABLE station_heard IS 'One row is a test x station and the newest run it has sent; kept up to date whenever units are stamped (rules 11 and 14).';
COMMENT ON COLUMN station_heard.test IS 'the test.';
COMMENT ON COLUMN station_heard.station IS 'the station.';
COMMENT ON COLUMN station_heard.last_at IS 'end of its newest run (UTC), counted or not.';
COMMENT ON COLUMN station_heard.row_count IS 'runs it has sent, counted or not.';

-- seen_file: one row is a file of the inbox as it was last looked at; key path
CREATE TABLE seen_file (
    path VARCHAR,
    bytes BIGINT,
    changed_at TIMESTAMPTZ,
    state VARCHAR,
    settings VARCHAR
);
COMMENT ON TABLE seen_file IS 'One row is a file of the inbox as it was last looked at; key path.';
COMMENT ON COLUMN seen_file.path IS 'where it lies or lay.';
COMMENT ON COLUMN seen_file.bytes IS 'its size then.';
COMMENT ON COLUMN seen_file.changed_at IS 'its last change then (UTC).';
COMMENT ON COLUMN seen_file.state IS 'what became of it: loaded, known, refused or held.';
COMMENT ON COLUMN seen_file.settings IS 'fingerprint of the plant.toml it was read with; a refused file is tried again under another.';

-- keyed_row: one row is a row of a file whose unit was named by a unit key, and is stored; key file_id, file_row (rule 17)
CREATE TABLE keyed_row (
    file_id BIGINT,
    file_row BIGINT,
    feed VARCHAR,
    key VARCHAR,
    "at" TIMESTAMPTZ,
    vin VARCHAR,
    raw VARCHAR
);
COMMENT ON TABLE keyed_row IS 'One row is a row of a file whose unit was named by a unit key, and is stored; key file_id, file_row (rule 17).';
COMMENT ON COLUMN keyed_row.file_id IS 'the file.';
COMMENT ON COLUMN keyed_row.file_row IS 'the row''s number in the file, the first data row is 1.';
COMMENT ON COLUMN keyed_row.feed IS 'the feed the row came by.';
COMMENT ON COLUMN keyed_row.key IS 'the unit key, as kind=value.';
COMMENT ON COLUMN keyed_row."at" IS 'the row''s own time (UTC), at which the key was asked for; null where it has none.';
COMMENT ON COLUMN keyed_row.vin IS 'the unit that the key named then.';
COMMENT ON COLUMN keyed_row.raw IS 'the row as it stood in the file, as a JSON object.';

-- touched_key: one row is a unit key that may name other units than before; empty between loads
CREATE TABLE touched_key (key VARCHAR);
COMMENT ON TABLE touched_key IS 'One row is a unit key that may name other units than before; empty between loads.';
COMMENT ON COLUMN touched_key.key IS 'the key, as kind=value.';

-- superseded: losing versions of rows, whole, in tables shaped like those they lost in (rule 1)
-- One row is a version that another file outranks; kept so that the same files in any order give the same tables.
-- Reads: the tables before it.
CREATE SCHEMA superseded;
CREATE TABLE superseded.unit_sent AS SELECT * FROM main.unit_sent LIMIT 0;
CREATE TABLE superseded.attribute AS SELECT * FROM main.attribute LIMIT 0;
CREATE TABLE superseded.run AS SELECT * FROM main.run LIMIT 0;
CREATE TABLE superseded.finding AS SELECT * FROM main.finding LIMIT 0;
CREATE TABLE superseded.reading AS SELECT * FROM main.reading LIMIT 0;
CREATE TABLE superseded.repair AS SELECT * FROM main.repair LIMIT 0;
CREATE TABLE superseded.event AS SELECT * FROM main.event LIMIT 0;
CREATE TABLE superseded.defect_code AS SELECT * FROM main.defect_code LIMIT 0;
CREATE TABLE superseded.zone AS SELECT * FROM main.zone LIMIT 0;
CREATE TABLE superseded.countermeasure AS SELECT * FROM main.countermeasure LIMIT 0;
CREATE TABLE superseded.lot AS SELECT * FROM main.lot LIMIT 0;
CREATE TABLE superseded.correction AS SELECT * FROM main.correction LIMIT 0;
CREATE TABLE superseded.unit_key AS SELECT * FROM main.unit_key LIMIT 0;
CREATE TABLE superseded.shift_window AS SELECT * FROM main.shift_window LIMIT 0;

-- amended_run: losing versions of runs (rule 1)
-- One row is a version of a run that a higher revision or a later file outranks.
-- Reads: superseded.run.
CREATE VIEW amended_run AS
SELECT
    run_id,
    file_id,
    coalesce(revision, 0) AS revision,
    cast(to_json(s) AS VARCHAR) AS was
FROM superseded.run AS s;
COMMENT ON VIEW amended_run IS 'One row is a losing version of a run, whole (rule 1).';
COMMENT ON COLUMN amended_run.run_id IS 'the run.';
COMMENT ON COLUMN amended_run.file_id IS 'file of the losing version.';
COMMENT ON COLUMN amended_run.revision IS 'its revision, 0 where the bench counts none.';
COMMENT ON COLUMN amended_run.was IS 'the version as it was, as a JSON object of the columns of run.';

INSERT INTO "attribute" ("vin", "name", "at", "station", "source", "text_value", "number_value", "measure_unit", "file_id", "file_row") VALUES
('000000000000000U1', 'roof', NULL, NULL, 'units', 'fixed', NULL, NULL, 775213653501680470, 1),
('000000000000000U2', 'roof', NULL, NULL, 'units', 'fixed', NULL, NULL, 775213653501680470, 2),
('000000000000000U3', 'roof', NULL, NULL, 'units', 'fixed', NULL, NULL, 775213653501680470, 3);

INSERT INTO "condition_limit" ("test", "name", "valid_from", "valid_to", "lower", "upper", "measure_unit", "required") VALUES
('water', 'pressure_kpa', '2025-12-31 23:00:00+00:00', NULL, 220.0, 280.0, 'kPa', true);

INSERT INTO "defect_code" ("code", "test", "title", "severity", "owner_area", "safety_related", "handling", "applies_when", "same_as", "valid_from", "valid_to", "file_id", "file_row") VALUES
('HISS', NULL, 'Hiss', 'D', 'paint', false, NULL, NULL, NULL, NULL, NULL, 191854284167712683, 2),
('LEAK', NULL, 'Leak', 'C', 'paint', false, 'Dry it.', NULL, NULL, NULL, NULL, 191854284167712683, 1);

INSERT INTO "demerit_weight" ("severity", "weight") VALUES
('A', 100.0),
('B', 50.0),
('C', 10.0),
('D', 1.0);

INSERT INTO "event" ("event_id", "vin", "at", "kind", "place", "reference", "note", "entered_by", "file_id", "file_row") VALUES
('U1-line_off-2026-09-08T06:30:00+02:00', '000000000000000U1', '2026-09-08 04:30:00+00:00', 'line_off', NULL, NULL, NULL, NULL, 253864743739976330, 1),
('U3-line_off-2026-09-08T06:30:00+02:00', '000000000000000U3', '2026-09-08 04:30:00+00:00', 'line_off', NULL, NULL, NULL, NULL, 253864743739976330, 3),
('U2-line_off-2026-09-08T06:30:00+02:00', '000000000000000U2', '2026-09-08 04:30:00+00:00', 'line_off', NULL, NULL, NULL, NULL, 253864743739976330, 2);

INSERT INTO "finding" ("run_id", "code", "zone", "step", "severity", "quantity", "rating", "note", "counts_as", "file_id", "file_row", "test", "vin", "at", "kind", "production_date", "line_date", "line_shift") VALUES
(1920760441945348889, 'LEAK', 'RRQ', NULL, NULL, NULL, NULL, NULL, 'defect', 800378874846228398, 2, 'water', '000000000000000U2', '2026-09-08 06:10:00+00:00', 'production', '2026-09-08', '2026-09-08', 'E'),
(1920761086235960547, 'LEAK', 'LRQ', NULL, NULL, NULL, NULL, NULL, 'defect', 800378874846228398, 4, 'water', '000000000000000U3', '2026-09-08 06:20:00+00:00', 'production', '2026-09-08', '2026-09-08', 'E'),
(1920761086235960547, 'HISS', 'LRQ', NULL, NULL, NULL, NULL, NULL, 'defect', 800378874846228398, 5, 'water', '000000000000000U3', '2026-09-08 06:20:00+00:00', 'production', '2026-09-08', '2026-09-08', 'E');

INSERT INTO "plant_setting" ("name", "timezone", "date_by", "starts_on", "silence_limit", "settle_hours") VALUES
('Quillbrook', 'Europe/Berlin', 'start', '2026-01-01', 86400, 24.0);

INSERT INTO "proof_event" ("kind") VALUES
('signed_off'),
('ship');

INSERT INTO "reading" ("run_id", "name", "sample", "value", "lower", "upper", "measure_unit", "file_id", "file_row") VALUES
(1920759797692536875, 'pressure_kpa', 1, 250.0, NULL, NULL, 'kPa', 800378874846228398, 1),
(1920760441945348889, 'pressure_kpa', 1, 250.0, NULL, NULL, 'kPa', 800378874846228398, 2),
(1920775260476085665, 'pressure_kpa', 1, 250.0, NULL, NULL, 'kPa', 800378874846228398, 3),
(1920761731335986462, 'pressure_kpa', 1, 250.0, NULL, NULL, 'kPa', 800378874846228398, 6),
(1920761086235960547, 'pressure_kpa', 1, 250.0, NULL, NULL, 'kPa', 800378874846228398, 5);

INSERT INTO "repair" ("repair_id", "vin", "test", "code", "zone", "started_at", "ended_at", "action", "class", "owner_area", "place", "part", "lot", "entered_at", "file_id", "file_row") VALUES
('U2-10:00', '000000000000000U2', NULL, NULL, NULL, '2026-09-08 07:30:00+00:00', '2026-09-08 08:00:00+00:00', 'resealed', 'repaired', NULL, NULL, NULL, NULL, NULL, 474253002904979385, 1);

INSERT INTO "run" ("run_id", "vin", "test", "station", "bay", "run_ref", "started_at", "ended_at", "result", "purpose", "program", "operator", "last_step", "revision", "vin_sent", "started_at_sent", "ended_at_sent", "result_sent", "at", "counts", "void_reason", "attempt", "production_date", "shift", "file_id", "file_row", "kind", "model", "line", "build_seq", "earliest_at") VALUES
(1920755932870809723, '000000000000000U1', 'electrical', 'E1', NULL, NULL, '2026-09-08 04:56:00+00:00', '2026-09-08 05:00:00+00:00', 'pass', NULL, NULL, NULL, NULL, NULL, '000000000000000U1', '2026-09-08 04:56:00+00:00', '2026-09-08 05:00:00+00:00', 'pass', '2026-09-08 05:00:00+00:00', true, NULL, 1, '2026-09-08', 'E', 523112045658069744, 1, 'production', 'WAG', '1', 0, '2026-09-08 04:30:00+00:00'),
(1920755932757333333, '000000000000000U2', 'electrical', 'E1', NULL, NULL, '2026-09-08 04:56:00+00:00', '2026-09-08 05:00:00+00:00', 'pass', NULL, NULL, NULL, NULL, NULL, '000000000000000U2', '2026-09-08 04:56:00+00:00', '2026-09-08 05:00:00+00:00', 'pass', '2026-09-08 05:00:00+00:00', true, NULL, 1, '2026-09-08', 'E', 523112045658069744, 2, 'production', 'WAG', '1', 1, '2026-09-08 04:30:00+00:00'),
(1920755932914732148, '000000000000000U3', 'electrical', 'E1', NULL, NULL, '2026-09-08 04:56:00+00:00', '2026-09-08 05:00:00+00:00', 'pass', NULL, NULL, NULL, NULL, NULL, '000000000000000U3', '2026-09-08 04:56:00+00:00', '2026-09-08 05:00:00+00:00', 'pass', '2026-09-08 05:00:00+00:00', true, NULL, 1, '2026-09-08', 'E', 523112045658069744, 3, 'production', 'WAG', '1', 2, '2026-09-08 04:30:00+00:00'),
(1920759797692536875, '000000000000000U1', 'water', 'W1', NULL, NULL, '2026-09-08 05:56:00+00:00', '2026-09-08 06:00:00+00:00', 'pass', NULL, NULL, NULL, NULL, NULL, '000000000000000U1', '2026-09-08 05:56:00+00:00', '2026-09-08 06:00:00+00:00', 'pass', '2026-09-08 06:00:00+00:00', true, NULL, 1, '2026-09-08', 'E', 800378874846228398, 1, 'production', 'WAG', '1', 0, '2026-09-08 04:30:00+00:00'),
(1920760441945348889, '000000000000000U2', 'water', 'W1', NULL, NULL, '2026-09-08 06:06:00+00:00', '2026-09-08 06:10:00+00:00', 'fail', NULL, NULL, NULL, NULL, NULL, '000000000000000U2', '2026-09-08 06:06:00+00:00', '2026-09-08 06:10:00+00:00', 'fail', '2026-09-08 06:10:00+00:00', true, NULL, 1, '2026-09-08', 'E', 800378874846228398, 2, 'production', 'WAG', '1', 1, '2026-09-08 04:30:00+00:00'),
(1920775260476085665, '000000000000000U2', 'water', 'W1', NULL, NULL, '2026-09-08 09:56:00+00:00', '2026-09-08 10:00:00+00:00', 'pass', NULL, NULL, NULL, NULL, NULL, '000000000000000U2', '2026-09-08 09:56:00+00:00', '2026-09-08 10:00:00+00:00', 'pass', '2026-09-08 10:00:00+00:00', true, NULL, 2, '2026-09-08', 'E', 800378874846228398, 3, 'production', 'WAG', '1', 1, '2026-09-08 04:30:00+00:00'),
(1920761731335986462, '000000000000000U9', 'water', 'W1', NULL, NULL, '2026-09-08 06:26:00+00:00', '2026-09-08 06:30:00+00:00', 'pass', NULL, NULL, NULL, NULL, NULL, '000000000000000U9', '2026-09-08 06:26:00+00:00', '2026-09-08 06:30:00+00:00', 'pass', '2026-09-08 06:30:00+00:00', true, NULL, 1, '2026-09-08', 'E', 800378874846228398, 6, 'trial', 'WAG', '1', NULL, '2026-09-08 06:26:00+00:00'),
(1920761086235960547, '000000000000000U3', 'water', 'W1', NULL, NULL, '2026-09-08 06:16:00+00:00', '2026-09-08 06:20:00+00:00', 'fail', NULL, NULL, NULL, NULL, NULL, '000000000000000U3', '2026-09-08 06:16:00+00:00', '2026-09-08 06:20:00+00:00', 'fail', '2026-09-08 06:20:00+00:00', true, NULL, 1, '2026-09-08', 'E', 800378874846228398, 4, 'production', 'WAG', '1', 2, '2026-09-08 04:30:00+00:00');

INSERT INTO "schema_version" ("version", "made_at", "tool", "views") VALUES
(3, '2026-11-30 09:01:10.977358+00:00', '0.1.0', NULL);

INSERT INTO "shift_window" ("production_date", "shift", "crew", "starts_at", "ends_at", "cancelled", "file_id", "file_row") VALUES
('2026-01-01', 'E', NULL, '2026-01-01 05:00:00+00:00', '2026-01-01 13:00:00+00:00', false, NULL, NULL),
('2026-01-01', 'L', NULL, '2026-01-01 13:00:00+00:00', '2026-01-01 21:00:00+00:00', false, NULL, NULL),
('2026-01-01', 'N', NULL, '2026-01-01 21:00:00+00:00', '2026-01-02 05:00:00+00:00', false, NULL, NULL),
('2026-01-02', 'E', NULL, '2026-01-02 05:00:00+00:00', '2026-01-02 13:00:00+00:00', false, NULL, NULL),
('2026-01-02', 'L', NULL, '2026-01-02 13:00:00+00:00', '2026-01-02 21:00:00+00:00', false, NULL, NULL),
('2026-01-02', 'N', NULL, '2026-01-02 21:00:00+00:00', '2026-01-03 05:00:00+00:00', false, NULL, NULL),
('2026-01-03', 'E', NULL, '2026-01-03 05:00:00+00:00', '2026-01-03 13:00:00+00:00', false, NULL, NULL),
('2026-01-03', 'L', NULL, '2026-01-03 13:00:00+00:00', '2026-01-03 21:00:00+00:00', false, NULL, NULL),
('2026-01-03', 'N', NULL, '2026-01-03 21:00:00+00:00', '2026-01-04 05:00:00+00:00', false, NULL, NULL),
('2026-01-04', 'E', NULL, '2026-01-04 05:00:00+00:00', '2026-01-04 13:00:00+00:00', false, NULL, NULL),
('2026-01-04', 'L', NULL, '2026-01-04 13:00:00+00:00', '2026-01-04 21:00:00+00:00', false, NULL, NULL),
('2026-01-04', 'N', NULL, '2026-01-04 21:00:00+00:00', '2026-01-05 05:00:00+00:00', false, NULL, NULL),
('2026-01-05', 'E', NULL, '2026-01-05 05:00:00+00:00', '2026-01-05 13:00:00+00:00', false, NULL, NULL),
('2026-01-05', 'L', NULL, '2026-01-05 13:00:00+00:00', '2026-01-05 21:00:00+00:00', false, NULL, NULL),
('2026-01-05', 'N', NULL, '2026-01-05 21:00:00+00:00', '2026-01-06 05:00:00+00:00', false, NULL, NULL),
('2026-01-06', 'E', NULL, '2026-01-06 05:00:00+00:00', '2026-01-06 13:00:00+00:00', false, NULL, NULL),
('2026-01-06', 'L', NULL, '2026-01-06 13:00:00+00:00', '2026-01-06 21:00:00+00:00', false, NULL, NULL),
('2026-01-06', 'N', NULL, '2026-01-06 21:00:00+00:00', '2026-01-07 05:00:00+00:00', false, NULL, NULL),
('2026-01-07', 'E', NULL, '2026-01-07 05:00:00+00:00', '2026-01-07 13:00:00+00:00', false, NULL, NULL),
('2026-01-07', 'L', NULL, '2026-01-07 13:00:00+00:00', '2026-01-07 21:00:00+00:00', false, NULL, NULL),
('2026-01-07', 'N', NULL, '2026-01-07 21:00:00+00:00', '2026-01-08 05:00:00+00:00', false, NULL, NULL),
('2026-01-08', 'E', NULL, '2026-01-08 05:00:00+00:00', '2026-01-08 13:00:00+00:00', false, NULL, NULL),
('2026-01-08', 'L', NULL, '2026-01-08 13:00:00+00:00', '2026-01-08 21:00:00+00:00', false, NULL, NULL),
('2026-01-08', 'N', NULL, '2026-01-08 21:00:00+00:00', '2026-01-09 05:00:00+00:00', false, NULL, NULL),
('2026-01-09', 'E', NULL, '2026-01-09 05:00:00+00:00', '2026-01-09 13:00:00+00:00', false, NULL, NULL),
('2026-01-09', 'L', NULL, '2026-01-09 13:00:00+00:00', '2026-01-09 21:00:00+00:00', false, NULL, NULL),
('2026-01-09', 'N', NULL, '2026-01-09 21:00:00+00:00', '2026-01-10 05:00:00+00:00', false, NULL, NULL),
('2026-01-10', 'E', NULL, '2026-01-10 05:00:00+00:00', '2026-01-10 13:00:00+00:00', false, NULL, NULL),
('2026-01-10', 'L', NULL, '2026-01-10 13:00:00+00:00', '2026-01-10 21:00:00+00:00', false, NULL, NULL),
('2026-01-10', 'N', NULL, '2026-01-10 21:00:00+00:00', '2026-01-11 05:00:00+00:00', false, NULL, NULL),
('2026-01-11', 'E', NULL, '2026-01-11 05:00:00+00:00', '2026-01-11 13:00:00+00:00', false, NULL, NULL),
('2026-01-11', 'L', NULL, '2026-01-11 13:00:00+00:00', '2026-01-11 21:00:00+00:00', false, NULL, NULL),
('2026-01-11', 'N', NULL, '2026-01-11 21:00:00+00:00', '2026-01-12 05:00:00+00:00', false, NULL, NULL),
('2026-01-12', 'E', NULL, '2026-01-12 05:00:00+00:00', '2026-01-12 13:00:00+00:00', false, NULL, NULL),
('2026-01-12', 'L', NULL, '2026-01-12 13:00:00+00:00', '2026-01-12 21:00:00+00:00', false, NULL, NULL),
('2026-01-12', 'N', NULL, '2026-01-12 21:00:00+00:00', '2026-01-13 05:00:00+00:00', false, NULL, NULL),
('2026-01-13', 'E', NULL, '2026-01-13 05:00:00+00:00', '2026-01-13 13:00:00+00:00', false, NULL, NULL),
('2026-01-13', 'L', NULL, '2026-01-13 13:00:00+00:00', '2026-01-13 21:00:00+00:00', false, NULL, NULL),
('2026-01-13', 'N', NULL, '2026-01-13 21:00:00+00:00', '2026-01-14 05:00:00+00:00', false, NULL, NULL),
('2026-01-14', 'E', NULL, '2026-01-14 05:00:00+00:00', '2026-01-14 13:00:00+00:00', false, NULL, NULL),
('2026-01-14', 'L', NULL, '2026-01-14 13:00:00+00:00', '2026-01-14 21:00:00+00:00', false, NULL, NULL),
('2026-01-14', 'N', NULL, '2026-01-14 21:00:00+00:00', '2026-01-15 05:00:00+00:00', false, NULL, NULL),
('2026-01-15', 'E', NULL, '2026-01-15 05:00:00+00:00', '2026-01-15 13:00:00+00:00', false, NULL, NULL),
('2026-01-15', 'L', NULL, '2026-01-15 13:00:00+00:00', '2026-01-15 21:00:00+00:00', false, NULL, NULL),
('2026-01-15', 'N', NULL, '2026-01-15 21:00:00+00:00', '2026-01-16 05:00:00+00:00', false, NULL, NULL),
('2026-01-16', 'E', NULL, '2026-01-16 05:00:00+00:00', '2026-01-16 13:00:00+00:00', false, NULL, NULL),
('2026-01-16', 'L', NULL, '2026-01-16 13:00:00+00:00', '2026-01-16 21:00:00+00:00', false, NULL, NULL),
('2026-01-16', 'N', NULL, '2026-01-16 21:00:00+00:00', '2026-01-17 05:00:00+00:00', false, NULL, NULL),
('2026-01-17', 'E', NULL, '2026-01-17 05:00:00+00:00', '2026-01-17 13:00:00+00:00', false, NULL, NULL),
('2026-01-17', 'L', NULL, '2026-01-17 13:00:00+00:00', '2026-01-17 21:00:00+00:00', false, NULL, NULL),
('2026-01-17', 'N', NULL, '2026-01-17 21:00:00+00:00', '2026-01-18 05:00:00+00:00', false, NULL, NULL),
('2026-01-18', 'E', NULL, '2026-01-18 05:00:00+00:00', '2026-01-18 13:00:00+00:00', false, NULL, NULL),
('2026-01-18', 'L', NULL, '2026-01-18 13:00:00+00:00', '2026-01-18 21:00:00+00:00', false, NULL, NULL),
('2026-01-18', 'N', NULL, '2026-01-18 21:00:00+00:00', '2026-01-19 05:00:00+00:00', false, NULL, NULL),
('2026-01-19', 'E', NULL, '2026-01-19 05:00:00+00:00', '2026-01-19 13:00:00+00:00', false, NULL, NULL),
('2026-01-19', 'L', NULL, '2026-01-19 13:00:00+00:00', '2026-01-19 21:00:00+00:00', false, NULL, NULL),
('2026-01-19', 'N', NULL, '2026-01-19 21:00:00+00:00', '2026-01-20 05:00:00+00:00', false, NULL, NULL),
('2026-01-20', 'E', NULL, '2026-01-20 05:00:00+00:00', '2026-01-20 13:00:00+00:00', false, NULL, NULL),
('2026-01-20', 'L', NULL, '2026-01-20 13:00:00+00:00', '2026-01-20 21:00:00+00:00', false, NULL, NULL),
('2026-01-20', 'N', NULL, '2026-01-20 21:00:00+00:00', '2026-01-21 05:00:00+00:00', false, NULL, NULL);

INSERT INTO "source_file" ("file_id", "feed", "path", "sha256", "bytes", "made_at", "loaded_at", "rows", "accepted", "repeated", "amended", "rejected") VALUES
(458985241512906499, 'units', 'units_trial_001.csv', '65ea4a535860f031955a9e41c92fb261ec8bc088c153a2b77dd62085763acd75', 52, '2026-09-20 00:00:00+00:00', '2026-11-25 14:10:17.663735+00:00', 1, 1, 0, 0, 0),
(775213653501680470, 'units', 'units_20260920000000_000.csv', 'ac21cb5ea001b56c4b2b4eff06e1c87c56c791a156a6c4c86e22a959fbbdbee2', 168, '2026-09-20 00:00:00+00:00', '2026-11-25 14:10:17.663735+00:00', 3, 3, 0, 0, 0),
(191854284167712683, 'defect_codes', 'defect_codes_20260920000000_002.csv', '2a99a7478740fab9bcf81ddb6af0b314c25613e7fc1e0e7c855411b8fadb2c88', 122, '2026-09-20 00:00:00+00:00', '2026-11-25 14:10:17.663735+00:00', 2, 2, 0, 0, 0),
(523112045658069744, 'electrical', 'electrical_20260920000000_003.csv', '74277a24b2d5af01df8e92b6bc9e89b52a2bada7ae5f3a14625ff69e3fd7225b', 308, '2026-09-20 00:00:00+00:00', '2026-11-25 14:10:17.663735+00:00', 3, 3, 0, 0, 0),
(800378874846228398, 'water', 'water_20260920000000_004.csv', 'b1b845898efafae36f8d6889dff9031ebf49e7bc0a20c286d22615b9d5822ec6', 627, '2026-09-20 00:00:00+00:00', '2026-11-25 14:10:17.663735+00:00', 6, 6, 0, 0, 0),
(474253002904979385, 'repairs', 'repairs_20260920000000_005.csv', '694e297ebd047b96aef2c7829009c0a0abe8f3a88c1b834e533f7fd543c41c9d', 146, '2026-09-20 00:00:00+00:00', '2026-11-25 14:10:17.663735+00:00', 1, 1, 0, 0, 0),
(253864743739976330, 'events', 'events_20260920000000_006.csv', '385e8a3af9dea8a53bf2590f1b803d962f83efd845694aafdd1e5ac6cff4e6cf', 298, '2026-09-20 00:00:00+00:00', '2026-11-25 14:10:17.663735+00:00', 3, 3, 0, 0, 0);

INSERT INTO "station_heard" ("test", "station", "last_at", "row_count") VALUES
('electrical', 'E1', '2026-09-08 05:00:00+00:00', 3),
('water', 'W1', '2026-09-08 10:00:00+00:00', 5);

INSERT INTO "test_definition" ("test", "title", "length_seconds", "max_quantity", "position") VALUES
('electrical', 'Electrical', 240.0, 20, 1),
('water', 'Water', 240.0, 20, 2);

INSERT INTO "test_plan" ("test", "valid_from", "valid_to", "required", "owner") VALUES
('electrical', '2025-12-31 23:00:00+00:00', NULL, 'every', NULL),
('water', '2025-12-31 23:00:00+00:00', NULL, 'every', NULL);

INSERT INTO "test_step" ("test", "step", "position") VALUES
('electrical', 'front', 1),
('electrical', 'roof', 2),
('electrical', 'rear', 3),
('water', 'front', 1),
('water', 'roof', 2),
('water', 'rear', 3);

INSERT INTO "unit" ("vin", "build_seq", "model", "line", "kind", "line_off_at", "in_schedule", "line_date", "line_shift", "line_state", "earliest_at", "file_id", "file_row") VALUES
('000000000000000U9', NULL, 'WAG', '1', 'trial', NULL, true, NULL, NULL, 'undecided', '2026-09-08 06:26:00+00:00', 458985241512906499, 1),
('000000000000000U1', 0, 'WAG', '1', 'production', '2026-09-08 04:30:00+00:00', true, '2026-09-08', 'E', 'went_through', '2026-09-08 04:30:00+00:00', 775213653501680470, 1),
('000000000000000U2', 1, 'WAG', '1', 'production', '2026-09-08 04:30:00+00:00', true, '2026-09-08', 'E', 'failed_one', '2026-09-08 04:30:00+00:00', 775213653501680470, 2),
('000000000000000U3', 2, 'WAG', '1', 'production', '2026-09-08 04:30:00+00:00', true, '2026-09-08', 'E', 'failed_one', '2026-09-08 04:30:00+00:00', 775213653501680470, 3);

INSERT INTO "unit_sent" ("vin", "build_seq", "model", "line", "kind", "line_off_at", "file_id", "file_row") VALUES
('000000000000000U9', NULL, 'WAG', '1', 'trial', NULL, 458985241512906499, 1),
('000000000000000U1', 0, 'WAG', '1', 'production', NULL, 775213653501680470, 1),
('000000000000000U2', 1, 'WAG', '1', 'production', NULL, 775213653501680470, 2),
('000000000000000U3', 2, 'WAG', '1', 'production', NULL, 775213653501680470, 3);

INSERT INTO "unit_status" ("vin", "test", "required", "attempts", "first_run_id", "first_result", "last_run_id", "last_result", "clear_at", "waiting_since", "status", "reason", "production_date", "shift", "kind", "line_date", "line_shift", "earliest_at", "asked_by", "asked_at") VALUES
('000000000000000U9', 'electrical', true, 0, NULL, NULL, NULL, NULL, NULL, NULL, 'untested', NULL, NULL, NULL, 'trial', NULL, NULL, '2026-09-08 06:26:00+00:00', NULL, NULL),
('000000000000000U1', 'electrical', true, 1, 1920755932870809723, 'pass', 1920755932870809723, 'pass', '2026-09-08 05:00:00+00:00', NULL, 'passed', NULL, '2026-09-08', 'E', 'production', '2026-09-08', 'E', '2026-09-08 04:30:00+00:00', NULL, NULL),
('000000000000000U2', 'electrical', true, 1, 1920755932757333333, 'pass', 1920755932757333333, 'pass', '2026-09-08 05:00:00+00:00', NULL, 'passed', NULL, '2026-09-08', 'E', 'production', '2026-09-08', 'E', '2026-09-08 04:30:00+00:00', NULL, NULL),
('000000000000000U3', 'electrical', true, 1, 1920755932914732148, 'pass', 1920755932914732148, 'pass', '2026-09-08 05:00:00+00:00', NULL, 'passed', NULL, '2026-09-08', 'E', 'production', '2026-09-08', 'E', '2026-09-08 04:30:00+00:00', NULL, NULL),
('000000000000000U9', 'water', true, 1, 1920761731335986462, 'pass', 1920761731335986462, 'pass', '2026-09-08 06:30:00+00:00', NULL, 'passed', NULL, '2026-09-08', 'E', 'trial', NULL, NULL, '2026-09-08 06:26:00+00:00', NULL, NULL),
('000000000000000U1', 'water', true, 1, 1920759797692536875, 'pass', 1920759797692536875, 'pass', '2026-09-08 06:00:00+00:00', NULL, 'passed', NULL, '2026-09-08', 'E', 'production', '2026-09-08', 'E', '2026-09-08 04:30:00+00:00', NULL, NULL),
('000000000000000U2', 'water', true, 2, 1920760441945348889, 'fail', 1920775260476085665, 'pass', '2026-09-08 10:00:00+00:00', NULL, 'passed', NULL, '2026-09-08', 'E', 'production', '2026-09-08', 'E', '2026-09-08 04:30:00+00:00', NULL, NULL),
('000000000000000U3', 'water', true, 1, 1920761086235960547, 'fail', 1920761086235960547, 'fail', NULL, '2026-09-08 06:20:00+00:00', 'failed', NULL, '2026-09-08', 'E', 'production', '2026-09-08', 'E', '2026-09-08 04:30:00+00:00', NULL, NULL);
