"""Statements that would write, reach out, change settings or never end; {place} is a folder to write to."""

from __future__ import annotations

WRITES = """
DELETE FROM run
UPDATE run SET result = 'pass'
INSERT INTO run SELECT * FROM run
TRUNCATE run
MERGE INTO run USING unit ON run.vin = unit.vin WHEN MATCHED THEN DELETE
DROP TABLE run
DROP VIEW first_run
ALTER TABLE run ADD COLUMN n INTEGER
CREATE TABLE mine AS SELECT 1 AS n
CREATE TEMP TABLE mine AS SELECT 1 AS n
CREATE OR REPLACE VIEW first_run AS SELECT 1 AS n
CREATE TABLE memory.main.mine AS SELECT 1 AS n
CREATE SCHEMA mine
CREATE MACRO two() AS 2
CREATE SEQUENCE numbers
CREATE INDEX by_vin ON run (vin)
CREATE TYPE mood AS ENUM ('a')
COMMENT ON TABLE run IS 'mine now'
WITH gone AS (DELETE FROM run RETURNING *) SELECT * FROM gone
SELECT 1; DELETE FROM run
EXPLAIN ANALYZE DELETE FROM run
EXPLAIN ANALYZE CREATE TABLE mine AS SELECT 1 AS n
PREPARE gone AS DELETE FROM run
EXECUTE gone
BEGIN
ROLLBACK
CHECKPOINT
FORCE CHECKPOINT
VACUUM
ANALYZE run
FROM checkpoint()
FROM force_checkpoint()
SELECT nextval('numbers')
"""

FILES = """
COPY run TO '{place}/run.csv'
COPY (SELECT 1) TO '{place}/one.parquet' (FORMAT parquet)
COPY run FROM '{place}/run.csv'
EXPLAIN ANALYZE COPY run TO '{place}/run.csv'
COPY FROM DATABASE plant TO memory
EXPORT DATABASE '{place}/all'
IMPORT DATABASE '{place}/all'
FROM read_csv('/etc/passwd')
FROM read_csv_auto('/etc/passwd', header = false)
FROM read_text('/etc/passwd')
FROM read_blob('/etc/passwd')
FROM read_json('/etc/passwd')
FROM read_ndjson_objects('/etc/passwd')
FROM read_parquet('/etc/passwd')
FROM parquet_scan('{place}/one.parquet')
FROM parquet_metadata('{place}/one.parquet')
FROM parquet_schema('{place}/one.parquet')
FROM sniff_csv('/etc/passwd')
FROM glob('/etc/*')
FROM read_duckdb('{place}/other.duckdb')
FROM '/etc/passwd'
FROM '{place}/one.parquet'
FROM '../plant.duckdb'
SELECT (SELECT count(*) FROM glob('/*')) AS n
SELECT * FROM run, LATERAL (SELECT * FROM read_text(run.vin))
WITH a AS (FROM read_text('/etc/passwd')) FROM a
FROM query('FROM read_text(''/etc/passwd'')')
FROM query('FROM run')
FROM query_table('/etc/passwd')
FROM "system".main.read_text('/etc/passwd')
FROM READ_TEXT('/etc/passwd')
FROM read_text('https://example.com/x')
FROM 'https://example.com/x.csv'
FROM 's3://bucket/x.parquet'
FROM json_execute_serialized_sql(json_serialize_sql('FROM read_text(''/etc/passwd'')'))
FROM pandas_scan(1)
FROM arrow_scan(1, 2, 3)
FROM python_map_function(1)
FROM seq_scan('run')
FROM statement
FROM folder
SUMMARIZE '/etc/passwd'
DESCRIBE '/etc/passwd'
"""

SETTINGS = """
ATTACH '{place}/other.duckdb'
ATTACH '{place}/other.duckdb' AS other (READ_ONLY)
ATTACH ':memory:' AS other
DETACH plant
USE memory
INSTALL httpfs
FORCE INSTALL httpfs FROM 'https://example.com'
LOAD httpfs
LOAD '{place}/bad.duckdb_extension'
UPDATE EXTENSIONS
SET enable_external_access = true
SET GLOBAL memory_limit = '100GB'
SET temp_directory = '{place}'
SET VARIABLE a = 1
SET lock_configuration = false
RESET lock_configuration
SET search_path = 'memory'
PRAGMA database_list
PRAGMA enable_profiling = 'json'
PRAGMA import_database('{place}')
CALL enable_logging('QueryLog', storage = 'file', storage_path = '{place}/log')
FROM enable_logging('QueryLog', storage = 'file', storage_path = '{place}/log')
FROM enable_profiling(save_location = '{place}/profile.json')
FROM truncate_duckdb_logs()
FROM create_external_resource('x')
FROM add_grammar_extension('x')
CREATE SECRET mine (TYPE s3, KEY_ID 'a', SECRET 'b')
CREATE PERSISTENT SECRET mine (TYPE s3)
DROP SECRET mine
FROM duckdb_secrets()
FROM which_secret('s3://bucket', 's3')
FROM duckdb_settings()
"""

ENDLESS = """
WITH RECURSIVE t AS (SELECT 1 AS n UNION ALL SELECT n + 1 FROM t) SELECT count(*) FROM t
WITH RECURSIVE t AS (SELECT 1 AS n UNION ALL SELECT n + 1 FROM t) SELECT * FROM t
SELECT count(*) FROM range(100000000) AS a, range(100000000) AS b WHERE hash(a.range + b.range) = 1
SELECT * FROM range(1000000000000)
SELECT * FROM range(100000000) AS a, range(100000000) AS b
SELECT list(a.range) FROM range(100000000) AS a, range(100000000) AS b
SELECT string_agg(repeat('x', 1000000), '') FROM range(100000)
SELECT a.range FROM range(1000000000) AS a ORDER BY hash(a.range)
SELECT sleep_ms(1000) FROM range(1000)
SELECT range(4000000000)
"""


def lines(text: str) -> list[str]:
    """Return the statements of one of the lists."""
    return text.strip().splitlines()
