//! Corrections are kept beside the entry, in order, and whatever a session was none makes practice freer than the entry
//! did. Which correction changes what is tested beside the rule, in `course::history`.

use jiff::SignedDuration;
use proptest::prelude::*;
use tempfile::tempdir;

use super::super::sample::{
    answer, any_answer, any_session, begun, expected, id, keep, moment, open, set, set_ended,
};
use super::super::{Folder, Journal};
use counterpoise_core::course::history::corrected;
use counterpoise_core::course::past::{Past, PastSession};
use counterpoise_core::course::progression::Barriers;
use counterpoise_core::health::lock::HOLD;
use counterpoise_core::record::sample::{correction, right};
use counterpoise_core::record::{Corrected, CorrectionRow, Line, Question, Response, SessionEnd, SetEnd};

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

fn barriers(session: PastSession, since_known: SignedDuration) -> Barriers {
    let now = session.known() + since_known;
    let day = session.day;
    Barriers::of(&Past { sessions: vec![session], lifted: Vec::new() }, now, day)
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
        journal.as_corrected(&record).unwrap().0.answers[0].answer.number()
    };
    assert_eq!((journal.corrections().unwrap().len(), effort(&journal)), (3, Some(7)));
    assert_eq!(journal.find("last").unwrap(), before, "the entry is as it was kept");
    assert_eq!(journal.past().unwrap(), journal.recent_past().unwrap());
}

fn any_correction() -> impl Strategy<Value = CorrectionRow> {
    let what = prop::sample::select(Corrected::ALL);
    let response = prop::option::of(prop::sample::select(Response::ALL));
    (
        what,
        prop::sample::select(vec![None, Some(1), Some(1), Some(2), Some(3)]),
        any_answer(),
        0_u16..6,
        response,
    )
        .prop_map(|(what, set, answer, cue, response)| match what {
            Corrected::SetAside | Corrected::CountsAgain => correction(0, what),
            Corrected::Answer => correction(0, what).to(set, answer),
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
