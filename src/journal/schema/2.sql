-- The sound was disturbed during a set, and went on: what was heard afterwards came later than its frame says.
CREATE TABLE disturbances (
    session    TEXT    NOT NULL,
    place      INTEGER NOT NULL,               -- orders them, as it does the answers
    set_number INTEGER NOT NULL,
    at_ms      INTEGER NOT NULL,               -- work done
    how        TEXT    NOT NULL,
    PRIMARY KEY (session, place),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;
