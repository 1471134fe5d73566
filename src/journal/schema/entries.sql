-- Version 8. What happened is a list of entries, and everything else is folded from it (`record` in the core). Nothing in
-- `entries` is ever changed or removed. The earlier tables are read once, by `old_export.sql`, and dropped.

CREATE TABLE journal (
    id     BLOB NOT NULL,                      -- 16 random bytes, drawn when the journal was made
    writer BLOB NOT NULL                       -- 16 random bytes: whoever writes into this file
) STRICT;

CREATE TABLE entries (
    id      BLOB    PRIMARY KEY,               -- 16 random bytes
    writer  BLOB    NOT NULL,
    counter INTEGER NOT NULL,                  -- orders the entries of a writer
    at_ms   INTEGER NOT NULL,                  -- since 1970-01-01 UTC, by the writer's clock
    format  INTEGER NOT NULL,
    session BLOB,                              -- NULL: outside of sessions
    entry   TEXT    NOT NULL                   -- JSON
) STRICT;

-- What the rules need, folded from the entries up to one of them, so that it need not be folded at each start. It may be
-- thrown away at any time.
CREATE TABLE summaries (
    session BLOB PRIMARY KEY,
    summary BLOB NOT NULL
) STRICT;
CREATE TABLE summarized (
    fold    INTEGER NOT NULL,                  -- the rules by which it was made
    upto    INTEGER NOT NULL,                  -- the rowid of the last entry in it
    sessions INTEGER NOT NULL,                 -- how many rows `summaries` must have: else it is made anew
    outside TEXT    NOT NULL                   -- JSON: what was kept outside of sessions
) STRICT;
