//! Ready today: the questions before every practice, and what the answers lead to: go, gentler, or not today, with the
//! reasons and whom to call. What calls for help or for a clinician is asked one question at a time, each day. "Not sure"
//! counts as the careful answer, and no question can be skipped.
//!
//! ```text
//! chest? > breath? > ... > page: any of this? > page: all of this? > verdict
//!    \-- follow-up questions     \-- one by one     \-- one by one
//! ```

use std::collections::VecDeque;

use crate::health::lock::{Hold, Lock};
use crate::health::yes_no::YesNoNotSure;

mod item;
mod sentence;
mod verdict;

pub use item::{Item, Page};
pub use verdict::{Contact, Reason, Verdict};

/// What decides which questions are asked today.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Today {
    /// A drill of today needs a partner.
    pub partner: bool,
    /// A drill of today has a step without a resting hand: somebody should be in the house.
    pub harder: bool,
    /// The person felt unwell in the last practice, and has not reported since that it passed.
    pub unwell_last_time: bool,
}

/// What is asked by one key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asked {
    /// A question by itself.
    One(Item),
    /// A page of statements.
    Page(Page),
}

impl Asked {
    /// The good answer.
    pub const fn good(self) -> YesNoNotSure {
        match self {
            Self::One(item) => item.good(),
            Self::Page(page) => page.good(),
        }
    }
}

/// Today's questions on their way to a verdict.
///
/// ```
/// use counterpoise_core::health::readiness::{Asked, Check, Item, Page, Today, Verdict};
/// use counterpoise_core::health::yes_no::YesNoNotSure::{No, Yes};
/// let mut check = Check::new(Today::default());
/// for item in Item::SINGLY {
///     assert_eq!(check.asked(), Some(Asked::One(item)));
///     check.reply(No);
/// }
/// assert_eq!(check.asked(), Some(Asked::Page(Page::Body)));
/// check.reply(No);
/// assert_eq!(check.asked(), Some(Asked::Page(Page::Room)));
/// check.reply(Yes);
/// assert_eq!(check.asked(), None);
/// assert_eq!(check.readiness().verdict, Verdict::Go);
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Check {
    today: Today,
    /// What is still to be asked up to the end of this page, in order.
    remaining: VecDeque<Asked>,
    page: Page,
    answers: Vec<(Item, YesNoNotSure)>,
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
    /// A fall was told, whenever it was and whatever came of it.
    pub fell: bool,
}

impl Today {
    fn asked_singly(self) -> impl Iterator<Item = Item> {
        Item::SINGLY.into_iter().chain(self.unwell_last_time.then_some(Item::UnwellPassed))
    }
}

impl Check {
    /// Before the first question.
    pub fn new(today: Today) -> Self {
        let singly = today.asked_singly().map(Asked::One);
        let remaining = singly.chain([Asked::Page(Page::Body)]).collect();
        Self { today, remaining, page: Page::Body, answers: Vec::new() }
    }

    /// What is asked now; `None` when nothing is left to ask.
    pub fn asked(&self) -> Option<Asked> {
        self.remaining.front().copied()
    }

    /// Which question of how many this is, on a day on which nothing has to be asked further. What follows from a question
    /// belongs to it.
    pub fn place(&self) -> (usize, usize) {
        let singly = self.today.asked_singly().count();
        let count = singly + if self.today.partner { 3 } else { 2 };
        let place = match self.page {
            Page::Body => {
                let left = |item| self.remaining.contains(&Asked::One(item));
                let begun = self.today.asked_singly().filter(|item| !left(*item)).count();
                let follows = match self.asked() {
                    Some(Asked::One(item)) => {
                        self.today.asked_singly().any(|asked| asked.follow_ups().contains(&item))
                    }
                    _ => false,
                };
                if follows { begun } else { begun + 1 }
            }
            Page::Room => singly + 2,
            Page::Partner => singly + 3,
        };
        (place, count)
    }

    /// The lines of the page that is asked about; empty for a question by itself.
    pub fn lines(&self) -> Vec<&'static str> {
        match self.asked() {
            Some(Asked::Page(page)) => page.lines(self.today),
            _ => Vec::new(),
        }
    }

    /// The phrases that read aloud what is asked, by their ids; none for what is asked one by one only after a page.
    pub fn spoken_ids(&self) -> Vec<String> {
        match self.asked() {
            Some(Asked::Page(page)) => page.spoken_ids(self.today),
            Some(Asked::One(item)) => item.spoken_id().map(str::to_owned).into_iter().collect(),
            None => Vec::new(),
        }
    }

    /// What was answered so far, in order. The good answer to a page is the good answer to each of its items.
    pub fn answers(&self) -> &[(Item, YesNoNotSure)] {
        &self.answers
    }

    /// Takes an answer. After the last question it does nothing.
    pub fn reply(&mut self, answer: YesNoNotSure) {
        match self.remaining.pop_front() {
            None => return,
            Some(Asked::Page(page)) if answer == page.good() => {
                self.answers.extend(page.items(self.today).into_iter().map(|item| (item, answer)));
            }
            Some(Asked::Page(page)) => self.ask_first(&page.items(self.today)),
            Some(Asked::One(item)) => {
                self.answers.push((item, answer));
                if !item.is_good(answer) {
                    self.ask_first(item.follow_ups());
                }
            }
        }
        // With an emergency sign, no further questions.
        if verdict::locks(&self.answers).into_iter().any(Lock::is_emergency) {
            self.remaining.clear();
        } else if self.remaining.is_empty() && self.readiness().verdict != Verdict::NotToday {
            let next = self.page.next(self.today);
            self.remaining.extend(next.map(Asked::Page));
            self.page = next.unwrap_or(self.page);
        }
    }

    fn ask_first(&mut self, items: &[Item]) {
        items.iter().rev().for_each(|item| self.remaining.push_front(Asked::One(*item)));
    }

    /// What the answers so far come to.
    pub fn readiness(&self) -> Readiness {
        Readiness::of(&self.answers)
    }
}

#[cfg(test)]
mod test;
