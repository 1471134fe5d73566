//! How a draft becomes a file: TOML with a short comment beside each line, for anybody who opens it later.

use std::fmt::Write as _;

use super::field::{Field, Place, Sheet, Value};
use super::fields::{Accept, Draft, DraftDrill, Unlock};

/// The column at which notes begin, if the line is shorter.
const NOTE: usize = 36;

impl Draft {
    /// The file's text, without a seal.
    ///
    /// ```
    /// use counterpoise_core::plan::prescription::{Draft, Prescription};
    /// let typical = Prescription::ready("typical").unwrap();
    /// let text = Draft::of(typical).to_toml();
    /// let again = Prescription::read("again.toml", text.as_bytes())?;
    /// assert_eq!(Draft::of(&again), Draft::of(typical));
    /// # Ok::<(), counterpoise_core::plan::prescription::Refusal>(())
    /// ```
    pub fn to_toml(&self) -> String {
        let mut file = Page(String::new());
        file.note("A prescription for practice with Counterpoise. Every session is drawn within its limits.");
        file.note(
            "In plain words: counterpoise check FILE. To change it: counterpoise prescribe --from FILE.",
        );
        file.note("Times are in milliseconds: 60000 is one minute. Each field: docs/prescription.md.");
        file.fields(self, Place::Top);
        self.drills.iter().for_each(|plan| file.0.push_str(&drill(plan)));
        self.unlocks.iter().for_each(|watched| file.0.push_str(&unlock(watched)));
        self.accepts.iter().for_each(|accepted| file.0.push_str(&accept(accepted)));
        for place in [Place::Limits, Place::Suitability] {
            let own = |field: &&&Field| field.place == place;
            if Self::FIELDS.iter().filter(own).any(|field| is_given(self, field)) {
                file.0.push_str(&section(self, place, about(place)));
            }
        }
        file.0
    }
}

/// A `[[drills]]` section.
pub(super) fn drill(plan: &DraftDrill) -> String {
    section(plan, Place::Drill, &plan.drill.title().split_whitespace().collect::<Vec<_>>().join(" "))
}

/// An `[[unlocks]]` section.
pub(super) fn unlock(watched: &Unlock) -> String {
    section(watched, Place::Unlock, &format!("Watched, because {}.", watched.name.why()))
}

/// An `[[accepts]]` section.
pub(super) fn accept(accepted: &Accept) -> String {
    section(
        accepted,
        Place::Accept,
        "Accepted although the answer says \"a clinician first\". Its limits stay.",
    )
}

/// The comment above a section that is there once.
pub(super) const fn about(place: Place) -> &'static str {
    match place {
        Place::Limits => "Only tighter than the built-in limits.",
        _ => "Why the person may start although the suitability answers say \"a clinician first\".",
    }
}

/// A section with the comment above it.
pub(super) fn section<S: Sheet>(sheet: &S, place: Place, words: &str) -> String {
    let mut page = Page(format!("\n# {words}\n{}\n", place.name()));
    page.fields(sheet, place);
    page.0
}

/// Whether a field is written. What is in `[limits]` or `[suitability]` is, if it is not as if left out.
fn is_given<S: Sheet>(sheet: &S, field: &Field) -> bool {
    let value = sheet.value(field);
    let optional = matches!(field.place, Place::Limits | Place::Suitability);
    value.is_some() && !(optional && value == S::blank().value(field))
}

/// The comment beside a value.
pub(super) fn note(field: &Field, value: &Value) -> &'static str {
    let chosen = |word: &str| field.choices.iter().find(|choice| choice.word == word);
    match value {
        Value::Text(word) => chosen(word).map(|choice| choice.note).filter(|note| !note.is_empty()),
        _ => None,
    }
    .unwrap_or(field.note)
}

struct Page(String);

impl Page {
    fn note(&mut self, words: &str) {
        let _ = writeln!(self.0, "# {words}");
    }

    fn fields<S: Sheet>(&mut self, sheet: &S, place: Place) {
        for field in S::FIELDS.iter().filter(|field| field.place == place && is_given(sheet, field)) {
            let Some(value) = sheet.value(field) else { continue };
            let line = format!("{} = {value}", field.name);
            let _ = match note(field, &value) {
                "" => writeln!(self.0, "{line}"),
                note => writeln!(self.0, "{line:<NOTE$} # {note}"),
            };
        }
    }
}
