//! How suitability, clearances and balance tests become limits.

use jiff::{SignedDuration, ToSpan, ZonedDateTime};
use proptest::prelude::*;

use super::{Clearable, PartnerFit, Retest, Trainee};
use crate::course::past::sample::{at, clean, past, prescription};
use crate::course::past::{Barrier, Lifted, Past};
use crate::course::progression::{Decision, Reason, at_steps};
use crate::health::assessment::{Company, Sex, Test};
use crate::health::lock::{Hold, Lock};
use crate::health::readiness::Item;
use crate::health::suitability::{Answer, Outcome, Reply, Topic};
use crate::health::yes_no::YesNoNotSure;
use crate::plan::prescription::{Excess, Prescription};
use crate::record::{BalanceRow, Id, Identified, SessionEnd, Stamp, SuitabilityRow, TopicRow};

const HEART: Topic = Topic::HeartTrouble;

/// Everything good, but for the first topic.
fn answered(at: &ZonedDateTime, heart: Answer) -> Identified<SuitabilityRow> {
    let answers = Topic::questions(false)
        .map(|topic| TopicRow::new(topic, Reply::new(if topic == HEART { heart } else { Answer::No })));
    let at = Stamp::from(at);
    let id = Id::of(at.text());
    Identified {
        id,
        row: SuitabilityRow { at, partner: false, answers: answers.collect(), replaces: Vec::new() },
    }
}

/// The second answers replace the first.
fn then(
    first: &Identified<SuitabilityRow>,
    mut then: Identified<SuitabilityRow>,
) -> Vec<Identified<SuitabilityRow>> {
    then.row.replaces.push(first.id);
    vec![first.clone(), then]
}

/// Rises from a chair in half a minute, at 70: fewer than 10 is below the cut-off for anybody of that age.
fn rises(at: &ZonedDateTime, value: u32) -> BalanceRow {
    BalanceRow {
        at: Stamp::from(at),
        test: Test::ChairStand,
        value: Some(value),
        age: Some(70),
        sex: Some(Sex::Female),
        company: Company::Alone,
        stances: None,
        by_whom: String::new(),
    }
}

fn clinician_lifted(at: &ZonedDateTime) -> Past {
    let lifted = Lifted { session: answered(at, Answer::No).id.to_string(), what: Barrier::Clinician };
    Past { lifted: vec![lifted], ..Past::default() }
}

fn is_clinician(trainee: &Trainee) -> bool {
    trainee.fitness.suitability.as_ref().is_some_and(|found| found.outcome == Outcome::Clinician)
}

#[test]
fn a_clearance_is_of_the_answers_that_it_was_given_for_and_of_no_later_ones() {
    let (first, later) = (answered(&at(2), Answer::Yes), answered(&at(4), Answer::Yes));
    assert!(is_clinician(&Trainee::new(Past::default(), &[], vec![first.clone()])));
    let cleared = Trainee::new(clinician_lifted(&at(2)), &[], vec![first.clone()]);
    assert!(!is_clinician(&cleared) && cleared.fitness.bounds().is_some());
    assert!(is_clinician(&Trainee::new(clinician_lifted(&at(2)), &[], then(&first, later.clone()))));
    assert!(!is_clinician(&Trainee::new(clinician_lifted(&at(4)), &[], then(&first, later.clone()))));
    let fine = Trainee::new(Past::default(), &[], then(&later, answered(&at(5), Answer::No)));
    assert!(!is_clinician(&fine), "the last answers count");
    assert_eq!(fine.answered_at(), Some(Stamp::from(&at(5)).text()));
    // Two computers asked, and neither answer knew of the other: each counts, whichever came later.
    for two in [[Answer::Yes, Answer::No], [Answer::No, Answer::Yes]] {
        let two = vec![answered(&at(4), two[0]), answered(&at(5), two[1])];
        assert!(is_clinician(&Trainee::new(Past::default(), &[], two)));
    }
    let unasked = Trainee::new(Past::default(), &[], Vec::new());
    assert!(unasked.fitness.suitability.is_none() && unasked.answered_at().is_none());
}

fn read(text: &str) -> Prescription {
    Prescription::read("test.toml", text.as_bytes()).unwrap()
}

/// The gentle program, issued by somebody on November 25, 2026, with these sections.
fn issued(sections: &str) -> Prescription {
    let text =
        Prescription::ready_text("gentle").unwrap().replace("issued_by = \"\"", "issued_by = \"K. L.\"");
    read(&format!("{text}\n{sections}"))
}

fn accepts(topic: Topic, when: &str) -> String {
    format!("[[accepts]]\ntopic = \"{topic}\"\nwho = \"K. L.\"\nwhen = {when}\n")
}

/// The answers of a day: good, but for these.
fn given(day: i8, not_good: &[(Topic, Reply)]) -> Identified<SuitabilityRow> {
    let mut row = answered(&at(day), Answer::No);
    for answer in &mut row.row.answers {
        if let Some((topic, reply)) = not_good.iter().find(|(topic, _)| *topic == answer.topic) {
            *answer = TopicRow::new(*topic, *reply);
        }
    }
    row
}

fn yes() -> Reply {
    Reply::new(Answer::Yes)
}

fn asked_again(since: i8, answer: YesNoNotSure) -> Reply {
    Reply { worse: Some((at(since).date(), answer)), ..yes() }
}

/// Whether practice is locked on November 30 under this program after these answers.
fn locks(program: &Prescription, day: i8, not_good: &[(Topic, Reply)]) -> bool {
    let trainee = Trainee::new(Past::default(), &[], vec![given(day, not_good)]);
    trainee.next(program, &at(30)).decision == Decision::Locked
}

#[test]
fn a_topic_that_is_accepted_lifts_its_own_lock_and_no_other() {
    let program = issued(&accepts(HEART, "2026-11-10"));
    assert!(locks(&issued(""), 5, &[(HEART, yes())]), "a name accepts nothing");
    assert!(!locks(&program, 5, &[(HEART, yes())]));
    assert!(locks(&program, 5, &[(Topic::Stroke, yes())]));
    assert!(locks(&program, 5, &[(HEART, yes()), (Topic::Stroke, yes())]));
    let trainee = Trainee::new(Past::default(), &[], vec![given(5, &[(HEART, yes())])]);
    let said = trainee.next(&program, &at(30)).reasons;
    let accepted = |reason: &Reason| matches!(reason, Reason::AcceptedTopic { topic: HEART, who, when } if who == "K. L." && *when == at(10).date());
    assert!(said.iter().any(accepted), "{said:?}");
    let fine = Trainee::new(Past::default(), &[], vec![given(5, &[])]);
    assert!(!fine.next(&program, &at(30)).reasons.iter().any(accepted), "nothing was lifted");
    // A day that is yet to come accepts nothing.
    let trainee = Trainee::new(Past::default(), &[], vec![given(5, &[(HEART, yes())])]);
    assert_eq!(trainee.next(&program, &at(9)).decision, Decision::Locked);
    // What was one answer is accepted with all that it stood for.
    let mut old = given(5, &[]);
    old.row.answers.retain(|row| row.topic.whole() != Topic::Heart);
    old.row.answers.push(TopicRow::new(Topic::Heart, Reply::new(Answer::NotTrue)));
    let old = Trainee::new(Past::default(), &[], vec![old]);
    assert_eq!(old.next(&program, &at(30)).decision, Decision::Locked);
    let both = issued(&(accepts(HEART, "2026-11-10") + &accepts(Topic::BloodPressure, "2026-11-10")));
    assert_ne!(old.next(&both, &at(30)).decision, Decision::Locked);
}

#[test]
fn a_later_yes_is_covered_only_if_it_is_not_new_or_worse_since_then() {
    use YesNoNotSure::{No, NotSure, Yes};
    let program = issued(&accepts(HEART, "2026-11-10"));
    let is_locked = |day, reply| locks(&program, day, &[(HEART, reply)]);
    assert!(!is_locked(9, yes()) && !is_locked(10, yes()), "before, or before it was in use");
    assert!(is_locked(11, yes()), "nobody asked whether it is new or worse");
    for (worse, locked) in [(No, false), (Yes, true), (NotSure, true)] {
        assert_eq!(is_locked(11, asked_again(10, worse)), locked, "{worse}");
        assert_eq!(is_locked(10, asked_again(10, worse)), locked, "{worse}");
    }
    assert!(is_locked(12, asked_again(11, No)), "asked about a later day than it was accepted");
    assert!(!is_locked(12, asked_again(9, No)), "not since an earlier day, so not since then either");
    assert!(!is_locked(9, asked_again(8, Yes)), "whoever accepted it since knew of it");
    // What is worse is not covered by what the person says of a clinician either.
    let agreed = Reply { agreed: Some(Yes), ..asked_again(10, Yes) };
    assert!(is_locked(11, agreed));
    assert!(!is_locked(11, Reply { agreed: Some(Yes), ..yes() }));
    for not in [Some(No), Some(NotSure), None] {
        assert!(is_locked(11, Reply { agreed: not, ..yes() }), "{not:?}");
    }
}

#[test]
fn an_old_acceptance_covers_only_what_was_answered_before_the_day_of_issue() {
    let old = issued("[suitability]\naccepted_because = \"treated\"\n");
    assert!(
        !locks(&old, 24, &[(HEART, yes())]) && !locks(&old, 24, &[(HEART, yes()), (Topic::Stroke, yes())])
    );
    assert!(locks(&old, 25, &[(HEART, yes())]) && locks(&old, 26, &[(HEART, yes())]));
    let told = |day| {
        let trainee = Trainee::new(Past::default(), &[], vec![given(day, &[(HEART, yes())])]);
        trainee.next(&old, &at(30)).reasons.iter().any(|reason| matches!(reason, Reason::Accepted { .. }))
    };
    assert!(told(24) && !told(26));
}

/// Chest pain, blackouts, a fall that still hurts.
#[test]
fn what_needs_a_clearance_is_lifted_by_one_and_by_nothing_else() {
    use YesNoNotSure::Yes;
    let old = issued("[suitability]\naccepted_because = \"treated\"\n");
    let needing: Vec<Topic> = Topic::questions(false).filter(|topic| topic.needs_clearance()).collect();
    assert_eq!(needing.len(), 5, "{needing:?}");
    for topic in needing {
        let replies = [yes(), Reply::new(Answer::NotSure), Reply { agreed: Some(Yes), ..yes() }];
        for reply in replies {
            assert!(
                locks(&issued(""), 24, &[(topic, reply)]) && locks(&old, 24, &[(topic, reply)]),
                "{topic}"
            );
        }
        let text =
            Prescription::ready_text("gentle").unwrap().replace("issued_by = \"\"", "issued_by = \"K.\"");
        let refused =
            Prescription::read("x.toml", format!("{text}\n{}", accepts(topic, "2026-11-10")).as_bytes());
        assert_eq!(
            refused.unwrap_err().reason(),
            &crate::plan::prescription::Reason::NotAcceptable { topic }
        );
        let row = given(24, &[(topic, yes())]);
        let lifted = Lifted { session: row.id.to_string(), what: Barrier::Topic(topic) };
        let cleared = |row| {
            let past = Past { lifted: vec![lifted.clone()], ..Past::default() };
            Trainee::new(past, &[], vec![row]).next(&issued(""), &at(30)).decision != Decision::Locked
        };
        assert!(cleared(row));
        assert!(!cleared(given(26, &[(topic, yes())])), "{topic}: a clearance is of the answers before it");
    }
    for whole in [Topic::ChestPain, Topic::Blackouts, Topic::FallPain] {
        let mut row = given(24, &[]);
        row.row.answers.retain(|row| row.topic.whole() != whole);
        row.row.answers.push(TopicRow::new(whole, Reply::new(Answer::Agreed)));
        let trainee = Trainee::new(Past::default(), &[], vec![row]);
        assert!(is_clinician(&trainee), "{whole}: what was once said of a clinician does not lift it either");
    }
}

/// Another answer is no clearance: chest pain that was told of waits for a clinician, whatever is answered later.
#[test]
fn later_answers_lift_no_lock_that_only_a_clearance_lifts() {
    use YesNoNotSure::Yes;
    for topic in Topic::questions(false) {
        for reply in [yes(), Reply::new(Answer::NotSure), Reply { agreed: Some(Yes), ..yes() }] {
            let first = given(24, &[(topic, reply)]);
            let both = then(&first, given(26, &[]));
            let is_locked = |lifted: Vec<Lifted>| {
                let past = Past { lifted, ..Past::default() };
                is_clinician(&Trainee::new(past, &[], both.clone()))
            };
            let waits = topic.needs_clearance();
            assert_eq!(is_locked(Vec::new()), waits, "{topic}: {reply:?}");
            // It is listed for a clearance, and one lifts it: of the first answers, or of the later ones.
            let trainee = Trainee::new(Past::default(), &[], both.clone());
            let listed: Vec<Lifted> =
                trainee.clearable(&at(30)).into_iter().map(|clearable| clearable.lifted).collect();
            let clearance = |row: &Identified<SuitabilityRow>, topic| Lifted {
                session: row.id.to_string(),
                what: Barrier::Topic(topic),
            };
            assert_eq!(listed, if waits { vec![clearance(&first, topic)] } else { Vec::new() }, "{topic}");
            assert!(
                !is_locked(vec![clearance(&first, topic)]) && !is_locked(vec![clearance(&both[1], topic)])
            );
            let other = if topic == Topic::ChestPain { Topic::BlackingOut } else { Topic::ChestPain };
            assert_eq!(is_locked(vec![clearance(&first, other)]), waits, "{topic}: {other} was cleared");
            // Its limits end with the answer.
            let past = Past { lifted: vec![clearance(&first, topic)], ..Past::default() };
            let found = Trainee::new(past, &[], both.clone()).fitness.suitability.unwrap();
            assert!(found.because.is_empty(), "{topic}: {:?}", found.because);
        }
    }
}

proptest! {
    /// Whatever is answered and accepted: no limit is wider than where a clinician agreed to the same topics, nor than
    /// where they were answered well; and what is not accepted locks as before.
    #[test]
    fn accepting_lifts_locks_and_never_widens_bounds(
        not_good in prop::collection::vec(prop::sample::select(Topic::questions(false).collect::<Vec<_>>()), 0..6),
        accepted in prop::collection::vec(prop::sample::select(Topic::questions(false).filter(|topic| topic.can_be_accepted()).collect::<Vec<_>>()), 0..6),
    ) {
        let mut topics = accepted.clone();
        topics.sort_unstable();
        topics.dedup();
        let sections: String = topics.iter().map(|topic| accepts(*topic, "2026-11-10")).collect();
        let program = issued(&sections);
        let under = |replies: &[(Topic, Reply)]| {
            Trainee::new(Past::default(), &[], vec![given(5, replies)]).suitability_under(&program, at(30).date()).unwrap()
        };
        let replies = |agreed: bool| -> Vec<(Topic, Reply)> {
            let agreed = |topic: &Topic| (agreed && topics.contains(topic)).then_some(YesNoNotSure::Yes);
            not_good.iter().map(|topic| (*topic, Reply { agreed: agreed(topic), ..yes() })).collect()
        };
        let plain = Trainee::new(Past::default(), &[], vec![given(5, &replies(true))]).fitness.suitability.unwrap();
        let found = under(&replies(false));
        prop_assert_eq!(found.bounds(), plain.bounds(), "as where a clinician agreed to these topics");
        let left: Vec<Topic> = not_good.iter().copied().filter(|topic| topic.locks() && !topics.contains(topic)).collect();
        prop_assert_eq!(found.bounds().is_none(), !left.is_empty());
        if let Some(bounds) = found.bounds() {
            let good = under(&[]).bounds().unwrap();
            prop_assert_eq!(bounds.and(good), bounds, "never wider than with good answers");
        }
    }

    /// Clearing one topic leaves every other lock.
    #[test]
    fn clearing_one_topic_leaves_the_others(
        not_good in prop::collection::btree_set(prop::sample::select(Topic::questions(false).filter(|topic| topic.locks()).collect::<Vec<_>>()), 1..6),
        which in any::<prop::sample::Index>(),
    ) {
        let not_good: Vec<Topic> = not_good.into_iter().collect();
        let row = given(5, &not_good.iter().map(|topic| (*topic, yes())).collect::<Vec<_>>());
        let topics = |past: &Past| -> Vec<Barrier> {
            let trainee = Trainee::new(past.clone(), &[], vec![row.clone()]);
            trainee.clearable(&at(30)).into_iter().map(|found| found.lifted.what).collect()
        };
        let mut all = topics(&Past::default());
        prop_assert_eq!(all.len(), not_good.len());
        let what = all.remove(which.index(all.len()));
        let past = Past { lifted: vec![Lifted { session: row.id.to_string(), what }], ..Past::default() };
        prop_assert_eq!(topics(&past), all);
    }
}

#[test]
fn whoever_issued_it_by_name_has_seen_the_tests_until_then() {
    let text = Prescription::ready_text("gentle").unwrap();
    let named = text.replace("issued_by = \"\"", "issued_by = \"K. L.\"");
    // It was issued on November 25, 2026.
    let two = |day| {
        let rows = [rises(&at(day), 2), BalanceRow { test: Test::OneLeg, ..rises(&at(day), 10) }];
        Trainee::new(Past::default(), &rows, Vec::new())
    };
    assert_eq!(two(25).fitness.tests_below, 2, "both are below their cut-offs");
    let reasons = |trainee: &Trainee, text: &str| trainee.next(&read(text), &at(30)).reasons;
    assert_eq!(reasons(&two(25), text), reasons(&two(26), text));
    assert_ne!(reasons(&two(25), &named), reasons(&two(25), text), "seen by whoever issued it");
    assert_eq!(reasons(&two(26), &named), reasons(&two(26), text), "taken later");
}

#[test]
fn before_a_day_is_without_its_practice_and_with_its_answers_and_tests() {
    let sessions = [2, 4].map(|day| clean(&prescription(), &at(day), &[1, 2, 2]));
    let rows = [4, 5].map(|day| rises(&at(day), 12));
    let answers = then(&answered(&at(4), Answer::Yes), answered(&at(5), Answer::No));
    let trainee = Trainee::new(past(sessions), &rows, answers);
    let counts = |day: i8| {
        let before = trainee.before(at(day).date());
        (
            before.past.sessions.len(),
            before.tests.len(),
            before.answered_at().is_some(),
            is_clinician(&before),
        )
    };
    assert_eq!(counts(3), (1, 0, false, false));
    assert_eq!(counts(4), (1, 1, true, true));
    assert_eq!(counts(5), (2, 2, true, false));
}

#[test]
fn balance_tests_are_offered_at_first_and_again_after_four_weeks() {
    let now = at(2);
    let none = Trainee::default();
    assert_eq!(none.retest(now.date()), Some(Retest::First));
    let once = Trainee::new(Past::default(), &[rises(&now, 12)], Vec::new());
    let again = now.date().saturating_add(28.days());
    assert_eq!(once.retest(again.saturating_sub(1.days())), None);
    assert_eq!(once.retest(again), Some(Retest::Since(again)));
    assert_eq!(once.retest(again.saturating_add(9.days())), Some(Retest::Since(again)));
}

#[test]
fn what_is_asked_for_is_compared_with_the_program_at_the_steps_of_today() {
    let text = Prescription::ready_text("gentle").unwrap();
    let (program, other) = (read(text), read(&format!("{text}\n# another file\n")));
    let trainee = Trainee::default();
    let steps = trainee.next(&program, &at(30)).steps;
    // The first drill is the warm-up, which stays at its first step.
    let above = |nth, step: u8| step + u8::from(nth > 0);
    let higher: Vec<Option<u8>> =
        steps.iter().enumerate().map(|(nth, step)| step.map(|step| above(nth, step))).collect();
    let harder = |asked: &Prescription, steps: &[Option<u8>]| {
        trainee.harder_than(&program, &at_steps(asked, steps), &at(30))
    };
    assert_eq!(harder(&other, &steps), None);
    let found = harder(&other, &higher);
    assert!(matches!(found, Some(Excess::Range { what: "at a higher step", .. })), "{found:?}");
    // The program itself is at the steps that progression gives, or gentler.
    assert_eq!(harder(&program, &higher), None);
    let typical = Prescription::ready("typical").unwrap();
    assert!(harder(typical, &trainee.next(typical, &at(30)).steps).is_some());
}

#[test]
fn a_clearance_lifts_locks_dates_ahead_and_the_answers_but_no_hold() {
    let told = |day, item| {
        clean(&prescription(), &at(day), &[1, 2, 2]).but(|session| {
            session.ready = vec![(item, item.answer_if(false))];
            session.sets.clear();
        })
    };
    let unwell =
        clean(&prescription(), &at(5), &[1, 2, 2]).but(|session| session.end = Some(SessionEnd::Unwell));
    let (chest, ahead) = (told(2, Item::Chest), clean(&prescription(), &at(20), &[1, 2, 2]));
    let ids = [&chest, &ahead].map(|session| session.id.clone());
    let mut all = past([chest, unwell, ahead]);
    let answers = vec![answered(&at(3), Answer::Yes)];
    let now = at(6);
    let clearable = |past: &Past| Trainee::new(past.clone(), &[], answers.clone()).clearable(&now);
    let found = clearable(&all);
    let lifts = |session: &str, what| Lifted { session: session.to_owned(), what };
    let at_answers = answered(&at(3), Answer::No).id.to_string();
    assert_eq!(
        found,
        [
            Clearable { lifted: lifts(&ids[0], Barrier::Lock(Lock::Chest)), day: Some(at(2).date()) },
            Clearable { lifted: lifts(&ids[1], Barrier::Date), day: Some(at(20).date()) },
            Clearable { lifted: lifts(&at_answers, Barrier::Topic(HEART)), day: Some(at(3).date()) },
        ]
    );
    all.lifted = found.into_iter().map(|found| found.lifted).collect();
    assert_eq!(clearable(&all), []);
    let cleared = Trainee::new(all, &[], answers);
    let holds =
        |now: &ZonedDateTime| cleared.barriers(now).holds.iter().map(|hold| hold.what).collect::<Vec<_>>();
    assert_eq!(holds(&now), [Hold::Unwell]);
    assert_eq!(holds(&now.saturating_add(SignedDuration::from_hours(48))), []);
}

/// What is asked about the partner, each with this answer or, for one topic, with that.
fn of_partner(at: &ZonedDateTime, other: Option<(Topic, Answer)>) -> Identified<SuitabilityRow> {
    let asked = Topic::questions(true).filter(|topic| topic.is_about_partner());
    let answer = |topic: Topic| match other {
        Some((of, answer)) if of == topic => answer,
        _ if topic.is_good(YesNoNotSure::Yes) => Answer::Yes,
        _ => Answer::No,
    };
    let answers = asked.map(|topic| TopicRow::new(topic, Reply::new(answer(topic)))).collect();
    let at = Stamp::from(at);
    Identified {
        id: Id::of(&format!("partner {}", at.text())),
        row: SuitabilityRow { at, partner: true, answers, replaces: Vec::new() },
    }
}

#[test]
fn the_answers_about_a_partner_open_or_close_practice_with_one_whatever_else_was_answered() {
    let known = |answered| Trainee::new(Past::default(), &[], answered);
    let alone = |trainee: &Trainee| {
        let bounds = trainee.fitness.bounds();
        bounds.is_some_and(|bounds| bounds.limits.alone)
    };
    let (whole, good) = (given(2, &[]), of_partner(&at(3), None));
    assert_eq!(known(Vec::new()).partner_fit(), PartnerFit::NotAsked);
    assert_eq!(known(vec![whole.clone()]).partner_fit(), PartnerFit::NotAsked);
    assert!(alone(&known(vec![whole.clone()])));
    for answered in [vec![good.clone()], vec![whole.clone(), good.clone()]] {
        let trainee = known(answered);
        assert_eq!((trainee.partner_fit(), alone(&trainee)), (PartnerFit::Fits, false));
    }
    assert_eq!(known(vec![good.clone()]).fitness.suitability, None, "the rest is still asked");

    for topic in Topic::questions(true).filter(|topic| topic.is_about_partner()) {
        let bad = if topic.is_good(YesNoNotSure::Yes) { Answer::No } else { Answer::Yes };
        for said in [bad, Answer::NotSure] {
            let row = of_partner(&at(3), Some((topic, said)));
            for answered in [vec![row.clone()], vec![whole.clone(), row.clone()]] {
                let trainee = known(answered);
                let fit = trainee.partner_fit();
                assert!(matches!(&fit, PartnerFit::Not(why) if !why.is_empty()), "{topic}: {said}: {fit:?}");
                assert!(alone(&trainee), "{topic}: {said}");
            }
        }
        let mut part = good.clone();
        part.row.answers.retain(|row| row.topic != topic);
        assert_eq!(known(vec![part]).partner_fit(), PartnerFit::NotAsked, "{topic}");
    }
}
