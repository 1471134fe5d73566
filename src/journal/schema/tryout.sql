-- A supervised try-out: somebody who prescribes watched single drills and steps in the room. It counts as no practice.
CREATE TABLE tryouts (
    session    TEXT PRIMARY KEY REFERENCES sessions,
    watched_by TEXT NOT NULL,
    partner    TEXT NOT NULL                   -- empty: alone
) STRICT, WITHOUT ROWID;

-- What was seen in it, in the words of whoever watched.
CREATE TABLE seen (
    session TEXT    NOT NULL REFERENCES tryouts,
    nth     INTEGER NOT NULL,                  -- from 0
    what    TEXT    NOT NULL,                  -- "feet", "support", "in words", "unlocked"
    words   TEXT    NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;
