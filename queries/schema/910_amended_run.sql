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
