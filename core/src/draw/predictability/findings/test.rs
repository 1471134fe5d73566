use super::*;
use crate::draw::schedule::Scheduler;
use crate::plan::counts::CueCounts;
use crate::plan::prescription::Prescription;

fn foresight(drills: &str) -> Foresight {
    let text = format!(
        "schema = \"counterpoise.prescription/1\"\ntitle = \"T\"\nissued_on = 2026-11-02\n\
         [[drills]]\ndrill = \"counter-shift\"\nsets = 1\nwork_ms = 60000\ngap_ms = [5000, 15000]\n\
         directions = [\"left\", \"right\", \"forward\", \"up\"]\n[[drills]]\ndrill = \"counter-reach\"\n{drills}"
    );
    let prescription = Prescription::read("t.toml", text.as_bytes()).unwrap();
    let scheduler = Scheduler::new(&prescription).unwrap();
    Foresight::of(&prescription, &scheduler, &CueCounts::of(&prescription))
}

fn of_reaches(drills: &str) -> Vec<Caution> {
    cautions(&foresight(drills))
}

const USUAL: &str = "work_ms = 60000\ngap_ms = [5000, 15000]\n";

/// What every ready prescription must reach: directions within 0.5 points of the limit for their rules, and at most 9 of
/// 100 calls caught by the best brace of half a second.
#[test]
fn ready_prescriptions_are_hard_to_foresee() {
    for (name, prescription) in Prescription::all_ready() {
        let scheduler = Scheduler::new(prescription).unwrap();
        let foresight = Foresight::of(prescription, &scheduler, &CueCounts::of(prescription));
        // Where there is only one thing to do there is nothing to guess but the moment, and that is said.
        let one = |caution: &Caution| matches!(caution, Caution::OneDirection { .. });
        let cautions = cautions(&foresight);
        assert!(cautions.iter().all(one), "{name}: {cautions:?}");
        for drill in foresight.drills() {
            if (drill.moment.gap.from(), drill.moment.greatest_gap) == (Millis(5_000), Millis(15_000)) {
                let brace = drill.moment.heard.all.brace(Millis(500)).chance;
                assert!(brace <= GOOD_BRACE && moments_verdict(drill) == "hard to catch", "{name}: {brace}");
            }
            if drill.direction.directions == 1 {
                continue;
            }
            // The best guess that "evenly among the allowed" leaves in the long run: (k - 1 + f) / (k - 1) / k with f
            // the share of calls after a full streak; for streak 2 that is 1 / (k + 1) [derived].
            let k = drill.direction.directions as f64;
            let full = 1.0 / (k + 1.0);
            let limit = (1.0 - full) / k + full / (k - 1.0);
            assert!(
                drill.direction.guess_rate <= limit + 0.005,
                "{name}: {} {limit}",
                drill.direction.guess_rate
            );
            assert!((drill.direction.long_run.unwrap() - limit).abs() < 1e-9);
        }
    }
}

#[test]
fn a_guessable_prescription_is_named_with_what_to_change() {
    let two = of_reaches(&format!("sets = 3\n{USUAL}directions = [\"left\", \"right\"]"));
    assert!(
        matches!(two[..], [Caution::TwoDirections { rate, .. }] if (0.5..0.58).contains(&rate)),
        "{two:?}"
    );
    assert!(two[0].to_string().contains("third direction"));

    let one = of_reaches(&format!("sets = 3\n{USUAL}directions = [\"left\"]"));
    assert!(matches!(one[..], [Caution::OneDirection { .. }]), "{one:?}");

    let four = "directions = [\"left\", \"right\", \"forward\", \"forward left\"]";
    let short = of_reaches(&format!("sets = 2\n{USUAL}{four}\nsequence = \"covered\""));
    assert!(
        matches!(short[..], [Caution::Coverage { rate, chance: 0.25, last, .. }] if rate > 0.32 && last > rate),
        "{short:?}"
    );
    assert!(short[0].to_string().contains("\"open\""));

    let weights = of_reaches(&format!("sets = 3\n{USUAL}{four}\nweights = [9, 1, 1, 1]"));
    assert!(matches!(weights[..], [Caution::Directions { .. }]), "{weights:?}");

    let narrow = of_reaches(&format!("sets = 2\nwork_ms = 60000\ngap_ms = [8000, 10000]\n{four}"));
    assert!(
        matches!(narrow[..], [Caution::Moments { edges: false, brace, .. }] if brace > 0.2),
        "{narrow:?}"
    );

    let fine = of_reaches(&format!("sets = 3\n{USUAL}{four}"));
    assert_eq!(fine, []);
}

/// By the thresholds of the module, on either side.
#[test]
fn words_follow_the_thresholds() {
    let mut foresight = foresight(&format!(
        "sets = 3\n{USUAL}directions = [\"left\", \"right\", \"forward\", \"forward left\"]"
    ));
    let mut said = |rate: f64| {
        foresight.drills_for_test()[1].direction.guess_rate = rate;
        directions_verdict(&foresight.drills()[1])
    };
    assert_eq!(said(0.279), "close to chance");
    assert_eq!(said(0.281), "a little better than chance");
    assert_eq!(said(0.309), "a little better than chance");
    assert_eq!(said(0.311), "guessable");
}

#[test]
fn shares_are_told_with_one_decimal_at_most() {
    for (share, words) in
        [(0.0, "0"), (0.0004, "fewer than 0.1"), (0.083_2, "8.3"), (0.25, "25"), (1.0, "100")]
    {
        assert_eq!(of_100(share), words);
    }
}
