//! The standing rules, drill by drill: what is locked stays locked for every drill that there is or will be, and every
//! refusal names the line, the value, the limit and what to do.

use super::super::{Prescription, Refusal};
use crate::plan::drill::{Drill, Form, Need, Target, UnlockName};

const HEAD: &str = "schema = \"counterpoise.prescription/1\"\ntitle = \"t\"\nissued_on = 2026-03-09\n";

/// A drill with all that it needs, to be taken from. Line 4 is `[[drills]]`.
#[derive(Clone)]
struct Whole {
    drill: &'static Drill,
    form: Form,
    listed: Vec<&'static Target>,
    step: usize,
    confirmed: Vec<&'static str>,
    unlocks: Vec<(UnlockName, &'static str)>,
    extra: String,
}

impl Whole {
    fn of(drill: &'static Drill, form: Form, step: usize) -> Self {
        let able = |target: &&Target| form == Form::Partner || !target.action.needs_partner();
        let listed: Vec<&Target> = drill.targets().iter().filter(able).collect();
        let spell = drill.ladder()[step - 1].stance.is_spell();
        let extra = if spell { "spell_ms = 7000\ntested_hold_ms = 10000\n" } else { "" };
        let soft = drill.ladder()[step - 1].surface.name() != "firm";
        // What may not stand on something soft without anybody there.
        let listed = listed
            .into_iter()
            .filter(|target| !(soft && form == Form::Alone && target.action.closes_eyes()))
            .collect();
        let partner = if form == Form::Partner { "K." } else { "" };
        Self {
            drill,
            form,
            listed,
            step,
            confirmed: vec!["free stretch", "chair against a wall", "own soft base"],
            unlocks: UnlockName::ALL.iter().map(|name| (*name, partner)).collect(),
            extra: extra.to_owned(),
        }
    }

    fn every() -> impl Iterator<Item = Self> {
        Drill::all().iter().flat_map(|drill| {
            drill.forms().iter().flat_map(move |form| {
                (1..=drill.ladder().len()).map(move |step| Self::of(drill, *form, step))
            })
        })
    }

    fn text(&self) -> String {
        let names: Vec<&str> = self.listed.iter().map(|target| target.name.as_str()).collect();
        let mut text = format!(
            "{HEAD}[[drills]]\ndrill = \"{}\"\nform = \"{}\"\nsets = 2\nwork_ms = 120000\nstep = {}\n\
             gap_ms = [20000, 30000]\nblank_per_mille = 0\ndirections = {names:?}\nconfirmed = {:?}\n{}",
            self.drill.name(),
            self.form,
            self.step,
            self.confirmed,
            self.extra,
        );
        // Two minutes of the screen at most.
        if self.listed.iter().any(|target| target.action.needs_screen()) {
            text =
                text.replace("work_ms = 120000", "work_ms = 60000").replace("[20000, 30000]", "[5000, 9000]");
        }
        for (name, partner) in &self.unlocks {
            text += &format!(
                "[[unlocks]]\nname = \"{name}\"\nwatched_by = \"k\"\non = 2026-03-01\npartner = \"{partner}\"\n"
            );
        }
        text
    }

    fn read(&self) -> Result<Prescription, Refusal> {
        Prescription::read("own.toml", self.text().as_bytes())
    }

    fn label(&self) -> String {
        format!("{} {} step {}", self.drill.name(), self.form, self.step)
    }
}

/// What somebody must have watched, from the words of the design and not from the code: what is called, where to, and
/// how the person stands.
fn needed(whole: &Whole) -> Vec<&'static str> {
    let mut needed = Vec::new();
    for target in &whole.listed {
        needed.extend(match target.action.name() {
            "push" | "tug" => &["pushes"][..],
            "nudge" => &["pushes", "walking"],
            "slide" | "tilt" => &["surface"],
            "stop" | "change pace" | "turn round" | "go round" => &["walking"],
            "next patch" => &["walking", "surface"],
            "close eyes" => &["eyes-closed"],
            "blind steps" => &["eyes-closed", "walking"],
            _ => &[],
        });
        if target.direction.name().starts_with("back") {
            needed.push("backward");
        }
    }
    let step = whole.drill.ladder()[whole.step - 1];
    needed.extend(["tandem", "one leg"].contains(&step.stance.name()).then_some("one-leg"));
    needed.extend((step.stance.name() == "walking").then_some("walking"));
    needed.extend((step.surface.name() != "firm").then_some("surface"));
    needed.extend(step.second_task.map(|_| "second-task"));
    needed.sort_unstable();
    needed.dedup();
    needed
}

#[test]
fn every_drill_is_accepted_in_every_form_at_every_step_with_what_it_needs() {
    let mut count = 0;
    for whole in Whole::every() {
        assert!(whole.read().is_ok(), "{}: {}\n{}", whole.label(), whole.read().unwrap_err(), whole.text());
        count += 1;
    }
    assert!(count > 80, "{count}");
}

#[test]
fn without_one_of_the_unlocks_it_needs_every_drill_is_refused_and_without_any_other_it_is_not() {
    for whole in Whole::every() {
        let needed = needed(&whole);
        for name in UnlockName::ALL {
            let mut without = whole.clone();
            without.unlocks.retain(|(other, _)| other != name);
            match without.read() {
                Ok(_) => assert!(!needed.contains(&name.name()), "{} without {name}", whole.label()),
                Err(refusal) => {
                    assert!(needed.contains(&name.name()), "{} without {name}: {refusal}", whole.label());
                    assert!(refusal.fact().contains("locked: "), "{refusal}");
                    assert!(refusal.hint().contains(&format!("name = \"{name}\"")), "{}", refusal.hint());
                    assert!([Some(9), Some(12), Some(11)].contains(&refusal.line()), "{refusal}");
                }
            }
        }
    }
}

#[test]
fn what_was_watched_with_a_partner_is_not_unlocked_alone_nor_with_another_partner() {
    for whole in Whole::every().filter(|whole| !needed(whole).is_empty()) {
        let mut other = whole.clone();
        let partner = if whole.form == Form::Alone { "K." } else { "" };
        other.unlocks.iter_mut().for_each(|(_, with)| *with = partner);
        let fact = other.read().unwrap_err().fact();
        let words = if whole.form == Form::Alone { "names a partner" } else { "names no partner" };
        assert!(fact.contains(words), "{}: {fact}", whole.label());
    }
    let walking = Drill::named("interrupted-walking").unwrap();
    let mut two = Whole::of(walking, Form::Partner, 1);
    for (name, partner) in &mut two.unlocks {
        *partner = if *name == UnlockName::Pushes { "A." } else { "B." };
    }
    let refusal = two.read().unwrap_err();
    assert_eq!(
        refusal.fact(),
        "no single partner has all the unlocks that \"interrupted-walking\" needs here"
    );
    two.unlocks.push((UnlockName::Walking, "A."));
    assert_eq!(two.read().unwrap().drills()[1].partners(), ["A."]);
}

#[test]
fn what_must_be_in_place_is_confirmed_for_every_drill() {
    for whole in Whole::every() {
        for need in Need::ALL.iter().filter(|need| **need != Need::Partner) {
            let mut without = whole.clone();
            without.confirmed.retain(|other| *other != need.name());
            let step = whole.drill.ladder()[whole.step - 1];
            let walks = step.stance.name() == "walking";
            let rises = whole.listed.iter().any(|target| target.action.name() == "rise");
            let soft = step.surface.name() == "foam";
            let is_needed = match need {
                Need::FreeStretch => walks,
                Need::ChairAgainstWall => rises,
                Need::OwnBase => soft,
                Need::Partner => false,
            };
            match without.read() {
                Ok(_) => assert!(!is_needed, "{} without {need}", whole.label()),
                Err(refusal) => {
                    assert!(is_needed, "{}: {refusal}", whole.label());
                    assert_eq!(refusal.line(), Some(4));
                    assert!(
                        refusal.hint().contains(&format!("confirmed = [\"{need}\"]")),
                        "{}",
                        refusal.hint()
                    );
                }
            }
        }
    }
}

#[test]
fn what_needs_a_partner_is_refused_alone() {
    let walk = Drill::named("counter-walk").unwrap();
    let mut alone = Whole::of(walk, Form::Alone, 1);
    alone.listed = walk.targets().iter().collect();
    let refusal = alone.read().unwrap_err();
    assert_eq!(
        refusal.fact(),
        "`directions` lists \"eyes closed\", which needs a partner, but `form` is \"alone\""
    );
    for drill in Drill::all().iter().filter(|drill| !drill.forms().contains(&Form::Alone)) {
        let mut alone = Whole::of(drill, Form::Partner, 1);
        alone.form = Form::Alone;
        let fact = alone.read().unwrap_err().fact();
        assert_eq!(fact, format!("`form` is \"alone\"; \"{}\" is only offered as partner", drill.name()));
    }
}

/// `whole` with `extra` fields at line 11, refused there with this fact and a hint with this in it.
#[track_caller]
fn refuses(whole: &Whole, extra: &str, fact: &str, hint: &str) {
    let mut changed = whole.clone();
    changed.extra += extra;
    let refusal = changed.read().unwrap_err();
    assert_eq!(refusal.fact(), fact);
    assert!(refusal.hint().contains(hint), "{}", refusal.hint());
    assert!(refusal.line().is_some_and(|line| line >= 4), "{refusal}");
}

#[test]
fn pushes_are_at_most_lightly_given_at_home_and_hardly_spread() {
    let pushes = Whole::of(Drill::named("pushes").unwrap(), Form::Partner, 1);
    let plan = |extra: &str| {
        let mut changed = pushes.clone();
        changed.extra = extra.to_owned();
        changed
            .read()
            .map(|read| read.drills()[1].strength().map(|(low, high)| (low.number(), high.number())))
    };
    assert_eq!(plan("").unwrap(), Some((1, 1)), "the gentlest unless it says more");
    assert_eq!(plan("strength = [1, 2]\n").unwrap(), Some((1, 2)));
    assert_eq!(plan("strength = [2, 2]\n").unwrap(), Some((2, 2)));
    refuses(
        &pushes,
        "strength = [1]\n",
        "`strength` has 1 numbers; it needs two, the gentlest and the firmest",
        "[1, 1]",
    );
    for (low, high) in [(0, 1), (4, 5), (-1, 1), (2, 1)] {
        let fact = format!("`strength` is [{low}, {high}]; both must be 1 to 4, the gentler one first");
        refuses(&pushes, &format!("strength = [{low}, {high}]\n"), &fact, "4 firm");
    }
    refuses(&pushes, "strength = [1, 3]\n", "`strength` is [1, 3]; the two may be at most 1 apart", "[1, 2]");
    for (low, high) in [(2, 3), (3, 4)] {
        let fact = format!("`strength` goes up to {high}; the most at home is 2");
        refuses(&pushes, &format!("strength = [{low}, {high}]\n"), &fact, "therapist_present = true");
        let mut present = pushes.clone();
        present.extra = format!("strength = [{low}, {high}]\n");
        let text =
            present.text().replace("name = \"pushes\"\n", "name = \"pushes\"\ntherapist_present = true\n");
        assert!(Prescription::read("own.toml", text.as_bytes()).is_ok());
        let other =
            present.text().replace("name = \"surface\"\n", "name = \"surface\"\ntherapist_present = true\n");
        assert!(
            Prescription::read("own.toml", other.as_bytes()).is_err(),
            "of the pushes, not of anything else"
        );
    }
    let reach = Whole::of(Drill::named("counter-reach").unwrap(), Form::Alone, 1);
    refuses(
        &reach,
        "strength = [1, 1]\n",
        "`strength` is given, but \"counter-reach\" has no pushes",
        "Delete",
    );
}

#[test]
fn spells_are_bounded_by_the_drill_the_eyes_and_the_persons_own_hold() {
    let holds = Whole::of(Drill::named("steady-holds").unwrap(), Form::Alone, 1);
    refuses(
        &holds,
        "spell_ms = 2999\n",
        "`spell_ms` is 2999 (2.999 s); the least is 3000 (3 s)",
        "own duration",
    );
    refuses(
        &holds,
        "spell_ms = 30001\n",
        "`spell_ms` is 30001 (30.001 s); the most is 30000 (30 s)",
        "own duration",
    );
    let length = |whole: &Whole, extra: &str| {
        let mut changed = whole.clone();
        changed.extra += extra;
        let prescription = changed.read().unwrap();
        let spans: Vec<_> =
            prescription.drills()[1].targets().iter().filter_map(|target| target.span).collect();
        (spans[0].length.0, spans[0].count)
    };
    assert_eq!(length(&holds, ""), (11_000, 10));
    assert_eq!(length(&holds, "spell_ms = 6500\n"), (6_500, 5), "the count shrinks with it");
    let changes = Whole::of(Drill::named("called-changes").unwrap(), Form::Alone, 1);
    assert_eq!(length(&changes, "spell_ms = 10000\n").0, 10_000);
    refuses(
        &changes,
        "spell_ms = 10001\n",
        "`spell_ms` is 10001 (10.001 s); \"eyes closed\" must last 3 s to 10 s",
        "Leave the line out",
    );
    let reach = Whole::of(Drill::named("counter-reach").unwrap(), Form::Alone, 1);
    refuses(
        &reach,
        "spell_ms = 5000\n",
        "`spell_ms` is given, but no direction listed here has a duration",
        "Delete",
    );
    refuses(
        &reach,
        "tested_hold_ms = 9000\n",
        "`tested_hold_ms` is only allowed with steps in tandem or on one leg",
        "Delete",
    );

    for (step, stance) in [(6, "tandem"), (7, "one leg")] {
        let mut held = Whole::of(Drill::named("steady-holds").unwrap(), Form::Alone, step);
        held.extra = "spell_ms = 7200\ntested_hold_ms = 9000\n".to_owned();
        assert!(held.read().is_ok(), "80 % of 9 s are 7.2 s");
        held.extra = "spell_ms = 7201\ntested_hold_ms = 9000\n".to_owned();
        let refusal = held.read().unwrap_err();
        assert_eq!(
            refusal.fact(),
            format!("a hold of 7.201 s is too long in {stance}: the most is 80 % of `tested_hold_ms`, 7.2 s")
        );
        assert!(refusal.hint().contains("spell_ms = 7200 or less"), "{}", refusal.hint());
        held.extra = String::new();
        let fact = format!("step {step} of \"steady-holds\" is {stance}, but `tested_hold_ms` is missing");
        assert_eq!(held.read().unwrap_err().fact(), fact);
        held.extra = "spell_ms = 7000\ntested_hold_ms = 9000\n".to_owned();
        let odd = held.text().replace("sets = 2", "sets = 3");
        let fact = Prescription::read("own.toml", odd.as_bytes()).unwrap_err().fact();
        assert_eq!(
            fact,
            format!(
                "`sets` is 3, but step {step} has a left and a right side: one side would get more practice"
            )
        );
    }
}

#[test]
fn a_ceiling_counts_as_much_as_a_step() {
    let mut holds = Whole::of(Drill::named("steady-holds").unwrap(), Form::Alone, 1);
    holds.unlocks.clear();
    assert!(holds.read().is_ok());
    refuses(
        &holds,
        "ceiling = 6\n",
        "`ceiling` is 6, and step 6 of \"steady-holds\" is locked: the feet give hardly any base to stand on",
        "or stay below step 6",
    );
    let changes = Whole::of(Drill::named("called-changes").unwrap(), Form::Alone, 1);
    refuses(
        &changes,
        "ceiling = 4\n",
        "`directions` lists \"eyes closed\" for practice alone, but step 4 is on a soft base",
        "firm ground",
    );
}

#[test]
fn gaps_leads_balls_and_the_screen_have_their_limits() {
    let gap = |drill: &str, form: Form, gap: &str| {
        let whole = Whole::of(Drill::named(drill).unwrap(), form, 1);
        let text = whole.text().replace("[20000, 30000]", gap).replace("[5000, 9000]", gap);
        Prescription::read("own.toml", text.as_bytes()).map(|_| ()).map_err(|refusal| refusal.fact())
    };
    // The design's table, drill by drill: reach and call 4 s, step 6, turn 8, rise, push and nudge 10, toss 12.
    for (drill, form, action, least) in [
        ("counter-reach", Form::Alone, "reach", 4_000),
        ("quick-steps", Form::Alone, "step", 6_000),
        ("combined-reaches", Form::Alone, "step", 6_000),
        ("head-turns", Form::Alone, "turn head", 8_000),
        ("fast-rises", Form::Alone, "rise", 10_000),
        ("pushes", Form::Partner, "push", 10_000),
        ("wall-throws", Form::Alone, "throw", 12_000),
        ("catching", Form::Partner, "toss", 12_000),
    ] {
        let fact = gap(drill, form, &format!("[{}, {}]", least - 1, least + 20_000)).unwrap_err();
        let milli = least - 1;
        assert_eq!(
            fact,
            format!(
                "the shortest gap in `gap_ms` is {milli} ({} s); the least for \"{action}\" is {least} ({} s)",
                f64::from(milli) / 1000.0,
                least / 1000
            )
        );
        if form == Form::Alone {
            assert_eq!(gap(drill, form, &format!("[{least}, {}]", least + 15_000)), Ok(()), "{drill}");
        }
    }
    assert_eq!(
        gap("pushes", Form::Partner, "[11500, 40000]").unwrap_err(),
        "the partner is told 7 s ahead, but the shortest gap in `gap_ms` leaves only 6.5 s after 5 s of quiet"
    );
    assert_eq!(gap("pushes", Form::Partner, "[12000, 40000]"), Ok(()));

    let catching = Whole::of(Drill::named("catching").unwrap(), Form::Partner, 1);
    refuses(&catching, "balls = 3\n", "`balls` is 3; the most is 2", "named aloud");
    let throws = Whole::of(Drill::named("wall-throws").unwrap(), Form::Alone, 1);
    refuses(
        &throws,
        "balls = 2\n",
        "`balls` is given, but no partner throws a ball in \"wall-throws\"",
        "Delete",
    );

    let dot = Whole::of(Drill::named("slow-target").unwrap(), Form::Alone, 1);
    let text = dot.text().replace("work_ms = 60000", "work_ms = 60001");
    assert_eq!(
        Prescription::read("own.toml", text.as_bytes()).unwrap_err().fact(),
        "the sets of \"slow-target\" add up to 120.002 s of work; the most is 120 s"
    );

    let changes = Whole::of(Drill::named("called-changes").unwrap(), Form::Alone, 1);
    refuses(
        &changes,
        "sequence = \"covered\"\n",
        "`sequence` is \"covered\", but the directions listed have different durations",
        "sequence = \"open\"",
    );
    refuses(
        &changes,
        "spell_ms = true\n",
        "`spell_ms` is true; it must be a whole number",
        "spell_ms = 60000",
    );
    let words = changes.text().replace("\"own soft base\"", "\"soft base\"");
    assert_eq!(
        Prescription::read("own.toml", words.as_bytes()).unwrap_err().fact(),
        "`confirmed` is \"soft base\"; it can be \"free stretch\", \"chair against a wall\", \"own soft base\""
    );
    let yes = changes.text().replacen("partner = \"\"", "therapist_present = 1", 1);
    assert_eq!(
        Prescription::read("own.toml", yes.as_bytes()).unwrap_err().fact(),
        "`therapist_present` is 1; it must be true or false"
    );
}

#[test]
fn a_set_with_more_than_six_pushes_is_drawn_again_and_too_many_of_those_are_refused() {
    let pushes = Whole::of(Drill::named("pushes").unwrap(), Form::Partner, 1);
    let many = pushes.text().replace("[20000, 30000]", "[12000, 14000]");
    let refusal = Prescription::read("own.toml", many.as_bytes()).unwrap_err();
    assert!(
        refusal.fact().ends_with("of 100 sets would hold fewer than 2 calls or more than 6 pushes and be drawn again; the most is 20"),
        "{refusal}"
    );
    assert!(refusal.hint().contains("two to six pushes"), "{}", refusal.hint());
}
