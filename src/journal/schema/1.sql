-- Times stand twice: as text (RFC 9557, with offset and zone) and as the instant in milliseconds since 1970-01-01 UTC.
-- Rows are added, never changed. What a session, a set or a cue became is a row of its own.

CREATE TABLE sessions (
    id           TEXT    PRIMARY KEY,          -- 32 hexadecimal digits
    begun        TEXT    NOT NULL,
    begun_ms     INTEGER NOT NULL,
    title        TEXT    NOT NULL,             -- the prescription's
    digest       TEXT    NOT NULL,             -- 'sha256:' and 64 hexadecimal digits
    seed         TEXT    NOT NULL,             -- 64 hexadecimal digits
    seed_given   INTEGER NOT NULL CHECK (seed_given IN (0, 1)),
    method       INTEGER NOT NULL,
    voice        TEXT    NOT NULL,
    device       TEXT,                         -- NULL: without sound
    sets_planned INTEGER NOT NULL
) STRICT;
CREATE INDEX sessions_by_time ON sessions (begun_ms);

-- How a session ended, with its summary: one row, written with the end.
CREATE TABLE session_ends (
    session        TEXT    PRIMARY KEY REFERENCES sessions,
    ended          TEXT    NOT NULL,
    ended_ms       INTEGER NOT NULL,
    why            TEXT    NOT NULL,
    sets_completed INTEGER NOT NULL,
    sets_planned   INTEGER NOT NULL,
    cues_heard     INTEGER NOT NULL,
    cues_shown     INTEGER NOT NULL,
    active_ms      INTEGER NOT NULL,
    -- The worst answers of the session; NULL: not asked, or not said.
    grabbed        INTEGER,
    held_on        INTEGER,
    effort         INTEGER,
    steadiness     INTEGER,
    unwell         INTEGER,
    not_said       INTEGER NOT NULL
) STRICT;

CREATE TABLE sets (
    session    TEXT    NOT NULL REFERENCES sessions,
    number     INTEGER NOT NULL,               -- from 1
    begun      TEXT    NOT NULL,
    begun_ms   INTEGER NOT NULL,
    drill      TEXT    NOT NULL,
    form       TEXT    NOT NULL,
    step       INTEGER NOT NULL,
    stance     TEXT    NOT NULL,
    side       TEXT,
    surface    TEXT    NOT NULL,
    support    TEXT    NOT NULL,
    vision     TEXT    NOT NULL,
    work_ms    INTEGER NOT NULL,
    recover_ms INTEGER NOT NULL,
    rest_ms    INTEGER NOT NULL,
    PRIMARY KEY (session, number)
) STRICT, WITHOUT ROWID;

CREATE TABLE set_ends (
    session    TEXT    NOT NULL,
    set_number INTEGER NOT NULL,
    ended      TEXT    NOT NULL,
    ended_ms   INTEGER NOT NULL,
    worked_ms  INTEGER NOT NULL,
    why        TEXT    NOT NULL,
    PRIMARY KEY (session, set_number),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;

-- A set is planned when it begins (plan 0), and anew after each pause (plan 1, 2 ...).
CREATE TABLE plans (
    session      TEXT    NOT NULL,
    set_number   INTEGER NOT NULL,
    plan         INTEGER NOT NULL,
    paused_at_ms INTEGER,                      -- work done when the pause began; NULL for plan 0
    PRIMARY KEY (session, set_number, plan),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;

-- What was planned: offsets from the start of the set's work.
CREATE TABLE cues (
    session    TEXT    NOT NULL,
    set_number INTEGER NOT NULL,
    plan       INTEGER NOT NULL,
    cue        INTEGER NOT NULL,               -- from 0, blanks counted
    at_ms      INTEGER NOT NULL,
    gap_ms     INTEGER NOT NULL,
    blank      INTEGER NOT NULL CHECK (blank IN (0, 1)),
    action     TEXT CHECK ((action IS NULL) = blank),
    direction  TEXT CHECK ((direction IS NULL) = blank),
    phrase     TEXT CHECK ((phrase IS NULL) = blank),
    PRIMARY KEY (session, set_number, plan, cue),
    FOREIGN KEY (session, set_number, plan) REFERENCES plans
) STRICT, WITHOUT ROWID;

-- What was delivered, as reported by the sound output or the screen. Never filled from the plan.
CREATE TABLE deliveries (
    session           TEXT    NOT NULL,
    set_number        INTEGER NOT NULL,
    cue               INTEGER NOT NULL,
    wanted_frame      INTEGER,
    began_frame       INTEGER CHECK ((began_frame IS NULL) = (wanted_frame IS NULL)),
    frames_per_second INTEGER CHECK ((frames_per_second IS NULL) = (wanted_frame IS NULL)),
    heard_ms          INTEGER CHECK ((heard_ms IS NULL) = (wanted_frame IS NULL)),
    shown_ms          INTEGER CHECK ((shown_ms IS NULL) <> (wanted_frame IS NULL)),
    PRIMARY KEY (session, set_number, cue),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;

CREATE TABLE answers (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,               -- orders the answers of a session
    set_number INTEGER,                        -- NULL: before the first set
    question   TEXT    NOT NULL,
    answer     INTEGER,                        -- NULL: not said
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;

-- What was changed outside of sessions, such as another prescription.
CREATE TABLE changes (
    at     TEXT    NOT NULL,
    at_ms  INTEGER NOT NULL,
    what   TEXT    NOT NULL,
    digest TEXT    NOT NULL,
    PRIMARY KEY (at_ms, what, digest)
) STRICT, WITHOUT ROWID;

-- Always empty: filled and emptied at opening, so that the file has room for a session.
CREATE TABLE room (bytes BLOB NOT NULL) STRICT;
