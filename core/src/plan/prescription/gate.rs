//! The gate: raw fields become a [`Prescription`], or the first rule that they break is reported with its place.

use jiff::civil::Date;

use super::field::{Sheet, Value};
use super::fields::{Accept, Draft, Unlock};
use super::limits::{self, Limit};
use super::reading::Lines;
use super::refusal::{Reason, Refusal, shown};
use super::{Digest, DrillPlan, Prescription, SCHEMA};
use crate::plan::drill::Drill;
use crate::plan::precaution::Precautions;
use crate::units::Millis;
use crate::words::Printable;

mod drill_section;
mod safety;

/// One set of weight shifts with both hands resting.
pub(super) fn built_in_warm_up() -> DrillPlan {
    let warm_up = Gate::new("", Drill::all()).built_in_warm_up();
    warm_up.expect("the built-in warm-up is within the limits, as a test proves")
}

/// The gate, for one file.
pub(super) struct Gate<'a> {
    file: &'a str,
    drills: &'static [Drill],
}

impl<'a> Gate<'a> {
    pub(super) fn new(file: &'a str, drills: &'static [Drill]) -> Self {
        Self { file, drills }
    }

    /// The prescription, if every rule holds.
    pub(super) fn admit(
        &self,
        mut draft: Draft,
        lines: &Lines,
        digest: Digest,
    ) -> Result<Prescription, Refusal> {
        if draft.schema != SCHEMA {
            return Err(self.refuse(lines.at("schema"), Reason::Schema { written: shown(&draft.schema) }));
        }
        // Only a named issuer can accept a person whose answers say "a clinician first".
        let given =
            [("accepted_because", draft.accepted_because.is_some()), ("accepts", !draft.accepts.is_empty())];
        if let Some((field, _)) =
            given.into_iter().find(|(_, given)| *given && draft.issued_by.trim().is_empty())
        {
            return Err(self.refuse(lines.at(field), Reason::AcceptedByNobody { field }));
        }
        self.accepts(&mut draft.accepts, &lines.accepts, draft.issued_on)?;
        self.unlocks(&mut draft.unlocks, &lines.unlocks, draft.issued_on)?;
        if draft.drills.is_empty() {
            return Err(self.refuse(lines.at("drills"), Reason::EmptyList { field: "drills" }));
        }
        self.ranges(&mut draft, lines)?;
        let precautions = &draft.precautions;
        if let Some(place) = (1..precautions.len()).find(|at| precautions[..*at].contains(&precautions[*at]))
        {
            let (field, entry) = ("precautions", precautions[place].to_string());
            return Err(self.refuse(lines.at(field), Reason::Twice { field, entry }));
        }
        let precautions = Precautions::of(precautions);
        let mut drills = Vec::with_capacity(draft.drills.len());
        for (drill, lines) in draft.drills.iter_mut().zip(&lines.drills) {
            if let Some(other) = self.drills.iter().find(|other| other.name() == drill.drill.name()) {
                drill.drill = other;
            }
            self.ranges(drill, lines)?;
            drills.push(self.drill(drill, lines, &draft.unlocks)?);
        }
        let names = |plan: &&DrillPlan| !plan.named_steps.is_empty() && draft.issued_by.is_empty();
        if let Some(plan) = drills.iter().find(names) {
            return Err(self.refuse(plan.line, Reason::NamedByNobody));
        }
        let is_left = |plan: &DrillPlan| plan.clone().narrowed(precautions, &mut Vec::new()).is_some();
        if !drills.iter().any(is_left) {
            let precautions = precautions.to_string();
            return Err(self.refuse(lines.at("precautions"), Reason::NothingLeft { precautions }));
        }
        let narrowings = Vec::new();
        let mut whole = self.session(Prescription { draft, drills, precautions, narrowings, digest })?;
        whole.narrow();
        Ok(whole)
    }

    /// Checks each value by its row of the table, and takes the white space around texts away.
    fn ranges<S: Sheet>(&self, sheet: &mut S, lines: &Lines) -> Result<(), Refusal> {
        for field in S::FIELDS {
            let (name, line) = (field.name, lines.at(field.name));
            let Some(value) = sheet.value(field) else { continue };
            if let Some(limit) = field.limit.filter(|_| !field.is_ruled) {
                let numbers = match value {
                    Value::Integer(number) => vec![number],
                    Value::Integers(numbers) => numbers,
                    _ => Vec::new(),
                };
                numbers.into_iter().try_for_each(|number| self.within(name, line, number, limit))?;
            } else if let (Value::Text(text), Some(least)) = (value, field.characters) {
                let text = text.trim().to_owned();
                let length = text.chars().count();
                if let Some(character) = Printable::first_hidden(&text) {
                    return Err(self.refuse(line, Reason::Unprintable { field: name, character }));
                }
                if length > limits::TEXT_CHARACTERS {
                    return Err(self.refuse(line, Reason::LongText { field: name, length }));
                }
                if length < least {
                    return Err(self.refuse(line, Reason::EmptyText { field: name }));
                }
                sheet.set(field, Some(Value::Text(text)));
            }
        }
        Ok(())
    }

    /// Puts a warm-up first, then checks the limits of a whole session.
    fn session(&self, mut prescription: Prescription) -> Result<Prescription, Refusal> {
        let first = &prescription.drills[0];
        let warm_up = !(first.drill.is_warm_up() && first.step == 1);
        if warm_up {
            prescription.drills.insert(0, self.built_in_warm_up()?);
        }
        let (mut sets, mut work) = (0, Millis(0));
        for plan in &prescription.drills {
            sets += u32::from(plan.sets);
            work = work + Millis(u32::from(plan.sets) * plan.work.0);
            if sets > limits::SETS.most {
                return Err(self.refuse(plan.line, Reason::SessionSets { sets, warm_up }));
            }
            if work > limits::ACTIVE {
                return Err(self.refuse(plan.line, Reason::SessionWork { work, warm_up }));
            }
        }
        Ok(prescription)
    }

    fn unlocks(&self, unlocks: &mut [Unlock], lines: &[Lines], issued_on: Date) -> Result<(), Refusal> {
        for nth in 0..unlocks.len() {
            let (earlier, rest) = unlocks.split_at_mut(nth);
            let (unlock, lines) = (&mut rest[0], &lines[nth]);
            if unlock.on > issued_on {
                let (on, issued_on) = (unlock.on.to_string(), issued_on.to_string());
                return Err(self.refuse(lines.at("on"), Reason::UnlockLater { on, issued_on }));
            }
            self.ranges(unlock, lines)?;
            if earlier.iter().any(|other| other.name == unlock.name && other.partner == unlock.partner) {
                let entry = unlock.name.to_string();
                return Err(self.refuse(lines.at("name"), Reason::Twice { field: "unlocks", entry }));
            }
        }
        Ok(())
    }

    fn accepts(&self, accepts: &mut [Accept], lines: &[Lines], issued_on: Date) -> Result<(), Refusal> {
        for nth in 0..accepts.len() {
            let (earlier, rest) = accepts.split_at_mut(nth);
            let (accept, lines) = (&mut rest[0], &lines[nth]);
            let topic = accept.topic;
            if !topic.can_be_accepted() {
                return Err(self.refuse(lines.at("topic"), Reason::NotAcceptable { topic }));
            }
            if accept.when > issued_on {
                let (when, issued_on) = (accept.when.to_string(), issued_on.to_string());
                return Err(self.refuse(lines.at("when"), Reason::AcceptLater { when, issued_on }));
            }
            self.ranges(accept, lines)?;
            if earlier.iter().any(|other| other.topic == topic) {
                let entry = topic.to_string();
                return Err(self.refuse(lines.at("topic"), Reason::Twice { field: "accepts", entry }));
            }
        }
        Ok(())
    }

    fn within(&self, field: &'static str, line: usize, value: i64, limit: Limit) -> Result<(), Refusal> {
        if limit.allows(value) {
            Ok(())
        } else {
            Err(self.refuse(line, Reason::OutOfRange { field, value, limit }))
        }
    }

    fn refuse(&self, line: usize, reason: Reason) -> Refusal {
        Refusal::new(self.file, Some(line), reason)
    }
}
