//! What no drill file may do, whatever its words: every rule is about actions and conditions, so that a new drill needs
//! no new rule. Not what a prescription may take from a drill (that is its gate).

use super::{Action, Drill, Form, Stance, Support, Target, Trains};
use crate::units::Millis;

/// The longest spell with the eyes closed \[judgment\].
pub const LONGEST_EYES_CLOSED: Millis = Millis(10_000);
/// The longest spell of anything else that is held \[judgment\].
pub const LONGEST_SPELL: Millis = Millis(30_000);
/// The shortest spell: below it the end is called into the beginning \[judgment\].
pub const SHORTEST_SPELL: Millis = Millis(3_000);
/// Before the first number of a count, for the call itself to be said and followed \[judgment\].
pub const BEFORE_COUNT: Millis = Millis(1_000);
/// How long before a cue a partner may be told at most: longer, and it is forgotten \[judgment\].
const LONGEST_LEAD: Millis = Millis(8_000);
/// How long before a cue a partner must know what the trainee must not: to hear it out, go there and look up
/// \[judgment\].
const SHORTEST_LEAD: Millis = Millis(3_000);

/// A rule that a drill file breaks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Rule {
    /// Offered alone, and nothing in it can be done alone.
    #[error("it is offered alone, and every call needs a partner")]
    Alone,
    /// Offered with a partner, and nothing says what the partner does.
    #[error("it is offered with a partner, and `partner_does` says nothing")]
    PartnerDoes,
    /// Something that lasts has no end, or something that does not last has one.
    #[error("what lasts has a `span`, and nothing else has")]
    Span,
    /// A span is too short or too long.
    #[error(
        "a spell lasts 3 to 30 s, with the eyes closed 10 s at most, and a count leaves a second before it"
    )]
    Length,
    /// A trainee would be told of a disturbance.
    #[error(
        "nothing is called when a partner pushes, throws, touches or moves the base: `tell` says it to the partner"
    )]
    Announced,
    /// Nobody is told.
    #[error("a call has a `phrase` for the trainee, a `tell` for the partner, or both")]
    Silent,
    /// A push without a place for the hand, or a hand without a push.
    #[error("a push says where the hand goes (`hand`), and nothing else does")]
    Hand,
    /// Pushes and closed eyes in one drill.
    #[error("no drill has both pushes and closed eyes")]
    PushedBlind,
    /// A disturbance on one leg or in tandem.
    #[error("nothing disturbs a person in tandem or on one leg")]
    DisturbedOnOneLeg,
    /// Tandem or one leg without spells.
    #[error("tandem and one-leg stances are only for drills whose calls are holds, so that a spell ends")]
    NoSpell,
    /// Walking calls without walking, or the reverse.
    #[error("a drill in which a call is for walking is walked on every step of its ladder, and no other one")]
    Walking,
    /// A target on the screen that begins standing.
    #[error("following a target on the screen begins seated")]
    NotSeated,
    /// A rise that does not begin on the chair.
    #[error("a rise begins seated, with both hands on the chair at first")]
    RiseWithoutHands,
    /// Seated without a chair, or the reverse.
    #[error("who sits is carried by a chair, and nobody else is")]
    Chair,
    /// A lead that is missing, too short or too long.
    #[error("what only the partner knows is told 3 to 8 s before (`lead_ms`)")]
    Lead,
    /// More parts than there are kinds.
    #[error("a ladder step allows more parts than the drill has kinds of parts, or fewer than one")]
    Parts,
    /// `trains` is not what the calls do.
    #[error("it trains a reaction if and only if a partner disturbs the person")]
    Trains,
    /// Closed eyes with nothing to hold but what is somewhere within reach.
    #[error("with the eyes closed the hands rest on the counter or are just above it")]
    BlindWithoutSupport,
}

/// Goes over a drill.
pub(super) fn check(drill: &Drill) -> Result<(), Rule> {
    let targets = drill.targets();
    let any = |is: fn(Action) -> bool| targets.iter().any(|target| is(target.action));
    let partner = drill.forms().contains(&Form::Partner);
    let alone = drill.forms().contains(&Form::Alone);
    let steps = || drill.ladder().iter();
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
        (any(Action::needs_screen) && drill.ladder()[0].stance != Stance::Seated, Rule::NotSeated),
        (
            any(|action| action == Action::Rise)
                && (drill.ladder()[0].support != Support::HandsOnChair
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

/// Goes over one thing that it calls.
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

/// Whether a spell of this length, with its last seconds counted up to `count`, is neither too short nor too long.
pub fn is_valid_duration(action: Action, length: Millis, count: u8) -> bool {
    let counted = Millis::from_secs(count.into());
    (SHORTEST_SPELL..=longest_spell(action)).contains(&length) && length >= counted + BEFORE_COUNT
}

/// The longest spell of this.
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
