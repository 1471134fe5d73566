-- The last number in the safety record beside the journal, so that one that was deleted or replaced is noticed. An earlier
-- version leaves this table alone.
CREATE TABLE IF NOT EXISTS safety (
    number INTEGER NOT NULL
) STRICT;
