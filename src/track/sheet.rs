//! What is on a track, for other programs: the JSON of `counterpoise.track/1`. Not the sound.

use serde::Serialize;

use super::{Event, Kind, RATE, Track};
use crate::prescription::Prescription;
use crate::schedule::Schedule;

/// The name and number of the format. Fields may be added; none is renamed without a new number.
pub const SCHEMA: &str = "counterpoise.track/1";

/// The cue sheet of one track.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Sheet {
    schema: &'static str,
    sample_rate: u32,
    frames: u64,
    title: String,
    digest: String,
    seed: String,
    voice: &'static str,
    sets: Vec<SheetSet>,
    events: Vec<SheetEvent>,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct SheetSet {
    number: u8,
    start_frame: u64,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct SheetEvent {
    frame: u64,
    duration_frames: u64,
    say: &'static str,
    phrase: &'static str,
    kind: &'static str,
    set: Option<u8>,
    cue: Option<u16>,
}

impl Sheet {
    /// The sheet of `track`, which was made of this session of this prescription in the voice of this name.
    pub fn of(prescription: &Prescription, schedule: &Schedule, voice: &'static str, track: &Track) -> Self {
        Self {
            schema: SCHEMA,
            sample_rate: RATE.hz(),
            frames: track.length().0,
            title: prescription.title().to_owned(),
            digest: prescription.digest().to_string(),
            seed: schedule.seed().to_string(),
            voice,
            sets: track
                .starts()
                .iter()
                .map(|(number, start)| SheetSet { number: *number, start_frame: start.0 })
                .collect(),
            events: track.events().iter().map(SheetEvent::of).collect(),
        }
    }
}

impl SheetEvent {
    fn of(event: &Event) -> Self {
        let (kind, cue) = match event.kind {
            Kind::Cue { cue } => ("cue", Some(cue)),
            Kind::Announcement => ("announcement", None),
        };
        Self {
            frame: event.at.0,
            duration_frames: event.length.0,
            say: event.phrase.words(),
            phrase: event.phrase.id(),
            kind,
            set: event.set,
            cue,
        }
    }
}
