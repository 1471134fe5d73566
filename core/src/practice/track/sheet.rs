//! What is on a track, for other programs: the JSON of `counterpoise.track/1`.

use serde::Serialize;

use super::{Event, Kind, RATE, Track};
use crate::draw::schedule::Schedule;
use crate::plan::caution::{self, Contents, Surface};
use crate::plan::prescription::Prescription;

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
    cautions: Vec<String>,
    sets: Vec<SheetSet>,
    events: Vec<SheetEvent>,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct SheetSet {
    number: u8,
    start_frame: u64,
}

/// One sound, or one cue with everything that belongs to it: what lasts goes on to the end that is called.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct SheetEvent {
    frame: u64,
    duration_frames: u64,
    say: String,
    phrase: String,
    kind: &'static str,
    set: Option<u8>,
    cue: Option<u16>,
    /// What sounds after the call within the cue: the count, and the end of what lasts.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    then: Vec<SheetSound>,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct SheetSound {
    frame: u64,
    duration_frames: u64,
    say: &'static str,
    phrase: &'static str,
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
            cautions: cautions(prescription),
            sets: track
                .starts()
                .iter()
                .map(|(number, start)| SheetSet { number: *number, start_frame: start.0 })
                .collect(),
            events: group_by_cue(track.events()),
        }
    }
}

/// What a track says before its first set, and each drill's own cautions after its name.
fn cautions(prescription: &Prescription) -> Vec<String> {
    let mut all = caution::lines(Surface::Track, Contents::Of(prescription));
    all.push(caution::WHAT_IT_IS.to_owned());
    let drills = caution::of_drills(prescription).into_iter();
    all.extend(drills.map(|drill| format!("{}: {}", drill.title, drill.lines.join(" "))));
    all
}

/// The events, with everything that belongs to a cue in one.
fn group_by_cue(events: &[Event]) -> Vec<SheetEvent> {
    let mut gathered: Vec<SheetEvent> = Vec::new();
    for event in events {
        match (event.kind, gathered.last_mut()) {
            (Kind::Continuation { part }, Some(cue)) => cue.add(event, part),
            _ => gathered.push(SheetEvent::of(event)),
        }
    }
    gathered
}

impl SheetEvent {
    fn of(event: &Event) -> Self {
        let (kind, cue) = match event.kind {
            Kind::Cue { cue } => ("cue", Some(cue)),
            Kind::Continuation { .. } => ("cue", None),
            Kind::Announcement => ("announcement", None),
        };
        Self {
            frame: event.at.0,
            duration_frames: event.length.0,
            say: event.phrase.words().to_owned(),
            phrase: event.phrase.id().to_owned(),
            kind,
            set: event.set,
            cue,
            then: Vec::new(),
        }
    }

    fn add(&mut self, event: &Event, part: bool) {
        let Event { at, length, phrase, .. } = event;
        self.duration_frames = (*at + *length).0 - self.frame;
        if part {
            self.say = format!("{}, {}", self.say, phrase.words());
            self.phrase = format!("{}+{}", self.phrase, phrase.id());
        } else {
            let (frame, duration_frames) = (at.0, length.0);
            self.then.push(SheetSound { frame, duration_frames, say: phrase.words(), phrase: phrase.id() });
        }
    }
}
