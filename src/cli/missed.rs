//! Asks about the last practice, where its answers are not whole, before anything else.

use std::time::Duration;

use super::Failure;
use super::face::no_terminal;
use crate::clock::Clock;
use crate::display::{Face, Input, terminal};
use crate::journal::Journal;
use counterpoise_core::course::past::PastSession;
use counterpoise_core::practice::missed::Missed;
use counterpoise_core::record::Id;

/// How long the loop waits for a key.
const LOOK: Duration = Duration::from_millis(20);

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
    while !missed.is_over() {
        face.show(&missed.screen()).map_err(|error| no_terminal(&error))?;
        match face.poll(LOOK) {
            Input::Key(key) if key.stops() => return Ok(()),
            Input::Key(key) => {
                if let Some(answer) = missed.key(key) {
                    journal.keep_answer(&clock.wall(), session, answer)?;
                }
            }
            Input::Close => return Ok(()),
            Input::Nothing if terminal::close_requested() => return Ok(()),
            Input::Nothing => {}
        }
    }
    Ok(())
}
