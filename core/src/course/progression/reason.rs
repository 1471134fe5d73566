//! Why a decision was made: each reason is a value with its numbers, and a sentence to the person.

use std::fmt;

use jiff::ZonedDateTime;
use jiff::civil::Date;

use super::LAYOFF_DAYS;
use super::judge::{Fault, Place, Shortfall};
use super::ladder_state::LadderState;
use crate::health::bounds::{Bounds, Limits};
use crate::health::lock::{Hold, Lock, Restriction};
use crate::plan::drill::{Drill, Form, LadderStep};
use crate::plan::health_topic::Topic;
use crate::words::{counted, day_words, moment_words};

/// One reason of a decision.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reason {
    /// A lock is in force.
    Locked {
        /// The lock.
        what: Lock,
    },
    /// Suitability says: a clinician first.
    Clinician {
        /// The gravest answer, as a sentence.
        because: String,
    },
    /// A hold is running.
    Holding {
        /// The hold, which names what was reported or happened.
        what: Hold,
        /// The moment it runs out.
        until: ZonedDateTime,
        /// The day on which that is said.
        today: Date,
    },
    /// The answers before practice led to "not today".
    NotTodayAnswered {
        /// The next day.
        next: Date,
    },
    /// The session of this day is done.
    DoneToday {
        /// The next day.
        next: Date,
    },
    /// A free day.
    FreeDay {
        /// The next day.
        next: Date,
    },
    /// The days of a week are used up.
    WeekFull {
        /// The next day.
        next: Date,
    },
    /// The last practice is dated in the future.
    ClockBack {
        /// The day of that practice, later than `day`.
        last: Date,
        /// The day on the clock.
        day: Date,
    },
    /// An interrupted session is finished.
    Finish {
        /// The first set to do.
        first_set: u8,
    },
    /// Two clean sessions in a row.
    Up {
        /// The drill's title.
        drill: String,
        /// The new step.
        step: u8,
        /// What changes, in words.
        change: String,
    },
    /// Something in the last practice lowers the next one.
    Fault {
        /// The fault in the last practice.
        fault: Fault,
    },
    /// The person reported a fall or dizziness.
    Reported {
        /// The hold, which names what was reported or happened.
        what: Hold,
    },
    /// Many days without practice.
    Layoff {
        /// Days since the last practice.
        days: i32,
    },
    /// The last session was not clean.
    Mixed {
        /// Why it was not clean.
        shortfall: Shortfall,
    },
    /// One clean session so far.
    OneClean,
    /// No practice yet.
    FirstPractice,
    /// A review is due.
    Review {
        /// Sessions so far.
        sessions: usize,
        /// After how many it was due.
        review: u16,
    },
    /// The weeks have passed.
    ProgramOver {
        /// Weeks of the program.
        weeks: u8,
    },
    /// It would go down, but is already at the first step.
    Gentlest,
    /// Every drill is at its highest step.
    AtCeiling,
    /// The gentlest step was too hard twice.
    TooHard,
    /// A fall or two grabs leave a part of this program out.
    Restricted {
        /// What it comes from.
        what: Restriction,
    },
    /// The prescription accepts what the answers about suitability would hold back.
    Accepted {
        /// The reason given in the prescription.
        because: String,
    },
    /// The prescription accepts a topic that would lock.
    AcceptedTopic {
        /// The topic.
        topic: Topic,
        /// Who accepts it.
        who: String,
        /// The day.
        when: Date,
    },
    /// The person's limits.
    Bounds {
        /// What the limits leave.
        bounds: Bounds,
    },
    /// What they mean where steps are compared with them.
    Limits {
        /// The limits.
        limits: Limits,
    },
}

/// What differs from one step to another: "the feet come to feet together".
pub(super) fn change(from: LadderStep, to: LadderStep) -> String {
    let mut said = Vec::new();
    if from.stance != to.stance {
        said.push(format!("the stance changes from {} to {}", from.stance, to.stance));
    }
    if from.surface != to.surface {
        said.push(format!("the surface changes from {} to {}", from.surface, to.surface));
    }
    if from.support != to.support {
        said.push(format!("the support changes from {} to {}", from.support, to.support));
    }
    match (from.second_task, to.second_task) {
        (before, Some(task)) if before != Some(task) => said.push(format!("you {task} at the same time")),
        (Some(task), None) => said.push(format!("you no longer {task} at the same time")),
        _ => {}
    }
    if from.parts != to.parts {
        said.push(format!("a call has up to {}", counted(usize::from(to.parts), "part")));
    }
    said.join(", and ")
}

/// What follows from a fact that lowers. Said on rest days too, so it does not name today.
const LOWER: &str = "so the next practice starts one step lower";

impl Reason {
    /// The reason as a sentence to the trainee. `number`: whom to call in an emergency; `None` where the settings have none.
    ///
    /// Whatever bars practice is one sentence. "Call now" belongs to the moment of the event: here it depends on "if you
    /// have it now".
    pub fn said(&self, number: Option<&str>) -> String {
        match self {
            Self::Locked { what } if what.is_emergency() => format!(
                "If you have {what} now, call {}; practice stays locked until a clinician has cleared you.",
                number.unwrap_or("your local emergency number")
            ),
            _ => self.to_string(),
        }
    }
}

impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Locked { what } if what.is_emergency() => f.write_str(&self.said(None)),
            Self::Locked { what } => write!(f, "Practice is locked after {what}: {}.", what.advice()),
            Self::Clinician { because } => {
                write!(f, "{}: talk to a clinician before you practice.", because.trim_end_matches('.'))
            }
            Self::Holding { what, until, today } => {
                let tell = if what.tell_therapist() { ", and tell your therapist" } else { "" };
                write!(f, "Rest until {}, after {what}{tell}.", moment_words(until, *today))
            }
            Self::NotTodayAnswered { .. } => f.write_str("You said you are not up to it today."),
            Self::DoneToday { .. } => f.write_str("Today's practice is done."),
            Self::FreeDay { .. } => f.write_str("Today is a rest day."),
            Self::WeekFull { .. } => f.write_str("This week's practice is done."),
            Self::ClockBack { last, day } => write!(
                f,
                "The last practice is dated {}, but this computer says today is {}: check its date and time.",
                day_words(*last, *day),
                day_words(*day, *last)
            ),
            Self::Finish { first_set } => {
                write!(f, "The last practice was interrupted; it goes on with set {first_set}.")
            }
            Self::Up { drill, step, change } => write!(
                f,
                "Two clean sessions in a row, so {drill} goes up to step {step}: {change}. Everything else stays the same."
            ),
            Self::Fault { fault } => write!(f, "{}, {LOWER}.", fault_words(fault)),
            Self::Reported { what: Hold::Fall } => write!(f, "You reported a fall, {LOWER}."),
            Self::Reported { what: Hold::Grab } => write!(f, "You grabbed hold or nearly fell, {LOWER}."),
            Self::Reported { what } => write!(f, "You reported {what}, {LOWER}."),
            Self::Layoff { days } => {
                write!(f, "The last practice was {days} days ago (more than {LAYOFF_DAYS}), {LOWER}.")
            }
            Self::Mixed { shortfall } => write!(f, "{shortfall} The step stays the same."),
            Self::OneClean => {
                f.write_str("One clean session at this step. A second one in a row moves it up.")
            }
            Self::FirstPractice => f.write_str("This is the first practice of this program."),
            Self::Review { sessions, review } => write!(
                f,
                "Your therapist should review the program after {}; there have been {sessions}. You can go on; the step \
                 stays the same.",
                counted(usize::from(*review), "session")
            ),
            Self::ProgramOver { weeks } => write!(
                f,
                "This program is over after {}. You can go on; the step stays the same. Ask your therapist what comes \
                 next.",
                counted(usize::from(*weeks), "week")
            ),
            Self::Gentlest => f.write_str("It is already at the gentlest step."),
            Self::AtCeiling => f.write_str(LadderState::AtCeiling.sentence()),
            Self::TooHard => f.write_str(LadderState::TooHard.sentence()),
            Self::Restricted { what } => f.write_str(what.sentence()),
            Self::Accepted { because } => {
                write!(
                    f,
                    "The person who issued the program accepts your answers about suitability: {because}."
                )
            }
            Self::AcceptedTopic { topic, who, when } => {
                write!(f, "Your program accepts your answer about {topic} ({who}, {when}). Its limits stay.")
            }
            Self::Bounds { bounds } => write!(f, "Your limits: {bounds}"),
            Self::Limits { limits } => {
                write!(f, "Where your program uses a newer ladder, your limits are: {limits}")
            }
        }
    }
}

fn drill_title(place: &Place) -> String {
    let drill = Drill::named(&place.drill);
    drill.map_or_else(|| place.drill.clone(), |drill| drill.title().to_owned())
}

fn fault_words(fault: &Fault) -> String {
    match fault {
        Fault::Fell => "There was a fall".to_owned(),
        Fault::Unwell => "You felt unwell".to_owned(),
        // With a partner a near fall counts as a grab, and two of them end the practice.
        Fault::Grabbed(place) if place.form == Form::Partner => {
            format!("There was a grab with your partner ({})", drill_title(place))
        }
        Fault::Grabbed(place) => format!("You grabbed hold or nearly fell ({})", drill_title(place)),
        Fault::GrabbedBefore(set) => format!("There was a grab before set {set}"),
        Fault::Advised(place) => format!("One step lower was advised ({})", drill_title(place)),
        Fault::Steps(place) => {
            format!("Two of four pushes in a row took two steps or more ({})", drill_title(place))
        }
        Fault::TooHard(place) => format!("It was very hard ({})", drill_title(place)),
        Fault::Hard(place) => format!("It was hard in two sets ({})", drill_title(place)),
        Fault::LostBalance(place) => format!("You lost your balance ({})", drill_title(place)),
        Fault::Unsteady(place) => format!("You were very unsteady in two sets ({})", drill_title(place)),
        Fault::Stopped(place) => format!("You stopped because you felt unsteady ({})", drill_title(place)),
    }
}

impl fmt::Display for Shortfall {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Sets { done, planned } => {
                write!(f, "You completed {done} of {}.", counted(usize::from(*planned), "set"))
            }
            Self::Ended => f.write_str("The session ended early."),
            Self::Unanswered => f.write_str("Not every question was answered."),
            Self::Unnoted { noted, of } => {
                write!(
                    f,
                    "The partner noted {noted} of {}; at least 8 of 10 are needed.",
                    counted(*of, "push")
                )
            }
            Self::Steps { good, of } => {
                let pushes = counted(*of, "push");
                write!(f, "You took one step at most in {good} of {pushes}; at least 8 of 10 are needed.")
            }
            Self::HeldOn { times, most } => {
                write!(f, "You held on {times} times; a clean session allows {most} at most.")
            }
            Self::Effort { effort, most } => {
                write!(f, "The effort was {effort} of 10; a clean session allows {most} at most.")
            }
            Self::Unsteady => f.write_str("On average you felt unsteady."),
            Self::Symptom => f.write_str("You felt unwell."),
            Self::Gentler => f.write_str("You chose a gentler practice."),
            Self::Doubtful => f.write_str("A value in the journal of that practice cannot be right."),
        }
    }
}
