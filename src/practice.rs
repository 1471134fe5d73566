//! How does a practice run? One loop passes keys, sound and time to the session in the core, and does what it says.

use std::collections::HashMap;
use std::time::{Duration, Instant};
use std::{fmt, io};

use crate::audio::{Bank, Clip, CueEvent, Frame, Output, OutputEvent, Speaker};
use crate::clock::Clock;
use crate::display::plain::Plain;
use crate::display::{Face, Input};
use crate::journal::{Closed, Status, Writer};
use counterpoise_core::draw::schedule::Cue;
use counterpoise_core::plan::drill::Facing;
use counterpoise_core::plan::phrase::Phrase;
use counterpoise_core::plan::place::Room;
use counterpoise_core::practice::placing::{self, Ear, Part};
use counterpoise_core::practice::session::{Channel, Effect, Event, Now, Session};
use counterpoise_core::record::{Disturbance, Entry};
use counterpoise_core::units::Millis;
use counterpoise_core::words::Printable;

/// How long the loop waits for a key before it checks sound and time again.
const LOOK: Duration = Duration::from_millis(20);
/// How long the end of a set or a session may take to reach the disk before the practice goes on without it.
const ON_DISK: Duration = Duration::from_secs(5);
/// The time from one number of the count to the next.
const COUNT: Millis = Millis(1_000);
/// The longest wait at the end for words that end a hold: the longest of them lasts two seconds.
const HEARD_OUT: Duration = Duration::from_secs(3);

/// The sound of a practice: where it goes, and the clips that it needs.
#[derive(Debug)]
pub struct Sound {
    output: Output,
    speaker: Speaker,
    bank: Bank,
    /// What is said in an emergency: in a voice, even where the bank has tones.
    warnings: Option<Bank>,
    /// The cue of each sound, and its part in it.
    parts: HashMap<u32, (u16, Part)>,
    cues: HashMap<u16, PendingCue>,
    /// The number of the last sound, so that every sound has its own.
    last_id: u32,
}

/// Whether a phrase may be placed on a frame, to the trainee or the partner: its clip must be at hand. Everything else is
/// said when its turn comes.
pub fn is_placed(id: &str) -> bool {
    let told = ["count.", "tell.", "toward.", "where.", "hand.", "strength."];
    Phrase::named(id).is_some_and(Phrase::is_cue) || told.iter().any(|group| id.starts_with(group))
}

/// A cue whose sounds are placed but not all heard.
#[derive(Debug)]
struct PendingCue {
    work_starts: Frame,
    /// The frame wanted for its moment, and the frame at which it began.
    moment: Option<(Frame, Frame)>,
    /// How many of its sounds have not ended yet.
    left: u8,
}

/// Everything outside the session that a practice uses.
pub struct World {
    /// The screen, or plain lines.
    pub face: Face,
    /// The sound; `None` if the practice runs on the screen alone.
    pub sound: Option<Sound>,
    /// Where the sound goes to a partner's earbud: what is said in an emergency is said here too.
    pub room: RoomSound,
    /// Session time and wall time.
    pub clock: Clock,
    /// The journal.
    pub writer: Writer,
    /// Saves what is on each side of the trainee in the settings.
    pub keep_room: Box<dyn FnMut(Room)>,
    /// Whether the program is asked to close.
    pub close_requested: fn() -> bool,
}

/// The sound for everybody in the room. It is opened when it is first needed.
#[derive(Default)]
#[expect(clippy::large_enum_variant, reason = "there is one of it")]
pub enum RoomSound {
    /// The sound of the practice is heard in the room, or there is no other.
    #[default]
    Same,
    /// Another output, which this opens.
    Other(Box<dyn FnOnce() -> Option<Sound>>),
    /// The other output.
    Open(Sound),
}

impl fmt::Debug for RoomSound {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Same => "Same",
            Self::Other(_) => "Other",
            Self::Open(_) => "Open",
        })
    }
}

impl RoomSound {
    fn warn(&mut self, phrases: &[Phrase]) {
        *self = match std::mem::take(self) {
            Self::Other(open) => open().map_or(Self::Same, Self::Open),
            open_or_same => open_or_same,
        };
        if let Self::Open(sound) = self {
            sound.warn(phrases);
        }
    }

    fn hush(&mut self) {
        if let Self::Open(sound) = self {
            sound.hush();
        }
    }
}

impl fmt::Debug for World {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("World")
            .field("sound", &self.sound)
            .field("clock", &self.clock)
            .finish_non_exhaustive()
    }
}

impl Sound {
    /// Sound over this output with these clips.
    pub fn new(output: Output, bank: Bank) -> Self {
        let (parts, cues) = (HashMap::new(), HashMap::new());
        Self { output, speaker: Speaker::default(), bank, warnings: None, parts, cues, last_id: 0 }
    }

    /// The same, with the clips of what is said in an emergency.
    #[must_use]
    pub fn with_warnings(self, warnings: Bank) -> Self {
        Self { warnings: Some(warnings), ..self }
    }

    /// The id of the output that it plays on.
    pub fn device_id(&self) -> String {
        self.output.facts().id
    }

    /// Host and device, for the journal.
    pub fn device(&self) -> String {
        let facts = self.output.facts();
        format!("{}: {}", facts.host, facts.device)
    }

    /// Says a phrase after the one that is being said.
    pub(crate) fn say(&mut self, phrase: Phrase) {
        let Some(clip) = self.bank.get(phrase.id()) else { return };
        self.last_id += 1;
        // The only call that is said by itself is the end of a hold that was broken off. It is heard to its end, even if
        // something follows.
        if phrase.is_cue() {
            self.speaker.say_through(&mut self.output, self.last_id, clip);
        } else {
            self.speaker.say(&mut self.output, self.last_id, clip);
        }
    }

    /// Says these at once, one after the other, in place of whatever else is being said.
    fn warn(&mut self, phrases: &[Phrase]) {
        self.hush();
        let warnings = self.warnings.as_ref().unwrap_or(&self.bank);
        for clip in phrases.iter().filter_map(|phrase| warnings.get(phrase.id())) {
            self.last_id += 1;
            self.speaker.say(&mut self.output, self.last_id, clip);
        }
    }

    /// Cuts off what is being said.
    pub(crate) fn hush(&mut self) {
        self.speaker.hush(&mut self.output);
        self.parts.clear();
        self.cues.clear();
    }

    /// Waits for words that must be heard to their end, before the sound is dropped.
    fn hear_out(&mut self) {
        let until = Instant::now() + HEARD_OUT;
        while !self.speaker.is_through(&self.output) && Instant::now() < until {
            let _ = self.output.poll();
            std::thread::sleep(LOOK);
        }
    }

    /// Places each phrase at its time after a common zero, and gives the zero, as far ahead from now as it is heard.
    pub(crate) fn time(&mut self, phrases: &[(Millis, Phrase)]) -> Millis {
        let rate = self.output.rate();
        let zero = self.speaker.next(&self.output);
        for (at, phrase) in phrases {
            if let Some(clip) = self.bank.get(phrase.id()) {
                self.last_id += 1;
                self.output.play(self.last_id, clip, Frame(zero.0 + rate.frames(*at).0));
            }
        }
        until_heard(&self.output, zero)
    }

    /// How a sound of a cue is made.
    fn clip(bank: &Bank, sound: placing::Sound) -> Option<Clip> {
        match sound {
            placing::Sound::Say(phrase) => bank.get(phrase.id()),
            placing::Sound::Now => Some(bank.moment()),
        }
    }

    /// Places the count and every cue on its frame, and gives the frame at which the work starts or goes on.
    fn place(&mut self, count: &[Phrase], cues: &[(u16, Cue)], from: Millis, ear: Ear) -> Frame {
        let rate = self.output.rate();
        let base = self.speaker.next(&self.output);
        let second = rate.frames(COUNT);
        for (place, number) in (0_u64..).zip(count) {
            if let Some(clip) = self.bank.get(number.id()) {
                self.last_id += 1;
                self.output.play(self.last_id, clip, Frame(base.0 + place * second.0));
            }
        }
        let start = Frame(base.0 + count.len() as u64 * second.0);
        // Cue offsets count from the start of the set's work, which lies `from` before this placement.
        let zero = Frame(start.0.saturating_sub(rate.frames(from).0));
        let bank = &self.bank;
        let length = |sound| Self::clip(bank, sound).map(|clip| clip.length() - clip.onset());
        let cues = cues.iter().map(|(place, cue)| (*place, cue));
        for placed in placing::place(cues, ear, (zero, start), rate, length) {
            let Some(clip) = Self::clip(&self.bank, placed.sound) else { continue };
            self.last_id += 1;
            if placed.part != Part::After {
                let pending = PendingCue { work_starts: zero, moment: None, left: 0 };
                self.cues.entry(placed.cue).or_insert(pending).left += 1;
                self.parts.insert(self.last_id, (placed.cue, placed.part));
            }
            self.output.play(self.last_id, clip, placed.at);
        }
        start
    }

    /// Only what was heard to its end counts as heard: a call cut off by an unplugged device does not.
    fn finished(&mut self, id: u32) -> Option<Event> {
        let (cue, _) = self.parts.remove(&id)?;
        let pending = self.cues.get_mut(&cue)?;
        pending.left -= 1;
        if pending.left > 0 {
            return None;
        }
        let PendingCue { work_starts, moment, .. } = self.cues.remove(&cue)?;
        let (wanted, began) = moment?;
        let (wanted, began) = ((wanted - work_starts).0, (began - work_starts).0);
        Some(Event::Heard { cue, wanted, began, rate: self.output.rate().hz() })
    }

    /// The output's events, as events of the session.
    pub(crate) fn events(&mut self) -> Vec<Event> {
        let mut events = Vec::new();
        while let Some(event) = self.output.poll() {
            match event {
                OutputEvent::Cue(CueEvent::Started { id, wanted, at }) => {
                    if let Some((cue, Part::Moment)) = self.parts.get(&id)
                        && let Some(pending) = self.cues.get_mut(cue)
                    {
                        pending.moment = Some((wanted, at));
                    }
                }
                OutputEvent::Cue(CueEvent::Finished { id }) => events.extend(self.finished(id)),
                OutputEvent::Lost => {
                    self.hush();
                    events.push(Event::SoundLost);
                }
                OutputEvent::Back { rate, new_rate } => {
                    if new_rate {
                        let warnings = self.warnings.as_ref().map(|bank| bank.at_rate(rate)).transpose();
                        match (self.bank.at_rate(rate), warnings) {
                            (Ok(bank), Ok(warnings)) => (self.bank, self.warnings) = (bank, warnings),
                            // The clips were decoded once already; without them there is no sound to come back to.
                            _ => continue,
                        }
                    }
                    events.push(Event::SoundBack);
                }
                OutputEvent::Xrun => events.push(Event::SoundDisturbed(Disturbance::Stuttered)),
                OutputEvent::Changed => events.push(Event::SoundDisturbed(Disturbance::Moved)),
            }
        }
        events
    }
}

/// The outcome of a practice: whether its entries were saved, and whether the screen failed.
#[derive(Debug)]
pub struct Outcome {
    /// What the journal saved and what it could not.
    pub kept: Closed,
    /// An error if the screen could no longer be drawn.
    pub face: io::Result<()>,
    /// The reader of plain lines, for questions after the session. A full screen is restored by then.
    pub plain: Option<Plain>,
}

/// Runs a session to its end. Everything that ends it, a signal or a closed terminal included, ends it here.
pub fn run(mut world: World, mut session: Session) -> Outcome {
    let device = world.sound.as_ref().map(Sound::device);
    // A device can bear any name.
    let device = device.map(|name| Printable::of(&name).to_string());
    let mut events = vec![Event::Sound { device }];
    let mut face = Ok(());
    'practice: loop {
        for event in std::mem::take(&mut events) {
            let now = Now { at: world.clock.now(), wall: world.clock.wall() };
            let (next, effects) = session.on(&now, event);
            session = next;
            for effect in effects {
                match effect {
                    Effect::Leave => break 'practice,
                    effect => events.extend(world.perform(effect, session.is_silent())),
                }
            }
        }
        if face.is_ok() {
            face = world.face.show(&session.screen(world.clock.now()));
            if face.is_err() {
                events.push(Event::Close);
            }
        }
        events.extend(world.look());
    }
    let plain = match world.face {
        Face::Plain(plain) => Some(plain),
        Face::Screen(_) => None,
    };
    let kept = world.writer.close();
    if let Some(sound) = &mut world.sound {
        sound.hear_out();
    }
    Outcome { kept, face, plain }
}

impl World {
    /// Waits a moment for a key, and gathers everything that happened.
    fn look(&mut self) -> Vec<Event> {
        let mut events = Vec::new();
        match self.face.poll(LOOK) {
            Input::Key(key) => events.push(Event::Key(key)),
            Input::Close => events.push(Event::Close),
            Input::Nothing => {}
        }
        if (self.close_requested)() {
            events.push(Event::Close);
        }
        // What was heard comes before the effect of a key.
        if let Some(sound) = &mut self.sound {
            events.splice(0..0, sound.events());
        }
        if let RoomSound::Open(sound) = &mut self.room {
            drop(sound.events());
        }
        // Whether the time was watched decides what anything else means.
        events.insert(0, Event::Tick { gap: self.clock.gap() });
        while let Some(status) = self.writer.status() {
            events.push(match status {
                Status::NotSaved { .. } => Event::NotSaved,
                Status::Saved => Event::Saved,
            });
        }
        events
    }

    fn perform(&mut self, effect: Effect, silent: bool) -> Option<Event> {
        let sound = self.sound.as_mut().filter(|_| !silent);
        match effect {
            Effect::Say(phrase) => sound?.say(phrase),
            Effect::Warn(phrases) => {
                // Also where the calls are on the screen only: the output may be back.
                if let Some(sound) = &mut self.sound {
                    sound.warn(&phrases);
                }
                self.room.warn(&phrases);
            }
            Effect::Hush => {
                if let Some(sound) = &mut self.sound {
                    sound.hush();
                }
                self.room.hush();
            }
            Effect::Begin { count, cues, from, channel, room, facing } => {
                let now = self.clock.now();
                let Some(sound) = sound else {
                    return Some(Event::Placed { work_starts: now + Millis(COUNT.0 * count.len() as u32) });
                };
                let start = sound.place(&count, &cues, from, ear(channel, room, facing));
                return Some(Event::Placed { work_starts: now + until_heard(&sound.output, start) });
            }
            Effect::Record(entry @ (Entry::SetEnded { .. } | Entry::SessionEnded { .. })) => {
                // Nothing else happens before a finished set is on the disk. If it is not, the writer says so.
                if !self.writer.keep_and_wait(&self.clock.wall(), entry, ON_DISK) {
                    return Some(Event::NotSaved);
                }
            }
            Effect::Record(entry) => self.writer.keep(&self.clock.wall(), entry),
            // If it cannot be kept now it is asked again next time: nothing is lost but a question.
            Effect::KeepRoom(room) => (self.keep_room)(room),
            Effect::Leave => {}
        }
        None
    }
}

/// Who hears the sound. Where the partner has the screen, it is the trainee.
const fn ear(channel: Channel, room: Room, facing: Facing) -> Ear {
    match channel {
        Channel::Trainee | Channel::PartnerScreen => Ear::Trainee,
        Channel::PartnerEarbud => Ear::Partner { room, facing },
    }
}

/// The session time until `frame` is heard: what the device estimates, else the time until it is rendered.
fn until_heard(output: &Output, frame: Frame) -> Millis {
    let to_render = output.rate().duration(frame - output.now());
    let estimate = output.instant_of(frame).filter(|_| output.facts().audible);
    let left = estimate.map_or(to_render, |heard| heard.saturating_duration_since(Instant::now()));
    Millis(left.as_millis() as u32)
}

#[cfg(test)]
mod test;
