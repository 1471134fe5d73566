//! Which values can an entry have? Most cannot be wrong, for their types have no other; the others are ranged here, once for
//! what is typed in, imported and read. What one entry says against another is found by the fold.

use serde_json::Value;

use super::{
    Answer, AnswerRow, Confidence, CueRow, Effort, Entry, Given, Heard, LadderRow, Question, SetRow,
    Soreness, Stamp, Steadiness, Times, Told, WhyStopped, YesNo, YesNoNotSure,
};
use crate::plan::drill::{Drill, Strength};
use crate::plan::prescription::limits::{REST, SETS, WORK};
use crate::words::Printable;

/// Work may be counted so much longer than it was planned: the last look at the clock comes after it \[judgment\].
pub(super) const WORK_SLACK_MS: u32 = 5_000;

/// The most steps of a ladder whose drill is not known here \[judgment\].
const STEPS: usize = 20;

impl Entry {
    /// Brings what is out of its range to the careful end of it; nothing that can lock is taken away.
    ///
    /// # Errors
    /// What was out of range, as the end of a sentence.
    pub fn range(&mut self) -> Result<(), String> {
        match self {
            Self::SessionBegun(row) => at_most("the sets planned", row.sets_planned.into(), SETS.most),
            Self::Decided(row) => {
                let given = row.given.iter_mut().map(range_given).fold(Ok(()), Result::and);
                at_most("the first set", row.first_set.into(), SETS.most + 1)
                    .and(at_most("the sets of the whole session", row.sets_whole.into(), SETS.most))
                    .and(given)
            }
            Self::SetBegun { set, cues } => range_set(set).and_then(|()| range_cues(cues, set.work_ms)),
            Self::Replanned { set, paused_at_ms, cues, .. } => is_set(*set)
                .and(clamp("the work before a pause", paused_at_ms, WORK.most + WORK_SLACK_MS))
                .and_then(|()| range_cues(cues, WORK.most)),
            Self::CueDelivered { set, how } => {
                is_set(*set).and(at_most("a call", how.at_ms(), WORK.most + WORK_SLACK_MS))
            }
            Self::SoundDisturbed { set, .. } | Self::Responded { set, .. } => is_set(*set),
            Self::SetEnded { set, end } => {
                is_set(*set).and(clamp("the work done", &mut end.worked_ms, WORK.most + WORK_SLACK_MS))
            }
            Self::SetLeftOut(row) => is_set(row.set),
            Self::Mishap(row) => {
                is_set(row.set).and(at_most("a mishap", row.at_ms, WORK.most + WORK_SLACK_MS))
            }
            Self::Advised(row) => is_set(row.set),
            Self::Answered(row) => row.set.map_or(Ok(()), is_set),
            Self::Corrected(row) => row.set.map_or(Ok(()), is_set),
            _ => Ok(()),
        }
    }
}

fn is_set(number: u8) -> Result<(), String> {
    match number {
        0 => Err(format!("there is no set 0; they are numbered from 1 to {}", SETS.most)),
        _ => at_most("the number of a set", number.into(), SETS.most),
    }
}

fn at_most(what: &str, value: u32, most: u32) -> Result<(), String> {
    if value <= most { Ok(()) } else { Err(format!("{what} is {value}; the most is {most}")) }
}

fn clamp(what: &str, value: &mut u32, most: u32) -> Result<(), String> {
    let ranged = at_most(what, *value, most);
    *value = (*value).min(most);
    ranged
}

/// Nobody practiced at a step that there is not: it counts as the gentlest.
fn range_step(drill: &str, ladder: Option<&LadderRow>, step: &mut u8) -> Result<(), String> {
    let version = ladder.map_or(1, |row| row.version.into());
    let known = Drill::named(drill).and_then(|drill| drill.ladder_version(version));
    let most = known.map_or(STEPS, |ladder| ladder.steps().len());
    if (1..=most).contains(&usize::from(*step)) {
        return Ok(());
    }
    let was = std::mem::replace(step, 1);
    Err(format!("step {was} is not one of 1 to {most}"))
}

fn range_given(given: &mut Given) -> Result<(), String> {
    range_step(&given.drill, given.ladder.as_ref(), &mut given.step)
}

fn range_set(set: &mut SetRow) -> Result<(), String> {
    is_set(set.number)
        .and(range_step(&set.drill, set.ladder.as_ref(), &mut set.step))
        .and(clamp("the work planned", &mut set.work_ms, WORK.most))
        .and(clamp("the quiet time planned", &mut set.recover_ms, WORK.most))
        .and(clamp("the rest planned", &mut set.rest_ms, REST.most))
}

fn range_cues(cues: &[CueRow], work_ms: u32) -> Result<(), String> {
    for cue in cues {
        at_most("a planned call", cue.at_ms, work_ms)?;
        if let Some(strength) = cue.strength.filter(|one| Strength::new(*one).is_none()) {
            return Err(format!("a push has strength {strength}; it is 1 to 4"));
        }
    }
    Ok(())
}

/// The first character of a text in what a line tells that no terminal may get, with what it stands in. Ends of lines and tabs
/// stand in prescriptions and in what others wrote; where a text is printed they are written out.
pub fn first_hidden(told: &Told) -> Option<(char, String)> {
    fn of(value: &Value) -> Option<(char, String)> {
        match value {
            Value::String(text) => {
                let mut lines = text.lines().map(|line| line.replace('\t', " "));
                lines.find_map(|line| Printable::first_hidden(&line).map(|hidden| (hidden, text.clone())))
            }
            Value::Array(values) => values.iter().find_map(of),
            Value::Object(fields) => {
                fields.iter().find_map(|(name, value)| of(&Value::from(name.as_str())).or_else(|| of(value)))
            }
            _ => None,
        }
    }
    of(&serde_json::to_value(told).ok()?)
}

/// Of an entry that is an answer with a number that its question does not have: the careful answer in its place. `None` for
/// whatever else cannot be read.
pub fn careful(entry: &Value) -> Option<AnswerRow> {
    let row = entry.as_object().filter(|fields| fields.len() == 1)?.get("answered")?;
    let set = match &row["set"] {
        Value::Null => None,
        number => Some(u8::try_from(number.as_u64()?).ok()?),
    };
    let question = Question::from_name(row["question"].as_str()?)?;
    row["answer"].is_number().then(|| AnswerRow { set, answer: question.careful() })
}

impl Question {
    /// The answer that a number counts as which the question does not have: the careful one. It names no sign of an illness
    /// that nobody reported.
    pub const fn careful(self) -> Answer {
        match self {
            Self::ClinicianFirst => Answer::ClinicianFirst(Some(YesNoNotSure::NotSure)),
            Self::NoClinician => Answer::NoClinician(Some(YesNo::No)),
            Self::Ready => Answer::Ready(Some(YesNo::No)),
            Self::InPlace => Answer::InPlace(Some(YesNoNotSure::NotSure)),
            Self::PartnerReady => Answer::PartnerReady(Some(YesNoNotSure::NotSure)),
            Self::SoundCheck => Answer::SoundCheck(Some(Heard::Another)),
            Self::Grabbed => Answer::Grabbed(Some(YesNo::Yes)),
            Self::HeldOn => Answer::HeldOn(Some(Times::ThreeOrMore)),
            Self::Effort => Answer::Effort(Some(Effort::HARDEST)),
            Self::Steadiness => Answer::Steadiness(Some(Steadiness::LostBalance)),
            Self::Unwell => Answer::Unwell(Some(YesNo::Yes)),
            Self::WhyStopped => Answer::WhyStopped(Some(WhyStopped::Unwell)),
            Self::Symptom => Answer::Symptom(None),
            Self::NearFalls => Answer::NearFalls(Some(Times::ThreeOrMore)),
            Self::Confidence => Answer::Confidence(Some(Confidence::NotAtAll)),
            Self::Soreness => Answer::Soreness(Some(Soreness::VerySore)),
            Self::Hurt => Answer::Hurt(Some(YesNo::Yes)),
            Self::Fell => Answer::Fell(Some(YesNoNotSure::NotSure)),
            Self::FallHurt => Answer::FallHurt(Some(YesNoNotSure::NotSure)),
            Self::Head => Answer::Head(Some(YesNoNotSure::NotSure)),
            Self::FellThen => Answer::FellThen(Some(YesNoNotSure::NotSure)),
            Self::UnwellThen => Answer::UnwellThen(Some(YesNoNotSure::NotSure)),
            Self::SameFall => Answer::SameFall(Some(YesNoNotSure::NotSure)),
        }
    }
}

/// That what has this end did not end before it began.
///
/// # Errors
/// If it did.
pub(super) fn in_time(what: &str, begun: &Stamp, end: &Stamp) -> Result<(), String> {
    match end.ms() < begun.ms() {
        true => Err(format!("{what} ends at {}, before it begins at {}", end.text(), begun.text())),
        false => Ok(()),
    }
}
