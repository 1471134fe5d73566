//! The course of one session: what happened comes in as events, what must be done goes out as effects.
//! Touches no clock, device, terminal or file: the practice command does what the effects say.
//!
//! ```text
//! first page > health > ready today > sound check > [ how to stand > count > work > questions > rest ] ... > end
//!                                                       any key pauses, Esc or S stops
//! ```
//!
//! A person alone is never assumed to be fine: every set starts by a key, and a question that stays unanswered is
//! asked again aloud, twice; then the fall guidance is spoken and the session ends.

use crate::millis::Millis;
use crate::phrase::Phrase;
use crate::record::{CueDelivered, Delivery, Entry, Question, SessionBegun, SessionEnd, SetEnd};
use crate::schedule::{Schedule, Scheduler, SetPlan};
use crate::standing;

pub mod event;
mod pages;
mod questions;
pub mod screen;
#[cfg(test)]
mod test;

pub use event::{Effect, Event, Key, Now};
pub use screen::Screen;

/// How long an answer is waited for before it is asked again aloud.
pub const UNANSWERED: Millis = Millis(90_000);
/// How long after each of the two repeats. Help should not come later than it must \[judgment\].
pub const ASKED_AGAIN: Millis = Millis(30_000);
/// How often it is asked again.
const REPEATS: u8 = 2;
/// How long a pause may last before the set ends.
pub const LONGEST_PAUSE: Millis = Millis(300_000);
/// A second key this soon after the one that paused goes on with nothing: hands on a keyboard bounce.
const SETTLE: Millis = Millis(1_000);
/// How long a call stands on the screen.
const SHOWN_FOR: Millis = Millis(3_000);
/// When the end of a rest is announced.
const REST_SOON: Millis = Millis(10_000);
/// The spoken count: five seconds to get into place.
const COUNT: [&str; 5] = ["count.5", "count.4", "count.3", "count.2", "count.1"];

/// One session, from its first page to its last.
#[derive(Debug)]
#[expect(clippy::struct_excessive_bools, reason = "each is a fact that can hold in any phase")]
pub struct Session {
    scheduler: Scheduler,
    schedule: Schedule,
    begun: SessionBegun,
    /// Whom to call, if the person has said so; never assumed.
    emergency: Option<String>,
    recorded: bool,
    silent: bool,
    sound_lost: bool,
    not_saved: bool,
    /// The set that is next, being worked at, or being asked about: an index into the schedule.
    set: usize,
    plan: SetPlan,
    /// Pauses of this set so far.
    pauses: u16,
    /// The first cue of the set that was not delivered yet; counts what a silent practice has shown.
    next: usize,
    /// How this set ended, once it has.
    remark: Option<SetEnd>,
    grabbed: bool,
    phase: Phase,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Phase {
    First,
    Health,
    Ready,
    Check { tries: u8, wrong: bool },
    Stand { wait: Wait },
    Count { worked: Millis, work_starts: Option<Millis> },
    Work { worked: Millis, work_starts: Millis },
    Paused { worked: Millis, since: Millis },
    Ask { question: Question, wait: Wait },
    Rest { since: Millis, told: bool, wait: Option<Wait> },
    Over { end: SessionEnd },
}

/// Waiting for a key.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Wait {
    since: Millis,
    again: u8,
}

impl Wait {
    fn from(since: Millis) -> Self {
        Self { since, again: 0 }
    }
}

/// The effects of one event, in order.
type Effects = Vec<Effect>;

fn say(id: &str) -> Effect {
    Effect::Say(Phrase::own(id))
}

impl Session {
    /// A session over a schedule. `begun` holds the facts to keep; its moment and device are filled in when known.
    /// `emergency` is the number to call, if the person has given one. `None` if the schedule has no set.
    pub fn new(
        scheduler: Scheduler,
        schedule: Schedule,
        begun: SessionBegun,
        emergency: Option<String>,
    ) -> Option<Self> {
        let plan = schedule.sets().first()?.clone();
        Some(Self {
            scheduler,
            schedule,
            begun,
            emergency,
            recorded: false,
            silent: true,
            sound_lost: false,
            not_saved: false,
            set: 0,
            plan,
            pauses: 0,
            next: 0,
            remark: None,
            grabbed: false,
            phase: Phase::First,
        })
    }

    /// Every phrase that the session over this schedule can say: what must be decoded, and nothing more.
    pub fn phrases(schedule: &Schedule) -> Vec<Phrase> {
        let anyway = ["count.", "check.", "practice.", "set.", "rest.", "pause.", "end.", "ask.", "fall."];
        let around = Phrase::all().filter(|phrase| anyway.iter().any(|group| phrase.id().starts_with(group)));
        let sets = schedule.sets().iter();
        let in_sets = sets.flat_map(|set| standing::phrases(set).into_iter().chain(set.phrases()));
        around.chain(in_sets).collect()
    }

    /// Whether nothing is said: the calls stand on the screen only.
    pub fn is_silent(&self) -> bool {
        self.silent
    }

    /// The number of the set that is next, being worked at, or being asked about.
    pub fn set_number(&self) -> u8 {
        self.plan.number()
    }

    /// What the event leads to.
    #[must_use]
    pub fn on(mut self, now: &Now, event: Event) -> (Self, Effects) {
        let mut effects = Effects::new();
        match event {
            Event::Tick => self.tick(now, &mut effects),
            Event::Key(key) => self.key(now, key, &mut effects),
            Event::Sound { device } => {
                self.silent = device.is_none();
                self.begun.device = device;
            }
            Event::Placed { work_starts } => {
                if let Phase::Count { worked, work_starts: None } = self.phase {
                    self.phase = Phase::Count { worked, work_starts: Some(work_starts) };
                }
            }
            Event::Heard { cue, wanted, began, rate } => {
                let how = Delivery::Heard { wanted, began, rate };
                effects.push(Effect::Record(self.delivered(cue, how)));
            }
            Event::SoundLost => {
                self.sound_lost = true;
                self.break_off(now, SetEnd::SoundLost, &mut effects);
            }
            Event::SoundBack => {
                self.sound_lost = false;
                if self.remark == Some(SetEnd::SoundLost) {
                    effects.push(say("end.sound-lost"));
                }
            }
            Event::Slept => self.break_off(now, SetEnd::Slept, &mut effects),
            Event::NotSaved => self.not_saved = true,
            Event::Saved => self.not_saved = false,
            Event::Close => self.close(now, &mut effects),
        }
        (self, effects)
    }

    fn tick(&mut self, now: &Now, effects: &mut Effects) {
        match self.phase {
            Phase::Count { worked, work_starts: Some(work_starts), .. } if now.at >= work_starts => {
                self.phase = Phase::Work { worked, work_starts };
                self.tick(now, effects);
            }
            Phase::Work { worked, work_starts } => {
                let elapsed = worked + (now.at - work_starts);
                self.show_what_is_due(elapsed, effects);
                if elapsed >= self.plan.work() {
                    self.end_set(now, self.plan.work(), SetEnd::Completed, effects);
                }
            }
            Phase::Paused { worked, since } if now.at - since >= LONGEST_PAUSE => {
                self.end_set(now, worked, SetEnd::PausedTooLong, effects);
            }
            Phase::Rest { since, told, wait: None } => {
                let left = self.plan.rest() - (now.at - since);
                if left == Millis(0) {
                    effects.extend([say("rest.over"), say("practice.any-key")]);
                    self.phase = Phase::Rest { since, told, wait: Some(Wait::from(now.at)) };
                } else if left <= REST_SOON && !told {
                    effects.push(say("rest.soon"));
                    self.phase = Phase::Rest { since, told: true, wait: None };
                }
            }
            _ => self.wait_on(now, effects),
        }
    }

    /// Asks again aloud what stays unanswered, and in the end stops waiting.
    fn wait_on(&mut self, now: &Now, effects: &mut Effects) {
        let (Phase::Stand { wait } | Phase::Ask { wait, .. } | Phase::Rest { wait: Some(wait), .. }) =
            &mut self.phase
        else {
            return;
        };
        let patience = if wait.again == 0 { UNANSWERED } else { ASKED_AGAIN };
        if now.at - wait.since < patience {
            return;
        }
        if wait.again < REPEATS {
            *wait = Wait { since: now.at, again: wait.again + 1 };
            effects.push(say("ask.all-right"));
        } else {
            effects.push(say("fall.guidance"));
            self.end(now, SessionEnd::NotAnswered, effects);
        }
    }

    /// In a silent practice, keeps what the screen has begun to show.
    fn show_what_is_due(&mut self, elapsed: Millis, effects: &mut Effects) {
        while let Some(cue) = self.plan.cues().get(self.next).filter(|cue| cue.at() <= elapsed) {
            if self.silent && !cue.is_blank() {
                let how = Delivery::Shown { at: elapsed };
                effects.push(Effect::Record(self.delivered(self.next as u16, how)));
            }
            self.next += 1;
        }
    }

    fn delivered(&self, cue: u16, how: Delivery) -> Entry {
        Entry::CueDelivered(CueDelivered { set: self.plan.number(), cue, how })
    }

    fn key(&mut self, now: &Now, key: Key, effects: &mut Effects) {
        if self.answers_are_you_all_right(now) {
            effects.push(Effect::Hush);
            return;
        }
        match self.phase {
            Phase::First | Phase::Health | Phase::Ready | Phase::Check { .. } => self.page(now, key, effects),
            Phase::Over { .. } => effects.extend([Effect::Hush, Effect::Leave]),
            Phase::Ask { question, .. } => self.answer(now, question, key, effects),
            _ if key.stops() => self.stop(now, effects),
            Phase::Stand { .. } if self.sound_lost && !self.silent => {
                if key.is('g') {
                    self.silent = true;
                }
            }
            Phase::Stand { .. } => {
                effects
                    .push(Effect::Record(Entry::SetBegun { at: now.wall.clone(), plan: self.plan.clone() }));
                self.begin(Millis(0), effects);
            }
            Phase::Count { worked, .. } => self.pause(now, worked, effects),
            Phase::Work { worked, work_starts } => {
                self.pause(now, (worked + (now.at - work_starts)).min(self.plan.work()), effects);
            }
            Phase::Paused { since, .. } if now.at - since < SETTLE => {}
            Phase::Paused { .. } if self.sound_lost && !self.silent => {}
            Phase::Paused { worked, .. } => self.go_on(worked, effects),
            Phase::Rest { wait: Some(_), .. } => {
                self.set += 1;
                self.stand(now, effects);
            }
            Phase::Rest { wait: None, .. } => {}
        }
    }

    /// "Are you all right? Press any key": that key says yes, and is no answer to anything else.
    fn answers_are_you_all_right(&mut self, now: &Now) -> bool {
        let (Phase::Stand { wait } | Phase::Ask { wait, .. } | Phase::Rest { wait: Some(wait), .. }) =
            &mut self.phase
        else {
            return false;
        };
        let asked = wait.again > 0;
        if asked {
            *wait = Wait::from(now.at);
        }
        asked
    }

    /// Says how to stand for the next set, and waits for a key.
    fn stand(&mut self, now: &Now, effects: &mut Effects) {
        self.plan = self.schedule.sets()[self.set].clone();
        (self.pauses, self.next, self.remark) = (0, 0, None);
        effects.push(Effect::Hush);
        if self.set == 0 {
            effects.extend(
                ["practice.hello", "practice.advice", "practice.ignore", "practice.stop-list"].map(say),
            );
        }
        effects.push(say(&format!("set.{}", self.plan.number())));
        effects.extend(standing::phrases(&self.plan).into_iter().map(Effect::Say));
        effects.push(say("practice.any-key"));
        self.phase = Phase::Stand { wait: Wait::from(now.at) };
    }

    fn begin(&mut self, worked: Millis, effects: &mut Effects) {
        let count = COUNT.into_iter().filter_map(Phrase::named).collect();
        let cues = self.plan.cues().iter().enumerate().skip(self.next);
        let cues = cues.map(|(place, cue)| (place as u16, cue.clone())).collect();
        effects.extend([Effect::Hush, say("practice.place"), Effect::Begin { count, cues, from: worked }]);
        self.phase = Phase::Count { worked, work_starts: None };
    }

    fn pause(&mut self, now: &Now, worked: Millis, effects: &mut Effects) {
        self.show_what_is_due(worked, effects);
        effects.extend([Effect::Hush, say("pause.on")]);
        self.phase = Phase::Paused { worked, since: now.at };
    }

    /// After a pause the next moment is drawn afresh; the remaining work time is kept.
    fn go_on(&mut self, worked: Millis, effects: &mut Effects) {
        self.pauses += 1;
        self.plan =
            self.scheduler.after_pause(self.schedule.seed(), &self.plan, self.pauses, worked, self.next);
        effects.push(Effect::Record(Entry::Replanned {
            set: self.plan.number(),
            pause: self.pauses,
            paused_at: worked,
            plan: self.plan.clone(),
        }));
        self.begin(worked, effects);
    }

    /// Ends the set that is being worked at, for a reason that is nobody's.
    fn break_off(&mut self, now: &Now, why: SetEnd, effects: &mut Effects) {
        if let Some(worked) = self.worked(now) {
            effects.push(Effect::Hush);
            self.end_set(now, worked, why, effects);
        }
    }

    /// Elapsed work of the set that is begun and not ended.
    fn worked(&self, now: &Now) -> Option<Millis> {
        match self.phase {
            Phase::Count { worked, .. } | Phase::Paused { worked, .. } => Some(worked),
            Phase::Work { worked, work_starts } => {
                Some((worked + (now.at - work_starts)).min(self.plan.work()))
            }
            _ => None,
        }
    }

    fn end_set(&mut self, now: &Now, worked: Millis, why: SetEnd, effects: &mut Effects) {
        effects.push(self.set_ended(now, worked, why));
        effects.push(say("set.over"));
        self.remark = Some(why);
        self.ask(now, Question::Grabbed, effects);
    }

    fn set_ended(&self, now: &Now, worked: Millis, why: SetEnd) -> Effect {
        Effect::Record(Entry::SetEnded { set: self.plan.number(), at: now.wall.clone(), worked, why })
    }

    fn stop(&mut self, now: &Now, effects: &mut Effects) {
        effects.push(Effect::Hush);
        if let Some(worked) = self.worked(now) {
            effects.push(self.set_ended(now, worked, SetEnd::Stopped));
            self.remark = Some(SetEnd::Stopped);
        }
        self.ask(now, Question::WhyStopped, effects);
    }

    /// After the questions: a rest and the next set, or the end.
    fn after_questions(&mut self, now: &Now, effects: &mut Effects) {
        if self.grabbed {
            effects.push(say("end.stopped"));
            self.end(now, SessionEnd::Grabbed, effects);
        } else if self.set + 1 == self.schedule.sets().len() {
            effects.push(say("end.done"));
            self.end(now, SessionEnd::Finished, effects);
        } else {
            effects.push(say("rest.chair"));
            self.phase = Phase::Rest { since: now.at, told: false, wait: None };
        }
    }

    fn end(&mut self, now: &Now, end: SessionEnd, effects: &mut Effects) {
        if self.recorded {
            effects.push(Effect::Record(Entry::SessionEnded { at: now.wall.clone(), why: end }));
        }
        self.phase = Phase::Over { end };
    }

    fn close(&mut self, now: &Now, effects: &mut Effects) {
        effects.push(Effect::Hush);
        if let Some(worked) = self.worked(now) {
            effects.push(self.set_ended(now, worked, SetEnd::Closed));
        }
        if !matches!(self.phase, Phase::Over { .. }) {
            self.end(now, SessionEnd::Closed, effects);
        }
        effects.push(Effect::Leave);
    }
}
