//! Drafts beside the gate: what is written comes back, and every point is the gate's own.

use super::*;
use crate::plan::drill::UnlockName;
use crate::plan::prescription::Unlock;
use crate::plan::prescription::refusal::Reason;

fn gentle() -> Draft {
    Draft::of(Prescription::ready("gentle").unwrap())
}

#[test]
fn every_ready_prescription_comes_back_as_it_was() {
    for (name, prescription) in Prescription::all_ready() {
        let draft = Draft::of(prescription);
        let again = draft.admit().unwrap_or_else(|refusal| panic!("{name}: {refusal}"));
        assert_eq!(Draft::of(&again), draft, "{name}");
        // Everything that a session is drawn from is the same: the same seed gives the same calls.
        let drawn = |p: &Prescription| {
            let seed = crate::draw::schedule::Seed::from_bytes([7; 32]);
            format!("{:?}", crate::draw::schedule::Scheduler::new(p).unwrap().draw(seed).sets())
        };
        assert_eq!(drawn(&again), drawn(prescription), "{name}");
    }
}

#[test]
fn a_drill_that_is_added_waits_only_for_what_must_be_watched_or_confirmed() {
    for drill in Drill::all() {
        for form in drill.forms() {
            let added = DraftDrill::new(drill, *form);
            let draft = Draft { drills: vec![added], ..gentle() };
            for point in draft.problems() {
                let fine = matches!(
                    point.reason(),
                    Reason::Locked { .. }
                        | Reason::LockedStep { .. }
                        | Reason::NotConfirmed { .. }
                        | Reason::Untested { .. }
                        | Reason::HoldLong { .. }
                        | Reason::OddSets { .. }
                );
                assert!(fine, "{} {}: {point}", drill.name(), form.name());
            }
        }
    }
}

#[test]
fn every_point_is_named_and_not_only_the_first() {
    let mut draft = gentle();
    draft.drills.push(draft.drills[1].clone());
    draft.drills[2].directions.push("back".into());
    draft.drills[1].directions.push("back left".into());
    draft.drills[2].work_ms = 12_000;
    draft.weeks = 99;
    let points = draft.problems();
    let facts: Vec<String> = points.iter().map(Refusal::fact).collect();
    assert!(facts.iter().any(|fact| fact.contains("`weeks` is 99; the most is 52")), "{facts:?}");
    // An out-of-range week is no point that waits: it hides what comes behind, and the answer is refused.
    draft.weeks = 12;
    let facts: Vec<String> = draft.problems().iter().map(Refusal::fact).collect();
    assert_eq!(facts.len(), 2, "{facts:?}");
    assert!(facts[0].contains("which is locked: it goes behind the person"), "{facts:?}");
    assert!(facts[1].contains("`gap_ms`") || facts[1].contains("too long for the set"), "{facts:?}");
    assert!(draft.problems().iter().all(|point| is_pending(point.reason())));
}

#[test]
fn what_a_person_types_cannot_become_another_line() {
    let title = "a\" \nweeks = 60 # ]]";
    let draft = Draft { title: title.into(), ..gentle() };
    assert!(matches!(draft.problems()[0].reason(), Reason::Unprintable { field: "title", .. }));
    let title = "with \"quotes\", \\ and 'these' # too = [";
    let draft = Draft { title: title.into(), issued_by: "'''".into(), ..gentle() };
    let read = draft.admit().unwrap();
    assert_eq!((read.title(), read.issued_by(), read.weeks()), (title, "'''", 12));
}

#[test]
fn a_choice_takes_away_what_it_leaves_without_meaning() {
    let mut plan = gentle().drills[1].clone();
    plan.weights = Some(vec![1, 2, 3, 4, 5]);
    plan.longest_streak = Some(2);
    plan.directions.truncate(2);
    let said = plan.tidy();
    assert_eq!((plan.weights.as_ref(), plan.longest_streak), (None, None));
    assert_eq!(said.len(), 2);
    (plan.sequence, plan.slack) = (SequenceName::Covered, Some(1));
    plan.directions.truncate(1);
    plan.tidy();
    assert_eq!((plan.sequence, plan.slack), (SequenceName::Open, None));
    assert!(Draft { drills: vec![plan], ..gentle() }.problems().is_empty());
}

#[test]
fn an_unlock_and_a_reason_are_written_and_read() {
    let mut draft = gentle();
    draft.issued_by = "K. L.".into();
    draft.accepted_because = Some("seen today".into());
    draft.effort_at_most = 4;
    draft.drills[1].directions.push("back".into());
    let on = draft.issued_on;
    draft.unlocks.push(Unlock {
        name: UnlockName::Backward,
        watched_by: "K. L.".into(),
        on,
        partner: String::new(),
        therapist_present: true,
    });
    let read = draft.admit().unwrap();
    assert_eq!(Draft::of(&read), draft);
}
