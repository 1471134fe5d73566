//! What people may see of their own practice: this week, what is next, how it is going. Plain and kind: no scores, no
//! comparison with others, no streaks to lose. A change is called one only by the rule of the report (`trend`). The
//! therapist's view is in `report`.

use jiff::civil::Date;

use crate::course::past::{Past, PastSession, Sitting};
use crate::course::program::{Program, days_between};
use crate::course::progression::Decision;
use crate::course::standing::{Standing, State};
use crate::course::trend::{Slope, Way, of_practice, slope};
use crate::plan::drill::Drill;
use crate::plan::prescription::{DrillPlan, Prescription};
use crate::record::Question;
use crate::words::counted;

/// What the person reads: a few sentences for each part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Progress {
    /// Sentences about this week.
    pub week: Vec<String>,
    /// Sentences about what is next.
    pub next: Vec<String>,
    /// Sentences about how it is going.
    pub going: Vec<String>,
}

impl Progress {
    /// The progress as of `today`. `number`: whom to call in an emergency.
    pub fn of(
        past: &Past,
        prescription: &Prescription,
        standing: &Standing,
        number: Option<&str>,
        today: Date,
    ) -> Self {
        let program = Program::new(past, prescription);
        let sittings = past.sittings();
        let days: Vec<Date> = sittings.iter().map(Sitting::day).filter(|day| *day <= today).collect();
        Self {
            week: week(&program, &days, prescription, today),
            next: upcoming(standing, number),
            going: going(&sittings, prescription),
        }
    }

    /// Everything with its headings.
    pub fn parts(&self) -> [(&'static str, &[String]); 3] {
        [("This week", &self.week), ("What is next", &self.next), ("How it is going", &self.going)]
    }
}

fn week(program: &Program<'_>, days: &[Date], prescription: &Prescription, today: Date) -> Vec<String> {
    let asked = usize::from(prescription.days_a_week());
    let done = program.done_this_week(today) + usize::from(days.contains(&today));
    let times = |count: usize| match count {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        count => format!("{count} times"),
    };
    let mut lines = vec![match done {
        0 if days.is_empty() => "This is your first practice. It begins gently.".to_owned(),
        0 => "Nothing yet this week. Any time is a good time to begin.".to_owned(),
        done if done >= asked => {
            format!("You practiced {}. That completes your week: rest well.", times(done))
        }
        done => format!("You practiced {}. Your plan has {asked} days.", times(done)),
    }];
    if let Some(last) = days.last().filter(|last| days_between(**last, today) > 7) {
        let off = days_between(*last, today);
        lines.push(format!(
            "It has been {off} days since your last practice. That happens. You do not have to make anything up."
        ));
    }
    lines.extend(so_far(days.len()));
    lines.extend(since_issued(program, prescription, today));
    lines
}

/// "Nine practices so far." A total has nothing to lose, as a streak has.
fn so_far(practices: usize) -> Option<String> {
    const WORDS: [&str; 12] =
        ["One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve"];
    let noun = if practices == 1 { "practice" } else { "practices" };
    match WORDS.get(practices.checked_sub(1)?) {
        Some(word) => Some(format!("{word} {noun} so far.")),
        None => Some(format!("{practices} {noun} so far.")),
    }
}

/// Days count from the day on which somebody issued the program. A ready one was issued by nobody.
fn since_issued(program: &Program<'_>, prescription: &Prescription, today: Date) -> Option<String> {
    let issued = prescription.issued_on();
    let day = days_between(issued, today) + 1;
    if prescription.issued_by().is_empty() || day < 1 {
        return None;
    }
    let late = program.began().map(|began| days_between(issued, began)).filter(|late| *late > 0);
    let late = late.map(|late| format!(", which began {} late", counted(late, "day"))).unwrap_or_default();
    Some(format!("This is day {day} of your program{late}."))
}

fn upcoming(standing: &Standing, number: Option<&str>) -> Vec<String> {
    let mut lines = standing.lines(number);
    if standing.state() == State::Due {
        lines.push(
            match standing.next.decision {
                Decision::Up => "One thing becomes a little harder.",
                Decision::Down => "It is a little easier than last time.",
                _ => "It is the same as last time.",
            }
            .to_owned(),
        );
    }
    if standing.state().is_open() {
        lines.push("You can always choose a gentler practice: counterpoise practice --gentler".to_owned());
    }
    lines
}

/// What changed under this prescription: steps that went up, and the person's own ratings by the rule of the report. Where
/// there is no trend, nothing is called better or worse.
fn going(sittings: &[Sitting<'_>], prescription: &Prescription) -> Vec<String> {
    let ours: Vec<&Sitting<'_>> =
        sittings.iter().filter(|sitting| sitting.first().digest == prescription.digest()).collect();
    let sessions: Vec<&PastSession> = ours.iter().flat_map(|sitting| sitting.sessions()).collect();
    let mut lines: Vec<String> =
        prescription.drills().iter().skip(1).filter_map(|plan| step_gain(plan, &sessions)).collect();
    let mut same = Vec::new();
    for (question, what, better, worse) in RATINGS {
        let values = ours.iter().filter_map(|sitting| of_practice(sitting.sets(), question));
        let values: Vec<f64> = values.map(f64::from).collect();
        match slope(&values).map(Slope::way) {
            None => {}
            // A lower number is the better one in all of them.
            Some(Some(Way::Down)) => lines.push(better.to_owned()),
            Some(Some(Way::Up)) => lines.push(worse.to_owned()),
            Some(None) => same.push(what),
        }
    }
    if !same.is_empty() {
        lines.push(format!("About the same as before: {}.", same.join(", ")));
    }
    if lines.is_empty() {
        lines.push(
            "It is too early to see a change. That is normal: it takes weeks, and every practice counts."
                .to_owned(),
        );
    }
    lines
}

/// The ratings, each with what is said of it: no trend, better, worse.
const RATINGS: [(Question, &str, &str, &str); 3] = [
    (
        Question::Effort,
        "how hard it feels",
        "It feels less hard than at first, by your own ratings.",
        "It has felt harder lately, by your own ratings. That happens. Your therapist will want to know.",
    ),
    (
        Question::Steadiness,
        "how steady you feel",
        "You feel steadier than at first, by your own ratings.",
        "You have felt less steady lately, by your own ratings. That happens. Your therapist will want to know.",
    ),
    (
        Question::HeldOn,
        "how often you hold on",
        "You hold on less often than at first. Holding on is always right when you need it.",
        "You have held on more often lately. Holding on is always right. Your therapist will want to know.",
    ),
];

/// "Reaches at the counter: at first feet apart, one hand; now feet together, one hand."
fn step_gain(plan: &DrillPlan, ours: &[&PastSession]) -> Option<String> {
    let drill: &Drill = plan.drill();
    let steps: Vec<u8> = ours
        .iter()
        .flat_map(|session| &session.sets)
        .filter(|set| set.drill == drill.name() && set.form == plan.form())
        .map(|set| set.step)
        .collect();
    let (first, last) = (*steps.first()?, *steps.last()?);
    let words = |step: u8| {
        let conditions = plan.ladder().steps().get(usize::from(step) - 1)?;
        Some(format!("{}, {}", conditions.stance, conditions.support))
    };
    (last > first)
        .then(|| Some(format!("{}: at first {}; now {}.", drill.title(), words(first)?, words(last)?)))?
}

#[cfg(test)]
mod test {
    use jiff::civil::{Date, date};

    use super::Progress;
    use crate::course::past::sample::{at, clean, on, past, prescription};
    use crate::course::past::{Past, PastSession};
    use crate::course::standing::Standing;
    use crate::course::trainee::Trainee;
    use crate::record::{Effort, Numbered, SessionEnd, Steadiness, Symptom, Times, YesNo};

    fn session(day: Date, steps: &[u8]) -> PastSession {
        clean(&prescription(), &on(day, 10), steps)
    }

    fn progress(past: &Past, today: Date) -> Progress {
        let known = Trainee::new(past.clone(), &[], Vec::new());
        let standing = Standing::of(&known, &prescription(), &on(today, 20));
        Progress::of(past, &prescription(), &standing, Some("555-0100"), today)
    }

    fn nov(day: i8) -> Date {
        date(2026, 11, day)
    }

    #[test]
    fn the_week_is_told_without_reproach() {
        let week = |past: &Past, day| progress(past, day).week.join(" ");
        assert!(week(&Past::default(), nov(2)).starts_with("This is your first practice."));
        let two = past([session(nov(2), &[1, 2, 2]), session(nov(4), &[1, 2, 2])]);
        assert_eq!(week(&two, nov(4)), "You practiced twice. Your plan has 3 days. Two practices so far.");
        let three = past([2, 4, 6].map(|day| session(nov(day), &[1, 2, 2])));
        assert!(week(&three, nov(7)).contains("That completes your week"));
        let late = week(&two, nov(25));
        assert!(
            late.contains("Nothing yet this week")
                && late.contains("21 days")
                && late.contains("That happens"),
            "{late}"
        );
    }

    #[test]
    fn what_is_next_follows_the_rules() {
        let next = |past: &Past, day| progress(past, day).next.join(" ");
        let two = past([session(nov(2), &[1, 2, 2]), session(nov(4), &[1, 2, 2])]);
        assert!(next(&two, nov(6)).contains("One thing becomes a little harder"));
        assert!(next(&two, nov(25)).contains("a little easier than last time"));
        let done = next(&two, nov(4));
        assert_eq!(done.matches("Friday, November 6").count(), 1, "the day is named once: {done}");
        let fell = past([session(nov(2), &[1, 2, 2])
            .but(|session| (session.end, session.hurt) = (Some(SessionEnd::Fell), Some(YesNo::Yes)))]);
        assert!(next(&fell, nov(9)).contains("clinician"), "{}", next(&fell, nov(9)));
        assert!(!next(&fell, nov(9)).contains("gentler"), "nothing may be chosen under a lock");
        // Of two locks the one that may need help now is said, and nothing weaker beside it.
        let both = past([
            session(nov(2), &[1, 2, 2])
                .but(|session| (session.end, session.hurt) = (Some(SessionEnd::Fell), Some(YesNo::Yes))),
            session(nov(4), &[1, 2, 2]).but(|session| {
                (session.end, session.symptom) = (Some(SessionEnd::Unwell), Some(Symptom::Chest));
            }),
        ]);
        let said = next(&both, nov(9));
        assert!(said.contains("call 555-0100") && !said.contains("fall"), "{said}");
    }

    #[test]
    fn better_and_worse_are_only_what_the_rule_of_the_report_calls_a_trend() {
        let going = |past: &Past| progress(past, nov(28)).going.join(" ");
        let days = [2, 4, 6, 9, 11, 13];
        let rated = |efforts: &[u8]| {
            let rate = |(day, effort): (i8, &u8)| {
                session(nov(day), &[1, 2, 2]).but(|session| {
                    session.sets.iter_mut().for_each(|set| set.effort = Effort::numbered(*effort));
                })
            };
            past(days.into_iter().zip(efforts).map(rate))
        };
        let same = "About the same as before: how hard it feels, how steady you feel, how often you hold on.";
        assert_eq!(going(&rated(&[4; 6])), same);
        // By hand: of six values in a falling row every slope is below zero, and so is the whole interval.
        let better = going(&rated(&[8, 7, 6, 5, 4, 3]));
        assert!(better.starts_with("It feels less hard than at first"), "{better}");
        assert!(
            better.ends_with("About the same as before: how steady you feel, how often you hold on."),
            "{better}"
        );
        let worse = going(&rated(&[3, 4, 5, 6, 7, 8]));
        assert!(
            worse.starts_with("It has felt harder lately, by your own ratings. That happens."),
            "{worse}"
        );
        // The last three are easier on average than the first three, and it is no trend all the same.
        assert_eq!(going(&rated(&[6, 4, 6, 6, 4, 4])), same);
        let five = past(rated(&[8, 7, 6, 5, 4, 3]).sessions.into_iter().take(5));
        assert!(going(&five).starts_with("It is too early to see a change"), "{}", going(&five));
        let mut all = rated(&[4; 6]);
        for (nth, session) in (0..).zip(&mut all.sessions) {
            session.sets.iter_mut().for_each(|set| {
                set.steadiness = Steadiness::numbered(1 + (5 - nth) * 4 / 5);
                set.held_on = Some(if nth < 3 { Times::Once } else { Times::Never });
            });
        }
        assert!(going(&all).contains("You feel steadier than at first"), "{}", going(&all));
        let up = past([session(nov(2), &[1, 2, 2]), session(nov(4), &[1, 3, 2])]);
        assert!(going(&up).contains(": at first ") && going(&up).contains("; now "), "{}", going(&up));
    }

    #[test]
    fn totals_are_told_and_days_count_from_the_day_of_issue() {
        let week = |past: &Past, day| progress(past, day).week.join(" ");
        let nine = past((0..9).map(|nth| session(nov(2 + 2 * nth), &[1, 2, 2])));
        assert!(week(&nine, nov(20)).contains("Nine practices so far."), "{}", week(&nine, nov(20)));
        assert!(week(&past([session(nov(2), &[1, 2, 2])]), nov(2)).contains("One practice so far."));
        assert!(!week(&Past::default(), nov(2)).contains("so far"));
        assert!(!week(&nine, nov(20)).contains("late"), "nobody issued it");
        let issued = |on: i8| {
            let text = include_str!("../../../presets/prescriptions/gentle.toml")
                .replace("issued_by = \"\"", "issued_by = \"K. L.\"")
                .replace("issued_on = 2026-11-25", &format!("issued_on = 2026-11-{on:02}"));
            crate::plan::prescription::Prescription::read("issued.toml", text.as_bytes()).unwrap()
        };
        let told = |on: i8| {
            let prescription = issued(on);
            let practiced = past([clean(&prescription, &at(10), &[1, 1])]);
            let known = Trainee::new(practiced.clone(), &[], Vec::new());
            let standing = Standing::of(&known, &prescription, &at(21));
            Progress::of(&practiced, &prescription, &standing, None, nov(21)).week.join(" ")
        };
        assert!(told(2).ends_with("This is day 20 of your program, which began 8 days late."), "{}", told(2));
        assert!(told(9).ends_with("This is day 13 of your program, which began 1 day late."), "{}", told(9));
        assert!(told(10).ends_with("This is day 12 of your program."), "{}", told(10));
    }

    #[test]
    fn nothing_is_scored_and_nobody_compared() {
        for past in [Past::default(), past([2, 4, 6].map(|day| session(nov(day), &[1, 2, 2])))] {
            let said = format!("{:?}", progress(&past, nov(20))).to_lowercase();
            for word in ["score", "point", "streak", "badge", "%", "better than", "others", "should have"] {
                assert!(!said.contains(word), "{word}: {said}");
            }
        }
    }
}
