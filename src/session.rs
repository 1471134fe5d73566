//! The course of one session: what happened comes in as events, what must be done goes out as effects.
//! Touches no clock, device, terminal or file: the practice command does what the effects say.

pub mod screen;

use crate::millis::Millis;
use crate::phrase::Phrase;
use crate::record::Entry;
use crate::schedule::Cue;

pub use screen::Screen;

/// A key that was pressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Key {
    /// A letter, digit or sign.
    Char(char),
    /// Return.
    Enter,
    /// Escape.
    Escape,
    /// Any other key, a presenter's remote included.
    Other,
}

/// Something that happened, at a moment given beside it.
#[derive(Debug, Clone, PartialEq)]
pub enum Event {
    /// Time went on.
    Tick,
    /// A key was pressed.
    Key(Key),
    /// The set asked for by [`Effect::Begin`] is placed: its work starts at this moment of the session.
    Placed {
        /// Milliseconds since the session began; may lie ahead.
        work_starts: Millis,
    },
    /// The renderer reports that a cue's clip began.
    Heard {
        /// The cue's place in the set, from 0.
        cue: u16,
        /// Frames from the start of the work: asked for.
        wanted: u64,
        /// Frames from the start of the work: begun.
        began: u64,
        /// Frames a second.
        rate: u32,
    },
    /// The sound output was lost.
    SoundLost,
    /// It is back.
    SoundBack,
    /// The computer slept, or its clock jumped by more than two seconds.
    Slept,
    /// The journal could not keep an entry.
    NotSaved,
    /// Everything is kept again.
    Saved,
    /// The program is asked to close: a signal, Ctrl-C, a closed terminal, the end of input.
    Close,
}

/// Something that must be done.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// Say this after whatever is being said.
    Say(Phrase),
    /// Cut off speech and calls at once.
    Hush,
    /// Say the count, one number a second, then start the work: place every cue on its frame. Answered by
    /// [`Event::Placed`].
    Begin {
        /// The numbers said, in order.
        count: Vec<Phrase>,
        /// The cues still to come, with their place in the set. Offsets count from the start of the set's work.
        cues: Vec<(u16, Cue)>,
        /// Elapsed work at which this begins: 0, or the elapsed work before a pause.
        from: Millis,
    },
    /// Keep this.
    Record(Entry),
    /// The session is over: leave.
    Leave,
}
