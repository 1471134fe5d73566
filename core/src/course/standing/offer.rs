//! The commands that would be accepted now. None of them is offered where it would be refused.

use super::{Standing, State};
use crate::course::progression::at_steps;
use crate::course::trainee::{Retest, Trainee};
use crate::draw::schedule::Scheduler;
use crate::plan::drill::Form;
use crate::plan::prescription::Prescription;
use crate::practice::track;

/// A command that would be accepted, apart from those that only show something.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Offer {
    /// The practice that is due, or the rest of an interrupted one. `partner`: a partner has something to do in it.
    Practice {
        /// A partner has something to do in it.
        partner: bool,
    },
    /// The same one step lower.
    Gentler {
        /// A partner has something to do in it.
        partner: bool,
    },
    /// The next practice, moved to today.
    Move {
        /// A partner has something to do in it.
        partner: bool,
    },
    /// A clearance of what bars practice.
    Clear,
    /// The questions about health.
    Suitability {
        /// They were answered before.
        again: bool,
    },
    /// A balance test.
    Assess(Option<Retest>),
    /// A track of today's practice.
    Track,
    /// The sheet of this week.
    Sheet,
}

/// What decides about offers apart from the person and the prescription.
#[derive(Debug, Clone, Copy, Default)]
pub struct Surroundings<'a> {
    /// The program in use, within which everything has to stay.
    pub in_use: Option<&'a Prescription>,
    /// The prescription was asked for by this name, and is not simply the one in use.
    pub named: Option<&'a str>,
    /// The settings name the patches of a floor course.
    pub has_patches: bool,
}

impl Offer {
    /// The command, without the program's name.
    ///
    /// ```
    /// use counterpoise_core::course::standing::Offer;
    /// assert_eq!(Offer::Move { partner: false }.command(None), "practice --move");
    /// let gentler = Offer::Gentler { partner: true };
    /// assert_eq!(gentler.command(Some("evening.toml")), "practice evening.toml --gentler --partner screen");
    /// ```
    pub fn command(self, named: Option<&str>) -> String {
        let practice = |option: &str, partner: bool| {
            let with = if partner { "--partner screen" } else { "" };
            let words = ["practice", named.unwrap_or_default(), option, with];
            words.into_iter().filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
        };
        match self {
            Self::Practice { partner } => practice("", partner),
            Self::Gentler { partner } => practice("--gentler", partner),
            Self::Move { partner } => practice("--move", partner),
            Self::Clear => "clear".to_owned(),
            Self::Suitability { .. } => "suitability".to_owned(),
            Self::Assess(_) => "assess".to_owned(),
            Self::Track => ["track", named.unwrap_or_default()].join(" ").trim_end().to_owned(),
            Self::Sheet => "sheet".to_owned(),
        }
    }

    /// What it is for, and the command, as a line of a page.
    pub fn line(self, named: Option<&str>) -> String {
        let what = match self {
            Self::Practice { .. } => "Start now".to_owned(),
            Self::Gentler { .. } => "One step lower, any time you like".to_owned(),
            Self::Move { .. } => "To practice today instead".to_owned(),
            Self::Clear => "Once a clinician has cleared you".to_owned(),
            Self::Suitability { again: true } => {
                "When your health has changed, or a clinician has agreed".to_owned()
            }
            Self::Suitability { again: false } => {
                "The questions about your health, not answered yet".to_owned()
            }
            Self::Assess(Some(Retest::Since(from))) => {
                format!("The balance tests can be done again, since {from}")
            }
            Self::Assess(_) => "Balance tests, if you like".to_owned(),
            Self::Track => "As a sound file".to_owned(),
            Self::Sheet => "A sheet to print".to_owned(),
        };
        format!("{what}: counterpoise {}", self.command(named))
    }
}

impl Standing {
    /// The commands that would be accepted now.
    pub fn offers(
        &self,
        known: &Trainee,
        prescription: &Prescription,
        around: Surroundings<'_>,
    ) -> Vec<Offer> {
        // Nothing else writes while one window practices.
        if known.going_on {
            return Vec::new();
        }
        let mut offers = Vec::new();
        let can_begin = |steps: &[Option<u8>]| {
            let today = at_steps(prescription, steps);
            let is_within =
                around.in_use.is_none_or(|program| known.harder_than(program, &today, &self.now).is_none());
            let has_all =
                around.has_patches || !today.drills().iter().any(|plan| plan.drill().is_over_patches());
            let partner = today.drills().iter().any(|plan| plan.form() == Form::Partner);
            (is_within && has_all && Scheduler::new(&today).is_ok()).then_some(partner)
        };
        let steps = &self.next.steps;
        let gentler = self.next.gentler();
        match self.state {
            State::ToFinish | State::Due => {
                let practice = can_begin(steps).map(|partner| Offer::Practice { partner });
                let lower = Some(&gentler).filter(|lower| *lower != steps).and_then(|lower| can_begin(lower));
                offers.extend(practice.into_iter().chain(lower.map(|partner| Offer::Gentler { partner })));
            }
            // Whatever day it is, the questions are asked.
            State::ToAnswer => {
                offers.extend(can_begin(steps).map(|partner| Offer::Practice { partner }));
            }
            State::RestDay => offers.extend(can_begin(steps).map(|partner| Offer::Move { partner })),
            _ => {}
        }
        if !self.clearable.is_empty() {
            offers.push(Offer::Clear);
        }
        let again = known.fitness.suitability.is_some();
        if !self.clinician.is_empty() || !again {
            offers.push(Offer::Suitability { again });
        }
        if self.state.is_some_open() {
            let is_for_track = track::check(prescription).is_ok() && can_begin(steps).is_some();
            let own = around.named.is_none();
            offers.extend(own.then(|| Offer::Assess(known.retest(self.now.date()))));
            offers.extend(is_for_track.then_some(Offer::Track));
            offers.extend(own.then_some(Offer::Sheet));
        }
        offers
    }
}
