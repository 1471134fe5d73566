//! A correction counts, is kept beside the entry, and never makes practice freer than the entry did.

use jiff::SignedDuration;
use proptest::prelude::*;
use tempfile::tempdir;

use super::super::past::corrected;
use super::super::row::Line;
use super::super::sample::{answer, any_session, begun, expected, id, keep, moment, open, set, set_ended};
use super::super::{Corrected, CorrectionRow, Folder, Journal};
use counterpoise_core::course::past::{Past, PastSession};
use counterpoise_core::course::progression::Barriers;
use counterpoise_core::health::lock::{HOLD, Hold, Lock};
use counterpoise_core::record::{Question, Response, SessionEnd, SetEnd};

/// Alone, one set, with these answers after it.
fn alone(answers: &[(Question, u8)], why: SessionEnd) -> Vec<Line> {
    let mut lines = vec![
        begun(moment(0)),
        set(1, moment(60_000)),
        set_ended(1, moment(107_000), 47_000, SetEnd::Completed),
    ];
    for (place, (question, said)) in (0..).zip(answers) {
        lines.push(answer(place, Some(1), *question, Some(*said)));
    }
    lines.push(Line::SessionEnded { at: moment(240_000), why });
    lines
}

fn correction(nth: i64, what: Corrected) -> CorrectionRow {
    CorrectionRow {
        at: moment(1_000_000 + nth),
        session: id(1),
        what,
        set: None,
        question: None,
        cue: None,
        right: None,
        reason: "wrong key".into(),
    }
}

fn right(nth: i64, question: Question, answer: Option<u8>) -> CorrectionRow {
    let right = answer.map(|answer| answer.to_string());
    CorrectionRow { set: Some(1), question: Some(question), right, ..correction(nth, Corrected::Answer) }
}

fn barriers(session: PastSession, since_known: SignedDuration) -> Barriers {
    let now = session.known() + since_known;
    let day = session.day;
    Barriers::of(&Past { sessions: vec![session], lifted: Vec::new() }, now, day)
}

/// What is barred at the last moment of a hold, and at the first after it.
fn at_the_boundary(lines: &[Line], corrections: &[CorrectionRow]) -> (Vec<Lock>, Vec<Hold>) {
    let session = corrected(&expected(&id(1), lines), corrections).unwrap().0;
    let last = barriers(session.clone(), HOLD - SignedDuration::from_millis(1));
    let after = barriers(session, HOLD);
    let locks = |barriers: &Barriers| barriers.locks.iter().map(|lock| lock.what).collect::<Vec<_>>();
    assert_eq!(locks(&last), locks(&after), "time lifts no lock");
    assert!(after.holds.is_empty(), "a correction makes no hold longer than 48 hours");
    (locks(&last), last.holds.iter().map(|hold| hold.what).collect())
}

#[test]
fn a_hold_runs_to_its_last_millisecond_although_what_made_it_was_corrected() {
    use Question::{Grabbed, Unwell};
    let both = alone(&[(Grabbed, 1), (Unwell, 1)], SessionEnd::StoppedOther);
    let held = [Hold::Grab, Hold::Unwell];
    assert_eq!(at_the_boundary(&both, &[]).1, held);
    let no = [right(0, Grabbed, Some(0)), right(1, Unwell, Some(0))];
    assert_eq!(at_the_boundary(&both, &no).1, held);
    assert_eq!(at_the_boundary(&both, &[right(0, Grabbed, None), right(1, Unwell, None)]).1, held);
    assert_eq!(at_the_boundary(&both, &[correction(0, Corrected::SetAside)]).1, held);
    // One that a correction made is taken back by no later one either.
    let calm = alone(&[(Grabbed, 0), (Unwell, 0)], SessionEnd::Finished);
    assert_eq!(at_the_boundary(&calm, &[]).1, []);
    let there_and_back = [right(0, Grabbed, Some(1)), right(1, Grabbed, Some(0))];
    assert_eq!(at_the_boundary(&calm, &there_and_back).1, [Hold::Grab]);
}

#[test]
fn a_lock_stays_whatever_is_corrected_and_one_that_comes_out_later_stands() {
    use Question::{Hurt, Symptom};
    let fell = alone(&[(Hurt, 1), (Symptom, 1)], SessionEnd::Fell);
    let locked = [Lock::FallHurt, Lock::Chest];
    assert_eq!(at_the_boundary(&fell, &[]).0, locked);
    let (locks, holds) = at_the_boundary(&fell, &[right(0, Hurt, Some(0)), right(1, Symptom, Some(5))]);
    assert!(locked.iter().all(|lock| locks.contains(lock)) && holds == [Hold::Fall], "{locks:?} {holds:?}");
    assert_eq!(at_the_boundary(&fell, &[correction(0, Corrected::SetAside)]).0, locked);
    let mild = alone(&[(Hurt, 0)], SessionEnd::Fell);
    assert_eq!(at_the_boundary(&mild, &[]), (vec![], vec![Hold::Fall]));
    let hurt = [right(0, Hurt, Some(1)), right(1, Hurt, Some(0))];
    assert_eq!(at_the_boundary(&mild, &hurt).0, [Lock::FallHurt], "said once is said");
}

#[test]
fn what_was_set_aside_counts_again_by_a_new_entry_and_nothing_is_changed() {
    let kept = expected(&id(1), &alone(&[(Question::Effort, 4)], SessionEnd::Finished));
    let counts = |corrections: &[CorrectionRow]| {
        corrected(&kept, corrections).is_some_and(|(session, _)| session.is_practice())
    };
    let rows = [
        correction(0, Corrected::SetAside),
        correction(1, Corrected::CountsAgain),
        correction(2, Corrected::SetAside),
    ];
    assert_eq!([0, 1, 2, 3].map(|count| counts(&rows[..count])), [true, false, true, false]);
    assert_eq!(rows[1].sentence(), "counts again, after it was set aside (wrong key)");
    assert!(rows[1].is_sound() && !CorrectionRow { set: Some(1), ..rows[1].clone() }.is_sound());
}

#[test]
fn the_last_correction_holds_although_the_clock_was_set_back() {
    let place = tempdir().unwrap();
    let mut journal = open(&Folder::open_in(place.path()).unwrap());
    keep(&mut journal, &id(1), &alone(&[(Question::Effort, 4)], SessionEnd::Finished));
    let before = journal.find("last").unwrap();
    for (nth, effort) in [(50, 5), (-9_000_000, 6), (50, 7)] {
        journal.keep_correction(&right(nth, Question::Effort, Some(effort))).unwrap();
    }
    let effort = |journal: &Journal| {
        let record = journal.find("last").unwrap();
        journal.as_corrected(&record).unwrap().0.answers[0].answer
    };
    assert_eq!((journal.corrections().unwrap().len(), effort(&journal)), (3, Some(7)));
    assert_eq!(journal.find("last").unwrap(), before, "the entry is as it was kept");
    assert_eq!(journal.past().unwrap(), journal.recent_past().unwrap());
}

fn any_correction() -> impl Strategy<Value = CorrectionRow> {
    let question = prop::sample::select(vec![
        Question::Grabbed,
        Question::HeldOn,
        Question::Effort,
        Question::Unwell,
        Question::WhyStopped,
        Question::Symptom,
        Question::Hurt,
    ]);
    let what = prop::sample::select(Corrected::ALL);
    let response = prop::option::of(prop::sample::select(Response::ALL));
    (
        what,
        prop::sample::select(vec![None, Some(1), Some(1), Some(2), Some(3)]),
        question,
        prop::option::of(0_u8..7),
        0_u16..6,
        response,
    )
        .prop_map(|(what, set, question, answer, cue, response)| match what {
            Corrected::SetAside | Corrected::CountsAgain => correction(0, what),
            Corrected::Answer => CorrectionRow { set, ..right(0, question, answer) },
            Corrected::Response => CorrectionRow {
                set: set.or(Some(1)),
                cue: Some(cue),
                right: response.map(|response| response.name().to_owned()),
                ..correction(0, what)
            },
        })
}

/// Any session, and as often one in which much happened.
fn any_lines() -> impl Strategy<Value = Vec<Line>> {
    use Question::{Grabbed, Hurt, Symptom, Unwell, WhyStopped};
    let answers = (0_u8..2, 0_u8..2, 0_u8..2, 1_u8..7, 1_u8..4);
    let much = (answers, prop::sample::select(SessionEnd::ALL)).prop_map(
        |((grabbed, unwell, hurt, symptom, why), end)| {
            let answers =
                [(Grabbed, grabbed), (Unwell, unwell), (Hurt, hurt), (Symptom, symptom), (WhyStopped, why)];
            alone(&answers, end)
        },
    );
    prop_oneof![any_session().prop_map(|(_, lines)| lines), much]
}

proptest! {
    #[test]
    fn no_correction_lifts_a_lock_or_shortens_a_hold(
        lines in any_lines(),
        corrections in prop::collection::vec(any_correction(), 1..6),
    ) {
        let record = expected(&id(1), &lines);
        let barred = |count: usize| {
            let (session, _) = corrected(&record, &corrections[..count]).unwrap();
            barriers(session, HOLD - SignedDuration::from_millis(1))
        };
        for (count, correction) in corrections.iter().enumerate() {
            let (before, after) = (barred(count), barred(count + 1));
            for lock in &before.locks {
                prop_assert!(after.locks.contains(lock), "{:?}", correction);
            }
            for hold in &before.holds {
                let same = |other: &&counterpoise_core::course::progression::ActiveHold| other.what == hold.what;
                let until = after.holds.iter().find(same).map(|other| other.until);
                prop_assert!(until >= Some(hold.until), "{:?}", correction);
            }
            prop_assert!(after.not_before >= before.not_before);
        }
    }
}
