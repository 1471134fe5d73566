//! Results of balance tests: into their table and back.

use jiff::ZonedDateTime;
use rusqlite::{Connection, params};

use super::table::{Added, all, checked, checked_or_null, insert};
use super::{Journal, JournalError};
use counterpoise_core::health::assessment::{Age, Company, Reading, Sex};
use counterpoise_core::record::{BalanceRow, Stamp};

impl Journal {
    /// Keeps a result.
    ///
    /// # Errors
    /// If the journal cannot be written.
    pub fn keep_balance_test(
        &mut self,
        at: &ZonedDateTime,
        reading: Reading,
        (age, sex): (Option<Age>, Option<Sex>),
        (company, by_whom): (Company, &str),
    ) -> Result<(), JournalError> {
        let row = BalanceRow {
            at: Stamp::from(at),
            test: reading.test(),
            value: reading.value(),
            age: age.map(Age::years),
            sex,
            company,
            by_whom: by_whom.to_owned(),
        };
        self.change(|db| insert_balance_test(db, &row))
    }

    /// Every result, oldest first.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn balance_tests(&self) -> Result<Vec<BalanceRow>, JournalError> {
        self.consistent(balance_tests)
    }
}

pub(super) fn insert_balance_test(db: &Connection, row: &BalanceRow) -> Added {
    let columns = "balance_tests (at, at_ms, test, value, age, sex, company, by_whom)";
    let BalanceRow { at, test, value, age, sex, company, by_whom } = row;
    let sex = sex.map(Sex::name);
    let values = params![at.text(), at.ms(), test.name(), value, age, sex, company.name(), by_whom];
    insert(db, columns, values)
}

pub(super) fn balance_tests(db: &Connection) -> rusqlite::Result<Vec<BalanceRow>> {
    let sql = "SELECT at, test, value, age, sex, company, by_whom FROM balance_tests ORDER BY at_ms, test";
    all(db, sql, [], |row| {
        Ok(BalanceRow {
            at: checked(row, 0)?,
            test: checked(row, 1)?,
            value: row.get(2)?,
            age: row.get(3)?,
            sex: checked_or_null(row, 4)?,
            company: checked(row, 5)?,
            by_whom: row.get(6)?,
        })
    })
}

#[cfg(test)]
mod test {
    use crate::journal::export::json;
    use crate::journal::import::import;
    use crate::journal::sample::open;
    use crate::journal::{Folder, Journal};
    use counterpoise_core::health::assessment::{Company, Reading, Sex, Test};

    fn filled(place: &std::path::Path) -> Journal {
        let mut journal = open(&Folder::open_in(place).unwrap());
        let monday = "2026-11-02T08:00:00-05:00[America/New_York]".parse().unwrap();
        let sex = Some(Sex::Female);
        let person = (Some("72".parse().unwrap()), sex);
        let rises = Reading::read(Test::ChairStand, "9").unwrap();
        journal.keep_balance_test(&monday, rises, person, (Company::Elsewhere, "K. L.")).unwrap();
        let leg = Reading::read(Test::OneLeg, "unable").unwrap();
        journal.keep_balance_test(&monday, leg, (None, None), (Company::Alone, "")).unwrap();
        journal
    }

    fn exported(journal: &Journal) -> String {
        let mut out = Vec::new();
        json(journal, &mut out).unwrap();
        String::from_utf8(out).unwrap()
    }

    #[test]
    fn results_come_back_and_are_taken_in_once() {
        let (here, there) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
        let journal = filled(here.path());
        let rows = journal.balance_tests().unwrap();
        assert_eq!((rows.len(), rows[0].test, rows[0].value), (2, Test::ChairStand, Some(9)));
        assert_eq!(rows[0].dated().unwrap().day.to_string(), "2026-11-02");
        assert_eq!((rows[1].value, rows[1].dated().unwrap().reading.value()), (None, None));
        let from = exported(&journal);
        let mut journal = open(&Folder::open_in(there.path()).unwrap());
        for _ in 0..2 {
            import(&mut journal, "journal.json", from.as_bytes()).unwrap();
            assert_eq!(exported(&journal), from);
        }
        let documentation = include_str!("../../docs/journal.md");
        for field in ["tests", "company", "by_whom"] {
            assert!(
                from.contains(&format!("\"{field}\"")) && documentation.contains(&format!("`{field}`")),
                "{field}"
            );
        }
    }

    #[test]
    fn a_result_that_its_test_cannot_give_is_refused_whole() {
        let (here, there) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
        let from = exported(&filled(here.path()));
        let mut journal = open(&Folder::open_in(there.path()).unwrap());
        let empty = exported(&journal);
        for (good, bad) in [("\"value\": 9,", "\"value\": 61,"), ("\"age\": 72,", "\"age\": 12,")] {
            let other = from.replace(good, bad);
            assert_ne!(other, from);
            let refused = import(&mut journal, "journal.json", other.as_bytes()).unwrap_err().to_string();
            assert!(refused.contains("balance test") && refused.contains("2026-11-02"), "{refused}");
            assert_eq!(exported(&journal), empty);
        }
        import(&mut journal, "journal.json", from.as_bytes()).unwrap();
        let other = from.replace("\"value\": 9,", "\"value\": 10,");
        let refused = import(&mut journal, "journal.json", other.as_bytes()).unwrap_err().to_string();
        assert!(refused.contains("differs from the one in this journal"), "{refused}");
        assert_eq!(exported(&journal), from);
    }
}
