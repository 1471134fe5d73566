use jiff::civil::date;

use super::{Acceptances, Answer, By, Effect, Finding, Outcome, Reply, Suitability, Topic, Why};
use crate::health::bounds::{Bounds, Limits};
use crate::health::yes_no::YesNoNotSure;

const NOT_GOOD: Finding = Finding::Warning(Why::Yes);
const AGREED: Finding = Finding::Lifted(By::Consent);

fn with(changes: &[(Topic, Finding)], partner: bool) -> Suitability {
    let mut found: Vec<(Topic, Finding)> =
        Topic::questions(partner).map(|topic| (topic, Finding::Fine)).collect();
    found.extend_from_slice(changes);
    Suitability::of(&found, partner)
}

/// What an answer comes to by itself.
fn alone(topic: Topic, reply: Reply) -> Finding {
    reply.finding(topic, Some(date(2026, 11, 5)), false, &Acceptances::default())
}

/// The topics of before: each was one sentence.
fn of_before() -> impl Iterator<Item = Topic> {
    Topic::ALL.iter().copied().filter(|topic| topic.whole() == *topic)
}

#[test]
fn a_question_has_one_idea_and_is_never_a_double_negative() {
    for topic in Topic::questions(true) {
        let question = topic.question();
        assert!(question.ends_with('?') && question.matches(['?', '.', ';']).count() == 1, "{question}");
        let words: Vec<String> =
            question.split(|c: char| !c.is_alphabetic() && c != '\'').map(str::to_lowercase).collect();
        for negative in ["no", "not", "never", "none", "without", "cannot", "nobody", "nothing"] {
            assert!(!words.iter().any(|word| word == negative || word.ends_with("n't")), "{question}");
        }
        assert!(!words.iter().any(|word| word == "and"), "one idea: {question}");
        assert!(words.len() <= 20, "{question}");
    }
    // Two things that a yes may mean are asked about by themselves: what is left are words for one thing.
    let with_or: Vec<Topic> =
        Topic::questions(true).filter(|topic| topic.question().contains(" or ")).collect();
    let one_thing = [
        Topic::BloodPressure,
        Topic::NerveIllness,
        Topic::Joint,
        Topic::Pain,
        Topic::Aid,
        Topic::TwoFalls,
        Topic::ThinBones,
        Topic::Unsteady,
    ];
    assert!(with_or.iter().all(|topic| one_thing.contains(topic)), "{with_or:?}");
}

#[test]
fn not_sure_is_never_the_good_answer_and_of_yes_and_no_one_is() {
    for topic in Topic::questions(true) {
        let good =
            [YesNoNotSure::Yes, YesNoNotSure::No, YesNoNotSure::NotSure].map(|said| topic.is_good(said));
        assert!(good[0] != good[1] && !good[2], "{topic}");
        assert_eq!(good[0], topic.is_good_if_yes(), "{topic}");
        for said in YesNoNotSure::ALL {
            let is_fine = alone(topic, Reply::new((*said).into())) == Finding::Fine;
            assert_eq!(is_fine, topic.is_good(*said), "{topic} {said}");
        }
        let not_sure = topic.said(alone(topic, Reply::new(Answer::NotSure)));
        assert_eq!(not_sure, format!("You are not sure about {topic}."));
    }
    // About the person, no is always the good answer: an old "true" is a new "no".
    assert!(Topic::questions(false).all(|topic| !topic.is_good_if_yes()));
}

#[test]
fn old_answers_keep_their_meaning() {
    assert_eq!(of_before().count(), 29, "as many as there were sentences");
    for topic in of_before() {
        assert_eq!(alone(topic, Reply::new(Answer::True)), Finding::Fine, "{topic}");
        assert_eq!(alone(topic, Reply::new(Answer::NotTrue)), NOT_GOOD, "{topic}");
        let agreed = alone(topic, Reply::new(Answer::Agreed));
        assert_eq!(agreed, if topic.can_be_agreed() { AGREED } else { NOT_GOOD }, "{topic}");
        // What was not true of a whole limits as each of its parts does.
        for part in topic.parts() {
            assert_eq!(part.leads_to(NOT_GOOD), topic.leads_to(NOT_GOOD), "{part}");
            assert_eq!(part.leads_to(AGREED), topic.leads_to(AGREED), "{part}");
        }
    }
    let all_true: Vec<(Topic, Finding)> =
        of_before().map(|topic| (topic, alone(topic, Reply::new(Answer::True)))).collect();
    assert_eq!(
        Suitability::of(&all_true, true).outcome,
        Outcome::GoAhead(Bounds::OPEN),
        "nothing is left open"
    );
    // A sentence that there never was, and a question that is no longer asked, are no answers.
    for topic in Topic::ALL.iter().filter(|topic| topic.whole() != **topic || !topic.is_asked()) {
        let said = if topic.is_asked() { Answer::True } else { Answer::No };
        assert_eq!(alone(*topic, Reply::new(said)), Finding::Warning(Why::NotAnswered), "{topic}");
    }
}

#[test]
fn good_answers_give_the_good_result_and_open_nothing_that_was_not_asked_about() {
    assert_eq!(with(&[], true).outcome, Outcome::GoAhead(Bounds::OPEN));
    assert_eq!(with(&[], false).outcome, Outcome::GoAhead(Bounds::ALONE));
    assert!(with(&[], true).because.is_empty());
}

#[test]
fn every_topic_of_the_public_health_lists_leads_to_a_clinician_first() {
    use Topic::{
        Blackouts, Bones, ChestPain, Drowsy, FallPain, FallSevere, Heart, InnerEar, Joint, Memory, Nerves,
        Operation, Pain, Rising, Sight, Thinners,
    };
    let first = [
        Heart, ChestPain, Blackouts, Rising, FallPain, Operation, Bones, Nerves, InnerEar, Thinners, Drowsy,
        Sight, Joint, Pain, Memory, FallSevere,
    ];
    for topic in Topic::ALL {
        let found = with(&[(*topic, NOT_GOOD)], true).outcome == Outcome::Clinician;
        assert_eq!(found, first.contains(&topic.whole()), "{topic}");
        assert_eq!(topic.locks(), found, "{topic}");
        assert!(
            topic.locks() || !(topic.can_be_agreed() || topic.can_be_accepted() || topic.needs_clearance())
        );
        assert_ne!(with(&[(*topic, AGREED)], true).outcome, Outcome::Clinician, "{topic}, agreed");
    }
}

#[test]
fn every_row_of_what_limits_without_a_clinician() {
    let alone = Bounds::ALONE;
    let rows = [
        (Topic::Floor, Outcome::StepOne(Bounds::STEP_ONE)),
        (Topic::Aid, Outcome::StepOne(Bounds::STEP_ONE)),
        (Topic::House, Outcome::GoAhead(Bounds::CAUTIOUS)),
        (Topic::FallYear, Outcome::GoAhead(Bounds::CAUTIOUS)),
        (Topic::Unsteady, Outcome::GoAhead(Bounds::CAUTIOUS)),
        (Topic::Neck, Outcome::GoAhead(Bounds { no_head_turns: true, ..Bounds::OPEN })),
        (Topic::Sugar, Outcome::GoAhead(Bounds::OPEN)),
        (Topic::Worried, Outcome::GoAhead(Bounds::OPEN)),
        (Topic::PartnerStrength, Outcome::GoAhead(alone)),
        (Topic::PartnerBalance, Outcome::GoAhead(alone)),
        (Topic::PartnerBack, Outcome::GoAhead(alone)),
        (Topic::PartnerTaught, Outcome::GoAhead(alone)),
        (Topic::Consent, Outcome::GoAhead(alone)),
    ];
    for (topic, outcome) in rows {
        assert_eq!(with(&[(topic, NOT_GOOD)], true).outcome, outcome, "{topic}");
        assert_eq!(with(&[(topic, NOT_GOOD)], true).reasons().len(), 1, "{topic} is said");
    }
}

#[test]
fn every_row_of_what_a_clinicians_consent_leaves() {
    let alone = Bounds::ALONE;
    let rows = [
        (Topic::Heart, Bounds::OPEN),
        (Topic::Operation, Bounds::OPEN),
        (Topic::Pain, Bounds::OPEN),
        (Topic::Joint, Bounds::OPEN),
        (Topic::Bones, alone),
        (Topic::Thinners, alone),
        (Topic::ChestPain, Bounds::CAUTIOUS),
        (Topic::Blackouts, Bounds::CAUTIOUS),
        (Topic::FallPain, Bounds::CAUTIOUS),
        (Topic::Nerves, Bounds::CAUTIOUS),
        (Topic::InnerEar, Bounds::CAUTIOUS),
        (Topic::Drowsy, Bounds::CAUTIOUS),
        (Topic::FallSevere, Bounds::CAUTIOUS),
        (Topic::Rising, Bounds { no_rises: true, ..Bounds::CAUTIOUS }),
        (Topic::Sight, Bounds::STEP_ONE),
        (Topic::Memory, Bounds::STEP_ONE),
    ];
    for (topic, bounds) in rows {
        assert_eq!(with(&[(topic, AGREED)], true).bounds(), Some(bounds), "{topic}");
    }
}

#[test]
fn what_was_not_answered_counts_as_a_warning() {
    assert_eq!(Suitability::of(&[], false).outcome, Outcome::Clinician);
    let all_but_one: Vec<(Topic, Finding)> = Topic::questions(false)
        .filter(|topic| *topic != Topic::ThinBones)
        .map(|topic| (topic, Finding::Fine))
        .collect();
    let found = Suitability::of(&all_but_one, false);
    assert_eq!(found.outcome, Outcome::Clinician);
    assert_eq!(found.because[0].1, Finding::Warning(Why::NotAnswered));
}

#[test]
fn a_lock_that_is_lifted_lifts_no_other_limit() {
    let cleared = Finding::Lifted(By::Clearance);
    let locked = with(&[(Topic::ThinBones, NOT_GOOD), (Topic::Floor, NOT_GOOD)], false);
    assert_eq!(locked.outcome, Outcome::Clinician);
    let found = with(&[(Topic::ThinBones, cleared), (Topic::Floor, NOT_GOOD)], false);
    assert_eq!(found.outcome, Outcome::StepOne(Bounds::STEP_ONE), "the floor is still too far down");
    assert!(found.reasons()[1].contains("A clinician cleared you."), "{:?}", found.reasons());
}

#[test]
fn several_limits_together_are_the_narrowest_and_the_gravest_reason_comes_first() {
    let found = with(
        &[
            (Topic::Worried, NOT_GOOD),
            (Topic::Neck, NOT_GOOD),
            (Topic::FallYear, NOT_GOOD),
            (Topic::Floor, NOT_GOOD),
        ],
        true,
    );
    let bounds = found.bounds().unwrap();
    assert_eq!((bounds.limits, bounds.no_head_turns), (Limits::STEP_ONE, true));
    let topics: Vec<Topic> = found.because.iter().map(|(topic, ..)| *topic).collect();
    assert_eq!(topics, [Topic::Floor, Topic::Neck, Topic::FallYear, Topic::Worried]);
    assert!(matches!(found.because[3].2, Effect::Advice(_)));
    assert!(found.outcome.to_string().starts_with("Practice alone, at the first step only."));
}
