//! Every earlier list of migrations leads to the same tables.

use rusqlite::Connection;

use super::{APPLICATION_ID, MIGRATIONS, apply, migrate, newest, number};

fn tables(db: &Connection) -> Vec<String> {
    let mut read = db.prepare("SELECT sql FROM sqlite_schema WHERE sql NOT NULL ORDER BY name").unwrap();
    read.query_map([], |row| row.get(0)).unwrap().map(Result::unwrap).collect()
}

#[test]
fn a_journal_made_by_any_earlier_version_is_brought_up_to_date() {
    let mut fresh = Connection::open_in_memory().unwrap();
    migrate(&mut fresh).unwrap();
    assert_eq!(tables(&fresh).len(), 29, "twenty-eight tables and an index");
    for earlier in 0..=MIGRATIONS.len() {
        let mut db = Connection::open_in_memory().unwrap();
        apply(&mut db, &MIGRATIONS[..earlier]).unwrap();
        assert_eq!(number(&db, "user_version").unwrap(), earlier as i64);
        migrate(&mut db).unwrap();
        migrate(&mut db).unwrap();
        assert_eq!(tables(&db), tables(&fresh), "from version {earlier}");
        assert_eq!(number(&db, "user_version").unwrap(), newest());
        assert_eq!(number(&db, "application_id").unwrap(), APPLICATION_ID);
    }
}

/// What the second version kept of a session is read as before, with nothing invented.
#[test]
fn what_an_earlier_version_kept_is_still_there() {
    let mut db = Connection::open_in_memory().unwrap();
    apply(&mut db, &MIGRATIONS[..2]).unwrap();
    db.execute_batch(
        "INSERT INTO sessions VALUES ('0a', '2026-11-02T09:30:00Z[UTC]', 1, 't', 'd', 's', 0, 1, 'lower', NULL, 1);
         INSERT INTO sets VALUES ('0a', 1, '2026-11-02T09:31:00Z[UTC]', 2, 'counter-reach', 'alone', 1, 'feet apart',
             NULL, 'firm', 'two hands', 'open', 60000, 5000, 60000);
         INSERT INTO plans VALUES ('0a', 1, 0, NULL);
         INSERT INTO cues VALUES ('0a', 1, 0, 0, 6123, 6123, 0, 'reach', 'left', 'reach.left');
         INSERT INTO deliveries VALUES ('0a', 1, 0, 293904, 293904, 48000, 6123, NULL), ('0a', 1, 1, NULL, NULL, NULL,
             NULL, 9000);
         INSERT INTO session_ends VALUES ('0a', '2026-11-02T09:33:00Z[UTC]', 3, 'finished', 1, 1, 1, 1, 60000, NULL,
             NULL, NULL, NULL, NULL, 0);",
    )
    .unwrap();
    migrate(&mut db).unwrap();
    let row = |sql: &str| db.query_row(sql, [], |row| row.get::<_, String>(0)).unwrap();
    let deliveries =
        "SELECT group_concat(concat_ws(' ', cue, heard_ms, shown_ms, asked_ms), '; ') FROM deliveries";
    assert_eq!(row(deliveries), "0 6123; 1 9000");
    assert_eq!(
        row("SELECT concat_ws(' ', at_ms, phrase, until_ms, strength, tell, practice) FROM cues"),
        "6123 reach.left 0"
    );
    assert_eq!(row("SELECT coalesce(channel, facing, second_task, 'nothing') FROM sets"), "nothing");
    assert_eq!(
        row("SELECT concat_ws(' ', why, cues_heard, cues_asked, grabs, falls) FROM session_ends"),
        "finished 1 0 0 0"
    );
    let refused = "INSERT INTO deliveries VALUES ('0a', 1, 2, NULL, NULL, NULL, NULL, 1, 2)";
    assert!(db.execute(refused, []).is_err(), "shown and asked at once");
    assert!(db.execute(&refused.replace("1, 2)", "NULL, 2)"), []).is_ok());
}

#[test]
fn a_migration_that_fails_changes_nothing() {
    let mut db = Connection::open_in_memory().unwrap();
    migrate(&mut db).unwrap();
    let before = tables(&db);
    let list = [MIGRATIONS, &["CREATE TABLE good (a) ", "CREATE TABLE broken ("]].concat();
    assert!(apply(&mut db, &list).is_err());
    assert_eq!(tables(&db), before);
    assert_eq!(number(&db, "user_version").unwrap(), newest());
}

#[test]
fn the_released_tables_are_not_edited() {
    // The SHA-256 of each list's file as it was released (sha256sum). Never change one: add a migration.
    let released = [
        "sha256:7921ee1ea13defab9d5c06fc46126cd84a92eb251ca83e2f80e8bfe5d514e5dc",
        "sha256:9772bff82652794ed835424a1d00770779e7e8528ac4110af2de89984813697e",
        "sha256:82823be98ebfb3cf2f227e57b9eace6cb98f146411586e20ece79de67a2d5cb1",
        "sha256:999199f2c8561aea05cbb6f347494d2cdb1389b5939f79ed3f57c45bba0bd96d",
        "sha256:776c5f0ce1bfa4c8f2aa38713399a7a397888b58b2f37034bfb644b202861caa",
        "sha256:e20a8b98a611d01d207f9a5f2b51e28d9e45e94b0490ff94840cfec616d463f9",
        "sha256:1d43bb803f152e940be621777e46c0f36090357f5e0fc507b087187f4af47a37",
    ];
    let now: Vec<String> = MIGRATIONS
        .iter()
        .map(|sql| counterpoise_core::plan::prescription::Digest::of(sql.as_bytes()).to_string())
        .collect();
    assert_eq!(now, released);
}
