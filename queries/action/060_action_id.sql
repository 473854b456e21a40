-- action_id: the names of all actions
-- One row an action. Reads: countermeasure.
SELECT countermeasure.action_id
FROM countermeasure
ORDER BY countermeasure.action_id;
