//! The safety rules once more, written from the design and not from the code that keeps them: every number and
//! every list of actions is here a second time, on purpose.

use crate::plan::drill::{Action, Drill, Form, Stance, Surface, UnlockName};
use crate::plan::prescription::{DrillPlan, Prescription};

use super::super::{Call, SetPlan};
use super::Fault;

/// A rule of safety that is broken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Danger {
    /// Something comes while the eyes are closed, less than 3 s before, or less than 5 s after.
    #[error("something comes too soon before or after closed eyes")]
    NearClosedEyes,
    /// The eyes are closed for too long, or alone on something soft.
    #[error("the eyes are closed for more than 10 s, or alone on a soft base")]
    Blind,
    /// A push, and something is heard of it.
    #[error("the trainee is told about something that the partner does unannounced")]
    Announced,
    /// A push at a strength that is not allowed, or something else with a strength.
    #[error("its strength is not allowed")]
    Strength,
    /// One of the first two pushes of a session is not the gentlest, or not announced as practice, or a later one is.
    #[error(
        "the first two pushes of a session, and only those, must be the gentlest and announced as practice"
    )]
    Practice,
    /// More than six pushes in a set.
    #[error("the set has more than six pushes")]
    ManyPushes,
    /// The partner is told too late, or before the previous cue is over.
    #[error("the partner is told too late, or before the previous cue is over")]
    Lead,
    /// A call without the ball, or with one, against the number of balls.
    #[error("the ball is named when there is only one, or not named when there are two")]
    Ball,
    /// More parts than the step allows, two of a kind, or one that does not suit.
    #[error("its parts are not allowed on this step")]
    Parts,
    /// Something that nobody has watched this person do, alone or with one and the same partner.
    #[error("it is locked")]
    Locked,
    /// A partner is needed and not there.
    #[error("it needs a partner")]
    Alone,
    /// Something that must be in place is not confirmed.
    #[error("what must be in place is not confirmed")]
    NotConfirmed,
    /// Tandem or one leg: not a hold, longer than 80 % of the person's own, or one side more than the other.
    #[error(
        "tandem and one-leg holds must last at most 80 % of the tested hold, with both sides equally often"
    )]
    Hold,
    /// Something that one of the person's precautions rules out.
    #[error("a precaution of this person rules it out")]
    Precaution,
    /// More than two minutes of following a target on the screen.
    #[error("the session has more than two minutes of following the target on the screen")]
    Watching,
}

/// Whether the person walks in this drill.
pub(super) fn walks(drill: &Drill) -> bool {
    drill.ladder().iter().any(|step| step.stance.name() == "walking")
}

/// The shortest gap before and after this call, by the design's table: reach and call 4 s; step 6; turn 8; rise, push, tug and
/// nudge 10; toss 12; the others by judgment.
pub(super) fn shortest_gap(call: &Call, drill: &Drill) -> crate::units::Millis {
    let seconds = |action: Action| match action.name() {
        "step" | "stop" | "change pace" => 6,
        "turn head" | "turn round" | "follow" | "touch" | "go round" | "next patch" | "close eyes" => 8,
        "rise" | "push" | "nudge" | "tug" | "slide" | "tilt" | "blind steps" => 10,
        "toss" | "throw" => 12,
        _ => 4,
    };
    let parts =
        drill.parts().iter().filter(|part| call.say().contains(&part.phrase)).filter_map(|part| part.action);
    let longest = parts.map(seconds).chain([seconds(call.action())]).max();
    crate::units::Millis::from_secs(longest.unwrap_or(4))
}

fn pushes(action: Action) -> bool {
    ["push", "nudge", "tug"].contains(&action.name())
}

fn unannounced(action: Action) -> bool {
    pushes(action) || ["slide", "tilt", "touch"].contains(&action.name())
}

fn shuts_eyes(action: Action) -> bool {
    ["close eyes", "blind steps"].contains(&action.name())
}

/// What is wrong with cue `index` of a set, by itself and next to its neighbors.
pub(super) fn of_cue(plan: &DrillPlan, set: &SetPlan, index: usize) -> Option<Danger> {
    let cue = &set.cues()[index];
    let lead = cue.call().map_or(0, |call| call.lead().0);
    let before = index.checked_sub(1).map(|before| &set.cues()[before]);
    if let Some(before) = before {
        let shut_before = before.call().is_some_and(|call| shuts_eyes(call.action()));
        let opened = before.at().0 + before.call().and_then(Call::span).map_or(0, |span| span.length.0);
        if shut_before && cue.at().0 < opened + lead + 5_000 {
            return Some(Danger::NearClosedEyes);
        }
    }
    let call = cue.call()?;
    let shut = shuts_eyes(call.action());
    let soft_and_alone = set.form() == Form::Alone && set.conditions().surface != Surface::Firm;
    let strength = match (pushes(call.action()), call.strength(), plan.strength()) {
        (false, None, _) => true,
        (true, Some(strength), Some((gentlest, firmest))) => {
            (gentlest.number()..=firmest.number()).contains(&strength.number())
                && firmest.number() - gentlest.number() <= 1
        }
        _ => false,
    };
    let two_balls = call.action().name() == "toss" && set.balls() == 2;
    let told_in_time = match set.form() {
        Form::Alone => call.lead().0 == 0 && call.tell().is_empty(),
        Form::Partner => {
            lead + plan.recover().0 <= cue.gap().0 && (lead >= 3_000 || !unannounced(call.action()))
        }
    };
    [
        (shut && cue.gap().0 < 3_000, Danger::NearClosedEyes),
        (shut && call.span().is_none_or(|span| span.length.0 > 10_000), Danger::Blind),
        (shut && soft_and_alone, Danger::Blind),
        (unannounced(call.action()) && !call.utterances().is_empty(), Danger::Announced),
        (!strength, Danger::Strength),
        (two_balls != call.ball().is_some(), Danger::Ball),
        (!told_in_time, Danger::Lead),
        (!parts_allowed(call, set), Danger::Parts),
    ]
    .into_iter()
    .find_map(|(broken, danger)| broken.then_some(danger))
}

fn parts_allowed(call: &Call, set: &SetPlan) -> bool {
    let parts = set.drill().parts();
    if parts.is_empty() {
        return call.say().len() <= 1;
    }
    let mut kinds = Vec::new();
    for phrase in call.say().iter().skip(1) {
        let Some(part) = parts.iter().find(|part| part.phrase == *phrase) else { return false };
        let suits = part.directions.is_empty() || part.directions.contains(&call.direction());
        if !suits || kinds.contains(&&part.kind) {
            return false;
        }
        kinds.push(&part.kind);
    }
    call.say().len() <= usize::from(set.conditions().parts)
}

/// What is wrong with the session as a whole.
pub(super) fn inspect(prescription: &Prescription, sets: &[SetPlan]) -> Result<(), Fault> {
    let mut pushed = 0;
    let mut watched = 0;
    for set in sets {
        let fault = |danger| Err(Fault::Danger { set: set.number(), danger });
        let plan = prescription.drills().iter().find(|plan| {
            plan.drill().name() == set.drill().name()
                && plan.work() == set.work()
                && plan.step() == set.step()
        });
        let Some(plan) = plan else { return fault(Danger::Locked) };
        let calls = || set.cues().iter().filter_map(|cue| cue.call());
        let pushes_here = calls().filter(|call| pushes(call.action()));
        let (before, mut gentle) = (pushed, true);
        for call in pushes_here {
            let practice = pushed < 2;
            let gentlest = plan.strength().map(|(gentlest, _)| gentlest);
            gentle &= call.is_practice() == practice && (!practice || call.strength() == gentlest);
            pushed += 1;
        }
        if pushed - before > 6 {
            return fault(Danger::ManyPushes);
        }
        if !gentle {
            return fault(Danger::Practice);
        }
        if set.drill().targets().iter().any(|target| target.action.name() == "watch") {
            watched += set.work().0;
        }
        if watched > 120_000 {
            return fault(Danger::Watching);
        }
        let alone = calls().any(|call| {
            unannounced(call.action())
                || ["toss", "follow", "go round", "next patch", "blind steps"].contains(&call.action().name())
        });
        if alone && set.form() == Form::Alone {
            return fault(Danger::Alone);
        }
        if !is_unlocked(prescription, plan, set) {
            return fault(Danger::Locked);
        }
        if calls().any(|call| is_ruled_out(prescription, call, set)) {
            return fault(Danger::Precaution);
        }
        if !in_place(plan, set) {
            return fault(Danger::NotConfirmed);
        }
        if matches!(set.conditions().stance, Stance::Tandem | Stance::OneLeg) {
            let tested = plan.tested_hold().map_or(0, |hold| u64::from(hold.0));
            let short = |call: &Call| {
                call.span().is_some_and(|span| {
                    span.length.0 <= 30_000 && u64::from(span.length.0) * 10 <= tested * 8
                })
            };
            if plan.sets() % 2 == 1 || !calls().all(|call| call.action().name() == "hold" && short(call)) {
                return fault(Danger::Hold);
            }
        }
    }
    Ok(())
}

/// Whether everything in the set was watched: alone, or with one partner who has all of it.
fn is_unlocked(prescription: &Prescription, plan: &DrillPlan, set: &SetPlan) -> bool {
    let mut needed: Vec<&str> = Vec::new();
    for call in set.cues().iter().filter_map(|cue| cue.call()) {
        needed.extend(match call.action().name() {
            "push" | "tug" => &["pushes"][..],
            "nudge" => &["pushes", "walking"],
            "slide" | "tilt" => &["surface"],
            "stop" | "change pace" | "turn round" | "go round" => &["walking"],
            "next patch" => &["walking", "surface"],
            "close eyes" => &["eyes-closed"],
            "blind steps" => &["eyes-closed", "walking"],
            _ => &[],
        });
        if call.direction().name().starts_with("back") {
            needed.push("backward");
        }
    }
    let step = set.conditions();
    match step.stance.name() {
        "tandem" | "one leg" => needed.push("one-leg"),
        "walking" => needed.push("walking"),
        _ => {}
    }
    if step.surface.name() != "firm" {
        needed.push("surface");
    }
    if step.second_task.is_some() {
        needed.push("second-task");
    }
    needed.extend(plan.ladder().unlocks(set.step()).map(UnlockName::name));
    let has = |name: &str, partner: &str| {
        prescription.unlocks().iter().any(|unlock| unlock.name.name() == name && unlock.partner == partner)
    };
    let firm = plan.strength().is_some_and(|(_, firmest)| firmest.number() > 2);
    let present = prescription.unlocks().iter().any(|u| u.name.name() == "pushes" && u.therapist_present);
    let watched = match set.form() {
        Form::Alone => needed.iter().all(|name| has(name, "")),
        Form::Partner => {
            needed.is_empty()
                || prescription.unlocks().iter().any(|unlock| {
                    !unlock.partner.is_empty() && needed.iter().all(|name| has(name, &unlock.partner))
                })
        }
    };
    watched && (!firm || present)
}

/// Whether the call, in the stance of its set, needs what a precaution rules out. Where it is not sure which limb is used,
/// both are.
fn is_ruled_out(prescription: &Prescription, call: &Call, set: &SetPlan) -> bool {
    let (action, way) = (call.action().name(), call.direction().name());
    let (step, said) = (set.conditions(), |words: &str| call.say().iter().any(|part| part.words() == words));
    let (to_left, to_right) = (way.contains("left"), way.contains("right"));
    let narrow = ["semi-tandem", "tandem", "one leg", "walking"].contains(&step.stance.name());
    let both_legs = narrow
        || step.surface.name() == "patches"
        || ["narrow stance", "stop", "change pace", "turn round", "go round", "next patch", "blind steps"]
            .contains(&action);
    let steps = action == "step" || said("with a step");
    let leans = ["shift", "reach"].contains(&action);
    let both_arms = ["hands hovering", "hands on the chair"].contains(&step.support.name())
        || step.second_task.is_some_and(|task| task.name() == "carry");
    let looks = ["turn head", "follow", "watch", "touch", "turn round", "go round", "next patch"]
        .contains(&action)
        || (way.contains("high") || way == "up") && !["raise heels", "rise"].contains(&action);
    let bends = ["reach", "rise", "turn head", "touch", "turn round", "go round", "next patch"]
        .contains(&action)
        || way.contains("low")
        || way == "down";
    let outside = ["push", "nudge", "tug", "toss", "throw", "slide", "tilt"].contains(&action);
    let corner_behind = way == "back left" || way == "back right";
    prescription.precautions().iter().map(crate::plan::precaution::Precaution::name).any(|precaution| {
        outside
            || match precaution {
                "no step with the left leg" => both_legs || steps && !to_right,
                "no step with the right leg" => both_legs || steps && !to_left,
                "no weight on the left leg alone" => both_legs || steps || leans && to_left,
                "no weight on the right leg alone" => both_legs || steps || leans && to_right,
                "left arm stays down" => both_arms || action == "reach" && !to_right,
                "right arm stays down" => both_arms || action == "reach" && !to_left,
                "no head turns or looking up" => {
                    looks || corner_behind || ["up high", "low", "and turn"].into_iter().any(said)
                }
                "nothing backward" => way.starts_with("back") || action == "touch",
                "no bending or twisting" => bends || corner_behind || call.say().len() > 1 && !steps,
                _ => true,
            }
    })
}

/// Whether the free stretch, the chair and the base are confirmed where the set needs them.
fn in_place(plan: &DrillPlan, set: &SetPlan) -> bool {
    let confirmed = |name: &str| plan.confirmed().iter().any(|need| need.name() == name);
    let rises = set.cues().iter().filter_map(|cue| cue.call()).any(|call| call.action().name() == "rise");
    (!walks(set.drill()) || confirmed("free stretch"))
        && (!rises || confirmed("chair against a wall"))
        && (set.conditions().surface.name() != "foam" || confirmed("own soft base"))
}

#[cfg(test)]
mod test;
