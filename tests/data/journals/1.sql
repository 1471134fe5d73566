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
INSERT INTO sessions VALUES('a5cc2d730b879886cc4501aedb82ff06','2026-01-05T09:00:05.103-05:00[America/New_York]',1767621605103,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','fcbbb80adc35f9342bf87f0058b8473c1cf1ff8a00f4798e2e45a84c0b7704f2',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('0b4a9c215ed033871bf6026de89570bc','2026-01-07T09:00:01.3-05:00[America/New_York]',1767794401300,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b',1,1,'higher','ALSA: default',2);
INSERT INTO sessions VALUES('0bc53a759572163a5f488b988e6486c7','2026-01-12T09:00:04.11-05:00[America/New_York]',1768226404110,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','68456bb0203f42bc7bc0a74c792e93b1602753561758010da17ac8969d1996c9',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('4af9ae278bbd5b592398a6287c90a5b0','2026-01-14T09:00:03.654-05:00[America/New_York]',1768399203654,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','d1c0b07ba4de16c17bb727adc4e010600893ba41c4fea8814f04ca807bb4866d',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('568de8f6244552380b76d9309fc56e84','2026-01-15T09:00:04.595-05:00[America/New_York]',1768485604595,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','3a5903d6edef614b5a7ff922d68da8a6f08a0146c356514d6f5c4313255bfac1',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('8c640a116ed1bc98a12c898ca8b842be','2026-01-16T09:00:04.407-05:00[America/New_York]',1768572004407,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','c187093edf13f82ffc4dc1a121b4e43332e42f0bb55fa6818c6cc59670d5c0a9',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('d60551fa25aa14e547d27959ed671533','2026-01-19T09:00:05.114-05:00[America/New_York]',1768831205114,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','abababababababababababababababababababababababababababababababab',1,1,'lower',NULL,2);
INSERT INTO sessions VALUES('ee9fb608d5c7f8358803f6922b718517','2026-01-21T09:00:03.923-05:00[America/New_York]',1769004003923,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','183d216ca0765142ca9ccae2a2d3d130d6d0b0e2e8f567a564fc3012892d728b',0,1,'lower',NULL,2);
INSERT INTO sessions VALUES('08633ee69b3ac7f7df8965f996dbc36a','2026-02-04T09:00:06.014-05:00[America/New_York]',1770213606014,'Two short sets at the counter','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42','91ba4d1d6dc5348b8ed4b32782cf70d6d833cb2f5e294cea2af5253b8a1194e0',0,1,'lower',NULL,2);
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
INSERT INTO session_ends VALUES('a5cc2d730b879886cc4501aedb82ff06','2026-01-05T09:02:19.308-05:00[America/New_York]',1767621739308,'finished',2,2,0,4,34000,0,1,4,2,0,1);
INSERT INTO session_ends VALUES('0b4a9c215ed033871bf6026de89570bc','2026-01-07T09:01:42.7-05:00[America/New_York]',1767794502700,'grabbed hold or nearly fell',1,2,3,0,25000,1,0,6,2,0,0);
INSERT INTO session_ends VALUES('0bc53a759572163a5f488b988e6486c7','2026-01-12T09:00:46.403-05:00[America/New_York]',1768226446403,'felt unwell',1,2,0,2,17000,0,0,6,2,1,0);
INSERT INTO session_ends VALUES('4af9ae278bbd5b592398a6287c90a5b0','2026-01-14T09:00:25.672-05:00[America/New_York]',1768399225672,'stopped, felt unsteady',0,2,0,1,6785,NULL,NULL,NULL,NULL,NULL,0);
INSERT INTO session_ends VALUES('568de8f6244552380b76d9309fc56e84','2026-01-15T09:03:07.447-05:00[America/New_York]',1768485787447,'not answered',1,2,0,2,17000,0,NULL,NULL,NULL,NULL,0);
INSERT INTO session_ends VALUES('8c640a116ed1bc98a12c898ca8b842be','2026-01-16T09:00:06.819-05:00[America/New_York]',1768572006819,'not today',0,2,0,0,0,NULL,NULL,NULL,NULL,NULL,0);
INSERT INTO session_ends VALUES('d60551fa25aa14e547d27959ed671533','2026-01-19T09:01:48.093-05:00[America/New_York]',1768831308093,'program closed',1,2,0,3,22704,0,0,6,2,0,0);
INSERT INTO session_ends VALUES('ee9fb608d5c7f8358803f6922b718517','2026-01-21T09:00:16.509-05:00[America/New_York]',1769004016509,'interrupted',0,2,0,1,5330,NULL,NULL,NULL,NULL,NULL,0);
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
INSERT INTO sets VALUES('08633ee69b3ac7f7df8965f996dbc36a',1,'2026-02-04T09:00:13.27-05:00[America/New_York]',1770213613270,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('0b4a9c215ed033871bf6026de89570bc',1,'2026-01-07T09:00:06.5-05:00[America/New_York]',1767794406500,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('0b4a9c215ed033871bf6026de89570bc',2,'2026-01-07T09:01:25.6-05:00[America/New_York]',1767794485600,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000);
INSERT INTO sets VALUES('0bc53a759572163a5f488b988e6486c7',1,'2026-01-12T09:00:11.42-05:00[America/New_York]',1768226411420,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('4af9ae278bbd5b592398a6287c90a5b0',1,'2026-01-14T09:00:10.908-05:00[America/New_York]',1768399210908,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('568de8f6244552380b76d9309fc56e84',1,'2026-01-15T09:00:11.894-05:00[America/New_York]',1768485611894,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('a5cc2d730b879886cc4501aedb82ff06',1,'2026-01-05T09:00:12.477-05:00[America/New_York]',1767621612477,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('a5cc2d730b879886cc4501aedb82ff06',2,'2026-01-05T09:01:44.783-05:00[America/New_York]',1767621704783,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000);
INSERT INTO sets VALUES('d60551fa25aa14e547d27959ed671533',1,'2026-01-19T09:00:12.363-05:00[America/New_York]',1768831212363,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
INSERT INTO sets VALUES('d60551fa25aa14e547d27959ed671533',2,'2026-01-19T09:01:37.388-05:00[America/New_York]',1768831297388,'counter-reach','alone',1,'feet apart',NULL,'firm','one hand','open',17000,3000,45000);
INSERT INTO sets VALUES('ee9fb608d5c7f8358803f6922b718517',1,'2026-01-21T09:00:11.179-05:00[America/New_York]',1769004011179,'counter-shift','alone',1,'feet apart',NULL,'firm','two hands','open',17000,3000,45000);
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
INSERT INTO set_ends VALUES('0b4a9c215ed033871bf6026de89570bc',1,'2026-01-07T09:00:28.5-05:00[America/New_York]',1767794428500,17000,'completed');
INSERT INTO set_ends VALUES('0b4a9c215ed033871bf6026de89570bc',2,'2026-01-07T09:01:38.6-05:00[America/New_York]',1767794498600,8000,'sound lost');
INSERT INTO set_ends VALUES('0bc53a759572163a5f488b988e6486c7',1,'2026-01-12T09:00:33.438-05:00[America/New_York]',1768226433438,17000,'completed');
INSERT INTO set_ends VALUES('4af9ae278bbd5b592398a6287c90a5b0',1,'2026-01-14T09:00:22.694-05:00[America/New_York]',1768399222694,6785,'stopped');
INSERT INTO set_ends VALUES('568de8f6244552380b76d9309fc56e84',1,'2026-01-15T09:00:33.915-05:00[America/New_York]',1768485633915,17000,'completed');
INSERT INTO set_ends VALUES('a5cc2d730b879886cc4501aedb82ff06',1,'2026-01-05T09:00:41.896-05:00[America/New_York]',1767621641896,17000,'completed');
INSERT INTO set_ends VALUES('a5cc2d730b879886cc4501aedb82ff06',2,'2026-01-05T09:02:06.805-05:00[America/New_York]',1767621726805,17000,'completed');
INSERT INTO set_ends VALUES('d60551fa25aa14e547d27959ed671533',1,'2026-01-19T09:00:34.381-05:00[America/New_York]',1768831234381,17000,'completed');
INSERT INTO set_ends VALUES('d60551fa25aa14e547d27959ed671533',2,'2026-01-19T09:01:48.093-05:00[America/New_York]',1768831308093,5704,'program closed');
INSERT INTO set_ends VALUES('ee9fb608d5c7f8358803f6922b718517',1,'2026-01-21T09:00:16.509-05:00[America/New_York]',1769004016509,5330,'interrupted');
CREATE TABLE plans (
    session      TEXT    NOT NULL,
    set_number   INTEGER NOT NULL,
    plan         INTEGER NOT NULL,
    paused_at_ms INTEGER,                      -- work done when the pause began; NULL for plan 0
    PRIMARY KEY (session, set_number, plan),
    FOREIGN KEY (session, set_number) REFERENCES sets
) STRICT, WITHOUT ROWID;
INSERT INTO plans VALUES('08633ee69b3ac7f7df8965f996dbc36a',1,0,NULL);
INSERT INTO plans VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,NULL);
INSERT INTO plans VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,NULL);
INSERT INTO plans VALUES('0bc53a759572163a5f488b988e6486c7',1,0,NULL);
INSERT INTO plans VALUES('4af9ae278bbd5b592398a6287c90a5b0',1,0,NULL);
INSERT INTO plans VALUES('568de8f6244552380b76d9309fc56e84',1,0,NULL);
INSERT INTO plans VALUES('a5cc2d730b879886cc4501aedb82ff06',1,0,NULL);
INSERT INTO plans VALUES('a5cc2d730b879886cc4501aedb82ff06',1,1,6490);
INSERT INTO plans VALUES('a5cc2d730b879886cc4501aedb82ff06',2,0,NULL);
INSERT INTO plans VALUES('d60551fa25aa14e547d27959ed671533',1,0,NULL);
INSERT INTO plans VALUES('d60551fa25aa14e547d27959ed671533',2,0,NULL);
INSERT INTO plans VALUES('ee9fb608d5c7f8358803f6922b718517',1,0,NULL);
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
INSERT INTO cues VALUES('08633ee69b3ac7f7df8965f996dbc36a',1,0,0,4595,4595,0,'shift','left','lean.left');
INSERT INTO cues VALUES('08633ee69b3ac7f7df8965f996dbc36a',1,0,1,9198,4603,0,'shift','left','lean.left');
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,0,4020,4020,1,NULL,NULL,NULL);
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,1,8083,4063,0,'shift','right','lean.right');
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',1,0,2,12284,4201,0,'shift','right','lean.right');
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,0,5413,5413,0,'reach','left','reach.left');
INSERT INTO cues VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,1,9693,4280,0,'reach','right','reach.right');
INSERT INTO cues VALUES('0bc53a759572163a5f488b988e6486c7',1,0,0,4157,4157,1,NULL,NULL,NULL);
INSERT INTO cues VALUES('0bc53a759572163a5f488b988e6486c7',1,0,1,8264,4107,0,'shift','left','lean.left');
INSERT INTO cues VALUES('0bc53a759572163a5f488b988e6486c7',1,0,2,13293,5029,0,'shift','left','lean.left');
INSERT INTO cues VALUES('4af9ae278bbd5b592398a6287c90a5b0',1,0,0,4349,4349,0,'shift','left','lean.left');
INSERT INTO cues VALUES('4af9ae278bbd5b592398a6287c90a5b0',1,0,1,8944,4595,0,'shift','forward','lean.forward');
INSERT INTO cues VALUES('568de8f6244552380b76d9309fc56e84',1,0,0,5014,5014,0,'shift','right','lean.right');
INSERT INTO cues VALUES('568de8f6244552380b76d9309fc56e84',1,0,1,10657,5643,0,'shift','forward','lean.forward');
INSERT INTO cues VALUES('a5cc2d730b879886cc4501aedb82ff06',1,0,0,4067,4067,0,'shift','right','lean.right');
INSERT INTO cues VALUES('a5cc2d730b879886cc4501aedb82ff06',1,0,1,9916,5849,0,'shift','forward','lean.forward');
INSERT INTO cues VALUES('a5cc2d730b879886cc4501aedb82ff06',1,1,0,4067,4067,0,'shift','right','lean.right');
INSERT INTO cues VALUES('a5cc2d730b879886cc4501aedb82ff06',1,1,1,11201,7134,0,'shift','forward','lean.forward');
INSERT INTO cues VALUES('a5cc2d730b879886cc4501aedb82ff06',2,0,0,5991,5991,0,'reach','left','reach.left');
INSERT INTO cues VALUES('a5cc2d730b879886cc4501aedb82ff06',2,0,1,10109,4118,0,'reach','right','reach.right');
INSERT INTO cues VALUES('d60551fa25aa14e547d27959ed671533',1,0,0,4261,4261,1,NULL,NULL,NULL);
INSERT INTO cues VALUES('d60551fa25aa14e547d27959ed671533',1,0,1,9056,4795,0,'shift','right','lean.right');
INSERT INTO cues VALUES('d60551fa25aa14e547d27959ed671533',1,0,2,13800,4744,0,'shift','right','lean.right');
INSERT INTO cues VALUES('d60551fa25aa14e547d27959ed671533',2,0,0,5676,5676,0,'reach','forward','reach.forward');
INSERT INTO cues VALUES('d60551fa25aa14e547d27959ed671533',2,0,1,11325,5649,0,'reach','forward','reach.forward');
INSERT INTO cues VALUES('ee9fb608d5c7f8358803f6922b718517',1,0,0,5309,5309,0,'shift','forward','lean.forward');
INSERT INTO cues VALUES('ee9fb608d5c7f8358803f6922b718517',1,0,1,11204,5895,0,'shift','left','lean.left');
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
INSERT INTO deliveries VALUES('08633ee69b3ac7f7df8965f996dbc36a',1,0,NULL,NULL,NULL,NULL,4613);
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',1,1,387984,387984,48000,8083,NULL);
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',1,2,589632,589639,48000,12284,NULL);
INSERT INTO deliveries VALUES('0b4a9c215ed033871bf6026de89570bc',2,0,259824,259824,48000,5413,NULL);
INSERT INTO deliveries VALUES('0bc53a759572163a5f488b988e6486c7',1,1,NULL,NULL,NULL,NULL,8283);
INSERT INTO deliveries VALUES('0bc53a759572163a5f488b988e6486c7',1,2,NULL,NULL,NULL,NULL,13309);
INSERT INTO deliveries VALUES('4af9ae278bbd5b592398a6287c90a5b0',1,0,NULL,NULL,NULL,NULL,4365);
INSERT INTO deliveries VALUES('568de8f6244552380b76d9309fc56e84',1,0,NULL,NULL,NULL,NULL,5026);
INSERT INTO deliveries VALUES('568de8f6244552380b76d9309fc56e84',1,1,NULL,NULL,NULL,NULL,10665);
INSERT INTO deliveries VALUES('a5cc2d730b879886cc4501aedb82ff06',1,0,NULL,NULL,NULL,NULL,4071);
INSERT INTO deliveries VALUES('a5cc2d730b879886cc4501aedb82ff06',1,1,NULL,NULL,NULL,NULL,11222);
INSERT INTO deliveries VALUES('a5cc2d730b879886cc4501aedb82ff06',2,0,NULL,NULL,NULL,NULL,6009);
INSERT INTO deliveries VALUES('a5cc2d730b879886cc4501aedb82ff06',2,1,NULL,NULL,NULL,NULL,10112);
INSERT INTO deliveries VALUES('d60551fa25aa14e547d27959ed671533',1,1,NULL,NULL,NULL,NULL,9060);
INSERT INTO deliveries VALUES('d60551fa25aa14e547d27959ed671533',1,2,NULL,NULL,NULL,NULL,13819);
INSERT INTO deliveries VALUES('d60551fa25aa14e547d27959ed671533',2,0,NULL,NULL,NULL,NULL,5690);
INSERT INTO deliveries VALUES('ee9fb608d5c7f8358803f6922b718517',1,0,NULL,NULL,NULL,NULL,5330);
CREATE TABLE answers (
    session    TEXT    NOT NULL REFERENCES sessions,
    place      INTEGER NOT NULL,               -- orders the answers of a session
    set_number INTEGER,                        -- NULL: before the first set
    question   TEXT    NOT NULL,
    answer     INTEGER,                        -- NULL: not said
    PRIMARY KEY (session, place)
) STRICT, WITHOUT ROWID;
INSERT INTO answers VALUES('08633ee69b3ac7f7df8965f996dbc36a',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('08633ee69b3ac7f7df8965f996dbc36a',2,NULL,'ready',1);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',2,NULL,'ready',1);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',3,NULL,'sound check',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',8,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',9,1,'held on',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',10,1,'effort',6);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',11,1,'steadiness',2);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',12,1,'unwell',0);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',16,2,'grabbed hold or nearly fell',1);
INSERT INTO answers VALUES('0b4a9c215ed033871bf6026de89570bc',17,2,'unwell',0);
INSERT INTO answers VALUES('0bc53a759572163a5f488b988e6486c7',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('0bc53a759572163a5f488b988e6486c7',2,NULL,'ready',1);
INSERT INTO answers VALUES('0bc53a759572163a5f488b988e6486c7',7,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('0bc53a759572163a5f488b988e6486c7',8,1,'held on',0);
INSERT INTO answers VALUES('0bc53a759572163a5f488b988e6486c7',9,1,'effort',6);
INSERT INTO answers VALUES('0bc53a759572163a5f488b988e6486c7',10,1,'steadiness',2);
INSERT INTO answers VALUES('0bc53a759572163a5f488b988e6486c7',11,1,'unwell',1);
INSERT INTO answers VALUES('4af9ae278bbd5b592398a6287c90a5b0',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('4af9ae278bbd5b592398a6287c90a5b0',2,NULL,'ready',1);
INSERT INTO answers VALUES('4af9ae278bbd5b592398a6287c90a5b0',6,1,'why stopped',2);
INSERT INTO answers VALUES('568de8f6244552380b76d9309fc56e84',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('568de8f6244552380b76d9309fc56e84',2,NULL,'ready',1);
INSERT INTO answers VALUES('568de8f6244552380b76d9309fc56e84',7,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('8c640a116ed1bc98a12c898ca8b842be',1,NULL,'nothing to see a clinician about',0);
INSERT INTO answers VALUES('a5cc2d730b879886cc4501aedb82ff06',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('a5cc2d730b879886cc4501aedb82ff06',2,NULL,'ready',1);
INSERT INTO answers VALUES('a5cc2d730b879886cc4501aedb82ff06',8,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('a5cc2d730b879886cc4501aedb82ff06',9,1,'held on',1);
INSERT INTO answers VALUES('a5cc2d730b879886cc4501aedb82ff06',10,1,'effort',NULL);
INSERT INTO answers VALUES('a5cc2d730b879886cc4501aedb82ff06',11,1,'steadiness',2);
INSERT INTO answers VALUES('a5cc2d730b879886cc4501aedb82ff06',12,1,'unwell',0);
INSERT INTO answers VALUES('a5cc2d730b879886cc4501aedb82ff06',17,2,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('a5cc2d730b879886cc4501aedb82ff06',18,2,'held on',0);
INSERT INTO answers VALUES('a5cc2d730b879886cc4501aedb82ff06',19,2,'effort',4);
INSERT INTO answers VALUES('a5cc2d730b879886cc4501aedb82ff06',20,2,'steadiness',2);
INSERT INTO answers VALUES('a5cc2d730b879886cc4501aedb82ff06',21,2,'unwell',0);
INSERT INTO answers VALUES('d60551fa25aa14e547d27959ed671533',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('d60551fa25aa14e547d27959ed671533',2,NULL,'ready',1);
INSERT INTO answers VALUES('d60551fa25aa14e547d27959ed671533',7,1,'grabbed hold or nearly fell',0);
INSERT INTO answers VALUES('d60551fa25aa14e547d27959ed671533',8,1,'held on',0);
INSERT INTO answers VALUES('d60551fa25aa14e547d27959ed671533',9,1,'effort',6);
INSERT INTO answers VALUES('d60551fa25aa14e547d27959ed671533',10,1,'steadiness',2);
INSERT INTO answers VALUES('d60551fa25aa14e547d27959ed671533',11,1,'unwell',0);
INSERT INTO answers VALUES('ee9fb608d5c7f8358803f6922b718517',1,NULL,'nothing to see a clinician about',1);
INSERT INTO answers VALUES('ee9fb608d5c7f8358803f6922b718517',2,NULL,'ready',1);
CREATE TABLE changes (
    at     TEXT    NOT NULL,
    at_ms  INTEGER NOT NULL,
    what   TEXT    NOT NULL,
    digest TEXT    NOT NULL,
    PRIMARY KEY (at_ms, what, digest)
) STRICT, WITHOUT ROWID;
INSERT INTO changes VALUES('2026-01-05T08:50:00.203-05:00[America/New_York]',1767621000203,'prescription in use: alone.toml','sha256:14017d31e91a3b2ecca89a28eb84a57c5c21cfb8592755014a7d5a43ed18eb42');
CREATE TABLE room (bytes BLOB NOT NULL) STRICT;
CREATE INDEX sessions_by_time ON sessions (begun_ms);
COMMIT;
PRAGMA application_id=1131368559;
PRAGMA user_version=1;
