use super::CueCounts;
use crate::draw::schedule::{Scheduler, Seed};
use crate::plan::prescription::Prescription;

#[test]
fn a_session_adds_its_sets_and_ends_at_forty() {
    let counts = CueCounts::of(Prescription::ready("typical").unwrap());
    let of_sets: f64 = Prescription::ready("typical")
        .unwrap()
        .drills()
        .iter()
        .zip(counts.plans())
        .map(|(plan, set)| {
            let mean: f64 = set.chances().iter().enumerate().map(|(n, p)| n as f64 * p).sum();
            mean * f64::from(plan.sets())
        })
        .sum();
    assert!(
        counts.cap_chance() < 1e-6 && (counts.mean() - of_sets).abs() < 1e-4,
        "{} {of_sets}",
        counts.mean()
    );

    let many = r#"
        schema = "counterpoise.prescription/1"
        title = "Many calls"
        issued_on = 2026-11-02
        [[drills]]
        drill = "counter-shift"
        sets = 7
        work_ms = 120000
        gap_ms = [4000, 6000]
        directions = ["left", "right", "forward"]
    "#;
    let counts = CueCounts::of(&Prescription::read("many.toml", many.as_bytes()).unwrap());
    assert!(counts.cap_chance() > 0.999_999, "seven sets of about 20 cues");
    assert_eq!(counts.range(), (40, 40));
    assert_eq!(counts.chances().len(), 41);
}

#[test]
fn the_range_leaves_at_most_a_fortieth_on_either_side() {
    for (_, prescription) in Prescription::all_ready() {
        let counts = CueCounts::of(prescription);
        let (low, high) = counts.range();
        let below: f64 = counts.chances()[..usize::from(low)].iter().sum();
        let above: f64 = counts.chances()[usize::from(high) + 1..].iter().sum();
        assert!(below <= 0.025 && above <= 0.025, "{below} {above}");
        assert!(below + counts.chances()[usize::from(low)] > 0.025, "no narrower range would do");
        assert!(above + counts.chances()[usize::from(high)] > 0.025, "no narrower range would do");
    }
}

/// A prescription in which calls last differently long, and one in which all last equally long, and one with pushes.
const LASTING: [&str; 3] = [
    "drill = \"called-changes\"\nsets = 1\nwork_ms = 61000\nrecover_ms = 3000\ngap_ms = [8300, 17100]\nblank_per_mille = 130\n\
     directions = [\"eyes closed\", \"lean left\", \"feet together\", \"look left\"]\nweights = [3, 1, 2, 1]\n",
    "drill = \"steady-holds\"\nsets = 1\nwork_ms = 53000\ngap_ms = [5300, 14100]\nblank_per_mille = 170\ndirections = [\"hold\"]\n\
     spell_ms = 7000\n",
    "drill = \"pushes\"\nform = \"partner\"\nsets = 1\nwork_ms = 120000\ngap_ms = [14000, 29000]\nblank_per_mille = 90\n\
     directions = [\"left\", \"right\", \"forward\"]\n",
];

/// The computed counts against sets as they are really drawn, which share no arithmetic with them: 8,000 sets a
/// case; five standard errors are a false alarm of 6e-7 a comparison.
#[test]
fn sets_whose_calls_last_hold_as_many_as_computed() {
    for (case, drill) in LASTING.into_iter().enumerate() {
        let text = format!(
            "schema = \"counterpoise.prescription/1\"\ntitle = \"t\"\nissued_on = 2026-03-09\n[[drills]]\n{drill}\
             [[unlocks]]\nname = \"eyes-closed\"\nwatched_by = \"k\"\non = 2026-03-01\n\
             [[unlocks]]\nname = \"pushes\"\nwatched_by = \"k\"\non = 2026-03-01\npartner = \"K.\"\n"
        );
        let prescription = Prescription::read("lasting.toml", text.as_bytes()).unwrap();
        let counts = &CueCounts::of(&prescription).plans()[1].clone();
        let scheduler = Scheduler::new(&prescription).unwrap();
        let sets = 8_000;
        let (mut redrawn, mut seen) = (0.0, vec![0.0; 40]);
        for session in 0..sets {
            let schedule = scheduler.draw(Seed::from_bytes([91 + case as u8; 32]).of_session(session));
            let set = &schedule.sets()[1];
            seen[set.cues().iter().filter(|cue| !cue.is_blank()).count()] += 1.0 / sets as f64;
            redrawn += f64::from(u8::from(set.redraws() > 0)) / sets as f64;
        }
        let close = |exact: f64, seen: f64| {
            (exact - seen).abs() <= 5.0 * (exact * (1.0 - exact) / sets as f64).sqrt() + 1e-9
        };
        assert!(counts.redraw_share() > 0.001, "case {case}: something is drawn again");
        assert!(close(counts.redraw_share(), redrawn), "case {case}: {} {redrawn}", counts.redraw_share());
        assert!((counts.chances().iter().sum::<f64>() - 1.0).abs() < 1e-9);
        for (count, chance) in counts.chances().iter().enumerate() {
            assert!(close(*chance, seen[count]), "case {case}, {count} calls: {chance} {}", seen[count]);
        }
    }
}
