//! The guided form in which a therapist writes a prescription: a typed line goes in, the next page comes out. Each
//! answer is checked by the same gate that reads the file later, and its refusals are shown to the therapist.
//! `cli::prescribe` draws the pages and writes the file.

use jiff::civil::Date;

use crate::plan::prescription::draft::is_pending;
use crate::plan::prescription::field::{Field, Sheet};
use crate::plan::prescription::{Draft, Prescription, Reason, Refusal, Unlock, row};

mod answer;
mod draft_text;
mod form_page;
mod parsing;
mod remedies;
mod totals;
mod view;

pub use draft_text::changes;
use form_page::next_for_new_drill;
pub use form_page::{AcceptEntry, Page, UnlockEntry};
pub use parsing::InputError;
pub use totals::Figures;
pub use view::{Item, View};

/// Where an answer leads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// To the next page, or to the same one again.
    Page,
    /// The prescription is to be written. The gate has nothing against it.
    Write,
    /// The form is left, and nothing is written.
    Leave,
}

/// The form with its present page and draft.
///
/// ```
/// use counterpoise_core::prescribing::{Form, Outcome};
/// let mut form = Form::new("2026-11-02".parse().unwrap());
/// assert_eq!(form.answer("1"), Outcome::Page, "the first ready prescription");
/// assert_eq!(form.answer("At the counter, first month"), Outcome::Page);
/// assert_eq!(form.draft().title, "At the counter, first month");
/// assert_eq!(form.answer("q"), Outcome::Page, "asked once more");
/// assert_eq!(form.answer("yes"), Outcome::Leave);
/// ```
#[derive(Debug, Clone)]
#[expect(clippy::struct_excessive_bools, reason = "each is something else that the form remembers")]
pub struct Form {
    draft: Draft,
    /// The draft as it was opened, to report what changed.
    opened: Draft,
    today: Date,
    page: Page,
    trail: Vec<Page>,
    /// Whether pages follow one another, until the overview is reached for the first time.
    first_pass: bool,
    /// The drill that is being added: the rest of its questions follow.
    adding: bool,
    /// What the last answer changed in addition to its own value.
    notes: Vec<String>,
    refusal: Option<(String, String)>,
    /// Whether the page shows all its details.
    expanded: bool,
    /// Whether the form is asking to confirm leaving.
    confirming_leave: bool,
}

impl Form {
    /// An empty form: it starts from a ready prescription, issued today.
    pub fn new(today: Date) -> Self {
        let draft = Draft { issued_on: today, ..Draft::of(&Prescription::all_ready()[0].1) };
        Self { first_pass: true, ..Self::with_page(draft, today, Page::Start) }
    }

    /// The form over a prescription that exists. What is not asked for stays.
    pub fn edit(prescription: &Prescription, today: Date) -> Self {
        Self::with_page(Draft::of(prescription), today, Page::Overview)
    }

    /// The form over a draft, which may still have open problems.
    pub fn from_draft(draft: Draft, today: Date) -> Self {
        Self::with_page(draft, today, Page::Overview)
    }

    fn with_page(draft: Draft, today: Date, page: Page) -> Self {
        Self {
            opened: draft.clone(),
            draft,
            today,
            page,
            trail: Vec::new(),
            first_pass: false,
            adding: false,
            notes: Vec::new(),
            refusal: None,
            expanded: false,
            confirming_leave: false,
        }
    }

    /// The prescription written so far.
    pub fn draft(&self) -> &Draft {
        &self.draft
    }

    /// The draft as it was opened.
    pub fn opened(&self) -> &Draft {
        &self.opened
    }

    /// The page that is shown now.
    pub fn page(&self) -> &Page {
        &self.page
    }

    /// Whether anything was changed.
    pub fn is_changed(&self) -> bool {
        self.draft != self.opened
    }

    /// Why the last answer was refused: a fact and a hint.
    pub fn refusal(&self) -> Option<(&str, &str)> {
        self.refusal.as_ref().map(|(fact, hint)| (fact.as_str(), hint.as_str()))
    }

    /// A line that was typed: an answer to the page, or one of the words that every page knows.
    pub fn answer(&mut self, line: &str) -> Outcome {
        self.notes.clear();
        self.refusal = None;
        let line = line.trim();
        if std::mem::take(&mut self.confirming_leave) {
            return match line.to_lowercase().as_str() {
                "y" | "yes" => Outcome::Leave,
                _ => Outcome::Page,
            };
        }
        match line.to_lowercase().as_str() {
            "q" | "quit" => {
                self.confirming_leave = true;
                return Outcome::Page;
            }
            "b" | "back" => self.back(),
            "?" | "more" => self.expanded = !self.expanded,
            "l" | "list" if self.page != Page::Start => {
                self.adding = false;
                self.go(Page::Overview);
            }
            _ => {
                let before = self.page.clone();
                let outcome = self.on_page(line);
                if self.page != before {
                    self.expanded = false;
                }
                return outcome;
            }
        }
        Outcome::Page
    }

    fn back(&mut self) {
        self.adding = false;
        self.expanded = false;
        match self.trail.pop() {
            Some(page) => self.page = page,
            None => self.notes.push("This is the first page.".to_owned()),
        }
        // The page of a drill that has been removed no longer exists.
        while let Page::Drill(place) | Page::DrillField(place, _) = self.page
            && place >= self.draft.drills.len()
        {
            self.page = self.trail.pop().unwrap_or(Page::Drills);
        }
        self.first_pass &= self.page != Page::Overview;
    }

    fn go(&mut self, page: Page) {
        if page == Page::Overview {
            self.first_pass = false;
        }
        if page != self.page {
            let before = std::mem::replace(&mut self.page, page);
            // Going back never leads to a half-filled entry.
            if !matches!(before, Page::UnlockEntry(_) | Page::AcceptEntry(_)) {
                self.trail.push(before);
            }
        }
    }

    /// Where the form goes from a page that is answered.
    fn advance(&mut self) {
        let next = match &self.page {
            Page::Start => Page::PrescriptionField(&row::title),
            Page::PrescriptionField(field) if self.first_pass && field.name == "issued_on" => Page::Drills,
            Page::PrescriptionField(field) if self.first_pass => {
                let suits = |next: &&Field| next.name != "order" || self.draft.drills.len() > 2;
                let mut later =
                    Draft::asked().into_iter().filter(|next| next.rank > field.rank && next.is_first);
                later.find(suits).map_or(Page::Overview, Page::PrescriptionField)
            }
            Page::Drills if self.first_pass => Page::PrescriptionField(&row::days_a_week),
            Page::DrillField(place, ask) if self.adding => {
                match next_for_new_drill(Some(ask), &self.draft.drills[*place]) {
                    Some(next) => Page::DrillField(*place, next),
                    None => {
                        self.adding = false;
                        Page::Drill(*place)
                    }
                }
            }
            Page::DrillField(place, _) => Page::Drill(*place),
            Page::Drill(_) | Page::Add => Page::Drills,
            Page::UnlockEntry(_) if self.first_pass => Page::Drills,
            Page::PrescriptionField(_)
            | Page::Drills
            | Page::Unlocks
            | Page::UnlockEntry(_)
            | Page::Accepts
            | Page::AcceptEntry(_)
            | Page::Overview => Page::Overview,
        };
        self.go(next);
    }

    /// Accepts a change, unless the gate refuses the answer itself. A problem that other answers can still solve is no reason to refuse.
    fn accept(&mut self, draft: Draft, own: impl Fn(&Reason) -> bool) -> bool {
        let problems = draft.problems();
        let refused = problems.iter().find(|problem| !is_pending(problem.reason()) || own(problem.reason()));
        if let Some(refusal) = refused {
            self.refusal = Some((refusal.fact(), refusal.hint()));
            return false;
        }
        self.draft = draft;
        true
    }

    /// Everything that must be solved before the file can be written, in the gate's words.
    pub fn open_problems(&self) -> Vec<Refusal> {
        self.draft.problems()
    }

    fn add_unlock(&mut self, unlock: Unlock) -> bool {
        let mut draft = self.draft.clone();
        let same = |other: &Unlock| other.name == unlock.name && other.partner == unlock.partner;
        draft.unlocks.retain(|other| !same(other));
        draft.unlocks.push(unlock);
        self.accept(draft, |_| false)
    }
}

#[cfg(test)]
mod test;
