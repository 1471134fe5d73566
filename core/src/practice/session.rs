//! The course of one session: what happened comes in as events, what must be done goes out as effects. It touches no
//! clock, device, terminal or file: the practice command carries out the effects.
//!
//! ```text
//! first page > health > ready today > [ the partner > what is where ] > sound check > warm-up >
//!     [ how to stand > count > work > [ pushes, one by one ] > questions > rest ] ... > cool-down > end
//!                              any key pauses, Esc or S stops; with a partner G is a grab, F a fall
//! ```
//!
//! A person alone is never assumed to be fine: every set starts by a key, and a question that stays unanswered is
//! asked again aloud, twice; then the fall guidance is spoken and the session ends.

use crate::draw::schedule::path::Path;
use crate::draw::schedule::{Schedule, Scheduler, SetPlan, floor_order};
use crate::health::readiness::{Check, Today};
use crate::plan::drill::{Drill, Form};
use crate::plan::phrase::Phrase;
use crate::plan::place::Room;
use crate::practice::pose;
use crate::practice::routine::Routine;
use crate::record::{
    Entry, LeftOut, Mishap, Question, RoutinePart, SessionBegun, SessionEnd, SetEnd, Stamp, Symptom,
};
use crate::units::Millis;

mod closing;
pub mod event;
mod mishap;
mod opening;
mod partner_channel;
mod partner_pages;
mod phase;
mod phase_screen;
mod questions;
mod readiness_pages;
mod response_questions;
mod routines;
pub mod screen;
mod set;
mod sound_check;
#[cfg(test)]
mod test;

pub use event::{Channel, Effect, Event, Key, Now};
pub use partner_channel::LOOK_UP;
pub use questions::question_lines;
pub use readiness_pages::Preparation;
pub use screen::Screen;

use phase::{Phase, Wait};

/// How long an answer is waited for before it is asked again aloud.
pub const ANSWER_WAIT: Millis = Millis(90_000);
/// How long after each of the two repeats. Help should not come later than it must \[judgment\].
pub const REPEAT_WAIT: Millis = Millis(30_000);
/// How often it is asked again.
const REPEATS: u8 = 2;
/// How long a pause may last before the set ends.
pub const LONGEST_PAUSE: Millis = Millis(300_000);
/// A second key this soon after the one that paused goes on with nothing: hands on a keyboard bounce.
const SETTLE: Millis = Millis(1_000);
/// When the end of a rest is announced.
const REST_SOON: Millis = Millis(10_000);

/// One session, from its first page to its last.
#[derive(Debug)]
#[expect(clippy::struct_excessive_bools, reason = "each is a fact that can hold in any phase")]
pub struct Session {
    scheduler: Scheduler,
    schedule: Schedule,
    begun: SessionBegun,
    /// The emergency number, if the person has given one; never assumed.
    emergency: Option<String>,
    /// What is known of the person.
    preparation: Preparation,
    /// Today's questions.
    ready: Check,
    /// Their answers are kept.
    ready_kept: bool,
    /// Whether there is a partner, and by which channel the partner gets the cues.
    mode: Channel,
    /// What is on each side; `None` was never asked.
    room: Option<Room>,
    /// The floor course of the day; empty where there is none.
    course: Vec<String>,
    course_shown: bool,
    recorded: bool,
    silent: bool,
    /// Whether the sound check was answered with the right word.
    sound_heard: bool,
    sound_lost: bool,
    not_saved: bool,
    /// The set that is next, being worked at, or being asked about: an index into the schedule.
    set: usize,
    plan: SetPlan,
    /// Where the slow target is in this set.
    path: Path,
    /// Why this set is left out, if it is.
    left_out: Option<LeftOut>,
    /// The drill of the last set that was made ready, whose kit is in place.
    in_place: Option<&'static str>,
    /// Pauses of this set so far.
    pauses: u16,
    /// The first cue of the set that was not delivered yet; counts what a silent practice has shown.
    next_cue: usize,
    /// How often the sound was disturbed in this set.
    disturbed: u16,
    /// How this set ended, once it has.
    set_end: Option<SetEnd>,
    /// The symptom, where it was answered.
    symptom: Option<Symptom>,
    /// The person's name, if set: shown on the first page, so that nobody practices under another name.
    name: Option<String>,
    /// Nothing was set up yet.
    is_new: bool,
    /// The words that close a call that was cut off; shown until the next set or the end of the pause.
    closing_words: Option<Phrase>,
    /// The pushes of this set whose response is kept.
    noted_pushes: Vec<u16>,
    /// Grabs of this session, with a partner.
    grabs: u8,
    /// One step lower was advised after this set.
    step_lower_advised: bool,
    grabbed: bool,
    fell: bool,
    phase: Phase,
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
            emergency,
            preparation: Preparation::default(),
            ready: Check::new(Today::default()),
            ready_kept: false,
            mode: Channel::Trainee,
            room: None,
            course: Vec::new(),
            course_shown: false,
            recorded: false,
            silent: true,
            sound_heard: false,
            sound_lost: false,
            not_saved: false,
            set: 0,
            path: Path::new(schedule.seed(), plan.number(), plan.work()),
            plan,
            left_out: None,
            in_place: None,
            pauses: 0,
            next_cue: 0,
            disturbed: 0,
            set_end: None,
            symptom: None,
            name: None,
            is_new: false,
            closing_words: None,
            noted_pushes: Vec::new(),
            grabs: 0,
            step_lower_advised: false,
            grabbed: false,
            fell: false,
            phase: Phase::First,
            scheduler,
            schedule,
            begun,
        })
        .map(|session: Self| session.prepare(Preparation::default()))
    }

    /// The same session with a partner, who gets the cues by `channel`. `room` is what is on each side of the trainee, if it
    /// was ever asked.
    #[must_use]
    pub fn with_partner(self, channel: Channel, room: Option<Room>) -> Self {
        Self { mode: channel, room, ..self }
    }

    /// The same session over these patches, in an order drawn for it that is not the `last` one.
    #[must_use]
    pub fn over_patches(self, patches: &[String], last: &[String]) -> Self {
        let place = |patch: &String| patches.iter().position(|other| other == patch);
        let last: Vec<usize> = last.iter().filter_map(place).collect();
        let order = floor_order::order(patches.len(), &last, &mut self.schedule.seed().course());
        Self { course: order.into_iter().map(|place| patches[place].clone()).collect(), ..self }
    }

    /// Every phrase that the session over this schedule can say: what must be decoded, and nothing more.
    pub fn phrases(schedule: &Schedule) -> Vec<Phrase> {
        let sets = schedule.sets();
        let partner = sets.iter().any(|set| set.form() == Form::Partner);
        let anyway = [
            "count.",
            "check.",
            "practice.",
            "set.",
            "rest.",
            "pause.",
            "end.",
            "ask.",
            "fall.",
            "left-out.",
            "ready.",
        ];
        let told: &[&str] = if partner { &["partner.", "toward.", "where."] } else { &[] };
        let groups = anyway.iter().chain(told);
        let named = |phrase: &Phrase| groups.clone().any(|group| phrase.id().starts_with(group));
        let routines = [Routine::warm_up(), Routine::cool_down()];
        let in_routines = routines.into_iter().flat_map(Routine::items).map(|item| item.phrase);
        let in_sets = sets
            .iter()
            .flat_map(|set| pose::phrases(set).into_iter().chain(set.drill().prepare()).chain(set.phrases()));
        Phrase::all().filter(named).chain(in_routines).chain(in_sets).collect()
    }

    /// Whether there is no sound: the calls are on the screen only.
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
                if let Some(drawn) = &mut self.begun.drawn {
                    drawn.device = device;
                }
            }
            Event::Placed { work_starts } => {
                if let Phase::Count { worked, work_starts: None } = self.phase {
                    self.phase = Phase::Count { worked, work_starts: Some(work_starts) };
                }
            }
            Event::Heard { cue, wanted, began, rate } => self.heard(cue, (wanted, began), rate, &mut effects),
            Event::SoundDisturbed(how) => self.sound_disturbed(now, how, &mut effects),
            Event::SoundLost => {
                self.sound_lost = true;
                self.break_off(now, SetEnd::SoundLost, &mut effects);
            }
            Event::SoundBack => {
                self.sound_lost = false;
                if self.set_end == Some(SetEnd::SoundLost) {
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
                self.deliver_due_cues(elapsed.min(self.plan.work()), effects);
                if elapsed >= self.plan.work() {
                    self.end_set(now, self.plan.work(), SetEnd::Completed, effects);
                }
            }
            Phase::Paused { worked, since } if now.at - since >= LONGEST_PAUSE => {
                self.end_set(now, worked, SetEnd::PausedTooLong, effects);
            }
            Phase::Rest { since, announced, wait: None } => {
                let left = self.plan.rest() - (now.at - since);
                if left == Millis(0) {
                    effects.extend([say("rest.over"), say("practice.any-key")]);
                    self.phase = Phase::Rest { since, announced, wait: Some(Wait::from(now.at)) };
                } else if left <= REST_SOON && !announced {
                    effects.push(say("rest.soon"));
                    self.phase = Phase::Rest { since, announced: true, wait: None };
                }
            }
            Phase::Routine { part, item, since } => self.advance_routine(now, part, item, since, effects),
            _ => self.ask_again(now, effects),
        }
    }

    /// Asks again aloud what stays unanswered, and in the end stops waiting.
    fn ask_again(&mut self, now: &Now, effects: &mut Effects) {
        let Some(wait) = self.phase.wait() else { return };
        let patience = if wait.again == 0 { ANSWER_WAIT } else { REPEAT_WAIT };
        if now.at - wait.since < patience {
            return;
        }
        if wait.again < REPEATS {
            *wait = Wait { since: now.at, again: wait.again + 1 };
            effects.push(say("ask.all-right"));
        } else {
            effects.push(say("fall.guidance"));
            self.leave_set(now, SetEnd::Stopped, effects);
            self.end(now, SessionEnd::NotAnswered, effects);
        }
    }

    fn key(&mut self, now: &Now, key: Key, effects: &mut Effects) {
        if self.confirms_all_right(now) {
            effects.push(Effect::Hush);
            return;
        }
        let mishap = self.mishap_of(key);
        match self.phase {
            Phase::First
            | Phase::Cautions { .. }
            | Phase::Health { .. }
            | Phase::Ready { .. }
            | Phase::Gentler
            | Phase::InPlace
            | Phase::Partner { .. }
            | Phase::Side { .. }
            | Phase::Check { .. } => self.page_key(now, key, effects),
            Phase::Over { .. } => effects.extend([Effect::Hush, Effect::Leave]),
            Phase::Ask { question, .. } => self.answer(now, question, key, effects),
            Phase::Walk { cue, sure, .. } => self.walk_key(now, cue, sure, key, effects),
            Phase::Mishap { what, worked, .. } => self.confirm_mishap(now, what, worked, key, effects),
            _ if key.stops() => self.stop(now, effects),
            Phase::Routine { part, .. } => self.skip_routine(now, part, effects),
            Phase::Course { .. } => self.stand(now, effects),
            Phase::Stand { .. } if self.sound_lost && !self.silent && mishap != Some(Mishap::Fall) => {
                if key.is('g') {
                    self.silent = true;
                    self.leave_out_if_unheard(now, effects);
                }
            }
            Phase::Stand { .. } | Phase::Count { .. } | Phase::Work { .. } | Phase::Paused { .. }
                if mishap.is_some() =>
            {
                self.ask_about_mishap(now, mishap, effects);
            }
            Phase::Stand { .. } | Phase::Paused { .. } if key.is('r') && self.has_pushes() => {
                self.refuse(now, effects);
            }
            Phase::Stand { .. } => self.begin_set(now, effects),
            Phase::Count { worked, .. } => self.pause(now, worked, effects),
            Phase::Work { worked, work_starts } => {
                self.pause(now, (worked + (now.at - work_starts)).min(self.plan.work()), effects);
            }
            Phase::Paused { since, .. } if now.at - since < SETTLE => {}
            Phase::Paused { .. } if self.sound_lost && !self.silent => {}
            Phase::Paused { worked, .. } => self.resume(worked, effects),
            Phase::LeftOut { .. } | Phase::Rest { wait: Some(_), .. } => self.go_to_next_set(now, effects),
            Phase::Rest { wait: None, .. } => {}
        }
    }

    /// "Are you all right? Press any key": that key says yes, and is no answer to anything else.
    fn confirms_all_right(&mut self, now: &Now) -> bool {
        let Some(wait) = self.phase.wait() else { return false };
        let asked = wait.again > 0;
        if asked {
            *wait = Wait::from(now.at);
        }
        asked
    }

    fn stop(&mut self, now: &Now, effects: &mut Effects) {
        effects.push(Effect::Hush);
        self.break_off_routine(now, effects);
        self.leave_set(now, SetEnd::Stopped, effects);
        self.ask(now, Question::WhyStopped, effects);
    }

    /// After the questions: a rest and the next set, or the end.
    fn after_questions(&mut self, now: &Now, effects: &mut Effects) {
        if self.grabbed {
            effects.push(say("end.stopped"));
            self.end(now, SessionEnd::Grabbed, effects);
        } else if self.set + 1 == self.schedule.sets().len() {
            self.begin_routine(now, RoutinePart::CoolDown, effects);
        } else {
            effects.push(say("rest.chair"));
            self.phase = Phase::Rest { since: now.at, announced: false, wait: None };
        }
    }

    fn go_to_next_set(&mut self, now: &Now, effects: &mut Effects) {
        if self.set + 1 == self.schedule.sets().len() {
            self.begin_routine(now, RoutinePart::CoolDown, effects);
        } else {
            self.set += 1;
            self.make_ready(now, effects);
        }
    }

    fn end(&mut self, now: &Now, end: SessionEnd, effects: &mut Effects) {
        let unwell = matches!(self.phase, Phase::Ask { question: Question::Symptom, .. });
        let end = match end {
            _ if self.fell => SessionEnd::Fell,
            SessionEnd::Closed if unwell => SessionEnd::Unwell,
            end => end,
        };
        self.note_the_rest(effects);
        if self.recorded {
            self.keep_readiness(effects);
            effects.push(Effect::Record(Entry::SessionEnded { at: Stamp::from(&now.wall), why: end }));
        }
        self.phase = Phase::Over { end };
    }

    fn close(&mut self, now: &Now, effects: &mut Effects) {
        effects.push(Effect::Hush);
        self.break_off_routine(now, effects);
        self.leave_set(now, SetEnd::Closed, effects);
        let all_done = matches!(self.phase, Phase::Routine { part: RoutinePart::CoolDown, .. });
        if !matches!(self.phase, Phase::Over { .. }) {
            let end = if all_done { SessionEnd::Finished } else { SessionEnd::Closed };
            self.end(now, end, effects);
        }
        effects.push(Effect::Leave);
    }

    /// Every drill with a partner in this session, once.
    fn partner_drills(&self) -> Vec<&'static Drill> {
        let mut drills: Vec<&'static Drill> = Vec::new();
        for set in self.schedule.sets().iter().filter(|set| set.form() == Form::Partner) {
            if drills.iter().all(|drill| drill.name() != set.drill().name()) {
                drills.push(set.drill());
            }
        }
        drills
    }
}
