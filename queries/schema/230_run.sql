-- run: one row is a test run, the winning version; key run_id
-- VINs are as good as all different: zstd writes them in half the time of what DuckDB would choose, and reads as fast.
CREATE TABLE run (
    run_id BIGINT,
    vin VARCHAR USING COMPRESSION zstd,
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
    vin_sent VARCHAR USING COMPRESSION zstd,
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
