//! What people may see of their own practice: this week, what is next, what got easier. Plain and kind: no scores, no
//! comparison with others, no streaks to lose. The therapist's view is in `report`.

use jiff::civil::Date;

use crate::course::past::{Past, PastSession, Sitting};
use crate::course::program::{Program, days_between};
use crate::course::progression::Decision;
use crate::course::standing::{Standing, State};
use crate::plan::drill::Drill;
use crate::plan::prescription::{DrillPlan, Prescription};
use crate::record::Question;

/// How many sessions at the beginning are compared with as many at the end \[judgment\].
const COMPARED_SESSIONS: usize = 3;

/// What the person reads: a few sentences for each part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Progress {
    /// Sentences about this week.
    pub week: Vec<String>,
    /// Sentences about what is next.
    pub next: Vec<String>,
    /// Sentences about what got easier.
    pub easier: Vec<String>,
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
            easier: easier(&sittings, prescription),
        }
    }

    /// Everything with its headings.
    pub fn parts(&self) -> [(&'static str, &[String]); 3] {
        [("This week", &self.week), ("What is next", &self.next), ("What got easier", &self.easier)]
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
    lines
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

/// What the last practices show against the first ones under this prescription. What got harder is the therapist's to see.
fn easier(sittings: &[Sitting<'_>], prescription: &Prescription) -> Vec<String> {
    let ours: Vec<&PastSession> = sittings
        .iter()
        .filter(|sitting| sitting.first().digest == prescription.digest())
        .flat_map(Sitting::sessions)
        .collect();
    let mut lines: Vec<String> =
        prescription.drills().iter().skip(1).filter_map(|plan| step_gain(plan, &ours)).collect();
    if ours.len() >= 2 * COMPARED_SESSIONS {
        let (first, last) = (&ours[..COMPARED_SESSIONS], &ours[ours.len() - COMPARED_SESSIONS..]);
        let sum = |of: &[&PastSession], question| -> Option<(u32, u32)> {
            let sets = of.iter().flat_map(|session| &session.sets);
            let values: Vec<u32> = sets.filter_map(|set| set.number_of(question)).collect();
            (!values.is_empty()).then(|| (values.iter().sum(), values.len() as u32))
        };
        let less = |question| {
            let before = sum(first, question);
            let now = sum(last, question);
            // Two means, compared without fractions.
            before.zip(now).is_some_and(|((a, of_a), (b, of_b))| b * of_a < a * of_b)
        };
        if less(Question::Effort) {
            lines.push("It feels less hard than at first, by your own ratings.".to_owned());
        }
        if less(Question::Steadiness) {
            lines.push("You feel steadier than at first, by your own ratings.".to_owned());
        }
        if less(Question::HeldOn) {
            lines.push(
                "You hold on less often than at first. Holding on is always right when you need it."
                    .to_owned(),
            );
        }
    }
    if lines.is_empty() {
        lines.push(
            "Nothing stands out yet. That is normal: it takes weeks, and every practice counts.".to_owned(),
        );
    }
    lines
}

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
    use crate::course::past::sample::{clean, on, past, prescription};
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
        assert_eq!(week(&two, nov(4)), "You practiced twice. Your plan has 3 days.");
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
    fn what_got_easier_is_only_what_did() {
        let easier = |past: &Past| progress(past, nov(28)).easier.join(" ");
        let same = past([2, 4, 6, 9, 11, 13].map(|day| session(nov(day), &[1, 2, 2])));
        assert!(easier(&same).starts_with("Nothing stands out yet"), "{}", easier(&same));
        let mut better = same.clone();
        for session in &mut better.sessions[..3] {
            session.sets.iter_mut().for_each(|set| {
                (set.effort, set.steadiness, set.held_on) =
                    (Effort::numbered(6), Some(Steadiness::Unsteady), Some(Times::Once));
            });
        }
        let said = easier(&better);
        for part in ["less hard", "steadier", "hold on less often", "always right"] {
            assert!(said.contains(part), "{said}");
        }
        // What got worse is not shown here.
        better.sessions.reverse();
        assert!(easier(&better).starts_with("Nothing stands out yet"));
        let up = past([session(nov(2), &[1, 2, 2]), session(nov(4), &[1, 3, 2])]);
        assert!(easier(&up).contains(": at first ") && easier(&up).contains("; now "), "{}", easier(&up));
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
