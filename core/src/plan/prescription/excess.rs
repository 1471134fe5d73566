//! Whether one prescription asks for anything harder than another. Once a program is in use, only it or something
//! gentler may run.

use std::fmt;

use super::{Accept, DrillPlan, Prescription};
use crate::plan::precaution::Precautions;
use crate::units::Millis;

/// What makes a prescription harder than the program in use.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Excess {
    /// More days a week.
    Days {
        /// What this prescription asks for.
        asked: u8,
        /// What the program has.
        most: u8,
    },
    /// More sets a session.
    Sets {
        /// What this prescription asks for.
        asked: u32,
        /// What the program has.
        most: u32,
    },
    /// More work a session in all.
    Work {
        /// What this prescription asks for.
        asked: Millis,
        /// What the program has.
        most: Millis,
    },
    /// A shorter rest after each set.
    Rest {
        /// What this prescription asks for.
        asked: Millis,
        /// What the program has.
        least: Millis,
    },
    /// A lock that the program leaves in force.
    Accepted,
    /// A harder effort at which steps still go up.
    Effort {
        /// What this prescription asks for.
        asked: u8,
        /// What the program has.
        most: u8,
    },
    /// Without something that the program rules out for this person.
    Precautions {
        /// The precautions that this prescription lacks.
        missing: Precautions,
    },
    /// A drill that the program leaves out.
    Drill {
        /// The title of the drill, in lower case.
        drill: String,
    },
    /// A drill at a higher step, with shorter gaps, longer sets, other directions, firmer pushes or more balls.
    Range {
        /// The title of the drill, in lower case.
        drill: String,
        /// Which range is wider.
        what: &'static str,
    },
}

impl Prescription {
    /// What of this prescription is harder than `program`; `None` if nothing is. Both at the steps of the day (see
    /// [`Prescription::at_steps`]). The warm-up is compared by its dose only: it is at its first step in both.
    ///
    /// ```
    /// use counterpoise_core::plan::prescription::Prescription;
    /// let (gentle, typical) = (Prescription::ready("gentle").unwrap(), Prescription::ready("typical").unwrap());
    /// assert_eq!(gentle.excess_over(gentle), None);
    /// assert!(typical.excess_over(gentle).is_some());
    /// ```
    pub fn excess_over(&self, program: &Self) -> Option<Excess> {
        let (asked, most) = (self.days_a_week(), program.days_a_week());
        if asked > most {
            return Some(Excess::Days { asked, most });
        }
        let missing = program.precautions.without(self.precautions);
        if !missing.is_empty() {
            return Some(Excess::Precautions { missing });
        }
        let (asked, most) = (self.sets(), program.sets());
        if asked > most {
            return Some(Excess::Sets { asked, most });
        }
        let (asked, most) = (self.work(), program.work());
        if asked > most {
            return Some(Excess::Work { asked, most });
        }
        if self.rest() < program.rest() {
            return Some(Excess::Rest { asked: self.rest(), least: program.rest() });
        }
        if self.accepts_more_than(program) {
            return Some(Excess::Accepted);
        }
        self.drills.iter().skip(1).find_map(|plan| {
            let same =
                |other: &&DrillPlan| other.drill.name() == plan.drill.name() && other.form == plan.form;
            let mut wider = program.drills.iter().filter(same).map(|other| plan.wider_than(other)).peekable();
            let drill = || plan.drill.title().to_lowercase();
            if wider.peek().is_none() {
                return Some(Excess::Drill { drill: drill() });
            }
            // If the program has a drill twice, it is enough to be no harder than one of them.
            let found: Option<Vec<&'static str>> = wider.collect();
            found.map(|what| Excess::Range { drill: drill(), what: what[0] })
        })
    }

    /// What of this prescription could ever be harder than `program`, if it came into use in its place: each as high as its
    /// ceilings go.
    ///
    /// ```
    /// use counterpoise_core::plan::prescription::Prescription;
    /// let text = Prescription::ready_text("gentle").unwrap();
    /// let read = |text: &str| Prescription::read("test.toml", text.as_bytes()).unwrap();
    /// let lower = read(&text.replace("ceiling = 3", "ceiling = 2"));
    /// assert_eq!(lower.excess_in_time_over(&read(text)), None);
    /// assert!(read(text).excess_in_time_over(&lower).is_some(), "later it is at a higher step");
    /// ```
    pub fn excess_in_time_over(&self, program: &Self) -> Option<Excess> {
        let (asked, most) = (self.effort_at_most(), program.effort_at_most());
        if asked > most {
            return Some(Excess::Effort { asked, most });
        }
        self.at_ceilings().excess_over(&program.at_ceilings())
    }

    /// The same with each drill but the warm-up at its ceiling.
    fn at_ceilings(&self) -> Self {
        let mut highest = self.clone();
        highest.drills.iter_mut().skip(1).for_each(|plan| plan.step = plan.ceiling);
        highest
    }

    /// Whether it accepts an answer about suitability that `program` does not accept.
    fn accepts_more_than(&self, program: &Self) -> bool {
        let accepted = |accept: &Accept| {
            program.accepts().iter().any(|other| other.topic == accept.topic && other.when >= accept.when)
        };
        let before = |one: &Self| one.accepted_because().map(|_| one.issued_on());
        !self.accepts().iter().all(accepted) || before(self) > before(program)
    }

    fn sets(&self) -> u32 {
        self.drills.iter().map(|plan| u32::from(plan.sets)).sum()
    }

    fn work(&self) -> Millis {
        Millis(self.drills.iter().map(|plan| u32::from(plan.sets) * plan.work.0).sum())
    }
}

impl DrillPlan {
    /// Steps of two versions of a ladder are compared by what they ask for.
    fn is_higher_than(&self, other: &Self) -> bool {
        match self.ladder.version() == other.ladder.version() {
            true => self.step > other.step,
            false => self.conditions().asks_for_more_than(other.conditions()),
        }
    }

    /// The first range that is wider than in `other`, the same drill in the same form.
    fn wider_than(&self, other: &Self) -> Option<&'static str> {
        let firmest = |plan: &Self| plan.strength.map(|(_, firmest)| firmest);
        let ranges = [
            (self.is_higher_than(other), "at a higher step"),
            (self.gaps.least() < other.gaps.least(), "with shorter gaps"),
            (self.work > other.work, "in longer sets"),
            (self.recover < other.recover, "with less time after the last call"),
            (
                self.named_steps().iter().any(|key| !other.named_steps().contains(key)),
                "with more steps allowed",
            ),
            (self.targets.iter().any(|target| !other.targets.contains(target)), "toward more sides"),
            (firmest(self) > firmest(other), "with firmer pushes"),
            (self.balls > other.balls, "with more balls"),
        ];
        ranges.into_iter().find(|(wider, _)| *wider).map(|(_, what)| what)
    }
}

impl Excess {
    /// In what one prescription is harder than another, which is called `other`.
    pub fn beside(&self, other: &str) -> String {
        match self {
            Self::Days { asked, most } => format!("{asked} days a week; {other} has {most}"),
            Self::Sets { asked, most } => format!("{asked} sets; {other} has {most}"),
            Self::Work { asked, most } => {
                format!("{} s of work; {other} has {} s", asked.0 / 1000, most.0 / 1000)
            }
            Self::Rest { asked, least } => {
                format!("{} s of rest after a set; {other} has {} s", asked.0 / 1000, least.0 / 1000)
            }
            Self::Accepted => format!("practice in spite of answers that {other} does not accept"),
            Self::Effort { asked, most } => {
                format!("an effort of up to {asked} of 10; {other} has {most}")
            }
            Self::Precautions { missing } => format!("what {other} rules out ({missing})"),
            Self::Drill { drill } => format!("{drill}, which {other} leaves out"),
            Self::Range { drill, what } => format!("{drill} {what} than {other}"),
        }
    }
}

/// A fact about what was asked for, to be written after its title.
impl fmt::Display for Excess {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.beside("your program"))
    }
}

#[cfg(test)]
mod test {
    use super::Excess;
    use crate::plan::prescription::Prescription;
    use crate::units::Millis;

    const PROGRAM: &str = r#"
schema = "counterpoise.prescription/1"
title = "A program"
issued_on = 2026-11-02
days_a_week = 3
rest_ms = 60000

[[drills]]
drill = "counter-reach"
sets = 3
work_ms = 60000
recover_ms = 5000
step = 2
ceiling = 3
gap_ms = [6000, 14000]
directions = ["left", "right", "forward"]
"#;

    fn read(text: &str) -> Prescription {
        Prescription::read("test.toml", text.as_bytes()).unwrap()
    }

    fn harder(change: &[(&str, &str)]) -> Option<Excess> {
        let changed = change.iter().fold(PROGRAM.to_owned(), |text, (from, to)| {
            assert!(text.contains(from), "{from}");
            text.replace(from, to)
        });
        read(&changed).excess_over(&read(PROGRAM))
    }

    #[test]
    fn what_narrows_or_stays_is_no_harder() {
        for change in [
            ("days_a_week = 3", "days_a_week = 2"),
            ("rest_ms = 60000", "rest_ms = 90000"),
            ("sets = 3", "sets = 2"),
            ("work_ms = 60000", "work_ms = 45000"),
            ("recover_ms = 5000", "recover_ms = 6000"),
            ("step = 2", "step = 1"),
            ("gap_ms = [6000, 14000]", "gap_ms = [7000, 15000]"),
            ("[\"left\", \"right\", \"forward\"]", "[\"left\", \"right\"]"),
            // A ceiling is not reached today: steps are compared, and another file begins at its own.
            ("ceiling = 3", "ceiling = 4"),
        ] {
            assert_eq!(harder(&[change]), None, "{change:?}");
        }
    }

    #[test]
    fn what_widens_any_range_is_harder_and_named() {
        let drill = read(PROGRAM).drills()[1].drill().title().to_lowercase();
        let range = |what| Some(Excess::Range { drill: drill.clone(), what });
        for (from, to, expected) in [
            ("days_a_week = 3", "days_a_week = 4", Some(Excess::Days { asked: 4, most: 3 })),
            ("sets = 3", "sets = 4", Some(Excess::Sets { asked: 5, most: 4 })),
            (
                "rest_ms = 60000",
                "rest_ms = 59000",
                Some(Excess::Rest { asked: Millis(59_000), least: Millis(60_000) }),
            ),
            ("step = 2", "step = 3", range("at a higher step")),
            ("gap_ms = [6000, 14000]", "gap_ms = [5999, 14000]", range("with shorter gaps")),
            ("recover_ms = 5000", "recover_ms = 4999", range("with less time after the last call")),
            ("\"forward\"]", "\"forward\", \"forward left\"]", range("toward more sides")),
        ] {
            assert_eq!(harder(&[(from, to)]), expected, "{to}");
        }
        let longer = harder(&[("work_ms = 60000", "work_ms = 61000")]);
        assert!(matches!(longer, Some(Excess::Work { .. })), "{longer:?}");
        let longer = harder(&[("work_ms = 60000", "work_ms = 61000"), ("sets = 3", "sets = 2")]);
        assert_eq!(longer, range("in longer sets"));
        let other = harder(&[("counter-reach", "counter-shift")]);
        assert!(
            matches!(other, Some(Excess::Range { what: "at a higher step", .. })),
            "the program has it as its warm-up, at its first step: {other:?}"
        );
        let other = harder(&[("counter-reach", "quick-steps")]);
        assert!(matches!(other, Some(Excess::Drill { .. })), "{other:?}");
    }

    #[test]
    fn what_becomes_harder_in_time_is_found_before_it_comes_into_use() {
        let in_time = |from: &str, to: &str| {
            read(&PROGRAM.replace(from, to))
                .excess_in_time_over(&read(PROGRAM))
                .map(|found| found.to_string())
        };
        assert_eq!(in_time("ceiling = 3", "ceiling = 3 # the same"), None);
        assert_eq!(in_time("step = 2", "step = 3"), None, "the program comes to step 3 too");
        assert!(
            in_time("ceiling = 3", "ceiling = 4").unwrap().ends_with("at a higher step than your program")
        );
        assert!(in_time("sets = 3", "sets = 4").unwrap().contains("5 sets"));
        let (most, less) = ("rest_ms = 60000", "rest_ms = 60000\n[limits]\neffort_at_most = 3\n");
        let (program, lower) =
            (PROGRAM.split("[[drills]]").next().unwrap(), PROGRAM.split_once("[[drills]]").unwrap().1);
        let limited = format!("{program}\n[[drills]]{lower}\n{}", less.replace(most, ""));
        let found = read(PROGRAM).excess_in_time_over(&read(&limited)).unwrap().to_string();
        assert!(found.contains("your program has 3"), "{found}");
        let accepts = format!(
            "{}\n[suitability]\naccepted_because = \"seen\"\n",
            PROGRAM.replace("days_a_week", "issued_by = \"K.\"\ndays_a_week")
        );
        assert_eq!(read(&accepts).excess_over(&read(PROGRAM)), Some(Excess::Accepted));
        assert_eq!(read(PROGRAM).excess_over(&read(&accepts)), None);
    }

    #[test]
    fn no_two_ready_prescriptions_can_each_stand_for_the_other_unless_they_ask_for_the_same() {
        let all = Prescription::all_ready();
        for (name, one) in all {
            assert_eq!(one.excess_over(one), None, "{name}");
        }
        let gentle = Prescription::ready("gentle").unwrap();
        let harder: Vec<&str> = all
            .iter()
            .filter(|(name, other)| *name != "gentle" && other.excess_over(gentle).is_some())
            .map(|(name, _)| *name)
            .collect();
        assert_eq!(harder.len(), all.len() - 1, "the gentle one is the gentlest: {harder:?}");
    }

    #[test]
    fn it_is_said_in_words() {
        let said = harder(&[("sets = 3", "sets = 4")]).unwrap().to_string();
        assert_eq!(said, "5 sets; your program has 4");
        let said = harder(&[("step = 2", "step = 3")]).unwrap().to_string();
        assert!(said.ends_with(" at a higher step than your program"), "{said}");
    }
}
