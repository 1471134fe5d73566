//! How a draft becomes a file: TOML with a short comment beside each line, for anybody who opens it later.

use std::fmt::Write as _;

use super::draft::{Draft, DraftDrill};
use super::{DrillOrder, SCHEMA, Unlock, limits};
use crate::plan::drill::Need;

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
        file.line("schema", &text(SCHEMA), "");
        file.line("title", &text(&self.title), "");
        file.line("issued_by", &text(&self.issued_by), "");
        file.line("issued_on", &self.issued_on.to_string(), "");
        file.line("days_a_week", &self.days_a_week.to_string(), "one session a day");
        file.line("weeks", &self.weeks.to_string(), "");
        file.line(
            "review_after_sessions",
            &self.review_after_sessions.to_string(),
            "then a therapist reviews it",
        );
        file.line("rest_ms", &self.rest_ms.to_string(), "after every set, with a chair at hand");
        let order = match self.order {
            DrillOrder::AsWritten => "as written",
            DrillOrder::Drawn => "drawn",
        };
        file.line("order", &text(order), "of the drills; the warm-up stays first");
        self.drills.iter().for_each(|plan| file.drill(plan));
        for unlock in &self.unlocks {
            file.unlock(unlock);
        }
        if self.effort_at_most != i64::from(limits::EFFORT.most) {
            file.section("[limits]", "Only tighter than the built-in limits.");
            file.line("effort_at_most", &self.effort_at_most.to_string(), "of 10; nothing steps up above it");
        }
        if let Some(because) = &self.accepted_because {
            file.section(
                "[suitability]",
                "Why the person may start although the suitability answers say \"a clinician first\".",
            );
            file.line("accepted_because", &text(because), "");
        }
        file.0
    }
}

struct Page(String);

impl Page {
    fn note(&mut self, words: &str) {
        let _ = writeln!(self.0, "# {words}");
    }

    fn section(&mut self, header: &str, words: &str) {
        let _ = write!(self.0, "\n# {words}\n{header}\n");
    }

    fn line(&mut self, field: &str, value: &str, note: &str) {
        let line = format!("{field} = {value}");
        let _ = if note.is_empty() {
            writeln!(self.0, "{line}")
        } else {
            writeln!(self.0, "{line:<NOTE$} # {note}")
        };
    }

    fn drill(&mut self, plan: &DraftDrill) {
        let ladder = plan.ladder.steps().len();
        self.section("[[drills]]", &one_line(plan.drill.title()));
        self.line("drill", &text(plan.drill.name()), "");
        if plan.ladder.version() > 1 {
            self.line("ladder", &plan.ladder.version().to_string(), plan.ladder.name());
        }
        if !plan.named_steps.is_empty() {
            let keys: Vec<String> = plan.named_steps.iter().map(|key| text(key)).collect();
            self.line("named_steps", &format!("[{}]", keys.join(", ")), "allowed to this person by name");
        }
        self.line("form", &text(plan.form.name()), "");
        self.line("sets", &plan.sets.to_string(), "");
        self.line("work_ms", &plan.work_ms.to_string(), "one set");
        self.line("recover_ms", &plan.recover_ms.to_string(), "quiet time at its end");
        self.line("step", &plan.step.to_string(), &format!("of {ladder}; 1 is the gentlest"));
        self.line("ceiling", &plan.ceiling.to_string(), "practice never goes past this step");
        self.line("gap_ms", &list(&plan.gap_ms), "from one moment to the next");
        match plan.rate_thousandths {
            Some(rate) => {
                self.line("shape", &text("flat"), "shorter gaps more often");
                self.line("rate_thousandths", &rate.to_string(), "how steeply that falls");
            }
            None => self.line("shape", &text("even"), "all gaps equally often"),
        }
        self.line("blank_per_mille", &plan.blank_per_mille.to_string(), "moments that stay silent, of 1000");
        let names: Vec<String> = plan.directions.iter().map(|name| text(name)).collect();
        self.line("directions", &format!("[{}]", names.join(", ")), "");
        if let Some(weights) = &plan.weights {
            self.line("weights", &list(weights), "how often each, compared with the others");
        }
        match plan.slack {
            Some(slack) => {
                self.line("sequence", &text("covered"), "each about equally often");
                self.line("slack", &slack.to_string(), "how far a count may differ");
            }
            None => self.line("sequence", &text("open"), "each drawn anew"),
        }
        if let Some(streak) = plan.longest_streak {
            self.line("longest_streak", &streak.to_string(), "the most of one direction in a row");
        }
        if let Some(strength) = plan.strength {
            self.line("strength", &list(&strength), "the gentlest and the firmest push, 1 to 4");
        }
        if let Some(balls) = plan.balls {
            self.line("balls", &balls.to_string(), "");
        }
        if let Some(spell) = plan.spell_ms {
            self.line("spell_ms", &spell.to_string(), "duration of a hold");
        }
        if let Some(hold) = plan.tested_hold_ms {
            self.line("tested_hold_ms", &hold.to_string(), "how long this person was timed holding it");
        }
        if !plan.confirmed.is_empty() {
            let needs: Vec<String> = plan.confirmed.iter().map(|need: &Need| text(need.name())).collect();
            self.line("confirmed", &format!("[{}]", needs.join(", ")), "in place where the person practices");
        }
    }

    fn unlock(&mut self, unlock: &Unlock) {
        self.section("[[unlocks]]", &format!("Watched, because {}.", unlock.name.why()));
        self.line("name", &text(unlock.name.name()), "");
        self.line("watched_by", &text(&unlock.watched_by), "");
        self.line("on", &unlock.on.to_string(), "");
        let alone = if unlock.partner.is_empty() { "nobody: practice alone" } else { "" };
        self.line("partner", &text(&unlock.partner), alone);
        if unlock.therapist_present {
            self.line("therapist_present", "true", "valid only while the therapist is there");
        }
    }
}

/// A text as TOML writes it. What a person typed cannot become anything else than a text.
fn text(words: &str) -> String {
    toml::Value::String(words.to_owned()).to_string()
}

fn list(numbers: &[i64]) -> String {
    let numbers: Vec<String> = numbers.iter().map(i64::to_string).collect();
    format!("[{}]", numbers.join(", "))
}

fn one_line(words: &str) -> String {
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}
