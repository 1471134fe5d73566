//! Asks about the last practice, where its answers are not whole, before anything else.

use super::{Failure, face};
use crate::clock::Clock;
use crate::display::Face;
use crate::journal::Journal;
use counterpoise_core::course::past::PastSession;
use counterpoise_core::practice::missed::Missed;
use counterpoise_core::record::Id;

/// Asks what is open about this practice, and keeps each answer at once. What is left open is asked again.
///
/// # Errors
/// If the screen fails, or an answer cannot be kept. If not everything was answered, the standing still says so.
pub(super) fn ask(
    last: &PastSession,
    journal: &mut Journal,
    face: &mut Face,
    clock: &Clock,
) -> Result<(), Failure> {
    let Ok(session) = Id::try_from(last.id.clone()) else { return Ok(()) };
    let mut missed = Missed::new(last.day, clock.wall().date(), &last.open_questions());
    let screen = |missed: &Missed| (!missed.is_over()).then(|| missed.screen());
    face::answered(face, &mut missed, screen, |missed, key| match missed.key(key) {
        Some(answer) => Ok(journal.keep_answer(&clock.wall(), session, answer)?),
        None => Ok(()),
    })?;
    Ok(())
}
