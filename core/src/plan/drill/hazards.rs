//! The safety rules that every drill file must keep. They are about actions and conditions, so a new drill needs no
//! new rule. What a prescription may take from a drill is checked by its gate.

use super::{Action, Drill, Form, Ladder, Stance, Support, Target, Trains};
use crate::units::Millis;

/// The longest time with the eyes closed \[judgment\].
pub const LONGEST_EYES_CLOSED: Millis = Millis(10_000);
/// The longest duration of any other call \[judgment\].
pub const LONGEST_SPELL: Millis = Millis(30_000);
/// The shortest duration: in a shorter one the end would be called while the beginning is still spoken \[judgment\].
pub const SHORTEST_SPELL: Millis = Millis(3_000);
/// The time before the first number of a count, for the call itself to be spoken and followed \[judgment\].
pub const BEFORE_COUNT: Millis = Millis(1_000);
/// The longest time before a cue that a partner may be told: with more, it is forgotten \[judgment\].
const LONGEST_LEAD: Millis = Millis(8_000);
/// How long before a cue a partner must know what the trainee must not: to hear it out, go there and look up
/// \[judgment\].
const SHORTEST_LEAD: Millis = Millis(3_000);

/// A rule that a drill file breaks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Rule {
    /// Offered alone, and nothing in it can be done alone.
    #[error("it is offered alone, but every call needs a partner")]
    Alone,
    /// Offered with a partner, and nothing says what the partner does.
    #[error("it is offered with a partner, but `partner_does` is empty")]
    PartnerDoes,
    /// Something that lasts has no end, or something that does not last has one.
    #[error("an action that lasts needs a `span`, and no other action may have one")]
    Span,
    /// A span is too short or too long.
    #[error(
        "a `span` is 3 to 30 s long, at most 10 s with the eyes closed, and at least 1 s longer than its count"
    )]
    Length,
    /// A trainee would be told of a disturbance.
    #[error(
        "the trainee must not hear when a partner pushes, throws, touches or moves the base; use `tell`, which only the partner hears"
    )]
    Announced,
    /// A call that nobody hears.
    #[error("a call needs a `phrase` for the trainee, a `tell` for the partner, or both")]
    Silent,
    /// A push without a place for the hand, or a hand without a push.
    #[error("a push needs `hand`, the place of the partner's hand, and no other action may have it")]
    Hand,
    /// Pushes and closed eyes in one drill.
    #[error("a drill may not have both pushes and closed eyes")]
    PushedBlind,
    /// A disturbance on one leg or in tandem.
    #[error("nothing may disturb a person in tandem or on one leg")]
    DisturbedOnOneLeg,
    /// Tandem or one leg without spells.
    #[error("tandem and one-leg stances are only for drills in which every call is a timed hold")]
    NoSpell,
    /// Walking calls without walking, or the reverse.
    #[error(
        "a drill with walking calls must have the stance \"walking\" on every ladder step, and no other drill may have it"
    )]
    Walking,
    /// A target on the screen that begins standing.
    #[error("following a target on the screen must begin seated")]
    NotSeated,
    /// A rise that does not begin on the chair.
    #[error("a rise must begin seated, with both hands on the chair on the first ladder step")]
    RiseWithoutHands,
    /// Seated without a chair, or the reverse.
    #[error("support by a chair is only for seated ladder steps")]
    Chair,
    /// A lead that is missing, too short or too long.
    #[error(
        "`lead_ms` is at most 8000 (8 s), and at least 3000 (3 s) for a call that only the partner hears"
    )]
    Lead,
    /// More parts than there are kinds.
    #[error(
        "`parts` of a ladder step must be at least 1, and at most 1 more than the drill's kinds of parts"
    )]
    Parts,
    /// `trains` is not what the calls do.
    #[error("`trains` must be \"reactive\" if a partner disturbs the person, and \"voluntary\" otherwise")]
    Trains,
    /// Closed eyes with nothing to hold but what is somewhere within reach.
    #[error("with the eyes closed, the hands must rest on the counter or be just above it")]
    BlindWithoutSupport,
}

/// Checks a whole drill.
pub(super) fn check(drill: &Drill) -> Result<(), Rule> {
    let targets = drill.targets();
    let any = |is: fn(Action) -> bool| targets.iter().any(|target| is(target.action));
    let partner = drill.forms().contains(&Form::Partner);
    let alone = drill.forms().contains(&Form::Alone);
    let steps = || drill.ladders().iter().flat_map(Ladder::steps);
    let first = || drill.ladders().iter().map(|ladder| ladder.steps()[0]);
    let broken = [
        (alone && targets.iter().all(|target| target.action.needs_partner()), Rule::Alone),
        (partner && drill.partner_does().is_empty(), Rule::PartnerDoes),
        (any(Action::is_push) && any(Action::closes_eyes), Rule::PushedBlind),
        (any(Action::is_disturbance) && steps().any(|step| step.stance.is_spell()), Rule::DisturbedOnOneLeg),
        (
            !targets.iter().all(|target| target.action == Action::Hold)
                && steps().any(|step| step.stance.is_spell()),
            Rule::NoSpell,
        ),
        (steps().any(|step| (step.stance == Stance::Walking) != any(Action::is_walking)), Rule::Walking),
        (any(Action::needs_screen) && first().any(|step| step.stance != Stance::Seated), Rule::NotSeated),
        (
            any(|action| action == Action::Rise)
                && (first().any(|step| step.support != Support::HandsOnChair)
                    || steps().any(|step| step.stance != Stance::Seated)),
            Rule::RiseWithoutHands,
        ),
        (
            steps().any(|step| {
                matches!(step.support, Support::Chair | Support::HandsOnChair)
                    && step.stance != Stance::Seated
            }),
            Rule::Chair,
        ),
        (
            any(Action::closes_eyes) && steps().any(|step| step.support == Support::Beside),
            Rule::BlindWithoutSupport,
        ),
        (
            drill.lead() > LONGEST_LEAD
                || targets.iter().any(|target| target.say.is_none() && drill.lead() < SHORTEST_LEAD),
            Rule::Lead,
        ),
        (steps().any(|step| step.parts < 1 || usize::from(step.parts) > 1 + kinds(drill)), Rule::Parts),
        (
            (drill.trains() == Trains::Reactive)
                != any(|action| action.is_disturbance() && !matches!(action, Action::Throw | Action::Touch)),
            Rule::Trains,
        ),
    ];
    if let Some((_, rule)) = broken.into_iter().find(|(broken, _)| *broken) {
        return Err(rule);
    }
    targets.iter().try_for_each(target)
}

/// Checks one target.
fn target(target: &Target) -> Result<(), Rule> {
    let Target { action, say, tell, hand, span, .. } = target;
    let by_partner = action.is_disturbance() && action.needs_partner();
    let broken = [
        (action.is_span() != span.is_some(), Rule::Span),
        (span.is_some_and(|span| !is_valid_duration(*action, span.length, span.count)), Rule::Length),
        (by_partner && say.is_some(), Rule::Announced),
        (say.is_none() && (tell.is_none() || !action.needs_partner()), Rule::Silent),
        (action.is_push() != hand.is_some(), Rule::Hand),
    ];
    broken.into_iter().find(|(broken, _)| *broken).map_or(Ok(()), |(_, rule)| Err(rule))
}

/// Whether a call may have this duration, with its last seconds counted up to `count`.
pub fn is_valid_duration(action: Action, length: Millis, count: u8) -> bool {
    let counted = Millis::from_secs(count.into());
    (SHORTEST_SPELL..=longest_spell(action)).contains(&length) && length >= counted + BEFORE_COUNT
}

/// The longest duration of this action.
pub const fn longest_spell(action: Action) -> Millis {
    if action.closes_eyes() { LONGEST_EYES_CLOSED } else { LONGEST_SPELL }
}

/// How many kinds of parts can be added to any call.
fn kinds(drill: &Drill) -> usize {
    let mut kinds: Vec<&str> = drill.parts().iter().map(|part| part.kind.as_str()).collect();
    kinds.sort_unstable();
    kinds.dedup();
    kinds.len()
}

#[cfg(test)]
mod test;
