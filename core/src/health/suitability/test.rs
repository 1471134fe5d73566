use super::{Answer, Effect, Outcome, Suitability, Topic};
use crate::health::bounds::{Bounds, Limits};

fn with(changes: &[(Topic, Answer)], partner: bool) -> Suitability {
    let mut answers: Vec<(Topic, Answer)> =
        Topic::questions(partner).map(|topic| (topic, Answer::True)).collect();
    answers.extend_from_slice(changes);
    Suitability::of(&answers, partner, false)
}

#[test]
fn all_true_is_the_good_answer_and_opens_nothing_that_was_not_asked_about() {
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
        let found = with(&[(*topic, Answer::NotTrue)], true).outcome == Outcome::Clinician;
        assert_eq!(found, first.contains(topic), "{topic}");
        assert_eq!(topic.can_be_agreed(), first.contains(topic), "{topic}");
        assert_ne!(with(&[(*topic, Answer::Agreed)], true).outcome, Outcome::Clinician, "{topic}, agreed");
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
        assert_eq!(with(&[(topic, Answer::NotTrue)], true).outcome, outcome, "{topic}");
        assert_eq!(with(&[(topic, Answer::NotTrue)], true).reasons().len(), 1, "{topic} is said");
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
        assert_eq!(with(&[(topic, Answer::Agreed)], true).bounds(), Some(bounds), "{topic}");
    }
}

#[test]
fn what_was_not_answered_counts_as_not_true() {
    assert_eq!(Suitability::of(&[], false, false).outcome, Outcome::Clinician);
    let all_but_one: Vec<(Topic, Answer)> = Topic::questions(false)
        .filter(|topic| *topic != Topic::Bones)
        .map(|topic| (topic, Answer::True))
        .collect();
    assert_eq!(Suitability::of(&all_but_one, false, false).outcome, Outcome::Clinician);
}

#[test]
fn a_clearance_stands_for_consent_and_lifts_no_other_limit() {
    let answers = [(Topic::Bones, Answer::NotTrue), (Topic::Floor, Answer::NotTrue)];
    let all: Vec<(Topic, Answer)> =
        Topic::questions(false).map(|topic| (topic, Answer::True)).chain(answers).collect();
    assert_eq!(Suitability::of(&all, false, false).outcome, Outcome::Clinician);
    let cleared = Suitability::of(&all, false, true);
    assert_eq!(cleared.outcome, Outcome::StepOne(Bounds::STEP_ONE), "the floor is still too far down");
    assert_eq!(cleared.because[0].1, Answer::NotTrue);
}

#[test]
fn several_limits_together_are_the_narrowest_and_the_gravest_reason_comes_first() {
    let found = with(
        &[
            (Topic::Worried, Answer::NotTrue),
            (Topic::Neck, Answer::NotTrue),
            (Topic::FallYear, Answer::NotTrue),
            (Topic::Floor, Answer::NotTrue),
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
