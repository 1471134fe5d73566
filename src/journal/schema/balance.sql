-- Results of balance tests. Whether one is below a cut-off is not kept: it is found anew from the published tables.
CREATE TABLE balance_tests (
    at      TEXT    NOT NULL,
    at_ms   INTEGER NOT NULL,
    test    TEXT    NOT NULL,
    value   INTEGER,                           -- tenths of a second, or rises; NULL: unable
    age     INTEGER,                           -- in years, where it was given
    sex     TEXT,                              -- where it was given
    company TEXT    NOT NULL,                  -- alone, with somebody, elsewhere
    by_whom TEXT    NOT NULL,                  -- who took it, elsewhere; may be empty
    PRIMARY KEY (at_ms, test)
) STRICT, WITHOUT ROWID;
