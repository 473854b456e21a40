-- Note why the past was rewritten (rule 4)
-- Parameters: made_at, reason, changed, was. Writes: history_rewrite.
INSERT INTO history_rewrite (made_at, reason, changed, was)
VALUES ($made_at, $reason, $changed, $was);
