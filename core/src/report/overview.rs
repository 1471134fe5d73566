//! Many people at a glance: who practices, who stopped, who is locked or held, whose review is due, who is ready to
//! move on. Nobody is ranked, and nothing is scored.

use jiff::civil::Date;
use serde::Serialize;

use crate::course::past::{Past, Sitting};
use crate::course::program::days_between;
use crate::course::progression::{Decision, LAYOFF_DAYS, LadderState};
use crate::course::standing::Standing;
use crate::plan::prescription::{Digest, Prescription};
use crate::words;

mod overview_page;

pub use overview_page::{blocks, heading};

/// The state of a person. Several may be true at once; the first says most.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum State {
    /// A lock that only a clinician's clearance lifts, or answers that say a clinician first.
    Locked,
    /// A hold of 48 hours.
    Held,
    /// As many practices as the prescription says have passed: a therapist looks again.
    Review,
    /// More than 14 days without practice.
    Stopped,
    /// The gentlest step was too hard twice, and nobody has cleared it.
    TooHard,
    /// A fall or two grabs leave out what needs an unlock, until a therapist clears it.
    Restricted,
    /// The next practice steps up.
    Ready,
    /// Every drill is at its highest allowed step.
    AtCeiling,
    /// Practiced within the last 14 days.
    Practices,
    /// Nothing practiced yet.
    New,
}

words! {
    State {
        Locked => "locked",
        Held => "held",
        Review => "review due",
        Stopped => "stopped",
        TooHard => "too hard at the gentlest step",
        Restricted => "limits after a fall or grabs",
        Ready => "ready to move on",
        AtCeiling => "at its ceiling",
        Practices => "practices",
        New => "nothing yet",
    }
}

/// What replaces the next practice where only the digest of the prescription is known.
const NOT_HERE: &str = "Its prescription is not here, so reviews and steps are not shown.";

/// One person's line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Person {
    /// The name of the folder or file, with control characters written out: never a person's name, unless somebody used it as the file name.
    pub name: String,
    /// Everything that is true, what says most first.
    pub states: Vec<State>,
    /// The day of the last practice.
    pub last: Option<Date>,
    /// Days with practice in the last 28 days, today included.
    pub days_in_four_weeks: usize,
    /// Practices under the prescription in use.
    pub practices: usize,
    /// What the next practice would be; `None` where the prescription is not known and nothing bars practice.
    pub next: Option<Decision>,
    /// The first reason for it.
    pub because: String,
    /// Where else the same person was found, by name.
    pub also: Vec<String>,
}

/// The prescription in use.
#[derive(Debug, Clone, Copy)]
pub enum PrescriptionInUse<'a> {
    /// The prescription itself is here.
    Known(&'a Prescription),
    /// Only its digest is here: reviews and steps are not shown.
    Elsewhere(Digest),
}

/// What could not be read, and why.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Skipped {
    /// The name of the folder or file.
    pub name: String,
    /// Why it could not be read, as a sentence.
    pub why: String,
}

/// The order of the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Order {
    /// By name, in alphabetical order.
    #[default]
    Name,
    /// By the last practice, the oldest first; people who never practiced come before.
    Last,
    /// By state, the gravest first.
    State,
}

impl Person {
    /// The state of a person on `today`.
    pub fn of(
        name: &str,
        past: &Past,
        under: PrescriptionInUse<'_>,
        standing: &Standing,
        today: Date,
    ) -> Self {
        let next = &standing.next;
        let sittings = past.sittings();
        let days: Vec<Date> = sittings.iter().map(Sitting::day).filter(|day| *day <= today).collect();
        let last = days.iter().copied().max();
        let mut recent: Vec<Date> = days.into_iter().filter(|day| days_between(*day, today) < 28).collect();
        recent.sort_unstable();
        recent.dedup();
        let (digest, prescription) = match under {
            PrescriptionInUse::Known(prescription) => (prescription.digest(), Some(prescription)),
            PrescriptionInUse::Elsewhere(digest) => (digest, None),
        };
        let practices = sittings.iter().filter(|sitting| sitting.first().digest == digest).count();
        let due = |of: &Prescription| practices >= usize::from(of.review_after_sessions());
        let off = last.map(|last| days_between(last, today));
        let facts = [
            (State::Locked, standing.state().is_locked()),
            (State::Held, standing.is_held()),
            (State::Review, prescription.is_some_and(due)),
            (State::Stopped, off.is_some_and(|off| off > LAYOFF_DAYS)),
            (State::TooHard, next.state == Some(LadderState::TooHard)),
            (State::Restricted, !next.restrictions.is_empty()),
            (State::Ready, prescription.is_some() && next.then == Decision::Up),
            (State::AtCeiling, prescription.is_some() && next.state == Some(LadderState::AtCeiling)),
            (State::Practices, off.is_some_and(|off| off <= LAYOFF_DAYS)),
            (State::New, last.is_none()),
        ];
        // What bars practice does so under every prescription.
        let is_barred = standing.state().is_barred();
        let barred = standing.for_therapist();
        let said = (prescription.is_some() || is_barred).then_some(next.decision);
        let because = match said {
            // All of it: one that is cleared must not look like all.
            Some(_) if !next.is_open() && !barred.is_empty() => barred.join(" "),
            Some(_) if !next.is_open() => standing.said(None),
            Some(_) => standing.about_steps().into_iter().next().unwrap_or_default(),
            None => NOT_HERE.to_owned(),
        };
        Self {
            name: name.to_owned(),
            states: facts.into_iter().filter(|(_, is_so)| *is_so).map(|(state, _)| state).collect(),
            last,
            days_in_four_weeks: recent.len(),
            practices,
            next: said,
            because,
            also: Vec::new(),
        }
    }
}

/// Sorts people; those alike stay in the order of their names.
pub fn sort(people: &mut [Person], order: Order) {
    people.sort_by(|a, b| a.name.cmp(&b.name));
    match order {
        Order::Name => {}
        Order::Last => people.sort_by_key(|person| person.last),
        Order::State => people.sort_by_key(|person| person.states.first().copied()),
    }
}

/// How many people are in each state; a person in several states counts in each.
pub fn counts(people: &[Person]) -> Vec<(State, usize)> {
    let count = |state: &State| people.iter().filter(|person| person.states.contains(state)).count();
    State::ALL.iter().map(|state| (*state, count(state))).collect()
}

#[cfg(test)]
mod test {
    use jiff::civil::{Date, date};

    use super::{Order, Person, PrescriptionInUse, State, counts, sort};
    use crate::course::past::sample::{clean, on, past, prescription};
    use crate::course::past::{Past, PastSession};
    use crate::course::progression::Decision;
    use crate::course::standing::Standing;
    use crate::course::trainee::Trainee;
    use crate::record::{SessionEnd, YesNo};

    fn standing(past: &Past, today: Date) -> Standing {
        Standing::of(&Trainee::new(past.clone(), &[], Vec::new()), &prescription(), &on(today, 20))
    }

    fn person(name: &str, past: &Past, today: Date) -> Person {
        let standing = standing(past, today);
        Person::of(name, past, PrescriptionInUse::Known(&prescription()), &standing, today)
    }

    fn session(day: Date) -> PastSession {
        clean(&prescription(), &on(day, 10), &[1, 2, 2])
    }

    fn nov(day: i8) -> Date {
        date(2026, 11, day)
    }

    #[test]
    fn each_state_on_both_sides_of_its_bound() {
        let states = |past: &Past, today| person("a", past, today).states;
        assert_eq!(states(&Past::default(), nov(2)), [State::New]);
        let one = past([session(nov(2))]);
        assert_eq!(states(&one, nov(16)), [State::Practices], "14 days are no stop");
        assert_eq!(states(&one, nov(17)), [State::Stopped]);
        let two = past([session(nov(2)), session(nov(4))]);
        assert_eq!(states(&two, nov(6)), [State::Ready, State::Practices]);
        let twelve = |count: i8| past((0..count).map(|nth| session(nov(1 + 2 * nth))));
        assert!(!states(&twelve(11), nov(23)).contains(&State::Review));
        assert!(states(&twelve(12), nov(25)).contains(&State::Review));
        let fell = |hurt| {
            past(
                [session(nov(2)).but(|session| (session.end, session.hurt) = (Some(SessionEnd::Fell), hurt))],
            )
        };
        assert_eq!(
            states(&fell(Some(YesNo::Yes)), nov(3)),
            [State::Locked, State::Restricted, State::Practices]
        );
        assert_eq!(
            states(&fell(Some(YesNo::Yes)), nov(30)),
            [State::Locked, State::Stopped, State::Restricted],
            "time lifts no lock"
        );
        assert_eq!(
            states(&fell(Some(YesNo::No)), nov(3)),
            [State::Held, State::Restricted, State::Practices]
        );
        assert_eq!(states(&fell(Some(YesNo::No)), nov(5)), [State::Restricted, State::Practices]);
        let hard = |day| {
            clean(&prescription(), &on(nov(day), 10), &[1, 1, 1])
                .but(|session| session.sets[1].effort = crate::record::Numbered::numbered(10))
        };
        assert_eq!(states(&past([hard(2), hard(4)]), nov(6)), [State::TooHard, State::Practices]);
        let top = |day| clean(&prescription(), &on(nov(day), 10), &[1, 4, 3]);
        assert_eq!(states(&past([top(2), top(4)]), nov(6)), [State::AtCeiling, State::Practices]);
    }

    #[test]
    fn where_the_prescription_is_elsewhere_only_what_does_not_hang_on_it_is_said() {
        let elsewhere = |past: &Past, today: Date| {
            let standing = standing(past, today);
            Person::of("a", past, PrescriptionInUse::Elsewhere(prescription().digest()), &standing, today)
        };
        let twelve = past((0..12).map(|nth| session(nov(1 + 2 * nth))));
        let person = elsewhere(&twelve, nov(25));
        assert_eq!((person.states, person.practices, person.next), (vec![State::Practices], 12, None));
        assert!(person.because.contains("not here"), "{}", person.because);
        let fell = past([session(nov(2))
            .but(|session| (session.end, session.hurt) = (Some(SessionEnd::Fell), Some(YesNo::Yes)))]);
        let person = elsewhere(&fell, nov(30));
        assert_eq!(person.states, [State::Locked, State::Stopped, State::Restricted]);
        assert_eq!(person.next, Some(Decision::Locked), "a lock stands under every prescription");
    }

    #[test]
    fn four_weeks_are_counted_by_days() {
        let past = past([session(nov(1)), session(nov(2)), session(nov(4))]);
        assert_eq!(person("a", &past, nov(28)).days_in_four_weeks, 3);
        assert_eq!(person("a", &past, nov(29)).days_in_four_weeks, 2);
        assert_eq!(
            (person("a", &past, nov(29)).last, person("a", &past, nov(29)).practices),
            (Some(nov(4)), 3)
        );
    }

    #[test]
    fn sorting_is_stable_and_ranks_nobody() {
        let at = |name: &str, day: Option<i8>| {
            let past = past(day.map(|day| session(nov(day))));
            person(name, &past, nov(20))
        };
        let mut people = vec![at("d", Some(19)), at("b", Some(2)), at("c", None), at("a", Some(19))];
        let names = |people: &[Person]| people.iter().map(|person| person.name.clone()).collect::<String>();
        for (order, expected) in [(Order::Name, "abcd"), (Order::Last, "cbad"), (Order::State, "badc")] {
            sort(&mut people, order);
            assert_eq!(names(&people), expected, "{order:?}");
            sort(&mut people, order);
            assert_eq!(names(&people), expected, "again");
        }
        let found = counts(&people);
        assert_eq!(found.iter().map(|(_, count)| count).sum::<usize>(), 4);
        assert!(found.contains(&(State::Practices, 2)) && found.contains(&(State::New, 1)));
    }
}
