//! The `journal list` command: all sessions as a table that fits 80 columns, oldest first.

use counterpoise_core::blocks::{Block, Table};
use counterpoise_core::record::SessionRecord;

/// One row a session.
pub(super) fn page(sessions: &[SessionRecord]) -> Vec<Block> {
    if sessions.is_empty() {
        return vec![Block::line("Nothing has been practiced yet.")];
    }
    let head = ["Session", "Begun", "Sets", "Calls", "Work", "How it ended"];
    vec![Block::Table(Table { labels: 2, ..Table::new("", &head, sessions.iter().map(row).collect()) })]
}

fn row(session: &SessionRecord) -> Vec<String> {
    let start = &session.start;
    // What was typed in has a day and no hour.
    let day = start.begun.day().filter(|_| start.is_by_hand());
    let begun = day.map_or_else(|| start.begun.minute(), |day| day.to_string());
    let mut row = vec![session.id.short(), begun];
    row.extend(match &session.end {
        Some(end) => [
            format!("{} of {}", end.sets_completed, end.sets_planned),
            (end.cues_heard + end.cues_shown).to_string(),
            minutes(end.active_ms),
            end.why.to_string(),
        ],
        None => ["", "", "", "going on"].map(str::to_owned),
    });
    row
}

/// Minutes and seconds, rounded down: `3:07`.
pub(super) fn minutes(ms: u64) -> String {
    format!("{}:{:02}", ms / 60_000, ms / 1000 % 60)
}

#[cfg(test)]
mod test {
    use super::page;
    use crate::cli::page::text;
    use crate::journal::Folder;
    use crate::journal::sample::{begun, id, keep, moment, open, session};
    use counterpoise_core::record::{Entry, SessionEnd};

    #[test]
    fn the_list_fits_eighty_columns() {
        let place = tempfile::tempdir().unwrap();
        let mut journal = open(&Folder::open_in(place.path()).unwrap());
        keep(&mut journal, &id(1), &session());
        let longest = SessionEnd::ALL.iter().max_by_key(|end| end.name().len()).unwrap();
        let ended = Entry::SessionEnded { at: moment(500_000), why: *longest };
        keep(&mut journal, &id(2), &[begun(moment(400_000)), ended]);
        keep(&mut journal, &id(3), &[begun(moment(600_000))]);
        let text = text::of(&page(&journal.contents().unwrap().sessions));
        insta::assert_snapshot!(text, @r"
        Session   Begun               Sets  Calls  Work  How it ended
        01010101  2026-11-02 09:30  1 of 2      4  1:02  stopped for another reason
        02020202  2026-11-02 09:36  0 of 2      0  0:00  grabbed hold or nearly fell
        03030303  2026-11-02 09:40                       going on
        ");
    }
}
