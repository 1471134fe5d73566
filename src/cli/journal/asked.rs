//! The questions about a practice with a track, as the sheet prints them and `journal add` asks them. Not what can be answered
//! (that is `scale`).

use super::scale::scale;
use counterpoise_core::record::Question;

/// What follows the name of a set.
pub(in crate::cli) const DONE: &str = "(D done whole, B broken off, N not begun)";
/// Y or N.
pub(in crate::cli) const GRABBED: &str = "Did you have to grab hold, or nearly fall?";
/// Y or N.
pub(in crate::cli) const FELL: &str = "Did you fall?";
/// Y or N.
pub(in crate::cli) const HURT: &str = "Did it hurt, or was there a knock to the head? If you do not know: Y";
/// Y or N.
pub(in crate::cli) const UNWELL: &str = "Did you feel unwell?";
/// A number.
pub(in crate::cli) const WRONG: &str = "What felt wrong?";

/// How often somebody held on, with what can be answered.
pub(in crate::cli) fn held_on() -> String {
    with_scale("Apart from the hand that rests there, how often did you hold on?", Question::HeldOn)
}

/// How hard it was.
pub(in crate::cli) fn effort() -> String {
    with_scale("How hard was it, at its hardest?", Question::Effort)
}

/// How steady somebody was.
pub(in crate::cli) fn steadiness() -> String {
    with_scale("How steady were you?", Question::Steadiness)
}

/// A question with its scale behind it.
pub(super) fn with_scale(ask: &str, question: Question) -> String {
    let words = scale(question).map_or("", |scale| scale.words);
    format!("{ask} ({words})")
}
