//! The pages before the first set, and what their keys do. The partner's pages are in `partner_pages`, the sound check
//! in `sound_check`.

use super::screen::Body;
use super::{Effect, Effects, Key, Now, Phase, Session};
use crate::plan::caution;
use crate::plan::drill::{Need, Trains};
use crate::plan::phrase::Phrase;
use crate::plan::prescription::DrillPlan;
use crate::practice::routine::Routine;
use crate::record::{Answer, Entry, Question, RoutinePart, SessionEnd, Stamp, YesNo};
use crate::units::Millis;

/// Reasons to see a clinician first (trial exclusions and public-health lists, read or second-hand), as many to a page
/// as are drawn large on a large screen.
const CLINICIAN: [&[&str]; 2] = [
    &[
        "a heart or blood pressure condition",
        "chest pain, blackouts, fainting or dizziness",
        "a recent fall with pain or trouble walking",
        "a recent fracture or operation",
        "weak bones (osteoporosis), easily broken",
        "a stroke, Parkinson's or multiple sclerosis",
    ],
    &[
        "an inner ear (balance) or nerve condition",
        "blood thinners",
        "medicine that makes you drowsy",
        "sight that glasses do not correct",
        "a new joint whose limits you do not know",
        "trouble following what is said or written",
    ],
];

/// What a cue toward the back needs (judgment).
const BEHIND: &str = "A wall or a second counter is within half a step behind me.";

/// Cautions on the page that has the stop list too, and on each that follows: as many as are drawn large on a large
/// screen.
const BESIDE_THE_STOP_LIST: usize = 3;
const ON_A_PAGE: usize = 5;

/// The words of a phrase: pages show the same words that are spoken.
fn words(id: &str) -> String {
    Phrase::own(id).words().to_owned()
}

impl Session {
    /// A key on one of the pages before the first set.
    pub(super) fn page_key(&mut self, now: &Now, key: Key, effects: &mut Effects) {
        let (yes, no) = (key.is('a'), key.is('x'));
        let on = key == Key::Enter || key == Key::Char(' ');
        match self.phase {
            _ if key.stops() => {
                self.end(now, SessionEnd::StoppedOther, effects);
                effects.push(Effect::Leave);
            }
            Phase::First if on => self.phase = Phase::Cautions { part: 0 },
            Phase::Cautions { part } if on && part + 1 < self.cautions().len() => {
                self.phase = Phase::Cautions { part: part + 1 };
            }
            Phase::Cautions { .. } if on => {
                self.begun.begun = Stamp::from(&now.wall);
                self.recorded = true;
                effects.push(Effect::Record(Entry::SessionBegun(self.begun.clone())));
                self.begin_pages(effects);
            }
            Phase::Health { part } if yes && part + 1 < CLINICIAN.len() => {
                self.phase = Phase::Health { part: part + 1 };
            }
            Phase::Health { .. } if yes || no => {
                self.confirm(now, Answer::Clinician(Some(yes.into())), effects);
            }
            Phase::Ready { sure } => self.ready_key(now, sure, key, effects),
            Phase::Gentler if on => self.after_readiness(now, effects),
            Phase::InPlace if yes || no => self.confirm(now, Answer::InPlace(Some(yes.into())), effects),
            Phase::Partner { part } => self.partner_page_key(now, part, key, effects),
            Phase::Side { part } => self.side_key(now, part, key, effects),
            Phase::Check { tries, .. } => self.check_key(now, key, tries, effects),
            _ => {}
        }
    }

    /// Keeps that it is true or is not. If it is, the next pages come; if not, there is no practice today.
    pub(super) fn confirm(&mut self, now: &Now, answer: Answer, effects: &mut Effects) {
        effects.push(Effect::Record(Entry::answered(None, answer)));
        match answer {
            Answer::Clinician(Some(YesNo::Yes)) => self.phase = Phase::Ready { sure: false },
            Answer::PartnerReady(Some(YesNo::Yes)) if self.room.is_none() => {
                self.phase = Phase::Side { part: 0 };
            }
            Answer::PartnerReady(Some(YesNo::Yes)) => self.after_pages(now, effects),
            Answer::InPlace(Some(YesNo::Yes)) => self.meet_the_partner(now, effects),
            _ => self.end(now, SessionEnd::NotToday, effects),
        }
    }

    /// The person is ready: what must be in place, then the partner.
    pub(super) fn after_readiness(&mut self, now: &Now, effects: &mut Effects) {
        if std::mem::take(&mut self.preparation.weekly) {
            return self.ask(now, Question::WEEKLY[0], effects);
        }
        if self.in_place_today().is_empty() {
            self.meet_the_partner(now, effects);
        } else {
            self.phase = Phase::InPlace;
        }
    }

    /// After the pages: the sound check, or the warm-up where there is no sound to check.
    pub(super) fn after_pages(&mut self, now: &Now, effects: &mut Effects) {
        if self.silent {
            self.begin_routine(now, RoutinePart::WarmUp, effects);
        } else {
            self.check(now, 0, false, effects);
        }
    }

    /// What this session's drills cannot do without, as sentences that must be true today.
    fn in_place_today(&self) -> Vec<&'static str> {
        let sets = self.schedule.sets().iter();
        let needs = sets.flat_map(|set| set.drill().needs(set.form(), set.conditions()));
        let mut sentences: Vec<&str> =
            needs.filter(|need| *need != Need::Partner).map(Need::sentence).collect();
        let plans = self.scheduler.prescription().drills().iter();
        if plans.flat_map(DrillPlan::targets).any(|target| target.direction.is_backward()) {
            sentences.push(BEHIND);
        }
        sentences.sort_unstable();
        sentences.dedup();
        sentences
    }

    pub(super) fn in_place_page(&self) -> Body {
        Body::page("In place today", &["All of this is true today:"], &self.in_place_today())
    }

    pub(super) fn health_page(part: usize) -> Body {
        Body::page(
            &format!("Your health, page {} of {}", part + 1, CLINICIAN.len()),
            &["Is any of these true of you? What your clinician knows of and agreed to does not count."],
            CLINICIAN[part],
        )
    }

    pub(super) fn first_page(&self) -> Body {
        let sets = self.schedule.sets();
        let work: Millis = sets.iter().fold(Millis(0), |sum, set| sum + set.work());
        let rest: Millis = sets.iter().rev().skip(1).fold(Millis(0), |sum, set| sum + set.rest());
        let set_up = Millis::from_secs(30 * sets.len() as u32);
        let around = Routine::warm_up().lasts() + Routine::cool_down().lasts();
        let minutes = (work + rest + set_up + around).0.div_ceil(60_000);
        let trains = if sets.iter().all(|set| set.drill().trains() == Trains::Voluntary) {
            caution::WHAT_IT_IS
        } else {
            caution::NO_PROMISE
        };
        let mut text = vec![
            match sets.len() {
                1 => format!("One set, about {minutes} minutes with a warm-up and a cool-down."),
                number => {
                    format!("{number} sets, about {minutes} minutes with warm-up, rests and cool-down.")
                }
            },
            caution::FIRST.to_owned(),
            trains.to_owned(),
        ];
        if self.begun.seed_given() {
            text.insert(
                1,
                "This practice uses a given seed: somebody could know its calls beforehand.".to_owned(),
            );
        }
        let title = match &self.name {
            Some(name) => format!("{name}: {}", self.begun.title),
            None => self.begun.title.clone(),
        };
        if self.is_new {
            text.push(
                "The first time here? Leave, and say who you are and whom to call: counterpoise setup"
                    .to_owned(),
            );
        }
        Body::Page { title, text, items: Vec::new() }
    }

    /// The cautions of every drill of this session, each once, page by page.
    fn cautions(&self) -> Vec<Vec<String>> {
        let mut all: Vec<String> = Vec::new();
        for caution in self.schedule.sets().iter().flat_map(|set| set.drill().cautions()) {
            if !all.contains(caution) {
                all.push(caution.clone());
            }
        }
        let later = all.split_off(all.len().min(BESIDE_THE_STOP_LIST));
        let later = later.chunks(ON_A_PAGE).map(<[String]>::to_vec);
        [all].into_iter().chain(later).collect()
    }

    pub(super) fn cautions_page(&self, part: usize) -> Body {
        let pages = self.cautions();
        let title = match pages.len() {
            1 => "While you practice".to_owned(),
            count => format!("While you practice, page {} of {count}", part + 1),
        };
        let text =
            if part == 0 { vec![words("practice.ignore"), words("practice.stop-list")] } else { Vec::new() };
        Body::Page { title, text, items: pages.into_iter().nth(part).unwrap_or_default() }
    }
}
