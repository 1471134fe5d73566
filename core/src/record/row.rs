//! The columns of each table of a journal, without the keys of the tables above it. The same values are written, read,
//! exported, imported and rescued. An [`Entry`](super::Entry) becomes rows in one place:
//! [`Line::from_entry`](super::Line::from_entry).

use serde::{Deserialize, Deserializer, Serialize};

use super::{Channel, Delivery, Disturbance, Question, SetEnd, Stamp};
use crate::draw::schedule::{Call, Cue, Seed, SetPlan};
use crate::plan::direction::Direction;
use crate::plan::drill::{
    Action, Ball, Facing, Form, SecondTask, Side, Stance, Strength, Support, Surface, Vision,
};
use crate::plan::place::Room;
use crate::plan::prescription::Digest;

mod balance_row;
mod correction_row;
mod fitness_row;
mod ladder_row;
mod partner_row;
mod tryout_row;

pub use balance_row::BalanceRow;
pub use correction_row::{Corrected, CorrectionRow};
pub use fitness_row::{ClearanceRow, DecisionRow, GivenRow, LiftedRow, ReadyRow, SuitabilityRow, TopicRow};
pub use ladder_row::LadderRow;
pub use partner_row::{AdviceRow, LeftOutRow, MishapRow, ResponseRow, RoutineRow};
pub use tryout_row::{SeenRow, TryoutRow};

/// What stands in place of a voice where a practice was typed in.
pub const BY_HAND: &str = "typed in by hand";

/// The facts known when a session is opened.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SessionRow {
    /// When.
    pub begun: Stamp,
    /// The prescription's title.
    pub title: String,
    /// The prescription's digest.
    #[serde(deserialize_with = "digest")]
    pub digest: String,
    /// The seed.
    #[serde(deserialize_with = "seed")]
    pub seed: String,
    /// Whether somebody gave it.
    pub seed_given: bool,
    /// The drawing recipe.
    pub method: u32,
    /// The voice.
    pub voice: String,
    /// The sound output; `None` without sound.
    pub device: Option<String>,
    /// How many sets were planned.
    pub sets_planned: u8,
}

/// A set as planned.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SetRow {
    /// Its number, from 1.
    pub number: u8,
    /// When its work began.
    pub begun: Stamp,
    /// The drill's name.
    pub drill: String,
    /// Alone or with a partner.
    pub form: Form,
    /// The ladder step, from 1.
    pub step: u8,
    /// How the feet stood.
    pub stance: Stance,
    /// The foot ahead.
    pub side: Option<Side>,
    /// What was under the feet.
    pub surface: Surface,
    /// What the hands rested on.
    pub support: Support,
    /// Eyes open or closed.
    pub vision: Vision,
    /// Whose ear and eye the cues went to; `None` before this was kept: the trainee's.
    #[serde(default)]
    pub channel: Option<Channel>,
    /// How the trainee faced; `None` before this was kept.
    #[serde(default)]
    pub facing: Option<Facing>,
    /// The second task.
    #[serde(default)]
    pub second_task: Option<SecondTask>,
    /// How long the work was to be.
    pub work_ms: u32,
    /// The quiet time at its end.
    pub recover_ms: u32,
    /// The least rest after it.
    pub rest_ms: u32,
    /// The version of the ladder and the key of the step; `None` is version 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ladder: Option<LadderRow>,
}

/// How a set ended.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SetEndRow {
    /// When.
    pub at: Stamp,
    /// The work that was done.
    pub worked_ms: u32,
    /// Why.
    pub why: SetEnd,
}

/// A cue or a blank as planned.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CueRow {
    /// Its place in the set, from 0, blanks counted.
    pub cue: u16,
    /// From the start of the set's work.
    pub at_ms: u32,
    /// Since the cue before.
    pub gap_ms: u32,
    /// Nothing is called, on purpose.
    pub blank: bool,
    /// What to do.
    pub action: Option<Action>,
    /// Where.
    pub direction: Option<Direction>,
    /// The id of what is said; where nothing is said, of what the partner is told.
    pub phrase: Option<String>,
    /// The end of what lasts, from the start of the set's work.
    #[serde(default)]
    pub until_ms: Option<u32>,
    /// How firm a push, from 1, barely, to 4, firmly. Never a force.
    #[serde(default)]
    pub strength: Option<u8>,
    /// Which of two balls.
    #[serde(default)]
    pub ball: Option<Ball>,
    /// Ids of what the partner is told, joined by `+`, with the places of the room.
    #[serde(default)]
    pub tell: Option<String>,
    /// Whether the partner is told that it is for practice.
    #[serde(default)]
    pub practice: bool,
}

/// A cue as delivered: heard, only shown, or asked of a partner.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DeliveryRow {
    /// Its place in the set.
    pub cue: u16,
    /// The frame that was asked for, from the start of the set's work.
    #[serde(deserialize_with = "frame")]
    pub wanted_frame: Option<i64>,
    /// The frame on which its clip began.
    #[serde(deserialize_with = "frame")]
    pub began_frame: Option<i64>,
    /// Frames a second.
    pub frames_per_second: Option<u32>,
    /// `began_frame` in milliseconds, rounded down.
    pub heard_ms: Option<u32>,
    /// Without sound: when it stood on the screen.
    pub shown_ms: Option<u32>,
    /// With a partner: when the partner was asked for it. When it came nobody knows.
    #[serde(default)]
    pub asked_ms: Option<u32>,
}

/// The sound was disturbed during a set, and went on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DisturbanceRow {
    /// Orders them.
    pub place: u32,
    /// The work that was done by then.
    pub at_ms: u32,
    /// How.
    pub how: Disturbance,
}

/// A question and its answer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AnswerRow {
    /// Orders the answers of a session.
    pub place: u32,
    /// The set it was asked after; `None` before the first.
    pub set: Option<u8>,
    /// The question.
    pub question: Question,
    /// The answer; `None` is "not said".
    pub answer: Option<u8>,
}

impl SessionRow {
    /// Whether it was typed in by hand: its hour and its calls are not known.
    pub fn is_by_hand(&self) -> bool {
        self.voice == BY_HAND
    }
}

impl SetRow {
    /// The set as drawn, with its work begun at this moment.
    pub fn new(begun: Stamp, plan: &SetPlan, channel: Channel) -> Self {
        let conditions = plan.conditions();
        Self {
            number: plan.number(),
            begun,
            drill: plan.drill().name().to_owned(),
            form: plan.form(),
            step: plan.step(),
            stance: conditions.stance,
            side: plan.side(),
            surface: conditions.surface,
            support: conditions.support,
            vision: conditions.vision,
            channel: Some(channel),
            facing: Some(plan.facing()),
            second_task: conditions.second_task,
            work_ms: plan.work().0,
            recover_ms: plan.recover().0,
            rest_ms: plan.rest().0,
            ladder: LadderRow::of(plan.ladder(), plan.step()),
        }
    }
}

/// The cues of a set as planned.
pub(super) fn cues(plan: &SetPlan, room: Room) -> Vec<CueRow> {
    plan.cues().iter().zip(0..).map(|(cue, place)| CueRow::new(place, cue, room, plan.facing())).collect()
}

impl CueRow {
    fn new(place: u16, cue: &Cue, room: Room, facing: Facing) -> Self {
        let call = cue.call();
        Self {
            cue: place,
            at_ms: cue.at().0,
            gap_ms: cue.gap().0,
            blank: cue.is_blank(),
            action: call.map(Call::action),
            direction: call.map(Call::direction),
            phrase: call.map(Call::phrase_ids),
            until_ms: cue.until().map(|until| until.0),
            strength: call.and_then(Call::strength).map(Strength::number),
            ball: call.and_then(Call::ball),
            tell: call.filter(|call| !call.tell().is_empty()).map(|call| {
                let told = call.partner_phrases(room, facing);
                told.iter().map(|phrase| phrase.id()).collect::<Vec<_>>().join("+")
            }),
            practice: call.is_some_and(Call::is_practice),
        }
    }
}

impl DeliveryRow {
    /// The cue at this place of its set, as it was delivered.
    pub fn new(cue: u16, how: Delivery) -> Self {
        match how {
            Delivery::Heard { wanted, began, rate } => Self {
                cue,
                wanted_frame: Some(frames(wanted)),
                began_frame: Some(frames(began)),
                frames_per_second: Some(rate),
                heard_ms: Some((u128::from(began) * 1000 / u128::from(rate.max(1))) as u32),
                shown_ms: None,
                asked_ms: None,
            },
            Delivery::Shown { at } => Self { shown_ms: Some(at.0), ..Self::unheard(cue) },
            Delivery::Asked { at } => Self { asked_ms: Some(at.0), ..Self::unheard(cue) },
        }
    }

    fn unheard(cue: u16) -> Self {
        Self {
            cue,
            wanted_frame: None,
            began_frame: None,
            frames_per_second: None,
            heard_ms: None,
            shown_ms: None,
            asked_ms: None,
        }
    }

    /// When it was heard, shown or asked for, from the start of the set's work.
    pub fn at_ms(&self) -> u32 {
        self.heard_ms.or(self.shown_ms).or(self.asked_ms).unwrap_or(0)
    }

    /// How much later than `planned_ms` it was heard, in microseconds; below zero is earlier. `None`: only shown.
    pub fn late_us(&self, planned_ms: u32) -> Option<i64> {
        let began = i128::from(self.began_frame?) * 1_000_000 / i128::from(self.frames_per_second?.max(1));
        Some((began - i128::from(planned_ms) * 1000) as i64)
    }
}

/// A set of 120 s has 5,760,000 frames; the sign bit is never reached.
fn frames(count: u64) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

fn frame<'de, D: Deserializer<'de>>(from: D) -> Result<Option<i64>, D::Error> {
    let frame = Option::<u64>::deserialize(from)?;
    frame.map(|frame| i64::try_from(frame).map_err(serde::de::Error::custom)).transpose()
}

fn digest<'de, D: Deserializer<'de>>(from: D) -> Result<String, D::Error> {
    let text = String::deserialize(from)?;
    text.parse::<Digest>().map_err(serde::de::Error::custom)?;
    Ok(text)
}

fn seed<'de, D: Deserializer<'de>>(from: D) -> Result<String, D::Error> {
    let text = String::deserialize(from)?;
    Seed::from_hex(&text).map_err(serde::de::Error::custom)?;
    Ok(text)
}
