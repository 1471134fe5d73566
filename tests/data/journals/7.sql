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
INSERT INTO sessions VALUES('c23640009ef432529216710c31a7baee','2026-01-05T09:00:07.005-05:00[America/New_York]',1767621607005,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','176c4586f63d4d9e3e7457aa1b62335576983881577dfac58bc67886757635c9',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('0b4a9c215ed033871bf6026de89570bc','2026-01-07T09:00:02.6-05:00[America/New_York]',1767794402600,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b',1,1,'higher','ALSA: default',2);
INSERT INTO sessions VALUES('014284f2a06fa226a3fcea1fabac3c3a','2026-01-12T09:00:05.798-05:00[America/New_York]',1768226405798,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','aca6a06461d6a0d7d1ca608b0c581ceb75377bb79cae5c4460b62c8b893d64dd',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('66d0030ab6dfdc40b11a337f708410ab','2026-01-16T09:00:05.968-05:00[America/New_York]',1768572005968,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','d9cd2b6d58737ad1f6446f7bc5a33b9e681b5a5e11f6c4a38e44ff1f9047d797',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0','2026-01-19T09:00:07.661-05:00[America/New_York]',1768831207661,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','abababababababababababababababababababababababababababababababab',1,1,'lower',NULL,2);
INSERT INTO sessions VALUES('7e2c4acf3e5e215754765f6708ab6f89','2026-01-19T09:30:06.502-05:00[America/New_York]',1768833006502,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','aa9c035d61e23e771bd081c33798e08df74a8018706d7a1f8eeaa60b13c39b28',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('d1a5a4854ca4932ee7b9573c737f3297','2026-01-21T09:00:05.491-05:00[America/New_York]',1769004005491,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','84eb5d9eb995be0022cdd245347abe9f99b5ec2bd29a165f8377d1d8696330e3',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('96d583a7e2dc1aa6c70a785f39c8be5b','2026-01-23T23:59:59.999-05:00[America/New_York]',1769230799999,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','0000000000000000000000000000000000000000000000000000000000000000',0,1,'typed in by hand',NULL,2);
INSERT INTO sessions VALUES('898fedb1dca726f0d497d0119a3dc9a5','2026-01-26T09:00:08.678-05:00[America/New_York]',1769436008678,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','bda9142500463aa7b62a49d2eb448398089acc3774c2c63ebbae57aa7ed9cc4e',0,1,'lower',NULL,3);
INSERT INTO sessions VALUES('2667de18ab97b10954c033c74c68e4d6','2026-01-30T09:00:08.537-05:00[America/New_York]',1769781608537,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','0df90513a50098c0adcf016e5fd395763f658b8ea067b17e27b457f192c2e165',0,1,'lower',NULL,3);
INSERT INTO sessions VALUES('01fa1a349d1ea060e95e75b4c6037320','2026-02-02T15:00:18.742-05:00[America/New_York]',1770062418742,'Try-out: Reaches at the counter','sha256:8cf84548e4b0651e41833df5d3d25b06ce4c858cfc361b1d76e36df106d93cdc','0756bb7099358e4bed09285f5c967cfcef567cae86671892e30908b442b376e9',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('742a14856b3d1f268eafb904ccbe5613','2026-02-04T09:00:10.937-05:00[America/New_York]',1770213610937,'Pushes and steps with R.','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db','d57e5a29f0d2399f7fa210b160753d4fa1d74c0fa9366c17f69a8385800d04f6',0,1,'lower',NULL,3);
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
INSERT INTO session_ends VALUES('c23640009ef432529216710c31a7baee','2026-01-05T09:02:30.229-05:00[America/New_York]',1767621750229,'finished',2,2,0,4,34000,0,1,4,2,0,1,0,0,0,0,0);
INSERT INTO session_ends VALUES('0b4a9c215ed033871bf6026de89570bc','2026-01-07T09:01:47.9-05:00[America/New_York]',1767794507900,'grabbed hold or nearly fell',1,2,3,0,25000,1,0,6,2,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('014284f2a06fa226a3fcea1fabac3c3a','2026-01-12T09:01:01.139-05:00[America/New_York]',1768226461139,'felt unwell',1,2,0,3,17000,0,0,6,2,1,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('66d0030ab6dfdc40b11a337f708410ab','2026-01-16T09:00:34.745-05:00[America/New_York]',1768572034745,'not today',0,2,0,0,0,NULL,NULL,NULL,NULL,NULL,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0','2026-01-19T09:01:16.495-05:00[America/New_York]',1768831276495,'program closed',1,2,0,2,17000,0,0,6,2,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('7e2c4acf3e5e215754765f6708ab6f89','2026-01-19T09:31:01.702-05:00[America/New_York]',1768833061702,'finished',1,2,0,2,17000,0,0,6,2,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('d1a5a4854ca4932ee7b9573c737f3297','2026-01-21T09:00:20.732-05:00[America/New_York]',1769004020732,'interrupted',0,2,0,1,5391,NULL,NULL,NULL,NULL,NULL,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('96d583a7e2dc1aa6c70a785f39c8be5b','2026-01-23T23:59:59.999-05:00[America/New_York]',1769230799999,'stopped for another reason',1,2,0,0,17000,0,1,6,3,0,0,0,0,0,0,0);
INSERT INTO session_ends VALUES('898fedb1dca726f0d497d0119a3dc9a5','2026-01-26T09:04:40.678-05:00[America/New_York]',1769436280678,'finished',2,3,0,3,72068,0,0,6,2,0,0,3,1,0,1,1);
INSERT INTO session_ends VALUES('2667de18ab97b10954c033c74c68e4d6','2026-01-30T09:02:22.309-05:00[America/New_York]',1769781742309,'fell',1,3,0,2,30074,0,0,6,2,0,0,1,0,1,0,0);
INSERT INTO session_ends VALUES('01fa1a349d1ea060e95e75b4c6037320','2026-02-02T15:01:10.584-05:00[America/New_York]',1770062470584,'finished',1,2,0,2,17000,0,0,6,2,0,0,0,0,0,0,0);
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
INSERT INTO sets VALUES('014284f2a06fa226a3fcea1fabac3c3a',1,'2026-01-12T09:00:24.352-05:00[America/New_York]',1768226424352,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('01fa1a349d1ea060e95e75b4c6037320',2,'2026-02-02T15:00:31.506-05:00[America/New_York]',1770062431506,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('0b4a9c215ed033871bf6026de89570bc',1,'2026-01-07T09:00:11.7-05:00[America/New_York]',1767794411700,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('0b4a9c215ed033871bf6026de89570bc',2,'2026-01-07T09:01:30.8-05:00[America/New_York]',1767794490800,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('2667de18ab97b10954c033c74c68e4d6',1,'2026-01-30T09:00:28.298-05:00[America/New_York]',1769781628298,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('2667de18ab97b10954c033c74c68e4d6',3,'2026-01-30T09:01:58.058-05:00[America/New_York]',1769781718058,'quick-steps','partner',1,'feet apart',NULL,'firm','one hand','open',26000,5000,45000,'partner''s screen','counter ahead',NULL);
INSERT INTO sets VALUES('742a14856b3d1f268eafb904ccbe5613',1,'2026-02-04T09:00:38.731-05:00[America/New_York]',1770213638731,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('742a14856b3d1f268eafb904ccbe5613',2,'2026-02-04T09:02:05.247-05:00[America/New_York]',1770213725247,'pushes','partner',1,'feet apart',NULL,'firm','one hand','open',42000,5000,45000,'partner''s screen','counter at the left',NULL);
INSERT INTO sets VALUES('7e2c4acf3e5e215754765f6708ab6f89',2,'2026-01-19T09:30:17.936-05:00[America/New_York]',1768833017936,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('898fedb1dca726f0d497d0119a3dc9a5',1,'2026-01-26T09:00:45.519-05:00[America/New_York]',1769436045519,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('898fedb1dca726f0d497d0119a3dc9a5',2,'2026-01-26T09:02:10.759-05:00[America/New_York]',1769436130759,'pushes','partner',1,'feet apart',NULL,'firm','one hand','open',42000,5000,45000,'partner''s screen','counter at the left',NULL);
INSERT INTO sets VALUES('898fedb1dca726f0d497d0119a3dc9a5',3,'2026-01-26T09:04:05.792-05:00[America/New_York]',1769436245792,'quick-steps','partner',1,'feet apart',NULL,'firm','one hand','open',26000,5000,45000,'partner''s screen','counter ahead',NULL);
INSERT INTO sets VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',1,'2026-01-23T23:59:59.999-05:00[America/New_York]',1769230799999,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',2,'2026-01-23T23:59:59.999-05:00[America/New_York]',1769230799999,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('c23640009ef432529216710c31a7baee',1,'2026-01-05T09:00:17.293-05:00[America/New_York]',1767621617293,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('c23640009ef432529216710c31a7baee',2,'2026-01-05T09:01:51.449-05:00[America/New_York]',1767621711449,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',1,'2026-01-19T09:00:24.9-05:00[America/New_York]',1768831224900,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
INSERT INTO sets VALUES('d1a5a4854ca4932ee7b9573c737f3297',1,'2026-01-21T09:00:15.341-05:00[America/New_York]',1769004015341,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000,'trainee','counter ahead',NULL);
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
INSERT INTO set_ends VALUES('014284f2a06fa226a3fcea1fabac3c3a',1,'2026-01-12T09:00:46.424-05:00[America/New_York]',1768226446424,17000,'completed');
INSERT INTO set_ends VALUES('01fa1a349d1ea060e95e75b4c6037320',2,'2026-02-02T15:00:53.624-05:00[America/New_York]',1770062453624,17000,'completed');
INSERT INTO set_ends VALUES('0b4a9c215ed033871bf6026de89570bc',1,'2026-01-07T09:00:33.7-05:00[America/New_York]',1767794433700,17000,'completed');
INSERT INTO set_ends VALUES('0b4a9c215ed033871bf6026de89570bc',2,'2026-01-07T09:01:43.8-05:00[America/New_York]',1767794503800,8000,'sound lost');
INSERT INTO set_ends VALUES('2667de18ab97b10954c033c74c68e4d6',1,'2026-01-30T09:00:50.372-05:00[America/New_York]',1769781650372,17000,'completed');
INSERT INTO set_ends VALUES('2667de18ab97b10954c033c74c68e4d6',3,'2026-01-30T09:02:18.547-05:00[America/New_York]',1769781738547,13074,'fell');
INSERT INTO set_ends VALUES('742a14856b3d1f268eafb904ccbe5613',1,'2026-02-04T09:01:00.738-05:00[America/New_York]',1770213660738,17000,'completed');
INSERT INTO set_ends VALUES('742a14856b3d1f268eafb904ccbe5613',2,'2026-02-04T09:02:31-05:00[America/New_York]',1770213751000,18331,'fell');
INSERT INTO set_ends VALUES('7e2c4acf3e5e215754765f6708ab6f89',2,'2026-01-19T09:30:40.096-05:00[America/New_York]',1768833040096,17000,'completed');
INSERT INTO set_ends VALUES('898fedb1dca726f0d497d0119a3dc9a5',1,'2026-01-26T09:01:07.554-05:00[America/New_York]',1769436067554,17000,'completed');
INSERT INTO set_ends VALUES('898fedb1dca726f0d497d0119a3dc9a5',2,'2026-01-26T09:02:57.77-05:00[America/New_York]',1769436177770,42000,'completed');
INSERT INTO set_ends VALUES('898fedb1dca726f0d497d0119a3dc9a5',3,'2026-01-26T09:04:26.437-05:00[America/New_York]',1769436266437,13068,'grabbed or steadied');
INSERT INTO set_ends VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',1,'2026-01-23T23:59:59.999-05:00[America/New_York]',1769230799999,17000,'completed');
INSERT INTO set_ends VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',2,'2026-01-23T23:59:59.999-05:00[America/New_York]',1769230799999,0,'stopped');
INSERT INTO set_ends VALUES('c23640009ef432529216710c31a7baee',1,'2026-01-05T09:00:46.815-05:00[America/New_York]',1767621646815,17000,'completed');
INSERT INTO set_ends VALUES('c23640009ef432529216710c31a7baee',2,'2026-01-05T09:02:13.454-05:00[America/New_York]',1767621733454,17000,'completed');
INSERT INTO set_ends VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',1,'2026-01-19T09:00:47.373-05:00[America/New_York]',1768831247373,17000,'completed');
INSERT INTO set_ends VALUES('d1a5a4854ca4932ee7b9573c737f3297',1,'2026-01-21T09:00:20.732-05:00[America/New_York]',1769004020732,5391,'interrupted');
CREATE TABLE plans (
    session      TEXT    NOT NULL,
    set_number   INTEGER NOT NULL,
    plan         INTEGER NOT NULL,
    paused_at_ms INTEGER,                      -- work done when the pause began; NULL for plan 0
    PRIMARY KEY (session, set_number, plan),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;
INSERT INTO plans VALUES('014284f2a06fa226a3fcea1fabac3c3a',1,0,NULL);
INSERT INTO plans VALUES('01fa1a349d1ea060e95e75b4c6037320',2,0,NULL);
INSERT INTO plans VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,NULL);
INSERT INTO plans VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,NULL);
INSERT INTO plans VALUES('2667de18ab97b10954c033c74c68e4d6',1,0,NULL);
INSERT INTO plans VALUES('2667de18ab97b10954c033c74c68e4d6',3,0,NULL);
INSERT INTO plans VALUES('742a14856b3d1f268eafb904ccbe5613',1,0,NULL);
INSERT INTO plans VALUES('742a14856b3d1f268eafb904ccbe5613',2,0,NULL);
INSERT INTO plans VALUES('7e2c4acf3e5e215754765f6708ab6f89',2,0,NULL);
INSERT INTO plans VALUES('898fedb1dca726f0d497d0119a3dc9a5',1,0,NULL);
INSERT INTO plans VALUES('898fedb1dca726f0d497d0119a3dc9a5',2,0,NULL);
INSERT INTO plans VALUES('898fedb1dca726f0d497d0119a3dc9a5',3,0,NULL);
INSERT INTO plans VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',1,0,NULL);
INSERT INTO plans VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',2,0,NULL);
INSERT INTO plans VALUES('c23640009ef432529216710c31a7baee',1,0,NULL);
INSERT INTO plans VALUES('c23640009ef432529216710c31a7baee',1,1,6741);
INSERT INTO plans VALUES('c23640009ef432529216710c31a7baee',2,0,NULL);
INSERT INTO plans VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',1,0,NULL);
INSERT INTO plans VALUES('d1a5a4854ca4932ee7b9573c737f3297',1,0,NULL);
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
INSERT INTO cues VALUES('014284f2a06fa226a3fcea1fabac3c3a',1,0,0,4266,4266,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('014284f2a06fa226a3fcea1fabac3c3a',1,0,1,8949,4683,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('014284f2a06fa226a3fcea1fabac3c3a',1,0,2,13905,4956,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('01fa1a349d1ea060e95e75b4c6037320',2,0,0,4180,4180,0,'reach','back','reach.back',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('01fa1a349d1ea060e95e75b4c6037320',2,0,1,9003,4823,0,'reach','back','reach.back',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,0,4020,4020,1,NULL,NULL,NULL,NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,1,8083,4063,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,2,12284,4201,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,0,5413,5413,0,'reach','left','reach.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,1,9693,4280,0,'reach','right','reach.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('2667de18ab97b10954c033c74c68e4d6',1,0,0,4405,4405,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('2667de18ab97b10954c033c74c68e4d6',1,0,1,8574,4169,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('2667de18ab97b10954c033c74c68e4d6',3,0,0,8206,8206,0,'step','left','step.left',NULL,NULL,NULL,'step.left',0);
INSERT INTO cues VALUES('2667de18ab97b10954c033c74c68e4d6',3,0,1,16565,8359,0,'step','right','step.right',NULL,NULL,NULL,'step.right',0);
INSERT INTO cues VALUES('742a14856b3d1f268eafb904ccbe5613',1,0,0,4458,4458,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('742a14856b3d1f268eafb904ccbe5613',1,0,1,10241,5783,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('742a14856b3d1f268eafb904ccbe5613',2,0,0,13829,13829,0,'push','left','tell.practice+tell.push+where.left+hand.right-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.counter+hand.right-hip+strength.1',1);
INSERT INTO cues VALUES('742a14856b3d1f268eafb904ccbe5613',2,0,1,27286,13457,0,'push','forward','tell.practice+tell.push+where.forward+hand.shoulder-blade+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.door+hand.shoulder-blade+strength.1',1);
INSERT INTO cues VALUES('7e2c4acf3e5e215754765f6708ab6f89',2,0,0,4123,4123,0,'reach','left','reach.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('7e2c4acf3e5e215754765f6708ab6f89',2,0,1,9261,5138,0,'reach','forward','reach.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('898fedb1dca726f0d497d0119a3dc9a5',1,0,0,4034,4034,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('898fedb1dca726f0d497d0119a3dc9a5',1,0,1,8681,4647,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('898fedb1dca726f0d497d0119a3dc9a5',1,0,2,13848,5167,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('898fedb1dca726f0d497d0119a3dc9a5',2,0,0,12280,12280,0,'push','right','tell.practice+tell.push+where.right+hand.left-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.wall+hand.left-hip+strength.1',1);
INSERT INTO cues VALUES('898fedb1dca726f0d497d0119a3dc9a5',2,0,1,25143,12863,0,'push','left','tell.practice+tell.push+where.left+hand.right-hip+strength.1',NULL,1,NULL,'tell.practice+tell.push+toward.counter+hand.right-hip+strength.1',1);
INSERT INTO cues VALUES('898fedb1dca726f0d497d0119a3dc9a5',3,0,0,8647,8647,0,'step','right','step.right',NULL,NULL,NULL,'step.right',0);
INSERT INTO cues VALUES('898fedb1dca726f0d497d0119a3dc9a5',3,0,1,16994,8347,0,'step','right','step.right',NULL,NULL,NULL,'step.right',0);
INSERT INTO cues VALUES('c23640009ef432529216710c31a7baee',1,0,0,4290,4290,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('c23640009ef432529216710c31a7baee',1,0,1,8735,4445,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('c23640009ef432529216710c31a7baee',1,0,2,13254,4519,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('c23640009ef432529216710c31a7baee',1,1,0,4290,4290,0,'shift','left','lean.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('c23640009ef432529216710c31a7baee',1,1,1,12014,7724,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('c23640009ef432529216710c31a7baee',2,0,0,4873,4873,0,'reach','left','reach.left',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('c23640009ef432529216710c31a7baee',2,0,1,9127,4254,1,NULL,NULL,NULL,NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('c23640009ef432529216710c31a7baee',2,0,2,13279,4152,0,'reach','right','reach.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',1,0,0,4261,4261,1,NULL,NULL,NULL,NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',1,0,1,9056,4795,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',1,0,2,13800,4744,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('d1a5a4854ca4932ee7b9573c737f3297',1,0,0,5193,5193,0,'shift','forward','lean.forward',NULL,NULL,NULL,NULL,0);
INSERT INTO cues VALUES('d1a5a4854ca4932ee7b9573c737f3297',1,0,1,9805,4612,0,'shift','right','lean.right',NULL,NULL,NULL,NULL,0);
CREATE TABLE answers (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,               -- orders the answers of a session
    set_number INTEGER,                        -- NULL: before the first set
    question   TEXT    NOT NULL,
    answer     INTEGER,                        -- NULL: not said
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO answers VALUES('014284f2a06fa226a3fcea1fabac3c3a',3,NULL,'ready',1);
INSERT INTO answers VALUES('014284f2a06fa226a3fcea1fabac3c3a',4,NULL,'nearly fell in daily life',0);
INSERT INTO answers VALUES('014284f2a06fa226a3fcea1fabac3c3a',5,NULL,'confidence',4);
INSERT INTO answers VALUES('014284f2a06fa226a3fcea1fabac3c3a',6,NULL,'soreness',1);
INSERT INTO answers VALUES('014284f2a06fa226a3fcea1fabac3c3a',13,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('014284f2a06fa226a3fcea1fabac3c3a',14,1,'held on',0);
INSERT INTO answers VALUES('014284f2a06fa226a3fcea1fabac3c3a',15,1,'effort',6);
INSERT INTO answers VALUES('014284f2a06fa226a3fcea1fabac3c3a',16,1,'steadiness',2);
INSERT INTO answers VALUES('014284f2a06fa226a3fcea1fabac3c3a',17,1,'unwell',1);
INSERT INTO answers VALUES('014284f2a06fa226a3fcea1fabac3c3a',18,1,'what felt wrong',1);
INSERT INTO answers VALUES('01fa1a349d1ea060e95e75b4c6037320',3,NULL,'ready',1);
INSERT INTO answers VALUES('01fa1a349d1ea060e95e75b4c6037320',4,NULL,'in place',1);
INSERT INTO answers VALUES('01fa1a349d1ea060e95e75b4c6037320',10,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('01fa1a349d1ea060e95e75b4c6037320',11,2,'held on',0);
INSERT INTO answers VALUES('01fa1a349d1ea060e95e75b4c6037320',12,2,'effort',6);
INSERT INTO answers VALUES('01fa1a349d1ea060e95e75b4c6037320',13,2,'steadiness',2);
INSERT INTO answers VALUES('01fa1a349d1ea060e95e75b4c6037320',14,2,'unwell',0);
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
INSERT INTO answers VALUES('2667de18ab97b10954c033c74c68e4d6',3,NULL,'ready',1);
INSERT INTO answers VALUES('2667de18ab97b10954c033c74c68e4d6',4,NULL,'partner ready',1);
INSERT INTO answers VALUES('2667de18ab97b10954c033c74c68e4d6',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('2667de18ab97b10954c033c74c68e4d6',11,1,'held on',0);
INSERT INTO answers VALUES('2667de18ab97b10954c033c74c68e4d6',12,1,'effort',6);
INSERT INTO answers VALUES('2667de18ab97b10954c033c74c68e4d6',13,1,'steadiness',2);
INSERT INTO answers VALUES('2667de18ab97b10954c033c74c68e4d6',14,1,'unwell',0);
INSERT INTO answers VALUES('2667de18ab97b10954c033c74c68e4d6',20,3,'hurt or a knock to the head',0);
INSERT INTO answers VALUES('66d0030ab6dfdc40b11a337f708410ab',3,NULL,'ready',0);
INSERT INTO answers VALUES('742a14856b3d1f268eafb904ccbe5613',3,NULL,'ready',1);
INSERT INTO answers VALUES('742a14856b3d1f268eafb904ccbe5613',4,NULL,'nearly fell in daily life',0);
INSERT INTO answers VALUES('742a14856b3d1f268eafb904ccbe5613',5,NULL,'confidence',4);
INSERT INTO answers VALUES('742a14856b3d1f268eafb904ccbe5613',6,NULL,'soreness',1);
INSERT INTO answers VALUES('742a14856b3d1f268eafb904ccbe5613',7,NULL,'partner ready',1);
INSERT INTO answers VALUES('742a14856b3d1f268eafb904ccbe5613',13,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('742a14856b3d1f268eafb904ccbe5613',14,1,'held on',0);
INSERT INTO answers VALUES('742a14856b3d1f268eafb904ccbe5613',15,1,'effort',6);
INSERT INTO answers VALUES('742a14856b3d1f268eafb904ccbe5613',16,1,'steadiness',2);
INSERT INTO answers VALUES('742a14856b3d1f268eafb904ccbe5613',17,1,'unwell',0);
INSERT INTO answers VALUES('7e2c4acf3e5e215754765f6708ab6f89',3,NULL,'ready',1);
INSERT INTO answers VALUES('7e2c4acf3e5e215754765f6708ab6f89',9,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('7e2c4acf3e5e215754765f6708ab6f89',10,2,'held on',0);
INSERT INTO answers VALUES('7e2c4acf3e5e215754765f6708ab6f89',11,2,'effort',6);
INSERT INTO answers VALUES('7e2c4acf3e5e215754765f6708ab6f89',12,2,'steadiness',2);
INSERT INTO answers VALUES('7e2c4acf3e5e215754765f6708ab6f89',13,2,'unwell',0);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',3,NULL,'ready',1);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',4,NULL,'nearly fell in daily life',0);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',5,NULL,'confidence',4);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',6,NULL,'soreness',1);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',7,NULL,'partner ready',1);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',14,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',15,1,'held on',0);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',16,1,'effort',6);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',17,1,'steadiness',2);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',18,1,'unwell',0);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',25,2,'held on',0);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',26,2,'effort',6);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',27,2,'steadiness',2);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',28,2,'unwell',0);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',34,3,'held on',0);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',35,3,'effort',6);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',36,3,'steadiness',2);
INSERT INTO answers VALUES('898fedb1dca726f0d497d0119a3dc9a5',37,3,'unwell',0);
INSERT INTO answers VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',0,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',1,1,'held on',0);
INSERT INTO answers VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',2,1,'effort',4);
INSERT INTO answers VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',3,1,'steadiness',2);
INSERT INTO answers VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',4,1,'unwell',0);
INSERT INTO answers VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',5,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',6,2,'held on',1);
INSERT INTO answers VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',7,2,'effort',6);
INSERT INTO answers VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',8,2,'steadiness',3);
INSERT INTO answers VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',9,2,'unwell',0);
INSERT INTO answers VALUES('c23640009ef432529216710c31a7baee',3,NULL,'ready',1);
INSERT INTO answers VALUES('c23640009ef432529216710c31a7baee',10,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('c23640009ef432529216710c31a7baee',11,1,'held on',1);
INSERT INTO answers VALUES('c23640009ef432529216710c31a7baee',12,1,'effort',NULL);
INSERT INTO answers VALUES('c23640009ef432529216710c31a7baee',13,1,'steadiness',2);
INSERT INTO answers VALUES('c23640009ef432529216710c31a7baee',14,1,'unwell',0);
INSERT INTO answers VALUES('c23640009ef432529216710c31a7baee',19,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('c23640009ef432529216710c31a7baee',20,2,'held on',0);
INSERT INTO answers VALUES('c23640009ef432529216710c31a7baee',21,2,'effort',4);
INSERT INTO answers VALUES('c23640009ef432529216710c31a7baee',22,2,'steadiness',2);
INSERT INTO answers VALUES('c23640009ef432529216710c31a7baee',23,2,'unwell',0);
INSERT INTO answers VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',3,NULL,'ready',1);
INSERT INTO answers VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',4,NULL,'nearly fell in daily life',0);
INSERT INTO answers VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',5,NULL,'confidence',4);
INSERT INTO answers VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',6,NULL,'soreness',1);
INSERT INTO answers VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',12,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',13,1,'held on',0);
INSERT INTO answers VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',14,1,'effort',6);
INSERT INTO answers VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',15,1,'steadiness',2);
INSERT INTO answers VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',16,1,'unwell',0);
INSERT INTO answers VALUES('d1a5a4854ca4932ee7b9573c737f3297',3,NULL,'ready',1);
CREATE TABLE changes (
    at     TEXT    NOT NULL,
    at_ms  INTEGER NOT NULL,
    what   TEXT    NOT NULL,
    digest TEXT    NOT NULL,
    PRIMARY KEY (at_ms, what, digest)
) STRICT, WITHOUT ROWID;
INSERT INTO changes VALUES('2026-01-05T08:50:00.124-05:00[America/New_York]',1767621000124,'prescription in use: alone.toml','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42');
INSERT INTO changes VALUES('2026-01-25T08:50:00.051-05:00[America/New_York]',1769349000051,'prescription in use: partner.toml','sha256:ffb701b63112cf9ffccd645edd97c4037ef29a19b28813d4c49257e44a7476db');
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
INSERT INTO deliveries VALUES('014284f2a06fa226a3fcea1fabac3c3a',1,0,NULL,NULL,NULL,NULL,4363,NULL);
INSERT INTO deliveries VALUES('014284f2a06fa226a3fcea1fabac3c3a',1,1,NULL,NULL,NULL,NULL,8996,NULL);
INSERT INTO deliveries VALUES('014284f2a06fa226a3fcea1fabac3c3a',1,2,NULL,NULL,NULL,NULL,13923,NULL);
INSERT INTO deliveries VALUES('01fa1a349d1ea060e95e75b4c6037320',2,0,NULL,NULL,NULL,NULL,4200,NULL);
INSERT INTO deliveries VALUES('01fa1a349d1ea060e95e75b4c6037320',2,1,NULL,NULL,NULL,NULL,9021,NULL);
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',1,1,387984,387984,48000,8083,NULL,NULL);
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',1,2,589632,589639,48000,12284,NULL,NULL);
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,259824,259824,48000,5413,NULL,NULL);
INSERT INTO deliveries VALUES('2667de18ab97b10954c033c74c68e4d6',1,0,NULL,NULL,NULL,NULL,4512,NULL);
INSERT INTO deliveries VALUES('2667de18ab97b10954c033c74c68e4d6',1,1,NULL,NULL,NULL,NULL,8593,NULL);
INSERT INTO deliveries VALUES('2667de18ab97b10954c033c74c68e4d6',3,0,NULL,NULL,NULL,NULL,NULL,8271);
INSERT INTO deliveries VALUES('742a14856b3d1f268eafb904ccbe5613',1,0,NULL,NULL,NULL,NULL,4610,NULL);
INSERT INTO deliveries VALUES('742a14856b3d1f268eafb904ccbe5613',1,1,NULL,NULL,NULL,NULL,10290,NULL);
INSERT INTO deliveries VALUES('742a14856b3d1f268eafb904ccbe5613',2,0,NULL,NULL,NULL,NULL,NULL,13846);
INSERT INTO deliveries VALUES('7e2c4acf3e5e215754765f6708ab6f89',2,0,NULL,NULL,NULL,NULL,4196,NULL);
INSERT INTO deliveries VALUES('7e2c4acf3e5e215754765f6708ab6f89',2,1,NULL,NULL,NULL,NULL,9266,NULL);
INSERT INTO deliveries VALUES('898fedb1dca726f0d497d0119a3dc9a5',1,0,NULL,NULL,NULL,NULL,4071,NULL);
INSERT INTO deliveries VALUES('898fedb1dca726f0d497d0119a3dc9a5',1,1,NULL,NULL,NULL,NULL,8703,NULL);
INSERT INTO deliveries VALUES('898fedb1dca726f0d497d0119a3dc9a5',1,2,NULL,NULL,NULL,NULL,13854,NULL);
INSERT INTO deliveries VALUES('898fedb1dca726f0d497d0119a3dc9a5',2,0,NULL,NULL,NULL,NULL,NULL,12299);
INSERT INTO deliveries VALUES('898fedb1dca726f0d497d0119a3dc9a5',2,1,NULL,NULL,NULL,NULL,NULL,25164);
INSERT INTO deliveries VALUES('898fedb1dca726f0d497d0119a3dc9a5',3,0,NULL,NULL,NULL,NULL,NULL,8668);
INSERT INTO deliveries VALUES('c23640009ef432529216710c31a7baee',1,0,NULL,NULL,NULL,NULL,4309,NULL);
INSERT INTO deliveries VALUES('c23640009ef432529216710c31a7baee',1,1,NULL,NULL,NULL,NULL,12132,NULL);
INSERT INTO deliveries VALUES('c23640009ef432529216710c31a7baee',2,0,NULL,NULL,NULL,NULL,4891,NULL);
INSERT INTO deliveries VALUES('c23640009ef432529216710c31a7baee',2,2,NULL,NULL,NULL,NULL,13280,NULL);
INSERT INTO deliveries VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',1,1,NULL,NULL,NULL,NULL,9231,NULL);
INSERT INTO deliveries VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',1,2,NULL,NULL,NULL,NULL,14031,NULL);
INSERT INTO deliveries VALUES('d1a5a4854ca4932ee7b9573c737f3297',1,0,NULL,NULL,NULL,NULL,5391,NULL);
CREATE TABLE responses (
    session    TEXT    NOT NULL,
    set_number INTEGER NOT NULL,
    cue        INTEGER NOT NULL,
    response   TEXT,                           -- NULL: not noted, which is never fine
    PRIMARY KEY (session, set_number, cue),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;
INSERT INTO responses VALUES('742a14856b3d1f268eafb904ccbe5613',2,0,'fell');
INSERT INTO responses VALUES('898fedb1dca726f0d497d0119a3dc9a5',2,0,'one step');
INSERT INTO responses VALUES('898fedb1dca726f0d497d0119a3dc9a5',2,1,NULL);
CREATE TABLE mishaps (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,               -- orders them, as it does the answers
    set_number INTEGER NOT NULL,               -- may not have begun
    at_ms      INTEGER NOT NULL,               -- work done
    what       TEXT    NOT NULL,
    cue        INTEGER,                        -- the push that it followed
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO mishaps VALUES('2667de18ab97b10954c033c74c68e4d6',18,3,13074,'fell',NULL);
INSERT INTO mishaps VALUES('742a14856b3d1f268eafb904ccbe5613',20,2,18331,'fell',0);
INSERT INTO mishaps VALUES('898fedb1dca726f0d497d0119a3dc9a5',31,3,13068,'grabbed or steadied',NULL);
CREATE TABLE left_out (
    session    TEXT    NOT NULL REFERENCES sessions,
    set_number INTEGER NOT NULL,
    at         TEXT    NOT NULL,
    at_ms      INTEGER NOT NULL,
    why        TEXT    NOT NULL,
    PRIMARY KEY (session, set_number)
) STRICT, WITHOUT ROWID;
INSERT INTO left_out VALUES('2667de18ab97b10954c033c74c68e4d6',2,'2026-01-30T09:01:52.97-05:00[America/New_York]',1769781712970,'refused');
CREATE TABLE advice (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,
    set_number INTEGER NOT NULL,               -- after this set
    advice     TEXT    NOT NULL,
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO advice VALUES('898fedb1dca726f0d497d0119a3dc9a5',33,3,'one step lower');
CREATE TABLE routines (
    session TEXT    NOT NULL REFERENCES sessions,
    part    TEXT    NOT NULL,
    at      TEXT    NOT NULL,
    at_ms   INTEGER NOT NULL,
    how     TEXT    NOT NULL,
    PRIMARY KEY (session, part)
) STRICT, WITHOUT ROWID;
INSERT INTO routines VALUES('014284f2a06fa226a3fcea1fabac3c3a','warm-up','2026-01-12T09:00:21.473-05:00[America/New_York]',1768226421473,'skipped');
INSERT INTO routines VALUES('01fa1a349d1ea060e95e75b4c6037320','cool-down','2026-02-02T15:01:10.584-05:00[America/New_York]',1770062470584,'skipped');
INSERT INTO routines VALUES('01fa1a349d1ea060e95e75b4c6037320','warm-up','2026-02-02T15:00:29.082-05:00[America/New_York]',1770062429082,'skipped');
INSERT INTO routines VALUES('0b4a9c215ed033871bf6026de89570bc','warm-up','2026-01-07T09:00:10.4-05:00[America/New_York]',1767794410400,'skipped');
INSERT INTO routines VALUES('2667de18ab97b10954c033c74c68e4d6','warm-up','2026-01-30T09:00:25.679-05:00[America/New_York]',1769781625679,'skipped');
INSERT INTO routines VALUES('742a14856b3d1f268eafb904ccbe5613','warm-up','2026-02-04T09:00:36.308-05:00[America/New_York]',1770213636308,'skipped');
INSERT INTO routines VALUES('7e2c4acf3e5e215754765f6708ab6f89','cool-down','2026-01-19T09:31:01.702-05:00[America/New_York]',1768833061702,'skipped');
INSERT INTO routines VALUES('7e2c4acf3e5e215754765f6708ab6f89','warm-up','2026-01-19T09:30:15.294-05:00[America/New_York]',1768833015294,'skipped');
INSERT INTO routines VALUES('898fedb1dca726f0d497d0119a3dc9a5','cool-down','2026-01-26T09:04:40.678-05:00[America/New_York]',1769436280678,'skipped');
INSERT INTO routines VALUES('898fedb1dca726f0d497d0119a3dc9a5','warm-up','2026-01-26T09:00:43.096-05:00[America/New_York]',1769436043096,'skipped');
INSERT INTO routines VALUES('c23640009ef432529216710c31a7baee','cool-down','2026-01-05T09:02:30.229-05:00[America/New_York]',1767621750229,'skipped');
INSERT INTO routines VALUES('c23640009ef432529216710c31a7baee','warm-up','2026-01-05T09:00:14.702-05:00[America/New_York]',1767621614702,'skipped');
INSERT INTO routines VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0','warm-up','2026-01-19T09:00:22.258-05:00[America/New_York]',1768831222258,'skipped');
INSERT INTO routines VALUES('d1a5a4854ca4932ee7b9573c737f3297','warm-up','2026-01-21T09:00:12.919-05:00[America/New_York]',1769004012919,'skipped');
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
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',0,'no chest pain',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',1,'breathing as usual',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',3,'not dizzy',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',4,'not fainted',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',5,'not fallen',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',6,'no knock to the head',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',7,'no new pain',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',8,'not sore',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',9,'not ill',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',10,'slept well',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',11,'no alcohol',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',12,'no new medicine',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',13,'counter fixed',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',16,'good light',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',18,'firm shoes',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',20,'phone in reach',1);
INSERT INTO readiness VALUES('014284f2a06fa226a3fcea1fabac3c3a',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',0,'no chest pain',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',1,'breathing as usual',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',3,'not dizzy',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',4,'not fainted',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',5,'not fallen',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',6,'no knock to the head',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',7,'no new pain',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',8,'not sore',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',9,'not ill',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',10,'slept well',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',11,'no alcohol',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',12,'no new medicine',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',13,'counter fixed',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',16,'good light',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',18,'firm shoes',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',20,'phone in reach',1);
INSERT INTO readiness VALUES('01fa1a349d1ea060e95e75b4c6037320',21,'chair and water in reach',1);
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
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',0,'no chest pain',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',1,'breathing as usual',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',3,'not dizzy',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',4,'not fainted',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',5,'not fallen',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',6,'no knock to the head',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',7,'no new pain',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',8,'not sore',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',9,'not ill',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',10,'slept well',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',11,'no alcohol',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',12,'no new medicine',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',13,'counter fixed',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',16,'good light',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',18,'firm shoes',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',20,'phone in reach',1);
INSERT INTO readiness VALUES('2667de18ab97b10954c033c74c68e4d6',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',0,'no chest pain',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',1,'breathing as usual',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',3,'not dizzy',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',4,'not fainted',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',5,'not fallen',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',6,'no knock to the head',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',7,'no new pain',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',8,'not sore',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',9,'not ill',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',10,'slept well',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',11,'no alcohol',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',12,'no new medicine',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',13,'feeling unwell passed',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',14,'counter fixed',0);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',15,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',16,'floor dry and clear',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',17,'good light',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',18,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',19,'firm shoes',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',20,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',21,'phone in reach',1);
INSERT INTO readiness VALUES('66d0030ab6dfdc40b11a337f708410ab',22,'chair and water in reach',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',0,'no chest pain',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',1,'breathing as usual',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',3,'not dizzy',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',4,'not fainted',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',5,'not fallen',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',6,'no knock to the head',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',7,'no new pain',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',8,'not sore',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',9,'not ill',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',10,'slept well',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',11,'no alcohol',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',12,'no new medicine',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',13,'counter fixed',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',16,'good light',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',18,'firm shoes',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',20,'phone in reach',1);
INSERT INTO readiness VALUES('742a14856b3d1f268eafb904ccbe5613',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',0,'no chest pain',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',1,'breathing as usual',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',3,'not dizzy',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',4,'not fainted',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',5,'not fallen',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',6,'no knock to the head',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',7,'no new pain',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',8,'not sore',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',9,'not ill',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',10,'slept well',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',11,'no alcohol',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',12,'no new medicine',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',13,'counter fixed',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',16,'good light',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',18,'firm shoes',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',20,'phone in reach',1);
INSERT INTO readiness VALUES('7e2c4acf3e5e215754765f6708ab6f89',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',0,'no chest pain',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',1,'breathing as usual',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',3,'not dizzy',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',4,'not fainted',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',5,'not fallen',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',6,'no knock to the head',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',7,'no new pain',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',8,'not sore',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',9,'not ill',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',10,'slept well',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',11,'no alcohol',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',12,'no new medicine',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',13,'counter fixed',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',16,'good light',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',18,'firm shoes',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',20,'phone in reach',1);
INSERT INTO readiness VALUES('898fedb1dca726f0d497d0119a3dc9a5',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',0,'no chest pain',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',1,'breathing as usual',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',3,'not dizzy',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',4,'not fainted',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',5,'not fallen',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',6,'no knock to the head',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',7,'no new pain',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',8,'not sore',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',9,'not ill',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',10,'slept well',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',11,'no alcohol',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',12,'no new medicine',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',13,'counter fixed',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',16,'good light',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',18,'firm shoes',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',20,'phone in reach',1);
INSERT INTO readiness VALUES('c23640009ef432529216710c31a7baee',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',0,'no chest pain',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',1,'breathing as usual',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',3,'not dizzy',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',4,'not fainted',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',5,'not fallen',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',6,'no knock to the head',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',7,'no new pain',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',8,'not sore',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',9,'not ill',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',10,'slept well',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',11,'no alcohol',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',12,'no new medicine',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',13,'counter fixed',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',16,'good light',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',18,'firm shoes',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',20,'phone in reach',1);
INSERT INTO readiness VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',21,'chair and water in reach',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',0,'no chest pain',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',1,'breathing as usual',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',2,'no new weakness or numbness',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',3,'not dizzy',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',4,'not fainted',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',5,'not fallen',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',6,'no knock to the head',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',7,'no new pain',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',8,'not sore',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',9,'not ill',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',10,'slept well',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',11,'no alcohol',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',12,'no new medicine',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',13,'counter fixed',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',14,'nothing hot or sharp',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',15,'floor dry and clear',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',16,'good light',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',17,'clear floor or wall behind',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',18,'firm shoes',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',19,'glasses and hearing aids',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',20,'phone in reach',1);
INSERT INTO readiness VALUES('d1a5a4854ca4932ee7b9573c737f3297',21,'chair and water in reach',1);
CREATE TABLE decisions (
    session        TEXT    PRIMARY KEY REFERENCES sessions,
    decision       TEXT    NOT NULL,
    gentler        INTEGER NOT NULL CHECK (gentler IN (0, 1)),
    first_set      INTEGER NOT NULL,           -- above 1: an interrupted session was finished
    sets_whole     INTEGER NOT NULL,           -- before some were left away
    seen_before_ms INTEGER                     -- the latest moment that the journal knew; later than the session's
                                               -- beginning if the clock was set back
) STRICT, WITHOUT ROWID;
INSERT INTO decisions VALUES('014284f2a06fa226a3fcea1fabac3c3a','hold',0,1,2,1767794507900);
INSERT INTO decisions VALUES('2667de18ab97b10954c033c74c68e4d6','hold',0,1,3,1769436280678);
INSERT INTO decisions VALUES('66d0030ab6dfdc40b11a337f708410ab','hold',0,1,2,1768226461139);
INSERT INTO decisions VALUES('742a14856b3d1f268eafb904ccbe5613','hold',0,1,3,1770062470584);
INSERT INTO decisions VALUES('7e2c4acf3e5e215754765f6708ab6f89','hold',0,2,2,1768831276495);
INSERT INTO decisions VALUES('898fedb1dca726f0d497d0119a3dc9a5','hold',0,1,3,1769230799999);
INSERT INTO decisions VALUES('96d583a7e2dc1aa6c70a785f39c8be5b','hold',0,1,2,1769004020732);
INSERT INTO decisions VALUES('c23640009ef432529216710c31a7baee','hold',0,1,2,NULL);
INSERT INTO decisions VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0','hold',0,1,2,1768572034745);
INSERT INTO decisions VALUES('d1a5a4854ca4932ee7b9573c737f3297','hold',0,1,2,1768833061702);
CREATE TABLE decision_reasons (
    session TEXT    NOT NULL REFERENCES decisions,
    nth     INTEGER NOT NULL,                  -- from 0
    reason  TEXT    NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;
INSERT INTO decision_reasons VALUES('014284f2a06fa226a3fcea1fabac3c3a',0,'You had to grab hold, or nearly fell (Reaches at the counter). That calls for one step lower.');
INSERT INTO decision_reasons VALUES('014284f2a06fa226a3fcea1fabac3c3a',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('2667de18ab97b10954c033c74c68e4d6',0,'You had to grab hold, or nearly fell (Quick steps). That calls for one step lower.');
INSERT INTO decision_reasons VALUES('2667de18ab97b10954c033c74c68e4d6',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('66d0030ab6dfdc40b11a337f708410ab',0,'You felt unwell. That calls for one step lower.');
INSERT INTO decision_reasons VALUES('66d0030ab6dfdc40b11a337f708410ab',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('742a14856b3d1f268eafb904ccbe5613',0,'There was a fall. That calls for one step lower.');
INSERT INTO decision_reasons VALUES('742a14856b3d1f268eafb904ccbe5613',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('7e2c4acf3e5e215754765f6708ab6f89',0,'The last practice was broken off: it goes on with set 2.');
INSERT INTO decision_reasons VALUES('898fedb1dca726f0d497d0119a3dc9a5',0,'This is the first practice of this program.');
INSERT INTO decision_reasons VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',0,'0 of 2 sets were done whole. The step stays.');
INSERT INTO decision_reasons VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',1,'Not every question was answered. The step stays.');
INSERT INTO decision_reasons VALUES('c23640009ef432529216710c31a7baee',0,'This is the first practice of this program.');
INSERT INTO decision_reasons VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',0,'You felt unwell. That calls for one step lower.');
INSERT INTO decision_reasons VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',1,'It is at the gentlest step already.');
INSERT INTO decision_reasons VALUES('d1a5a4854ca4932ee7b9573c737f3297',0,'One clean session at this step. After a second one it goes up.');
CREATE TABLE given_steps (
    session TEXT    NOT NULL REFERENCES decisions,
    nth     INTEGER NOT NULL,                  -- from 0
    drill   TEXT    NOT NULL,
    form    TEXT    NOT NULL,
    step    INTEGER NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;
INSERT INTO given_steps VALUES('014284f2a06fa226a3fcea1fabac3c3a',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('014284f2a06fa226a3fcea1fabac3c3a',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('2667de18ab97b10954c033c74c68e4d6',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('2667de18ab97b10954c033c74c68e4d6',1,'pushes','partner',1);
INSERT INTO given_steps VALUES('2667de18ab97b10954c033c74c68e4d6',2,'quick-steps','partner',1);
INSERT INTO given_steps VALUES('66d0030ab6dfdc40b11a337f708410ab',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('66d0030ab6dfdc40b11a337f708410ab',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('742a14856b3d1f268eafb904ccbe5613',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('742a14856b3d1f268eafb904ccbe5613',1,'pushes','partner',1);
INSERT INTO given_steps VALUES('742a14856b3d1f268eafb904ccbe5613',2,'quick-steps','partner',1);
INSERT INTO given_steps VALUES('7e2c4acf3e5e215754765f6708ab6f89',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('7e2c4acf3e5e215754765f6708ab6f89',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('898fedb1dca726f0d497d0119a3dc9a5',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('898fedb1dca726f0d497d0119a3dc9a5',1,'pushes','partner',1);
INSERT INTO given_steps VALUES('898fedb1dca726f0d497d0119a3dc9a5',2,'quick-steps','partner',1);
INSERT INTO given_steps VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('96d583a7e2dc1aa6c70a785f39c8be5b',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('c23640009ef432529216710c31a7baee',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('c23640009ef432529216710c31a7baee',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('cfbeaa15ea0adf04af0bf23eac5be2a0',1,'counter-reach','alone',1);
INSERT INTO given_steps VALUES('d1a5a4854ca4932ee7b9573c737f3297',0,'counter-shift','alone',1);
INSERT INTO given_steps VALUES('d1a5a4854ca4932ee7b9573c737f3297',1,'counter-reach','alone',1);
CREATE TABLE suitability (
    at      TEXT    NOT NULL,
    at_ms   INTEGER NOT NULL,
    partner INTEGER NOT NULL CHECK (partner IN (0, 1)),  -- practice with a partner was asked about too
    topic   TEXT    NOT NULL,
    answer  TEXT    NOT NULL,
    PRIMARY KEY (at_ms, topic)
) STRICT, WITHOUT ROWID;
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'alone in the house','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'blackouts or dizziness','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'blood thinners','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'chest pain','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'consent','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'faint on rising','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'fall in 12 months','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'getting up from the floor','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'heart or blood pressure','not true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'inner ear or numb feet','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'joint replacement','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'low sugar','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'medicine that makes drowsy','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'memory','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'neck','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'pain','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'partner''s back','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'partner''s balance','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'partner''s strength','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'practiced with the therapist','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'recent fall with pain','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'recent fracture or operation','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'severe or repeated falls','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'sight','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'stroke, Parkinson''s or multiple sclerosis','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'unsteady','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'walking aid indoors','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'weak bones','true');
INSERT INTO suitability VALUES('2026-01-03T17:00:00.174-05:00[America/New_York]',1767477600174,1,'worried about falling','true');
CREATE TABLE clearances (
    at     TEXT    NOT NULL,
    at_ms  INTEGER NOT NULL,
    who    TEXT    NOT NULL,
    reason TEXT    NOT NULL,
    PRIMARY KEY (at_ms, who)
) STRICT, WITHOUT ROWID;
INSERT INTO clearances VALUES('2026-01-04T11:00:00.001-05:00[America/New_York]',1767542400001,'Dr. A. B.','blood pressure is treated');
INSERT INTO clearances VALUES('2026-01-13T16:00:00-05:00[America/New_York]',1768338000000,'Dr. A. B.','seen on Tuesday, nothing found');
CREATE TABLE lifted (
    at_ms   INTEGER NOT NULL,
    who     TEXT    NOT NULL,
    nth     INTEGER NOT NULL,                  -- from 0
    locked_by TEXT  NOT NULL,                  -- the session, or the moment of the answers about suitability
    what    TEXT    NOT NULL,
    PRIMARY KEY (at_ms, who, nth),
    FOREIGN KEY (at_ms, who) REFERENCES clearances
) STRICT, WITHOUT ROWID;
INSERT INTO lifted VALUES(1767542400001,'Dr. A. B.',0,'2026-01-03T17:00:00.174-05:00[America/New_York]','a clinician first');
INSERT INTO lifted VALUES(1768338000000,'Dr. A. B.',0,'014284f2a06fa226a3fcea1fabac3c3a','chest pain or pressure');
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
INSERT INTO balance_tests VALUES('2026-01-05T08:55:00.001-05:00[America/New_York]',1767621300001,'one-leg',84,72,'female','elsewhere','K. L.');
INSERT INTO balance_tests VALUES('2026-01-05T08:56:00.041-05:00[America/New_York]',1767621360041,'chair-stand',11,72,'female','elsewhere','K. L.');
CREATE TABLE tryouts (
    session    TEXT PRIMARY KEY REFERENCES sessions,
    watched_by TEXT NOT NULL,
    partner    TEXT NOT NULL                   -- empty: alone
) STRICT, WITHOUT ROWID;
INSERT INTO tryouts VALUES('01fa1a349d1ea060e95e75b4c6037320','K. L.','');
CREATE TABLE seen (
    session TEXT    NOT NULL REFERENCES tryouts,
    nth     INTEGER NOT NULL,                  -- from 0
    what    TEXT    NOT NULL,                  -- "feet", "support", "in words", "unlocked"
    words   TEXT    NOT NULL,
    PRIMARY KEY (session, nth)
) STRICT, WITHOUT ROWID;
INSERT INTO seen VALUES('01fa1a349d1ea060e95e75b4c6037320',0,'feet','small sway, soles flat');
INSERT INTO seen VALUES('01fa1a349d1ea060e95e75b4c6037320',1,'support','nothing');
INSERT INTO seen VALUES('01fa1a349d1ea060e95e75b4c6037320',2,'unlocked','backward');
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
INSERT INTO corrections VALUES('2026-01-24T18:10:00.068-05:00[America/New_York]',1769296200068,'c23640009ef432529216710c31a7baee','answer',1,'effort',NULL,'4','passed over by mistake');
INSERT INTO corrections VALUES('2026-01-24T18:11:00.004-05:00[America/New_York]',1769296260004,'0b4a9c215ed033871bf6026de89570bc','answer',2,'grabbed hold or nearly fell',NULL,'0','it was only the phone');
INSERT INTO corrections VALUES('2026-01-24T18:12:00.17-05:00[America/New_York]',1769296320170,'d1a5a4854ca4932ee7b9573c737f3297','set aside',NULL,NULL,NULL,NULL,'a neighbor tried it');
INSERT INTO corrections VALUES('2026-01-24T18:13:00.084-05:00[America/New_York]',1769296380084,'c23640009ef432529216710c31a7baee','set aside',NULL,NULL,NULL,NULL,'thought to be another person''s');
INSERT INTO corrections VALUES('2026-01-24T18:14:00.134-05:00[America/New_York]',1769296440134,'c23640009ef432529216710c31a7baee','counts again',NULL,NULL,NULL,NULL,'it was me after all');
INSERT INTO corrections VALUES('2026-01-26T18:00:00.081-05:00[America/New_York]',1769468400081,'898fedb1dca726f0d497d0119a3dc9a5','response',2,NULL,1,'one step','seen again on video');
CREATE INDEX sessions_by_time ON sessions (begun_ms);
COMMIT;
PRAGMA application_id=1131368559;
PRAGMA user_version=7;
