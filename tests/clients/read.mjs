// Reads the published copy as a client in Node does: figures, times, words; or again and again until a file stands.
import { existsSync } from "node:fs";
import { DuckDBInstance } from "@duckdb/node-api";

const [copy, stop] = process.argv.slice(2);

async function rows(statement) {
    const instance = await DuckDBInstance.create(copy, { access_mode: "READ_ONLY" });
    const connection = await instance.connect();
    const answer = await connection.runAndReadAll(statement);
    const found = answer.getRowObjectsJson();
    connection.closeSync();
    instance.closeSync();
    return found;
}

const TOLD = `
    SELECT
        (SELECT count(*) FROM run) AS runs,
        (SELECT sum(tested) FROM ftt_by_shift WHERE test = 'water')::BIGINT AS tested`;

if (stop) {
    while (!existsSync(stop)) {
        const [row] = await rows(TOLD);
        console.log(row.runs, row.tested ?? 0);
        await new Promise((done) => setTimeout(done, 300));
    }
} else {
    const [row] = await rows(`${TOLD}, (SELECT epoch_ms(min(started_at)) FROM run) AS first_ms,
        (SELECT comment FROM duckdb_views() WHERE view_name = 'ftt_by_shift') AS words,
        (SELECT comment FROM duckdb_columns() WHERE table_name = 'open_unit' AND column_name = 'hours') AS column_words`);
    console.log(JSON.stringify(row));
}
