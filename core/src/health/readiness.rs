//! Ready today: the questions before every practice, and what the answers lead to: go, gentler, or not today, with the
//! reasons and whom to call. "All true" is always the good answer, and no question can be skipped.
//!
//! ```text
//! page: all true ------------------------------> next page ... > verdict
//!   \-- something is not: its sentences one by one, and what must be known besides
//! ```

use crate::health::lock::{Hold, Lock};

mod item;
mod verdict;

pub use item::{Item, Page};
pub use verdict::{Contact, Reason, Verdict};

/// What decides which sentences belong to today's pages.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Today {
    /// A drill of today needs a partner.
    pub partner: bool,
    /// A drill of today has a step without a resting hand: somebody should be in the house.
    pub harder: bool,
    /// The person felt unwell in the last practice, and has not reported since that it passed.
    pub unwell_last_time: bool,
}

/// Today's questions on their way to a verdict.
///
/// ```
/// use counterpoise_core::health::readiness::{Check, Page, Reply, Today, Verdict};
/// let mut check = Check::new(Today::default());
/// assert_eq!(check.page(), Some(Page::Body));
/// check.reply(Reply::Yes);
/// assert_eq!(check.page(), Some(Page::Room));
/// check.reply(Reply::Yes);
/// assert_eq!(check.page(), None);
/// assert_eq!(check.readiness().verdict, Verdict::Go);
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Check {
    today: Today,
    page: Option<Page>,
    /// The sentences of this page that are still to be asked one by one; `None` while the page is asked as a whole.
    remaining: Option<Vec<Item>>,
    answers: Vec<(Item, bool)>,
}

/// One key: for a page, "all true" or "something is not"; for a sentence, "true" or "not true".
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reply {
    /// All true; true.
    Yes,
    /// Something is not; not true.
    No,
}

/// What the answers come to.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Readiness {
    /// Go, gentler, or not today.
    pub verdict: Verdict,
    /// Why, gravest first; empty for go.
    pub reasons: Vec<Reason>,
    /// What is locked from now on.
    pub locks: Vec<Lock>,
    /// What holds practice from now on.
    pub holds: Vec<Hold>,
    /// One step lower from now on, although nothing holds: a fall of more than two days ago.
    pub lower: bool,
}

impl Check {
    /// The first page.
    pub fn new(today: Today) -> Self {
        Self { today, page: Some(Page::Body), remaining: None, answers: Vec::new() }
    }

    /// The page that is asked; `None` when nothing is left to ask.
    pub fn page(&self) -> Option<Page> {
        self.page
    }

    /// The one sentence of that page that is asked now; `None` while the page is asked as a whole.
    pub fn item(&self) -> Option<Item> {
        self.remaining.as_ref()?.first().copied()
    }

    /// The lines of the page, shown on the screen together.
    pub fn lines(&self) -> Vec<&'static str> {
        self.page.map(|page| page.lines(self.today)).unwrap_or_default()
    }

    /// The phrases that read the page aloud, by their ids.
    pub fn spoken_ids(&self) -> Vec<String> {
        self.page.map(|page| page.spoken_ids(self.today)).unwrap_or_default()
    }

    /// What was answered so far, in order. A sentence on a page that is all true is true.
    pub fn answers(&self) -> &[(Item, bool)] {
        &self.answers
    }

    /// Takes a key. After the last page it does nothing.
    pub fn reply(&mut self, reply: Reply) {
        let Some(page) = self.page else { return };
        let yes = reply == Reply::Yes;
        match &mut self.remaining {
            None if yes => {
                self.answers.extend(page.items(self.today).into_iter().map(|item| (item, true)));
                self.turn(page);
            }
            None => self.remaining = Some(page.items(self.today)),
            Some(remaining) => {
                let item = remaining.remove(0);
                self.answers.push((item, yes));
                if !yes {
                    remaining.splice(0..0, item.follow_ups().iter().copied());
                }
                // With an emergency sign, no further questions.
                let emergency = verdict::locks(&self.answers).into_iter().any(Lock::is_emergency);
                if emergency {
                    self.page = None;
                } else if remaining.is_empty() {
                    self.turn(page);
                }
            }
        }
    }

    fn turn(&mut self, page: Page) {
        self.remaining = None;
        let stopped = self.readiness().verdict == Verdict::NotToday;
        self.page = page.next(self.today).filter(|_| !stopped);
    }

    /// What the answers so far come to.
    pub fn readiness(&self) -> Readiness {
        Readiness::of(&self.answers)
    }
}

#[cfg(test)]
mod test;
