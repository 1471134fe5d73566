//! On which frame each sound of a set's cues belongs, and for whose ear.
//!
//! One output has one listener. A trainee hears the calls. With an earbud the whole output is the partner's: what to do
//! comes `lead` before the moment, a short soft tone says "now" at it, and the trainee's calls are not played. A call
//! without a lead is told at its moment, without the tone.
//!
//! ```text
//! the trainee's ear   at [call][chain][chain] .. count .. end of the span
//! the partner's ear   at - lead [what][where][hand][how firmly] .. at [now] .. count .. end of the span
//! ```

use crate::draw::schedule::{Call, Cue, Utterance};
use crate::plan::drill::Facing;
use crate::plan::phrase::Phrase;
use crate::plan::place::Room;
use crate::units::Millis;
use crate::units::{Frame, Frames, SampleRate};

/// Between the end of one clip and the onset of the next, where several make one call: words that belong together, and
/// are still apart \[judgment\].
pub const CHAIN: Millis = Millis(120);

/// Who hears the output.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ear {
    /// The trainee, or the whole room: calls at their moments.
    Trainee,
    /// The partner alone, by an earbud.
    Partner {
        /// What is on each side.
        room: Room,
        /// How the trainee faces.
        facing: Facing,
    },
}

/// A sound that can be placed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sound {
    /// A spoken phrase.
    Say(Phrase),
    /// The tone that says "now" to a partner.
    Now,
}

/// A sound on its frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Placed {
    /// The cue's place in its set.
    pub cue: u16,
    /// Where its onset belongs.
    pub at: Frame,
    /// The sound at this frame.
    pub sound: Sound,
    /// Which part of the cue it is.
    pub part: Part,
}

/// Which part of its cue a sound is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The first sound, whose frame is the cue's own; a report of the cue is about this one.
    Moment,
    /// The rest of the call; without it the cue was not heard to its end.
    Rest,
    /// The count and the end of a span, which come after the call.
    After,
}

/// Every sound of these cues for this ear, in the order in which they are placed. Offsets count from `zero`, the start of
/// the set's work; nothing is placed before `from`, where the work starts or goes on. `length` says how long a sound lasts
/// from its onset; what has none is left out.
pub fn place<'a>(
    cues: impl IntoIterator<Item = (u16, &'a Cue)>,
    ear: Ear,
    (zero, from): (Frame, Frame),
    rate: SampleRate,
    length: impl Fn(Sound) -> Option<Frames>,
) -> Vec<Placed> {
    let mut placed = Vec::new();
    for (cue, entry) in cues {
        let Some(call) = entry.call() else { continue };
        // From the start of the work, not from the last sound: nothing adds up.
        let frame = |after: Millis| zero + rate.frames(entry.at() + after);
        let mut put = |at: Frame, sound: Sound, part: Part| {
            let long = length(sound)?;
            placed.push(Placed { cue, at, sound, part });
            Some(at + long + rate.frames(CHAIN))
        };
        if let Ear::Partner { room, facing } = ear {
            let told = call.partner_phrases(room, facing);
            let mut next = (zero + rate.frames(entry.at() - call.lead())).max(from);
            // Without a lead the words themselves are the moment.
            let first = if call.lead() > Millis(0) { Part::Rest } else { Part::Moment };
            for (nth, phrase) in told.into_iter().enumerate() {
                let part = if nth == 0 { first } else { Part::Rest };
                next = put(next, Sound::Say(phrase), part).unwrap_or(next);
            }
            if first == Part::Rest {
                put(frame(Millis(0)), Sound::Now, Part::Moment);
            }
        }
        let mut next = frame(Millis(0));
        for (nth, Utterance { after, phrase }) in call.utterances().into_iter().enumerate() {
            let part = match nth {
                _ if nth >= call.say().len() => Part::After,
                0 => Part::Moment,
                _ => Part::Rest,
            };
            if part == Part::After || ear == Ear::Trainee {
                next = put(after.map_or(next, frame), Sound::Say(phrase), part).unwrap_or(next);
            }
        }
    }
    placed
}

/// Every phrase of this call that this ear can hear, for loading.
pub fn phrases(call: &Call, ear: Ear) -> Vec<Phrase> {
    let spoken = call.utterances().into_iter().map(|spoken| spoken.phrase);
    match ear {
        Ear::Trainee => spoken.collect(),
        Ear::Partner { room, facing } => {
            call.partner_phrases(room, facing).into_iter().chain(spoken.skip(call.say().len())).collect()
        }
    }
}

#[cfg(test)]
mod test;
