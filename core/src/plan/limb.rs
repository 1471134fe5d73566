//! Which hand or leg a call moves. Which limb an action uses is \[judgment\]: no source names it.

use crate::plan::direction::Direction;
use crate::plan::drill::{Action, LadderStep, Part, Stance, Target};
use crate::plan::phrase::Phrase;

/// Which hand, or which leg.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Limb {
    /// The trainee's left.
    Left,
    /// The trainee's right.
    Right,
    /// Either, or both: whatever holds for one of them holds for the call.
    Both,
}

impl Limb {
    /// The limb that follows a direction: the one on that side. Straight ahead, back, up or down it may be either.
    pub const fn toward(direction: Direction) -> Self {
        match direction {
            Direction::Left
            | Direction::ForwardLeft
            | Direction::BackLeft
            | Direction::HighLeft
            | Direction::LowLeft
            | Direction::LeftShoulder
            | Direction::RoundLeft => Self::Left,
            Direction::Right
            | Direction::ForwardRight
            | Direction::BackRight
            | Direction::HighRight
            | Direction::LowRight
            | Direction::RightShoulder
            | Direction::RoundRight => Self::Right,
            Direction::Forward | Direction::Back | Direction::Up | Direction::Down | Direction::InPlace => {
                Self::Both
            }
        }
    }
}

/// What an action moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Moves {
    Nothing,
    Recovers,
    Hand,
    BothHands,
    Leg,
    FeetTogether,
    Rises,
    Walks,
}

const fn moves(action: Action) -> Moves {
    match action {
        Action::Reach => Moves::Hand,
        Action::Step => Moves::Leg,
        Action::NarrowStance => Moves::FeetTogether,
        Action::Rise => Moves::Rises,
        Action::Toss | Action::Throw => Moves::BothHands,
        Action::Push | Action::Tug | Action::Slide | Action::Tilt => Moves::Recovers,
        Action::Nudge
        | Action::Stop
        | Action::ChangePace
        | Action::TurnRound
        | Action::GoRound
        | Action::NextPatch
        | Action::BlindSteps => Moves::Walks,
        Action::Shift
        | Action::RaiseHeels
        | Action::Hold
        | Action::TurnHead
        | Action::CloseEyes
        | Action::Follow
        | Action::Watch
        | Action::Touch => Moves::Nothing,
    }
}

/// What is said before a set: which hand or leg moves. A stance on one leg says so by itself.
///
/// ```
/// use counterpoise_core::plan::drill::Drill;
/// use counterpoise_core::plan::limb::phrases;
/// let reach = Drill::named("counter-reach").unwrap();
/// let said = |targets: &[_]| phrases(targets, &[], reach.ladder()[0])[0].words();
/// assert_eq!(
///     said(reach.targets()),
///     "The hand on the side you hear moves."
/// );
/// let right: Vec<_> = reach.targets().iter().filter(|target| target.name == "right").cloned().collect();
/// assert_eq!(said(&right), "Only your right hand moves. Your left hand rests.");
/// ```
pub fn phrases(targets: &[Target], parts: &[Part], step: LadderStep) -> Vec<Phrase> {
    let added = parts.iter().filter(|_| step.parts > 1).filter_map(|part| {
        let limb = match part.directions[..] {
            [] => limb_of(targets.iter().map(|target| target.direction)),
            ref some => limb_of(some.iter().copied()),
        };
        Some((moves(part.action?), limb))
    });
    let mut kinds: Vec<Moves> = targets.iter().map(|target| moves(target.action)).collect();
    kinds.extend(added.clone().map(|(moves, _)| moves));
    kinds.sort_unstable();
    kinds.dedup();
    if kinds.len() > 1 {
        kinds.retain(|kind| *kind != Moves::Nothing);
    }
    let limb = |kind: Moves| {
        let called = targets.iter().filter(|target| moves(target.action) == kind);
        let limbs = called.map(|target| Limb::toward(target.direction));
        joined(limbs.chain(added.clone().filter(|(moves, _)| *moves == kind).map(|(_, limb)| limb)))
    };
    let id = |kind: &Moves| match (kind, limb(*kind)) {
        (Moves::Nothing, _) if step.stance == Stance::OneLeg => None,
        (Moves::Nothing, _) => Some("moves.nothing"),
        (Moves::Recovers, _) => Some("moves.recovers"),
        (Moves::Hand, Limb::Left) => Some("moves.left-hand"),
        (Moves::Hand, Limb::Right) => Some("moves.right-hand"),
        (Moves::Hand, Limb::Both) => Some("moves.hand"),
        (Moves::BothHands, _) => Some("moves.both-hands"),
        (Moves::Leg, Limb::Left) => Some("moves.left-leg"),
        (Moves::Leg, Limb::Right) => Some("moves.right-leg"),
        (Moves::Leg, Limb::Both) => Some("moves.leg"),
        (Moves::FeetTogether, _) => Some("moves.feet-together"),
        (Moves::Rises, _) => Some("moves.rises"),
        (Moves::Walks, _) => Some("moves.walks"),
    };
    kinds.iter().filter_map(id).map(Phrase::own).collect()
}

fn limb_of(directions: impl Iterator<Item = Direction>) -> Limb {
    joined(directions.map(Limb::toward))
}

/// The one limb that all of them name; else both.
fn joined(limbs: impl Iterator<Item = Limb>) -> Limb {
    let mut limbs = limbs;
    let Some(first) = limbs.next() else { return Limb::Both };
    if limbs.all(|limb| limb == first) { first } else { Limb::Both }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::drill::Drill;

    #[test]
    fn before_every_set_of_every_drill_it_is_said_what_moves() {
        for drill in Drill::all() {
            for step in drill.ladders().iter().flat_map(crate::plan::drill::Ladder::steps) {
                let said = phrases(drill.targets(), drill.parts(), *step);
                assert_eq!(said.is_empty(), step.stance == Stance::OneLeg, "{}", drill.name());
                for target in drill.targets() {
                    let said = phrases(std::slice::from_ref(target), &[], *step);
                    let side = match Limb::toward(target.direction) {
                        Limb::Left => "left",
                        Limb::Right => "right",
                        Limb::Both => "",
                    };
                    if matches!(target.action, Action::Reach | Action::Step) && !side.is_empty() {
                        let start = format!("Only your {side} ");
                        assert!(said[0].words().starts_with(&start), "{}: {}", target.name, said[0].words());
                    }
                }
            }
        }
    }

    #[test]
    fn a_step_that_may_be_added_to_a_reach_names_its_leg() {
        let drill = Drill::named("combined-reaches").unwrap();
        let said = |step: usize| -> Vec<&str> {
            let all = phrases(drill.targets(), drill.parts(), drill.ladder()[step]);
            all.into_iter().map(Phrase::id).collect()
        };
        assert_eq!(said(0), ["moves.hand"], "a call has one part only");
        assert_eq!(said(1), ["moves.hand", "moves.leg"]);
    }
}
