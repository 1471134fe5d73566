//! One fold: whichever way lines come, whatever their clocks say, and whoever wrote them.

use proptest::prelude::*;

use super::Contents;
use crate::course::past::Past;
use crate::course::progression::Barriers;
use crate::course::summaries::Summaries;
use crate::health::lock::Lock;
use crate::health::suitability::{Answer as TopicAnswer, Reply, Topic};
use crate::plan::drill::Form;
use crate::plan::prescription::Digest;
use crate::record::sample::moment;
use crate::record::{
    Answer, Barrier, Change, ChangeRow, ClearanceRow, Corrected, CorrectionRow, CueRow, Decided, Decision,
    Delivery, Entry, FORMAT, Given, Id, LiftedRow, Line, Mishap, MishapRow, Numbered, Question, Response,
    ResponseRow, SessionBegun, SessionEnd, SetEnd, SetEndRow, SuitabilityRow, Told, TopicRow,
};
use crate::units::Millis;

const WRITERS: [[u8; 16]; 3] = [[1; 16], [2; 16], [3; 16]];

fn session(byte: u8) -> Id {
    Id::from_bytes([byte; 16])
}

fn line(writer: usize, counter: u64, at_ms: i64, session: Option<Id>, entry: Entry) -> Line {
    let own = session.filter(|_| matches!(entry, Entry::SessionBegun(_)));
    let id = own.unwrap_or_else(|| Id::of(&format!("{writer} {counter} {at_ms} {session:?} {entry:?}")));
    Line {
        id,
        writer: Id::from_bytes(WRITERS[writer]),
        counter,
        at_ms,
        format: FORMAT,
        session,
        entry: entry.into(),
    }
}

fn begun(byte: u8) -> Entry {
    Entry::SessionBegun(SessionBegun {
        begun: moment(i64::from(byte) * 1_000_000),
        title: "One month".to_owned(),
        digest: Digest::of(b"a prescription"),
        sets_planned: 2,
        precautions: Vec::new(),
        drawn: None,
    })
}

fn set(number: u8) -> Entry {
    let record = crate::record::sample::alone(&[], SessionEnd::Finished);
    let set = crate::record::SetRow { number, ..record.sets[0].start.clone() };
    Entry::SetBegun { set, cues: Vec::new() }
}

fn answered(question: Question, number: Option<u8>) -> Entry {
    Entry::answered(Some(1), Answer::from_number(question, number).unwrap())
}

fn ended(set: u8, why: SetEnd) -> Entry {
    Entry::SetEnded { set, end: SetEndRow { at: moment(60_000), worked_ms: 47_000, why } }
}

fn cleared(of: Id, what: Lock, told_by: Vec<Id>) -> Entry {
    let lifted = vec![LiftedRow { locked_by: of.to_string(), what: Barrier::Lock(what), told_by }];
    Entry::Cleared(ClearanceRow { at: moment(9), who: "K. L.".into(), reason: "seen".into(), lifted })
}

fn corrected(of: Id, question: Question, right: &str, replaces: Vec<Id>) -> Entry {
    Entry::Corrected(CorrectionRow {
        at: moment(7),
        session: of,
        what: Corrected::Answer,
        set: Some(1),
        question: Some(question),
        cue: None,
        right: Some(right.to_owned()),
        reason: "wrong key".into(),
        replaces,
    })
}

/// The locks that stand, with their sessions.
fn locks(lines: &[Line]) -> Vec<(String, Lock)> {
    let trainee = Summaries::of(&Contents::of(lines.to_vec())).trainee();
    let now = moment(900_000_000);
    let barriers = Barriers::of(&trainee.past, now.instant(), now.day().unwrap());
    barriers.locks.into_iter().map(|lock| (lock.session, lock.what)).collect()
}

#[test]
fn the_lines_of_a_writer_stand_in_the_order_of_its_counter_although_its_clock_was_set_back() {
    let one = |byte, counter, at_ms| line(0, counter, at_ms, Some(session(byte)), begun(byte));
    // The second session was begun with the clock set back, and the third with the clock right again.
    let mut lines = vec![one(1, 0, 1_000), one(2, 1, 10), one(3, 2, 2_000)];
    // Another computer's stands between them by its moment.
    lines.push(line(1, 0, 1_500, Some(session(9)), begun(9)));
    let order = |lines: &[Line]| -> Vec<Id> {
        Contents::of(lines.to_vec()).sessions.iter().map(|session| session.id).collect()
    };
    let expected = [1, 2, 9, 3].map(session);
    assert_eq!(order(&lines), expected);
    lines.reverse();
    assert_eq!(order(&lines), expected);
}

#[test]
fn a_clearance_lifts_what_it_names_and_nothing_that_is_told_later() {
    let of = session(1);
    let mut lines = vec![
        line(0, 0, 0, Some(of), begun(1)),
        line(0, 1, 0, Some(of), set(1)),
        line(0, 2, 0, Some(of), answered(Question::Symptom, Some(1))),
    ];
    let told_by = vec![lines[2].id];
    assert_eq!(locks(&lines), [(of.to_string(), Lock::Chest)]);
    for nothing in [
        cleared(of, Lock::Chest, Vec::new()),
        cleared(of, Lock::Breath, told_by.clone()),
        cleared(session(2), Lock::Chest, told_by.clone()),
    ] {
        let with = [&lines[..], &[line(0, 3, 0, None, nothing)]].concat();
        assert_eq!(locks(&with), [(of.to_string(), Lock::Chest)]);
    }
    lines.push(line(0, 3, 0, None, cleared(of, Lock::Chest, told_by)));
    assert_eq!(locks(&lines), []);
    // The other computer had a second answer: whoever cleared did not know of it.
    lines.push(line(1, 0, -5, Some(of), answered(Question::Symptom, Some(1))));
    assert_eq!(locks(&lines), [(of.to_string(), Lock::Chest)]);
}

#[test]
fn an_answer_from_elsewhere_hides_no_lock() {
    let of = session(1);
    let hurt =
        |writer, at_ms, answer| line(writer, 5, at_ms, Some(of), answered(Question::Hurt, Some(answer)));
    let end = Entry::SessionEnded { at: moment(1_070_000), why: SessionEnd::Fell };
    let mut lines = vec![
        line(0, 0, 0, Some(of), begun(1)),
        line(0, 1, 0, Some(of), set(1)),
        hurt(0, 0, 1),
        line(0, 6, 0, Some(of), end),
    ];
    let before = locks(&lines);
    assert_eq!(before.len(), 1);
    lines.push(hurt(1, -9_000, 0));
    assert_eq!(locks(&lines), before, "an earlier no");
    let finished = Entry::SessionEnded { at: moment(1_000_001), why: SessionEnd::Finished };
    lines.push(line(1, 6, -9_000, Some(of), finished));
    assert_eq!(locks(&lines), before, "an earlier end");
    assert_eq!(Contents::of(lines).misfits.len(), 1, "two ends that differ");
}

#[test]
fn the_last_correction_is_the_one_that_no_other_replaces() {
    let of = session(1);
    let effort = line(0, 2, 0, Some(of), answered(Question::Effort, Some(4)));
    let first = line(0, 3, 500, Some(of), corrected(of, Question::Effort, "5", vec![effort.id]));
    // Made on another computer whose clock is behind; it knows of the first.
    let second = line(1, 0, 1, Some(of), corrected(of, Question::Effort, "7", vec![effort.id, first.id]));
    let lines =
        vec![line(0, 0, 0, Some(of), begun(1)), line(0, 1, 0, Some(of), set(1)), effort, first, second];
    let summaries = Summaries::of(&Contents::of(lines));
    assert_eq!(summaries.sessions[0].session.sets[0].effort.map(Numbered::number), Some(7));
}

/// A whole practice in which nothing went wrong, as its lines.
fn clean() -> Vec<Entry> {
    let cue = |cue, at_ms| CueRow {
        cue,
        at_ms,
        gap_ms: 6_000,
        blank: true,
        action: None,
        direction: None,
        phrase: None,
        until_ms: None,
        strength: None,
        ball: None,
        tell: None,
        practice: false,
    };
    let Entry::SetBegun { set, .. } = set(1) else { unreachable!("as it is made") };
    let given = Given { drill: "counter-reach".to_owned(), form: Form::Alone, step: 3, ladder: None };
    vec![
        Entry::SessionBegun(crate::record::sample::alone(&[], SessionEnd::Finished).start),
        Entry::Decided(Decided {
            decision: Decision::Hold,
            reasons: Vec::new(),
            gentler: false,
            first_set: 1,
            sets_whole: 2,
            seen_before: None,
            given: vec![given],
        }),
        Entry::SetBegun { set, cues: vec![cue(0, 6_000), cue(1, 12_000)] },
        Entry::delivered(1, 0, Delivery::Shown { at: Millis(6_000) }),
        Entry::SetEnded {
            set: 1,
            end: SetEndRow { at: moment(107_000), worked_ms: 47_000, why: SetEnd::Completed },
        },
        answered(Question::Grabbed, Some(0)),
        answered(Question::Effort, Some(4)),
        answered(Question::Unwell, Some(0)),
        Entry::SessionEnded { at: moment(240_000), why: SessionEnd::Finished },
    ]
}

fn of_one(entries: &[Entry]) -> Contents {
    let entries = (0..).zip(entries);
    let lines = entries.map(|(nth, entry)| line(0, nth, 0, Some(session(1)), entry.clone()));
    Contents::of(lines.collect())
}

/// Whichever way a value came that cannot be: it is named, it never counts as fine, and the next start asks how that practice
/// ended.
#[test]
fn what_is_out_of_range_is_named_and_its_practice_does_not_count_as_fine() {
    let fine = of_one(&clean());
    let past = Past::of(&fine);
    assert_eq!((&fine.misfits[..], past.sessions[0].is_fine()), (&[][..], true));
    assert_eq!(past.sessions[0].open_questions(), []);
    let changed = |nth: usize, change: fn(&mut serde_json::Value)| {
        let mut entries = clean();
        let mut value = serde_json::to_value(&entries[nth]).unwrap();
        change(&mut value);
        entries[nth] = serde_json::from_value(value).unwrap();
        entries
    };
    let more = |nth: usize, entry: Entry| {
        let mut entries = clean();
        entries.insert(nth, entry);
        entries
    };
    let ended = |at, worked_ms| {
        let mut entries = clean();
        entries[4] =
            Entry::SetEnded { set: 1, end: SetEndRow { at: moment(at), worked_ms, why: SetEnd::Completed } };
        entries
    };
    let response = ResponseRow { cue: 7, response: Some(Response::InPlace) };
    let cases = [
        (changed(0, |value| value["session_begun"]["sets_planned"] = 255.into()), "the sets planned is 255"),
        (
            changed(1, |value| value["decided"]["given"][0]["step"] = 255.into()),
            "step 255 is not one of 1 to",
        ),
        (
            changed(1, |value| value["decided"]["sets_whole"] = 99.into()),
            "the sets of the whole session is 99",
        ),
        (changed(2, |value| value["set_begun"]["set"]["step"] = 255.into()), "step 255 is not one of 1 to"),
        (changed(2, |value| value["set_begun"]["set"]["step"] = 0.into()), "step 0 is not one of 1 to"),
        (
            changed(2, |value| value["set_begun"]["set"]["work_ms"] = 1_000_000_000.into()),
            "the most is 120000",
        ),
        (
            changed(2, |value| value["set_begun"]["cues"][1]["at_ms"] = 99_000.into()),
            "a planned call is 99000",
        ),
        (changed(2, |value| value["set_begun"]["cues"][1]["strength"] = 9.into()), "a push has strength 9"),
        (
            changed(3, |value| value["cue_delivered"]["how"]["cue"] = 7.into()),
            "call 8 of set 1 was not planned",
        ),
        (ended(107_000, 1_000_000_000), "the most is 125000"),
        (ended(107_000, 100_000), "the work of set 1 is 100000 ms; 52000 ms is the most"),
        (
            ended(59_999, 47_000),
            "set 1 ends at 2026-11-02T09:30:59.999-05:00[America/New_York], before it begins",
        ),
        (changed(5, |value| value["answered"]["set"] = 0.into()), "there is no set 0"),
        (
            changed(5, |value| value["answered"]["set"] = 11.into()),
            "the number of a set is 11; the most is 10",
        ),
        (more(3, set(0)), "there is no set 0"),
        (more(3, set(2)).into_iter().chain([set(3)]).collect(), "it has 3 sets; 2 were planned"),
        (more(4, Entry::Responded { set: 1, response }), "call 8 of set 1 was not planned"),
        (
            more(4, Entry::Mishap(MishapRow { set: 1, at_ms: 1, what: Mishap::Grab, cue: Some(9) })),
            "call 10 of set 1 was not planned",
        ),
        (
            [&clean()[..8], &[Entry::SessionEnded { at: moment(-1), why: SessionEnd::Finished }]].concat(),
            "it ends at 2026-11-02T09:29:59.999-05:00[America/New_York], before it begins",
        ),
    ];
    for (entries, said) in cases {
        let contents = of_one(&entries);
        assert!(
            contents.misfits.iter().any(|misfit| misfit.what.contains(said)),
            "{said}: {:?}",
            contents.misfits
        );
        let session = &Past::of(&contents).sessions[0];
        assert!(session.doubtful && !session.is_fine(), "{said}");
        let asked = session.open_questions();
        assert_eq!(asked, [Question::FellThen, Question::UnwellThen], "{said}: it is asked how it ended");
        assert!(contents.unread().iter().any(|line| line.contains(said)), "the person is told");
        let most =
            contents.sessions[0].sets.iter().filter_map(|set| set.end.as_ref()).map(|end| end.worked_ms);
        assert!(most.max().unwrap_or(0) <= 125_000, "no report counts it: {said}");
        assert!(contents.sessions[0].sets.iter().all(|set| set.start.step < 20), "nobody is at that step");
    }
}

/// What locks is never taken away with what is wrong beside it.
#[test]
fn an_end_that_is_out_of_range_still_tells_of_a_fall() {
    let mut entries = clean();
    entries[4] =
        Entry::SetEnded { set: 1, end: SetEndRow { at: moment(0), worked_ms: u32::MAX, why: SetEnd::Fell } };
    assert!(Past::of(&of_one(&entries)).sessions[0].fell());
}

/// What an earlier version let in: 7 to "grabbed hold" is no "no".
#[test]
fn an_answer_that_there_is_not_counts_as_the_careful_one_where_it_is_kept_and_is_read_from_no_file() {
    let whole = clean();
    for (question, number, seen) in [
        (Question::Grabbed, 7, [true, false]),
        (Question::Unwell, 2, [false, true]),
        (Question::Effort, 99, [false, false]),
        (Question::Steadiness, 0, [false, false]),
        (Question::WhyStopped, 4, [false, true]),
    ] {
        let value =
            serde_json::json!({"answered": {"set": 1, "question": question.name(), "answer": number}});
        assert!(Told::read(FORMAT, value.clone()).is_err(), "no file is read with it");
        let mut lines: Vec<Line> =
            (0..).zip(&whole).map(|(nth, entry)| line(0, nth, 0, Some(session(1)), entry.clone())).collect();
        let kept = Told::read_kept(FORMAT, value.clone()).unwrap();
        assert_eq!(serde_json::to_value(&kept).unwrap(), value, "it stays as it came");
        lines.retain(|line| !matches!(line.entry.entry(), Some(Entry::Answered(row)) if row.answer.question() == question));
        lines.push(Line { id: Id::of("odd"), entry: kept, ..lines[4].clone() });
        let contents = Contents::of(lines);
        assert_eq!(contents.misfits.len(), 1, "{question}");
        let session = &Past::of(&contents).sessions[0];
        assert!(!session.is_fine() && session.doubtful, "{question}");
        assert_eq!([session.near_fall(), session.felt_unwell()], seen, "{question}");
        if question == Question::Effort {
            assert_eq!(session.sets[0].effort.map(Numbered::number), Some(10));
        }
    }
    for question in Question::ALL {
        assert_eq!(question.careful().question(), *question);
        assert_eq!(question.careful().number().is_none(), *question == Question::Symptom, "{question}");
    }
    for broken in ["{\"danced\": 1}", r#"{"answered": {"set": 1, "question": "mood", "answer": 7}}"#] {
        assert!(Told::read_kept(FORMAT, serde_json::from_str(broken).unwrap()).is_err(), "{broken}");
    }
}

#[test]
fn what_is_of_a_later_form_is_kept_and_named_and_decides_nothing() {
    let text = format!(
        r#"{{"id":"{}","writer":"{}","counter":3,"at_ms":1,"format":99,"session":"{}","entry":{{"danced":{{"how":"well"}}}}}}"#,
        Id::of("a"),
        Id::of("b"),
        session(1)
    );
    let later: Line = serde_json::from_str(&text).unwrap();
    assert!(matches!(later.entry, Told::Later(_)));
    assert_eq!(serde_json::to_string(&later).unwrap(), text, "as it came");
    let lines = vec![line(0, 0, 0, Some(session(1)), begun(1))];
    let (without, with) = (Contents::of(lines.clone()), Contents::of([lines, vec![later]].concat()));
    assert_eq!(without.sessions, with.sessions);
    assert_eq!(with.unread().len(), 1);
    assert!(with.unread()[0].starts_with("1 entry of a later form (99)"), "{:?}", with.unread());
    let now = text.replace("99", "1");
    assert!(serde_json::from_str::<Line>(&now).unwrap_err().to_string().contains("danced"));
    let far = text.replace("\"counter\":3", "\"counter\":18446744073709551615");
    assert!(
        serde_json::from_str::<Line>(&far)
            .unwrap_err()
            .to_string()
            .contains("`counter` is 18446744073709551615")
    );
}

/// Any line: of a session that is there or is not, from any writer, at any moment, naming anything.
fn any_line() -> impl Strategy<Value = Line> {
    let at = prop_oneof![-5_000_i64..5_000, any::<i64>()];
    let ids = prop::collection::vec(0_u64..12, 0..4);
    (0_usize..3, 0_u64..12, at, 1_u8..4, 0_u8..14, 0_u8..7, ids).prop_map(
        |(writer, counter, at_ms, byte, kind, number, ids)| {
            let of = session(byte);
            let names: Vec<Id> = ids.into_iter().map(|nth| Id::of(&format!("named {nth}"))).collect();
            let entry = match kind {
                0 => begun(byte),
                1 => set(1 + number % 2),
                2 => {
                    ended(1, [SetEnd::Completed, SetEnd::Fell, SetEnd::Interrupted][usize::from(number % 3)])
                }
                3 => answered(Question::Hurt, Some(number % 2)),
                4 => answered(Question::Symptom, Some(1 + number % 6)),
                5 => answered(Question::Effort, Some(number)),
                6 => Entry::Mishap(MishapRow { set: 1, at_ms: 1, what: Mishap::Fall, cue: None }),
                7 => {
                    let response = Response::numbered(number);
                    Entry::Responded { set: 1, response: ResponseRow { cue: 0, response } }
                }
                8 => Entry::SessionEnded {
                    at: moment(number.into()),
                    why: [SessionEnd::Finished, SessionEnd::Fell, SessionEnd::Interrupted]
                        [usize::from(number % 3)],
                },
                9 => corrected(of, Question::Hurt, "0", names),
                10 => cleared(of, [Lock::Chest, Lock::FallHurt][usize::from(number % 2)], names),
                11 => {
                    let answer = [TopicAnswer::True, TopicAnswer::NotTrue][usize::from(number % 2)];
                    let answers = vec![TopicRow::new(Topic::Heart, Reply::new(answer))];
                    let at = moment(number.into());
                    Entry::Suitability(SuitabilityRow { at, partner: false, answers, replaces: names })
                }
                12 => Entry::Changed(ChangeRow {
                    at: moment(1),
                    what: Change::InUse,
                    source: "a file".into(),
                    digest: Digest::of(&[number]),
                }),
                _ => Entry::Advised(crate::record::AdviceRow {
                    set: 1,
                    advice: crate::record::Advice::OneStepLower,
                }),
            };
            let outside = matches!(kind, 10..=12);
            let mut line = line(writer, counter, at_ms, (!outside).then_some(of), entry);
            if kind > 0 && number % 2 == 0 {
                line.id = Id::of(&format!("named {counter}"));
            }
            line
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, ..ProptestConfig::default() })]

    /// Clocks that were set back, writers that share numbers, names of what is not there, sessions that begin twice: from
    /// the same lines follows the same, in any order and however often they come.
    #[test]
    fn any_order_of_imports_gives_the_same(
        (lines, order) in prop::collection::vec(any_line(), 0..40)
            .prop_flat_map(|lines| (Just(lines.clone()), Just(lines).prop_shuffle()))
    ) {
        // One id is one line: an import refuses another one.
        let once = |lines: Vec<Line>, first: &[Line]| -> Vec<Line> {
            lines.into_iter().filter(|line| first.iter().find(|one| one.id == line.id) == Some(line)).collect()
        };
        let (here, there) = (once(lines.clone(), &lines), once(order, &lines));
        let contents = Contents::of(here.clone());
        prop_assert_eq!(&Contents::of(there.clone()), &contents);
        prop_assert_eq!(&Contents::of([here.clone(), there].concat()), &contents, "twice");
        let again: Vec<Line> =
            here.iter().map(|line| serde_json::from_str(&serde_json::to_string(line).unwrap()).unwrap()).collect();
        prop_assert_eq!(&Contents::of(again), &contents, "written and read");
    }

    /// Only a clearance that names it lifts a lock, or the answer about a fall that did no harm. Nothing else that is added
    /// does, from whomever.
    #[test]
    fn what_is_added_lifts_no_lock(
        lines in prop::collection::vec(any_line(), 0..30),
        more in prop::collection::vec(any_line(), 0..10),
    ) {
        let mut all = vec![line(0, 0, 0, Some(session(1)), begun(1)), line(0, 1, 0, Some(session(1)), set(1))];
        for line in lines {
            if all.iter().all(|one| one.id != line.id) {
                all.push(line);
            }
        }
        let before = locks(&all);
        for line in more {
            // Until somebody says that it did no harm a fall locks: that answer is no correction of anything.
            let tells = match line.entry.entry() {
                Some(Entry::Cleared(_)) => false,
                Some(Entry::Answered(row)) => row.answer.question() != Question::Hurt,
                _ => true,
            };
            if tells && all.iter().all(|one| one.id != line.id) {
                all.push(line);
            }
        }
        let after = locks(&all);
        prop_assert!(before.iter().all(|lock| after.contains(lock)), "{:?} became {:?}", before, after);
    }
}
