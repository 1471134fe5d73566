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
INSERT INTO sessions VALUES('18b74552fee8e9a570b84cb8ec4d7fb4','2026-01-05T09:00:06.907-05:00[America/New_York]',1767621606907,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','50a27816f9beaf702d10f2cc5ff47384d6cc1f1c34d603f7825021cb3571a4e3',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('0b4a9c215ed033871bf6026de89570bc','2026-01-07T09:00:02.6-05:00[America/New_York]',1767794402600,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b',1,1,'higher','ALSA: default',2);
INSERT INTO sessions VALUES('bba8dde6274c61200dbf7e515e2ac0e9','2026-01-12T09:00:07.075-05:00[America/New_York]',1768226407075,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','5353dd002ddb4c7976c81920efbde7678143546df052238611a1f4cae0f71640',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('b1189267442bce64f60db389b6471725','2026-01-16T09:00:08.569-05:00[America/New_York]',1768572008569,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','04bc09daa0beed685a31903242a895e4a8fbcfc50c81ceb0cc115123eea39ffe',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('73580dd4923b03dce365dd94378af6a6','2026-01-19T09:00:06.784-05:00[America/New_York]',1768831206784,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','abababababababababababababababababababababababababababababababab',1,1,'lower',NULL,2);
INSERT INTO sessions VALUES('7b8e3122de068f16ae1bc71b15628ddc','2026-01-21T09:00:06.788-05:00[America/New_York]',1769004006788,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','03cbe167adb95428dc6e161547ed3412c8f87d8e25af2fde07e0cef47c3e9239',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('112a8c2622557e306482d5bc7ac4db7e','2026-01-26T09:00:09.675-05:00[America/New_York]',1769436009675,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','3cb14330c5461f12ac41185ad5b40dc49802ca78c73361305de6dd77a07189b8',0,1,'lower',NULL,3);
INSERT INTO sessions VALUES('98c4623e215928a566023db622e99763','2026-01-30T09:00:09.311-05:00[America/New_York]',1769781609311,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','197b7bb1a128aa4dc881d8563b30eb95cdbd2c77dd0fae8bd93a190922c1e8cd',0,1,'lower',NULL,3);
INSERT INTO sessions VALUES('fa94968d435fe40e8bbc4e42a03bafd0','2026-02-04T09:00:07.839-05:00[America/New_York]',1770213607839,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','00bbb4eb9e98656af753fa735c6aeaa34dc59feae74b108b2de926c0411a2f69',0,1,'lower',NULL,3);
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
INSERT INTO session_ends VALUES('18b74552fee8e9a570b84cb8ec4d7fb4','2026-01-05T09:02:34.279-05:00[America/New_York]',1767621754279,'finished',2,2,0,4,34000,0,1,4,2,0,1,0,0,0,0,0);
INSERT INTO session_ends VALUES('0b4a9c215ed033871bf6026de89570bc','2026-01-07T09:01:47.9-05:00[America/New_York]',1767794507900,'grabbed hold or nearly fell',1,2,3,0,25000,1,0,6,2,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('bba8dde6274c61200dbf7e515e2ac0e9','2026-01-12T09:00:57.392-05:00[America/New_York]',1768226457392,'felt unwell',1,2,0,2,17000,0,0,6,2,1,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('b1189267442bce64f60db389b6471725','2026-01-16T09:00:11.065-05:00[America/New_York]',1768572011065,'not today',0,2,0,0,0,NULL,NULL,NULL,NULL,NULL,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('73580dd4923b03dce365dd94378af6a6','2026-01-19T09:02:00.083-05:00[America/New_York]',1768831320083,'program closed',1,2,0,3,22697,0,0,6,2,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('7b8e3122de068f16ae1bc71b15628ddc','2026-01-21T09:00:28.344-05:00[America/New_York]',1769004028344,'interrupted',0,2,0,1,4515,NULL,NULL,NULL,NULL,NULL,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('112a8c2622557e306482d5bc7ac4db7e','2026-01-26T09:04:40.866-05:00[America/New_York]',1769436280866,'finished',2,3,0,3,72723,0,0,6,2,0,0,3,1,0,1,1);
INSERT INTO session_ends VALUES('98c4623e215928a566023db622e99763','2026-01-30T09:02:30.695-05:00[America/New_York]',1769781750695,'fell',1,3,0,2,31286,0,0,6,2,0,0,1,0,1,0,0);
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
INSERT INTO sets VALUES('112a8c2622557e306482d5bc7ac4db7e',1,'2026-01-26T09:00:44.375-05:00[America/New_York]',1769436044375,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('112a8c2622557e306482d5bc7ac4db7e',2,'2026-01-26T09:02:10.725-05:00[America/New_York]',1769436130725,'pushes','partner',1,'feet apart',NULL,'firm','one hand','open',42000,5000,45000,'partner''s screen','counter at the left',NULL);
INSERT INTO sets VALUES('112a8c2622557e306482d5bc7ac4db7e',3,'2026-01-26T09:04:05.494-05:00[America/New_York]',1769436245494,'quick-steps','partner',1,'feet apart',NULL,'firm','one hand','open',26000,5000,45000,'partner''s screen','counter ahead',NULL);
INSERT INTO sets VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',1,'2026-01-05T09:00:21.865-05:00[America/New_York]',1767621621865,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',2,'2026-01-05T09:01:56.355-05:00[America/New_York]',1767621716355,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('73580dd4923b03dce365dd94378af6a6',1,'2026-01-19T09:00:23.641-05:00[America/New_York]',1768831223641,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('73580dd4923b03dce365dd94378af6a6',2,'2026-01-19T09:01:49.384-05:00[America/New_York]',1768831309384,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('7b8e3122de068f16ae1bc71b15628ddc',1,'2026-01-21T09:00:23.829-05:00[America/New_York]',1769004023829,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('98c4623e215928a566023db622e99763',1,'2026-01-30T09:00:34.946-05:00[America/New_York]',1769781634946,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('98c4623e215928a566023db622e99763',3,'2026-01-30T09:02:05.313-05:00[America/New_York]',1769781725313,'quick-steps','partner',1,'feet apart',NULL,'firm','one hand','open',26000,5000,45000,'partner''s screen','counter ahead',NULL);
INSERT INTO sets VALUES('bba8dde6274c61200dbf7e515e2ac0e9',1,'2026-01-12T09:00:22.351-05:00[America/New_York]',1768226422351,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('fa94968d435fe40e8bbc4e42a03bafd0',1,'2026-02-04T09:00:33.445-05:00[America/New_York]',1770213633445,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('fa94968d435fe40e8bbc4e42a03bafd0',2,'2026-02-04T09:02:00.412-05:00[America/New_York]',1770213720412,'pushes','partner',1,'feet apart',NULL,'firm','one hand','open',42000,5000,45000,'partner''s screen','counter at the left',NULL);
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
INSERT INTO set_ends VALUES('112a8c2622557e306482d5bc7ac4db7e',1,'2026-01-26T09:01:06.404-05:00[America/New_York]',1769436066404,17000,'completed');
INSERT INTO set_ends VALUES('112a8c2622557e306482d5bc7ac4db7e',2,'2026-01-26T09:02:58.055-05:00[America/New_York]',1769436178055,42000,'completed');
INSERT INTO set_ends VALUES('112a8c2622557e306482d5bc7ac4db7e',3,'2026-01-26T09:04:26.699-05:00[America/New_York]',1769436266699,13723,'grabbed or steadied');
INSERT INTO set_ends VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',1,'2026-01-05T09:00:51.292-05:00[America/New_York]',1767621651292,17000,'completed');
INSERT INTO set_ends VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',2,'2026-01-05T09:02:18.376-05:00[America/New_York]',1767621738376,17000,'completed');
INSERT INTO set_ends VALUES('73580dd4923b03dce365dd94378af6a6',1,'2026-01-19T09:00:45.954-05:00[America/New_York]',1768831245954,17000,'completed');
INSERT INTO set_ends VALUES('73580dd4923b03dce365dd94378af6a6',2,'2026-01-19T09:02:00.083-05:00[America/New_York]',1768831320083,5697,'program closed');
INSERT INTO set_ends VALUES('7b8e3122de068f16ae1bc71b15628ddc',1,'2026-01-21T09:00:28.344-05:00[America/New_York]',1769004028344,4515,'interrupted');
INSERT INTO set_ends VALUES('98c4623e215928a566023db622e99763',1,'2026-01-30T09:00:56.964-05:00[America/New_York]',1769781656964,17000,'completed');
INSERT INTO set_ends VALUES('98c4623e215928a566023db622e99763',3,'2026-01-30T09:02:27.012-05:00[America/New_York]',1769781747012,14286,'fell');
INSERT INTO set_ends VALUES('bba8dde6274c61200dbf7e515e2ac0e9',1,'2026-01-12T09:00:44.379-05:00[America/New_York]',1768226444379,17000,'completed');
INSERT INTO set_ends VALUES('fa94968d435fe40e8bbc4e42a03bafd0',1,'2026-02-04T09:00:55.686-05:00[America/New_York]',1770213655686,17000,'completed');
INSERT INTO set_ends VALUES('fa94968d435fe40e8bbc4e42a03bafd0',2,'2026-02-04T09:02:24.653-05:00[America/New_York]',1770213744653,16761,'fell');
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
INSERT INTO plans VALUES('112a8c2622557e306482d5bc7ac4db7e',1,0,NULL);
INSERT INTO plans VALUES('112a8c2622557e306482d5bc7ac4db7e',2,0,NULL);
INSERT INTO plans VALUES('112a8c2622557e306482d5bc7ac4db7e',3,0,NULL);
INSERT INTO plans VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',1,0,NULL);
INSERT INTO plans VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',1,1,7791);
INSERT INTO plans VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',2,0,NULL);
INSERT INTO plans VALUES('73580dd4923b03dce365dd94378af6a6',1,0,NULL);
INSERT INTO plans VALUES('73580dd4923b03dce365dd94378af6a6',2,0,NULL);
INSERT INTO plans VALUES('7b8e3122de068f16ae1bc71b15628ddc',1,0,NULL);
INSERT INTO plans VALUES('98c4623e215928a566023db622e99763',1,0,NULL);
INSERT INTO plans VALUES('98c4623e215928a566023db622e99763',3,0,NULL);
INSERT INTO plans VALUES('bba8dde6274c61200dbf7e515e2ac0e9',1,0,NULL);
INSERT INTO plans VALUES('fa94968d435fe40e8bbc4e42a03bafd0',1,0,NULL);
INSERT INTO plans VALUES('fa94968d435fe40e8bbc4e42a03bafd0',2,0,NULL);
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
INSERT INTO cues VALUES('112a8c2622557e306482d5bc7ac4db7e',1,0,0,4241,4241,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('112a8c2622557e306482d5bc7ac4db7e',1,0,1,8540,4299,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('112a8c2622557e306482d5bc7ac4db7e',1,0,2,12639,4099,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('112a8c2622557e306482d5bc7ac4db7e',2,0,0,13817,13817,0,'push','forward','tell.practice+tell.push+where.forward+hand.shoulder-blade+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.door+hand.shoulder-blade+strength.1',1);
INSERT INTO cues VALUES('112a8c2622557e306482d5bc7ac4db7e',2,0,1,26097,12280,0,'push','left','tell.practice+tell.push+where.left+hand.right-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.counter+hand.right-hip+strength.1',1);
INSERT INTO cues VALUES('112a8c2622557e306482d5bc7ac4db7e',3,0,0,8130,8130,0,'step','forward','step.forward',NULL,NULL,NULL,'step.forward',0);
INSERT INTO cues VALUES('112a8c2622557e306482d5bc7ac4db7e',3,0,1,17471,9341,0,'step','forward','step.forward',NULL,NULL,NULL,'step.forward',0);
INSERT INTO cues VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',1,0,0,5050,5050,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',1,0,1,10262,5212,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',1,1,0,5050,5050,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',1,1,1,12026,6976,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',2,0,0,4960,4960,0,'reach','forward','reach.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',2,0,1,10893,5933,0,'reach','left','reach.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('73580dd4923b03dce365dd94378af6a6',1,0,0,4261,4261,1,NULL,NULL,NULL,NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('73580dd4923b03dce365dd94378af6a6',1,0,1,9056,4795,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('73580dd4923b03dce365dd94378af6a6',1,0,2,13800,4744,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('73580dd4923b03dce365dd94378af6a6',2,0,0,5676,5676,0,'reach','forward','reach.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('73580dd4923b03dce365dd94378af6a6',2,0,1,11325,5649,0,'reach','forward','reach.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('7b8e3122de068f16ae1bc71b15628ddc',1,0,0,4096,4096,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('7b8e3122de068f16ae1bc71b15628ddc',1,0,1,8176,4080,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('7b8e3122de068f16ae1bc71b15628ddc',1,0,2,12765,4589,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('98c4623e215928a566023db622e99763',1,0,0,5095,5095,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('98c4623e215928a566023db622e99763',1,0,1,10029,4934,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('98c4623e215928a566023db622e99763',3,0,0,9719,9719,0,'step','forward','step.forward',NULL,NULL,NULL,'step.forward',0);
INSERT INTO cues VALUES('98c4623e215928a566023db622e99763',3,0,1,18583,8864,0,'step','left','step.left',NULL,NULL,NULL,'step.left',0);
INSERT INTO cues VALUES('bba8dde6274c61200dbf7e515e2ac0e9',1,0,0,4138,4138,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('bba8dde6274c61200dbf7e515e2ac0e9',1,0,1,9757,5619,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('fa94968d435fe40e8bbc4e42a03bafd0',1,0,0,4196,4196,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('fa94968d435fe40e8bbc4e42a03bafd0',1,0,1,8881,4685,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('fa94968d435fe40e8bbc4e42a03bafd0',2,0,0,12304,12304,0,'push','right','tell.practice+tell.push+where.right+hand.left-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.wall+hand.left-hip+strength.1',1);
INSERT INTO cues VALUES('fa94968d435fe40e8bbc4e42a03bafd0',2,0,1,25120,12816,0,'push','right','tell.practice+tell.push+where.right+hand.left-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.wall+hand.left-hip+strength.1',1);
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
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',11,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',12,1,'held on',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',13,1,'effort',6);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',14,1,'steadiness',2);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',15,1,'unwell',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',19,2,'grabbed hold or nearly fell',1);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',20,2,'unwell',0);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',2,NULL,'ready',1);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',3,NULL,'partner ready',1);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',11,1,'held on',0);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',12,1,'effort',6);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',13,1,'steadiness',2);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',14,1,'unwell',0);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',21,2,'held on',0);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',22,2,'effort',6);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',23,2,'steadiness',2);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',24,2,'unwell',0);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',30,3,'held on',0);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',31,3,'effort',6);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',32,3,'steadiness',2);
INSERT INTO answers VALUES('112a8c2622557e306482d5bc7ac4db7e',33,3,'unwell',0);
INSERT INTO answers VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',2,NULL,'ready',1);
INSERT INTO answers VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',9,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',10,1,'held on',1);
INSERT INTO answers VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',11,1,'effort',NULL);
INSERT INTO answers VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',12,1,'steadiness',2);
INSERT INTO answers VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',13,1,'unwell',0);
INSERT INTO answers VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',18,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',19,2,'held on',0);
INSERT INTO answers VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',20,2,'effort',4);
INSERT INTO answers VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',21,2,'steadiness',2);
INSERT INTO answers VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',22,2,'unwell',0);
INSERT INTO answers VALUES('73580dd4923b03dce365dd94378af6a6',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('73580dd4923b03dce365dd94378af6a6',2,NULL,'ready',1);
INSERT INTO answers VALUES('73580dd4923b03dce365dd94378af6a6',8,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('73580dd4923b03dce365dd94378af6a6',9,1,'held on',0);
INSERT INTO answers VALUES('73580dd4923b03dce365dd94378af6a6',10,1,'effort',6);
INSERT INTO answers VALUES('73580dd4923b03dce365dd94378af6a6',11,1,'steadiness',2);
INSERT INTO answers VALUES('73580dd4923b03dce365dd94378af6a6',12,1,'unwell',0);
INSERT INTO answers VALUES('7b8e3122de068f16ae1bc71b15628ddc',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('7b8e3122de068f16ae1bc71b15628ddc',2,NULL,'ready',1);
INSERT INTO answers VALUES('98c4623e215928a566023db622e99763',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('98c4623e215928a566023db622e99763',2,NULL,'ready',1);
INSERT INTO answers VALUES('98c4623e215928a566023db622e99763',3,NULL,'partner ready',1);
INSERT INTO answers VALUES('98c4623e215928a566023db622e99763',9,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('98c4623e215928a566023db622e99763',10,1,'held on',0);
INSERT INTO answers VALUES('98c4623e215928a566023db622e99763',11,1,'effort',6);
INSERT INTO answers VALUES('98c4623e215928a566023db622e99763',12,1,'steadiness',2);
INSERT INTO answers VALUES('98c4623e215928a566023db622e99763',13,1,'unwell',0);
INSERT INTO answers VALUES('98c4623e215928a566023db622e99763',19,3,'hurt or a knock to the head',0);
INSERT INTO answers VALUES('b1189267442bce64f60db389b6471725',1,NULL,'nothing to see a clinician about',0);
INSERT INTO answers VALUES('bba8dde6274c61200dbf7e515e2ac0e9',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('bba8dde6274c61200dbf7e515e2ac0e9',2,NULL,'ready',1);
INSERT INTO answers VALUES('bba8dde6274c61200dbf7e515e2ac0e9',8,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('bba8dde6274c61200dbf7e515e2ac0e9',9,1,'held on',0);
INSERT INTO answers VALUES('bba8dde6274c61200dbf7e515e2ac0e9',10,1,'effort',6);
INSERT INTO answers VALUES('bba8dde6274c61200dbf7e515e2ac0e9',11,1,'steadiness',2);
INSERT INTO answers VALUES('bba8dde6274c61200dbf7e515e2ac0e9',12,1,'unwell',1);
INSERT INTO answers VALUES('fa94968d435fe40e8bbc4e42a03bafd0',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('fa94968d435fe40e8bbc4e42a03bafd0',2,NULL,'ready',1);
INSERT INTO answers VALUES('fa94968d435fe40e8bbc4e42a03bafd0',3,NULL,'partner ready',1);
INSERT INTO answers VALUES('fa94968d435fe40e8bbc4e42a03bafd0',9,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('fa94968d435fe40e8bbc4e42a03bafd0',10,1,'held on',0);
INSERT INTO answers VALUES('fa94968d435fe40e8bbc4e42a03bafd0',11,1,'effort',6);
INSERT INTO answers VALUES('fa94968d435fe40e8bbc4e42a03bafd0',12,1,'steadiness',2);
INSERT INTO answers VALUES('fa94968d435fe40e8bbc4e42a03bafd0',13,1,'unwell',0);
CREATE TABLE changes (
    at     TEXT    NOT NULL,
    at_ms  INTEGER NOT NULL,
    what   TEXT    NOT NULL,
    digest TEXT    NOT NULL,
    PRIMARY KEY (at_ms, what, digest)
) STRICT, WITHOUT ROWID;
INSERT INTO changes VALUES('2026-01-05T08:50:00.226-05:00[America/New_York]',1767621000226,'prescription in use: alone.toml','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42');
INSERT INTO changes VALUES('2026-01-25T08:50:00.345-05:00[America/New_York]',1769349000345,'prescription in use: partner.toml','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db');
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
INSERT INTO disturbances VALUES('0b4a9c215ed033871bf6026de89570bc',7,1,8800,'stuttered');
INSERT INTO disturbances VALUES('0b4a9c215ed033871bf6026de89570bc',9,1,13000,'moved to another output');
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
INSERT INTO deliveries VALUES('112a8c2622557e306482d5bc7ac4db7e',1,0,NULL,NULL,NULL,NULL,4902,NULL);
INSERT INTO deliveries VALUES('112a8c2622557e306482d5bc7ac4db7e',1,1,NULL,NULL,NULL,NULL,8572,NULL);
INSERT INTO deliveries VALUES('112a8c2622557e306482d5bc7ac4db7e',1,2,NULL,NULL,NULL,NULL,12677,NULL);
INSERT INTO deliveries VALUES('112a8c2622557e306482d5bc7ac4db7e',2,0,NULL,NULL,NULL,NULL,NULL,14007);
INSERT INTO deliveries VALUES('112a8c2622557e306482d5bc7ac4db7e',2,1,NULL,NULL,NULL,NULL,NULL,26165);
INSERT INTO deliveries VALUES('112a8c2622557e306482d5bc7ac4db7e',3,0,NULL,NULL,NULL,NULL,NULL,8142);
INSERT INTO deliveries VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',1,0,NULL,NULL,NULL,NULL,5050,NULL);
INSERT INTO deliveries VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',1,1,NULL,NULL,NULL,NULL,12045,NULL);
INSERT INTO deliveries VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',2,0,NULL,NULL,NULL,NULL,4979,NULL);
INSERT INTO deliveries VALUES('18b74552fee8e9a570b84cb8ec4d7fb4',2,1,NULL,NULL,NULL,NULL,10906,NULL);
INSERT INTO deliveries VALUES('73580dd4923b03dce365dd94378af6a6',1,1,NULL,NULL,NULL,NULL,9061,NULL);
INSERT INTO deliveries VALUES('73580dd4923b03dce365dd94378af6a6',1,2,NULL,NULL,NULL,NULL,13975,NULL);
INSERT INTO deliveries VALUES('73580dd4923b03dce365dd94378af6a6',2,0,NULL,NULL,NULL,NULL,5687,NULL);
INSERT INTO deliveries VALUES('7b8e3122de068f16ae1bc71b15628ddc',1,0,NULL,NULL,NULL,NULL,4515,NULL);
INSERT INTO deliveries VALUES('98c4623e215928a566023db622e99763',1,0,NULL,NULL,NULL,NULL,5338,NULL);
INSERT INTO deliveries VALUES('98c4623e215928a566023db622e99763',1,1,NULL,NULL,NULL,NULL,10043,NULL);
INSERT INTO deliveries VALUES('98c4623e215928a566023db622e99763',3,0,NULL,NULL,NULL,NULL,NULL,9990);
INSERT INTO deliveries VALUES('bba8dde6274c61200dbf7e515e2ac0e9',1,0,NULL,NULL,NULL,NULL,4189,NULL);
INSERT INTO deliveries VALUES('bba8dde6274c61200dbf7e515e2ac0e9',1,1,NULL,NULL,NULL,NULL,9796,NULL);
INSERT INTO deliveries VALUES('fa94968d435fe40e8bbc4e42a03bafd0',1,0,NULL,NULL,NULL,NULL,4197,NULL);
INSERT INTO deliveries VALUES('fa94968d435fe40e8bbc4e42a03bafd0',1,1,NULL,NULL,NULL,NULL,8892,NULL);
INSERT INTO deliveries VALUES('fa94968d435fe40e8bbc4e42a03bafd0',2,0,NULL,NULL,NULL,NULL,NULL,12347);
CREATE TABLE responses (
    session    TEXT    NOT NULL,
    set_number INTEGER NOT NULL,
    cue        INTEGER NOT NULL,
    response   TEXT,                           -- NULL: not noted, which is never fine
    PRIMARY KEY (session, set_number, cue),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;
INSERT INTO responses VALUES('112a8c2622557e306482d5bc7ac4db7e',2,0,'one step');
INSERT INTO responses VALUES('112a8c2622557e306482d5bc7ac4db7e',2,1,NULL);
INSERT INTO responses VALUES('fa94968d435fe40e8bbc4e42a03bafd0',2,0,'fell');
CREATE TABLE mishaps (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,               -- orders them, as it does the answers
    set_number INTEGER NOT NULL,               -- may not have begun
    at_ms      INTEGER NOT NULL,               -- work done
    what       TEXT    NOT NULL,
    cue        INTEGER,                        -- the push that it followed
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO mishaps VALUES('112a8c2622557e306482d5bc7ac4db7e',27,3,13723,'grabbed or steadied',NULL);
INSERT INTO mishaps VALUES('98c4623e215928a566023db622e99763',17,3,14286,'fell',NULL);
INSERT INTO mishaps VALUES('fa94968d435fe40e8bbc4e42a03bafd0',16,2,16761,'fell',0);
CREATE TABLE left_out (
    session    TEXT    NOT NULL REFERENCES sessions,
    set_number INTEGER NOT NULL,
    at         TEXT    NOT NULL,
    at_ms      INTEGER NOT NULL,
    why        TEXT    NOT NULL,
    PRIMARY KEY (session, set_number)
) STRICT, WITHOUT ROWID;
INSERT INTO left_out VALUES('98c4623e215928a566023db622e99763',2,'2026-01-30T09:02:00.429-05:00[America/New_York]',1769781720429,'refused');
CREATE TABLE advice (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,
    set_number INTEGER NOT NULL,               -- after this set
    advice     TEXT    NOT NULL,
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO advice VALUES('112a8c2622557e306482d5bc7ac4db7e',29,3,'one step lower');
CREATE TABLE routines (
    session TEXT    NOT NULL REFERENCES sessions,
    part    TEXT    NOT NULL,
    at      TEXT    NOT NULL,
    at_ms   INTEGER NOT NULL,
    how     TEXT    NOT NULL,
    PRIMARY KEY (session, part)
) STRICT, WITHOUT ROWID;
INSERT INTO routines VALUES('0b4a9c215ed033871bf6026de89570bc','warm-up','2026-01-07T09:00:10.4-05:00[America/New_York]',1767794410400,'skipped');
INSERT INTO routines VALUES('112a8c2622557e306482d5bc7ac4db7e','cool-down','2026-01-26T09:04:40.866-05:00[America/New_York]',1769436280866,'skipped');
INSERT INTO routines VALUES('112a8c2622557e306482d5bc7ac4db7e','warm-up','2026-01-26T09:00:41.821-05:00[America/New_York]',1769436041821,'skipped');
INSERT INTO routines VALUES('18b74552fee8e9a570b84cb8ec4d7fb4','cool-down','2026-01-05T09:02:34.279-05:00[America/New_York]',1767621754279,'skipped');
INSERT INTO routines VALUES('18b74552fee8e9a570b84cb8ec4d7fb4','warm-up','2026-01-05T09:00:19.307-05:00[America/New_York]',1767621619307,'skipped');
INSERT INTO routines VALUES('73580dd4923b03dce365dd94378af6a6','warm-up','2026-01-19T09:00:20.226-05:00[America/New_York]',1768831220226,'skipped');
INSERT INTO routines VALUES('7b8e3122de068f16ae1bc71b15628ddc','warm-up','2026-01-21T09:00:21.107-05:00[America/New_York]',1769004021107,'skipped');
INSERT INTO routines VALUES('98c4623e215928a566023db622e99763','warm-up','2026-01-30T09:00:32.516-05:00[America/New_York]',1769781632516,'skipped');
INSERT INTO routines VALUES('bba8dde6274c61200dbf7e515e2ac0e9','warm-up','2026-01-12T09:00:19.712-05:00[America/New_York]',1768226419712,'skipped');
INSERT INTO routines VALUES('fa94968d435fe40e8bbc4e42a03bafd0','warm-up','2026-02-04T09:00:30.197-05:00[America/New_York]',1770213630197,'skipped');
CREATE TABLE courses (
    session TEXT    NOT NULL REFERENCES sessions,
    nth     INTEGER NOT NULL,                  -- from 0
    patch   TEXT    NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;
CREATE INDEX sessions_by_time ON sessions (begun_ms);
COMMIT;
PRAGMA application_id=1131368559;
PRAGMA user_version=3;
