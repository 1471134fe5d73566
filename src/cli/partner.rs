//! Asks whether the partner suits, before the first practice with one.

use super::{Failure, face};
use crate::clock::Clock;
use crate::display::Face;
use crate::journal::Journal;
use counterpoise_core::course::trainee::{PartnerFit, Trainee};
use counterpoise_core::practice::partner_questions::PartnerQuestions;

/// Asks everything about the partner, and keeps it together.
///
/// # Errors
/// If not everything was answered, or it cannot be kept.
pub(super) fn ask(journal: &mut Journal, face: &mut Face, clock: &Clock) -> Result<(), Failure> {
    let mut asked = PartnerQuestions::default();
    let screen = |asked: &PartnerQuestions| asked.topic().map(|_| asked.screen());
    let all = face::answered(face, &mut asked, screen, |asked, key| {
        asked.key(key);
        Ok(())
    })?;
    if !all {
        return Err(Failure::new(
            "the questions about the partner were not all answered, and nothing was saved",
            "Start again, with your partner next to you. To practice alone, leave out --partner.",
        ));
    }
    Ok(journal.keep_partner(&clock.wall(), asked.answers())?)
}

/// Refuses practice with a partner who does not suit, and says why.
///
/// # Errors
/// If the answers say no.
pub(super) fn must_suit(known: &Trainee) -> Result<(), Failure> {
    match known.partner_fit() {
        PartnerFit::Not(why) => Err(Failure::new(
            format!("no practice with a partner: {}", why.trim_end_matches('.')),
            "If that has changed, answer again: counterpoise suitability --partner",
        )),
        PartnerFit::Fits | PartnerFit::NotAsked => Ok(()),
    }
}
