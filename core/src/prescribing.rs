//! The form in which a therapist writes a prescription: pages, answers, and what each answer leads to. Values in, values
//! out: a line that was typed goes in, the next page comes out. What is allowed is not known here: each answer is laid before
//! the same gate that reads the file later, and what the gate says is said to the therapist. Not how a page is drawn, and
//! not where the file goes (that is `cli::prescribe`).

use jiff::civil::Date;

use crate::plan::prescription::draft::is_pending;
use crate::plan::prescription::{Draft, Prescription, Reason, Refusal, Unlock};

mod answer;
mod draft_text;
mod form_page;
mod parsing;
mod remedies;
mod totals;
mod view;

pub use draft_text::changes;
pub use form_page::{Ask, Page, Watched, Whole};
pub use parsing::NotUnderstood;
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

/// The form as it stands.
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
    /// As it was opened, for what was changed.
    opened: Draft,
    today: Date,
    page: Page,
    trail: Vec<Page>,
    /// From page to page, until the overview is reached for the first time.
    walking: bool,
    /// The drill that is being added: the rest of its questions follow.
    adding: bool,
    /// What the last answer changed besides, or why it does not stand.
    notes: Vec<String>,
    refused: Option<(String, String)>,
    /// The page shows all there is to know of it.
    more: bool,
    /// Leaving is asked once more.
    leaving: bool,
}

impl Form {
    /// An empty form: it starts from a ready prescription, issued today.
    pub fn new(today: Date) -> Self {
        let draft = Draft { issued_on: today, ..Draft::of(&Prescription::all_ready()[0].1) };
        Self { walking: true, ..Self::over(draft, today, Page::Start) }
    }

    /// The form over a prescription that exists. What is not asked for stays.
    pub fn edit(prescription: &Prescription, today: Date) -> Self {
        Self::over(Draft::of(prescription), today, Page::Overview)
    }

    /// The form over a draft, which may still have open points.
    pub fn over_draft(draft: Draft, today: Date) -> Self {
        Self::over(draft, today, Page::Overview)
    }

    fn over(draft: Draft, today: Date, page: Page) -> Self {
        Self {
            opened: draft.clone(),
            draft,
            today,
            page,
            trail: Vec::new(),
            walking: false,
            adding: false,
            notes: Vec::new(),
            refused: None,
            more: false,
            leaving: false,
        }
    }

    /// What was written so far.
    pub fn draft(&self) -> &Draft {
        &self.draft
    }

    /// As it was opened.
    pub fn opened(&self) -> &Draft {
        &self.opened
    }

    /// The page.
    pub fn page(&self) -> &Page {
        &self.page
    }

    /// Whether anything was changed.
    pub fn is_changed(&self) -> bool {
        self.draft != self.opened
    }

    /// Why the last answer does not stand: a fact and a hint.
    pub fn refused(&self) -> Option<(&str, &str)> {
        self.refused.as_ref().map(|(fact, hint)| (fact.as_str(), hint.as_str()))
    }

    /// A line that was typed: an answer to the page, or one of the words that every page knows.
    pub fn answer(&mut self, line: &str) -> Outcome {
        self.notes.clear();
        self.refused = None;
        let line = line.trim();
        if std::mem::take(&mut self.leaving) {
            return match line.to_lowercase().as_str() {
                "y" | "yes" => Outcome::Leave,
                _ => Outcome::Page,
            };
        }
        match line.to_lowercase().as_str() {
            "q" | "quit" => {
                self.leaving = true;
                return Outcome::Page;
            }
            "b" | "back" => self.back(),
            "?" | "more" => self.more = !self.more,
            "l" | "list" if self.page != Page::Start => {
                self.adding = false;
                self.go(Page::Overview);
            }
            _ => {
                let before = self.page.clone();
                let outcome = self.on_page(line);
                if self.page != before {
                    self.more = false;
                }
                return outcome;
            }
        }
        Outcome::Page
    }

    fn back(&mut self) {
        self.adding = false;
        self.more = false;
        match self.trail.pop() {
            Some(page) => self.page = page,
            None => self.notes.push("This is the first page.".to_owned()),
        }
        // A page of a drill that was taken out meanwhile is none any more.
        while let Page::Drill(place) | Page::Of(place, _) = self.page
            && place >= self.draft.drills.len()
        {
            self.page = self.trail.pop().unwrap_or(Page::Drills);
        }
        self.walking &= self.page != Page::Overview;
    }

    fn go(&mut self, page: Page) {
        if page == Page::Overview {
            self.walking = false;
        }
        if page != self.page {
            let before = std::mem::replace(&mut self.page, page);
            // A page on which something is told bit by bit is not gone back to half told.
            if !matches!(before, Page::Watched(_)) {
                self.trail.push(before);
            }
        }
    }

    /// Where the form goes from a page that is answered.
    fn go_on(&mut self) {
        let next = match &self.page {
            Page::Start => Page::Whole(Whole::Title),
            Page::Whole(whole) if self.walking => match whole {
                Whole::Title => Page::Whole(Whole::IssuedBy),
                Whole::IssuedBy => Page::Whole(Whole::IssuedOn),
                Whole::IssuedOn => Page::Drills,
                Whole::Days => Page::Whole(Whole::Weeks),
                Whole::Weeks => Page::Whole(Whole::Review),
                Whole::Review => Page::Whole(Whole::Rest),
                Whole::Rest if self.draft.drills.len() > 2 => Page::Whole(Whole::Order),
                Whole::Rest | Whole::Order => Page::Whole(Whole::Effort),
                Whole::Effort | Whole::Accepted => Page::Overview,
            },
            Page::Drills if self.walking => Page::Whole(Whole::Days),
            Page::Of(place, ask) if self.adding => {
                match Ask::of_a_new_one(Some(*ask), &self.draft.drills[*place]) {
                    Some(next) => Page::Of(*place, next),
                    None => {
                        self.adding = false;
                        Page::Drill(*place)
                    }
                }
            }
            Page::Of(place, _) => Page::Drill(*place),
            Page::Drill(_) | Page::Add => Page::Drills,
            Page::Watched(_) if self.walking => Page::Drills,
            Page::Whole(_) | Page::Drills | Page::Unlocks | Page::Watched(_) | Page::Overview => {
                Page::Overview
            }
        };
        self.go(next);
    }

    /// Takes a change over, unless the gate refuses the answer itself. What other answers can still settle stands.
    fn take(&mut self, draft: Draft, own: impl Fn(&Reason) -> bool) -> bool {
        let points = draft.points();
        let refused = points.iter().find(|point| !is_pending(point.reason()) || own(point.reason()));
        if let Some(refusal) = refused {
            self.refused = Some((refusal.fact(), refusal.hint()));
            return false;
        }
        self.draft = draft;
        true
    }

    /// Everything that must be settled before it can be written, in the gate's words.
    pub fn open_points(&self) -> Vec<Refusal> {
        self.draft.points()
    }

    fn add_unlock(&mut self, unlock: Unlock) -> bool {
        let mut draft = self.draft.clone();
        let same = |other: &Unlock| other.name == unlock.name && other.partner == unlock.partner;
        draft.unlocks.retain(|other| !same(other));
        draft.unlocks.push(unlock);
        self.take(draft, |_| false)
    }
}

#[cfg(test)]
mod test;
