//! What the partner's screen shows from the lead of a cue until shortly after it.

use super::Whole;
use super::current_set::CurrentSet;
use super::screen::{Item, Moment};
use crate::draw::schedule::{Call, Cue};
use crate::plan::drill::{Ball, Instruction, Strength};
use crate::plan::phrase::Phrase;
use crate::units::Millis;

/// The last of the countdown, in which the partner looks at the person and not at the screen \[judgment\].
pub const LOOK_UP: Millis = Millis(2_000);
/// How long an item stays after its moment, unless it lasts longer itself. Less than the least time to recover
/// \[judgment\].
const ITEM_LINGER: Millis = Millis(2_000);

impl CurrentSet {
    /// What the partner does now: from the lead of a cue until a moment after it, and for what lasts until its end.
    /// Nothing from before a pause, and nothing for a blank.
    pub(super) fn partner_item(&self, whole: &Whole, elapsed: Millis, worked: Millis) -> Option<Item> {
        let cues = (0..).zip(self.plan.cues());
        let mut told = cues.filter_map(|(place, cue)| Some((place, cue, cue.call()?)));
        let (place, cue, call) = told.find(|(_, cue, call)| {
            let from = (cue.at() - call.lead()).max(worked);
            let until = cue.end().max(cue.at() + ITEM_LINGER);
            cue.at() >= worked && from <= elapsed && elapsed < until
        })?;
        let to_go = cue.at() - elapsed;
        let moment = match to_go {
            Millis(0) => Moment::Now,
            to_go if to_go <= LOOK_UP => Moment::LookUp,
            Millis(to_go) => Moment::In(to_go.div_ceil(1_000).min(60) as u8),
        };
        let told = call.partner_phrases(whole.room(), self.plan.facing());
        let toward = call.tell().iter().zip(&told).find(|(tell, _)| matches!(tell, Instruction::Toward(_)));
        Some(Item {
            words: action_words(call),
            toward: toward.map(|(_, phrase)| phrase.words().to_owned()),
            hand: call.hand().map(|hand| hand.words().to_owned()),
            strength: call.strength().map(|strength| strength.to_string()),
            practice: call.is_practice(),
            ball: call.ball(),
            direction: call.direction(),
            moment,
            cue: place,
        })
    }

    /// A push in a few words, for the walk through a set's pushes: `toward the window, barely`.
    pub(super) fn push_in_words(&self, whole: &Whole, cue: u16) -> String {
        let call = self.plan.cues().get(usize::from(cue)).and_then(Cue::call);
        let Some(call) = call else { return String::new() };
        let told = call.partner_phrases(whole.room(), self.plan.facing());
        let toward = call.tell().iter().zip(&told).find(|(tell, _)| matches!(tell, Instruction::Toward(_)));
        let strength = call.strength().map(|strength| strength.phrase().words());
        let parts = [toward.map(|(_, phrase)| phrase.words()), strength];
        parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }
}

/// What to do, in capitals, without the direction, the hand, the strength and the ball, which are shown separately.
fn action_words(call: &Call) -> String {
    let apart = [
        call.hand(),
        call.strength().map(Strength::phrase),
        call.ball().map(Ball::phrase),
        call.is_practice().then(|| Phrase::own("tell.practice")),
    ];
    let words = call.tell().iter().filter_map(|tell| match tell {
        Instruction::Words(phrase) => Some(*phrase).filter(|phrase| !apart.contains(&Some(*phrase))),
        Instruction::Toward(_) => None,
    });
    words.map(Phrase::words).collect::<Vec<_>>().join(", ").to_uppercase()
}
