//! Where a person stands now: one state, the one strongest reason for it, and the commands that would be accepted. Every page
//! and file that says whether practice is possible says what is here, and nothing beside it.

use jiff::ZonedDateTime;
use jiff::civil::Date;

use crate::course::progression::{Barriers, LadderState, Next, Reason};
use crate::course::trainee::{Clearable, Trainee};
use crate::health::suitability::{Effect, Topic};
use crate::plan::prescription::Prescription;
use crate::words;
use crate::words::{day_words, moment_words};

mod offer;

pub use offer::{Offer, Surroundings};

/// What is true of the next practice. The first in this order that applies is the one that is said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum State {
    /// A lock after a sign that needs help at once.
    EmergencyLock,
    /// A lock, or answers about health that say: a clinician first.
    Locked,
    /// A hold of 48 hours.
    Hold,
    /// The answers before practice led to "not today".
    NotToday,
    /// A practice is going on in another window.
    GoingOn,
    /// How the last practice ended for the person is not known: it is asked first.
    ToAnswer,
    /// The last practice is dated in the future.
    WrongDate,
    /// The practice of this day is done.
    DoneToday,
    /// The days of this week are done.
    WeekDone,
    /// A rest day, to which the next practice can be moved.
    RestDay,
    /// An interrupted practice can be finished.
    ToFinish,
    /// Practice is due.
    Due,
}

words! {
    State {
        EmergencyLock => "emergency lock",
        Locked => "locked",
        Hold => "hold",
        NotToday => "not today",
        GoingOn => "going on",
        ToAnswer => "to answer",
        WrongDate => "wrong date",
        DoneToday => "done today",
        WeekDone => "week done",
        RestDay => "rest day",
        ToFinish => "to finish",
        Due => "due",
    }
}

/// Where one person stands under one prescription, at one moment.
///
/// ```
/// use counterpoise_core::course::standing::{State, Standing};
/// use counterpoise_core::course::trainee::Trainee;
/// use counterpoise_core::plan::prescription::Prescription;
/// let gentle = Prescription::ready("gentle").unwrap();
/// let now = "2026-11-02T10:00:00-05:00[America/New_York]".parse().unwrap();
/// let standing = Standing::of(&Trainee::default(), gentle, &now);
/// assert_eq!(standing.state(), State::Due);
/// assert_eq!(standing.said(None), "Practice is due today.");
/// assert_eq!(standing.for_therapist(), Vec::<String>::new(), "nothing bars practice");
/// ```
#[derive(Debug, Clone)]
pub struct Standing {
    /// The next practice: steps, and what decided them.
    pub next: Next,
    state: State,
    /// What bars practice now; `None` where nothing does.
    reason: Option<Reason>,
    /// The day of the practice of which it is asked how it ended.
    unanswered: Option<Date>,
    barriers: Barriers,
    /// The answers that say: a clinician first.
    clinician: Vec<Topic>,
    clearable: Vec<Clearable>,
    now: ZonedDateTime,
}

impl State {
    /// Whether practice is closed for more than the day.
    pub const fn is_barred(self) -> bool {
        matches!(self, Self::EmergencyLock | Self::Locked | Self::Hold | Self::NotToday)
    }

    /// Whether a balance test, a track and a sheet are open: all that is practice in some form, on whatever day.
    pub const fn is_some_open(self) -> bool {
        !self.is_barred() && !self.is_open_ended()
    }

    /// Whether the last practice is not over, or it is not known how it ended.
    const fn is_open_ended(self) -> bool {
        matches!(self, Self::GoingOn | Self::ToAnswer)
    }

    /// Whether the steps and the day of the next practice are known: not under a lock, and not while something that decides
    /// them is not answered.
    pub const fn is_next_known(self) -> bool {
        !self.is_locked() && !self.is_open_ended()
    }

    /// Whether only a clearance opens practice again.
    pub const fn is_locked(self) -> bool {
        matches!(self, Self::EmergencyLock | Self::Locked)
    }

    /// Whether practice may begin now.
    pub const fn is_open(self) -> bool {
        matches!(self, Self::ToFinish | Self::Due)
    }

    /// Whether all is well and there is only nothing to do today.
    pub const fn is_rest(self) -> bool {
        matches!(self, Self::DoneToday | Self::WeekDone | Self::RestDay)
    }

    fn of(reason: &Reason) -> Option<Self> {
        Some(match reason {
            Reason::Locked { what } if what.is_emergency() => Self::EmergencyLock,
            Reason::Locked { .. } | Reason::Clinician { .. } => Self::Locked,
            Reason::Holding { .. } => Self::Hold,
            Reason::NotTodayAnswered { .. } => Self::NotToday,
            Reason::ClockBack { .. } => Self::WrongDate,
            Reason::DoneToday { .. } => Self::DoneToday,
            Reason::WeekFull { .. } => Self::WeekDone,
            Reason::FreeDay { .. } => Self::RestDay,
            Reason::Finish { .. } => Self::ToFinish,
            _ => return None,
        })
    }
}

impl Standing {
    /// Where `known` stands under `prescription`, `now`.
    pub fn of(known: &Trainee, prescription: &Prescription, now: &ZonedDateTime) -> Self {
        let next = known.next(prescription, now);
        // Of several holds the one that ends last is the first among the reasons.
        let found = next.reasons.iter().filter_map(|reason| Some((State::of(reason)?, reason)));
        let strongest = found.min_by_key(|(state, _)| *state);
        let (state, reason) =
            strongest.map_or((State::Due, None), |(state, reason)| (state, Some(reason.clone())));
        // The one that goes on asks for itself.
        let unanswered = known.past.to_ask_about().filter(|_| !known.going_on).map(|session| session.day);
        let state = match unanswered {
            _ if known.going_on => state.min(State::GoingOn),
            Some(_) => state.min(State::ToAnswer),
            None => state,
        };
        let because =
            known.suitability_under(prescription, now.date()).into_iter().flat_map(|found| found.because);
        let clinician = because.filter(|(.., effect)| *effect == Effect::Clinician).map(|(topic, ..)| topic);
        Self {
            state,
            reason,
            unanswered,
            barriers: known.barriers(now),
            clinician: clinician.collect(),
            clearable: known.clearable_under(prescription, now),
            next,
            now: now.clone(),
        }
    }

    /// The state.
    pub fn state(&self) -> State {
        self.state
    }

    /// The strongest reason, as one sentence to the trainee. `number`: whom to call in an emergency; `None` where the
    /// settings have none.
    pub fn said(&self, number: Option<&str>) -> String {
        match (&self.reason, self.unanswered) {
            (_, Some(day)) if self.state == State::ToAnswer => format!(
                "It is not known yet how the practice on {} ended for you: it is asked first, in two short questions.",
                day_words(day, self.now.date())
            ),
            _ if self.state == State::GoingOn => {
                "A practice is going on in another window: go on there, or end it there.".to_owned()
            }
            (Some(reason), _) => reason.said(number),
            (None, _) => "Practice is due today.".to_owned(),
        }
    }

    /// The day of the next practice; `None` under a lock, and where it is not known.
    pub fn next_day(&self) -> Option<Date> {
        let is_known = self.state.is_next_known() && self.state != State::WrongDate;
        self.next.next_day.filter(|_| is_known)
    }

    /// When the last hold runs out; under a lock nobody may wait for it.
    pub fn until(&self) -> Option<&ZonedDateTime> {
        self.next.until.as_ref().filter(|_| !self.state.is_locked())
    }

    /// Whether a hold runs, whatever else is true.
    pub fn is_held(&self) -> bool {
        !self.barriers.holds.is_empty()
    }

    /// The sentence, and the day of the next practice unless the sentence has it.
    pub fn lines(&self, number: Option<&str>) -> Vec<String> {
        let day = self.next_day().filter(|_| self.state != State::Hold);
        let next = day.map(|day| format!("Next: {}.", day_words(day, self.now.date())));
        std::iter::once(self.said(number)).chain(next).collect()
    }

    /// What decided the steps of the next practice, where they are known.
    pub fn about_steps(&self) -> Vec<String> {
        let reasons = self.next.reasons.iter().filter(|reason| State::of(reason).is_none());
        reasons.filter(|_| self.state.is_next_known()).map(ToString::to_string).collect()
    }

    /// All that bars practice or leaves a part of it out, one line each, so that clearing one never looks like clearing all.
    pub fn for_therapist(&self) -> Vec<String> {
        let locks = self.barriers.locks.iter();
        let locks = locks.map(|lock| format!("Locked since {}, not cleared: {}.", lock.day, lock.what));
        let first = self.clinician.iter().map(|topic| format!("A clinician first, not cleared: {topic}."));
        let holds = self.barriers.holds.iter().map(|hold| {
            let until = hold.until.to_zoned_datetime(self.now.time_zone().clone());
            format!("Held until {}: {}.", moment_words(&until, self.now.date()), hold.what)
        });
        let day = self
            .barriers
            .not_before
            .map(|day| format!("\"Not today\" until {}.", day_words(day, self.now.date())));
        let date = self.next.reasons.iter().find(|reason| matches!(reason, Reason::ClockBack { .. }));
        let date = date.map(ToString::to_string);
        let unanswered = self.unanswered.map(|day| {
            format!("Not answered yet: whether the practice on {day} ended with a fall or feeling unwell.")
        });
        let restrictions = self.barriers.restrictions.iter().map(|found| {
            let what = "nothing that needs an unlock, no tosses, no wall throws";
            format!("Since {}, not cleared: {}: {what}.", found.day, found.what)
        });
        let too_hard = self.next.state.filter(|state| *state == LadderState::TooHard);
        let too_hard = too_hard.map(|state| state.to_therapist().to_owned());
        let bars = locks.chain(first).chain(holds).chain(day).chain(unanswered).chain(date);
        bars.chain(restrictions).chain(too_hard).collect()
    }
}

#[cfg(test)]
mod test;
