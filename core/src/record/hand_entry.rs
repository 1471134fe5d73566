//! A practice with a track, entered from the sheet: a session like any other, marked as typed in by hand. What was heard is
//! not known, and no calls are invented for it.

use jiff::ZonedDateTime;

use super::{
    AnswerRow, BY_HAND, Channel, Decided, Line, Question, SessionEnd, SessionRow, SetEnd, SetEndRow, SetRow,
    Stamp,
};
use crate::draw::schedule::{Method, SetPlan};
use crate::plan::prescription::Digest;

/// What was ticked for one set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SetTicked {
    /// Done to its end.
    pub whole: bool,
    /// Grabbed hold or nearly fell.
    pub grabbed: bool,
    /// Times held on, three meaning three or more.
    pub held_on: u8,
    /// Hardest effort, 0 to 10.
    pub effort: u8,
    /// Steadiness, 1 to 5.
    pub steadiness: u8,
}

/// One practice from the sheet.
#[derive(Debug, Clone)]
pub struct Ticked {
    /// The end of its day, or now on this day: the hour is not known, and it can have been no later.
    pub at: ZonedDateTime,
    /// The prescription's title.
    pub title: String,
    /// The digest of its file.
    pub digest: Digest,
    /// What progression gives for that day.
    pub decided: Decided,
    /// The sets of the day, and what was ticked; `None` was not begun.
    pub sets: Vec<(SetPlan, Option<SetTicked>)>,
    /// A fall: whether it hurt; `None` no fall.
    pub fell: Option<bool>,
    /// Felt unwell: the key of what felt wrong (`Question::Symptom`); `None` not unwell.
    pub unwell: Option<u8>,
}

impl Ticked {
    /// Why it ended, as the rules would have ended it.
    fn end(&self) -> SessionEnd {
        let grabbed = self.sets.iter().any(|(_, ticked)| ticked.is_some_and(|ticked| ticked.grabbed));
        let whole = self.sets.iter().all(|(_, ticked)| ticked.is_some_and(|ticked| ticked.whole));
        match () {
            () if self.fell.is_some() => SessionEnd::Fell,
            () if self.unwell.is_some() => SessionEnd::Unwell,
            () if grabbed => SessionEnd::Grabbed,
            () if whole => SessionEnd::Finished,
            () => SessionEnd::StoppedOther,
        }
    }

    /// The session as its lines, in order.
    pub fn lines(&self) -> Vec<Line> {
        // Nobody knows the hours. All of it stands at the latest moment that it can have been, so that no hold runs out early.
        let at = Stamp::from(&self.at);
        let mut lines = vec![
            Line::SessionBegun(SessionRow {
                begun: at.clone(),
                title: self.title.clone(),
                digest: self.digest.to_string(),
                seed: "00".repeat(32),
                seed_given: false,
                method: Method::NEWEST.number(),
                voice: BY_HAND.to_owned(),
                device: None,
                sets_planned: self.sets.len() as u8,
            }),
            Line::Decided((&self.decided).into()),
        ];
        let begun: Vec<(&SetPlan, SetTicked)> =
            self.sets.iter().filter_map(|(plan, ticked)| Some((plan, (*ticked)?))).collect();
        let last = begun.len();
        let mut place = 0;
        let mut answers = Vec::new();
        for (nth, (plan, ticked)) in (1_i64..).zip(&begun) {
            let set = plan.number();
            let is_last = nth as usize == last;
            let why = match (is_last && self.fell.is_some(), ticked.whole) {
                (true, _) => SetEnd::Fell,
                (false, true) => SetEnd::Completed,
                (false, false) => SetEnd::Stopped,
            };
            lines.push(Line::SetBegun {
                set: SetRow::new(at.clone(), plan, Channel::Trainee),
                cues: Vec::new(),
            });
            let worked_ms = if ticked.whole { plan.work().0 } else { 0 };
            lines.push(Line::SetEnded { set, end: SetEndRow { at: at.clone(), worked_ms, why } });
            let unwell = u8::from(is_last && self.unwell.is_some());
            for (question, answer) in [
                (Question::Grabbed, u8::from(ticked.grabbed)),
                (Question::HeldOn, ticked.held_on),
                (Question::Effort, ticked.effort),
                (Question::Steadiness, ticked.steadiness),
                (Question::Unwell, unwell),
            ] {
                answers.push((Some(set), question, answer));
            }
        }
        let of = begun.last().map(|(plan, _)| plan.number());
        answers.extend(self.unwell.map(|symptom| (of, Question::Symptom, symptom)));
        answers.extend(self.fell.map(|hurt| (of, Question::Hurt, u8::from(hurt))));
        for (set, question, answer) in answers {
            lines.push(Line::Answered(AnswerRow { place, set, question, answer: Some(answer) }));
            place += 1;
        }
        lines.push(Line::SessionEnded { at, why: self.end() });
        lines
    }
}
