//! What goes into a session and what comes out: keys, time, sound and the journal, as values.

use jiff::ZonedDateTime;

use crate::draw::schedule::Cue;
use crate::plan::drill::Facing;
use crate::plan::phrase::Phrase;
use crate::plan::place::Room;
pub use crate::record::Channel;
use crate::record::{Disturbance, Entry};
use crate::units::Millis;

/// A moment: the time since the session was opened, and the date and time on the wall.
#[derive(Debug, Clone, PartialEq)]
pub struct Now {
    /// Since the session was opened.
    pub at: Millis,
    /// With offset and zone.
    pub wall: ZonedDateTime,
}

/// A key that was pressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Key {
    /// A letter, digit or other character.
    Char(char),
    /// The Enter (Return) key.
    Enter,
    /// The Escape key.
    Escape,
    /// Any other key, a presenter's remote included.
    Other,
}

impl Key {
    /// Whether it ends the practice, wherever it is pressed.
    pub fn stops(self) -> bool {
        matches!(self, Self::Escape | Self::Char('s' | 'S'))
    }

    /// Whether it is this letter, large or small.
    pub fn is(self, letter: char) -> bool {
        matches!(self, Self::Char(c) if c.eq_ignore_ascii_case(&letter))
    }
}

/// Something that happened, at a moment given beside it.
#[derive(Debug, Clone, PartialEq)]
pub enum Event {
    /// Time went on.
    Tick {
        /// Since the tick before, on whichever clock counted most. One of them must count while the computer sleeps.
        gap: Millis,
    },
    /// A key was pressed.
    Key(Key),
    /// The sound output is open, or there is none.
    Sound {
        /// Host and device; `None` without sound.
        device: Option<String>,
    },
    /// The work asked for by [`Effect::Begin`] is placed: it starts, or goes on, at this moment of the session.
    Placed {
        /// Time since the session was opened; may be in the future.
        work_starts: Millis,
    },
    /// A cue was heard to its end.
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
    /// The sound was disturbed, and goes on.
    SoundDisturbed(Disturbance),
    /// The sound output was lost.
    SoundLost,
    /// The sound output is back.
    SoundBack,
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
    /// Say this after what is being said now.
    Say(Phrase),
    /// Say these at once to everybody in the room, in a voice even where the calls are tones, and never only in a
    /// partner's earbud.
    Warn(Vec<Phrase>),
    /// Cut off speech, warnings and calls at once.
    Hush,
    /// Say the count after what is being said now, one number a second, then start the work: place every cue on its
    /// frame. Answered by [`Event::Placed`].
    Begin {
        /// The numbers said, in order.
        count: Vec<Phrase>,
        /// The cues still to come, with their place in the set. Offsets count from the start of the set's work.
        cues: Vec<(u16, Cue)>,
        /// Elapsed work at which this begins: 0, or the elapsed work before a pause.
        from: Millis,
        /// Whose ear and eye the cues go to. In a set alone it is the trainee's even with an earbud: the partner then
        /// calls aloud what the earbud says.
        channel: Channel,
        /// What is on each side of the trainee, for the places that a partner is told.
        room: Room,
        /// How the trainee faces.
        facing: Facing,
    },
    /// Write this entry to the journal.
    Record(Entry),
    /// Keep what is on each side of the trainee with the person's settings: it is asked only once.
    KeepRoom(Room),
    /// The session is over: leave.
    Leave,
}
