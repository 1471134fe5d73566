//! How to stand for a set: the phrases that say it, in the order in which they are said.

use crate::draw::schedule::SetPlan;
use crate::plan::drill::{Facing, SecondTask, Side, Stance, Support, Surface};
use crate::plan::phrase::Phrase;

/// What is said before a set: where to face, how the feet stand, where the hands are, which hand or leg
/// moves, and what a call asks for.
///
/// ```
/// use counterpoise_core::plan::prescription::Prescription;
/// use counterpoise_core::draw::schedule::{Scheduler, Seed};
/// use counterpoise_core::practice::pose;
/// let prescription = Prescription::ready("gentle").unwrap();
/// let session = Scheduler::new(prescription).unwrap().draw(Seed::from_bytes([7; 32]));
/// let said: Vec<&str> = pose::phrases(&session.sets()[0]).iter().map(|phrase| phrase.id()).collect();
/// assert_eq!(said, ["facing.counter-ahead", "stance.feet-apart", "support.two-hands", "moves.nothing", "drill.counter-shift"]);
/// ```
pub fn phrases(set: &SetPlan) -> Vec<Phrase> {
    let step = set.conditions();
    let ids = [
        Some(facing(set.facing())),
        Some(stance(step.stance, set.side())),
        surface(step.surface),
        Some(support(step.support)),
        step.second_task.map(task),
    ];
    let moves = set.moves().iter().copied();
    let posture = ids.into_iter().flatten().map(Phrase::own).chain(moves);
    posture.chain([set.drill().instruction(set.balls())]).collect()
}

/// What is said first when the previous set was of another drill: the equipment to put in place.
pub fn change(before: Option<&SetPlan>, set: &SetPlan) -> Option<Phrase> {
    let same = before.is_some_and(|before| before.drill() == set.drill());
    set.drill().prepare().filter(|_| !same)
}

const fn facing(facing: Facing) -> &'static str {
    match facing {
        Facing::CounterAhead => "facing.counter-ahead",
        Facing::CounterLeft => "facing.counter-left",
        Facing::CounterRight => "facing.counter-right",
        Facing::CounterBeside => "facing.counter-beside",
        Facing::WallAhead => "facing.wall-ahead",
        Facing::ScreenAhead => "facing.screen-ahead",
    }
}

/// A stance with one foot ahead always has a side; without one it would be the left.
const fn stance(stance: Stance, side: Option<Side>) -> &'static str {
    match (stance, side) {
        (Stance::FeetApart, _) => "stance.feet-apart",
        (Stance::FeetTogether, _) => "stance.feet-together",
        (Stance::SemiTandem, Some(Side::Right)) => "stance.semi-tandem.right",
        (Stance::SemiTandem, Some(Side::Left) | None) => "stance.semi-tandem.left",
        (Stance::Tandem, Some(Side::Right)) => "stance.tandem.right",
        (Stance::Tandem, Some(Side::Left) | None) => "stance.tandem.left",
        (Stance::OneLeg, Some(Side::Right)) => "stance.one-leg.right",
        (Stance::OneLeg, Some(Side::Left) | None) => "stance.one-leg.left",
        (Stance::Seated, _) => "stance.seated",
        (Stance::Walking, _) => "stance.walking",
    }
}

/// A floor needs no words.
const fn surface(surface: Surface) -> Option<&'static str> {
    match surface {
        Surface::Firm => None,
        Surface::Foam => Some("surface.foam"),
        Surface::Patches => Some("surface.patches"),
    }
}

const fn task(task: SecondTask) -> &'static str {
    match task {
        SecondTask::Talk => "task.talk",
        SecondTask::Carry => "task.carry",
        SecondTask::Count => "task.count",
    }
}

const fn support(support: Support) -> &'static str {
    match support {
        Support::Chair => "support.chair",
        Support::HandsOnChair => "support.hands-on-chair",
        Support::TwoHands => "support.two-hands",
        Support::OneHand => "support.one-hand",
        Support::Fingertips => "support.fingertips",
        Support::Hovering => "support.hovering",
        Support::Beside => "support.beside",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_way_to_stand_has_its_own_phrase() {
        let sides = [None, Some(Side::Left), Some(Side::Right)];
        let stances = Stance::ALL.iter().flat_map(|one| {
            sides.iter().filter(|side| side.is_some() == one.has_sides()).map(|side| stance(*one, *side))
        });
        let others = Support::ALL.iter().map(|one| support(*one));
        let others = others.chain(Surface::ALL.iter().filter_map(|one| surface(*one)));
        let others = others.chain(SecondTask::ALL.iter().map(|one| task(*one)));
        let facings = Facing::ALL.iter().map(|one| facing(*one));
        let ids: Vec<&str> = stances.chain(others).chain(facings).collect();
        for (index, id) in ids.iter().enumerate() {
            assert!(!Phrase::own(id).is_cue(), "{id} is said before a set, not during it");
            assert!(!ids[..index].contains(id), "{id} would say two things");
        }
    }
}
