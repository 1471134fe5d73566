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
INSERT INTO sessions VALUES('1ff4214229829f975950781ad467934a','2026-01-05T09:00:06.916-05:00[America/New_York]',1767621606916,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','767b616bf16059382ddb6e5132cb1db27f24d04edb9df3f673ba5a80e275ea4d',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('0b4a9c215ed033871bf6026de89570bc','2026-01-07T09:00:02.6-05:00[America/New_York]',1767794402600,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b',1,1,'higher','ALSA: default',2);
INSERT INTO sessions VALUES('63cbeeb099216f9985928b4390a5e84f','2026-01-12T09:00:07.476-05:00[America/New_York]',1768226407476,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','377adeb4e8752e4a50e511f189d90c90053d5fcc0b665a05f38bbcd76eafdd76',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('6e6e259079da9e70150749b586079f4f','2026-01-16T09:00:09.251-05:00[America/New_York]',1768572009251,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','c2984e4fd5e618e2210d160c789e7f2e2b3316f48e0fb6a130ea963c1bf72fe5',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('7604f58e782e411904fad80fea5d9276','2026-01-19T09:00:06.976-05:00[America/New_York]',1768831206976,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','abababababababababababababababababababababababababababababababab',1,1,'lower',NULL,2);
INSERT INTO sessions VALUES('e19f62b6385e7297fc87cd0fbb7dae9c','2026-01-19T09:30:06.754-05:00[America/New_York]',1768833006754,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','5d408ac84c4cc234a1deadbcce77bcaac6596c84e78e5acef314f08edd90ce3f',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('4905078333d99e0322857a286784a7c6','2026-01-21T09:00:07.278-05:00[America/New_York]',1769004007278,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','b6ecfc8f5127e3a2bbafd3e4e82349a403fdfa920114ac3deb2e5bf3bbec4389',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('48b20f39702bbadd0c9ded9c6cbbea11','2026-01-26T09:00:11.461-05:00[America/New_York]',1769436011461,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','4d3e80bd0f812b9a7130af849136974604efcdb389032fee227608bf626f8f9d',0,1,'lower',NULL,3);
INSERT INTO sessions VALUES('0f80f353ba45fe285595502d7a020faf','2026-01-30T09:00:11.089-05:00[America/New_York]',1769781611089,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','7be9a99189e65deafa457e4fb144b1d390166603112e5fa1df9476aff1f5c49c',0,1,'lower',NULL,3);
INSERT INTO sessions VALUES('f3113d7e68a190169bcb3e31407c24d1','2026-02-04T09:00:09.188-05:00[America/New_York]',1770213609188,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','e1037ab726193aa1ec8a5a08b45ffc8093959749a5a56a9085a34ddf5a8b4153',0,1,'lower',NULL,3);
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
INSERT INTO session_ends VALUES('1ff4214229829f975950781ad467934a','2026-01-05T09:02:29.15-05:00[America/New_York]',1767621749150,'finished',2,2,0,4,34000,0,1,4,2,0,1,0,0,0,0,0);
INSERT INTO session_ends VALUES('0b4a9c215ed033871bf6026de89570bc','2026-01-07T09:01:47.9-05:00[America/New_York]',1767794507900,'grabbed hold or nearly fell',1,2,3,0,25000,1,0,6,2,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('63cbeeb099216f9985928b4390a5e84f','2026-01-12T09:00:55.533-05:00[America/New_York]',1768226455533,'felt unwell',1,2,0,3,17000,0,0,6,2,1,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('6e6e259079da9e70150749b586079f4f','2026-01-16T09:00:36.947-05:00[America/New_York]',1768572036947,'not today',0,2,0,0,0,NULL,NULL,NULL,NULL,NULL,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('7604f58e782e411904fad80fea5d9276','2026-01-19T09:01:09.922-05:00[America/New_York]',1768831269922,'program closed',1,2,0,2,17000,0,0,6,2,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('e19f62b6385e7297fc87cd0fbb7dae9c','2026-01-19T09:30:55.791-05:00[America/New_York]',1768833055791,'finished',1,2,0,2,17000,0,0,6,2,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('4905078333d99e0322857a286784a7c6','2026-01-21T09:00:22.64-05:00[America/New_York]',1769004022640,'interrupted',0,2,0,1,4640,NULL,NULL,NULL,NULL,NULL,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('48b20f39702bbadd0c9ded9c6cbbea11','2026-01-26T09:04:35.942-05:00[America/New_York]',1769436275942,'finished',2,3,0,2,72272,0,0,6,2,0,0,3,1,0,1,1);
INSERT INTO session_ends VALUES('0f80f353ba45fe285595502d7a020faf','2026-01-30T09:02:28.954-05:00[America/New_York]',1769781748954,'fell',1,3,0,2,31125,0,0,6,2,0,0,1,0,1,0,0);
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
INSERT INTO sets VALUES('0b4a9c215ed033871bf6026de89570bc',1,'2026-01-07T09:00:11.7-05:00[America/New_York]',1767794411700,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('0b4a9c215ed033871bf6026de89570bc',2,'2026-01-07T09:01:30.8-05:00[America/New_York]',1767794490800,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('0f80f353ba45fe285595502d7a020faf',1,'2026-01-30T09:00:32.027-05:00[America/New_York]',1769781632027,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('0f80f353ba45fe285595502d7a020faf',3,'2026-01-30T09:02:04.21-05:00[America/New_York]',1769781724210,'quick-steps','partner',1,'feet apart',NULL,'firm','one hand','open',26000,5000,45000,'partner''s screen','counter ahead',NULL);
INSERT INTO sets VALUES('1ff4214229829f975950781ad467934a',1,'2026-01-05T09:00:16.974-05:00[America/New_York]',1767621616974,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('1ff4214229829f975950781ad467934a',2,'2026-01-05T09:01:51.071-05:00[America/New_York]',1767621711071,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('48b20f39702bbadd0c9ded9c6cbbea11',1,'2026-01-26T09:00:42.015-05:00[America/New_York]',1769436042015,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('48b20f39702bbadd0c9ded9c6cbbea11',2,'2026-01-26T09:02:06.602-05:00[America/New_York]',1769436126602,'pushes','partner',1,'feet apart',NULL,'firm','one hand','open',42000,5000,45000,'partner''s screen','counter at the left',NULL);
INSERT INTO sets VALUES('48b20f39702bbadd0c9ded9c6cbbea11',3,'2026-01-26T09:03:59.982-05:00[America/New_York]',1769436239982,'quick-steps','partner',1,'feet apart',NULL,'firm','one hand','open',26000,5000,45000,'partner''s screen','counter ahead',NULL);
INSERT INTO sets VALUES('4905078333d99e0322857a286784a7c6',1,'2026-01-21T09:00:18-05:00[America/New_York]',1769004018000,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('63cbeeb099216f9985928b4390a5e84f',1,'2026-01-12T09:00:18.433-05:00[America/New_York]',1768226418433,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('7604f58e782e411904fad80fea5d9276',1,'2026-01-19T09:00:16.991-05:00[America/New_York]',1768831216991,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',2,'2026-01-19T09:30:17.061-05:00[America/New_York]',1768833017061,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('f3113d7e68a190169bcb3e31407c24d1',1,'2026-02-04T09:00:29.924-05:00[America/New_York]',1770213629924,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('f3113d7e68a190169bcb3e31407c24d1',2,'2026-02-04T09:01:55.866-05:00[America/New_York]',1770213715866,'pushes','partner',1,'feet apart',NULL,'firm','one hand','open',42000,5000,45000,'partner''s screen','counter at the left',NULL);
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
INSERT INTO set_ends VALUES('0b4a9c215ed033871bf6026de89570bc',1,'2026-01-07T09:00:33.7-05:00[America/New_York]',1767794433700,17000,'completed');
INSERT INTO set_ends VALUES('0b4a9c215ed033871bf6026de89570bc',2,'2026-01-07T09:01:43.8-05:00[America/New_York]',1767794503800,8000,'sound lost');
INSERT INTO set_ends VALUES('0f80f353ba45fe285595502d7a020faf',1,'2026-01-30T09:00:54.369-05:00[America/New_York]',1769781654369,17000,'completed');
INSERT INTO set_ends VALUES('0f80f353ba45fe285595502d7a020faf',3,'2026-01-30T09:02:25.762-05:00[America/New_York]',1769781745762,14125,'fell');
INSERT INTO set_ends VALUES('1ff4214229829f975950781ad467934a',1,'2026-01-05T09:00:46.407-05:00[America/New_York]',1767621646407,17000,'completed');
INSERT INTO set_ends VALUES('1ff4214229829f975950781ad467934a',2,'2026-01-05T09:02:13.305-05:00[America/New_York]',1767621733305,17000,'completed');
INSERT INTO set_ends VALUES('48b20f39702bbadd0c9ded9c6cbbea11',1,'2026-01-26T09:01:04.097-05:00[America/New_York]',1769436064097,17000,'completed');
INSERT INTO set_ends VALUES('48b20f39702bbadd0c9ded9c6cbbea11',2,'2026-01-26T09:02:54.175-05:00[America/New_York]',1769436174175,42000,'completed');
INSERT INTO set_ends VALUES('48b20f39702bbadd0c9ded9c6cbbea11',3,'2026-01-26T09:04:20.668-05:00[America/New_York]',1769436260668,13272,'grabbed or steadied');
INSERT INTO set_ends VALUES('4905078333d99e0322857a286784a7c6',1,'2026-01-21T09:00:22.64-05:00[America/New_York]',1769004022640,4640,'interrupted');
INSERT INTO set_ends VALUES('63cbeeb099216f9985928b4390a5e84f',1,'2026-01-12T09:00:40.476-05:00[America/New_York]',1768226440476,17000,'completed');
INSERT INTO set_ends VALUES('7604f58e782e411904fad80fea5d9276',1,'2026-01-19T09:00:39.01-05:00[America/New_York]',1768831239010,17000,'completed');
INSERT INTO set_ends VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',2,'2026-01-19T09:30:39.303-05:00[America/New_York]',1768833039303,17000,'completed');
INSERT INTO set_ends VALUES('f3113d7e68a190169bcb3e31407c24d1',1,'2026-02-04T09:00:51.94-05:00[America/New_York]',1770213651940,17000,'completed');
INSERT INTO set_ends VALUES('f3113d7e68a190169bcb3e31407c24d1',2,'2026-02-04T09:02:21.192-05:00[America/New_York]',1770213741192,17760,'fell');
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
INSERT INTO plans VALUES('0f80f353ba45fe285595502d7a020faf',1,0,NULL);
INSERT INTO plans VALUES('0f80f353ba45fe285595502d7a020faf',3,0,NULL);
INSERT INTO plans VALUES('1ff4214229829f975950781ad467934a',1,0,NULL);
INSERT INTO plans VALUES('1ff4214229829f975950781ad467934a',1,1,6937);
INSERT INTO plans VALUES('1ff4214229829f975950781ad467934a',2,0,NULL);
INSERT INTO plans VALUES('48b20f39702bbadd0c9ded9c6cbbea11',1,0,NULL);
INSERT INTO plans VALUES('48b20f39702bbadd0c9ded9c6cbbea11',2,0,NULL);
INSERT INTO plans VALUES('48b20f39702bbadd0c9ded9c6cbbea11',3,0,NULL);
INSERT INTO plans VALUES('4905078333d99e0322857a286784a7c6',1,0,NULL);
INSERT INTO plans VALUES('63cbeeb099216f9985928b4390a5e84f',1,0,NULL);
INSERT INTO plans VALUES('7604f58e782e411904fad80fea5d9276',1,0,NULL);
INSERT INTO plans VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',2,0,NULL);
INSERT INTO plans VALUES('f3113d7e68a190169bcb3e31407c24d1',1,0,NULL);
INSERT INTO plans VALUES('f3113d7e68a190169bcb3e31407c24d1',2,0,NULL);
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
INSERT INTO cues VALUES('0f80f353ba45fe285595502d7a020faf',1,0,0,4650,4650,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0f80f353ba45fe285595502d7a020faf',1,0,1,9680,5030,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0f80f353ba45fe285595502d7a020faf',3,0,0,9676,9676,0,'step','left','step.left',NULL,NULL,NULL,'step.left',0);
INSERT INTO cues VALUES('0f80f353ba45fe285595502d7a020faf',3,0,1,18509,8833,0,'step','right','step.right',NULL,NULL,NULL,'step.right',0);
INSERT INTO cues VALUES('1ff4214229829f975950781ad467934a',1,0,0,4470,4470,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('1ff4214229829f975950781ad467934a',1,0,1,8765,4295,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('1ff4214229829f975950781ad467934a',1,1,0,4470,4470,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('1ff4214229829f975950781ad467934a',1,1,1,11520,7050,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('1ff4214229829f975950781ad467934a',2,0,0,5134,5134,0,'reach','forward','reach.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('1ff4214229829f975950781ad467934a',2,0,1,10863,5729,0,'reach','left','reach.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('48b20f39702bbadd0c9ded9c6cbbea11',1,0,0,4449,4449,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('48b20f39702bbadd0c9ded9c6cbbea11',1,0,1,8962,4513,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('48b20f39702bbadd0c9ded9c6cbbea11',2,0,0,12145,12145,0,'push','left','tell.practice+tell.push+where.left+hand.right-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.counter+hand.right-hip+strength.1',1);
INSERT INTO cues VALUES('48b20f39702bbadd0c9ded9c6cbbea11',2,0,1,24682,12537,0,'push','right','tell.practice+tell.push+where.right+hand.left-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.wall+hand.left-hip+strength.1',1);
INSERT INTO cues VALUES('48b20f39702bbadd0c9ded9c6cbbea11',3,0,0,8806,8806,0,'step','right','step.right',NULL,NULL,NULL,'step.right',0);
INSERT INTO cues VALUES('48b20f39702bbadd0c9ded9c6cbbea11',3,0,1,17164,8358,0,'step','left','step.left',NULL,NULL,NULL,'step.left',0);
INSERT INTO cues VALUES('4905078333d99e0322857a286784a7c6',1,0,0,4639,4639,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('4905078333d99e0322857a286784a7c6',1,0,1,8999,4360,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('4905078333d99e0322857a286784a7c6',1,0,2,13424,4425,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('63cbeeb099216f9985928b4390a5e84f',1,0,0,4186,4186,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('63cbeeb099216f9985928b4390a5e84f',1,0,1,8502,4316,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('63cbeeb099216f9985928b4390a5e84f',1,0,2,13019,4517,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('7604f58e782e411904fad80fea5d9276',1,0,0,4261,4261,1,NULL,NULL,NULL,NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('7604f58e782e411904fad80fea5d9276',1,0,1,9056,4795,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('7604f58e782e411904fad80fea5d9276',1,0,2,13800,4744,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',2,0,0,4410,4410,0,'reach','forward','reach.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',2,0,1,10158,5748,0,'reach','forward','reach.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('f3113d7e68a190169bcb3e31407c24d1',1,0,0,4465,4465,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('f3113d7e68a190169bcb3e31407c24d1',1,0,1,9268,4803,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('f3113d7e68a190169bcb3e31407c24d1',2,0,0,13331,13331,0,'push','forward','tell.practice+tell.push+where.forward+hand.shoulder-blade+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.door+hand.shoulder-blade+strength.1',1);
INSERT INTO cues VALUES('f3113d7e68a190169bcb3e31407c24d1',2,0,1,26693,13362,0,'push','left','tell.practice+tell.push+where.left+hand.right-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.counter+hand.right-hip+strength.1',1);
CREATE TABLE answers (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,               -- orders the answers of a session
    set_number INTEGER,                        -- NULL: before the first set
    question   TEXT    NOT NULL,
    answer     INTEGER,                        -- NULL: not said
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
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
INSERT INTO answers VALUES('0f80f353ba45fe285595502d7a020faf',3,NULL,'ready',1);
INSERT INTO answers VALUES('0f80f353ba45fe285595502d7a020faf',4,NULL,'partner ready',1);
INSERT INTO answers VALUES('0f80f353ba45fe285595502d7a020faf',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('0f80f353ba45fe285595502d7a020faf',11,1,'held on',0);
INSERT INTO answers VALUES('0f80f353ba45fe285595502d7a020faf',12,1,'effort',6);
INSERT INTO answers VALUES('0f80f353ba45fe285595502d7a020faf',13,1,'steadiness',2);
INSERT INTO answers VALUES('0f80f353ba45fe285595502d7a020faf',14,1,'unwell',0);
INSERT INTO answers VALUES('0f80f353ba45fe285595502d7a020faf',20,3,'hurt or a knock to the head',0);
INSERT INTO answers VALUES('1ff4214229829f975950781ad467934a',3,NULL,'ready',1);
INSERT INTO answers VALUES('1ff4214229829f975950781ad467934a',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('1ff4214229829f975950781ad467934a',11,1,'held on',1);
INSERT INTO answers VALUES('1ff4214229829f975950781ad467934a',12,1,'effort',NULL);
INSERT INTO answers VALUES('1ff4214229829f975950781ad467934a',13,1,'steadiness',2);
INSERT INTO answers VALUES('1ff4214229829f975950781ad467934a',14,1,'unwell',0);
INSERT INTO answers VALUES('1ff4214229829f975950781ad467934a',19,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('1ff4214229829f975950781ad467934a',20,2,'held on',0);
INSERT INTO answers VALUES('1ff4214229829f975950781ad467934a',21,2,'effort',4);
INSERT INTO answers VALUES('1ff4214229829f975950781ad467934a',22,2,'steadiness',2);
INSERT INTO answers VALUES('1ff4214229829f975950781ad467934a',23,2,'unwell',0);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',3,NULL,'ready',1);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',4,NULL,'partner ready',1);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',11,1,'held on',0);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',12,1,'effort',6);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',13,1,'steadiness',2);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',14,1,'unwell',0);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',21,2,'held on',0);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',22,2,'effort',6);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',23,2,'steadiness',2);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',24,2,'unwell',0);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',30,3,'held on',0);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',31,3,'effort',6);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',32,3,'steadiness',2);
INSERT INTO answers VALUES('48b20f39702bbadd0c9ded9c6cbbea11',33,3,'unwell',0);
INSERT INTO answers VALUES('4905078333d99e0322857a286784a7c6',3,NULL,'ready',1);
INSERT INTO answers VALUES('63cbeeb099216f9985928b4390a5e84f',3,NULL,'ready',1);
INSERT INTO answers VALUES('63cbeeb099216f9985928b4390a5e84f',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('63cbeeb099216f9985928b4390a5e84f',11,1,'held on',0);
INSERT INTO answers VALUES('63cbeeb099216f9985928b4390a5e84f',12,1,'effort',6);
INSERT INTO answers VALUES('63cbeeb099216f9985928b4390a5e84f',13,1,'steadiness',2);
INSERT INTO answers VALUES('63cbeeb099216f9985928b4390a5e84f',14,1,'unwell',1);
INSERT INTO answers VALUES('63cbeeb099216f9985928b4390a5e84f',15,1,'what felt wrong',1);
INSERT INTO answers VALUES('6e6e259079da9e70150749b586079f4f',3,NULL,'ready',0);
INSERT INTO answers VALUES('7604f58e782e411904fad80fea5d9276',3,NULL,'ready',1);
INSERT INTO answers VALUES('7604f58e782e411904fad80fea5d9276',9,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('7604f58e782e411904fad80fea5d9276',10,1,'held on',0);
INSERT INTO answers VALUES('7604f58e782e411904fad80fea5d9276',11,1,'effort',6);
INSERT INTO answers VALUES('7604f58e782e411904fad80fea5d9276',12,1,'steadiness',2);
INSERT INTO answers VALUES('7604f58e782e411904fad80fea5d9276',13,1,'unwell',0);
INSERT INTO answers VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',3,NULL,'ready',1);
INSERT INTO answers VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',9,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',10,2,'held on',0);
INSERT INTO answers VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',11,2,'effort',6);
INSERT INTO answers VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',12,2,'steadiness',2);
INSERT INTO answers VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',13,2,'unwell',0);
INSERT INTO answers VALUES('f3113d7e68a190169bcb3e31407c24d1',3,NULL,'ready',1);
INSERT INTO answers VALUES('f3113d7e68a190169bcb3e31407c24d1',4,NULL,'partner ready',1);
INSERT INTO answers VALUES('f3113d7e68a190169bcb3e31407c24d1',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('f3113d7e68a190169bcb3e31407c24d1',11,1,'held on',0);
INSERT INTO answers VALUES('f3113d7e68a190169bcb3e31407c24d1',12,1,'effort',6);
INSERT INTO answers VALUES('f3113d7e68a190169bcb3e31407c24d1',13,1,'steadiness',2);
INSERT INTO answers VALUES('f3113d7e68a190169bcb3e31407c24d1',14,1,'unwell',0);
CREATE TABLE changes (
    at     TEXT    NOT NULL,
    at_ms  INTEGER NOT NULL,
    what   TEXT    NOT NULL,
    digest TEXT    NOT NULL,
    PRIMARY KEY (at_ms, what, digest)
) STRICT, WITHOUT ROWID;
INSERT INTO changes VALUES('2026-01-05T08:50:00.067-05:00[America/New_York]',1767621000067,'prescription in use: alone.toml','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42');
INSERT INTO changes VALUES('2026-01-25T08:50:00.257-05:00[America/New_York]',1769349000257,'prescription in use: partner.toml','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db');
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
INSERT INTO deliveries VALUES('0f80f353ba45fe285595502d7a020faf',1,0,NULL,NULL,NULL,NULL,4683,NULL);
INSERT INTO deliveries VALUES('0f80f353ba45fe285595502d7a020faf',1,1,NULL,NULL,NULL,NULL,9684,NULL);
INSERT INTO deliveries VALUES('0f80f353ba45fe285595502d7a020faf',3,0,NULL,NULL,NULL,NULL,NULL,9796);
INSERT INTO deliveries VALUES('1ff4214229829f975950781ad467934a',1,0,NULL,NULL,NULL,NULL,4473,NULL);
INSERT INTO deliveries VALUES('1ff4214229829f975950781ad467934a',1,1,NULL,NULL,NULL,NULL,11539,NULL);
INSERT INTO deliveries VALUES('1ff4214229829f975950781ad467934a',2,0,NULL,NULL,NULL,NULL,5313,NULL);
INSERT INTO deliveries VALUES('1ff4214229829f975950781ad467934a',2,1,NULL,NULL,NULL,NULL,10909,NULL);
INSERT INTO deliveries VALUES('48b20f39702bbadd0c9ded9c6cbbea11',1,0,NULL,NULL,NULL,NULL,4517,NULL);
INSERT INTO deliveries VALUES('48b20f39702bbadd0c9ded9c6cbbea11',1,1,NULL,NULL,NULL,NULL,9007,NULL);
INSERT INTO deliveries VALUES('48b20f39702bbadd0c9ded9c6cbbea11',2,0,NULL,NULL,NULL,NULL,NULL,12152);
INSERT INTO deliveries VALUES('48b20f39702bbadd0c9ded9c6cbbea11',2,1,NULL,NULL,NULL,NULL,NULL,24705);
INSERT INTO deliveries VALUES('48b20f39702bbadd0c9ded9c6cbbea11',3,0,NULL,NULL,NULL,NULL,NULL,8822);
INSERT INTO deliveries VALUES('4905078333d99e0322857a286784a7c6',1,0,NULL,NULL,NULL,NULL,4640,NULL);
INSERT INTO deliveries VALUES('63cbeeb099216f9985928b4390a5e84f',1,0,NULL,NULL,NULL,NULL,4186,NULL);
INSERT INTO deliveries VALUES('63cbeeb099216f9985928b4390a5e84f',1,1,NULL,NULL,NULL,NULL,8515,NULL);
INSERT INTO deliveries VALUES('63cbeeb099216f9985928b4390a5e84f',1,2,NULL,NULL,NULL,NULL,13035,NULL);
INSERT INTO deliveries VALUES('7604f58e782e411904fad80fea5d9276',1,1,NULL,NULL,NULL,NULL,9114,NULL);
INSERT INTO deliveries VALUES('7604f58e782e411904fad80fea5d9276',1,2,NULL,NULL,NULL,NULL,13805,NULL);
INSERT INTO deliveries VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',2,0,NULL,NULL,NULL,NULL,4435,NULL);
INSERT INTO deliveries VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',2,1,NULL,NULL,NULL,NULL,10173,NULL);
INSERT INTO deliveries VALUES('f3113d7e68a190169bcb3e31407c24d1',1,0,NULL,NULL,NULL,NULL,4477,NULL);
INSERT INTO deliveries VALUES('f3113d7e68a190169bcb3e31407c24d1',1,1,NULL,NULL,NULL,NULL,9295,NULL);
INSERT INTO deliveries VALUES('f3113d7e68a190169bcb3e31407c24d1',2,0,NULL,NULL,NULL,NULL,NULL,13434);
CREATE TABLE responses (
    session    TEXT    NOT NULL,
    set_number INTEGER NOT NULL,
    cue        INTEGER NOT NULL,
    response   TEXT,                           -- NULL: not noted, which is never fine
    PRIMARY KEY (session, set_number, cue),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;
INSERT INTO responses VALUES('48b20f39702bbadd0c9ded9c6cbbea11',2,0,'one step');
INSERT INTO responses VALUES('48b20f39702bbadd0c9ded9c6cbbea11',2,1,NULL);
INSERT INTO responses VALUES('f3113d7e68a190169bcb3e31407c24d1',2,0,'fell');
CREATE TABLE mishaps (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,               -- orders them, as it does the answers
    set_number INTEGER NOT NULL,               -- may not have begun
    at_ms      INTEGER NOT NULL,               -- work done
    what       TEXT    NOT NULL,
    cue        INTEGER,                        -- the push that it followed
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO mishaps VALUES('0f80f353ba45fe285595502d7a020faf',18,3,14125,'fell',NULL);
INSERT INTO mishaps VALUES('48b20f39702bbadd0c9ded9c6cbbea11',27,3,13272,'grabbed or steadied',NULL);
INSERT INTO mishaps VALUES('f3113d7e68a190169bcb3e31407c24d1',17,2,17760,'fell',0);
CREATE TABLE left_out (
    session    TEXT    NOT NULL REFERENCES sessions,
    set_number INTEGER NOT NULL,
    at         TEXT    NOT NULL,
    at_ms      INTEGER NOT NULL,
    why        TEXT    NOT NULL,
    PRIMARY KEY (session, set_number)
) STRICT, WITHOUT ROWID;
INSERT INTO left_out VALUES('0f80f353ba45fe285595502d7a020faf',2,'2026-01-30T09:01:59.327-05:00[America/New_York]',1769781719327,'refused');
CREATE TABLE advice (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,
    set_number INTEGER NOT NULL,               -- after this set
    advice     TEXT    NOT NULL,
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO advice VALUES('48b20f39702bbadd0c9ded9c6cbbea11',29,3,'one step lower');
CREATE TABLE routines (
    session TEXT    NOT NULL REFERENCES sessions,
    part    TEXT    NOT NULL,
    at      TEXT    NOT NULL,
    at_ms   INTEGER NOT NULL,
    how     TEXT    NOT NULL,
    PRIMARY KEY (session, part)
) STRICT, WITHOUT ROWID;
INSERT INTO routines VALUES('0b4a9c215ed033871bf6026de89570bc','warm-up','2026-01-07T09:00:10.4-05:00[America/New_York]',1767794410400,'skipped');
INSERT INTO routines VALUES('0f80f353ba45fe285595502d7a020faf','warm-up','2026-01-30T09:00:29.576-05:00[America/New_York]',1769781629576,'skipped');
INSERT INTO routines VALUES('1ff4214229829f975950781ad467934a','cool-down','2026-01-05T09:02:29.15-05:00[America/New_York]',1767621749150,'skipped');
INSERT INTO routines VALUES('1ff4214229829f975950781ad467934a','warm-up','2026-01-05T09:00:14.403-05:00[America/New_York]',1767621614403,'skipped');
INSERT INTO routines VALUES('48b20f39702bbadd0c9ded9c6cbbea11','cool-down','2026-01-26T09:04:35.942-05:00[America/New_York]',1769436275942,'skipped');
INSERT INTO routines VALUES('48b20f39702bbadd0c9ded9c6cbbea11','warm-up','2026-01-26T09:00:39.547-05:00[America/New_York]',1769436039547,'skipped');
INSERT INTO routines VALUES('4905078333d99e0322857a286784a7c6','warm-up','2026-01-21T09:00:15.514-05:00[America/New_York]',1769004015514,'skipped');
INSERT INTO routines VALUES('63cbeeb099216f9985928b4390a5e84f','warm-up','2026-01-12T09:00:15.872-05:00[America/New_York]',1768226415872,'skipped');
INSERT INTO routines VALUES('7604f58e782e411904fad80fea5d9276','warm-up','2026-01-19T09:00:14.563-05:00[America/New_York]',1768831214563,'skipped');
INSERT INTO routines VALUES('e19f62b6385e7297fc87cd0fbb7dae9c','cool-down','2026-01-19T09:30:55.791-05:00[America/New_York]',1768833055791,'skipped');
INSERT INTO routines VALUES('e19f62b6385e7297fc87cd0fbb7dae9c','warm-up','2026-01-19T09:30:14.185-05:00[America/New_York]',1768833014185,'skipped');
INSERT INTO routines VALUES('f3113d7e68a190169bcb3e31407c24d1','warm-up','2026-02-04T09:00:27.506-05:00[America/New_York]',1770213627506,'skipped');
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
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',0,'no chest pain',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',1,'breathing as usual',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',3,'not dizzy',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',4,'not fainted',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',5,'not fallen',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',6,'no knock to the head',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',7,'no new pain',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',8,'not sore',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',9,'not ill',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',10,'slept well',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',11,'no alcohol',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',12,'no new medicine',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',13,'counter fixed',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',16,'good light',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',18,'firm shoes',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',20,'phone in reach',1);
INSERT INTO readiness VALUES('0f80f353ba45fe285595502d7a020faf',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',0,'no chest pain',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',1,'breathing as usual',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',3,'not dizzy',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',4,'not fainted',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',5,'not fallen',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',6,'no knock to the head',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',7,'no new pain',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',8,'not sore',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',9,'not ill',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',10,'slept well',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',11,'no alcohol',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',12,'no new medicine',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',13,'counter fixed',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',16,'good light',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',18,'firm shoes',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',20,'phone in reach',1);
INSERT INTO readiness VALUES('1ff4214229829f975950781ad467934a',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',0,'no chest pain',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',1,'breathing as usual',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',3,'not dizzy',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',4,'not fainted',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',5,'not fallen',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',6,'no knock to the head',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',7,'no new pain',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',8,'not sore',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',9,'not ill',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',10,'slept well',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',11,'no alcohol',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',12,'no new medicine',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',13,'counter fixed',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',16,'good light',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',18,'firm shoes',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',20,'phone in reach',1);
INSERT INTO readiness VALUES('48b20f39702bbadd0c9ded9c6cbbea11',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',0,'no chest pain',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',1,'breathing as usual',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',3,'not dizzy',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',4,'not fainted',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',5,'not fallen',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',6,'no knock to the head',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',7,'no new pain',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',8,'not sore',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',9,'not ill',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',10,'slept well',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',11,'no alcohol',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',12,'no new medicine',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',13,'counter fixed',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',16,'good light',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',18,'firm shoes',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',20,'phone in reach',1);
INSERT INTO readiness VALUES('4905078333d99e0322857a286784a7c6',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',0,'no chest pain',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',1,'breathing as usual',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',3,'not dizzy',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',4,'not fainted',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',5,'not fallen',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',6,'no knock to the head',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',7,'no new pain',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',8,'not sore',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',9,'not ill',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',10,'slept well',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',11,'no alcohol',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',12,'no new medicine',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',13,'counter fixed',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',16,'good light',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',18,'firm shoes',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',20,'phone in reach',1);
INSERT INTO readiness VALUES('63cbeeb099216f9985928b4390a5e84f',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',0,'no chest pain',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',1,'breathing as usual',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',3,'not dizzy',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',4,'not fainted',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',5,'not fallen',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',6,'no knock to the head',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',7,'no new pain',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',8,'not sore',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',9,'not ill',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',10,'slept well',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',11,'no alcohol',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',12,'no new medicine',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',13,'feeling unwell passed',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',14,'counter fixed',0);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',15,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',16,'floor dry and clear',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',17,'good light',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',18,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',19,'firm shoes',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',20,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',21,'phone in reach',1);
INSERT INTO readiness VALUES('6e6e259079da9e70150749b586079f4f',22,'chair and water in reach',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',0,'no chest pain',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',1,'breathing as usual',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',3,'not dizzy',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',4,'not fainted',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',5,'not fallen',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',6,'no knock to the head',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',7,'no new pain',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',8,'not sore',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',9,'not ill',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',10,'slept well',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',11,'no alcohol',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',12,'no new medicine',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',13,'counter fixed',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',16,'good light',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',18,'firm shoes',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',20,'phone in reach',1);
INSERT INTO readiness VALUES('7604f58e782e411904fad80fea5d9276',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',0,'no chest pain',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',1,'breathing as usual',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',3,'not dizzy',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',4,'not fainted',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',5,'not fallen',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',6,'no knock to the head',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',7,'no new pain',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',8,'not sore',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',9,'not ill',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',10,'slept well',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',11,'no alcohol',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',12,'no new medicine',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',13,'counter fixed',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',16,'good light',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',18,'firm shoes',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',20,'phone in reach',1);
INSERT INTO readiness VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',0,'no chest pain',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',1,'breathing as usual',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',3,'not dizzy',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',4,'not fainted',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',5,'not fallen',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',6,'no knock to the head',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',7,'no new pain',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',8,'not sore',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',9,'not ill',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',10,'slept well',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',11,'no alcohol',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',12,'no new medicine',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',13,'counter fixed',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',16,'good light',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',18,'firm shoes',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',20,'phone in reach',1);
INSERT INTO readiness VALUES('f3113d7e68a190169bcb3e31407c24d1',21,'chair and water in reach',1);
CREATE TABLE decisions (
    session        TEXT    PRIMARY KEY REFERENCES sessions,
    decision       TEXT    NOT NULL,
    gentler        INTEGER NOT NULL CHECK (gentler IN (0, 1)),
    first_set      INTEGER NOT NULL,           -- above 1: an interrupted session was finished
    sets_whole     INTEGER NOT NULL,           -- before some were left away
    seen_before_ms INTEGER                     -- the latest moment that the journal knew; later than the session's
                                               -- beginning if the clock was set back
) STRICT, WITHOUT ROWID;
INSERT INTO decisions VALUES('0f80f353ba45fe285595502d7a020faf','hold',0,1,3,1769436275942);
INSERT INTO decisions VALUES('1ff4214229829f975950781ad467934a','hold',0,1,2,NULL);
INSERT INTO decisions VALUES('48b20f39702bbadd0c9ded9c6cbbea11','hold',0,1,3,1769004022640);
INSERT INTO decisions VALUES('4905078333d99e0322857a286784a7c6','hold',0,1,2,1768833055791);
INSERT INTO decisions VALUES('63cbeeb099216f9985928b4390a5e84f','hold',0,1,2,1767794507900);
INSERT INTO decisions VALUES('6e6e259079da9e70150749b586079f4f','hold',0,1,2,1768226455533);
INSERT INTO decisions VALUES('7604f58e782e411904fad80fea5d9276','hold',0,1,2,1768572036947);
INSERT INTO decisions VALUES('e19f62b6385e7297fc87cd0fbb7dae9c','hold',0,2,2,1768831269922);
INSERT INTO decisions VALUES('f3113d7e68a190169bcb3e31407c24d1','hold',0,1,3,1769781748954);
CREATE TABLE decision_reasons (
    session TEXT    NOT NULL REFERENCES decisions,
    nth     INTEGER NOT NULL,                  -- from 0
    reason  TEXT    NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;
INSERT INTO decision_reasons VALUES('0f80f353ba45fe285595502d7a020faf',0,'You had to grab hold, or nearly fell (Quick steps). That calls for one step lower.');
INSERT INTO decision_reasons VALUES('0f80f353ba45fe285595502d7a020faf',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('1ff4214229829f975950781ad467934a',0,'This is the first practice of this program.');
INSERT INTO decision_reasons VALUES('48b20f39702bbadd0c9ded9c6cbbea11',0,'This is the first practice of this program.');
INSERT INTO decision_reasons VALUES('4905078333d99e0322857a286784a7c6',0,'One clean session at this step. After a second one it goes up.');
INSERT INTO decision_reasons VALUES('63cbeeb099216f9985928b4390a5e84f',0,'You had to grab hold, or nearly fell (Reaches at the counter). That calls for one step lower.');
INSERT INTO decision_reasons VALUES('63cbeeb099216f9985928b4390a5e84f',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('6e6e259079da9e70150749b586079f4f',0,'You felt unwell. That calls for one step lower.');
INSERT INTO decision_reasons VALUES('6e6e259079da9e70150749b586079f4f',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('7604f58e782e411904fad80fea5d9276',0,'You felt unwell. That calls for one step lower.');
INSERT INTO decision_reasons VALUES('7604f58e782e411904fad80fea5d9276',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',0,'The last practice was broken off: it goes on with set 2.');
INSERT INTO decision_reasons VALUES('f3113d7e68a190169bcb3e31407c24d1',0,'There was a fall. That calls for one step lower.');
INSERT INTO decision_reasons VALUES('f3113d7e68a190169bcb3e31407c24d1',1,'It is at the gentlest step already.');
CREATE TABLE given_steps (
    session TEXT    NOT NULL REFERENCES decisions,
    nth     INTEGER NOT NULL,                  -- from 0
    drill   TEXT    NOT NULL,
    form    TEXT    NOT NULL,
    step    INTEGER NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;
INSERT INTO given_steps VALUES('0f80f353ba45fe285595502d7a020faf',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('0f80f353ba45fe285595502d7a020faf',1,'pushes','partner',1);
INSERT INTO given_steps VALUES('0f80f353ba45fe285595502d7a020faf',2,'quick-steps','partner',1);
INSERT INTO given_steps VALUES('1ff4214229829f975950781ad467934a',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('1ff4214229829f975950781ad467934a',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('48b20f39702bbadd0c9ded9c6cbbea11',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('48b20f39702bbadd0c9ded9c6cbbea11',1,'pushes','partner',1);
INSERT INTO given_steps VALUES('48b20f39702bbadd0c9ded9c6cbbea11',2,'quick-steps','partner',1);
INSERT INTO given_steps VALUES('4905078333d99e0322857a286784a7c6',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('4905078333d99e0322857a286784a7c6',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('63cbeeb099216f9985928b4390a5e84f',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('63cbeeb099216f9985928b4390a5e84f',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('6e6e259079da9e70150749b586079f4f',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('6e6e259079da9e70150749b586079f4f',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('7604f58e782e411904fad80fea5d9276',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('7604f58e782e411904fad80fea5d9276',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('e19f62b6385e7297fc87cd0fbb7dae9c',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('f3113d7e68a190169bcb3e31407c24d1',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('f3113d7e68a190169bcb3e31407c24d1',1,'pushes','partner',1);
INSERT INTO given_steps VALUES('f3113d7e68a190169bcb3e31407c24d1',2,'quick-steps','partner',1);
CREATE TABLE suitability (
    at      TEXT    NOT NULL,
    at_ms   INTEGER NOT NULL,
    partner INTEGER NOT NULL CHECK (partner IN (0, 1)),  -- practice with a partner was asked about too
    topic   TEXT    NOT NULL,
    answer  TEXT    NOT NULL,
    PRIMARY KEY (at_ms, topic)
) STRICT, WITHOUT ROWID;
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'alone in the house','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'blackouts or dizziness','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'blood thinners','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'chest pain','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'consent','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'faint on rising','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'fall in 12 months','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'getting up from the floor','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'heart or blood pressure','not true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'inner ear or numb feet','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'joint replacement','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'low sugar','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'medicine that makes drowsy','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'memory','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'neck','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'pain','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'partner''s back','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'partner''s balance','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'partner''s strength','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'practiced with the therapist','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'recent fall with pain','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'recent fracture or operation','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'severe or repeated falls','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'sight','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'stroke, Parkinson''s or multiple sclerosis','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'unsteady','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'walking aid indoors','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'weak bones','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.343-05:00[America/New_York]',1767477600343,1,'worried about falling','true');
CREATE TABLE clearances (
    at     TEXT    NOT NULL,
    at_ms  INTEGER NOT NULL,
    who    TEXT    NOT NULL,
    reason TEXT    NOT NULL,
    PRIMARY KEY (at_ms, who)
) STRICT, WITHOUT ROWID;
INSERT INTO clearances VALUES('2026-01-04T11:00:00.001-05:00[America/New_York]',1767542400001,'Dr. A. B.','blood pressure is treated');
INSERT INTO clearances VALUES('2026-01-13T16:00:00.008-05:00[America/New_York]',1768338000008,'Dr. A. B.','seen on Tuesday, nothing found');
CREATE TABLE lifted (
    at_ms   INTEGER NOT NULL,
    who     TEXT    NOT NULL,
    nth     INTEGER NOT NULL,                  -- from 0
    locked_by TEXT  NOT NULL,                  -- the session, or the moment of the answers about suitability
    what    TEXT    NOT NULL,
    PRIMARY KEY (at_ms, who, nth),
    FOREIGN KEY (at_ms, who) REFERENCES clearances
) STRICT, WITHOUT ROWID;
INSERT INTO lifted VALUES(1767542400001,'Dr. A. B.',0,'2026-01-03T17:00:00.343-05:00[America/New_York]','a clinician first');
INSERT INTO lifted VALUES(1768338000008,'Dr. A. B.',0,'63cbeeb099216f9985928b4390a5e84f','chest pain or pressure');
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
INSERT INTO balance_tests VALUES('2026-01-05T08:55:00.009-05:00[America/New_York]',1767621300009,'one-leg',84,72,'female','elsewhere','K. L.');
INSERT INTO balance_tests VALUES('2026-01-05T08:56:00.045-05:00[America/New_York]',1767621360045,'chair-stand',11,72,'female','elsewhere','K. L.');
CREATE INDEX sessions_by_time ON sessions (begun_ms);
COMMIT;
PRAGMA application_id=1131368559;
PRAGMA user_version=5;
