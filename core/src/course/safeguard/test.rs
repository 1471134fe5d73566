//! The journal and the safety record together: the stricter holds.

use proptest::prelude::*;

use super::{lifts, marks_of_lines, unknown};
use crate::course::past::sample::{at, clean, past, prescription};
use crate::course::past::{Barrier, Lifted, PastSession};
use crate::course::progression::Decision;
use crate::course::trainee::Trainee;
use crate::health::lock::{Hold, Lock, Restriction};
use crate::record::{Id, Mark, Symptom, What};

const JOURNAL: Id = Id::from_bytes([3; 16]);

fn id(byte: u8) -> Id {
    Id::from_bytes([byte; 16])
}

fn session(byte: u8, day: i8) -> PastSession {
    clean(&prescription(), &at(day), &[1, 2, 2]).but(|session| session.id = id(byte).to_string())
}

fn with_chest(byte: u8, day: i8) -> PastSession {
    session(byte, day).but(|session| session.symptom = Some(Symptom::Chest))
}

fn knows(sessions: Vec<PastSession>, lifted: Vec<Lifted>) -> Trainee {
    let mut past = past(sessions);
    past.lifted = lifted;
    Trainee::new(past, &[], Vec::new())
}

fn numbered(marks: Vec<Mark>) -> Vec<Mark> {
    (1..).zip(marks).map(|(number, mark)| Mark { number, ..mark }).collect()
}

fn locks(known: &Trainee, day: i8) -> Vec<Lock> {
    known.barriers(&at(day)).locks.iter().map(|lock| lock.what).collect()
}

#[test]
fn what_the_journal_knows_itself_changes_nothing() {
    let known = knows(vec![session(1, 2), with_chest(2, 4)], Vec::new());
    let marks = numbered(known.marks(JOURNAL));
    assert_eq!(marks[0].what, What::Bars(Barrier::Lock(Lock::Chest)));
    let (same, more) = known.clone().beside(&marks);
    assert_eq!((same.past, more), (known.past, vec![]));
}

#[test]
fn a_lock_that_the_journal_does_not_know_holds_until_the_mark_itself_is_cleared() {
    let marks = numbered(knows(vec![with_chest(2, 4)], Vec::new()).marks(JOURNAL));
    // The session is gone; or it is there and does not lock; or the journal calls it cleared and the record does not.
    let cleared = vec![Lifted { session: id(2).to_string(), what: Barrier::Lock(Lock::Chest) }];
    for (journal, lifted) in
        [(vec![], vec![]), (vec![session(2, 4)], vec![]), (vec![with_chest(2, 4)], cleared)]
    {
        let (under, more) = knows(journal.clone(), lifted.clone()).beside(&marks);
        assert_eq!(locks(&under, 30), [Lock::Chest]);
        assert_eq!(more.len(), 1, "and it is told");
        assert_eq!(under.next(&prescription(), &at(30)).decision, Decision::Locked);
        let clearable: Vec<Lifted> = under.clearable(&at(30)).into_iter().map(|one| one.lifted).collect();
        assert_eq!(
            clearable,
            [Lifted { session: marks[0].id().to_string(), what: Barrier::Lock(Lock::Chest) }]
        );
        assert!(lifts(&clearable[0].session, clearable[0].what, &marks[0]));
        let (open, more) = knows(journal, [lifted, clearable].concat()).beside(&marks);
        assert_eq!((locks(&open, 30), more), (vec![], vec![]));
        assert_eq!(open.over(&marks), [&marks[0]], "so it is cleared in the record too");
    }
}

#[test]
fn holds_restrictions_and_ended_days_hold_alone_too() {
    let of = |what| Mark {
        number: 1,
        what,
        at_ms: at(4).timestamp().as_millisecond(),
        day: at(4).date(),
        journal: JOURNAL,
        session: id(2),
    };
    let under = |what| knows(Vec::new(), Vec::new()).beside(&[of(what)]).0;
    let held = under(What::Holds(Hold::Grab));
    assert_eq!(held.next(&prescription(), &at(5)).decision, Decision::Rest);
    assert!(
        held.next(&prescription(), &at(6)).is_open() && held.barriers(&at(5)).holds[0].what == Hold::Grab
    );
    for what in [Restriction::Fall, Restriction::Grabs] {
        let barriers = under(What::Bars(Barrier::Restriction(what))).barriers(&at(30));
        assert_eq!(barriers.restrictions.iter().map(|one| one.what).collect::<Vec<_>>(), [what]);
    }
    // A clock that was years ahead: once its date is cleared, the hold runs from the clearance.
    let ahead =
        Mark { at_ms: at(4).timestamp().as_millisecond() + 400 * 86_400_000, ..of(What::Holds(Hold::Grab)) };
    let name = ahead.id().to_string();
    let mut cleared = knows(Vec::new(), vec![Lifted { session: name.clone(), what: Barrier::Date }]);
    cleared.past.dates_cleared = vec![(name, (at(6).timestamp(), at(6).date()))];
    let cleared = cleared.beside(&[ahead]).0;
    assert_eq!((cleared.barriers(&at(7)).holds.len(), cleared.barriers(&at(8)).holds.len()), (1, 0));
    let ended = under(What::EndsDay);
    assert!(!ended.next(&prescription(), &at(4)).is_open());
    assert!(ended.next(&prescription(), &at(5)).is_open());
    assert_eq!(locks(&under(What::Bars(Barrier::Clinician)), 30), [Lock::Lost]);
    let lost = unknown(JOURNAL, id(9), at(4).timestamp(), at(4).date());
    assert_eq!(locks(&knows(Vec::new(), Vec::new()).beside(&[lost]).0, 30), [Lock::Lost]);
}

#[test]
fn no_line_bars_nothing() {
    assert_eq!(marks_of_lines(&[], id(1), JOURNAL), []);
}

proptest! {
    /// Whatever of a journal is lost and whatever of a record: what either of the two has left bars.
    #[test]
    fn the_stricter_of_both_holds(
        kinds in proptest::collection::vec((0_usize..5, any::<bool>(), any::<bool>()), 1..8)
    ) {
        let symptom = [None, Some(Symptom::Chest), Some(Symptom::Breath), Some(Symptom::Nerve), Some(Symptom::Faint)];
        let all: Vec<PastSession> = (1_u8..).zip(&kinds).map(|(nth, (kind, ..))| {
            session(nth, nth as i8 + 1).but(|session| session.symptom = symptom[*kind])
        }).collect();
        let marks = numbered(knows(all.clone(), Vec::new()).marks(JOURNAL));
        let kept = |nth: &usize| kinds[*nth].1;
        let journal: Vec<PastSession> = (0..all.len()).filter(kept).map(|nth| all[nth].clone()).collect();
        let noted = |mark: &Mark| kinds[usize::from(mark.session.as_bytes()[0]) - 1].2;
        let record: Vec<Mark> = marks.iter().copied().filter(noted).collect();
        let (under, _) = knows(journal, Vec::new()).beside(&record);
        let mut expected: Vec<Lock> = kinds.iter().filter(|(_, kept, noted)| *kept || *noted)
            .filter_map(|(kind, ..)| symptom[*kind].and_then(Symptom::lock)).collect();
        let mut found = locks(&under, 30);
        expected.sort_unstable();
        found.sort_unstable();
        prop_assert_eq!(found, expected);
    }
}
