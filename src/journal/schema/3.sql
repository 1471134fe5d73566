-- Practice with a partner: what lasts, what the partner is told, what was asked for and what happened after it.

ALTER TABLE sets ADD COLUMN channel TEXT;                -- whose ear and eye; NULL: before this was kept, the trainee's
ALTER TABLE sets ADD COLUMN facing TEXT;
ALTER TABLE sets ADD COLUMN second_task TEXT;

ALTER TABLE cues ADD COLUMN until_ms INTEGER;            -- the end of what lasts
ALTER TABLE cues ADD COLUMN strength INTEGER;            -- from 1, barely, to 4, firmly; never a force
ALTER TABLE cues ADD COLUMN ball TEXT;
ALTER TABLE cues ADD COLUMN tell TEXT;                   -- ids of what the partner is told, with the places of the room
ALTER TABLE cues ADD COLUMN practice INTEGER NOT NULL DEFAULT 0 CHECK (practice IN (0, 1));

-- A delivery is one of three now: heard, shown, or asked of a partner. SQLite changes no check: the table is made anew.
CREATE TABLE deliveries_anew (
    session           TEXT    NOT NULL,
    set_number        INTEGER NOT NULL,
    cue               INTEGER NOT NULL,
    wanted_frame      INTEGER,
    began_frame       INTEGER CHECK ((began_frame IS NULL) = (wanted_frame IS NULL)),
    frames_per_second INTEGER CHECK ((frames_per_second IS NULL) = (wanted_frame IS NULL)),
    heard_ms          INTEGER CHECK ((heard_ms IS NULL) = (wanted_frame IS NULL)),
    shown_ms          INTEGER,
    asked_ms          INTEGER,
    PRIMARY KEY (session, set_number, cue),
    FOREIGN KEY (session, set_number) REFERENCES sets,
    CHECK ((heard_ms IS NOT NULL) + (shown_ms IS NOT NULL) + (asked_ms IS NOT NULL) = 1)
) STRICT, WITHOUT ROWID;
INSERT INTO deliveries_anew SELECT *, NULL FROM deliveries;
DROP TABLE deliveries;
ALTER TABLE deliveries_anew RENAME TO deliveries;

-- What happened after a push, as the partner noted it.
CREATE TABLE responses (
    session    TEXT    NOT NULL,
    set_number INTEGER NOT NULL,
    cue        INTEGER NOT NULL,
    response   TEXT,                           -- NULL: not noted, which is never fine
    PRIMARY KEY (session, set_number, cue),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;

-- A grab or a fall that a partner's key told of while it happened. Of a push it is a response as well.
CREATE TABLE mishaps (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,               -- orders them, as it does the answers
    set_number INTEGER NOT NULL,               -- may not have begun
    at_ms      INTEGER NOT NULL,               -- work done
    what       TEXT    NOT NULL,
    cue        INTEGER,                        -- the push that it followed
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;

-- Sets that were not begun, while the session went on.
CREATE TABLE left_out (
    session    TEXT    NOT NULL REFERENCES sessions,
    set_number INTEGER NOT NULL,
    at         TEXT    NOT NULL,
    at_ms      INTEGER NOT NULL,
    why        TEXT    NOT NULL,
    PRIMARY KEY (session, set_number)
) STRICT, WITHOUT ROWID;

-- What the rules advised.
CREATE TABLE advice (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,
    set_number INTEGER NOT NULL,               -- after this set
    advice     TEXT    NOT NULL,
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;

-- The warm-up and the cool-down.
CREATE TABLE routines (
    session TEXT    NOT NULL REFERENCES sessions,
    part    TEXT    NOT NULL,
    at      TEXT    NOT NULL,
    at_ms   INTEGER NOT NULL,
    how     TEXT    NOT NULL,
    PRIMARY KEY (session, part)
) STRICT, WITHOUT ROWID;

-- The floor course of a session: its patches in the order in which they are walked.
CREATE TABLE courses (
    session TEXT    NOT NULL REFERENCES sessions,
    nth     INTEGER NOT NULL,                  -- from 0
    patch   TEXT    NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;

ALTER TABLE session_ends ADD COLUMN cues_asked INTEGER NOT NULL DEFAULT 0;
-- With a partner; counted from responses and mishaps, a push once.
ALTER TABLE session_ends ADD COLUMN grabs INTEGER NOT NULL DEFAULT 0;
ALTER TABLE session_ends ADD COLUMN falls INTEGER NOT NULL DEFAULT 0;
ALTER TABLE session_ends ADD COLUMN pushes_noted INTEGER NOT NULL DEFAULT 0;
ALTER TABLE session_ends ADD COLUMN pushes_not_noted INTEGER NOT NULL DEFAULT 0;
