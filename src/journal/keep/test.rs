//! What is kept outside of a running session: each thing once, beside what it is about, and never in place of it.

use jiff::{SignedDuration, Timestamp, ZonedDateTime};
use proptest::prelude::*;
use tempfile::tempdir;

use super::super::sample::{
    answer, any_session, begun, decided, expected, id, in_memory, keep, moment, open, readied, session, set,
    set_ended, told, with_partner,
};
use super::super::{Folder, Journal, JournalError, Notice, import, lines};
use counterpoise_core::course::history::corrected;
use counterpoise_core::course::past::{Barrier, Lifted, Past, PastSession};
use counterpoise_core::course::progression::Barriers;
use counterpoise_core::course::summaries::Summaries;
use counterpoise_core::health::assessment::{Company, Reading, Sex, Test};
use counterpoise_core::health::lock::{HOLD, Lock};
use counterpoise_core::health::readiness::Item;
use counterpoise_core::health::suitability::{Answer, Reply, Topic};
use counterpoise_core::health::yes_no::YesNoNotSure::{No, NotSure};
use counterpoise_core::plan::drill::Form;
use counterpoise_core::record::sample::{correction, right};
use counterpoise_core::record::{
    Contents, Corrected, CorrectionRow, Decision, Entry, Given, Mishap, Numbered, Question, Response, Right,
    Seen, SeenRow, SessionEnd, SetEnd, Times, TopicRow, TriedOut, WhyStopped,
};

fn said(topic: Topic, answer: Answer) -> TopicRow {
    TopicRow::new(topic, Reply::new(answer))
}

fn at(text: &str) -> ZonedDateTime {
    text.parse().unwrap()
}

fn monday() -> ZonedDateTime {
    at("2026-11-02T08:00:00-05:00[America/New_York]")
}

/// Alone, one set, with these answers after it.
fn alone(answers: &[(Question, u8)], why: SessionEnd) -> Vec<Entry> {
    let mut entries = vec![
        begun(moment(0)),
        set(1, moment(60_000)),
        set_ended(1, moment(107_000), 47_000, SetEnd::Completed),
    ];
    entries.extend(answers.iter().map(|(question, said)| answer(Some(1), *question, Some(*said))));
    entries.push(Entry::SessionEnded { at: moment(240_000), why });
    entries
}

fn barriers(session: PastSession, since_known: SignedDuration) -> Barriers {
    let now = session.known() + since_known;
    let day = session.day;
    Barriers::of(&Past { sessions: vec![session], ..Past::default() }, now, day)
}

/// What an earlier version imported stays in the journal, and nothing else does not open because of it.
#[test]
fn a_journal_with_an_answer_out_of_range_opens_says_so_and_counts_it_as_not_fine() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path()).unwrap();
    let mut journal = open(&folder);
    keep(
        &mut journal,
        &id(1),
        &alone(&[(Question::Grabbed, 0), (Question::Unwell, 0)], SessionEnd::Finished),
    );
    assert!(journal.trainee().unwrap().past.sessions[0].is_fine());
    drop(journal);
    let db = rusqlite::Connection::open(folder.journal_file()).unwrap();
    let odd = r#"UPDATE entries SET entry = replace(entry, '"grabbed hold or nearly fell","answer":0', '"grabbed hold or nearly fell","answer":7')"#;
    db.execute_batch(&format!("{odd}; DELETE FROM summarized")).unwrap();
    drop(db);
    for _ in 0..2 {
        let (journal, notices) = Journal::open(folder.lock().unwrap()).unwrap();
        let [Notice::Unread(said)] = &notices[..] else { panic!("{notices:?}") };
        assert!(said.contains("\"grabbed hold or nearly fell\" has a number that there is not"), "{said}");
        let session = &journal.trainee().unwrap().past.sessions[0];
        assert!(session.near_fall() && !session.is_fine() && session.doubtful);
    }
}

/// What is typed in passes the same gate, before anything is kept.
#[test]
fn nothing_out_of_range_is_typed_in() {
    let place = tempdir().unwrap();
    let mut journal = open(&Folder::open_in(place.path()).unwrap());
    keep(&mut journal, &id(1), &alone(&[(Question::Effort, 4)], SessionEnd::Finished));
    let before = journal.contents().unwrap();
    let row = right(1, Question::Effort, Some(5))
        .to(Some(0), crate::journal::sample::said(Question::Effort, Some(5)));
    let error = journal.keep_correction(&monday(), &row).unwrap_err();
    assert_eq!(error.to_string(), "this cannot be kept: there is no set 0; they are numbered from 1 to 10");
    assert_eq!(journal.contents().unwrap(), before);
}

#[test]
fn the_last_correction_holds_although_the_clock_was_set_back() {
    let place = tempdir().unwrap();
    let mut journal = open(&Folder::open_in(place.path()).unwrap());
    keep(&mut journal, &id(1), &alone(&[(Question::Effort, 4)], SessionEnd::Finished));
    let before = journal.find("last").unwrap();
    for (hour, effort) in [(9, 5), (2, 6), (9, 7)] {
        let now = at(&format!("2026-11-03T0{hour}:00:00-05:00[America/New_York]"));
        let row = CorrectionRow { session: id(1), ..right(0, Question::Effort, Some(effort)) };
        journal.keep_correction(&now, &row).unwrap();
    }
    let contents = journal.contents().unwrap();
    let effort = Right::of(&before, &contents.corrections).record.answers[0].answer;
    assert_eq!((contents.corrections.len(), effort.number()), (3, Some(7)));
    assert_eq!(journal.find("last").unwrap(), before, "the entry is as it was kept");
    assert_eq!(journal.trainee().unwrap().past.sessions[0].sets[0].effort.map(Numbered::number), Some(7));
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
            Corrected::Answer => {
                let (least, most) = question.limits();
                let answer = answer.map(|number| least + number % (most - least + 1));
                CorrectionRow { set, ..right(0, question, answer) }
            }
            Corrected::Response => CorrectionRow {
                set: set.or(Some(1)),
                cue: Some(cue),
                right: response.map(|response| response.name().to_owned()),
                ..correction(0, what)
            },
        })
}

/// Any session, and as often one in which much happened.
fn any_lines() -> impl Strategy<Value = Vec<Entry>> {
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
        let named = |row: CorrectionRow| CorrectionRow { session: id(1), replaces: record.told(&row), ..row };
        let corrections: Vec<CorrectionRow> = corrections.into_iter().map(named).collect();
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

/// A journal with one session that was decided and ready, answers about suitability, and a clearance.
fn filled(place: &std::path::Path) -> Journal {
    let mut journal = open(&Folder::open_in(place).unwrap());
    let mut entries = session();
    entries.insert(1, decided(Decision::Up, Some(1_793_000_000_000)));
    entries.push(readied(&[(Item::Chest, No), (Item::Head, NotSure)]));
    entries.push(answer(Some(2), Question::WhyStopped, Some(3)));
    keep(&mut journal, &id(1), &entries);
    journal
        .keep_suitability(
            &monday(),
            false,
            &[said(Topic::Heart, Answer::Agreed), said(Topic::Bones, Answer::NotTrue)],
        )
        .unwrap();
    let suitability = journal.contents().unwrap().suitability[0].id;
    let lifts = [
        Lifted { session: id(1).to_string(), what: Barrier::Lock(Lock::HeadKnock) },
        Lifted { session: suitability.to_string(), what: Barrier::Clinician },
    ];
    let friday = at("2026-11-06T08:00:00-05:00[America/New_York]");
    journal.keep_clearance(&friday, "K. L.", "seen on Thursday", &lifts).unwrap();
    journal
}

#[test]
fn only_a_journal_with_the_lock_is_changed() {
    let mut look = in_memory();
    let refused = look.keep_clearance(&monday(), "K. L.", "seen", &[]).unwrap_err();
    assert!(matches!(refused, JournalError::ReadOnly { .. }));
    assert!(matches!(look.keep_suitability(&monday(), false, &[]), Err(JournalError::ReadOnly { .. })));
}

#[test]
fn the_rules_see_what_was_kept() {
    let place = tempdir().unwrap();
    let past = filled(place.path()).trainee().unwrap().past;
    let session = &past.sessions[0];
    // Begun on November 2 at half past nine in New York; the last sign is its end after four minutes.
    assert_eq!((session.id.clone(), session.day), (id(1).to_string(), jiff::civil::date(2026, 11, 2)));
    assert_eq!(session.begun.as_millisecond(), moment(0).ms());
    assert_eq!(session.ended.as_millisecond(), moment(240_000).ms());
    assert_eq!(session.seen_before, Some(Timestamp::from_millisecond(1_793_000_000_000).unwrap()));
    assert_eq!(
        (session.end, session.sets_planned, session.sets_whole),
        (Some(SessionEnd::StoppedOther), 2, Some(2))
    );
    assert_eq!((session.hurt, session.why_stopped), (None, Some(WhyStopped::Other)));
    assert_eq!(session.ready, [(Item::Chest, No), (Item::Head, NotSure)]);
    assert_eq!(
        session.given,
        [Given { drill: "counter-reach".into(), form: Form::Alone, step: 3, ladder: None }]
    );
    let [one, two] = &session.sets[..] else { panic!("two sets") };
    assert_eq!((one.number, one.step, one.end), (1, 3, Some(SetEnd::Completed)));
    // Cues 0 and 2 were heard; 1 is a blank.
    assert_eq!((one.cues, one.held_on, one.steadiness), (2, Some(Times::Twice), None));
    assert_eq!(one.effort.map(Numbered::number), Some(5));
    assert_eq!((two.end, two.effort.map(Numbered::number)), (Some(SetEnd::Stopped), Some(7)));
    assert!(past.is_lifted(session, Barrier::Lock(Lock::HeadKnock)));
    assert!(!past.is_lifted(session, Barrier::Lock(Lock::Faint)));
}

#[test]
fn the_rules_see_what_a_partner_noted() {
    let mut journal = in_memory();
    keep(&mut journal, &id(2), &with_partner());
    let past = journal.trainee().unwrap().past;
    let set = &past.sessions[0].sets[0];
    assert_eq!((set.form, set.cues, set.advised_lower), (Form::Partner, 3, true));
    assert_eq!(set.mishaps, [Mishap::Grab]);
    assert_eq!(set.responses, [Some(Response::OneStep), None, Some(Response::Grabbed)]);
    assert!(past.sessions[0].given.is_empty() && past.sessions[0].ready.is_empty());
}

/// Of several answers to one question the rules take the first that was said, not the first that was asked.
#[test]
fn of_a_question_that_was_answered_twice_the_first_that_was_said_counts() {
    use Question::{Effort, Grabbed, HeldOn, Hurt, Steadiness, Symptom, Unwell, WhyStopped};
    let said = [
        (Grabbed, [Some(0), Some(1), None]),
        (HeldOn, [None, Some(1), Some(3)]),
        (Effort, [Some(4), Some(9), Some(2)]),
        (Steadiness, [None, Some(5), Some(1)]),
        (Unwell, [Some(1), None, Some(0)]),
        (Hurt, [Some(0), Some(1), Some(1)]),
        (WhyStopped, [None, Some(3), Some(1)]),
        (Symptom, [Some(5), Some(1), None]),
    ];
    let mut entries = vec![
        begun(moment(0)),
        set(1, moment(60_000)),
        set_ended(1, moment(107_000), 47_000, SetEnd::Stopped),
    ];
    for nth in 0..3 {
        entries.extend(said.map(|(question, said)| answer(Some(1), question, said[nth])));
    }
    let mut journal = in_memory();
    keep(&mut journal, &id(1), &entries);
    let past = journal.trainee().unwrap().past;
    let session = &past.sessions[0];
    let (hurt, why) = (session.hurt.map(Numbered::number), session.why_stopped.map(Numbered::number));
    assert_eq!((hurt, why, session.symptom.map(Numbered::number)), (Some(0), Some(3), Some(5)));
    let set = &session.sets[0];
    let (grabbed, unwell) = (set.grabbed.map(Numbered::number), set.unwell.map(Numbered::number));
    assert_eq!((grabbed, set.held_on.map(Numbered::number), unwell), (Some(0), Some(1), Some(1)));
    assert_eq!(set.effort.map(Numbered::number), Some(4));
    assert_eq!(set.steadiness.map(Numbered::number), Some(5));
    assert!(session.locked_before.contains(&Lock::Chest), "what another answer locks stays locked");
}

#[test]
fn what_was_seen_in_a_tryout_only_grows_and_goes_to_another_journal() {
    let place = tempdir().unwrap();
    let seen = |what: Seen, words: &str| SeenRow { what, words: words.to_owned() };
    let mut here = open(&Folder::open_in(place.path().join("here")).unwrap());
    let mut entries = session();
    entries.insert(1, Entry::TriedOut(TriedOut { watched_by: "K. L.".into(), partner: "R.".into() }));
    keep(&mut here, &id(1), &entries);
    here.keep_seen(&monday(), id(1), &[seen(Seen::Feet, "one step each time")]).unwrap();
    here.keep_seen(&monday(), id(1), &[seen(Seen::Unlocked, "backward")]).unwrap();
    let both = [seen(Seen::Feet, "one step each time"), seen(Seen::Unlocked, "backward")];
    assert_eq!(here.find("last").unwrap().seen, both);
    assert!(here.trainee().unwrap().past.sessions[0].tried_out);
    let mut there = open(&Folder::open_in(place.path().join("there")).unwrap());
    import::import(&mut there, "here.json", &super::super::sample::exported(&here)).unwrap();
    assert_eq!(there.find("last").unwrap(), here.find("last").unwrap());
}

#[test]
fn a_balance_test_that_its_test_cannot_give_is_refused_whole() {
    let (here, there) = (tempdir().unwrap(), tempdir().unwrap());
    let mut journal = open(&Folder::open_in(here.path()).unwrap());
    let person = (Some("72".parse().unwrap()), Some(Sex::Female));
    let rises = Reading::read(Test::ChairStand, "9").unwrap();
    journal.keep_balance_test(&monday(), rises, person, (Company::Elsewhere, "K. L."), None).unwrap();
    let leg = Reading::read(Test::OneLeg, "unable").unwrap();
    journal.keep_balance_test(&monday(), leg, (None, None), (Company::Alone, ""), None).unwrap();
    let rows = journal.contents().unwrap().tests;
    assert_eq!((rows.len(), rows[0].test, rows[0].value), (2, Test::ChairStand, Some(9)));
    assert_eq!((rows[1].value, rows[1].dated().unwrap().reading.value()), (None, None));
    let text = String::from_utf8(super::super::sample::exported(&journal)).unwrap();
    let mut journal = open(&Folder::open_in(there.path()).unwrap());
    for (good, bad) in [("\"value\":9,", "\"value\":61,"), ("\"age\":72,", "\"age\":12,")] {
        let other = text.replace(good, bad);
        assert_ne!(other, text);
        let refused = import::import(&mut journal, "a.json", other.as_bytes()).unwrap_err().to_string();
        assert!(refused.contains("balance test") && refused.contains("2026-11-02"), "{refused}");
        assert!(journal.contents().unwrap().is_empty());
    }
    import::import(&mut journal, "a.json", text.as_bytes()).unwrap();
    assert_eq!(journal.contents().unwrap().tests, rows);
}

#[test]
fn a_clearance_names_what_told_of_the_lock_and_answers_name_those_before() {
    let place = tempdir().unwrap();
    let mut journal = open(&Folder::open_in(place.path()).unwrap());
    keep(&mut journal, &id(1), &alone(&[(Question::Symptom, 1)], SessionEnd::Unwell));
    let now = at("2026-11-10T08:00:00-05:00[America/New_York]");
    let lifts: Vec<Lifted> =
        journal.trainee().unwrap().clearable(&now).into_iter().map(|found| found.lifted).collect();
    assert_eq!(lifts.len(), 1);
    journal.keep_clearance(&now, "K. L.", "seen", &lifts).unwrap();
    assert!(journal.trainee().unwrap().barriers(&now).locks.is_empty());
    let contents = journal.contents().unwrap();
    assert_eq!(contents.clearances[0].lifted[0].told_by, contents.sessions[0].can_lock);
    for answer in [Answer::NotTrue, Answer::True] {
        journal.keep_suitability(&now, false, &[said(Topic::Heart, answer)]).unwrap();
    }
    let rows = journal.contents().unwrap().suitability;
    assert_eq!((rows[0].replaces.len(), &rows[1].replaces), (0, &vec![rows[0].id]));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// The kept summary is that of the entries, at every moment: after each session, each correction and each clearance, and
    /// where it is old, broken, or not there.
    #[test]
    fn the_summary_is_what_the_fold_makes_of_all_entries(
        sessions in prop::collection::vec(any_session(), 1..4),
        harm in 0_u8..5,
    ) {
        let place = tempdir().unwrap();
        let mut journal = open(&Folder::open_in(place.path()).unwrap());
        let check = |journal: &Journal| {
            let whole = Summaries::of(&journal.contents().unwrap());
            assert_eq!(journal.summaries().unwrap(), whole);
            assert_eq!(journal.changes().unwrap(), whole.outside.changes);
            let upto: i64 = journal.db.query_row("SELECT upto FROM summarized", [], |row| row.get(0)).unwrap();
            (upto, lines::last_row(&journal.db).unwrap())
        };
        for (nth, (_, entries)) in (1..).zip(&sessions) {
            for line in told(id(nth), entries) {
                lines::insert(&journal.db, &line).unwrap();
            }
            check(&journal);
            journal.summarize();
            let (upto, last) = check(&journal);
            prop_assert_eq!(upto, last);
            journal.keep_correction(&monday(), &CorrectionRow { session: id(nth), ..correction(0, Corrected::SetAside) }).unwrap();
            journal.keep_suitability(&monday(), false, &[said(Topic::Heart, Answer::NotTrue)]).unwrap();
            check(&journal);
        }
        let harms = [
            "DELETE FROM summarized",
            "UPDATE summarized SET fold = fold - 1, outside = '{}'",
            "UPDATE summarized SET outside = 'x'",
            "UPDATE summaries SET summary = x'00'",
            "DELETE FROM summaries WHERE session = (SELECT max(session) FROM summaries)",
        ];
        journal.db.execute(harms[usize::from(harm)], []).unwrap();
        let whole = Summaries::of(&journal.contents().unwrap());
        prop_assert_eq!(journal.summaries().unwrap(), whole);
        journal.summarize();
        check(&journal);
    }
}

#[test]
fn a_practice_from_a_sheet_is_a_writer_of_its_own() {
    let place = tempdir().unwrap();
    let mut journal = open(&Folder::open_in(place.path()).unwrap());
    keep(&mut journal, &id(1), &session());
    let mut pen = super::Pen::fresh("sheet");
    let lines: Vec<_> = session().into_iter().map(|entry| pen.line(0, Some(id(2)), entry)).collect();
    journal.keep_lines(&lines).unwrap();
    let contents: Contents = journal.contents().unwrap();
    let order: Vec<_> = contents.sessions.iter().map(|session| session.id).collect();
    assert_eq!(order, [id(2), id(1)], "it stands on its day, although it was typed in later");
}
