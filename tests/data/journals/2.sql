PRAGMA foreign_keys=OFF;
BEGIN TRANSACTION;
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
INSERT INTO sessions VALUES('9787b16ac8702145fae875e1e7d783d3','2026-01-05T09:00:05.939-05:00[America/New_York]',1767621605939,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','0ec6ecb2703e2f25b42f683b28ad92d40182b2c7e540156746964a0331eb3beb',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('0b4a9c215ed033871bf6026de89570bc','2026-01-07T09:00:02.6-05:00[America/New_York]',1767794402600,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b',1,1,'higher','ALSA: default',2);
INSERT INTO sessions VALUES('bec99bc5ad56eb72864f3d7f81a029cc','2026-01-12T09:00:06.51-05:00[America/New_York]',1768226406510,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','c1e6bda04257975096fbcc13613b17bb758ae666b51eecae9f4729d8b2276fe9',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('aeac948b49c616354f9de4e045656ac7','2026-01-14T09:00:06.487-05:00[America/New_York]',1768399206487,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','c4f7e44c99afffae009dcdf8b1709702d8924877423dde17b70eed2cff66633d',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('85253c77b2834c4e432b721b052959f1','2026-01-15T09:00:06.999-05:00[America/New_York]',1768485606999,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','196752f1e88dbcc816389449717b193066baa61bcd59c7e9c7b8750ab44fa63c',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('fa7386165f82f1f6332d3eedc4f007ea','2026-01-16T09:00:06.695-05:00[America/New_York]',1768572006695,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','9ebf7cf281566ada07affe3494318a65d059bff12f1e5cf3756e3b88a0e0e841',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('c3611c1aec9cb9d316ce3be671c7dd9b','2026-01-19T09:00:07.085-05:00[America/New_York]',1768831207085,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','abababababababababababababababababababababababababababababababab',1,1,'lower',NULL,2);
INSERT INTO sessions VALUES('c2f04b54cc7eedef848ce9f8d7453f55','2026-01-21T09:00:06.085-05:00[America/New_York]',1769004006085,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','b910ad586bd5ab0636e9bd40661549b45229b600fe1d60da943c078e4992b54e',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('591481e0be3f81084f37f121bd11b191','2026-02-04T09:00:07.838-05:00[America/New_York]',1770213607838,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','746daaf2b5b91f16b6c809a6de43a629e19595933c4b8d9350b3cfb9235fb960',0,1,'lower',NULL,2);
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
INSERT INTO session_ends VALUES('9787b16ac8702145fae875e1e7d783d3','2026-01-05T09:02:24.995-05:00[America/New_York]',1767621744995,'finished',2,2,0,4,34000,0,1,4,2,0,1);
INSERT INTO session_ends VALUES('0b4a9c215ed033871bf6026de89570bc','2026-01-07T09:01:46.6-05:00[America/New_York]',1767794506600,'grabbed hold or nearly fell',1,2,3,0,25000,1,0,6,2,0,0);
INSERT INTO session_ends VALUES('bec99bc5ad56eb72864f3d7f81a029cc','2026-01-12T09:00:53.345-05:00[America/New_York]',1768226453345,'felt unwell',1,2,0,2,17000,0,0,6,2,1,0);
INSERT INTO session_ends VALUES('aeac948b49c616354f9de4e045656ac7','2026-01-14T09:00:37.854-05:00[America/New_York]',1768399237854,'stopped, felt unsteady',0,2,0,1,11449,NULL,NULL,NULL,NULL,NULL,0);
INSERT INTO session_ends VALUES('85253c77b2834c4e432b721b052959f1','2026-01-15T09:03:14.756-05:00[America/New_York]',1768485794756,'not answered',1,2,0,3,17000,0,NULL,NULL,NULL,NULL,0);
INSERT INTO session_ends VALUES('fa7386165f82f1f6332d3eedc4f007ea','2026-01-16T09:00:09.134-05:00[America/New_York]',1768572009134,'not today',0,2,0,0,0,NULL,NULL,NULL,NULL,NULL,0);
INSERT INTO session_ends VALUES('c3611c1aec9cb9d316ce3be671c7dd9b','2026-01-19T09:01:54.645-05:00[America/New_York]',1768831314645,'program closed',1,2,0,3,22708,0,0,6,2,0,0);
INSERT INTO session_ends VALUES('c2f04b54cc7eedef848ce9f8d7453f55','2026-01-21T09:00:23.517-05:00[America/New_York]',1769004023517,'interrupted',0,2,0,1,5261,NULL,NULL,NULL,NULL,NULL,0);
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
INSERT INTO sets VALUES('0b4a9c215ed033871bf6026de89570bc',1,'2026-01-07T09:00:10.4-05:00[America/New_York]',1767794410400,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('0b4a9c215ed033871bf6026de89570bc',2,'2026-01-07T09:01:29.5-05:00[America/New_York]',1767794489500,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000);
INSERT INTO sets VALUES('591481e0be3f81084f37f121bd11b191',1,'2026-02-04T09:00:20.242-05:00[America/New_York]',1770213620242,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('85253c77b2834c4e432b721b052959f1',1,'2026-01-15T09:00:19.152-05:00[America/New_York]',1768485619152,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('9787b16ac8702145fae875e1e7d783d3',1,'2026-01-05T09:00:18.024-05:00[America/New_York]',1767621618024,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('9787b16ac8702145fae875e1e7d783d3',2,'2026-01-05T09:01:50.12-05:00[America/New_York]',1767621710120,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000);
INSERT INTO sets VALUES('aeac948b49c616354f9de4e045656ac7',1,'2026-01-14T09:00:18.643-05:00[America/New_York]',1768399218643,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('bec99bc5ad56eb72864f3d7f81a029cc',1,'2026-01-12T09:00:18.62-05:00[America/New_York]',1768226418620,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('c2f04b54cc7eedef848ce9f8d7453f55',1,'2026-01-21T09:00:18.256-05:00[America/New_York]',1769004018256,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',1,'2026-01-19T09:00:19.183-05:00[America/New_York]',1768831219183,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',2,'2026-01-19T09:01:43.933-05:00[America/New_York]',1768831303933,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000);
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
INSERT INTO set_ends VALUES('0b4a9c215ed033871bf6026de89570bc',1,'2026-01-07T09:00:32.4-05:00[America/New_York]',1767794432400,17000,'completed');
INSERT INTO set_ends VALUES('0b4a9c215ed033871bf6026de89570bc',2,'2026-01-07T09:01:42.5-05:00[America/New_York]',1767794502500,8000,'sound lost');
INSERT INTO set_ends VALUES('85253c77b2834c4e432b721b052959f1',1,'2026-01-15T09:00:41.156-05:00[America/New_York]',1768485641156,17000,'completed');
INSERT INTO set_ends VALUES('9787b16ac8702145fae875e1e7d783d3',1,'2026-01-05T09:00:47.451-05:00[America/New_York]',1767621647451,17000,'completed');
INSERT INTO set_ends VALUES('9787b16ac8702145fae875e1e7d783d3',2,'2026-01-05T09:02:12.159-05:00[America/New_York]',1767621732159,17000,'completed');
INSERT INTO set_ends VALUES('aeac948b49c616354f9de4e045656ac7',1,'2026-01-14T09:00:35.094-05:00[America/New_York]',1768399235094,11449,'stopped');
INSERT INTO set_ends VALUES('bec99bc5ad56eb72864f3d7f81a029cc',1,'2026-01-12T09:00:40.639-05:00[America/New_York]',1768226440639,17000,'completed');
INSERT INTO set_ends VALUES('c2f04b54cc7eedef848ce9f8d7453f55',1,'2026-01-21T09:00:23.517-05:00[America/New_York]',1769004023517,5261,'interrupted');
INSERT INTO set_ends VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',1,'2026-01-19T09:00:41.2-05:00[America/New_York]',1768831241200,17000,'completed');
INSERT INTO set_ends VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',2,'2026-01-19T09:01:54.645-05:00[America/New_York]',1768831314645,5708,'program closed');
CREATE TABLE plans (
    session      TEXT    NOT NULL,
    set_number   INTEGER NOT NULL,
    plan         INTEGER NOT NULL,
    paused_at_ms INTEGER,                      -- work done when the pause began; NULL for plan 0
    PRIMARY KEY (session, set_number, plan),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;
INSERT INTO plans VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,NULL);
INSERT INTO plans VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,NULL);
INSERT INTO plans VALUES('591481e0be3f81084f37f121bd11b191',1,0,NULL);
INSERT INTO plans VALUES('85253c77b2834c4e432b721b052959f1',1,0,NULL);
INSERT INTO plans VALUES('9787b16ac8702145fae875e1e7d783d3',1,0,NULL);
INSERT INTO plans VALUES('9787b16ac8702145fae875e1e7d783d3',1,1,6965);
INSERT INTO plans VALUES('9787b16ac8702145fae875e1e7d783d3',2,0,NULL);
INSERT INTO plans VALUES('aeac948b49c616354f9de4e045656ac7',1,0,NULL);
INSERT INTO plans VALUES('bec99bc5ad56eb72864f3d7f81a029cc',1,0,NULL);
INSERT INTO plans VALUES('c2f04b54cc7eedef848ce9f8d7453f55',1,0,NULL);
INSERT INTO plans VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',1,0,NULL);
INSERT INTO plans VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',2,0,NULL);
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
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,0,4020,4020,1,NULL,NULL,NULL);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,1,8083,4063,0,'shift','right','lean.right');
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,2,12284,4201,0,'shift','right','lean.right');
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,0,5413,5413,0,'reach','left','reach.left');
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,1,9693,4280,0,'reach','right','reach.right');
INSERT INTO cues VALUES('591481e0be3f81084f37f121bd11b191',1,0,0,4112,4112,0,'shift','left','lean.left');
INSERT INTO cues VALUES('591481e0be3f81084f37f121bd11b191',1,0,1,8888,4776,0,'shift','forward','lean.forward');
INSERT INTO cues VALUES('591481e0be3f81084f37f121bd11b191',1,0,2,13290,4402,1,NULL,NULL,NULL);
INSERT INTO cues VALUES('85253c77b2834c4e432b721b052959f1',1,0,0,4877,4877,0,'shift','left','lean.left');
INSERT INTO cues VALUES('85253c77b2834c4e432b721b052959f1',1,0,1,9144,4267,0,'shift','right','lean.right');
INSERT INTO cues VALUES('85253c77b2834c4e432b721b052959f1',1,0,2,13324,4180,0,'shift','right','lean.right');
INSERT INTO cues VALUES('9787b16ac8702145fae875e1e7d783d3',1,0,0,4554,4554,0,'shift','left','lean.left');
INSERT INTO cues VALUES('9787b16ac8702145fae875e1e7d783d3',1,0,1,8760,4206,0,'shift','forward','lean.forward');
INSERT INTO cues VALUES('9787b16ac8702145fae875e1e7d783d3',1,0,2,12966,4206,1,NULL,NULL,NULL);
INSERT INTO cues VALUES('9787b16ac8702145fae875e1e7d783d3',1,1,0,4554,4554,0,'shift','left','lean.left');
INSERT INTO cues VALUES('9787b16ac8702145fae875e1e7d783d3',1,1,1,11907,7353,0,'shift','forward','lean.forward');
INSERT INTO cues VALUES('9787b16ac8702145fae875e1e7d783d3',2,0,0,4746,4746,0,'reach','right','reach.right');
INSERT INTO cues VALUES('9787b16ac8702145fae875e1e7d783d3',2,0,1,9809,5063,0,'reach','right','reach.right');
INSERT INTO cues VALUES('aeac948b49c616354f9de4e045656ac7',1,0,0,4876,4876,1,NULL,NULL,NULL);
INSERT INTO cues VALUES('aeac948b49c616354f9de4e045656ac7',1,0,1,9027,4151,0,'shift','forward','lean.forward');
INSERT INTO cues VALUES('aeac948b49c616354f9de4e045656ac7',1,0,2,13170,4143,0,'shift','left','lean.left');
INSERT INTO cues VALUES('bec99bc5ad56eb72864f3d7f81a029cc',1,0,0,5908,5908,0,'shift','forward','lean.forward');
INSERT INTO cues VALUES('bec99bc5ad56eb72864f3d7f81a029cc',1,0,1,10366,4458,0,'shift','forward','lean.forward');
INSERT INTO cues VALUES('c2f04b54cc7eedef848ce9f8d7453f55',1,0,0,5257,5257,0,'shift','left','lean.left');
INSERT INTO cues VALUES('c2f04b54cc7eedef848ce9f8d7453f55',1,0,1,10260,5003,0,'shift','left','lean.left');
INSERT INTO cues VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',1,0,0,4261,4261,1,NULL,NULL,NULL);
INSERT INTO cues VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',1,0,1,9056,4795,0,'shift','right','lean.right');
INSERT INTO cues VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',1,0,2,13800,4744,0,'shift','right','lean.right');
INSERT INTO cues VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',2,0,0,5676,5676,0,'reach','forward','reach.forward');
INSERT INTO cues VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',2,0,1,11325,5649,0,'reach','forward','reach.forward');
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
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',1,1,387984,387984,48000,8083,NULL);
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',1,2,589632,589639,48000,12284,NULL);
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,259824,259824,48000,5413,NULL);
INSERT INTO deliveries VALUES('591481e0be3f81084f37f121bd11b191',1,0,NULL,NULL,NULL,NULL,4117);
INSERT INTO deliveries VALUES('85253c77b2834c4e432b721b052959f1',1,0,NULL,NULL,NULL,NULL,4878);
INSERT INTO deliveries VALUES('85253c77b2834c4e432b721b052959f1',1,1,NULL,NULL,NULL,NULL,9160);
INSERT INTO deliveries VALUES('85253c77b2834c4e432b721b052959f1',1,2,NULL,NULL,NULL,NULL,13343);
INSERT INTO deliveries VALUES('9787b16ac8702145fae875e1e7d783d3',1,0,NULL,NULL,NULL,NULL,4554);
INSERT INTO deliveries VALUES('9787b16ac8702145fae875e1e7d783d3',1,1,NULL,NULL,NULL,NULL,11917);
INSERT INTO deliveries VALUES('9787b16ac8702145fae875e1e7d783d3',2,0,NULL,NULL,NULL,NULL,4755);
INSERT INTO deliveries VALUES('9787b16ac8702145fae875e1e7d783d3',2,1,NULL,NULL,NULL,NULL,9814);
INSERT INTO deliveries VALUES('aeac948b49c616354f9de4e045656ac7',1,1,NULL,NULL,NULL,NULL,9031);
INSERT INTO deliveries VALUES('bec99bc5ad56eb72864f3d7f81a029cc',1,0,NULL,NULL,NULL,NULL,5920);
INSERT INTO deliveries VALUES('bec99bc5ad56eb72864f3d7f81a029cc',1,1,NULL,NULL,NULL,NULL,10386);
INSERT INTO deliveries VALUES('c2f04b54cc7eedef848ce9f8d7453f55',1,0,NULL,NULL,NULL,NULL,5261);
INSERT INTO deliveries VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',1,1,NULL,NULL,NULL,NULL,9072);
INSERT INTO deliveries VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',1,2,NULL,NULL,NULL,NULL,13816);
INSERT INTO deliveries VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',2,0,NULL,NULL,NULL,NULL,5694);
CREATE TABLE answers (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,               -- orders the answers of a session
    set_number INTEGER,                        -- NULL: before the first set
    question   TEXT    NOT NULL,
    answer     INTEGER,                        -- NULL: not said
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',2,NULL,'ready',1);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',3,NULL,'sound check',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',11,1,'held on',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',12,1,'effort',6);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',13,1,'steadiness',2);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',14,1,'unwell',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',18,2,'grabbed hold or nearly fell',1);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',19,2,'unwell',0);
INSERT INTO answers VALUES('591481e0be3f81084f37f121bd11b191',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('591481e0be3f81084f37f121bd11b191',2,NULL,'ready',1);
INSERT INTO answers VALUES('85253c77b2834c4e432b721b052959f1',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('85253c77b2834c4e432b721b052959f1',2,NULL,'ready',1);
INSERT INTO answers VALUES('85253c77b2834c4e432b721b052959f1',8,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('9787b16ac8702145fae875e1e7d783d3',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('9787b16ac8702145fae875e1e7d783d3',2,NULL,'ready',1);
INSERT INTO answers VALUES('9787b16ac8702145fae875e1e7d783d3',8,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('9787b16ac8702145fae875e1e7d783d3',9,1,'held on',1);
INSERT INTO answers VALUES('9787b16ac8702145fae875e1e7d783d3',10,1,'effort',NULL);
INSERT INTO answers VALUES('9787b16ac8702145fae875e1e7d783d3',11,1,'steadiness',2);
INSERT INTO answers VALUES('9787b16ac8702145fae875e1e7d783d3',12,1,'unwell',0);
INSERT INTO answers VALUES('9787b16ac8702145fae875e1e7d783d3',17,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('9787b16ac8702145fae875e1e7d783d3',18,2,'held on',0);
INSERT INTO answers VALUES('9787b16ac8702145fae875e1e7d783d3',19,2,'effort',4);
INSERT INTO answers VALUES('9787b16ac8702145fae875e1e7d783d3',20,2,'steadiness',2);
INSERT INTO answers VALUES('9787b16ac8702145fae875e1e7d783d3',21,2,'unwell',0);
INSERT INTO answers VALUES('aeac948b49c616354f9de4e045656ac7',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('aeac948b49c616354f9de4e045656ac7',2,NULL,'ready',1);
INSERT INTO answers VALUES('aeac948b49c616354f9de4e045656ac7',6,1,'why stopped',2);
INSERT INTO answers VALUES('bec99bc5ad56eb72864f3d7f81a029cc',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('bec99bc5ad56eb72864f3d7f81a029cc',2,NULL,'ready',1);
INSERT INTO answers VALUES('bec99bc5ad56eb72864f3d7f81a029cc',7,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('bec99bc5ad56eb72864f3d7f81a029cc',8,1,'held on',0);
INSERT INTO answers VALUES('bec99bc5ad56eb72864f3d7f81a029cc',9,1,'effort',6);
INSERT INTO answers VALUES('bec99bc5ad56eb72864f3d7f81a029cc',10,1,'steadiness',2);
INSERT INTO answers VALUES('bec99bc5ad56eb72864f3d7f81a029cc',11,1,'unwell',1);
INSERT INTO answers VALUES('c2f04b54cc7eedef848ce9f8d7453f55',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('c2f04b54cc7eedef848ce9f8d7453f55',2,NULL,'ready',1);
INSERT INTO answers VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',2,NULL,'ready',1);
INSERT INTO answers VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',7,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',8,1,'held on',0);
INSERT INTO answers VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',9,1,'effort',6);
INSERT INTO answers VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',10,1,'steadiness',2);
INSERT INTO answers VALUES('c3611c1aec9cb9d316ce3be671c7dd9b',11,1,'unwell',0);
INSERT INTO answers VALUES('fa7386165f82f1f6332d3eedc4f007ea',1,NULL,'nothing to see a clinician about',0);
CREATE TABLE changes (
    at     TEXT    NOT NULL,
    at_ms  INTEGER NOT NULL,
    what   TEXT    NOT NULL,
    digest TEXT    NOT NULL,
    PRIMARY KEY (at_ms, what, digest)
) STRICT, WITHOUT ROWID;
INSERT INTO changes VALUES('2026-01-05T08:50:00.11-05:00[America/New_York]',1767621000110,'prescription in use: alone.toml','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42');
CREATE TABLE room (bytes BLOB NOT NULL) STRICT;
CREATE TABLE disturbances (
    session    TEXT    NOT NULL,
    place      INTEGER NOT NULL,               -- orders them, as it does the answers
    set_number INTEGER NOT NULL,
    at_ms      INTEGER NOT NULL,               -- work done
    how        TEXT    NOT NULL,
    PRIMARY KEY (session, place),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;
INSERT INTO disturbances VALUES('0b4a9c215ed033871bf6026de89570bc',6,1,8800,'stuttered');
INSERT INTO disturbances VALUES('0b4a9c215ed033871bf6026de89570bc',8,1,13000,'moved to another output');
CREATE INDEX sessions_by_time ON sessions (begun_ms);
COMMIT;
PRAGMA application_id=1131368559;
PRAGMA user_version=2;
