//! Which questions are asked about a practice with a track? The sheet prints them, and `journal add` asks them.

use super::scale::scale;
use counterpoise_core::record::Question;

/// The answers after the name of a set.
pub(in crate::cli) const DONE: &str = "(D done in full, B broken off, N not begun)";
/// A question whose answer is Y or N.
pub(in crate::cli) const GRABBED: &str = "Did you have to grab hold, or nearly fall?";
/// A question whose answer is Y or N.
pub(in crate::cli) const FELL: &str = "Did you fall?";
/// A question whose answer is Y or N.
pub(in crate::cli) const HURT: &str = "Did it hurt, or was there a knock to the head? If you do not know: Y";
/// A question whose answer is Y or N.
pub(in crate::cli) const UNWELL: &str = "Did you feel unwell?";
/// A question whose answer is a number from 1 to 6.
pub(in crate::cli) const WRONG: &str = "What felt wrong?";

/// How often the person held on, with the scale.
pub(in crate::cli) fn held_on() -> String {
    with_scale("Apart from the hand that rests there, how often did you hold on?", Question::HeldOn)
}

/// How hard the set was, with the scale.
pub(in crate::cli) fn effort() -> String {
    with_scale("How hard was it, at its hardest?", Question::Effort)
}

/// How steady the person was, with the scale.
pub(in crate::cli) fn steadiness() -> String {
    with_scale("How steady were you?", Question::Steadiness)
}

/// A question, followed by its scale.
pub(super) fn with_scale(ask: &str, question: Question) -> String {
    let words = scale(question).map(|scale| scale.words).unwrap_or_default();
    format!("{ask} ({words})")
}
