//! How a balance test is led, step by step: what is shown and said, what each key means, and when the stopwatch stops.
//! Events in, effects out, as in a session.
//!
//! ```text
//! which test -> who is there -> fit today? -> (age) -> how to stand -> 5 4 3 2 1 begin -> the watch -> result: keep, again, discard
//! ```
//!
//! Alone, the program counts aloud and stops by itself, and the last number heard is keyed in afterwards: nobody presses
//! keys on one leg. Timed walking and rising are led only with somebody to hold the key. A result is looked at and kept by
//! a key. Of the four stances those that were held are kept when the next one is stopped.

use jiff::civil::Date;

use crate::health::assessment::{Age, Company, Dated, Reading, Sex, Test};
use crate::health::readiness::{Asked, Item, Page};
use crate::plan::phrase::Phrase;
use crate::plan::precaution::Precautions;
use crate::practice::emergency::Contacts;
use crate::practice::session::Key;
use crate::practice::session::three_keys::answer_of;
use crate::units::Millis;

mod stage;
mod test_screen;

pub use stage::{ALONE_LIMIT, LEAD_IN, Stage, stages};

/// Something that happened, at a moment given beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Event {
    /// Time went on.
    Tick,
    /// A key was pressed.
    Key(Key),
    /// What [`Effect::Time`] asked for is placed: its zero is heard at this moment.
    Placed {
        /// Time since the guide was opened; may be in the future.
        zero: Millis,
    },
    /// The program is asked to close, or the computer slept.
    Close,
}

/// Something that must be done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Effect {
    /// Say this after what is being said now.
    Say(Phrase),
    /// Say each of these at its time after a common zero, exactly. Answered by [`Event::Placed`].
    Time(Vec<(Millis, Phrase)>),
    /// Cut off what is being said now.
    Hush,
    /// Keep this result.
    Keep(Kept),
    /// Close the guide.
    Leave,
}

/// A result that is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Kept {
    /// The result, in the unit of its test.
    pub reading: Reading,
    /// The person's age, where the test needs it.
    pub age: Option<Age>,
    /// The person's sex, where the test needs it.
    pub sex: Option<Sex>,
    /// Alone, or with somebody.
    pub company: Company,
    /// How many of the four stances were held, in the test that has them.
    pub stances: Option<u8>,
}

/// A question whose answer is typed in as a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum NumberPrompt {
    /// The age in years.
    Age,
    /// How often the person rose.
    Rises,
    /// The last number heard.
    LastNumber,
}

/// What is asked before a test: how the person is, as before practice, then the room, of which a test needs less.
const FIT: [Asked; Item::SINGLY.len() + 2] = {
    let mut all = [Asked::Page(Page::Body); Item::SINGLY.len() + 2];
    let mut nth = 0;
    while nth < Item::SINGLY.len() {
        all[nth] = Asked::One(Item::SINGLY[nth]);
        nth += 1;
    }
    all[nth + 1] = Asked::Page(Page::Room);
    all
};

#[derive(Debug, Clone, PartialEq, Eq)]
enum Phase {
    Choose,
    WhoIsThere,
    /// The person's precautions rule the test out.
    RuledOut,
    /// Somebody is needed and is not there.
    NeedsSomebody,
    /// What was asked so far of the questions whether the person is fit today.
    Fit {
        asked: usize,
    },
    NotToday,
    Number {
        asked: NumberPrompt,
        typed: String,
        wrong: bool,
    },
    Sex,
    SetUp,
    Watch {
        /// When the first number is heard; `None` until it is placed.
        zero: Option<Millis>,
    },
    /// Alone: was it held to the end?
    HeldIt,
    Result {
        reading: Reading,
    },
    Kept {
        /// What was kept before its last stance, and is shown after it.
        before: Option<Reading>,
    },
    Stopped {
        /// How many stances were held, and are kept.
        stances: usize,
    },
    Left,
}

/// The guide through balance tests.
#[derive(Debug, Clone)]
pub struct Guide {
    phase: Phase,
    test: Test,
    company: Company,
    age: Option<Age>,
    sex: Option<Sex>,
    /// Which stage of the test, from 0.
    stage: usize,
    /// The test was named at the start.
    only: Option<Test>,
    precautions: Precautions,
    contacts: Contacts,
    /// The key pressed last on this page does nothing there.
    wrong_key: bool,
    /// The results so far, until when somebody has looked at them, and today.
    known: Option<(Vec<Dated>, Option<Date>, Date)>,
}

/// Presses this soon after the watch began are the one that began it \[judgment\].
const BOUNCE: Millis = Millis(400);

impl Guide {
    /// A guide that asks which test, or leads through this one.
    pub fn new(only: Option<Test>, emergency: Option<String>) -> Self {
        let phase = if only.is_some() { Phase::WhoIsThere } else { Phase::Choose };
        let test = only.unwrap_or(Test::FourStage);
        let precautions = Precautions::NONE;
        let contacts = Contacts { emergency, other: None };
        Self {
            phase,
            test,
            company: Company::Alone,
            age: None,
            sex: None,
            stage: 0,
            only,
            contacts,
            precautions,
            wrong_key: false,
            known: None,
        }
    }

    /// The same guide, knowing who else is called in an emergency: a name and a number.
    #[must_use]
    pub fn also_calling(mut self, other: Option<&str>) -> Self {
        self.contacts.other = other.map(str::to_owned);
        self
    }

    /// The same guide, knowing the results so far, and until which day somebody has looked at them.
    #[must_use]
    pub fn knowing(mut self, results: &[Dated], reviewed: Option<Date>, today: Date) -> Self {
        self.known = Some((results.to_vec(), reviewed, today));
        self
    }

    /// The same guide for somebody with these precautions: a test that they rule out is not led.
    #[must_use]
    pub fn within(mut self, precautions: Precautions) -> Self {
        self.precautions = precautions;
        if self.only.is_some() {
            self.open(self.test);
        }
        self
    }

    fn open(&mut self, test: Test) {
        self.test = test;
        let is_left = (test.ruled_out_by() & self.precautions).is_empty();
        self.phase = if is_left { Phase::WhoIsThere } else { Phase::RuledOut };
    }

    /// Every phrase that it may say.
    pub fn phrases() -> Vec<Phrase> {
        let stages = Test::ALL.iter().flat_map(|test| stages(*test)).map(|stage| stage.phrase);
        let numbers = (1..=10).map(|number| format!("count.{number}"));
        let said = stages.map(str::to_owned).chain(numbers);
        let said = said.chain([BEGIN, HALF_TIME, STOP, LAST_NUMBER].map(str::to_owned));
        said.filter_map(|id| Phrase::named(&id)).collect()
    }

    /// Whether it is over.
    pub fn is_over(&self) -> bool {
        self.phase == Phase::Left
    }

    /// What happens at `now`, the time since the guide was opened. Total: whatever comes, nothing is kept but by the key
    /// that says so.
    pub fn on(&mut self, now: Millis, event: Event) -> Vec<Effect> {
        let mut effects = Vec::new();
        let before = matches!(event, Event::Key(_)).then(|| self.phase.clone());
        match event {
            Event::Close => {
                self.keep_stances(&mut effects);
                self.leave(&mut effects);
            }
            Event::Placed { zero } => {
                if let Phase::Watch { zero: placed @ None } = &mut self.phase {
                    *placed = Some(zero);
                }
            }
            Event::Tick => self.tick(now, &mut effects),
            Event::Key(key) if key.stops() => self.stop(&mut effects),
            Event::Key(key) => self.key(now, key, &mut effects),
        }
        // While a stance is held nothing is said about keys.
        let unmoved = |phase: &Phase| !matches!(phase, Phase::Watch { .. }) && *phase == self.phase;
        self.wrong_key = match &before {
            Some(before) => effects.is_empty() && unmoved(before),
            None => self.wrong_key && effects.is_empty(),
        };
        effects
    }

    fn leave(&mut self, effects: &mut Vec<Effect>) {
        self.phase = Phase::Left;
        effects.extend([Effect::Hush, Effect::Leave]);
    }

    /// Leaves a test, keeping the stances that were held; on the other pages, closes the guide.
    fn stop(&mut self, effects: &mut Vec<Effect>) {
        match self.phase {
            Phase::Choose
            | Phase::RuledOut
            | Phase::NotToday
            | Phase::Kept { .. }
            | Phase::Stopped { .. }
            | Phase::Left => {
                self.leave(effects);
            }
            _ => {
                effects.push(Effect::Hush);
                let stances = self.keep_stances(effects);
                self.phase = Phase::Stopped { stances };
            }
        }
    }

    /// Keeps the stances that were held before the one that is stopped, and says how many: who was not seen to hold heel to
    /// toe has not held it. Heel to toe itself is kept as soon as it was held.
    fn keep_stances(&mut self, effects: &mut Vec<Effect>) -> usize {
        let in_stance = matches!(
            self.phase,
            Phase::SetUp
                | Phase::Watch { .. }
                | Phase::HeldIt
                | Phase::Number { asked: NumberPrompt::LastNumber, .. }
        );
        if self.test != Test::FourStage || !in_stance {
            return 0;
        }
        if (1..=HEEL_TO_TOE).contains(&self.stage) {
            effects.push(self.keep(Self::four_stage(0)));
        }
        self.stage
    }

    fn four_stage(tenths: u32) -> Reading {
        Reading::new(Test::FourStage, Some(tenths)).expect("it is within the test's range")
    }

    fn keep(&self, reading: Reading) -> Effect {
        let Self { age, sex, company, .. } = *self;
        let stances = (self.test == Test::FourStage).then_some(self.stage as u8);
        Effect::Keep(Kept { reading, age, sex, company, stances })
    }

    fn stages(&self) -> &'static [Stage] {
        stages(self.test)
    }

    /// How long this stage's watch runs at most.
    fn limit(&self) -> Millis {
        self.stages()[self.stage].limit(self.company)
    }

    fn key(&mut self, now: Millis, key: Key, effects: &mut Vec<Effect>) {
        match self.phase.clone() {
            Phase::Choose => {
                let chosen = (1..).zip(Test::ALL).find(|(nth, _)| key == Key::Char(digit(*nth)));
                if let Some((_, test)) = chosen {
                    self.open(*test);
                }
            }
            Phase::WhoIsThere if key.is('y') => self.set_company(Company::WithSomebody),
            Phase::WhoIsThere if key.is('n') => self.set_company(Company::Alone),
            Phase::Fit { asked } => self.fit_key(asked, key, effects),
            Phase::NotToday => self.leave(effects),
            Phase::Number { asked, typed, .. } => self.type_key(asked, typed, key, effects),
            Phase::Sex if key.is('f') || key.is('m') => {
                self.sex = Some(if key.is('f') { Sex::Female } else { Sex::Male });
                self.set_up(effects);
            }
            Phase::SetUp if key == Key::Enter => self.begin(effects),
            Phase::Watch { zero: Some(zero) } => self.watch_key(now, zero, effects),
            Phase::HeldIt if key.is('y') => self.stage_ended(self.limit(), effects),
            Phase::HeldIt if key.is('n') => {
                effects.extend(say(LAST_NUMBER));
                self.ask(NumberPrompt::LastNumber);
            }
            Phase::Result { reading } if key.is('k') => {
                effects.push(self.keep(reading));
                self.phase = Phase::Kept { before: None };
            }
            Phase::Result { .. } if key.is('r') => self.repeat_set_up(effects),
            Phase::Result { .. } if key.is('d') => self.start_over(effects),
            Phase::Kept { .. } | Phase::Stopped { .. } | Phase::NeedsSomebody | Phase::RuledOut => {
                self.start_over(effects);
            }
            _ => {}
        }
    }

    fn set_company(&mut self, company: Company) {
        self.company = company;
        let lacks = company == Company::Alone && self.test.needs_helper();
        self.phase = if lacks { Phase::NeedsSomebody } else { Phase::Fit { asked: 0 } };
    }

    fn start_over(&mut self, effects: &mut Vec<Effect>) {
        effects.push(Effect::Hush);
        if self.only.is_some() {
            self.leave(effects);
        } else {
            self.phase = Phase::Choose;
        }
    }

    /// Another answer than the good one, "not sure" as well: not today.
    fn fit_key(&mut self, asked: usize, key: Key, effects: &mut Vec<Effect>) {
        match (answer_of(key), FIT.get(asked)) {
            (Some(answer), Some(fit)) if answer != fit.good() => self.phase = Phase::NotToday,
            (Some(_), Some(_)) if asked + 1 < FIT.len() => self.phase = Phase::Fit { asked: asked + 1 },
            (Some(_), _) => self.after_fit(effects),
            (None, _) => {}
        }
    }

    /// Only one table has columns and rows for people.
    fn after_fit(&mut self, effects: &mut Vec<Effect>) {
        if self.test == Test::ChairStand && self.age.is_none() {
            self.ask(NumberPrompt::Age);
        } else {
            self.set_up(effects);
        }
    }

    fn ask(&mut self, asked: NumberPrompt) {
        self.phase = Phase::Number { asked, typed: String::new(), wrong: false };
    }

    fn type_key(&mut self, asked: NumberPrompt, mut typed: String, key: Key, effects: &mut Vec<Effect>) {
        match key {
            Key::Char(digit @ '0'..='9') if typed.len() < 3 => {
                typed.push(digit);
                self.phase = Phase::Number { asked, typed, wrong: false };
            }
            Key::Enter if !self.take_number(asked, &typed, effects) => {
                self.phase = Phase::Number { asked, typed: String::new(), wrong: true };
            }
            _ if key.is('x') => self.ask(asked),
            _ => {}
        }
    }

    /// Takes a number, if it is one that can be.
    fn take_number(&mut self, asked: NumberPrompt, typed: &str, effects: &mut Vec<Effect>) -> bool {
        let Ok(number) = typed.parse::<u32>() else { return false };
        match asked {
            NumberPrompt::Age => {
                let Ok(age) = typed.parse() else { return false };
                self.age = Some(age);
                self.phase = Phase::Sex;
            }
            NumberPrompt::Rises => {
                let Ok(reading) = Reading::new(self.test, Some(number)) else { return false };
                self.phase = Phase::Result { reading };
            }
            NumberPrompt::LastNumber => {
                let held = Millis(number * 1_000);
                if held >= self.limit() {
                    return false;
                }
                self.stage_ended(held, effects);
            }
        }
        true
    }

    fn repeat_set_up(&mut self, effects: &mut Vec<Effect>) {
        effects.push(Effect::Hush);
        self.set_up(effects);
    }

    fn set_up(&mut self, effects: &mut Vec<Effect>) {
        self.stage = 0;
        self.announce_stage(effects);
    }

    fn announce_stage(&mut self, effects: &mut Vec<Effect>) {
        effects.extend(say(self.stages()[self.stage].phrase));
        self.phase = Phase::SetUp;
    }

    /// Five, four, three, two, one, begin; then what is said while the watch runs.
    fn begin(&mut self, effects: &mut Vec<Effect>) {
        effects.push(Effect::Hush);
        effects.push(Effect::Time(self.stages()[self.stage].timed_phrases(self.company)));
        self.phase = Phase::Watch { zero: None };
    }

    fn tick(&mut self, now: Millis, effects: &mut Vec<Effect>) {
        let Phase::Watch { zero: Some(zero) } = self.phase else { return };
        let begun = zero + LEAD_IN;
        if now < begun + self.limit() {
            return;
        }
        // "Stop" is heard at its time, placed with everything else.
        match (self.test, self.company) {
            (Test::ChairStand, _) => self.ask(NumberPrompt::Rises),
            // Nobody saw it but the person.
            (_, Company::Alone) => self.phase = Phase::HeldIt,
            (_, _) => self.stage_ended(self.limit(), effects),
        }
    }

    /// The helper stops the watch with a key. Alone, and while rises are counted, it stops by itself.
    fn watch_key(&mut self, now: Millis, zero: Millis, effects: &mut Vec<Effect>) {
        let begun = zero + LEAD_IN;
        if self.company == Company::Alone || self.test == Test::ChairStand || now < begun + BOUNCE {
            return;
        }
        effects.push(Effect::Hush);
        self.stage_ended(now - begun, effects);
    }

    /// A stage was held, or took, this long.
    fn stage_ended(&mut self, time: Millis, effects: &mut Vec<Effect>) {
        let whole = time >= self.limit();
        let tenths = time.min(self.limit()).0 / 100;
        let value = match self.test {
            Test::FourStage => {
                // The third stage, heel to toe, is the result. Somebody who held it may go on to one leg.
                if whole && self.stage + 1 < self.stages().len() {
                    self.stage += 1;
                    if self.stage == HEEL_TO_TOE + 1 {
                        // It is the result, and is in the journal before one leg begins.
                        effects.push(self.keep(Self::four_stage(tenths)));
                    }
                    return self.announce_stage(effects);
                }
                if self.stage > HEEL_TO_TOE {
                    let before =
                        Some(Self::four_stage(self.stages()[HEEL_TO_TOE].limit(self.company).0 / 100));
                    self.phase = Phase::Kept { before };
                    return;
                }
                Some(if self.stage == HEEL_TO_TOE { tenths } else { 0 })
            }
            // Taking this long counts as unable.
            Test::TimedUpAndGo | Test::FiveRises if whole => None,
            Test::OneLeg | Test::TimedUpAndGo | Test::FiveRises | Test::ChairStand => Some(tenths),
        };
        let (least, most) = self.test.range();
        let value = value.map(|value| value.clamp(least, most));
        let reading = Reading::new(self.test, value).expect("it was put within the test's range");
        self.phase = Phase::Result { reading };
    }
}

/// The place of the stance that is the result, among the four.
const HEEL_TO_TOE: usize = 2;

const BEGIN: &str = "assess.begin";
const HALF_TIME: &str = "assess.half-time";
const STOP: &str = "assess.stop";
const LAST_NUMBER: &str = "assess.last-number";

fn say(id: &str) -> Option<Effect> {
    Phrase::named(id).map(Effect::Say)
}

fn digit(nth: u8) -> char {
    char::from(b'0' + nth)
}

#[cfg(test)]
mod test;
