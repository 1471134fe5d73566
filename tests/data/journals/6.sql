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
INSERT INTO sessions VALUES('8b53fac4f3fae3a69016f6544463ee8a','2026-01-05T09:00:08.193-05:00[America/New_York]',1767621608193,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','0e4007c3b5735ac0ad7ef4512aaa59b08272b788126f19ee29f2efd9424f055b',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('0b4a9c215ed033871bf6026de89570bc','2026-01-07T09:00:02.6-05:00[America/New_York]',1767794402600,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b',1,1,'higher','ALSA: default',2);
INSERT INTO sessions VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d','2026-01-12T09:00:06.255-05:00[America/New_York]',1768226406255,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','f6d23cac96d16a828040d5cb253e56f61f65a65e4c2dd25273c95df3f6de91dc',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd','2026-01-16T09:00:08.858-05:00[America/New_York]',1768572008858,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','76e269d9414068c3f340ea9450ed7cb0111b6c1ad53c5a32c5b19bdcdfc8137c',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('4729d181aefd7e104e040eece1713947','2026-01-19T09:00:08.084-05:00[America/New_York]',1768831208084,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','abababababababababababababababababababababababababababababababab',1,1,'lower',NULL,2);
INSERT INTO sessions VALUES('a8bf14be7300a95a8b4a2c9896a353a7','2026-01-19T09:30:10.748-05:00[America/New_York]',1768833010748,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','fbba01b29597ca31ea999f61e6498b83c76c29aac54e446c3a66c7703c46bfc2',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5','2026-01-21T09:00:07.976-05:00[America/New_York]',1769004007976,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','c460979d158a1f5e8fdde2a85b45456801f8c4eddb7317b1540a2eb0f0b123fb',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4','2026-01-23T12:00:00-05:00[America/New_York]',1769187600000,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','0000000000000000000000000000000000000000000000000000000000000000',0,1,'typed in by hand',NULL,2);
INSERT INTO sessions VALUES('79b685a570b83c4c4249405612f57c34','2026-01-26T09:00:13.856-05:00[America/New_York]',1769436013856,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','a3895fc37b9af9ba9c8d3f062a6181a6b87d52a088381bb5bd768c7ed844db82',0,1,'lower',NULL,3);
INSERT INTO sessions VALUES('3e2d812e5afe62f2b5a55668ba8400a9','2026-01-30T09:00:11.964-05:00[America/New_York]',1769781611964,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','df9e5b4470d9bf6638a0968257876246d8c5ada50869d88e3fce0dd28ad9c644',0,1,'lower',NULL,3);
INSERT INTO sessions VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580','2026-02-02T15:00:21.438-05:00[America/New_York]',1770062421438,'Try-out: Reaches at the counter','sha256:8cf84548e4b0651e41833df5d3d25b06ce4c858cfc361b1d76e36df106d93cdc','4847430b9158b1f0e97b1925459f47d85dc6361ca2d6277156bf2c8d61aa423a',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('bafeff11bcc0e2d71ecda03eed62a5bb','2026-02-04T09:00:13.534-05:00[America/New_York]',1770213613534,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','d62d1b5d87cf8a0354017fff9be2cee903f120f77ebdd2920d738be336a0b98d',0,1,'lower',NULL,3);
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
, cues_asked INTEGER NOT NULL DEFAULT 0, grabs INTEGER NOT NULL DEFAULT 0, falls INTEGER NOT NULL DEFAULT 0, pushes_noted INTEGER NOT NULL DEFAULT 0, pushes_not_noted INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO session_ends VALUES('8b53fac4f3fae3a69016f6544463ee8a','2026-01-05T09:02:31.153-05:00[America/New_York]',1767621751153,'finished',2,2,0,4,34000,0,1,4,2,0,1,0,0,0,0,0);
INSERT INTO session_ends VALUES('0b4a9c215ed033871bf6026de89570bc','2026-01-07T09:01:47.9-05:00[America/New_York]',1767794507900,'grabbed hold or nearly fell',1,2,3,0,25000,1,0,6,2,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d','2026-01-12T09:00:54.016-05:00[America/New_York]',1768226454016,'felt unwell',1,2,0,2,17000,0,0,6,2,1,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd','2026-01-16T09:00:35.869-05:00[America/New_York]',1768572035869,'not today',0,2,0,0,0,NULL,NULL,NULL,NULL,NULL,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('4729d181aefd7e104e040eece1713947','2026-01-19T09:01:10.065-05:00[America/New_York]',1768831270065,'program closed',1,2,0,2,17000,0,0,6,2,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('a8bf14be7300a95a8b4a2c9896a353a7','2026-01-19T09:31:01.715-05:00[America/New_York]',1768833061715,'finished',1,2,0,2,17000,0,0,6,2,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5','2026-01-21T09:00:24.754-05:00[America/New_York]',1769004024754,'interrupted',0,2,0,1,6066,NULL,NULL,NULL,NULL,NULL,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4','2026-01-23T12:20:00-05:00[America/New_York]',1769188800000,'stopped for another reason',1,2,0,0,17000,0,1,6,3,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('79b685a570b83c4c4249405612f57c34','2026-01-26T09:04:39.137-05:00[America/New_York]',1769436279137,'finished',2,3,0,2,72984,0,0,6,2,0,0,3,1,0,1,1);
INSERT INTO session_ends VALUES('3e2d812e5afe62f2b5a55668ba8400a9','2026-01-30T09:02:33.399-05:00[America/New_York]',1769781753399,'fell',1,3,0,3,31436,0,0,6,2,0,0,1,0,1,0,0);
INSERT INTO session_ends VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580','2026-02-02T15:01:11.612-05:00[America/New_York]',1770062471612,'finished',1,2,0,2,17000,0,0,6,2,0,0,0,0,0,0,0);
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
    rest_ms    INTEGER NOT NULL, channel TEXT, facing TEXT, second_task TEXT,
    PRIMARY KEY (session, number)
) STRICT, WITHOUT ROWID;
INSERT INTO sets VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',1,'2026-01-23T12:02:00-05:00[America/New_York]',1769187720000,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',2,'2026-01-23T12:04:00-05:00[America/New_York]',1769187840000,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('0b4a9c215ed033871bf6026de89570bc',1,'2026-01-07T09:00:11.7-05:00[America/New_York]',1767794411700,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('0b4a9c215ed033871bf6026de89570bc',2,'2026-01-07T09:01:30.8-05:00[America/New_York]',1767794490800,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',1,'2026-01-12T09:00:16.788-05:00[America/New_York]',1768226416788,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('3e2d812e5afe62f2b5a55668ba8400a9',1,'2026-01-30T09:00:31.613-05:00[America/New_York]',1769781631613,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('3e2d812e5afe62f2b5a55668ba8400a9',3,'2026-01-30T09:02:05.079-05:00[America/New_York]',1769781725079,'quick-steps','partner',1,'feet apart',NULL,'firm','one hand','open',26000,5000,45000,'partner''s screen','counter ahead',NULL);
INSERT INTO sets VALUES('4729d181aefd7e104e040eece1713947',1,'2026-01-19T09:00:18.552-05:00[America/New_York]',1768831218552,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('79b685a570b83c4c4249405612f57c34',1,'2026-01-26T09:00:42.4-05:00[America/New_York]',1769436042400,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('79b685a570b83c4c4249405612f57c34',2,'2026-01-26T09:02:07.302-05:00[America/New_York]',1769436127302,'pushes','partner',1,'feet apart',NULL,'firm','one hand','open',42000,5000,45000,'partner''s screen','counter at the left',NULL);
INSERT INTO sets VALUES('79b685a570b83c4c4249405612f57c34',3,'2026-01-26T09:04:03.265-05:00[America/New_York]',1769436243265,'quick-steps','partner',1,'feet apart',NULL,'firm','one hand','open',26000,5000,45000,'partner''s screen','counter ahead',NULL);
INSERT INTO sets VALUES('8b53fac4f3fae3a69016f6544463ee8a',1,'2026-01-05T09:00:18.433-05:00[America/New_York]',1767621618433,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('8b53fac4f3fae3a69016f6544463ee8a',2,'2026-01-05T09:01:52.464-05:00[America/New_York]',1767621712464,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('a8bf14be7300a95a8b4a2c9896a353a7',2,'2026-01-19T09:30:20.574-05:00[America/New_York]',1768833020574,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',1,'2026-02-04T09:00:35.05-05:00[America/New_York]',1770213635050,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',2,'2026-02-04T09:02:01.638-05:00[America/New_York]',1770213721638,'pushes','partner',1,'feet apart',NULL,'firm','one hand','open',42000,5000,45000,'partner''s screen','counter at the left',NULL);
INSERT INTO sets VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',2,'2026-02-02T15:00:34.716-05:00[America/New_York]',1770062434716,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',1,'2026-01-21T09:00:18.688-05:00[America/New_York]',1769004018688,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
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
INSERT INTO set_ends VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',1,'2026-01-23T12:03:00-05:00[America/New_York]',1769187780000,17000,'completed');
INSERT INTO set_ends VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',2,'2026-01-23T12:05:00-05:00[America/New_York]',1769187900000,0,'stopped');
INSERT INTO set_ends VALUES('0b4a9c215ed033871bf6026de89570bc',1,'2026-01-07T09:00:33.7-05:00[America/New_York]',1767794433700,17000,'completed');
INSERT INTO set_ends VALUES('0b4a9c215ed033871bf6026de89570bc',2,'2026-01-07T09:01:43.8-05:00[America/New_York]',1767794503800,8000,'sound lost');
INSERT INTO set_ends VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',1,'2026-01-12T09:00:38.821-05:00[America/New_York]',1768226438821,17000,'completed');
INSERT INTO set_ends VALUES('3e2d812e5afe62f2b5a55668ba8400a9',1,'2026-01-30T09:00:53.879-05:00[America/New_York]',1769781653879,17000,'completed');
INSERT INTO set_ends VALUES('3e2d812e5afe62f2b5a55668ba8400a9',3,'2026-01-30T09:02:27.32-05:00[America/New_York]',1769781747320,14436,'fell');
INSERT INTO set_ends VALUES('4729d181aefd7e104e040eece1713947',1,'2026-01-19T09:00:40.581-05:00[America/New_York]',1768831240581,17000,'completed');
INSERT INTO set_ends VALUES('79b685a570b83c4c4249405612f57c34',1,'2026-01-26T09:01:04.421-05:00[America/New_York]',1769436064421,17000,'completed');
INSERT INTO set_ends VALUES('79b685a570b83c4c4249405612f57c34',2,'2026-01-26T09:02:54.652-05:00[America/New_York]',1769436174652,42000,'completed');
INSERT INTO set_ends VALUES('79b685a570b83c4c4249405612f57c34',3,'2026-01-26T09:04:24.688-05:00[America/New_York]',1769436264688,13984,'grabbed or steadied');
INSERT INTO set_ends VALUES('8b53fac4f3fae3a69016f6544463ee8a',1,'2026-01-05T09:00:47.87-05:00[America/New_York]',1767621647870,17000,'completed');
INSERT INTO set_ends VALUES('8b53fac4f3fae3a69016f6544463ee8a',2,'2026-01-05T09:02:14.738-05:00[America/New_York]',1767621734738,17000,'completed');
INSERT INTO set_ends VALUES('a8bf14be7300a95a8b4a2c9896a353a7',2,'2026-01-19T09:30:42.576-05:00[America/New_York]',1768833042576,17000,'completed');
INSERT INTO set_ends VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',1,'2026-02-04T09:00:57.081-05:00[America/New_York]',1770213657081,17000,'completed');
INSERT INTO set_ends VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',2,'2026-02-02T15:00:56.724-05:00[America/New_York]',1770062456724,17000,'completed');
INSERT INTO set_ends VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',1,'2026-01-21T09:00:24.754-05:00[America/New_York]',1769004024754,6066,'interrupted');
CREATE TABLE plans (
    session      TEXT    NOT NULL,
    set_number   INTEGER NOT NULL,
    plan         INTEGER NOT NULL,
    paused_at_ms INTEGER,                      -- work done when the pause began; NULL for plan 0
    PRIMARY KEY (session, set_number, plan),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;
INSERT INTO plans VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',1,0,NULL);
INSERT INTO plans VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',2,0,NULL);
INSERT INTO plans VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,NULL);
INSERT INTO plans VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,NULL);
INSERT INTO plans VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',1,0,NULL);
INSERT INTO plans VALUES('3e2d812e5afe62f2b5a55668ba8400a9',1,0,NULL);
INSERT INTO plans VALUES('3e2d812e5afe62f2b5a55668ba8400a9',3,0,NULL);
INSERT INTO plans VALUES('4729d181aefd7e104e040eece1713947',1,0,NULL);
INSERT INTO plans VALUES('79b685a570b83c4c4249405612f57c34',1,0,NULL);
INSERT INTO plans VALUES('79b685a570b83c4c4249405612f57c34',2,0,NULL);
INSERT INTO plans VALUES('79b685a570b83c4c4249405612f57c34',3,0,NULL);
INSERT INTO plans VALUES('8b53fac4f3fae3a69016f6544463ee8a',1,0,NULL);
INSERT INTO plans VALUES('8b53fac4f3fae3a69016f6544463ee8a',1,1,7490);
INSERT INTO plans VALUES('8b53fac4f3fae3a69016f6544463ee8a',2,0,NULL);
INSERT INTO plans VALUES('a8bf14be7300a95a8b4a2c9896a353a7',2,0,NULL);
INSERT INTO plans VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',1,0,NULL);
INSERT INTO plans VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',2,0,NULL);
INSERT INTO plans VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',2,0,NULL);
INSERT INTO plans VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',1,0,NULL);
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
    phrase     TEXT CHECK ((phrase IS NULL) = blank), until_ms INTEGER, strength INTEGER, ball TEXT, tell TEXT, practice INTEGER NOT NULL DEFAULT 0 CHECK (practice IN (0, 1)),
    PRIMARY KEY (session, set_number, plan, cue),
    FOREIGN KEY (session, set_number, plan) REFERENCES plans
) STRICT, WITHOUT ROWID;
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,0,4020,4020,1,NULL,NULL,NULL,NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,1,8083,4063,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,2,12284,4201,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,0,5413,5413,0,'reach','left','reach.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,1,9693,4280,0,'reach','right','reach.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',1,0,0,5502,5502,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',1,0,1,9860,4358,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('3e2d812e5afe62f2b5a55668ba8400a9',1,0,0,4456,4456,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('3e2d812e5afe62f2b5a55668ba8400a9',1,0,1,8566,4110,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('3e2d812e5afe62f2b5a55668ba8400a9',1,0,2,12742,4176,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('3e2d812e5afe62f2b5a55668ba8400a9',3,0,0,9705,9705,0,'step','forward','step.forward',NULL,NULL,NULL,'step.forward',0);
INSERT INTO cues VALUES('3e2d812e5afe62f2b5a55668ba8400a9',3,0,1,18121,8416,0,'step','right','step.right',NULL,NULL,NULL,'step.right',0);
INSERT INTO cues VALUES('4729d181aefd7e104e040eece1713947',1,0,0,4261,4261,1,NULL,NULL,NULL,NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('4729d181aefd7e104e040eece1713947',1,0,1,9056,4795,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('4729d181aefd7e104e040eece1713947',1,0,2,13800,4744,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('79b685a570b83c4c4249405612f57c34',1,0,0,5103,5103,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('79b685a570b83c4c4249405612f57c34',1,0,1,9947,4844,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('79b685a570b83c4c4249405612f57c34',2,0,0,12338,12338,0,'push','forward','tell.practice+tell.push+where.forward+hand.shoulder-blade+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.door+hand.shoulder-blade+strength.1',1);
INSERT INTO cues VALUES('79b685a570b83c4c4249405612f57c34',2,0,1,25538,13200,0,'push','left','tell.practice+tell.push+where.left+hand.right-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.counter+hand.right-hip+strength.1',1);
INSERT INTO cues VALUES('79b685a570b83c4c4249405612f57c34',3,0,0,9443,9443,0,'step','forward','step.forward',NULL,NULL,NULL,'step.forward',0);
INSERT INTO cues VALUES('79b685a570b83c4c4249405612f57c34',3,0,1,19130,9687,0,'step','left','step.left',NULL,NULL,NULL,'step.left',0);
INSERT INTO cues VALUES('8b53fac4f3fae3a69016f6544463ee8a',1,0,0,5046,5046,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('8b53fac4f3fae3a69016f6544463ee8a',1,0,1,9468,4422,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('8b53fac4f3fae3a69016f6544463ee8a',1,0,2,13850,4382,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('8b53fac4f3fae3a69016f6544463ee8a',1,1,0,5046,5046,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('8b53fac4f3fae3a69016f6544463ee8a',1,1,1,12567,7521,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('8b53fac4f3fae3a69016f6544463ee8a',2,0,0,4109,4109,0,'reach','left','reach.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('8b53fac4f3fae3a69016f6544463ee8a',2,0,1,9863,5754,0,'reach','left','reach.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('a8bf14be7300a95a8b4a2c9896a353a7',2,0,0,4503,4503,0,'reach','left','reach.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('a8bf14be7300a95a8b4a2c9896a353a7',2,0,1,9157,4654,0,'reach','right','reach.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',1,0,0,4023,4023,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',1,0,1,8262,4239,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',1,0,2,12649,4387,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',2,0,0,13631,13631,0,'push','right','tell.practice+tell.push+where.right+hand.left-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.wall+hand.left-hip+strength.1',1);
INSERT INTO cues VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',2,0,1,26046,12415,0,'push','right','tell.practice+tell.push+where.right+hand.left-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.wall+hand.left-hip+strength.1',1);
INSERT INTO cues VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',2,0,0,5942,5942,0,'reach','back','reach.back',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',2,0,1,11341,5399,0,'reach','back','reach.back',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',1,0,0,5910,5910,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',1,0,1,10028,4118,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
CREATE TABLE answers (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,               -- orders the answers of a session
    set_number INTEGER,                        -- NULL: before the first set
    question   TEXT    NOT NULL,
    answer     INTEGER,                        -- NULL: not said
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO answers VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',0,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',1,1,'held on',0);
INSERT INTO answers VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',2,1,'effort',4);
INSERT INTO answers VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',3,1,'steadiness',2);
INSERT INTO answers VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',4,1,'unwell',0);
INSERT INTO answers VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',5,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',6,2,'held on',1);
INSERT INTO answers VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',7,2,'effort',6);
INSERT INTO answers VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',8,2,'steadiness',3);
INSERT INTO answers VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',9,2,'unwell',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',3,NULL,'ready',1);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',4,NULL,'sound check',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',12,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',13,1,'held on',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',14,1,'effort',6);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',15,1,'steadiness',2);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',16,1,'unwell',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',20,2,'grabbed hold or nearly fell',1);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',21,2,'unwell',0);
INSERT INTO answers VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',3,NULL,'ready',1);
INSERT INTO answers VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',9,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',10,1,'held on',0);
INSERT INTO answers VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',11,1,'effort',6);
INSERT INTO answers VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',12,1,'steadiness',2);
INSERT INTO answers VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',13,1,'unwell',1);
INSERT INTO answers VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',14,1,'what felt wrong',1);
INSERT INTO answers VALUES('3e2d812e5afe62f2b5a55668ba8400a9',3,NULL,'ready',1);
INSERT INTO answers VALUES('3e2d812e5afe62f2b5a55668ba8400a9',4,NULL,'partner ready',1);
INSERT INTO answers VALUES('3e2d812e5afe62f2b5a55668ba8400a9',11,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('3e2d812e5afe62f2b5a55668ba8400a9',12,1,'held on',0);
INSERT INTO answers VALUES('3e2d812e5afe62f2b5a55668ba8400a9',13,1,'effort',6);
INSERT INTO answers VALUES('3e2d812e5afe62f2b5a55668ba8400a9',14,1,'steadiness',2);
INSERT INTO answers VALUES('3e2d812e5afe62f2b5a55668ba8400a9',15,1,'unwell',0);
INSERT INTO answers VALUES('3e2d812e5afe62f2b5a55668ba8400a9',21,3,'hurt or a knock to the head',0);
INSERT INTO answers VALUES('4729d181aefd7e104e040eece1713947',3,NULL,'ready',1);
INSERT INTO answers VALUES('4729d181aefd7e104e040eece1713947',9,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('4729d181aefd7e104e040eece1713947',10,1,'held on',0);
INSERT INTO answers VALUES('4729d181aefd7e104e040eece1713947',11,1,'effort',6);
INSERT INTO answers VALUES('4729d181aefd7e104e040eece1713947',12,1,'steadiness',2);
INSERT INTO answers VALUES('4729d181aefd7e104e040eece1713947',13,1,'unwell',0);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',3,NULL,'ready',1);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',4,NULL,'partner ready',1);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',11,1,'held on',0);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',12,1,'effort',6);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',13,1,'steadiness',2);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',14,1,'unwell',0);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',21,2,'held on',0);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',22,2,'effort',6);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',23,2,'steadiness',2);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',24,2,'unwell',0);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',30,3,'held on',0);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',31,3,'effort',6);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',32,3,'steadiness',2);
INSERT INTO answers VALUES('79b685a570b83c4c4249405612f57c34',33,3,'unwell',0);
INSERT INTO answers VALUES('8b53fac4f3fae3a69016f6544463ee8a',3,NULL,'ready',1);
INSERT INTO answers VALUES('8b53fac4f3fae3a69016f6544463ee8a',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('8b53fac4f3fae3a69016f6544463ee8a',11,1,'held on',1);
INSERT INTO answers VALUES('8b53fac4f3fae3a69016f6544463ee8a',12,1,'effort',NULL);
INSERT INTO answers VALUES('8b53fac4f3fae3a69016f6544463ee8a',13,1,'steadiness',2);
INSERT INTO answers VALUES('8b53fac4f3fae3a69016f6544463ee8a',14,1,'unwell',0);
INSERT INTO answers VALUES('8b53fac4f3fae3a69016f6544463ee8a',19,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('8b53fac4f3fae3a69016f6544463ee8a',20,2,'held on',0);
INSERT INTO answers VALUES('8b53fac4f3fae3a69016f6544463ee8a',21,2,'effort',4);
INSERT INTO answers VALUES('8b53fac4f3fae3a69016f6544463ee8a',22,2,'steadiness',2);
INSERT INTO answers VALUES('8b53fac4f3fae3a69016f6544463ee8a',23,2,'unwell',0);
INSERT INTO answers VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',3,NULL,'ready',0);
INSERT INTO answers VALUES('a8bf14be7300a95a8b4a2c9896a353a7',3,NULL,'ready',1);
INSERT INTO answers VALUES('a8bf14be7300a95a8b4a2c9896a353a7',9,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('a8bf14be7300a95a8b4a2c9896a353a7',10,2,'held on',0);
INSERT INTO answers VALUES('a8bf14be7300a95a8b4a2c9896a353a7',11,2,'effort',6);
INSERT INTO answers VALUES('a8bf14be7300a95a8b4a2c9896a353a7',12,2,'steadiness',2);
INSERT INTO answers VALUES('a8bf14be7300a95a8b4a2c9896a353a7',13,2,'unwell',0);
INSERT INTO answers VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',3,NULL,'ready',1);
INSERT INTO answers VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',4,NULL,'partner ready',1);
INSERT INTO answers VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',11,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',12,1,'held on',0);
INSERT INTO answers VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',13,1,'effort',6);
INSERT INTO answers VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',14,1,'steadiness',2);
INSERT INTO answers VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',15,1,'unwell',0);
INSERT INTO answers VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',3,NULL,'ready',1);
INSERT INTO answers VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',4,NULL,'in place',1);
INSERT INTO answers VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',10,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',11,2,'held on',0);
INSERT INTO answers VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',12,2,'effort',6);
INSERT INTO answers VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',13,2,'steadiness',2);
INSERT INTO answers VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',14,2,'unwell',0);
INSERT INTO answers VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',3,NULL,'ready',1);
CREATE TABLE changes (
    at     TEXT    NOT NULL,
    at_ms  INTEGER NOT NULL,
    what   TEXT    NOT NULL,
    digest TEXT    NOT NULL,
    PRIMARY KEY (at_ms, what, digest)
) STRICT, WITHOUT ROWID;
INSERT INTO changes VALUES('2026-01-05T08:50:00.096-05:00[America/New_York]',1767621000096,'prescription in use: alone.toml','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42');
INSERT INTO changes VALUES('2026-01-25T08:50:00.289-05:00[America/New_York]',1769349000289,'prescription in use: partner.toml','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db');
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
INSERT INTO disturbances VALUES('0b4a9c215ed033871bf6026de89570bc',8,1,8800,'stuttered');
INSERT INTO disturbances VALUES('0b4a9c215ed033871bf6026de89570bc',10,1,13000,'moved to another output');
CREATE TABLE IF NOT EXISTS "deliveries" (
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
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',1,1,387984,387984,48000,8083,NULL,NULL);
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',1,2,589632,589639,48000,12284,NULL,NULL);
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,259824,259824,48000,5413,NULL,NULL);
INSERT INTO deliveries VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',1,0,NULL,NULL,NULL,NULL,5509,NULL);
INSERT INTO deliveries VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',1,1,NULL,NULL,NULL,NULL,9883,NULL);
INSERT INTO deliveries VALUES('3e2d812e5afe62f2b5a55668ba8400a9',1,0,NULL,NULL,NULL,NULL,4544,NULL);
INSERT INTO deliveries VALUES('3e2d812e5afe62f2b5a55668ba8400a9',1,1,NULL,NULL,NULL,NULL,8579,NULL);
INSERT INTO deliveries VALUES('3e2d812e5afe62f2b5a55668ba8400a9',1,2,NULL,NULL,NULL,NULL,12783,NULL);
INSERT INTO deliveries VALUES('3e2d812e5afe62f2b5a55668ba8400a9',3,0,NULL,NULL,NULL,NULL,NULL,9715);
INSERT INTO deliveries VALUES('4729d181aefd7e104e040eece1713947',1,1,NULL,NULL,NULL,NULL,9078,NULL);
INSERT INTO deliveries VALUES('4729d181aefd7e104e040eece1713947',1,2,NULL,NULL,NULL,NULL,13800,NULL);
INSERT INTO deliveries VALUES('79b685a570b83c4c4249405612f57c34',1,0,NULL,NULL,NULL,NULL,5111,NULL);
INSERT INTO deliveries VALUES('79b685a570b83c4c4249405612f57c34',1,1,NULL,NULL,NULL,NULL,10048,NULL);
INSERT INTO deliveries VALUES('79b685a570b83c4c4249405612f57c34',2,0,NULL,NULL,NULL,NULL,NULL,12349);
INSERT INTO deliveries VALUES('79b685a570b83c4c4249405612f57c34',2,1,NULL,NULL,NULL,NULL,NULL,25788);
INSERT INTO deliveries VALUES('79b685a570b83c4c4249405612f57c34',3,0,NULL,NULL,NULL,NULL,NULL,9462);
INSERT INTO deliveries VALUES('8b53fac4f3fae3a69016f6544463ee8a',1,0,NULL,NULL,NULL,NULL,5068,NULL);
INSERT INTO deliveries VALUES('8b53fac4f3fae3a69016f6544463ee8a',1,1,NULL,NULL,NULL,NULL,12580,NULL);
INSERT INTO deliveries VALUES('8b53fac4f3fae3a69016f6544463ee8a',2,0,NULL,NULL,NULL,NULL,4165,NULL);
INSERT INTO deliveries VALUES('8b53fac4f3fae3a69016f6544463ee8a',2,1,NULL,NULL,NULL,NULL,10004,NULL);
INSERT INTO deliveries VALUES('a8bf14be7300a95a8b4a2c9896a353a7',2,0,NULL,NULL,NULL,NULL,4511,NULL);
INSERT INTO deliveries VALUES('a8bf14be7300a95a8b4a2c9896a353a7',2,1,NULL,NULL,NULL,NULL,9411,NULL);
INSERT INTO deliveries VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',1,0,NULL,NULL,NULL,NULL,4185,NULL);
INSERT INTO deliveries VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',1,1,NULL,NULL,NULL,NULL,8425,NULL);
INSERT INTO deliveries VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',1,2,NULL,NULL,NULL,NULL,12668,NULL);
INSERT INTO deliveries VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',2,0,NULL,NULL,NULL,NULL,NULL,13687);
INSERT INTO deliveries VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',2,0,NULL,NULL,NULL,NULL,5942,NULL);
INSERT INTO deliveries VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',2,1,NULL,NULL,NULL,NULL,11342,NULL);
INSERT INTO deliveries VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',1,0,NULL,NULL,NULL,NULL,6066,NULL);
CREATE TABLE responses (
    session    TEXT    NOT NULL,
    set_number INTEGER NOT NULL,
    cue        INTEGER NOT NULL,
    response   TEXT,                           -- NULL: not noted, which is never fine
    PRIMARY KEY (session, set_number, cue),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;
INSERT INTO responses VALUES('79b685a570b83c4c4249405612f57c34',2,0,'one step');
INSERT INTO responses VALUES('79b685a570b83c4c4249405612f57c34',2,1,NULL);
INSERT INTO responses VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',2,0,'fell');
CREATE TABLE mishaps (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,               -- orders them, as it does the answers
    set_number INTEGER NOT NULL,               -- may not have begun
    at_ms      INTEGER NOT NULL,               -- work done
    what       TEXT    NOT NULL,
    cue        INTEGER,                        -- the push that it followed
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO mishaps VALUES('3e2d812e5afe62f2b5a55668ba8400a9',19,3,14436,'fell',NULL);
INSERT INTO mishaps VALUES('79b685a570b83c4c4249405612f57c34',27,3,13984,'grabbed or steadied',NULL);
INSERT INTO mishaps VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',18,2,18332,'fell',0);
CREATE TABLE left_out (
    session    TEXT    NOT NULL REFERENCES sessions,
    set_number INTEGER NOT NULL,
    at         TEXT    NOT NULL,
    at_ms      INTEGER NOT NULL,
    why        TEXT    NOT NULL,
    PRIMARY KEY (session, set_number)
) STRICT, WITHOUT ROWID;
INSERT INTO left_out VALUES('3e2d812e5afe62f2b5a55668ba8400a9',2,'2026-01-30T09:01:59.72-05:00[America/New_York]',1769781719720,'refused');
CREATE TABLE advice (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,
    set_number INTEGER NOT NULL,               -- after this set
    advice     TEXT    NOT NULL,
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO advice VALUES('79b685a570b83c4c4249405612f57c34',29,3,'one step lower');
CREATE TABLE routines (
    session TEXT    NOT NULL REFERENCES sessions,
    part    TEXT    NOT NULL,
    at      TEXT    NOT NULL,
    at_ms   INTEGER NOT NULL,
    how     TEXT    NOT NULL,
    PRIMARY KEY (session, part)
) STRICT, WITHOUT ROWID;
INSERT INTO routines VALUES('0b4a9c215ed033871bf6026de89570bc','warm-up','2026-01-07T09:00:10.4-05:00[America/New_York]',1767794410400,'skipped');
INSERT INTO routines VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d','warm-up','2026-01-12T09:00:13.773-05:00[America/New_York]',1768226413773,'skipped');
INSERT INTO routines VALUES('3e2d812e5afe62f2b5a55668ba8400a9','warm-up','2026-01-30T09:00:29.197-05:00[America/New_York]',1769781629197,'skipped');
INSERT INTO routines VALUES('4729d181aefd7e104e040eece1713947','warm-up','2026-01-19T09:00:15.894-05:00[America/New_York]',1768831215894,'skipped');
INSERT INTO routines VALUES('79b685a570b83c4c4249405612f57c34','cool-down','2026-01-26T09:04:39.137-05:00[America/New_York]',1769436279137,'skipped');
INSERT INTO routines VALUES('79b685a570b83c4c4249405612f57c34','warm-up','2026-01-26T09:00:39.953-05:00[America/New_York]',1769436039953,'skipped');
INSERT INTO routines VALUES('8b53fac4f3fae3a69016f6544463ee8a','cool-down','2026-01-05T09:02:31.153-05:00[America/New_York]',1767621751153,'skipped');
INSERT INTO routines VALUES('8b53fac4f3fae3a69016f6544463ee8a','warm-up','2026-01-05T09:00:15.958-05:00[America/New_York]',1767621615958,'skipped');
INSERT INTO routines VALUES('a8bf14be7300a95a8b4a2c9896a353a7','cool-down','2026-01-19T09:31:01.715-05:00[America/New_York]',1768833061715,'skipped');
INSERT INTO routines VALUES('a8bf14be7300a95a8b4a2c9896a353a7','warm-up','2026-01-19T09:30:18.146-05:00[America/New_York]',1768833018146,'skipped');
INSERT INTO routines VALUES('bafeff11bcc0e2d71ecda03eed62a5bb','warm-up','2026-02-04T09:00:32.409-05:00[America/New_York]',1770213632409,'skipped');
INSERT INTO routines VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580','cool-down','2026-02-02T15:01:11.612-05:00[America/New_York]',1770062471612,'skipped');
INSERT INTO routines VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580','warm-up','2026-02-02T15:00:31.75-05:00[America/New_York]',1770062431750,'skipped');
INSERT INTO routines VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5','warm-up','2026-01-21T09:00:15.736-05:00[America/New_York]',1769004015736,'skipped');
CREATE TABLE courses (
    session TEXT    NOT NULL REFERENCES sessions,
    nth     INTEGER NOT NULL,                  -- from 0
    patch   TEXT    NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;
CREATE TABLE readiness (
    session TEXT    NOT NULL REFERENCES sessions,
    nth     INTEGER NOT NULL,                  -- from 0
    item    TEXT    NOT NULL,
    is_true INTEGER NOT NULL CHECK (is_true IN (0, 1)),
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',0,'no chest pain',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',1,'breathing as usual',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',3,'not dizzy',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',4,'not fainted',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',5,'not fallen',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',6,'no knock to the head',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',7,'no new pain',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',8,'not sore',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',9,'not ill',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',10,'slept well',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',11,'no alcohol',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',12,'no new medicine',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',13,'counter fixed',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',16,'good light',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',18,'firm shoes',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',20,'phone in reach',1);
INSERT INTO readiness VALUES('0b4a9c215ed033871bf6026de89570bc',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',0,'no chest pain',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',1,'breathing as usual',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',3,'not dizzy',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',4,'not fainted',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',5,'not fallen',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',6,'no knock to the head',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',7,'no new pain',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',8,'not sore',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',9,'not ill',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',10,'slept well',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',11,'no alcohol',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',12,'no new medicine',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',13,'counter fixed',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',16,'good light',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',18,'firm shoes',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',20,'phone in reach',1);
INSERT INTO readiness VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',0,'no chest pain',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',1,'breathing as usual',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',3,'not dizzy',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',4,'not fainted',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',5,'not fallen',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',6,'no knock to the head',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',7,'no new pain',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',8,'not sore',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',9,'not ill',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',10,'slept well',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',11,'no alcohol',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',12,'no new medicine',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',13,'counter fixed',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',16,'good light',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',18,'firm shoes',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',20,'phone in reach',1);
INSERT INTO readiness VALUES('3e2d812e5afe62f2b5a55668ba8400a9',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',0,'no chest pain',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',1,'breathing as usual',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',3,'not dizzy',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',4,'not fainted',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',5,'not fallen',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',6,'no knock to the head',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',7,'no new pain',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',8,'not sore',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',9,'not ill',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',10,'slept well',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',11,'no alcohol',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',12,'no new medicine',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',13,'counter fixed',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',16,'good light',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',18,'firm shoes',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',20,'phone in reach',1);
INSERT INTO readiness VALUES('4729d181aefd7e104e040eece1713947',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',0,'no chest pain',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',1,'breathing as usual',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',3,'not dizzy',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',4,'not fainted',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',5,'not fallen',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',6,'no knock to the head',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',7,'no new pain',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',8,'not sore',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',9,'not ill',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',10,'slept well',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',11,'no alcohol',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',12,'no new medicine',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',13,'counter fixed',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',16,'good light',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',18,'firm shoes',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',20,'phone in reach',1);
INSERT INTO readiness VALUES('79b685a570b83c4c4249405612f57c34',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',0,'no chest pain',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',1,'breathing as usual',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',3,'not dizzy',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',4,'not fainted',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',5,'not fallen',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',6,'no knock to the head',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',7,'no new pain',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',8,'not sore',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',9,'not ill',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',10,'slept well',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',11,'no alcohol',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',12,'no new medicine',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',13,'counter fixed',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',16,'good light',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',18,'firm shoes',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',20,'phone in reach',1);
INSERT INTO readiness VALUES('8b53fac4f3fae3a69016f6544463ee8a',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',0,'no chest pain',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',1,'breathing as usual',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',3,'not dizzy',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',4,'not fainted',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',5,'not fallen',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',6,'no knock to the head',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',7,'no new pain',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',8,'not sore',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',9,'not ill',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',10,'slept well',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',11,'no alcohol',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',12,'no new medicine',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',13,'feeling unwell passed',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',14,'counter fixed',0);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',15,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',16,'floor dry and clear',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',17,'good light',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',18,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',19,'firm shoes',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',20,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',21,'phone in reach',1);
INSERT INTO readiness VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',22,'chair and water in reach',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',0,'no chest pain',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',1,'breathing as usual',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',3,'not dizzy',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',4,'not fainted',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',5,'not fallen',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',6,'no knock to the head',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',7,'no new pain',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',8,'not sore',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',9,'not ill',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',10,'slept well',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',11,'no alcohol',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',12,'no new medicine',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',13,'counter fixed',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',16,'good light',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',18,'firm shoes',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',20,'phone in reach',1);
INSERT INTO readiness VALUES('a8bf14be7300a95a8b4a2c9896a353a7',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',0,'no chest pain',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',1,'breathing as usual',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',3,'not dizzy',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',4,'not fainted',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',5,'not fallen',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',6,'no knock to the head',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',7,'no new pain',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',8,'not sore',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',9,'not ill',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',10,'slept well',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',11,'no alcohol',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',12,'no new medicine',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',13,'counter fixed',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',16,'good light',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',18,'firm shoes',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',20,'phone in reach',1);
INSERT INTO readiness VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',0,'no chest pain',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',1,'breathing as usual',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',3,'not dizzy',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',4,'not fainted',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',5,'not fallen',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',6,'no knock to the head',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',7,'no new pain',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',8,'not sore',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',9,'not ill',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',10,'slept well',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',11,'no alcohol',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',12,'no new medicine',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',13,'counter fixed',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',16,'good light',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',18,'firm shoes',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',20,'phone in reach',1);
INSERT INTO readiness VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',0,'no chest pain',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',1,'breathing as usual',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',3,'not dizzy',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',4,'not fainted',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',5,'not fallen',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',6,'no knock to the head',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',7,'no new pain',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',8,'not sore',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',9,'not ill',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',10,'slept well',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',11,'no alcohol',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',12,'no new medicine',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',13,'counter fixed',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',16,'good light',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',18,'firm shoes',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',20,'phone in reach',1);
INSERT INTO readiness VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',21,'chair and water in reach',1);
CREATE TABLE decisions (
    session        TEXT    PRIMARY KEY REFERENCES sessions,
    decision       TEXT    NOT NULL,
    gentler        INTEGER NOT NULL CHECK (gentler IN (0, 1)),
    first_set      INTEGER NOT NULL,           -- above 1: an interrupted session was finished
    sets_whole     INTEGER NOT NULL,           -- before some were left away
    seen_before_ms INTEGER                     -- the latest moment that the journal knew; later than the session's
                                               -- beginning if the clock was set back
) STRICT, WITHOUT ROWID;
INSERT INTO decisions VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4','hold',0,1,2,1769004024754);
INSERT INTO decisions VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d','hold',0,1,2,1767794507900);
INSERT INTO decisions VALUES('3e2d812e5afe62f2b5a55668ba8400a9','hold',0,1,3,1769436279137);
INSERT INTO decisions VALUES('4729d181aefd7e104e040eece1713947','hold',0,1,2,1768572035869);
INSERT INTO decisions VALUES('79b685a570b83c4c4249405612f57c34','hold',0,1,3,1769188800000);
INSERT INTO decisions VALUES('8b53fac4f3fae3a69016f6544463ee8a','hold',0,1,2,NULL);
INSERT INTO decisions VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd','hold',0,1,2,1768226454016);
INSERT INTO decisions VALUES('a8bf14be7300a95a8b4a2c9896a353a7','hold',0,2,2,1768831270065);
INSERT INTO decisions VALUES('bafeff11bcc0e2d71ecda03eed62a5bb','hold',0,1,3,1770062471612);
INSERT INTO decisions VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5','hold',0,1,2,1768833061715);
CREATE TABLE decision_reasons (
    session TEXT    NOT NULL REFERENCES decisions,
    nth     INTEGER NOT NULL,                  -- from 0
    reason  TEXT    NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;
INSERT INTO decision_reasons VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',0,'0 of 2 sets were done whole. The step stays.');
INSERT INTO decision_reasons VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',1,'Not every question was answered. The step stays.');
INSERT INTO decision_reasons VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',0,'You had to grab hold, or nearly fell (Reaches at the counter). That calls for one step lower.');
INSERT INTO decision_reasons VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('3e2d812e5afe62f2b5a55668ba8400a9',0,'You had to grab hold, or nearly fell (Quick steps). That calls for one step lower.');
INSERT INTO decision_reasons VALUES('3e2d812e5afe62f2b5a55668ba8400a9',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('4729d181aefd7e104e040eece1713947',0,'You felt unwell. That calls for one step lower.');
INSERT INTO decision_reasons VALUES('4729d181aefd7e104e040eece1713947',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('79b685a570b83c4c4249405612f57c34',0,'This is the first practice of this program.');
INSERT INTO decision_reasons VALUES('8b53fac4f3fae3a69016f6544463ee8a',0,'This is the first practice of this program.');
INSERT INTO decision_reasons VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',0,'You felt unwell. That calls for one step lower.');
INSERT INTO decision_reasons VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('a8bf14be7300a95a8b4a2c9896a353a7',0,'The last practice was broken off: it goes on with set 2.');
INSERT INTO decision_reasons VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',0,'There was a fall. That calls for one step lower.');
INSERT INTO decision_reasons VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',0,'One clean session at this step. After a second one it goes up.');
CREATE TABLE given_steps (
    session TEXT    NOT NULL REFERENCES decisions,
    nth     INTEGER NOT NULL,                  -- from 0
    drill   TEXT    NOT NULL,
    form    TEXT    NOT NULL,
    step    INTEGER NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;
INSERT INTO given_steps VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('0a2cf5a6dac2d07ecf7b3be96521f7b4',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('31bca8d883a8d7940c6cd0ff08cd9f0d',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('3e2d812e5afe62f2b5a55668ba8400a9',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('3e2d812e5afe62f2b5a55668ba8400a9',1,'pushes','partner',1);
INSERT INTO given_steps VALUES('3e2d812e5afe62f2b5a55668ba8400a9',2,'quick-steps','partner',1);
INSERT INTO given_steps VALUES('4729d181aefd7e104e040eece1713947',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('4729d181aefd7e104e040eece1713947',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('79b685a570b83c4c4249405612f57c34',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('79b685a570b83c4c4249405612f57c34',1,'pushes','partner',1);
INSERT INTO given_steps VALUES('79b685a570b83c4c4249405612f57c34',2,'quick-steps','partner',1);
INSERT INTO given_steps VALUES('8b53fac4f3fae3a69016f6544463ee8a',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('8b53fac4f3fae3a69016f6544463ee8a',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('9dcdc0b75bb6ec2693bdb717419cb1dd',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('a8bf14be7300a95a8b4a2c9896a353a7',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('a8bf14be7300a95a8b4a2c9896a353a7',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',1,'pushes','partner',1);
INSERT INTO given_steps VALUES('bafeff11bcc0e2d71ecda03eed62a5bb',2,'quick-steps','partner',1);
INSERT INTO given_steps VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('fcdbe60fe1bb1a5bd40a9dd3600336c5',1,'counter-reach','alone',1);
CREATE TABLE suitability (
    at      TEXT    NOT NULL,
    at_ms   INTEGER NOT NULL,
    partner INTEGER NOT NULL CHECK (partner IN (0, 1)),  -- practice with a partner was asked about too
    topic   TEXT    NOT NULL,
    answer  TEXT    NOT NULL,
    PRIMARY KEY (at_ms, topic)
) STRICT, WITHOUT ROWID;
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'alone in the house','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'blackouts or dizziness','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'blood thinners','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'chest pain','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'consent','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'faint on rising','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'fall in 12 months','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'getting up from the floor','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'heart or blood pressure','not true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'inner ear or numb feet','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'joint replacement','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'low sugar','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'medicine that makes drowsy','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'memory','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'neck','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'pain','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'partner''s back','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'partner''s balance','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'partner''s strength','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'practiced with the therapist','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'recent fall with pain','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'recent fracture or operation','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'severe or repeated falls','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'sight','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'stroke, Parkinson''s or multiple sclerosis','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'unsteady','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'walking aid indoors','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'weak bones','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.253-05:00[America/New_York]',1767477600253,1,'worried about falling','true');
CREATE TABLE clearances (
    at     TEXT    NOT NULL,
    at_ms  INTEGER NOT NULL,
    who    TEXT    NOT NULL,
    reason TEXT    NOT NULL,
    PRIMARY KEY (at_ms, who)
) STRICT, WITHOUT ROWID;
INSERT INTO clearances VALUES('2026-01-04T11:00:00.001-05:00[America/New_York]',1767542400001,'Dr. A. B.','blood pressure is treated');
INSERT INTO clearances VALUES('2026-01-13T16:00:00.014-05:00[America/New_York]',1768338000014,'Dr. A. B.','seen on Tuesday, nothing found');
CREATE TABLE lifted (
    at_ms   INTEGER NOT NULL,
    who     TEXT    NOT NULL,
    nth     INTEGER NOT NULL,                  -- from 0
    locked_by TEXT  NOT NULL,                  -- the session, or the moment of the answers about suitability
    what    TEXT    NOT NULL,
    PRIMARY KEY (at_ms, who, nth),
    FOREIGN KEY (at_ms, who) REFERENCES clearances
) STRICT, WITHOUT ROWID;
INSERT INTO lifted VALUES(1767542400001,'Dr. A. B.',0,'2026-01-03T17:00:00.253-05:00[America/New_York]','a clinician first');
INSERT INTO lifted VALUES(1768338000014,'Dr. A. B.',0,'31bca8d883a8d7940c6cd0ff08cd9f0d','chest pain or pressure');
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
INSERT INTO balance_tests VALUES('2026-01-05T08:55:00.002-05:00[America/New_York]',1767621300002,'one-leg',84,72,'female','elsewhere','K. L.');
INSERT INTO balance_tests VALUES('2026-01-05T08:56:00.001-05:00[America/New_York]',1767621360001,'chair-stand',11,72,'female','elsewhere','K. L.');
CREATE TABLE tryouts (
    session    TEXT PRIMARY KEY REFERENCES sessions,
    watched_by TEXT NOT NULL,
    partner    TEXT NOT NULL                   -- empty: alone
) STRICT, WITHOUT ROWID;
INSERT INTO tryouts VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580','K. L.','');
CREATE TABLE seen (
    session TEXT    NOT NULL REFERENCES tryouts,
    nth     INTEGER NOT NULL,                  -- from 0
    what    TEXT    NOT NULL,                  -- "feet", "support", "in words", "unlocked"
    words   TEXT    NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;
INSERT INTO seen VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',0,'feet','small sway, soles flat');
INSERT INTO seen VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',1,'support','nothing');
INSERT INTO seen VALUES('e8d241b41e7d5a7232c3c2bcbfdd5580',2,'unlocked','backward');
CREATE INDEX sessions_by_time ON sessions (begun_ms);
COMMIT;
PRAGMA application_id=1131368559;
PRAGMA user_version=6;
