-- What names the incoming rows
-- One row an incoming row. Places: key.
SELECT {key}
FROM incoming;
