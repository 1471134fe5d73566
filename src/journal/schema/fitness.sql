-- What decides whether a person practices, and at which step.

-- The sentences on the pages of readiness, and whether each was true.
CREATE TABLE readiness (
    session TEXT    NOT NULL REFERENCES sessions,
    nth     INTEGER NOT NULL,                  -- from 0
    item    TEXT    NOT NULL,
    is_true INTEGER NOT NULL CHECK (is_true IN (0, 1)),
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;

-- What progression decided for a session.
CREATE TABLE decisions (
    session        TEXT    PRIMARY KEY REFERENCES sessions,
    decision       TEXT    NOT NULL,
    gentler        INTEGER NOT NULL CHECK (gentler IN (0, 1)),
    first_set      INTEGER NOT NULL,           -- above 1: an interrupted session was finished
    sets_whole     INTEGER NOT NULL,           -- before some were left away
    seen_before_ms INTEGER                     -- the latest moment that the journal knew; later than the session's
                                               -- beginning if the clock was set back
) STRICT, WITHOUT ROWID;

CREATE TABLE decision_reasons (
    session TEXT    NOT NULL REFERENCES decisions,
    nth     INTEGER NOT NULL,                  -- from 0
    reason  TEXT    NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;

-- The step that progression gave to each drill, before a gentler choice.
CREATE TABLE given_steps (
    session TEXT    NOT NULL REFERENCES decisions,
    nth     INTEGER NOT NULL,                  -- from 0
    drill   TEXT    NOT NULL,
    form    TEXT    NOT NULL,
    step    INTEGER NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;

-- The answers about suitability. Those of the latest moment hold.
CREATE TABLE suitability (
    at      TEXT    NOT NULL,
    at_ms   INTEGER NOT NULL,
    partner INTEGER NOT NULL CHECK (partner IN (0, 1)),  -- practice with a partner was asked about too
    topic   TEXT    NOT NULL,
    answer  TEXT    NOT NULL,
    PRIMARY KEY (at_ms, topic)
) STRICT, WITHOUT ROWID;

-- Who cleared the person, and why.
CREATE TABLE clearances (
    at     TEXT    NOT NULL,
    at_ms  INTEGER NOT NULL,
    who    TEXT    NOT NULL,
    reason TEXT    NOT NULL,
    PRIMARY KEY (at_ms, who)
) STRICT, WITHOUT ROWID;

-- What a clearance lifted: a lock, a date that lies ahead, or "a clinician first". Nothing else is lifted by it.
CREATE TABLE lifted (
    at_ms   INTEGER NOT NULL,
    who     TEXT    NOT NULL,
    nth     INTEGER NOT NULL,                  -- from 0
    locked_by TEXT  NOT NULL,                  -- the session, or the moment of the answers about suitability
    what    TEXT    NOT NULL,
    PRIMARY KEY (at_ms, who, nth),
    FOREIGN KEY (at_ms, who) REFERENCES clearances
) STRICT, WITHOUT ROWID;
