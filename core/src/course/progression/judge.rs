//! How one practice went: clean, mixed, or with faults that lower the next one. Each rule appears once, with its
//! numbers.

use crate::course::past::{PastSession, PastSet, Sitting};
use crate::plan::drill::{Action, Drill, Form};
use crate::plan::prescription::{DrillPlan, Prescription};
use crate::record::{Numbered, Response, SessionEnd, Steadiness};

/// Of ten responses asked for, this many must be noted \[judgment\].
const NOTED_OF_TEN: usize = 8;
/// Of ten noted, this many must be "feet in place" or "one step" \[judgment\].
const GOOD_OF_TEN: usize = 8;
/// Up to this many calls, a clean session allows holding on once; above it, twice \[judgment\].
const FEW_CALLS: u32 = 15;
/// The most effort of a clean session, 0 to 10; moderate ends at 6 (US Physical Activity Guidelines \[read\]).
const MAX_EFFORT: u8 = 6;
/// The most effort of a clean session for rises and quick steps, which are meant to be vigorous: 7 to 8 on that scale
/// (US Physical Activity Guidelines \[read\]); that they may be, \[judgment\].
const MAX_EFFORT_QUICK: u8 = 8;
/// Effort of this much lowers the step in any drill \[judgment\].
const EFFORT_TOO_HARD: u8 = 9;
/// Effort of this much lowers the step when it comes twice, except in rises and quick steps \[judgment\].
const EFFORT_HARD: u8 = 7;
/// The highest mean of steadiness, 1 to 5, of a clean session \[judgment\].
const MAX_MEAN_STEADINESS: usize = 3;
/// The number of responses in a row that are looked at together: trials of stroke, in a harness, went by blocks of 4 \[read\];
/// at home \[judgment\].
const WINDOW: usize = 4;
/// This many of them with two or more steps, or worse, lower the step \[judgment: stricter than the more than 2 of 4 of trials\].
const BAD_OF_WINDOW: usize = 2;

/// How a practice went.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Judgment {
    /// Why it was not clean.
    pub shortfalls: Vec<Shortfall>,
    /// What lowers it.
    pub faults: Vec<Fault>,
}

/// Why a session was not clean.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shortfall {
    /// Not all prescribed sets were completed.
    Sets {
        /// Sets completed.
        done: u8,
        /// Sets prescribed.
        planned: u8,
    },
    /// It was ended before its end.
    Ended,
    /// Questions were passed over.
    Unanswered,
    /// Too few responses were noted.
    Unnoted {
        /// Responses that were noted.
        noted: usize,
        /// Pushes asked for.
        of: usize,
    },
    /// Too few were in place or one step.
    Steps {
        /// In place or one step.
        good: usize,
        /// Responses that were noted.
        of: usize,
    },
    /// Held on too often.
    HeldOn {
        /// How often in the practice.
        times: u32,
        /// The most that a clean session allows.
        most: u32,
    },
    /// Too much effort.
    Effort {
        /// The hardest rating, 0 to 10.
        effort: u8,
        /// The most that a clean session allows.
        most: u8,
    },
    /// Not steady enough on the average.
    Unsteady,
    /// The person felt unwell.
    Symptom,
    /// A gentler practice was chosen.
    Gentler,
    /// An entry of it does not fit.
    Doubtful,
}

/// What lowers the next practice by one step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fault {
    /// The person fell.
    Fell,
    /// The person felt unwell.
    Unwell,
    /// Grabbed hold or nearly fell.
    Grabbed(Place),
    /// Grabbed hold, or was steadied, before this set, which was then not begun.
    GrabbedBefore(u8),
    /// One step lower was advised, and no grab is on record.
    Advised(Place),
    /// Two of four responses were two or more steps, or worse.
    Steps(Place),
    /// A set was rated 9 or 10 of 10.
    TooHard(Place),
    /// Two sets were rated 7 of 10 or more.
    Hard(Place),
    /// A set was rated "lost balance".
    LostBalance(Place),
    /// Two sets were rated "very unsteady" or worse.
    Unsteady(Place),
    /// Stopped because of feeling unsteady.
    Stopped(Place),
}

/// The drill in which something happened.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// The drill's name.
    pub drill: String,
    /// Alone or with a partner.
    pub form: Form,
}

impl Judgment {
    /// Whether it counts toward a step up.
    pub fn is_clean(&self) -> bool {
        self.shortfalls.is_empty() && self.faults.is_empty()
    }
}

impl Fault {
    fn place(&self) -> Option<&Place> {
        match self {
            Self::Fell | Self::Unwell | Self::GrabbedBefore(_) => None,
            Self::Grabbed(place)
            | Self::Advised(place)
            | Self::Steps(place)
            | Self::TooHard(place)
            | Self::Hard(place)
            | Self::LostBalance(place)
            | Self::Unsteady(place)
            | Self::Stopped(place) => Some(place),
        }
    }

    /// The drill in which it happened, and its form; `None` where it is about the person.
    pub(super) fn drill(&self) -> Option<(&str, Form)> {
        self.place().map(|place| (place.drill.as_str(), place.form))
    }

    /// Whether it is about the person and not about one drill: everything goes down.
    pub fn is_about_person(&self) -> bool {
        self.place().is_none()
    }

    /// Whether it happened in this drill.
    pub fn is_in(&self, drill: &str, form: Form) -> bool {
        self.place().is_some_and(|place| place.drill == drill && place.form == form)
    }
}

fn place(set: &PastSet) -> Place {
    Place { drill: set.drill.clone(), form: set.form }
}

/// Rises and quick steps are meant to be vigorous.
fn is_quick(set: &PastSet) -> bool {
    let quick = |action| matches!(action, Action::Rise | Action::Step);
    Drill::named(&set.drill).is_some_and(|drill| drill.targets().iter().any(|target| quick(target.action)))
}

/// Judges one day's practice. `prescription` is the one under which it was done.
pub fn judge(sitting: &Sitting<'_>, prescription: &Prescription) -> Judgment {
    Judgment { shortfalls: shortfalls(sitting, prescription), faults: faults(sitting) }
}

fn shortfalls(sitting: &Sitting<'_>, prescription: &Prescription) -> Vec<Shortfall> {
    let sets: Vec<&PastSet> = sitting.sets().collect();
    let mut found = Vec::new();
    let done = sitting.done().len() as u8;
    let prescribed: u8 = prescription.drills().iter().map(DrillPlan::sets).sum();
    let planned = sitting.first().sets_whole.unwrap_or(prescribed);
    if done < planned {
        found.push(Shortfall::Sets { done, planned });
    } else if sitting.last().end != Some(SessionEnd::Finished) {
        found.push(Shortfall::Ended);
    }
    if sets.iter().any(|set| !answered(set)) {
        found.push(Shortfall::Unanswered);
    }
    let responses: Vec<Option<Response>> =
        sets.iter().flat_map(|set| set.responses.iter().copied()).collect();
    let noted: Vec<Response> = responses.iter().copied().flatten().collect();
    if noted.len() * 10 < responses.len() * NOTED_OF_TEN {
        found.push(Shortfall::Unnoted { noted: noted.len(), of: responses.len() });
    }
    let good = noted.iter().filter(|response| **response <= Response::OneStep).count();
    if good * 10 < noted.len() * GOOD_OF_TEN {
        found.push(Shortfall::Steps { good, of: noted.len() });
    }
    let calls: u32 = sets.iter().map(|set| u32::from(set.cues)).sum();
    let times: u32 = sets.iter().filter_map(|set| set.held_on).map(|times| u32::from(times.number())).sum();
    let most = if calls <= FEW_CALLS { 1 } else { 2 };
    if times > most {
        found.push(Shortfall::HeldOn { times, most });
    }
    let over = sets.iter().filter_map(|set| {
        let most = most_effort(set, prescription);
        set.effort
            .map(Numbered::number)
            .filter(|effort| *effort > most)
            .map(|effort| Shortfall::Effort { effort, most })
    });
    found.extend(over.max_by_key(|shortfall| match shortfall {
        Shortfall::Effort { effort, .. } => *effort,
        _ => 0,
    }));
    let steady: Vec<usize> =
        sets.iter().filter_map(|set| set.steadiness).map(|steady| usize::from(steady.number())).collect();
    if steady.iter().sum::<usize>() > MAX_MEAN_STEADINESS * steady.len() {
        found.push(Shortfall::Unsteady);
    }
    if sitting.sessions().any(PastSession::felt_unwell) {
        found.push(Shortfall::Symptom);
    }
    if gentler(sitting) {
        found.push(Shortfall::Gentler);
    }
    if sitting.sessions().any(|session| session.doubtful) {
        found.push(Shortfall::Doubtful);
    }
    found
}

/// A tightened limit of the prescription holds for every drill.
fn most_effort(set: &PastSet, prescription: &Prescription) -> u8 {
    let tightened = prescription.effort_at_most();
    if is_quick(set) && tightened >= MAX_EFFORT { MAX_EFFORT_QUICK } else { tightened.min(MAX_EFFORT) }
}

/// Whether every question after a set was answered.
fn answered(set: &PastSet) -> bool {
    set.is_grab_known()
        && set.held_on.is_some()
        && set.effort.is_some()
        && set.steadiness.is_some()
        && set.unwell.is_some()
}

/// Whether any drill was practiced below the step that progression gave.
fn gentler(sitting: &Sitting<'_>) -> bool {
    sitting.sets().any(|set| {
        let given = sitting.first().given.iter();
        let given = given.filter(|given| given.drill == set.drill && given.form == set.form);
        given.map(|given| given.step).min().is_some_and(|given| set.step < given)
    })
}

/// What of this practice lowers the next one.
pub(super) fn faults(sitting: &Sitting<'_>) -> Vec<Fault> {
    let sets: Vec<&PastSet> = sitting.sets().collect();
    let mut found = Vec::new();
    if sitting.sessions().any(PastSession::fell) {
        found.push(Fault::Fell);
    }
    if sitting.sessions().any(PastSession::felt_unwell) {
        found.push(Fault::Unwell);
    }
    found.extend(sitting.sessions().flat_map(PastSession::grabs_before_sets).map(Fault::GrabbedBefore));
    let mut add = |fault: Fault| {
        if !found.contains(&fault) {
            found.push(fault);
        }
    };
    sets.iter().filter(|set| set.near_fall()).for_each(|set| add(Fault::Grabbed(place(set))));
    if sitting.last().end == Some(SessionEnd::Grabbed) && !sets.iter().any(|set| set.near_fall()) {
        sets.last().into_iter().for_each(|set| add(Fault::Grabbed(place(set))));
    }
    let advised = sets.iter().filter(|set| set.advised_lower && !set.near_fall());
    advised.for_each(|set| add(Fault::Advised(place(set))));
    // Responses of a session in a row, whatever the drill. Three bad ones of the first five always hold two of some four
    // in a row, so that rule needs no code of its own (a test checks every case).
    let noted: Vec<(&PastSet, Response)> = sets
        .iter()
        .flat_map(|set| set.responses.iter().flatten().map(|response| (*set, *response)))
        .collect();
    for window in (0..noted.len()).map(|from| &noted[from..noted.len().min(from + WINDOW)]) {
        let bad: Vec<&PastSet> = window
            .iter()
            .filter(|(_, response)| *response >= Response::MoreSteps)
            .map(|(set, _)| *set)
            .collect();
        if bad.len() >= BAD_OF_WINDOW {
            for set in bad {
                add(Fault::Steps(place(set)));
            }
        }
    }
    sets.iter()
        .filter(|set| set.effort.is_some_and(|effort| effort.number() >= EFFORT_TOO_HARD))
        .for_each(|set| add(Fault::TooHard(place(set))));
    let hard: Vec<&&PastSet> = sets
        .iter()
        .filter(|set| !is_quick(set) && set.effort.is_some_and(|effort| effort.number() >= EFFORT_HARD))
        .collect();
    if hard.len() >= 2 {
        for set in hard {
            add(Fault::Hard(place(set)));
        }
    }
    sets.iter().filter(|set| set.lost_balance()).for_each(|set| add(Fault::LostBalance(place(set))));
    let unsteady: Vec<&&PastSet> =
        sets.iter().filter(|set| set.steadiness >= Some(Steadiness::VeryUnsteady)).collect();
    if unsteady.len() >= 2 {
        for set in unsteady {
            add(Fault::Unsteady(place(set)));
        }
    }
    if sitting.sessions().any(PastSession::stopped_unsteady) {
        sets.last().into_iter().for_each(|set| add(Fault::Stopped(place(set))));
    }
    found
}
