//! A session as one long recording: what is said at which frame. A recording cannot see, ask or stop anyone, so it says
//! so.
//!
//! ```text
//! cautions .. [set N, how to stand, place, 5 4 3 2 1 | work: cues only | over, chair, stop list, silence, soon] .. done
//! ```

use std::collections::BTreeMap;

use crate::draw::schedule::{Schedule, SetPlan};
use crate::plan::drill::Form;
use crate::plan::phrase::Phrase;
use crate::plan::prescription::{DrillPlan, Prescription};
use crate::practice::placing::{self, Ear, Part, Sound};
use crate::practice::pose;
use crate::units::Millis;
use crate::units::{Frame, Frames, SampleRate};

pub mod sheet;

/// The rate of every track.
pub const RATE: SampleRate = SampleRate::HZ_48000;

/// Digital silence before every event, at least.
pub const SILENCE: Millis = Millis(10);

/// From the beginning of the recording to the first word: a player may swallow its first moments \[judgment\].
const LEAD_IN: Millis = Millis(1_000);
/// Between two sentences \[judgment\].
const BREATH: Millis = Millis(600);
/// After the last caution, to make up one's mind \[judgment\].
const DECIDE: Millis = Millis(5_000);
/// To put other kit in place when another drill follows \[judgment\].
const KIT: Millis = Millis(20_000);
/// To get into place after the instruction \[judgment\].
const PLACE: Millis = Millis(10_000);
/// From one number of the count to the next, and from the last to the start of the work.
const SECOND: Millis = Millis(1_000);
/// How long before the end of a rest it is announced.
const SOON: Millis = Millis(10_000);

/// Said before the first set, in this order.
const OPENING: [&str; 7] = [
    "practice.hello",
    "practice.advice",
    "track.clinician",
    "track.ready",
    "track.cannot-stop",
    "practice.ignore",
    "practice.stop-list",
];

/// Why a prescription does not become a track.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TrackError {
    /// It has a drill with a partner, who needs a screen or an earbud.
    #[error("{drill} is prescribed with a partner; a track is for practice alone")]
    Partner {
        /// The drill's title.
        drill: String,
    },
    /// It has a drill that is seen on the screen.
    #[error("{drill} needs the screen; a track has only sound")]
    Screen {
        /// The drill's title.
        drill: String,
    },
    /// It unlocks something that somebody must watch, which a recording cannot do.
    #[error("the prescription unlocks \"{name}\"; a track cannot include what somebody must watch")]
    Unlock {
        /// The name of the unlock.
        name: &'static str,
    },
}

impl TrackError {
    /// What to try.
    pub fn hint(&self) -> &'static str {
        match self {
            Self::Screen { .. } => {
                "practice it with \"counterpoise practice\", or make a track of a copy without this drill"
            }
            Self::Partner { .. } => {
                "practice it with \"counterpoise practice\", or make a track of a prescription for practice alone"
            }
            Self::Unlock { .. } => {
                "practice it with \"counterpoise practice\", or make a track of a copy without the unlock and what it allows"
            }
        }
    }
}

/// What a sound in a track is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A call of a set, at its moment.
    Cue {
        /// Its place among the cues and blanks of its set, from 0.
        cue: u16,
    },
    /// A sound that belongs to the call before it: another part of it, a counted number, or the end of a call that lasts.
    Continuation {
        /// Whether it is a part of the call itself.
        part: bool,
    },
    /// Anything else that is said; never during the work.
    Announcement,
}

/// One sound of a track.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Event {
    /// Where its onset is.
    pub at: Frame,
    /// From the onset to the end of the sound.
    pub length: Frames,
    /// What is said.
    pub phrase: Phrase,
    /// The kind of sound.
    pub kind: Kind,
    /// The set that it belongs to, from 1; none at the beginning and at the end.
    pub set: Option<u8>,
}

/// A whole track: what is heard when.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Track {
    events: Vec<Event>,
    starts: Vec<(u8, Frame)>,
    length: Frames,
}

/// Whether this prescription may become a track.
///
/// # Errors
/// If it has a drill with a partner or for the screen, or an unlock.
pub fn check(prescription: &Prescription) -> Result<(), TrackError> {
    if let Some(plan) = prescription.drills().iter().find(|plan| plan.form() == Form::Partner) {
        return Err(TrackError::Partner { drill: plan.drill().title().to_owned() });
    }
    let seen = |plan: &&DrillPlan| plan.targets().iter().any(|target| target.action.needs_screen());
    if let Some(plan) = prescription.drills().iter().find(seen) {
        return Err(TrackError::Screen { drill: plan.drill().title().to_owned() });
    }
    match prescription.unlocks().first() {
        Some(unlock) => Err(TrackError::Unlock { name: unlock.name.name() }),
        None => Ok(()),
    }
}

/// Every phrase that the track of this session says, so that its clips can be loaded.
pub fn phrases(schedule: &Schedule) -> Vec<Phrase> {
    let any_length: BTreeMap<Phrase, Frames> = Phrase::all().map(|phrase| (phrase, Frames(1))).collect();
    let mut phrases: Vec<Phrase> =
        Track::of(schedule, &any_length).events.iter().map(|event| event.phrase).collect();
    phrases.sort();
    phrases.dedup();
    phrases
}

impl Track {
    /// The track of this session, where each phrase lasts as long as `lengths` says, from its onset.
    ///
    /// ```
    /// use counterpoise_core::units::Frames;
    /// use counterpoise_core::plan::phrase::Phrase;
    /// use counterpoise_core::plan::prescription::Prescription;
    /// use counterpoise_core::draw::schedule::{Scheduler, Seed};
    /// use counterpoise_core::practice::track::Track;
    /// let prescription = Prescription::ready("gentle").unwrap();
    /// let session = Scheduler::new(prescription).unwrap().draw(Seed::from_bytes([7; 32]));
    /// let second = Phrase::all().map(|phrase| (phrase, Frames(40_000))).collect();
    /// let track = Track::of(&session, &second);
    /// assert_eq!(track.starts().len(), session.sets().len());
    /// ```
    pub fn of(schedule: &Schedule, lengths: &BTreeMap<Phrase, Frames>) -> Self {
        let mut tape = Tape { lengths, events: Vec::new(), end: Frame(0), set: None };
        let mut starts = Vec::new();
        tape.wait(LEAD_IN);
        for id in OPENING {
            tape.say(Phrase::own(id));
        }
        for one in schedule.sets().iter().take(1).flat_map(|set| set.precautions().iter()) {
            tape.say(one.phrase());
        }
        tape.wait(DECIDE);
        let last = schedule.sets().len();
        let mut before = None;
        for (nth, set) in (1..).zip(schedule.sets()) {
            tape.set = Some(set.number());
            tape.lead_in(before, set);
            before = Some(set);
            starts.push((set.number(), tape.end));
            tape.work(set);
            tape.say(Phrase::own("set.over"));
            if nth < last {
                tape.rest(set.rest());
            }
        }
        tape.set = None;
        tape.say(Phrase::own("end.done"));
        tape.wait(LEAD_IN);
        Self { events: tape.events, starts, length: tape.end - Frame(0) }
    }

    /// Everything that is heard, in order.
    pub fn events(&self) -> &[Event] {
        &self.events
    }

    /// The number of each set and the frame at which its work starts.
    pub fn starts(&self) -> &[(u8, Frame)] {
        &self.starts
    }

    /// The length of the whole track, in frames.
    pub fn length(&self) -> Frames {
        self.length
    }
}

/// A recording that grows at its end.
struct Tape<'a> {
    lengths: &'a BTreeMap<Phrase, Frames>,
    events: Vec<Event>,
    /// Nothing sounds from here on.
    end: Frame,
    set: Option<u8>,
}

impl Tape<'_> {
    fn wait(&mut self, length: Millis) {
        self.end = self.end + RATE.frames(length);
    }

    /// Puts a sound at `at`, and moves the end behind it.
    fn put(&mut self, phrase: Phrase, at: Frame, kind: Kind) {
        let length = self.lengths.get(&phrase).copied().unwrap_or_default();
        self.events.push(Event { at, length, phrase, kind, set: self.set });
        self.end = self.end.max(at + length);
    }

    /// Says a sentence after a breath.
    fn say(&mut self, phrase: Phrase) {
        self.wait(BREATH);
        self.put(phrase, self.end, Kind::Announcement);
    }

    /// Everything from the number of the set to the start of its work, which is the end of the tape.
    fn lead_in(&mut self, before: Option<&SetPlan>, set: &SetPlan) {
        self.say(Phrase::own(&format!("set.{}", set.number())));
        if let Some(kit) = pose::change(before, set) {
            self.say(kit);
            self.wait(KIT);
        }
        for phrase in pose::phrases(set) {
            self.say(phrase);
        }
        self.say(Phrase::own("practice.place"));
        self.wait(PLACE);
        let mut at = self.end;
        for number in (1..=5).rev() {
            self.put(Phrase::own(&format!("count.{number}")), at, Kind::Announcement);
            // A number that takes longer than a second pushes the next one, so that they never run into each other.
            at = (at + RATE.frames(SECOND)).max(self.end + RATE.frames(SILENCE));
            self.end = at;
        }
    }

    /// The work: its cues at their offsets, and nothing else.
    fn work(&mut self, set: &SetPlan) {
        let (start, lengths) = (self.end, self.lengths);
        let length = |sound| match sound {
            Sound::Say(phrase) => lengths.get(&phrase).copied(),
            Sound::Now => None,
        };
        for placed in placing::place((0..).zip(set.cues()), Ear::Trainee, (start, start), RATE, length) {
            let kind = match placed.part {
                Part::Moment => Kind::Cue { cue: placed.cue },
                Part::Rest => Kind::Continuation { part: true },
                Part::After => Kind::Continuation { part: false },
            };
            if let Sound::Say(phrase) = placed.sound {
                self.put(phrase, placed.at, kind);
            }
        }
        self.end = self.end.max(start + RATE.frames(set.work()));
    }

    /// A rest of at least `length`, counted from here.
    fn rest(&mut self, length: Millis) {
        let over = self.end + RATE.frames(length);
        self.say(Phrase::own("rest.chair"));
        self.say(Phrase::own("practice.stop-list"));
        let soon = over - RATE.frames(SOON);
        self.end = self.end.max(soon - RATE.frames(BREATH));
        self.say(Phrase::own("rest.soon"));
        self.end = self.end.max(over);
    }
}

#[cfg(test)]
mod test;
