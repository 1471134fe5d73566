-- What was wrong and is right, with a reason. The entry itself stays as it was kept.
CREATE TABLE corrections (
    at         TEXT    NOT NULL,
    at_ms      INTEGER NOT NULL,
    session    TEXT    NOT NULL REFERENCES sessions,
    what       TEXT    NOT NULL,               -- 'set aside', 'answer', 'response'
    set_number INTEGER,                        -- of an answer after a set, and of a response
    question   TEXT,                           -- of an answer
    cue        INTEGER,                        -- of a response
    right_is   TEXT,                           -- the answer as digits, or the response; NULL: not said, not noted
    reason     TEXT    NOT NULL,
    PRIMARY KEY (at_ms, session)
) STRICT, WITHOUT ROWID;
