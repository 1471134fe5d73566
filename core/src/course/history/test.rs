//! A correction counts, is kept beside the entry, and never makes practice freer than the entry did.

use jiff::SignedDuration;

use super::corrected;
use crate::course::past::{Past, PastSession};
use crate::course::progression::Barriers;
use crate::health::lock::{HOLD, Hold, Lock};
use crate::record::sample::{correction, right, right_response, with_partner};
use crate::record::{
    Answer, Corrected, CorrectionRow, Effort, Id, Numbered, Question, Response, SessionEnd, SessionRecord,
    Symptom, Times,
};

/// Alone, one set, with these answers after it.
fn alone(answers: &[(Question, u8)], why: SessionEnd) -> SessionRecord {
    let said: Vec<_> = answers.iter().map(|(question, answer)| (*question, Some(*answer))).collect();
    crate::record::sample::alone(&said, why)
}

fn barriers(session: PastSession, since_known: SignedDuration) -> Barriers {
    let now = session.known() + since_known;
    let day = session.day;
    Barriers::of(&Past { sessions: vec![session], ..Past::default() }, now, day)
}

/// What is barred at the last moment of a hold, and at the first after it.
fn at_the_boundary(record: &SessionRecord, corrections: &[CorrectionRow]) -> (Vec<Lock>, Vec<Hold>) {
    let session = corrected(record, corrections).unwrap().0;
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
    let kept = alone(&[(Question::Effort, 4)], SessionEnd::Finished);
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
fn of_two_corrections_of_one_thing_the_last_holds_whichever_it_is() {
    let kept = alone(&[(Question::Effort, 4), (Question::HeldOn, 1)], SessionEnd::Finished);
    let after = |corrections: &[CorrectionRow]| {
        let (session, record) = corrected(&kept, corrections).unwrap();
        assert_eq!(
            record.answers[0].answer,
            Answer::Effort(session.sets[0].effort),
            "record and rules see the same"
        );
        (session.sets[0].effort.map(Effort::number), session.sets[0].held_on.map(Times::number))
    };
    let (five, seven) = (right(0, Question::Effort, Some(5)), right(1, Question::Effort, Some(7)));
    let (not_said, held) = (right(2, Question::Effort, None), right(3, Question::HeldOn, Some(2)));
    let all = |rows: [&CorrectionRow; 3]| after(&rows.map(Clone::clone));
    assert_eq!(after(&[]), (Some(4), Some(1)));
    assert_eq!(all([&five, &seven, &held]), (Some(7), Some(2)));
    assert_eq!(all([&seven, &held, &five]), (Some(5), Some(2)), "what is between them is another thing");
    assert_eq!(all([&five, &seven, &not_said]), (None, Some(1)));
    assert_eq!(all([&not_said, &five, &seven]), (Some(7), Some(1)));

    let pushes = with_partner(&[Some(Response::OneStep), None]);
    let noted =
        |corrections: &[CorrectionRow]| corrected(&pushes, corrections).unwrap().0.sets[0].responses.clone();
    let (in_place, touched) =
        (right_response(0, 1, Some(Response::InPlace)), right_response(1, 1, Some(Response::Touched)));
    let first = Some(Response::OneStep);
    assert_eq!(noted(&[in_place.clone(), touched.clone()]), [first, Some(Response::Touched)]);
    assert_eq!(noted(&[touched.clone(), in_place]), [first, Some(Response::InPlace)]);
    assert_eq!(noted(&[touched, right_response(2, 1, None)]), [first, None]);

    let whole =
        |rows: [Corrected; 2]| corrected(&kept, &rows.map(|what| correction(0, what))).unwrap().0.discounted;
    assert!(whole([Corrected::CountsAgain, Corrected::SetAside]));
    assert!(!whole([Corrected::SetAside, Corrected::CountsAgain]));
}

#[test]
fn a_correction_changes_what_it_names_and_nothing_else() {
    let kept = alone(&[(Question::Effort, 4)], SessionEnd::Finished);
    let of_other = CorrectionRow { session: Id::from_bytes([2; 16]), ..right(0, Question::Effort, Some(9)) };
    let names = |replaces| CorrectionRow { replaces, ..right(0, Question::Effort, Some(9)) };
    let of_another_answer = names(vec![Id::of("another answer")]);
    let of_nothing = names(Vec::new());
    let of_another_question =
        CorrectionRow { question: Some(Question::HeldOn), ..right(0, Question::Effort, Some(2)) };
    for row in [
        of_other,
        of_another_answer,
        of_nothing,
        of_another_question,
        right_response(0, 0, Some(Response::Fell)),
    ] {
        let (session, record) = corrected(&kept, std::slice::from_ref(&row)).unwrap();
        assert_eq!(*record, kept, "{row:?}");
        assert_eq!(Some(session), PastSession::from_record(&kept), "{row:?}");
    }
}

#[test]
fn of_two_answers_to_one_question_the_first_that_was_said_counts_and_a_correction_is_of_both() {
    let said = [
        (Question::Effort, None),
        (Question::Effort, Some(4)),
        (Question::Effort, Some(9)),
        (Question::Symptom, Some(5)),
        (Question::Symptom, Some(1)),
    ];
    let kept = crate::record::sample::alone(&said, SessionEnd::Unwell);
    let session = PastSession::from_record(&kept).unwrap();
    assert_eq!((session.sets[0].effort, session.symptom), (Effort::numbered(4), Some(Symptom::Dizzy)));
    let locked = corrected::<CorrectionRow>(&kept, &[]).unwrap().0.locked_before;
    assert_eq!(locked, [Lock::Chest], "what another answer tells stays locked");
    let (right, record) = corrected(&kept, &[right(0, Question::Effort, Some(6))]).unwrap();
    assert_eq!(right.sets[0].effort, Effort::numbered(6));
    assert_eq!(record.answers[..3].iter().map(|row| row.answer.number()).collect::<Vec<_>>(), [Some(6); 3]);
}
