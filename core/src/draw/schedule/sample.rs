//! Cues made by hand, for tests of the code that plays or shows them.

use super::{Call, Cue};
use crate::plan::direction::Direction;
use crate::plan::drill::{Action, Ball, Instruction, Span, Strength};
use crate::plan::phrase::Phrase;
use crate::units::Millis;

/// A call with nothing in it.
fn empty(action: Action, direction: Direction, lead: u32) -> Call {
    Call {
        action,
        direction,
        say: Vec::new(),
        tell: Vec::new(),
        hand: None,
        show: String::new(),
        span: None,
        strength: None,
        practice: false,
        ball: None,
        lead: Millis(lead),
    }
}

/// A cue at this offset, in milliseconds from the start.
pub fn at(ms: u32, call: Option<Call>) -> Cue {
    Cue { at: Millis(ms), gap: Millis(ms), call }
}

/// A call of one or several clips to the trainee.
pub fn call(say: &[&str]) -> Call {
    let say: Vec<Phrase> = say.iter().map(|id| Phrase::own(id)).collect();
    let show = say.iter().map(|phrase| phrase.words().to_uppercase()).collect::<Vec<_>>().join(" ");
    Call { say, show, ..empty(Action::Reach, Direction::Left, 0) }
}

/// A push toward a side; the partner is told six seconds before.
///
/// # Panics
/// If the strength is not 1 to 4.
pub fn push(direction: Direction, hand: &str, strength: u8) -> Call {
    let strength = Strength::new(strength).expect("1 to 4");
    let [push, hand] = ["tell.push", hand].map(Phrase::own);
    Call {
        tell: vec![
            Instruction::Words(push),
            Instruction::Toward(direction),
            Instruction::Words(hand),
            Instruction::Words(strength.phrase()),
        ],
        show: format!("PUSH {}", direction.name().to_uppercase()),
        hand: Some(hand),
        strength: Some(strength),
        ..empty(Action::Push, direction, 6_000)
    }
}

/// A throw of one of two balls, which the trainee hears named.
pub fn toss(ball: Ball) -> Call {
    let direction = Direction::HighLeft;
    let tell = [
        Instruction::Words(Phrase::own("tell.toss")),
        Instruction::Toward(direction),
        Instruction::Words(ball.phrase()),
    ];
    Call {
        say: vec![ball.phrase()],
        tell: tell.to_vec(),
        ball: Some(ball),
        ..empty(Action::Toss, direction, 5_000)
    }
}

/// A hold of so many seconds, of which the last `count` are counted.
pub fn hold(seconds: u32, count: u8, lead: u32) -> Call {
    let [still, close] = ["hold.still", "hold.end"].map(Phrase::own);
    Call {
        say: vec![still],
        tell: vec![Instruction::Words(still)],
        span: Some(Span { length: Millis::from_secs(seconds), close, count }),
        ..empty(Action::Hold, Direction::InPlace, lead)
    }
}
