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
INSERT INTO sessions VALUES('0179c11ab156251cf677e5c6cb64940e','2026-01-05T09:00:05.735-05:00[America/New_York]',1767621605735,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','c711df3b9f5821f4689a541a4a040165d9f7a4743bef6ffeda0cd1b286f4563a',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('0b4a9c215ed033871bf6026de89570bc','2026-01-07T09:00:02.6-05:00[America/New_York]',1767794402600,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b',1,1,'higher','ALSA: default',2);
INSERT INTO sessions VALUES('3daf9ef1560028fc33743e83621174c8','2026-01-12T09:00:05.457-05:00[America/New_York]',1768226405457,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','1343ddad35005ce0d019faf968b03150710eecea38e66ba8a3890d2ced76645d',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('01158bd355d0f8a574a774aea81d554c','2026-01-16T09:00:07.273-05:00[America/New_York]',1768572007273,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','27555715f120e1108182e842f2de1e97d4741a132ae090f5ac531160647ff8b8',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('797a31fef124e630b76aa4015b6a51e5','2026-01-19T09:00:06.467-05:00[America/New_York]',1768831206467,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','abababababababababababababababababababababababababababababababab',1,1,'lower',NULL,2);
INSERT INTO sessions VALUES('dd6dc9623cacdda9369592f1e18d6bf2','2026-01-19T09:30:05.897-05:00[America/New_York]',1768833005897,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','991329e0781c61e76c976215d536ad7d6c6aca5d1cce55b860bbae028831368b',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('97cff5f8ad3b373b29847d20f4037aa5','2026-01-21T09:00:07.43-05:00[America/New_York]',1769004007430,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','b1c16c13680943a7b64e6166e1d9f4034365a43902537bf03e972cde41bf9b7f',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('3da1a137e7238dcdab7720ee1ce483e0','2026-01-26T09:00:08.959-05:00[America/New_York]',1769436008959,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','fad9f9842f1f770efdd0811e3006691af29343e339479e63713d77436adf0b2d',0,1,'lower',NULL,3);
INSERT INTO sessions VALUES('fed734d791eebb2a8dc34311b5a58d12','2026-01-30T09:00:09.608-05:00[America/New_York]',1769781609608,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','c33d078355776e90a2f1af46eda28c4000300cb88adaa8bca7ec0ada6c5c4344',0,1,'lower',NULL,3);
INSERT INTO sessions VALUES('a594a5b6097b75a36e13b851f08df426','2026-02-04T09:00:10.236-05:00[America/New_York]',1770213610236,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','3c563bfbf0d00763edf658d4f27f6b364042d225a1e591add4534e941eabb4ae',0,1,'lower',NULL,3);
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
INSERT INTO session_ends VALUES('0179c11ab156251cf677e5c6cb64940e','2026-01-05T09:02:24.915-05:00[America/New_York]',1767621744915,'finished',2,2,0,5,34000,0,1,4,2,0,1,0,0,0,0,0);
INSERT INTO session_ends VALUES('0b4a9c215ed033871bf6026de89570bc','2026-01-07T09:01:47.9-05:00[America/New_York]',1767794507900,'grabbed hold or nearly fell',1,2,3,0,25000,1,0,6,2,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('3daf9ef1560028fc33743e83621174c8','2026-01-12T09:00:49.771-05:00[America/New_York]',1768226449771,'felt unwell',1,2,0,2,17000,0,0,6,2,1,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('01158bd355d0f8a574a774aea81d554c','2026-01-16T09:00:14.52-05:00[America/New_York]',1768572014520,'not today',0,2,0,0,0,NULL,NULL,NULL,NULL,NULL,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('797a31fef124e630b76aa4015b6a51e5','2026-01-19T09:01:05.803-05:00[America/New_York]',1768831265803,'program closed',1,2,0,2,17000,0,0,6,2,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('dd6dc9623cacdda9369592f1e18d6bf2','2026-01-19T09:30:52.583-05:00[America/New_York]',1768833052583,'finished',1,2,0,2,17000,0,0,6,2,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('97cff5f8ad3b373b29847d20f4037aa5','2026-01-21T09:00:23.067-05:00[America/New_York]',1769004023067,'interrupted',0,2,0,1,5958,NULL,NULL,NULL,NULL,NULL,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('3da1a137e7238dcdab7720ee1ce483e0','2026-01-26T09:04:25.99-05:00[America/New_York]',1769436265990,'finished',2,3,0,2,71808,0,0,6,2,0,0,3,1,0,1,1);
INSERT INTO session_ends VALUES('fed734d791eebb2a8dc34311b5a58d12','2026-01-30T09:02:23.564-05:00[America/New_York]',1769781743564,'fell',1,3,0,2,30580,0,0,6,2,0,0,1,0,1,0,0);
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
INSERT INTO sets VALUES('0179c11ab156251cf677e5c6cb64940e',1,'2026-01-05T09:00:15.421-05:00[America/New_York]',1767621615421,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('0179c11ab156251cf677e5c6cb64940e',2,'2026-01-05T09:01:47.85-05:00[America/New_York]',1767621707850,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('0b4a9c215ed033871bf6026de89570bc',1,'2026-01-07T09:00:11.7-05:00[America/New_York]',1767794411700,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('0b4a9c215ed033871bf6026de89570bc',2,'2026-01-07T09:01:30.8-05:00[America/New_York]',1767794490800,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('3da1a137e7238dcdab7720ee1ce483e0',1,'2026-01-26T09:00:35.78-05:00[America/New_York]',1769436035780,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('3da1a137e7238dcdab7720ee1ce483e0',2,'2026-01-26T09:02:00.356-05:00[America/New_York]',1769436120356,'pushes','partner',1,'feet apart',NULL,'firm','one hand','open',42000,5000,45000,'partner''s screen','counter at the left',NULL);
INSERT INTO sets VALUES('3da1a137e7238dcdab7720ee1ce483e0',3,'2026-01-26T09:03:52.56-05:00[America/New_York]',1769436232560,'quick-steps','partner',1,'feet apart',NULL,'firm','one hand','open',26000,5000,45000,'partner''s screen','counter ahead',NULL);
INSERT INTO sets VALUES('3daf9ef1560028fc33743e83621174c8',1,'2026-01-12T09:00:15.129-05:00[America/New_York]',1768226415129,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('797a31fef124e630b76aa4015b6a51e5',1,'2026-01-19T09:00:16.218-05:00[America/New_York]',1768831216218,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('97cff5f8ad3b373b29847d20f4037aa5',1,'2026-01-21T09:00:17.109-05:00[America/New_York]',1769004017109,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('a594a5b6097b75a36e13b851f08df426',1,'2026-02-04T09:00:29.959-05:00[America/New_York]',1770213629959,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('a594a5b6097b75a36e13b851f08df426',2,'2026-02-04T09:01:54.255-05:00[America/New_York]',1770213714255,'pushes','partner',1,'feet apart',NULL,'firm','one hand','open',42000,5000,45000,'partner''s screen','counter at the left',NULL);
INSERT INTO sets VALUES('dd6dc9623cacdda9369592f1e18d6bf2',2,'2026-01-19T09:30:15.597-05:00[America/New_York]',1768833015597,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('fed734d791eebb2a8dc34311b5a58d12',1,'2026-01-30T09:00:28.958-05:00[America/New_York]',1769781628958,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('fed734d791eebb2a8dc34311b5a58d12',3,'2026-01-30T09:01:59.143-05:00[America/New_York]',1769781719143,'quick-steps','partner',1,'feet apart',NULL,'firm','one hand','open',26000,5000,45000,'partner''s screen','counter ahead',NULL);
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
INSERT INTO set_ends VALUES('0179c11ab156251cf677e5c6cb64940e',1,'2026-01-05T09:00:44.859-05:00[America/New_York]',1767621644859,17000,'completed');
INSERT INTO set_ends VALUES('0179c11ab156251cf677e5c6cb64940e',2,'2026-01-05T09:02:09.882-05:00[America/New_York]',1767621729882,17000,'completed');
INSERT INTO set_ends VALUES('0b4a9c215ed033871bf6026de89570bc',1,'2026-01-07T09:00:33.7-05:00[America/New_York]',1767794433700,17000,'completed');
INSERT INTO set_ends VALUES('0b4a9c215ed033871bf6026de89570bc',2,'2026-01-07T09:01:43.8-05:00[America/New_York]',1767794503800,8000,'sound lost');
INSERT INTO set_ends VALUES('3da1a137e7238dcdab7720ee1ce483e0',1,'2026-01-26T09:00:57.8-05:00[America/New_York]',1769436057800,17000,'completed');
INSERT INTO set_ends VALUES('3da1a137e7238dcdab7720ee1ce483e0',2,'2026-01-26T09:02:47.378-05:00[America/New_York]',1769436167378,42000,'completed');
INSERT INTO set_ends VALUES('3da1a137e7238dcdab7720ee1ce483e0',3,'2026-01-26T09:04:12.784-05:00[America/New_York]',1769436252784,12808,'grabbed or steadied');
INSERT INTO set_ends VALUES('3daf9ef1560028fc33743e83621174c8',1,'2026-01-12T09:00:37.154-05:00[America/New_York]',1768226437154,17000,'completed');
INSERT INTO set_ends VALUES('797a31fef124e630b76aa4015b6a51e5',1,'2026-01-19T09:00:38.231-05:00[America/New_York]',1768831238231,17000,'completed');
INSERT INTO set_ends VALUES('97cff5f8ad3b373b29847d20f4037aa5',1,'2026-01-21T09:00:23.067-05:00[America/New_York]',1769004023067,5958,'interrupted');
INSERT INTO set_ends VALUES('a594a5b6097b75a36e13b851f08df426',1,'2026-02-04T09:00:51.967-05:00[America/New_York]',1770213651967,17000,'completed');
INSERT INTO set_ends VALUES('a594a5b6097b75a36e13b851f08df426',2,'2026-02-04T09:02:18.274-05:00[America/New_York]',1770213738274,16605,'fell');
INSERT INTO set_ends VALUES('dd6dc9623cacdda9369592f1e18d6bf2',2,'2026-01-19T09:30:37.619-05:00[America/New_York]',1768833037619,17000,'completed');
INSERT INTO set_ends VALUES('fed734d791eebb2a8dc34311b5a58d12',1,'2026-01-30T09:00:50.975-05:00[America/New_York]',1769781650975,17000,'completed');
INSERT INTO set_ends VALUES('fed734d791eebb2a8dc34311b5a58d12',3,'2026-01-30T09:02:20.144-05:00[America/New_York]',1769781740144,13580,'fell');
CREATE TABLE plans (
    session      TEXT    NOT NULL,
    set_number   INTEGER NOT NULL,
    plan         INTEGER NOT NULL,
    paused_at_ms INTEGER,                      -- work done when the pause began; NULL for plan 0
    PRIMARY KEY (session, set_number, plan),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;
INSERT INTO plans VALUES('0179c11ab156251cf677e5c6cb64940e',1,0,NULL);
INSERT INTO plans VALUES('0179c11ab156251cf677e5c6cb64940e',1,1,6759);
INSERT INTO plans VALUES('0179c11ab156251cf677e5c6cb64940e',2,0,NULL);
INSERT INTO plans VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,NULL);
INSERT INTO plans VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,NULL);
INSERT INTO plans VALUES('3da1a137e7238dcdab7720ee1ce483e0',1,0,NULL);
INSERT INTO plans VALUES('3da1a137e7238dcdab7720ee1ce483e0',2,0,NULL);
INSERT INTO plans VALUES('3da1a137e7238dcdab7720ee1ce483e0',3,0,NULL);
INSERT INTO plans VALUES('3daf9ef1560028fc33743e83621174c8',1,0,NULL);
INSERT INTO plans VALUES('797a31fef124e630b76aa4015b6a51e5',1,0,NULL);
INSERT INTO plans VALUES('97cff5f8ad3b373b29847d20f4037aa5',1,0,NULL);
INSERT INTO plans VALUES('a594a5b6097b75a36e13b851f08df426',1,0,NULL);
INSERT INTO plans VALUES('a594a5b6097b75a36e13b851f08df426',2,0,NULL);
INSERT INTO plans VALUES('dd6dc9623cacdda9369592f1e18d6bf2',2,0,NULL);
INSERT INTO plans VALUES('fed734d791eebb2a8dc34311b5a58d12',1,0,NULL);
INSERT INTO plans VALUES('fed734d791eebb2a8dc34311b5a58d12',3,0,NULL);
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
INSERT INTO cues VALUES('0179c11ab156251cf677e5c6cb64940e',1,0,0,4322,4322,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0179c11ab156251cf677e5c6cb64940e',1,0,1,9230,4908,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0179c11ab156251cf677e5c6cb64940e',1,0,2,13393,4163,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0179c11ab156251cf677e5c6cb64940e',1,1,0,4322,4322,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0179c11ab156251cf677e5c6cb64940e',1,1,1,10833,6511,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0179c11ab156251cf677e5c6cb64940e',2,0,0,4420,4420,0,'reach','left','reach.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0179c11ab156251cf677e5c6cb64940e',2,0,1,8575,4155,0,'reach','right','reach.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0179c11ab156251cf677e5c6cb64940e',2,0,2,13096,4521,0,'reach','left','reach.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,0,4020,4020,1,NULL,NULL,NULL,NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,1,8083,4063,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,2,12284,4201,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,0,5413,5413,0,'reach','left','reach.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,1,9693,4280,0,'reach','right','reach.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('3da1a137e7238dcdab7720ee1ce483e0',1,0,0,5216,5216,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('3da1a137e7238dcdab7720ee1ce483e0',1,0,1,9284,4068,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('3da1a137e7238dcdab7720ee1ce483e0',2,0,0,12407,12407,0,'push','left','tell.practice+tell.push+where.left+hand.right-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.counter+hand.right-hip+strength.1',1);
INSERT INTO cues VALUES('3da1a137e7238dcdab7720ee1ce483e0',2,0,1,25618,13211,0,'push','right','tell.practice+tell.push+where.right+hand.left-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.wall+hand.left-hip+strength.1',1);
INSERT INTO cues VALUES('3da1a137e7238dcdab7720ee1ce483e0',3,0,0,8395,8395,0,'step','left','step.left',NULL,NULL,NULL,'step.left',0);
INSERT INTO cues VALUES('3da1a137e7238dcdab7720ee1ce483e0',3,0,1,17465,9070,0,'step','forward','step.forward',NULL,NULL,NULL,'step.forward',0);
INSERT INTO cues VALUES('3daf9ef1560028fc33743e83621174c8',1,0,0,5740,5740,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('3daf9ef1560028fc33743e83621174c8',1,0,1,10276,4536,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('797a31fef124e630b76aa4015b6a51e5',1,0,0,4261,4261,1,NULL,NULL,NULL,NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('797a31fef124e630b76aa4015b6a51e5',1,0,1,9056,4795,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('797a31fef124e630b76aa4015b6a51e5',1,0,2,13800,4744,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('97cff5f8ad3b373b29847d20f4037aa5',1,0,0,5931,5931,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('97cff5f8ad3b373b29847d20f4037aa5',1,0,1,10615,4684,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('a594a5b6097b75a36e13b851f08df426',1,0,0,5810,5810,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('a594a5b6097b75a36e13b851f08df426',1,0,1,10210,4400,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('a594a5b6097b75a36e13b851f08df426',2,0,0,12179,12179,0,'push','forward','tell.practice+tell.push+where.forward+hand.shoulder-blade+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.door+hand.shoulder-blade+strength.1',1);
INSERT INTO cues VALUES('a594a5b6097b75a36e13b851f08df426',2,0,1,25660,13481,0,'push','left','tell.practice+tell.push+where.left+hand.right-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.counter+hand.right-hip+strength.1',1);
INSERT INTO cues VALUES('dd6dc9623cacdda9369592f1e18d6bf2',2,0,0,5763,5763,0,'reach','forward','reach.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('dd6dc9623cacdda9369592f1e18d6bf2',2,0,1,11563,5800,0,'reach','left','reach.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('fed734d791eebb2a8dc34311b5a58d12',1,0,0,5595,5595,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('fed734d791eebb2a8dc34311b5a58d12',1,0,1,11420,5825,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('fed734d791eebb2a8dc34311b5a58d12',3,0,0,9151,9151,0,'step','forward','step.forward',NULL,NULL,NULL,'step.forward',0);
INSERT INTO cues VALUES('fed734d791eebb2a8dc34311b5a58d12',3,0,1,17504,8353,0,'step','left','step.left',NULL,NULL,NULL,'step.left',0);
CREATE TABLE answers (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,               -- orders the answers of a session
    set_number INTEGER,                        -- NULL: before the first set
    question   TEXT    NOT NULL,
    answer     INTEGER,                        -- NULL: not said
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO answers VALUES('01158bd355d0f8a574a774aea81d554c',3,NULL,'ready',0);
INSERT INTO answers VALUES('0179c11ab156251cf677e5c6cb64940e',3,NULL,'ready',1);
INSERT INTO answers VALUES('0179c11ab156251cf677e5c6cb64940e',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('0179c11ab156251cf677e5c6cb64940e',11,1,'held on',1);
INSERT INTO answers VALUES('0179c11ab156251cf677e5c6cb64940e',12,1,'effort',NULL);
INSERT INTO answers VALUES('0179c11ab156251cf677e5c6cb64940e',13,1,'steadiness',2);
INSERT INTO answers VALUES('0179c11ab156251cf677e5c6cb64940e',14,1,'unwell',0);
INSERT INTO answers VALUES('0179c11ab156251cf677e5c6cb64940e',20,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('0179c11ab156251cf677e5c6cb64940e',21,2,'held on',0);
INSERT INTO answers VALUES('0179c11ab156251cf677e5c6cb64940e',22,2,'effort',4);
INSERT INTO answers VALUES('0179c11ab156251cf677e5c6cb64940e',23,2,'steadiness',2);
INSERT INTO answers VALUES('0179c11ab156251cf677e5c6cb64940e',24,2,'unwell',0);
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
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',3,NULL,'ready',1);
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',4,NULL,'partner ready',1);
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',11,1,'held on',0);
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',12,1,'effort',6);
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',13,1,'steadiness',2);
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',14,1,'unwell',0);
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',21,2,'held on',0);
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',22,2,'effort',6);
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',23,2,'steadiness',2);
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',24,2,'unwell',0);
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',30,3,'held on',0);
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',31,3,'effort',6);
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',32,3,'steadiness',2);
INSERT INTO answers VALUES('3da1a137e7238dcdab7720ee1ce483e0',33,3,'unwell',0);
INSERT INTO answers VALUES('3daf9ef1560028fc33743e83621174c8',3,NULL,'ready',1);
INSERT INTO answers VALUES('3daf9ef1560028fc33743e83621174c8',9,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('3daf9ef1560028fc33743e83621174c8',10,1,'held on',0);
INSERT INTO answers VALUES('3daf9ef1560028fc33743e83621174c8',11,1,'effort',6);
INSERT INTO answers VALUES('3daf9ef1560028fc33743e83621174c8',12,1,'steadiness',2);
INSERT INTO answers VALUES('3daf9ef1560028fc33743e83621174c8',13,1,'unwell',1);
INSERT INTO answers VALUES('797a31fef124e630b76aa4015b6a51e5',3,NULL,'ready',1);
INSERT INTO answers VALUES('797a31fef124e630b76aa4015b6a51e5',9,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('797a31fef124e630b76aa4015b6a51e5',10,1,'held on',0);
INSERT INTO answers VALUES('797a31fef124e630b76aa4015b6a51e5',11,1,'effort',6);
INSERT INTO answers VALUES('797a31fef124e630b76aa4015b6a51e5',12,1,'steadiness',2);
INSERT INTO answers VALUES('797a31fef124e630b76aa4015b6a51e5',13,1,'unwell',0);
INSERT INTO answers VALUES('97cff5f8ad3b373b29847d20f4037aa5',3,NULL,'ready',1);
INSERT INTO answers VALUES('a594a5b6097b75a36e13b851f08df426',3,NULL,'ready',1);
INSERT INTO answers VALUES('a594a5b6097b75a36e13b851f08df426',4,NULL,'partner ready',1);
INSERT INTO answers VALUES('a594a5b6097b75a36e13b851f08df426',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('a594a5b6097b75a36e13b851f08df426',11,1,'held on',0);
INSERT INTO answers VALUES('a594a5b6097b75a36e13b851f08df426',12,1,'effort',6);
INSERT INTO answers VALUES('a594a5b6097b75a36e13b851f08df426',13,1,'steadiness',2);
INSERT INTO answers VALUES('a594a5b6097b75a36e13b851f08df426',14,1,'unwell',0);
INSERT INTO answers VALUES('dd6dc9623cacdda9369592f1e18d6bf2',3,NULL,'ready',1);
INSERT INTO answers VALUES('dd6dc9623cacdda9369592f1e18d6bf2',9,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('dd6dc9623cacdda9369592f1e18d6bf2',10,2,'held on',0);
INSERT INTO answers VALUES('dd6dc9623cacdda9369592f1e18d6bf2',11,2,'effort',6);
INSERT INTO answers VALUES('dd6dc9623cacdda9369592f1e18d6bf2',12,2,'steadiness',2);
INSERT INTO answers VALUES('dd6dc9623cacdda9369592f1e18d6bf2',13,2,'unwell',0);
INSERT INTO answers VALUES('fed734d791eebb2a8dc34311b5a58d12',3,NULL,'ready',1);
INSERT INTO answers VALUES('fed734d791eebb2a8dc34311b5a58d12',4,NULL,'partner ready',1);
INSERT INTO answers VALUES('fed734d791eebb2a8dc34311b5a58d12',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('fed734d791eebb2a8dc34311b5a58d12',11,1,'held on',0);
INSERT INTO answers VALUES('fed734d791eebb2a8dc34311b5a58d12',12,1,'effort',6);
INSERT INTO answers VALUES('fed734d791eebb2a8dc34311b5a58d12',13,1,'steadiness',2);
INSERT INTO answers VALUES('fed734d791eebb2a8dc34311b5a58d12',14,1,'unwell',0);
INSERT INTO answers VALUES('fed734d791eebb2a8dc34311b5a58d12',20,3,'hurt or a knock to the head',0);
CREATE TABLE changes (
    at     TEXT    NOT NULL,
    at_ms  INTEGER NOT NULL,
    what   TEXT    NOT NULL,
    digest TEXT    NOT NULL,
    PRIMARY KEY (at_ms, what, digest)
) STRICT, WITHOUT ROWID;
INSERT INTO changes VALUES('2026-01-05T08:50:00.04-05:00[America/New_York]',1767621000040,'prescription in use: alone.toml','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42');
INSERT INTO changes VALUES('2026-01-25T08:50:00.133-05:00[America/New_York]',1769349000133,'prescription in use: partner.toml','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db');
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
INSERT INTO deliveries VALUES('0179c11ab156251cf677e5c6cb64940e',1,0,NULL,NULL,NULL,NULL,4338,NULL);
INSERT INTO deliveries VALUES('0179c11ab156251cf677e5c6cb64940e',1,1,NULL,NULL,NULL,NULL,10835,NULL);
INSERT INTO deliveries VALUES('0179c11ab156251cf677e5c6cb64940e',2,0,NULL,NULL,NULL,NULL,4421,NULL);
INSERT INTO deliveries VALUES('0179c11ab156251cf677e5c6cb64940e',2,1,NULL,NULL,NULL,NULL,8585,NULL);
INSERT INTO deliveries VALUES('0179c11ab156251cf677e5c6cb64940e',2,2,NULL,NULL,NULL,NULL,13102,NULL);
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',1,1,387984,387984,48000,8083,NULL,NULL);
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',1,2,589632,589639,48000,12284,NULL,NULL);
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,259824,259824,48000,5413,NULL,NULL);
INSERT INTO deliveries VALUES('3da1a137e7238dcdab7720ee1ce483e0',1,0,NULL,NULL,NULL,NULL,5226,NULL);
INSERT INTO deliveries VALUES('3da1a137e7238dcdab7720ee1ce483e0',1,1,NULL,NULL,NULL,NULL,9285,NULL);
INSERT INTO deliveries VALUES('3da1a137e7238dcdab7720ee1ce483e0',2,0,NULL,NULL,NULL,NULL,NULL,12469);
INSERT INTO deliveries VALUES('3da1a137e7238dcdab7720ee1ce483e0',2,1,NULL,NULL,NULL,NULL,NULL,25638);
INSERT INTO deliveries VALUES('3da1a137e7238dcdab7720ee1ce483e0',3,0,NULL,NULL,NULL,NULL,NULL,8426);
INSERT INTO deliveries VALUES('3daf9ef1560028fc33743e83621174c8',1,0,NULL,NULL,NULL,NULL,5856,NULL);
INSERT INTO deliveries VALUES('3daf9ef1560028fc33743e83621174c8',1,1,NULL,NULL,NULL,NULL,10280,NULL);
INSERT INTO deliveries VALUES('797a31fef124e630b76aa4015b6a51e5',1,1,NULL,NULL,NULL,NULL,9062,NULL);
INSERT INTO deliveries VALUES('797a31fef124e630b76aa4015b6a51e5',1,2,NULL,NULL,NULL,NULL,13803,NULL);
INSERT INTO deliveries VALUES('97cff5f8ad3b373b29847d20f4037aa5',1,0,NULL,NULL,NULL,NULL,5958,NULL);
INSERT INTO deliveries VALUES('a594a5b6097b75a36e13b851f08df426',1,0,NULL,NULL,NULL,NULL,5825,NULL);
INSERT INTO deliveries VALUES('a594a5b6097b75a36e13b851f08df426',1,1,NULL,NULL,NULL,NULL,10214,NULL);
INSERT INTO deliveries VALUES('a594a5b6097b75a36e13b851f08df426',2,0,NULL,NULL,NULL,NULL,NULL,12250);
INSERT INTO deliveries VALUES('dd6dc9623cacdda9369592f1e18d6bf2',2,0,NULL,NULL,NULL,NULL,5775,NULL);
INSERT INTO deliveries VALUES('dd6dc9623cacdda9369592f1e18d6bf2',2,1,NULL,NULL,NULL,NULL,11637,NULL);
INSERT INTO deliveries VALUES('fed734d791eebb2a8dc34311b5a58d12',1,0,NULL,NULL,NULL,NULL,5624,NULL);
INSERT INTO deliveries VALUES('fed734d791eebb2a8dc34311b5a58d12',1,1,NULL,NULL,NULL,NULL,11494,NULL);
INSERT INTO deliveries VALUES('fed734d791eebb2a8dc34311b5a58d12',3,0,NULL,NULL,NULL,NULL,NULL,9164);
CREATE TABLE responses (
    session    TEXT    NOT NULL,
    set_number INTEGER NOT NULL,
    cue        INTEGER NOT NULL,
    response   TEXT,                           -- NULL: not noted, which is never fine
    PRIMARY KEY (session, set_number, cue),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;
INSERT INTO responses VALUES('3da1a137e7238dcdab7720ee1ce483e0',2,0,'one step');
INSERT INTO responses VALUES('3da1a137e7238dcdab7720ee1ce483e0',2,1,NULL);
INSERT INTO responses VALUES('a594a5b6097b75a36e13b851f08df426',2,0,'fell');
CREATE TABLE mishaps (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,               -- orders them, as it does the answers
    set_number INTEGER NOT NULL,               -- may not have begun
    at_ms      INTEGER NOT NULL,               -- work done
    what       TEXT    NOT NULL,
    cue        INTEGER,                        -- the push that it followed
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO mishaps VALUES('3da1a137e7238dcdab7720ee1ce483e0',27,3,12808,'grabbed or steadied',NULL);
INSERT INTO mishaps VALUES('a594a5b6097b75a36e13b851f08df426',17,2,16605,'fell',0);
INSERT INTO mishaps VALUES('fed734d791eebb2a8dc34311b5a58d12',18,3,13580,'fell',NULL);
CREATE TABLE left_out (
    session    TEXT    NOT NULL REFERENCES sessions,
    set_number INTEGER NOT NULL,
    at         TEXT    NOT NULL,
    at_ms      INTEGER NOT NULL,
    why        TEXT    NOT NULL,
    PRIMARY KEY (session, set_number)
) STRICT, WITHOUT ROWID;
INSERT INTO left_out VALUES('fed734d791eebb2a8dc34311b5a58d12',2,'2026-01-30T09:01:54.221-05:00[America/New_York]',1769781714221,'refused');
CREATE TABLE advice (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,
    set_number INTEGER NOT NULL,               -- after this set
    advice     TEXT    NOT NULL,
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO advice VALUES('3da1a137e7238dcdab7720ee1ce483e0',29,3,'one step lower');
CREATE TABLE routines (
    session TEXT    NOT NULL REFERENCES sessions,
    part    TEXT    NOT NULL,
    at      TEXT    NOT NULL,
    at_ms   INTEGER NOT NULL,
    how     TEXT    NOT NULL,
    PRIMARY KEY (session, part)
) STRICT, WITHOUT ROWID;
INSERT INTO routines VALUES('0179c11ab156251cf677e5c6cb64940e','cool-down','2026-01-05T09:02:24.915-05:00[America/New_York]',1767621744915,'skipped');
INSERT INTO routines VALUES('0179c11ab156251cf677e5c6cb64940e','warm-up','2026-01-05T09:00:12.994-05:00[America/New_York]',1767621612994,'skipped');
INSERT INTO routines VALUES('0b4a9c215ed033871bf6026de89570bc','warm-up','2026-01-07T09:00:10.4-05:00[America/New_York]',1767794410400,'skipped');
INSERT INTO routines VALUES('3da1a137e7238dcdab7720ee1ce483e0','cool-down','2026-01-26T09:04:25.99-05:00[America/New_York]',1769436265990,'skipped');
INSERT INTO routines VALUES('3da1a137e7238dcdab7720ee1ce483e0','warm-up','2026-01-26T09:00:33.357-05:00[America/New_York]',1769436033357,'skipped');
INSERT INTO routines VALUES('3daf9ef1560028fc33743e83621174c8','warm-up','2026-01-12T09:00:12.696-05:00[America/New_York]',1768226412696,'skipped');
INSERT INTO routines VALUES('797a31fef124e630b76aa4015b6a51e5','warm-up','2026-01-19T09:00:13.705-05:00[America/New_York]',1768831213705,'skipped');
INSERT INTO routines VALUES('97cff5f8ad3b373b29847d20f4037aa5','warm-up','2026-01-21T09:00:14.694-05:00[America/New_York]',1769004014694,'skipped');
INSERT INTO routines VALUES('a594a5b6097b75a36e13b851f08df426','warm-up','2026-02-04T09:00:27.522-05:00[America/New_York]',1770213627522,'skipped');
INSERT INTO routines VALUES('dd6dc9623cacdda9369592f1e18d6bf2','cool-down','2026-01-19T09:30:52.583-05:00[America/New_York]',1768833052583,'skipped');
INSERT INTO routines VALUES('dd6dc9623cacdda9369592f1e18d6bf2','warm-up','2026-01-19T09:30:13.161-05:00[America/New_York]',1768833013161,'skipped');
INSERT INTO routines VALUES('fed734d791eebb2a8dc34311b5a58d12','warm-up','2026-01-30T09:00:26.532-05:00[America/New_York]',1769781626532,'skipped');
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
INSERT INTO readiness VALUES('01158bd355d0f8a574a774aea81d554c',0,'no chest pain',0);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',0,'no chest pain',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',1,'breathing as usual',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',3,'not dizzy',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',4,'not fainted',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',5,'not fallen',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',6,'no knock to the head',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',7,'no new pain',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',8,'not sore',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',9,'not ill',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',10,'slept well',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',11,'no alcohol',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',12,'no new medicine',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',13,'counter fixed',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',16,'good light',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',18,'firm shoes',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',20,'phone in reach',1);
INSERT INTO readiness VALUES('0179c11ab156251cf677e5c6cb64940e',21,'chair and water in reach',1);
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
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',0,'no chest pain',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',1,'breathing as usual',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',3,'not dizzy',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',4,'not fainted',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',5,'not fallen',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',6,'no knock to the head',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',7,'no new pain',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',8,'not sore',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',9,'not ill',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',10,'slept well',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',11,'no alcohol',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',12,'no new medicine',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',13,'counter fixed',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',16,'good light',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',18,'firm shoes',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',20,'phone in reach',1);
INSERT INTO readiness VALUES('3da1a137e7238dcdab7720ee1ce483e0',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',0,'no chest pain',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',1,'breathing as usual',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',3,'not dizzy',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',4,'not fainted',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',5,'not fallen',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',6,'no knock to the head',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',7,'no new pain',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',8,'not sore',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',9,'not ill',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',10,'slept well',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',11,'no alcohol',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',12,'no new medicine',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',13,'counter fixed',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',16,'good light',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',18,'firm shoes',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',20,'phone in reach',1);
INSERT INTO readiness VALUES('3daf9ef1560028fc33743e83621174c8',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',0,'no chest pain',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',1,'breathing as usual',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',3,'not dizzy',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',4,'not fainted',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',5,'not fallen',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',6,'no knock to the head',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',7,'no new pain',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',8,'not sore',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',9,'not ill',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',10,'slept well',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',11,'no alcohol',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',12,'no new medicine',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',13,'feeling unwell passed',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',14,'counter fixed',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',15,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',16,'floor dry and clear',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',17,'good light',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',18,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',19,'firm shoes',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',20,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',21,'phone in reach',1);
INSERT INTO readiness VALUES('797a31fef124e630b76aa4015b6a51e5',22,'chair and water in reach',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',0,'no chest pain',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',1,'breathing as usual',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',3,'not dizzy',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',4,'not fainted',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',5,'not fallen',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',6,'no knock to the head',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',7,'no new pain',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',8,'not sore',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',9,'not ill',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',10,'slept well',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',11,'no alcohol',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',12,'no new medicine',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',13,'counter fixed',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',16,'good light',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',18,'firm shoes',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',20,'phone in reach',1);
INSERT INTO readiness VALUES('97cff5f8ad3b373b29847d20f4037aa5',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',0,'no chest pain',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',1,'breathing as usual',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',3,'not dizzy',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',4,'not fainted',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',5,'not fallen',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',6,'no knock to the head',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',7,'no new pain',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',8,'not sore',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',9,'not ill',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',10,'slept well',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',11,'no alcohol',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',12,'no new medicine',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',13,'counter fixed',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',16,'good light',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',18,'firm shoes',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',20,'phone in reach',1);
INSERT INTO readiness VALUES('a594a5b6097b75a36e13b851f08df426',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',0,'no chest pain',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',1,'breathing as usual',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',3,'not dizzy',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',4,'not fainted',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',5,'not fallen',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',6,'no knock to the head',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',7,'no new pain',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',8,'not sore',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',9,'not ill',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',10,'slept well',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',11,'no alcohol',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',12,'no new medicine',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',13,'counter fixed',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',16,'good light',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',18,'firm shoes',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',20,'phone in reach',1);
INSERT INTO readiness VALUES('dd6dc9623cacdda9369592f1e18d6bf2',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',0,'no chest pain',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',1,'breathing as usual',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',3,'not dizzy',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',4,'not fainted',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',5,'not fallen',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',6,'no knock to the head',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',7,'no new pain',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',8,'not sore',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',9,'not ill',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',10,'slept well',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',11,'no alcohol',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',12,'no new medicine',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',13,'counter fixed',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',16,'good light',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',18,'firm shoes',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',20,'phone in reach',1);
INSERT INTO readiness VALUES('fed734d791eebb2a8dc34311b5a58d12',21,'chair and water in reach',1);
CREATE TABLE decisions (
    session        TEXT    PRIMARY KEY REFERENCES sessions,
    decision       TEXT    NOT NULL,
    gentler        INTEGER NOT NULL CHECK (gentler IN (0, 1)),
    first_set      INTEGER NOT NULL,           -- above 1: an interrupted session was finished
    sets_whole     INTEGER NOT NULL,           -- before some were left away
    seen_before_ms INTEGER                     -- the latest moment that the journal knew; later than the session's
                                               -- beginning if the clock was set back
) STRICT, WITHOUT ROWID;
INSERT INTO decisions VALUES('01158bd355d0f8a574a774aea81d554c','hold',0,1,2,1768226449771);
INSERT INTO decisions VALUES('0179c11ab156251cf677e5c6cb64940e','hold',0,1,2,NULL);
INSERT INTO decisions VALUES('3da1a137e7238dcdab7720ee1ce483e0','hold',0,1,3,1769004023067);
INSERT INTO decisions VALUES('3daf9ef1560028fc33743e83621174c8','hold',0,1,2,1767794507900);
INSERT INTO decisions VALUES('797a31fef124e630b76aa4015b6a51e5','hold',0,1,2,1768572014520);
INSERT INTO decisions VALUES('97cff5f8ad3b373b29847d20f4037aa5','hold',0,1,2,1768833052583);
INSERT INTO decisions VALUES('a594a5b6097b75a36e13b851f08df426','hold',0,1,3,1769781743564);
INSERT INTO decisions VALUES('dd6dc9623cacdda9369592f1e18d6bf2','hold',0,2,2,1768831265803);
INSERT INTO decisions VALUES('fed734d791eebb2a8dc34311b5a58d12','hold',0,1,3,1769436265990);
CREATE TABLE decision_reasons (
    session TEXT    NOT NULL REFERENCES decisions,
    nth     INTEGER NOT NULL,                  -- from 0
    reason  TEXT    NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;
INSERT INTO decision_reasons VALUES('01158bd355d0f8a574a774aea81d554c',0,'You felt unwell. That calls for one step lower.');
INSERT INTO decision_reasons VALUES('01158bd355d0f8a574a774aea81d554c',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('0179c11ab156251cf677e5c6cb64940e',0,'This is the first practice of this program.');
INSERT INTO decision_reasons VALUES('3da1a137e7238dcdab7720ee1ce483e0',0,'This is the first practice of this program.');
INSERT INTO decision_reasons VALUES('3daf9ef1560028fc33743e83621174c8',0,'You had to grab hold, or nearly fell (Reaches at the counter). That calls for one step lower.');
INSERT INTO decision_reasons VALUES('3daf9ef1560028fc33743e83621174c8',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('797a31fef124e630b76aa4015b6a51e5',0,'You felt unwell. That calls for one step lower.');
INSERT INTO decision_reasons VALUES('797a31fef124e630b76aa4015b6a51e5',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('97cff5f8ad3b373b29847d20f4037aa5',0,'One clean session at this step. After a second one it goes up.');
INSERT INTO decision_reasons VALUES('a594a5b6097b75a36e13b851f08df426',0,'There was a fall. That calls for one step lower.');
INSERT INTO decision_reasons VALUES('a594a5b6097b75a36e13b851f08df426',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('dd6dc9623cacdda9369592f1e18d6bf2',0,'The last practice was broken off: it goes on with set 2.');
INSERT INTO decision_reasons VALUES('fed734d791eebb2a8dc34311b5a58d12',0,'You had to grab hold, or nearly fell (Quick steps). That calls for one step lower.');
INSERT INTO decision_reasons VALUES('fed734d791eebb2a8dc34311b5a58d12',1,'It is at the gentlest step already.');
CREATE TABLE given_steps (
    session TEXT    NOT NULL REFERENCES decisions,
    nth     INTEGER NOT NULL,                  -- from 0
    drill   TEXT    NOT NULL,
    form    TEXT    NOT NULL,
    step    INTEGER NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;
INSERT INTO given_steps VALUES('01158bd355d0f8a574a774aea81d554c',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('01158bd355d0f8a574a774aea81d554c',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('0179c11ab156251cf677e5c6cb64940e',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('0179c11ab156251cf677e5c6cb64940e',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('3da1a137e7238dcdab7720ee1ce483e0',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('3da1a137e7238dcdab7720ee1ce483e0',1,'pushes','partner',1);
INSERT INTO given_steps VALUES('3da1a137e7238dcdab7720ee1ce483e0',2,'quick-steps','partner',1);
INSERT INTO given_steps VALUES('3daf9ef1560028fc33743e83621174c8',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('3daf9ef1560028fc33743e83621174c8',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('797a31fef124e630b76aa4015b6a51e5',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('797a31fef124e630b76aa4015b6a51e5',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('97cff5f8ad3b373b29847d20f4037aa5',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('97cff5f8ad3b373b29847d20f4037aa5',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('a594a5b6097b75a36e13b851f08df426',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('a594a5b6097b75a36e13b851f08df426',1,'pushes','partner',1);
INSERT INTO given_steps VALUES('a594a5b6097b75a36e13b851f08df426',2,'quick-steps','partner',1);
INSERT INTO given_steps VALUES('dd6dc9623cacdda9369592f1e18d6bf2',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('dd6dc9623cacdda9369592f1e18d6bf2',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('fed734d791eebb2a8dc34311b5a58d12',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('fed734d791eebb2a8dc34311b5a58d12',1,'pushes','partner',1);
INSERT INTO given_steps VALUES('fed734d791eebb2a8dc34311b5a58d12',2,'quick-steps','partner',1);
CREATE TABLE suitability (
    at      TEXT    NOT NULL,
    at_ms   INTEGER NOT NULL,
    partner INTEGER NOT NULL CHECK (partner IN (0, 1)),  -- practice with a partner was asked about too
    topic   TEXT    NOT NULL,
    answer  TEXT    NOT NULL,
    PRIMARY KEY (at_ms, topic)
) STRICT, WITHOUT ROWID;
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'alone in the house','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'blackouts or dizziness','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'blood thinners','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'chest pain','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'consent','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'faint on rising','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'fall in 12 months','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'getting up from the floor','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'heart or blood pressure','not true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'inner ear or numb feet','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'joint replacement','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'low sugar','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'medicine that makes drowsy','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'memory','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'neck','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'pain','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'partner''s back','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'partner''s balance','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'partner''s strength','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'practiced with the therapist','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'recent fall with pain','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'recent fracture or operation','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'severe or repeated falls','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'sight','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'stroke, Parkinson''s or multiple sclerosis','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'unsteady','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'walking aid indoors','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'weak bones','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.175-05:00[America/New_York]',1767477600175,1,'worried about falling','true');
CREATE TABLE clearances (
    at     TEXT    NOT NULL,
    at_ms  INTEGER NOT NULL,
    who    TEXT    NOT NULL,
    reason TEXT    NOT NULL,
    PRIMARY KEY (at_ms, who)
) STRICT, WITHOUT ROWID;
INSERT INTO clearances VALUES('2026-01-04T11:00:00.029-05:00[America/New_York]',1767542400029,'Dr. A. B.','blood pressure is treated');
INSERT INTO clearances VALUES('2026-01-17T16:00:00.001-05:00[America/New_York]',1768683600001,'Dr. A. B.','seen on Saturday, nothing found');
CREATE TABLE lifted (
    at_ms   INTEGER NOT NULL,
    who     TEXT    NOT NULL,
    nth     INTEGER NOT NULL,                  -- from 0
    locked_by TEXT  NOT NULL,                  -- the session, or the moment of the answers about suitability
    what    TEXT    NOT NULL,
    PRIMARY KEY (at_ms, who, nth),
    FOREIGN KEY (at_ms, who) REFERENCES clearances
) STRICT, WITHOUT ROWID;
INSERT INTO lifted VALUES(1767542400029,'Dr. A. B.',0,'2026-01-03T17:00:00.175-05:00[America/New_York]','a clinician first');
INSERT INTO lifted VALUES(1768683600001,'Dr. A. B.',0,'01158bd355d0f8a574a774aea81d554c','chest pain or pressure');
CREATE INDEX sessions_by_time ON sessions (begun_ms);
COMMIT;
PRAGMA application_id=1131368559;
PRAGMA user_version=4;
