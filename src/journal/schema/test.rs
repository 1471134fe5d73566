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
    assert_eq!(tables(&fresh).len(), 12, "eleven tables and an index");
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
    ];
    let now: Vec<String> =
        MIGRATIONS.iter().map(|sql| crate::prescription::Digest::of(sql.as_bytes()).to_string()).collect();
    assert_eq!(now, released);
}
