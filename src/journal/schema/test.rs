//! Every earlier list of migrations leads to the same tables.

use rusqlite::Connection;

use super::super::lines;
use super::{APPLICATION_ID, ENTRIES, OLD, made_by, migrate, number};
use counterpoise_core::course::past::Past;
use counterpoise_core::record::Contents;

fn tables(db: &Connection) -> Vec<String> {
    let mut read = db.prepare("SELECT sql FROM sqlite_schema WHERE sql NOT NULL ORDER BY name").unwrap();
    read.query_map([], |row| row.get(0)).unwrap().map(Result::unwrap).collect()
}

#[test]
fn a_journal_made_by_any_earlier_version_is_brought_up_to_date() {
    let mut fresh = Connection::open_in_memory().unwrap();
    migrate(&mut fresh).unwrap();
    assert_eq!(tables(&fresh).len(), 5, "four tables, and the room that is kept free");
    for earlier in 0..=OLD.len() {
        let mut db = Connection::open_in_memory().unwrap();
        made_by(&db, earlier).unwrap();
        assert_eq!(number(&db, "user_version").unwrap(), earlier as i64);
        migrate(&mut db).unwrap();
        migrate(&mut db).unwrap();
        assert_eq!(tables(&db), tables(&fresh), "from version {earlier}");
        assert_eq!(number(&db, "user_version").unwrap(), ENTRIES);
        assert_eq!(number(&db, "application_id").unwrap(), APPLICATION_ID);
    }
}

/// A journal of a version that cannot be read is as it was: nothing is rewritten before all of it was understood.
#[test]
fn a_migration_that_fails_changes_nothing() {
    for version in 1..=OLD.len() {
        let mut db = Connection::open_in_memory().unwrap();
        made_by(&db, version).unwrap();
        db.execute_batch("INSERT INTO changes VALUES ('not a moment', 1, 'prescription in use: x', 'd')")
            .unwrap();
        let before = tables(&db);
        let error = migrate(&mut db).unwrap_err().to_string();
        assert!(error.starts_with(&format!("what version {version} kept cannot be read: ")), "{error}");
        assert!(error.contains("\"not a moment\""), "{error}");
        assert_eq!(tables(&db), before);
        assert_eq!(number(&db, "user_version").unwrap(), version as i64);
    }
}

/// An earlier version let in what there is not. Its journal is read, and 7 to "grabbed hold" counts as a grab.
#[test]
fn an_answer_out_of_range_in_an_old_journal_is_kept_named_and_counts_as_the_careful_one() {
    let mut db = Connection::open_in_memory().unwrap();
    made_by(&db, 1).unwrap();
    db.execute_batch(
        "INSERT INTO sessions VALUES ('01010101010101010101010101010101', '2026-11-02T09:30:00Z[UTC]', 1793611800000,
             'One month', 'a digest', 'a seed', 0, 1, 'lower', NULL, 1);
         INSERT INTO sets VALUES ('01010101010101010101010101010101', 1, '2026-11-02T09:31:00Z[UTC]', 1793611860000,
             'counter-reach', 'alone', 3, 'feet together', NULL, 'firm', 'one hand', 'open', 47000, 5000, 61000);
         INSERT INTO answers VALUES ('01010101010101010101010101010101', 0, 1, 'grabbed hold or nearly fell', 7);
         INSERT INTO answers VALUES ('01010101010101010101010101010101', 1, 1, 'unwell', 0);",
    )
    .unwrap();
    migrate(&mut db).unwrap();
    let contents = Contents::of(lines::all(&db).unwrap());
    assert_eq!(contents.misfits.len(), 1);
    assert!(contents.unread()[0].contains("grabbed hold or nearly fell"), "{:?}", contents.unread());
    let session = &Past::of(&contents).sessions[0];
    assert!(session.near_fall() && !session.is_fine());
}

#[test]
fn the_released_tables_are_not_edited() {
    // The SHA-256 of each list's file as it was released (sha256sum).
    let released = [
        "sha256:7921ee1ea13defab9d5c06fc46126cd84a92eb251ca83e2f80e8bfe5d514e5dc",
        "sha256:9772bff82652794ed835424a1d00770779e7e8528ac4110af2de89984813697e",
        "sha256:82823be98ebfb3cf2f227e57b9eace6cb98f146411586e20ece79de67a2d5cb1",
        "sha256:999199f2c8561aea05cbb6f347494d2cdb1389b5939f79ed3f57c45bba0bd96d",
        "sha256:776c5f0ce1bfa4c8f2aa38713399a7a397888b58b2f37034bfb644b202861caa",
        "sha256:e20a8b98a611d01d207f9a5f2b51e28d9e45e94b0490ff94840cfec616d463f9",
        "sha256:1d43bb803f152e940be621777e46c0f36090357f5e0fc507b087187f4af47a37",
    ];
    let now: Vec<String> = OLD
        .iter()
        .map(|sql| counterpoise_core::plan::prescription::Digest::of(sql.as_bytes()).to_string())
        .collect();
    assert_eq!(now, released);
}
