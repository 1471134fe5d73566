//! What an answer does: a line becomes a value, the value changes the draft, and the gate accepts or refuses it.

use super::form_page::{AcceptEntry, Page, UnlockEntry, acceptable, next_for_new_drill, options};
use super::parsing::{InputError, Parsed, date, numbered, or_none, text, typed, yes};
use super::{Form, Outcome};
use crate::plan::drill::{Drill, Form as Company, UnlockName};
use crate::plan::prescription::field::{Field, Sheet};
use crate::plan::prescription::{Accept, Draft, DraftDrill, Prescription, Reason, Unlock};

impl Form {
    /// Handles a line typed on the present page.
    pub(super) fn on_page(&mut self, line: &str) -> Outcome {
        let done = match self.page.clone() {
            Page::Start => self.start(line),
            Page::PrescriptionField(whole) => self.prescription_field(whole, line),
            Page::Drills => return self.drills(line),
            Page::Add => self.add(line),
            Page::Drill(place) => return self.drill(place, line),
            Page::DrillField(place, ask) => self.drill_field(place, ask, line),
            Page::Unlocks => {
                let add = Page::UnlockEntry(UnlockEntry::default());
                return self.listed(line, |draft| &mut draft.unlocks, add);
            }
            Page::UnlockEntry(watched) => return self.unlock_entry(watched, line),
            Page::Accepts => {
                let add = Page::AcceptEntry(AcceptEntry::default());
                return self.listed(line, |draft| &mut draft.accepts, add);
            }
            Page::AcceptEntry(entry) => return self.accept_entry(entry, line),
            Page::Overview => return self.overview(line),
        };
        match done {
            Ok(true) => self.advance(),
            Ok(false) => {}
            Err(error) => self.reject(&error),
        }
        Outcome::Page
    }

    fn reject(&mut self, error: &InputError) {
        self.refusal = Some((error.to_string(), error.hint().to_owned()));
    }

    fn start(&mut self, line: &str) -> Parsed<bool> {
        let all = Prescription::all_ready();
        let by_name = all.iter().position(|(name, _)| *name == line.to_lowercase());
        let place = match by_name {
            Some(place) => place,
            None if line.is_empty() => 0,
            None => numbered(line, all.len())?,
        };
        let ready = Draft::of(&all[place].1);
        let draft =
            Draft { issued_by: self.draft.issued_by.clone(), issued_on: self.draft.issued_on, ..ready };
        // Choosing another one on this page starts again from it.
        self.opened = draft.clone();
        self.draft = draft;
        Ok(true)
    }

    fn prescription_field(&mut self, field: &'static Field, line: &str) -> Parsed<bool> {
        if line.is_empty() {
            return Ok(true);
        }
        let mut draft = self.draft.clone();
        draft.set(field, typed(field, line, self.today, &options(field, None))?);
        Ok(self.accept(draft, |_| false))
    }

    /// A number opens a drill, A adds one, R takes one out, M moves one up.
    fn drills(&mut self, line: &str) -> Outcome {
        let (word, rest) = line.split_once(char::is_whitespace).unwrap_or((line, ""));
        let many = self.draft.drills.len();
        let mut draft = self.draft.clone();
        let done = match word.to_lowercase().as_str() {
            "" => {
                self.advance();
                return Outcome::Page;
            }
            "a" | "add" => {
                self.go(Page::Add);
                return Outcome::Page;
            }
            "r" | "remove" => numbered(rest, many).map(|place| {
                draft.drills.remove(place);
                self.accept(draft, |reason| matches!(reason, Reason::EmptyList { .. }));
            }),
            "m" | "move" => numbered(rest, many).map(|place| {
                draft.drills.swap(place, place.saturating_sub(1));
                self.accept(draft, |_| false);
            }),
            _ => numbered(line, many).map(|place| self.go(Page::Drill(place))),
        };
        if let Err(error) = done {
            self.reject(&error);
        }
        Outcome::Page
    }

    fn add(&mut self, line: &str) -> Parsed<bool> {
        if line.is_empty() {
            return Ok(true);
        }
        let by_name = Drill::all().iter().position(|drill| drill.name() == line.to_lowercase());
        let place = by_name.map_or_else(|| numbered(line, Drill::all().len()), Ok)?;
        let drill = &Drill::all()[place];
        let mut draft = self.draft.clone();
        draft.drills.push(DraftDrill::new(drill, drill.forms()[0]));
        let at = draft.drills.len() - 1;
        if self.accept(draft, |_| false) {
            self.adding = true;
            let first = next_for_new_drill(None, &self.draft.drills[at]);
            self.go(first.map_or(Page::Drill(at), |ask| Page::DrillField(at, ask)));
        }
        Ok(false)
    }

    fn drill(&mut self, place: usize, line: &str) -> Outcome {
        if line.is_empty() {
            self.advance();
            return Outcome::Page;
        }
        let plan = &self.draft.drills[place];
        let asks: Vec<_> = DraftDrill::asked().into_iter().filter(|field| plan.suits(field)).collect();
        match numbered(line, asks.len()) {
            Ok(nth) => self.go(Page::DrillField(place, asks[nth])),
            Err(error) => self.reject(&error),
        }
        Outcome::Page
    }

    fn drill_field(&mut self, place: usize, field: &'static Field, line: &str) -> Parsed<bool> {
        if line.is_empty() {
            return Ok(true);
        }
        let mut draft = self.draft.clone();
        let plan = &mut draft.drills[place];
        plan.set(field, typed(field, line, self.today, &options(field, Some(plan)))?);
        if field.name == "form" {
            // Another form calls for other waits, unless the therapist has set them.
            let usual = DraftDrill { form: self.draft.drills[place].form, ..plan.clone() }.usual_gaps();
            if plan.form == Company::Partner {
                plan.recover_ms = plan.recover_ms.max(5_000);
            }
            if self.adding || plan.gap_ms == usual {
                plan.gap_ms = plan.usual_gaps();
            }
        }
        let was = &self.draft.drills[place];
        let counts_anew =
            plan.ladder() != was.ladder() && (plan.step, plan.ceiling, &plan.named_steps) != (1, 1, &None);
        if counts_anew {
            // A number stands for another step there.
            (plan.step, plan.ceiling, plan.named_steps) = (1, 1, None);
        }
        let mut notes = plan.tidy();
        if counts_anew {
            notes.insert(0, "It starts at step 1 of the other ladder and stays there.".to_owned());
        }
        let taken = self.accept(draft, |reason| refuses_answer(field, reason));
        if taken {
            self.notes = notes;
        }
        Ok(taken)
    }

    /// A page that lists entries of the draft: A adds one on this page, R takes one out.
    fn listed<T>(&mut self, line: &str, entries: fn(&mut Draft) -> &mut Vec<T>, add: Page) -> Outcome {
        let (word, rest) = line.split_once(char::is_whitespace).unwrap_or((line, ""));
        match word.to_lowercase().as_str() {
            "" => self.advance(),
            "a" | "add" => self.go(add),
            "r" | "remove" => {
                let mut draft = self.draft.clone();
                match numbered(rest, entries(&mut draft).len()) {
                    Ok(place) => {
                        entries(&mut draft).remove(place);
                        self.accept(draft, |_| false);
                    }
                    Err(error) => self.reject(&error),
                }
            }
            _ => self.reject(&InputError::Choice(line.to_owned())),
        }
        Outcome::Page
    }

    fn accept_entry(&mut self, mut entry: AcceptEntry, line: &str) -> Outcome {
        let all = acceptable();
        let when = match (entry.topic, &entry.who) {
            (None, _) => match numbered(line, all.len()) {
                Ok(nth) => {
                    entry.topic = Some(all[nth]);
                    None
                }
                Err(error) => {
                    self.reject(&error);
                    return Outcome::Page;
                }
            },
            (_, None) if line.is_empty() => {
                self.reject(&InputError::Nothing);
                return Outcome::Page;
            }
            (_, None) => {
                entry.who = Some(text(line));
                None
            }
            _ if line.is_empty() => Some(self.today),
            _ => match date(line, self.today) {
                Ok(day) => Some(day),
                Err(error) => {
                    self.reject(&error);
                    return Outcome::Page;
                }
            },
        };
        let (Some(topic), Some(who), Some(when)) = (entry.topic, entry.who.clone(), when) else {
            self.page = Page::AcceptEntry(entry);
            return Outcome::Page;
        };
        let mut draft = self.draft.clone();
        draft.accepts.retain(|other| other.topic != topic);
        draft.accepts.push(Accept { topic, who, when });
        if self.accept(draft, |reason| matches!(reason, Reason::AcceptedByNobody { .. })) {
            self.advance();
        } else {
            self.page = Page::AcceptEntry(AcceptEntry { topic: Some(topic), who: None });
        }
        Outcome::Page
    }

    fn unlock_entry(&mut self, watched: UnlockEntry, line: &str) -> Outcome {
        match self.filled_entry(watched, line) {
            Ok(page) => self.page = page,
            Err(error) => {
                self.reject(&error);
                return Outcome::Page;
            }
        }
        let Page::UnlockEntry(UnlockEntry {
            name: Some(name),
            partner: Some(partner),
            by: Some(by),
            on: Some(on),
            present: Some(present),
        }) = self.page.clone()
        else {
            return Outcome::Page;
        };
        let unlock = Unlock { name, watched_by: by, on, partner, therapist_present: present };
        if self.add_unlock(unlock) {
            self.advance();
        } else {
            self.page = Page::UnlockEntry(UnlockEntry { name: Some(name), ..UnlockEntry::default() });
        }
        Outcome::Page
    }

    fn filled_entry(&self, mut watched: UnlockEntry, line: &str) -> Parsed<Page> {
        if watched.name.is_none() {
            watched.name = Some(UnlockName::ALL[numbered(line, UnlockName::ALL.len())?]);
        } else if watched.partner.is_none() {
            watched.partner = Some(or_none(line).unwrap_or_default());
        } else if watched.by.is_none() {
            if line.is_empty() {
                return Err(InputError::Nothing);
            }
            watched.by = Some(text(line));
        } else if watched.on.is_none() {
            watched.on = Some(if line.is_empty() { self.today } else { date(line, self.today)? });
            watched.present = (watched.name != Some(UnlockName::Pushes)).then_some(false);
        } else {
            watched.present = Some(yes(line)?);
        }
        Ok(Page::UnlockEntry(watched))
    }

    /// A number opens the item with that number; W writes.
    fn overview(&mut self, line: &str) -> Outcome {
        let problems = self.open_problems();
        let word = line.to_lowercase();
        match (problems.first(), word.as_str()) {
            (None, "w" | "write") => return Outcome::Write,
            (Some(problem), "" | "w" | "write") => {
                let page = self.page_of(problem.reason());
                if page == Page::Overview {
                    self.refusal = Some((problem.fact(), problem.hint()));
                } else {
                    self.go(page);
                }
            }
            (None, "") => {
                self.notes.push("W writes it.".to_owned());
            }
            _ => match numbered(line, Draft::asked().len() + 3) {
                Ok(nth) => match Draft::asked().get(nth) {
                    Some(field) => self.go(Page::PrescriptionField(field)),
                    None if nth == Draft::asked().len() => self.go(Page::Accepts),
                    None if nth == Draft::asked().len() + 1 => self.go(Page::Drills),
                    None => self.go(Page::Unlocks),
                },
                Err(error) => self.reject(&error),
            },
        }
        Outcome::Page
    }
}

/// Whether this reason is about the answer to this very question, so that the answer is refused.
fn refuses_answer(field: &Field, reason: &Reason) -> bool {
    matches!(
        (field.name, reason),
        ("gap_ms", Reason::GapShort { .. })
            | ("spell_ms", Reason::Spell { .. })
            | ("recover_ms", Reason::RecoverLong { .. })
            | ("sequence", Reason::CoveredUneven)
            | ("strength", Reason::StrengthHome { .. })
    )
}
