//! A practice with a track, entered from the sheet: a session like any other, marked as typed in by hand. What was heard is
//! not known, and no calls are invented for it.

use jiff::ZonedDateTime;

use super::{
    Answer, Channel, Decided, Effort, Entry, SessionBegun, SessionEnd, SetEnd, SetEndRow, SetRow, Stamp,
    Steadiness, Symptom, Times, YesNo,
};
use crate::draw::schedule::SetPlan;
use crate::plan::prescription::Digest;

/// What was ticked for one set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SetTicked {
    /// Done to its end.
    pub whole: bool,
    /// Grabbed hold or nearly fell.
    pub grabbed: YesNo,
    /// Times held on.
    pub held_on: Times,
    /// Hardest effort.
    pub effort: Effort,
    /// How steady.
    pub steadiness: Steadiness,
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
    pub fell: Option<YesNo>,
    /// Felt unwell: what felt wrong; `None` not unwell.
    pub unwell: Option<Symptom>,
}

impl Ticked {
    /// Why it ended, as the rules would have ended it.
    fn end(&self) -> SessionEnd {
        let grabbed =
            self.sets.iter().any(|(_, ticked)| ticked.is_some_and(|ticked| ticked.grabbed == YesNo::Yes));
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
    pub fn entries(&self) -> Vec<Entry> {
        // Nobody knows the hours. All of it stands at the latest moment that it can have been, so that no hold runs out early.
        let at = Stamp::from(&self.at);
        let mut entries = vec![
            Entry::SessionBegun(SessionBegun {
                begun: at.clone(),
                title: self.title.clone(),
                digest: self.digest,
                sets_planned: self.sets.len() as u8,
                precautions: Vec::new(),
                drawn: None,
            }),
            Entry::Decided(self.decided.clone()),
        ];
        let begun: Vec<(&SetPlan, SetTicked)> =
            self.sets.iter().filter_map(|(plan, ticked)| Some((plan, (*ticked)?))).collect();
        let last = begun.len();
        let mut answers = Vec::new();
        for (nth, (plan, ticked)) in (1_i64..).zip(&begun) {
            let set = plan.number();
            let is_last = nth as usize == last;
            let why = match (is_last && self.fell.is_some(), ticked.whole) {
                (true, _) => SetEnd::Fell,
                (false, true) => SetEnd::Completed,
                (false, false) => SetEnd::Stopped,
            };
            entries.push(Entry::SetBegun {
                set: SetRow::new(at.clone(), plan, Channel::Trainee),
                cues: Vec::new(),
            });
            let worked_ms = if ticked.whole { plan.work().0 } else { 0 };
            entries.push(Entry::SetEnded { set, end: SetEndRow { at: at.clone(), worked_ms, why } });
            let after = [
                Answer::Grabbed(Some(ticked.grabbed)),
                Answer::HeldOn(Some(ticked.held_on)),
                Answer::Effort(Some(ticked.effort)),
                Answer::Steadiness(Some(ticked.steadiness)),
                Answer::Unwell(Some((is_last && self.unwell.is_some()).into())),
            ];
            answers.extend(after.map(|answer| (Some(set), answer)));
        }
        let of = begun.last().map(|(plan, _)| plan.number());
        answers.extend(self.unwell.map(|symptom| (of, Answer::Symptom(Some(symptom)))));
        answers.extend(self.fell.map(|hurt| (of, Answer::Hurt(Some(hurt)))));
        entries.extend(answers.into_iter().map(|(set, answer)| Entry::answered(set, answer)));
        entries.push(Entry::SessionEnded { at, why: self.end() });
        entries
    }
}
