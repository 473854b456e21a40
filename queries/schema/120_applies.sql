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
