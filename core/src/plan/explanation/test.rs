use super::{Dose, Explanation, Warning, decimal};
use crate::plan::counts::CueCounts;
use crate::plan::phrase::Phrase;
use crate::plan::prescription::Prescription;
use crate::units::Millis;

const UNLIKE: &str = r#"
schema = "counterpoise.prescription/1"
title = "Toward the window"
issued_by = "R. Ode, physical therapist"
issued_on = 2026-03-09
days_a_week = 5
weeks = 7
review_after_sessions = 9
rest_ms = 52500
order = "drawn"

[[drills]]
drill = "counter-reach"
sets = 3
work_ms = 31000
recover_ms = 4500
step = 4
ceiling = 5
gap_ms = [4700, 13300]
shape = "even"
blank_per_mille = 40
directions = ["left", "back right"]
weights = [3, 1]

[[unlocks]]
name = "backward"
watched_by = "R. O."
on = 2026-03-02

[limits]
effort_at_most = 5
"#;

struct Explained {
    text: String,
    dose: Dose,
    warnings: Vec<Warning>,
}

fn explained(text: &str) -> Explained {
    let prescription = Prescription::read("test.toml", text.as_bytes()).unwrap();
    let counts = CueCounts::of(&prescription);
    let explanation = Explanation::of(&prescription, &counts);
    Explained { text: explanation.to_string(), dose: explanation.dose(), warnings: explanation.warnings() }
}

/// By hand: sets of 60 + 3 x 31 s; four times 20 s to get into place; three rests of 52.5 s.
#[test]
fn dose_is_counted_with_and_without_rests() {
    let dose = explained(UNLIKE).dose;
    assert_eq!(
        dose,
        Dose {
            session: Millis(153_000 + 80_000 + 157_500),
            active: Millis(153_000),
            days_a_week: 5,
            weeks: 7
        }
    );
    // 21,600 s / (390.5 s x 5) = 11.06 and 21,600 / (153 x 5) = 28.2.
    assert_eq!((dose.weeks_by_session(), dose.weeks_by_active()), (12, 29));
}

#[test]
fn a_prescription_is_explained_in_plain_words() {
    let back_right = Phrase::named("reach.back-right").unwrap().words();
    let left = Phrase::named("reach.left").unwrap().words();
    let text = explained(UNLIKE).text;
    for line in [
        "Toward the window",
        "Written by R. Ode, physical therapist on 2026-03-09.",
        "4 sets a session, warm-up included; one session a day, 5 days a week for 7 weeks.",
        "At least 52.5 s of rest after each set, with a chair at hand.",
        "A therapist looks again after 9 sessions. Nothing steps up when effort was above 5 of 10.",
        "The warm-up comes first; the other drills come in an order drawn for each session, walking last.",
        "Unlocked: backward, watched by R. O. on 2026-03-02.",
        "Weight shifts at the counter (the built-in warm-up)",
        "Step 1 of 5 throughout.",
        "3 sets of 31 s, alone.",
        "From step 4 of 5; may go up to step 5, one change at a time.",
        &format!("Called: {left} (weight 3), {back_right} (weight 1)."),
        "From one moment to the next 4.7 s to 13.3 s, all equally often. With a chance of 4 %, such a moment stays silent on purpose, but never two in a row. The last call leaves at least 4.5 s to recover.",
        "Each direction is drawn anew; the same one comes at most 3 times in a row.",
        "With warm-up, getting into place and rests: 6.5 min a session, 32.5 min a week; 6 hours after 12 weeks.",
        "Practice alone: 2.6 min a session, 12.8 min a week; 6 hours after 29 weeks.",
        "Reaching back: only with a wall or a second counter within half a step behind.",
        "A voice alone trains a movement that the person chooses. Only a real disturbance from outside trains a reaction.",
        "Local codes, the local emergency number, your therapist's advice and licensed practice come first.",
        "Nothing here promises to prevent falls.",
        Phrase::named("practice.stop-list").unwrap().words(),
    ] {
        assert!(text.lines().any(|found| found == line), "{line}\nis not in\n{text}");
    }
    assert!(text.contains("not peer reviewed"));
    assert!(
        text.contains(
            "Stand with the counter ahead, one foot half a step ahead on a firm floor, the fingertips on the counter, eyes open. Behind: "
        )
    );
}

#[test]
fn covered_silence_and_single_streaks_have_their_words() {
    let text = UNLIKE
        .replace("[\"left\", \"back right\"]", "[\"left\", \"right\", \"forward\"]\nlongest_streak = 1")
        .replace("weights = [3, 1]", "sequence = \"covered\"\nslack = 2")
        .replace("blank_per_mille = 40", "blank_per_mille = 0");
    let text = explained(&text).text;
    assert!(text.contains("about equally often, up to 2 more or fewer than an equal share; the same one comes never twice in a row"));
    assert!(text.contains("Every such moment has a call."));
}

#[test]
fn what_deserves_a_second_look_is_said() {
    let short = UNLIKE.replace("work_ms = 31000", "work_ms = 28000");
    let warnings = explained(&short).warnings;
    let [Warning::ManyRedraws { drill, share }, Warning::ShortOfSixHours { needed: 12, weeks: 7 }] =
        &warnings[..]
    else {
        panic!("{warnings:?}")
    };
    assert_eq!(drill, "Reaches at the counter");
    assert!((0.05..0.20).contains(share));
    let said = warnings[0].to_string();
    assert!(
        said.contains(&format!("{} of 100 sets hold fewer than two calls", decimal(share * 100.0))),
        "{said}"
    );

    let many = UNLIKE
        .replace("sets = 3\nwork_ms = 31000", "sets = 6\nwork_ms = 110000")
        .replace("[4700, 13300]", "[4000, 9000]");
    let warnings = explained(&many).warnings;
    assert!(matches!(warnings[..], [Warning::ManyCues { share }] if share > 0.99), "{warnings:?}");
    assert!(warnings[0].to_string().starts_with("100 of 100 sessions reach 40 calls"));
}

#[test]
fn ready_prescriptions_give_about_the_calls_they_are_meant_to() {
    // The design: about 15 calls for a gentle session, 25 for a typical one.
    for (name, about) in [("gentle", 15.0), ("typical", 25.0)] {
        let mean = CueCounts::of(Prescription::ready(name).unwrap()).mean();
        assert!((mean - about).abs() < 1.0, "{name}: {mean}");
    }
}

#[test]
fn a_small_share_is_not_rounded_away() {
    assert_eq!(
        [decimal(0.0), decimal(0.02), decimal(0.16), decimal(15.04), decimal(3.0)],
        ["0", "under 0.1", "0.2", "15", "3"]
    );
}

#[test]
fn the_hand_out_of_every_ready_one_is_for_the_person_and_promises_nothing() {
    for (name, prescription) in Prescription::all_ready() {
        let counts = CueCounts::of(prescription);
        let sheet = Explanation::of(prescription, &counts).handout();
        let text: String =
            sheet.iter().flat_map(|part| &part.lines).map(|line| format!("{line}\n")).collect();
        assert!(text.contains("Nothing here promises to prevent falls."), "{name}");
        assert!(text.contains(Phrase::named("practice.stop-list").unwrap().words()), "{name}");
        for not_for_the_person in ["of 100", "6 hours", "six hours", "seed", "_ms", "per mille", "`"] {
            assert!(!text.contains(not_for_the_person), "{name}: {not_for_the_person}");
        }
        for plan in prescription.drills() {
            assert!(sheet.iter().any(|part| part.heading.contains(plan.drill().title())), "{name}");
            assert!(plan.cautions().all(|caution| text.contains(caution)), "{name}");
        }
    }
}
