//! The gate: raw fields become a [`Prescription`], or the first rule that they break is reported with its place.

use jiff::civil::Date;

use super::fields::{Field, RawPrescription, RawUnlock};
use super::limits::{self, Limit};
use super::refusal::{Reason, Refusal};
use super::{Digest, DrillOrder, DrillPlan, Prescription, SCHEMA, Unlock, UnlockName};
use crate::plan::drill::Drill;
use crate::units::Millis;

mod drill_section;
mod safety;

/// The gate, for one file.
pub(super) struct Gate<'a> {
    file: &'a str,
    drills: &'static [Drill],
}

// A field that is left out takes its default.
const DEFAULT_DAYS_A_WEEK: u8 = 3;
const DEFAULT_WEEKS: u8 = 12;
const DEFAULT_REVIEW: u16 = 12;
const DEFAULT_REST: Millis = Millis(60_000);

impl<'a> Gate<'a> {
    pub(super) fn new(file: &'a str, drills: &'static [Drill]) -> Self {
        Self { file, drills }
    }

    /// The prescription, if every rule holds.
    pub(super) fn admit(&self, raw: RawPrescription, digest: Digest) -> Result<Prescription, Refusal> {
        if raw.schema.value != SCHEMA {
            return Err(self.refuse(raw.schema.line, Reason::Schema { written: shown(&raw.schema.value) }));
        }
        let issued_on = raw.issued_on.value;
        let unlocks = self.unlocks(raw.unlocks, issued_on)?;
        if raw.drills.value.is_empty() {
            return Err(self.refuse(raw.drills.line, Reason::EmptyList { field: "drills" }));
        }
        let accepted_because = self.acceptance(raw.accepted_because, raw.issued_by.as_ref())?;
        let prescription = Prescription {
            accepted_because,
            title: self.required_text(raw.title)?,
            issued_by: self.printable_or_empty(raw.issued_by)?,
            issued_on,
            days_a_week: self.within(raw.days_a_week, limits::DAYS_A_WEEK)?.unwrap_or(DEFAULT_DAYS_A_WEEK),
            weeks: self.within(raw.weeks, limits::WEEKS)?.unwrap_or(DEFAULT_WEEKS),
            review_after_sessions: self
                .within(raw.review_after_sessions, limits::REVIEW_AFTER_SESSIONS)?
                .unwrap_or(DEFAULT_REVIEW),
            rest: self.within(raw.rest_ms, limits::REST)?.map_or(DEFAULT_REST, Millis),
            order: self.order(raw.order)?,
            effort_at_most: self
                .within(raw.effort_at_most, limits::EFFORT)?
                .unwrap_or(limits::EFFORT.most as u8),
            drills: raw
                .drills
                .value
                .into_iter()
                .map(|drill| self.drill(drill, &unlocks))
                .collect::<Result<_, _>>()?,
            unlocks,
            digest,
        };
        let names = |plan: &&DrillPlan| !plan.named_steps.is_empty() && prescription.issued_by.is_empty();
        if let Some(plan) = prescription.drills.iter().find(names) {
            return Err(self.refuse(plan.line, Reason::NamedByNobody));
        }
        self.session(prescription)
    }

    /// Puts a warm-up first, then checks the limits of a whole session.
    fn session(&self, mut prescription: Prescription) -> Result<Prescription, Refusal> {
        let first = &prescription.drills[0];
        let warm_up = !(first.drill.is_warm_up() && first.step == 1);
        if warm_up {
            prescription.drills.insert(0, drill_section::built_in_warm_up());
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

    /// Only a named issuer can accept a person whose answers say "a clinician first".
    fn acceptance(
        &self,
        raw: Option<Field<String>>,
        issued_by: Option<&Field<String>>,
    ) -> Result<Option<String>, Refusal> {
        let Some(field) = raw else { return Ok(None) };
        if issued_by.is_none_or(|by| by.value.trim().is_empty()) {
            return Err(self.refuse(field.line, Reason::AcceptedByNobody));
        }
        self.required_text(field).map(Some)
    }

    fn order(&self, raw: Option<Field<String>>) -> Result<DrillOrder, Refusal> {
        let Some(field) = raw else { return Ok(DrillOrder::AsWritten) };
        match field.value.as_str() {
            "as written" => Ok(DrillOrder::AsWritten),
            "drawn" => Ok(DrillOrder::Drawn),
            _ => Err(self.unknown_word(&field, ["as written", "drawn"].into_iter())),
        }
    }

    fn unlocks(&self, raw: Vec<RawUnlock>, issued_on: Date) -> Result<Vec<Unlock>, Refusal> {
        let mut unlocks: Vec<Unlock> = Vec::with_capacity(raw.len());
        for RawUnlock { name, watched_by, on, partner, therapist_present } in raw {
            let line = name.line;
            let Some(unlock_name) = UnlockName::from_name(&name.value) else {
                return Err(self.unknown_word(&name, UnlockName::ALL.iter().map(|name| name.name())));
            };
            if on.value > issued_on {
                let reason =
                    Reason::UnlockLater { on: on.value.to_string(), issued_on: issued_on.to_string() };
                return Err(self.refuse(on.line, reason));
            }
            let unlock = Unlock {
                name: unlock_name,
                watched_by: self.required_text(watched_by)?,
                on: on.value,
                partner: self.printable_or_empty(partner)?,
                therapist_present: therapist_present.is_some_and(|field| field.value),
            };
            if unlocks.iter().any(|earlier| earlier.name == unlock.name && earlier.partner == unlock.partner)
            {
                return Err(self.refuse(line, Reason::Twice { field: "unlocks", entry: name.value }));
            }
            unlocks.push(unlock);
        }
        Ok(unlocks)
    }

    fn required_text(&self, field: Field<String>) -> Result<String, Refusal> {
        let (name, line) = (field.name, field.line);
        let text = self.printable(field)?;
        if text.is_empty() { Err(self.refuse(line, Reason::EmptyText { field: name })) } else { Ok(text) }
    }

    fn printable_or_empty(&self, field: Option<Field<String>>) -> Result<String, Refusal> {
        field.map_or(Ok(String::new()), |field| self.printable(field))
    }

    /// One line that a terminal, a file and a printed page can show, without white space around it.
    fn printable(&self, field: Field<String>) -> Result<String, Refusal> {
        let Field { name: field, value, line } = field;
        let text = value.trim();
        let length = text.chars().count();
        if let Some(character) = text.chars().find(|character| is_unprintable(*character)) {
            return Err(self.refuse(line, Reason::Unprintable { field, character }));
        }
        if length > limits::TEXT_CHARACTERS {
            return Err(self.refuse(line, Reason::LongText { field, length }));
        }
        Ok(text.to_owned())
    }

    fn within<T: TryFrom<u32>>(&self, field: Option<Field<i64>>, limit: Limit) -> Result<Option<T>, Refusal> {
        field.map(|field| self.within_field(&field, limit)).transpose()
    }

    fn within_field<T: TryFrom<u32>>(&self, field: &Field<i64>, limit: Limit) -> Result<T, Refusal> {
        let &Field { name: field, value, line } = field;
        u32::try_from(value)
            .ok()
            .filter(|_| limit.allows(value))
            .and_then(|value| T::try_from(value).ok())
            .ok_or_else(|| self.refuse(line, Reason::OutOfRange { field, value, limit }))
    }

    fn unknown_word<'w>(&self, field: &Field<String>, known: impl Iterator<Item = &'w str>) -> Refusal {
        let written = shown(&field.value);
        self.refuse(field.line, Reason::UnknownWord { field: field.name, written, known: words(known) })
    }

    fn refuse(&self, line: usize, reason: Reason) -> Refusal {
        Refusal::new(self.file, Some(line), reason)
    }
}

/// Control characters, and characters that reverse the direction of a line.
fn is_unprintable(sign: char) -> bool {
    sign.is_control() || matches!(sign, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// A word from the file, fit for a message.
fn shown(word: &str) -> String {
    word.chars()
        .take(limits::TEXT_CHARACTERS)
        .map(|sign| if is_unprintable(sign) { '?' } else { sign })
        .collect()
}

fn words<'w>(known: impl Iterator<Item = &'w str>) -> String {
    known.map(|word| format!("\"{word}\"")).collect::<Vec<_>>().join(", ")
}
