//! What each kind of [`Entry`](super::Entry) tells, field by field.

use serde::{Deserialize, Serialize};

use super::{
    Answer, Channel, Delivery, Disturbance, NotAnAnswer, Question, SetEnd, Stamp, YesNo, YesNoNotSure,
};
use crate::draw::schedule::{Call, Cue, Seed, SetPlan};
use crate::plan::direction::Direction;
use crate::plan::drill::{
    Action, Ball, Facing, Form, SecondTask, Side, Stance, Strength, Support, Surface, Vision,
};
use crate::plan::place::Room;
use crate::plan::precaution::Precaution;
use crate::plan::prescription::Digest;

mod balance_row;
mod change_row;
mod correction_row;
mod fitness_row;
mod ladder_row;
mod partner_row;

pub use balance_row::BalanceRow;
pub use change_row::{Change, ChangeRow, PrescriptionText};
pub use correction_row::{Corrected, CorrectionRow};
pub use fitness_row::{ClearanceRow, LiftedRow, ReadyRow, SuitabilityRow, TopicRow, WorseRow};
pub use ladder_row::LadderRow;
pub use partner_row::{AdviceRow, LeftOutRow, MishapRow, ResponseRow, RoutineRow};

/// The facts known when a session is opened.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SessionBegun {
    /// When, with offset and zone. A day is the local date of this.
    pub begun: Stamp,
    /// The prescription's title.
    pub title: String,
    /// The prescription's digest.
    pub digest: Digest,
    /// How many sets were planned.
    pub sets_planned: u8,
    /// What the person must not do: what was drawn keeps to it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub precautions: Vec<Precaution>,
    /// How it was drawn and sounded; `None` where a practice with a track was typed in by hand: its hour and its calls are
    /// not known.
    pub drawn: Option<Drawn>,
}

/// The voice that beeps.
const TONES: &str = "tones";

/// How a session was drawn, and what it sounded through.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Drawn {
    /// The seed.
    pub seed: Seed,
    /// Whether somebody gave it, so that the practice was not unpredictable.
    pub seed_given: bool,
    /// The drawing recipe.
    pub method: u32,
    /// The voice: `lower`, `higher` or `tones`.
    pub voice: String,
    /// Host and device of the sound output; `None` without sound.
    pub device: Option<String>,
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
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<Side>,
    /// What was under the feet.
    pub surface: Surface,
    /// What the hands rested on.
    pub support: Support,
    /// Eyes open or closed.
    pub vision: Vision,
    /// Whose ear and eye the cues went to; `None` before this was kept: the trainee's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub channel: Option<Channel>,
    /// How the trainee faced; `None` before this was kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub facing: Option<Facing>,
    /// The second task.
    #[serde(default, skip_serializing_if = "Option::is_none")]
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
    #[serde(default, skip_serializing_if = "is_not")]
    pub blank: bool,
    /// What to do.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub action: Option<Action>,
    /// Where.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub direction: Option<Direction>,
    /// The id of what is said; where nothing is said, of what the partner is told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub phrase: Option<String>,
    /// The end of what lasts, from the start of the set's work.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until_ms: Option<u32>,
    /// How firm a push, from 1, barely, to 4, firmly. Never a force.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strength: Option<u8>,
    /// Which of two balls.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ball: Option<Ball>,
    /// Ids of what the partner is told, joined by `+`, with the places of the room.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tell: Option<String>,
    /// Whether the partner is told that it is for practice.
    #[serde(default, skip_serializing_if = "is_not")]
    pub practice: bool,
}

/// A cue as delivered: heard, only shown, or asked of a partner.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DeliveryRow {
    /// Its place in the set.
    pub cue: u16,
    /// The frame that was asked for, from the start of the set's work.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wanted_frame: Option<u64>,
    /// The frame on which its clip began.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub began_frame: Option<u64>,
    /// Frames a second.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub frames_per_second: Option<u32>,
    /// `began_frame` in milliseconds, rounded down.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heard_ms: Option<u32>,
    /// Without sound: when it stood on the screen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shown_ms: Option<u32>,
    /// With a partner: when the partner was asked for it. When it came nobody knows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub asked_ms: Option<u32>,
}

/// The sound was disturbed during a set, and went on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DisturbanceRow {
    /// The work that was done by then.
    pub at_ms: u32,
    /// How.
    pub how: Disturbance,
}

/// A question and its answer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "AnswerInFile", into = "AnswerInFile")]
pub struct AnswerRow {
    /// The set it was asked after; `None` before the first.
    pub set: Option<u8>,
    /// The answer.
    pub answer: Answer,
}

/// The same with the question beside the number of the answer.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct AnswerInFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    set: Option<u8>,
    question: Question,
    answer: Option<u8>,
}

impl AnswerRow {
    /// The same answer, as it is asked now.
    #[must_use]
    pub fn in_newest_form(self) -> Self {
        let answer = match self.answer {
            Answer::NoClinician(none) => Answer::ClinicianFirst(none.map(|none| match none {
                YesNo::Yes => YesNoNotSure::No,
                YesNo::No => YesNoNotSure::Yes,
            })),
            other => other,
        };
        Self { answer, ..self }
    }
}

impl TryFrom<AnswerInFile> for AnswerRow {
    type Error = NotAnAnswer;

    fn try_from(AnswerInFile { set, question, answer }: AnswerInFile) -> Result<Self, NotAnAnswer> {
        Ok(Self { set, answer: Answer::from_number(question, answer)? })
    }
}

impl From<AnswerRow> for AnswerInFile {
    fn from(AnswerRow { set, answer }: AnswerRow) -> Self {
        Self { set, question: answer.question(), answer: answer.number() }
    }
}

/// For `serde`, which asks with a reference.
#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde asks so")]
const fn is_not(value: &bool) -> bool {
    !*value
}

impl SessionBegun {
    /// Whether it was typed in by hand.
    pub fn is_by_hand(&self) -> bool {
        self.drawn.is_none()
    }

    /// Whether beeps take the place of words.
    pub fn in_tones(&self) -> bool {
        self.drawn.as_ref().is_some_and(|drawn| drawn.voice == TONES)
    }

    /// Whether somebody gave the seed, so that the practice was not unpredictable.
    pub fn seed_given(&self) -> bool {
        self.drawn.as_ref().is_some_and(|drawn| drawn.seed_given)
    }

    /// Whether it was practiced without sound.
    pub fn is_silent(&self) -> bool {
        self.drawn.as_ref().is_some_and(|drawn| drawn.device.is_none())
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

impl CueRow {
    /// The cues of a set as planned.
    pub fn all(plan: &SetPlan, room: Room) -> Vec<Self> {
        plan.cues().iter().zip(0..).map(|(cue, place)| Self::new(place, cue, room, plan.facing())).collect()
    }

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
                wanted_frame: Some(wanted),
                began_frame: Some(began),
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
#[cfg(test)]
mod test {
    use super::{Answer, AnswerRow};
    use crate::record::{Effort, Numbered};

    #[test]
    fn an_answer_is_its_question_and_a_number_in_files_and_no_other_number_is_read() {
        let row = AnswerRow { set: Some(2), answer: Answer::Effort(Effort::numbered(4)) };
        let text = r#"{"set":2,"question":"effort","answer":4}"#;
        assert_eq!(serde_json::to_string(&row).unwrap(), text);
        assert_eq!(serde_json::from_str::<AnswerRow>(text).unwrap(), row);
        let not_said = r#"{"question":"why stopped","answer":null}"#;
        let read: AnswerRow = serde_json::from_str(not_said).unwrap();
        assert_eq!((read.set, read.answer), (None, Answer::WhyStopped(None)));
        let refused =
            |from, to| serde_json::from_str::<AnswerRow>(&text.replace(from, to)).unwrap_err().to_string();
        let said = refused("4}", "11}");
        assert!(said.starts_with("11 is not an answer to \"effort\": it is a number from 0 to 10"), "{said}");
        let said = refused("effort", "unwell");
        assert!(said.starts_with("4 is not an answer to \"unwell\": it is a number from 0 to 1"), "{said}");
        assert!(refused("}", ",\"more\":1}").contains("unknown field `more`"));
    }
}
