//! The practice itself: one loop that brings keys, sound and time to the session, and does what it says. Decides
//! nothing about the practice (that is `session`).

use std::collections::HashMap;
use std::io;
use std::time::{Duration, Instant};

use crate::audio::{Bank, Frame, Output, OutputEvent, Speaker};
use crate::clock::Clock;
use crate::display::{Face, Input};
use crate::journal::{Closed, Status, Writer};
use crate::millis::Millis;
use crate::phrase::Phrase;
use crate::record::Entry;
use crate::schedule::{self, Cue, Spoken};
use crate::session::{Effect, Event, Now, Session};

/// How long the loop waits for a key before it looks at sound and time again.
const LOOK: Duration = Duration::from_millis(20);
/// How long the end of a set or a session may take to reach the disk before the practice goes on without it.
const ON_DISK: Duration = Duration::from_secs(5);
/// From one number of the count to the next.
const COUNT: Millis = Millis(1_000);

/// The sound of a practice: where it goes, and the clips that it needs.
pub struct Sound {
    output: Output,
    speaker: Speaker,
    bank: Bank,
    calls: HashMap<u32, Call>,
    /// Numbers everything that is played, so that a report is never taken for another's.
    last_id: u32,
}

/// A cue on its way.
struct Call {
    cue: u16,
    work_starts: Frame,
    started: Option<(Frame, Frame)>,
}

/// Everything outside that a practice touches.
pub struct World {
    /// The screen, or plain lines.
    pub face: Face,
    /// The sound; `None` where there is none.
    pub sound: Option<Sound>,
    /// Session time and wall time.
    pub clock: Clock,
    /// The journal.
    pub writer: Writer,
    /// Whether the program is asked to close.
    pub close_asked: fn() -> bool,
}

impl Sound {
    /// Sound over this output with these clips.
    pub fn new(output: Output, bank: Bank) -> Self {
        Self { output, speaker: Speaker::default(), bank, calls: HashMap::new(), last_id: 0 }
    }

    /// Host and device, for the journal.
    pub fn device(&self) -> String {
        let facts = self.output.facts();
        format!("{}: {}", facts.host, facts.device)
    }

    fn say(&mut self, phrase: Phrase) {
        if let Some(clip) = self.bank.get(phrase.id()) {
            self.last_id += 1;
            self.speaker.say(&mut self.output, self.last_id, clip);
        }
    }

    fn hush(&mut self) {
        self.speaker.hush(&mut self.output);
        self.calls.clear();
    }

    /// Places the count and every cue on its frame, and gives the frame at which the work starts or goes on.
    fn place(&mut self, count: &[Phrase], cues: &[(u16, Cue)], from: Millis) -> Frame {
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
        for (place, cue) in cues {
            let mut end = zero + rate.frames(cue.at());
            let spoken = cue.call().map(schedule::Call::spoken).unwrap_or_default();
            for (nth, Spoken { after, phrase }) in spoken.into_iter().enumerate() {
                let Some(clip) = self.bank.get(phrase.id()) else { continue };
                let at = after.map_or(end, |after| zero + rate.frames(cue.at() + after));
                end = at + clip.length();
                self.last_id += 1;
                if nth == 0 {
                    self.calls.insert(self.last_id, Call { cue: *place, work_starts: zero, started: None });
                }
                self.output.play(self.last_id, clip, at);
            }
        }
        start
    }

    /// What the output has to tell, as events of the session.
    fn events(&mut self) -> Vec<Event> {
        let mut events = Vec::new();
        while let Some(told) = self.output.poll() {
            match told {
                OutputEvent::Started { id, wanted, at } => {
                    if let Some(call) = self.calls.get_mut(&id) {
                        call.started = Some((wanted, at));
                    }
                }
                // Only what was heard to its end counts as heard: a call cut off by an unplugged device does not.
                OutputEvent::Finished { id } => {
                    if let Some(Call { cue, work_starts, started: Some((wanted, at)) }) =
                        self.calls.remove(&id)
                    {
                        let rate = self.output.rate().hz();
                        let (wanted, began) = ((wanted - work_starts).0, (at - work_starts).0);
                        events.push(Event::Heard { cue, wanted, began, rate });
                    }
                }
                OutputEvent::Lost => {
                    self.hush();
                    events.push(Event::SoundLost);
                }
                OutputEvent::Back { rate, new_rate } => {
                    if new_rate {
                        match self.bank.at_rate(rate) {
                            Ok(bank) => self.bank = bank,
                            // The clips were decoded once already; without them there is no sound to come back to.
                            Err(_) => continue,
                        }
                    }
                    events.push(Event::SoundBack);
                }
                OutputEvent::Changed | OutputEvent::Xrun => {}
            }
        }
        events
    }
}

/// What a practice says when it is over: what became of its entries, and a screen that failed.
pub struct Done {
    /// The journal's report.
    pub kept: Closed,
    /// A screen that could not be drawn any more.
    pub face: io::Result<()>,
}

/// Runs a session to its end. Everything that ends it, a signal or a closed terminal included, ends it here.
pub fn run(mut world: World, mut session: Session) -> Done {
    let device = world.sound.as_ref().map(Sound::device);
    let mut events = vec![Event::Sound { device }];
    let mut face = Ok(());
    'practice: loop {
        events.push(Event::Tick);
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
    drop(world.face);
    Done { kept: world.writer.close(), face }
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
        if (self.close_asked)() {
            events.push(Event::Close);
        }
        if self.clock.slept() {
            events.push(Event::Slept);
        }
        // What was heard comes before whatever a key does to it.
        if let Some(sound) = &mut self.sound {
            events.splice(0..0, sound.events());
        }
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
            Effect::Hush => {
                if let Some(sound) = &mut self.sound {
                    sound.hush();
                }
            }
            Effect::Begin { count, cues, from } => {
                let now = self.clock.now();
                let Some(sound) = sound else {
                    return Some(Event::Placed { work_starts: now + Millis(COUNT.0 * count.len() as u32) });
                };
                let start = sound.place(&count, &cues, from);
                return Some(Event::Placed { work_starts: now + until_heard(&sound.output, start) });
            }
            Effect::Record(entry @ (Entry::SetEnded { .. } | Entry::SessionEnded { .. })) => {
                // Nothing else happens before a finished set is on the disk. If it is not, the writer says so.
                if !self.writer.keep_and_wait(&entry, ON_DISK) {
                    return Some(Event::NotSaved);
                }
            }
            Effect::Record(entry) => self.writer.keep(&entry),
            Effect::Leave => {}
        }
        None
    }
}

/// The session time until `frame` is heard: what the device estimates, else the time until it is rendered.
fn until_heard(output: &Output, frame: Frame) -> Millis {
    let to_render = output.rate().duration(frame - output.now());
    let estimate = output.instant_of(frame).filter(|_| output.facts().audible);
    let left = estimate.map_or(to_render, |heard| heard.saturating_duration_since(Instant::now()));
    Millis(left.as_millis() as u32)
}
