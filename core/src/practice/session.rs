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

use crate::draw::schedule::{Schedule, Scheduler, floor_order};
use crate::plan::drill::Form;
use crate::plan::phrase::Phrase;
use crate::plan::place::Room;
use crate::practice::emergency::Contacts;
use crate::practice::pose;
use crate::practice::routine::Routine;
use crate::record::{Delivery, Entry, SessionBegun, SessionEnd, SetEnd};
use crate::units::Millis;

mod after_set;
mod closing;
mod current_set;
pub mod event;
mod fall_questions;
mod mishap;
mod opening;
mod partner_channel;
mod partner_pages;
mod patience;
mod phase_screen;
mod questions;
mod readiness_pages;
mod response_questions;
mod routines;
mod same_fall;
pub mod screen;
mod set;
mod sound_check;
#[cfg(test)]
mod test;
pub(super) mod three_keys;
mod whole;

pub use event::{Channel, Effect, Event, Key, Now};
pub use opening::{KnownFall, Preparation};
pub use partner_channel::LOOK_UP;
pub use patience::{ANSWER_WAIT, REPEAT_WAIT};
pub use questions::question_lines;
pub use screen::Screen;
pub use set::{LONGEST_GAP, LONGEST_PAUSE};

use after_set::AfterSet;
use closing::Over;
use current_set::Notes;
use opening::Before;
use patience::Wait;
use set::InSet;
use whole::Whole;

/// One session, from its first page to its last.
#[derive(Debug)]
pub struct Session {
    whole: Whole,
    state: State,
    /// A key that does nothing was pressed on this page.
    wrong_key: bool,
}

/// What the session is doing. Each part owns what means something only there.
#[derive(Debug)]
enum State {
    /// The pages, the sound check and the warm-up before the first set.
    Before(Box<Before>),
    /// A set is made ready, worked at, or paused.
    InSet(Box<InSet>),
    /// What is asked after a set or after a stop, the rest, and the cool-down.
    AfterSet(Box<AfterSet>),
    /// The last page.
    Over(Box<Over>),
}

/// An event on its way through the session: its moment, and what must be done, in order.
struct Turn<'a> {
    now: &'a Now,
    whole: &'a mut Whole,
    effects: Vec<Effect>,
}

impl Turn<'_> {
    fn say(&mut self, id: &str) {
        self.effects.push(Effect::Say(Phrase::own(id)));
    }

    fn hush(&mut self) {
        self.effects.push(Effect::Hush);
    }

    fn record(&mut self, entry: Entry) {
        self.effects.push(Effect::Record(entry));
    }

    /// Waiting for a key from now on.
    fn wait(&self) -> Wait {
        Wait::from(self.now.at)
    }
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
        schedule.sets().first()?;
        let whole = Whole {
            scheduler,
            schedule,
            begun,
            contacts: Contacts { emergency, other: None },
            name: None,
            is_new: false,
            mode: Channel::Trainee,
            room: None,
            course: Vec::new(),
            course_shown: false,
            in_place: None,
            silent: true,
            sound_heard: false,
            sound_lost: false,
            sound_back_said: None,
            not_saved: false,
            pushes_given: 0,
            grabs: 0,
            grab_lately: false,
            ended_by: None,
            last_tick: Millis(0),
        };
        let before = Before::new(Preparation::default(), &whole);
        Some(Self { whole, state: State::Before(Box::new(before)), wrong_key: false })
    }

    /// The same session, knowing this of the person.
    #[must_use]
    pub fn prepare(mut self, preparation: Preparation) -> Self {
        self.whole.grab_lately = preparation.grab_lately;
        let before = Before::new(preparation, &self.whole);
        Self { state: State::Before(Box::new(before)), ..self }
    }

    /// The same session, knowing who else is called in an emergency: a name and a number.
    #[must_use]
    pub fn also_calling(mut self, other: Option<&str>) -> Self {
        self.whole.contacts.other = other.map(str::to_owned);
        self
    }

    /// The same session, with the person's name on its first page. `is_new`: nothing was set up yet, and the
    /// first page says how.
    #[must_use]
    pub fn named(mut self, name: Option<&str>, is_new: bool) -> Self {
        self.whole.name = name.map(str::to_owned);
        self.whole.is_new = is_new;
        self
    }

    /// The same session with a partner, who gets the cues by `channel`. `room` is what is on each side of the trainee, if it
    /// was ever asked.
    #[must_use]
    pub fn with_partner(mut self, channel: Channel, room: Option<Room>) -> Self {
        (self.whole.mode, self.whole.room) = (channel, room);
        self
    }

    /// The same session over these patches, in an order drawn for it that is not the `last` one.
    #[must_use]
    pub fn over_patches(mut self, patches: &[String], last: &[String]) -> Self {
        let place = |patch: &String| patches.iter().position(|other| other == patch);
        let last: Vec<usize> = last.iter().filter_map(place).collect();
        let order = floor_order::order(patches.len(), &last, &mut self.whole.schedule.seed().course());
        self.whole.course = order.into_iter().map(|place| patches[place].clone()).collect();
        self
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
        // Which pushes are for practice is decided when a set is given.
        let told: &[&str] =
            if partner { &["partner.", "toward.", "where.", "strength.", "tell.practice"] } else { &[] };
        let groups = anyway.iter().chain(told);
        let named = |phrase: &Phrase| groups.clone().any(|group| phrase.id().starts_with(group));
        let precautions = sets.iter().take(1).flat_map(|set| set.precautions().iter());
        let precautions = precautions.map(crate::plan::precaution::Precaution::phrase);
        let routines = [Routine::warm_up(), Routine::cool_down()];
        let in_routines = routines.into_iter().flat_map(Routine::items).map(|item| item.phrase);
        let in_sets = sets
            .iter()
            .flat_map(|set| pose::phrases(set).into_iter().chain(set.drill().prepare()).chain(set.phrases()));
        Phrase::all().filter(named).chain(precautions).chain(in_routines).chain(in_sets).collect()
    }

    /// Whether there is no sound: the calls are on the screen only.
    pub fn is_silent(&self) -> bool {
        self.whole.silent
    }

    /// The number of the set that is next, being worked at, or being asked about.
    pub fn set_number(&self) -> u8 {
        match &self.state {
            State::Before(_) => self.whole.schedule.sets()[0].number(),
            State::InSet(here) => here.set.number(),
            State::AfterSet(here) => here.set.number(),
            State::Over(over) => over.number,
        }
    }

    /// What the event leads to.
    #[must_use]
    pub fn on(self, now: &Now, event: Event) -> (Self, Vec<Effect>) {
        let number = self.set_number();
        let key_on = matches!(event, Event::Key(_)).then(|| self.screen(now.at));
        let Self { mut whole, state, wrong_key } = self;
        let mut turn = Turn { now, whole: &mut whole, effects: Vec::new() };
        let state = match event {
            Event::Tick { gap } => state.after_gap(gap, &mut turn).tick(&mut turn),
            Event::Key(key) => state.key(key, &mut turn),
            Event::Sound { device } => {
                turn.whole.open_sound(device);
                state
            }
            Event::Placed { work_starts } => state.placed(work_starts),
            Event::Heard { cue, wanted, began, rate } => {
                let how = heard(turn.whole.mode, (wanted, began), rate);
                turn.record(Entry::delivered(number, cue, how));
                state
            }
            Event::SoundDisturbed(how) => state.disturbed(how, &mut turn),
            Event::SoundLost => {
                turn.whole.sound_lost = true;
                state.break_off(SetEnd::SoundLost, &mut turn)
            }
            Event::SoundBack => {
                turn.whole.sound_lost = false;
                // A sound that comes and goes says it once after a set.
                let is_new = turn.whole.sound_back_said != Some(number);
                if is_new && state.notes().is_some_and(|notes| notes.end == Some(SetEnd::SoundLost)) {
                    turn.whole.sound_back_said = Some(number);
                    turn.say("end.sound-lost");
                }
                state
            }
            Event::NotSaved => {
                turn.whole.not_saved = true;
                state
            }
            Event::Saved => {
                turn.whole.not_saved = false;
                state
            }
            Event::Close => state.close(&mut turn),
        };
        let effects = turn.effects;
        let mut session = Self { whole, state, wrong_key: wrong_key && effects.is_empty() };
        if let Some(before) = key_on {
            // Said on the page until another page comes.
            let after = session.screen(now.at);
            session.wrong_key = effects.is_empty() && (before.body, before.keys) == (after.body, after.keys);
        }
        (session, effects)
    }
}

/// A cue was heard to its end: by the trainee, or by a partner with an earbud, who was asked by it.
fn heard(mode: Channel, (wanted, began): (u64, u64), rate: u32) -> Delivery {
    if mode != Channel::PartnerEarbud {
        return Delivery::Heard { wanted, began, rate };
    }
    let at = u128::from(began) * 1_000 / u128::from(rate.max(1));
    Delivery::Asked { at: Millis(u32::try_from(at).unwrap_or(u32::MAX)) }
}

impl State {
    fn tick(mut self, turn: &mut Turn<'_>) -> Self {
        if self.wait().is_some_and(|wait| wait.is_over(turn)) {
            return match self {
                Self::InSet(here) => here.end(SetEnd::Stopped, SessionEnd::NotAnswered, turn),
                Self::AfterSet(here) => here.end(SessionEnd::NotAnswered, turn),
                Self::Before(here) => here.end(SessionEnd::NotAnswered, turn),
                over @ Self::Over(_) => over,
            };
        }
        match self {
            Self::Before(here) => here.tick(turn),
            Self::InSet(here) => here.tick(turn),
            Self::AfterSet(here) => here.tick(turn),
            Self::Over(here) => here.tick(turn),
        }
    }

    fn key(mut self, key: Key, turn: &mut Turn<'_>) -> Self {
        if self.wait().is_some_and(|wait| wait.is_confirmed(turn.now.at)) {
            turn.hush();
            return self;
        }
        match self {
            Self::Before(here) => here.key(key, turn),
            Self::InSet(here) => here.key(key, turn),
            Self::AfterSet(here) => here.key(key, turn),
            Self::Over(here) => here.key(key, turn),
        }
    }

    fn close(self, turn: &mut Turn<'_>) -> Self {
        turn.hush();
        let over = match self {
            Self::Before(here) => here.close(turn),
            Self::InSet(here) => here.end(SetEnd::Closed, SessionEnd::Closed, turn),
            Self::AfterSet(here) => here.close(turn),
            over @ Self::Over(_) => over,
        };
        turn.effects.push(Effect::Leave);
        over
    }

    /// Waiting for a key that must come.
    fn wait(&mut self) -> Option<&mut Wait> {
        match self {
            Self::Before(here) => here.wait(),
            Self::InSet(here) => here.wait(),
            Self::AfterSet(here) => here.wait(),
            Self::Over(_) => None,
        }
    }

    /// What is said on the screen of the set that was last made ready.
    fn notes(&self) -> Option<&Notes> {
        match self {
            Self::Before(_) => None,
            Self::InSet(here) => Some(&here.set.notes),
            Self::AfterSet(here) => Some(&here.set.notes),
            Self::Over(over) => Some(&over.notes),
        }
    }
}
