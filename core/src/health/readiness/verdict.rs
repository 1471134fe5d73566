//! From answers to a verdict. Every rule is \[judgment\], after public-health guidance, and is written once, here.

use std::fmt;

use super::{Item, Readiness};
use crate::health::lock::{Hold, Lock};
use crate::health::yes_no::YesNoNotSure;
use crate::words;

/// Whether to practice today.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub enum Verdict {
    /// As the prescription and the progression say.
    #[default]
    Go,
    /// One step lower than usual, today.
    Gentler,
    /// No practice for the rest of the day, unless the cause can be fixed at once.
    NotToday,
}

/// Who should be told or asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Contact {
    /// The local emergency number, now.
    Emergency,
    /// A doctor, nurse or other clinician.
    Clinician,
    /// The doctor or pharmacist who gave the medicine.
    Pharmacist,
    /// The therapist, before the next practice.
    Therapist,
    /// Nobody: it can be put right, or passes.
    Nobody,
}

words! {
    Verdict {
        Go => "go",
        Gentler => "gentler today",
        NotToday => "not today",
    }
}

/// One reason, with what to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reason {
    /// What did not get the good answer.
    pub item: Item,
    /// The answer was "not sure".
    pub not_sure: bool,
    /// What this reason leads to on its own.
    pub verdict: Verdict,
    /// Who should be told or asked.
    pub contact: Contact,
}

/// Whether the answer to this question was good; `None` if it was not asked.
fn is_good(answers: &[(Item, YesNoNotSure)], item: Item) -> Option<bool> {
    let last = answers.iter().rev().find(|(other, _)| *other == item);
    last.map(|(item, answer)| item.is_good(*answer))
}

/// What the answers lock. A follow-up question without an answer counts as the careful answer.
pub(super) fn locks(answers: &[(Item, YesNoNotSure)]) -> Vec<Lock> {
    let bad = |item| is_good(answers, item) == Some(false);
    let unless = |item, follow_up| bad(item) && is_good(answers, follow_up) != Some(true);
    let all = [
        (bad(Item::Chest), Lock::Chest),
        (bad(Item::Breath), Lock::Breath),
        (bad(Item::Nerve), Lock::Nerve),
        (bad(Item::Faint), Lock::Faint),
        (bad(Item::Head), Lock::HeadKnock),
        (unless(Item::Fall, Item::FallHurt), Lock::FallHurt),
        (unless(Item::Dizzy, Item::DizzyPassed), Lock::Dizziness),
        (bad(Item::UnwellPassed), Lock::Unwell),
    ];
    all.into_iter().filter(|(is, _)| *is).map(|(_, lock)| lock).collect()
}

impl Readiness {
    /// What these answers come to.
    ///
    /// ```
    /// use counterpoise_core::health::readiness::{Item, Readiness, Verdict};
    /// use counterpoise_core::health::yes_no::YesNoNotSure::{NotSure, Yes};
    /// let readiness = Readiness::of(&[(Item::Night, Yes), (Item::Light, Yes)]);
    /// assert_eq!(readiness.verdict, Verdict::Gentler);
    /// assert_eq!(readiness.reasons[0].to_string(), "You slept badly. Take it one step lower today.");
    ///
    /// let readiness = Readiness::of(&[(Item::Faint, NotSure)]);
    /// assert_eq!(
    ///     readiness.reasons[0].to_string(),
    ///     "You have fainted, or you are not sure. See a clinician before you practice again."
    /// );
    /// ```
    pub fn of(answers: &[(Item, YesNoNotSure)]) -> Self {
        let bad = |item| is_good(answers, item) == Some(false);
        let locks = locks(answers);
        let fell = bad(Item::Fall);
        let past = is_good(answers, Item::FallRecent) == Some(true);
        let mut holds = Vec::new();
        if fell && !past {
            holds.push(Hold::Fall);
        }
        if bad(Item::Dizzy) {
            holds.push(Hold::Dizziness);
        }
        let reasons = answers.iter().filter(|(item, answer)| !item.is_good(*answer));
        let reasons = reasons.filter_map(|(item, answer)| {
            let (verdict, contact) = leads_to(*item, answers)?;
            let not_sure = *answer == YesNoNotSure::NotSure;
            Some(Reason { item: *item, not_sure, verdict, contact })
        });
        let mut reasons: Vec<Reason> = reasons.collect();
        reasons.sort_by_key(|reason| (std::cmp::Reverse(reason.verdict), reason.contact));
        let verdict = reasons.iter().map(|reason| reason.verdict).max().unwrap_or(Verdict::Go);
        Self { verdict, reasons, locks, holds, lower: fell && past, fell }
    }
}

/// What another answer than the good one leads to. `None`: the answer to which it belongs says it.
fn leads_to(item: Item, answers: &[(Item, YesNoNotSure)]) -> Option<(Verdict, Contact)> {
    let good = |item| is_good(answers, item) == Some(true);
    // Before it was asked whether the medicine makes drowsy, that was part of what was agreed.
    let agreed = || good(Item::MedicineAgreed) && is_good(answers, Item::MedicineDrowsy) != Some(false);
    Some(match item {
        Item::Chest | Item::Breath | Item::Nerve => (Verdict::NotToday, Contact::Emergency),
        Item::Dizzy if good(Item::DizzyPassed) => (Verdict::NotToday, Contact::Therapist),
        Item::Faint | Item::Head | Item::Pain | Item::UnwellPassed | Item::Dizzy => {
            (Verdict::NotToday, Contact::Clinician)
        }
        Item::Fall if !good(Item::FallHurt) => (Verdict::NotToday, Contact::Clinician),
        Item::Fall if !good(Item::FallRecent) => (Verdict::NotToday, Contact::Therapist),
        Item::Fall => (Verdict::Gentler, Contact::Therapist),
        Item::Medicine if agreed() => (Verdict::Gentler, Contact::Nobody),
        Item::Medicine => (Verdict::NotToday, Contact::Pharmacist),
        Item::Sore | Item::Night | Item::House => (Verdict::Gentler, Contact::Nobody),
        Item::DizzyPassed
        | Item::FallHurt
        | Item::FallRecent
        | Item::MedicineDrowsy
        | Item::MedicineAgreed => return None,
        Item::Ill
        | Item::Alcohol
        | Item::Counter
        | Item::Firm
        | Item::Hot
        | Item::Shut
        | Item::Floor
        | Item::Light
        | Item::Behind
        | Item::Shoes
        | Item::Aids
        | Item::Phone
        | Item::Chair
        | Item::PartnerHere
        | Item::PartnerWell
        | Item::PartnerKnows
        | Item::BothWilling => (Verdict::NotToday, Contact::Nobody),
    })
}

impl Reason {
    /// Whether it can be fixed at once, so that practice can be opened again the same day.
    pub fn can_be_put_right(self) -> bool {
        matches!(
            self.item,
            Item::Counter
                | Item::Firm
                | Item::Hot
                | Item::Shut
                | Item::Floor
                | Item::Light
                | Item::Behind
                | Item::Shoes
                | Item::Aids
                | Item::Phone
                | Item::Chair
                | Item::PartnerHere
        )
    }

    /// What is so, as a sentence to the person.
    pub const fn fact(self) -> &'static str {
        match self.item {
            Item::Chest => "You have had chest pain or a tight chest.",
            Item::Breath => "You have been badly short of breath.",
            Item::Nerve => "You have had a sign of a stroke.",
            Item::Dizzy | Item::DizzyPassed => "You have been dizzy.",
            Item::Faint => "You have fainted.",
            Item::Fall | Item::FallHurt | Item::FallRecent => "You have had a fall.",
            Item::Head => "You have hit your head.",
            Item::Pain => "You have a new pain.",
            Item::Sore => "You are sore.",
            Item::Ill => "You are ill.",
            Item::Night => "You slept badly.",
            Item::Alcohol => "You have had alcohol today.",
            Item::Medicine | Item::MedicineDrowsy | Item::MedicineAgreed => "You take a new medicine.",
            Item::UnwellPassed => "What you felt last time has not passed.",
            Item::Counter => "The counter is not fixed.",
            Item::Firm => "Something near you slides or tips.",
            Item::Hot => "Something hot or sharp is in reach.",
            Item::Shut => "A door or drawer is open.",
            Item::Floor => "The floor is not dry and clear.",
            Item::Light => "The light is not good.",
            Item::Behind => "There is no clear floor and no wall behind you.",
            Item::Shoes => "Your shoes are not firm.",
            Item::Aids => "Your glasses or hearing aids are missing.",
            Item::Phone => "There is no phone in reach.",
            Item::Chair => "There is no firm chair or no water in reach.",
            Item::House => "Nobody else is in the house.",
            Item::PartnerHere => "Your partner is not within reach with both hands free.",
            Item::PartnerWell => "Your partner is not well enough for it today.",
            Item::PartnerKnows => "Your partner does not know yet where hands go.",
            Item::BothWilling => "One of you would rather not.",
        }
    }

    /// What to do.
    pub fn advice(self) -> &'static str {
        match (self.item, self.contact) {
            (_, Contact::Emergency) => {
                "Sit down. If it is there now, call your local emergency number now. See a clinician before you \
                 practice again."
            }
            (Item::Head, _) => {
                "See a clinician before you practice again; if you take blood thinners, today, even if you feel well."
            }
            (Item::Pain, _) => "Do not practice with it. Ask a clinician if it does not go away.",
            (_, Contact::Clinician) => "See a clinician before you practice again.",
            (_, Contact::Pharmacist) => "Ask your doctor or chemist first whether you may practice.",
            (Item::Dizzy, Contact::Therapist) => "Rest for 48 hours. Tell your therapist if it comes again.",
            (Item::Fall, _) if self.verdict == Verdict::NotToday => {
                "Rest for 48 hours, and tell your therapist."
            }
            (Item::Fall, _) => "Tell your therapist. You go on one step lower.",
            (Item::Ill, _) => "Practice again when you are well.",
            (Item::Alcohol, _) => "Practice tomorrow.",
            (Item::PartnerWell | Item::PartnerKnows | Item::BothWilling, _) => {
                "Leave out what needs a partner today."
            }
            _ if self.verdict == Verdict::Gentler => "Take it one step lower today.",
            _ => "Put it right, then open Counterpoise again.",
        }
    }
}

impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let fact = self.fact();
        match fact.strip_suffix('.') {
            Some(fact) if self.not_sure => write!(f, "{fact}, or you are not sure. {}", self.advice()),
            _ => write!(f, "{fact} {}", self.advice()),
        }
    }
}
