//! The summary on one screen, when there is most to say.

use jiff::civil::date;

use super::{Contents, SCREEN, brief};
use counterpoise_core::course::past::sample::{clean, on, past, prescription};
use counterpoise_core::health::assessment::Verdict;
use counterpoise_core::health::suitability::Topic;
use counterpoise_core::report::{
    Asked, Clearing, Consequence, Event, Group, Incident, Kind, LadderChange, Material, NotGood, Period,
    ProgramChange, Report, SessionDetails, Share, Slope, TestLine, Told, Unanswered,
};

fn shown(report: &Report) -> String {
    brief(report, Contents::Nothing)
}

/// A report of one practice.
fn report() -> Report {
    let session = clean(&prescription(), &on(date(2026, 11, 2), 10), &[1, 2, 2]);
    let material =
        Material { past: past([session]), details: vec![SessionDetails::default()], ..Material::default() };
    let period = Period { since: date(2026, 11, 2), until: date(2027, 11, 30) };
    Report::of(&material, &prescription(), period, "As the audit says.".to_owned(), Vec::new(), None)
}

/// The same with the most of everything.
#[expect(clippy::too_many_lines, reason = "a list of everything that a report can have")]
fn fullest() -> Report {
    let mut report = report();
    let name = "W".repeat(40) + " " + &"w".repeat(39);
    report.prescription.title.clone_from(&name);
    report.prescription.issued_by.clone_from(&name);
    report.barred = counterpoise_core::health::lock::Lock::ALL
        .iter()
        .map(|lock| format!("Locked since 2026-11-20, not cleared: {lock}."))
        .collect();
    let dose = &mut report.dose;
    (dose.days, dose.days_prescribed, dose.sessions, dose.sessions_whole) = (366, 312, 366, 365);
    (dose.sets, dose.sets_prescribed, dose.active_ms, dose.session_ms) =
        (3_650, 3_120, 300_000_000, 4_000_000_000);
    dose.cues = 14_600;
    for count in [
        &mut dose.interrupted,
        &mut dose.sets_broken_off,
        &mut dose.sets_left_out,
        &mut dose.corrected,
        &mut dose.set_aside,
        &mut dose.tried_out,
        &mut dose.by_hand,
        &mut dose.length_unknown,
        &mut dose.silent,
        &mut dose.sound_disturbed,
        &mut dose.seed_given,
    ] {
        *count = 188;
    }
    let share = Some(Share { count: 1_234, of: 2_345, share: 0.526, low: 0.506, high: 0.547 });
    let slope = Some(Slope { slope: -0.012_3, low: -0.023_4, high: -0.001_2, of: 366 });
    report.dose.length_unknown += 188;
    report.responses.groups = vec![Group {
        by: "all",
        name: "all pushes".to_owned(),
        in_place: 1_000,
        one_step: 234,
        more_steps: 1_234,
        touched: 1_234,
        grabbed: 0,
        fell: 0,
        one_step_or_better: share,
        two_or_more: share,
        support: share,
    }];
    (report.responses.noted, report.responses.not_noted, report.responses.trend) = (2_345, 1_234, slope);
    let ratings = &mut report.ratings;
    for line in [&mut ratings.effort, &mut ratings.steadiness, &mut ratings.held_on] {
        (line.values, line.median, line.trend) = (vec![4; 366], Some(4.5), slope);
    }
    (ratings.falls_told, ratings.near_falls.values) = (123, vec![3; 52]);
    let long = "what was said of it, at length and with every reason that there was for it ".repeat(4);
    report.events =
        (0..999).map(|_| Event { day: date(2027, 11, 30), kind: Kind::Change, what: long.clone() }).collect();
    report.ladder = vec![LadderChange {
        day: date(2027, 11, 30),
        drill: "interrupted-walking, with a partner".to_owned(),
        from: Some(3),
        to: 4,
        why: Vec::new(),
    }];
    let tests = [
        ("four-stage", "10.0 s"),
        ("one-leg", "300.0 s"),
        ("chair-stand", "60 rises"),
        ("timed-up-and-go", "600.0 s"),
        ("five-rises", "600.0 s"),
    ];
    let verdicts = [Verdict::Below, Verdict::NotBelow, Verdict::NoNorm, Verdict::Below, Verdict::NotBelow];
    report.tests = tests
        .into_iter()
        .zip(verdicts)
        .map(|((test, result), verdict)| TestLine {
            test,
            results: vec![(date(2027, 11, 30), result.to_owned()); 12],
            verdict,
            finding: long.clone(),
            change: vec![long.clone()],
        })
        .collect();
    (report.review.days, report.review.sessions, report.review.due_after, report.review.is_due) =
        (9_999, 366, 24, true);
    let followed = |what: &str| Consequence {
        what: what.to_owned(),
        standing: Clearing::NotCleared,
        by: None,
        on: None,
    };
    let incident = |kind| Incident {
        day: date(2027, 11, 30),
        kind,
        place: "set 10, interrupted-walking, step 10".to_owned(),
        what: "grabbed hold or nearly fell".to_owned(),
        followed: vec![followed("locked: a fall that may have hurt"), followed("limits after a fall")],
    };
    report.incidents = (0..300).flat_map(|_| [Kind::Fall, Kind::Grab, Kind::Unwell].map(incident)).collect();
    let unanswered = Unanswered {
        day: date(2027, 11, 30),
        place: String::new(),
        grab: Told::NotAsked,
        unwell: Told::NotAsked,
    };
    report.unanswered = vec![unanswered; 999];
    report.program_changes = vec![ProgramChange {
        day: Some(date(2027, 11, 30)),
        source: "a-file-with-a-long-name.toml".to_owned(),
        digest: "sha256:0".to_owned(),
        title: Some(long.clone()),
        issued_by: Some(long.clone()),
        is_sealed: Some(true),
        before: Some("sha256:1".to_owned()),
        before_title: Some(long.clone()),
        is_compared: true,
        harder: Some(long.clone()),
        easier: Some(long.clone()),
    }];
    report.not_good = Topic::questions(true)
        .map(|topic| NotGood {
            day: date(2027, 11, 30),
            at: 0,
            asked: Asked::Suitability,
            about: topic.to_string(),
            answer: "yes".to_owned(),
            led_to: vec![followed("a clinician first")],
        })
        .collect();
    (report.foreseen, report.accepted_because) = (long.clone(), Some(long));
    report
}

#[test]
fn the_fullest_summary_fits_one_screen_and_nothing_urgent_is_missing() {
    let text = shown(&fullest());
    assert!(text.lines().count() <= SCREEN, "{} lines\n{text}", text.lines().count());
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
    for urgent in [
        "Falls, grabs, near falls, symptoms: fall 300, grab or near fall 300, symptom 300; not asked or not said after 999 \
         sets. The last fall: 2027-11-30,",
        "grabbed hold or nearly fell (set 10, interrupted-walking,",
        "Program changed: 2027-11-30",
        "Answers that were not good: 44; not cleared: heart trouble, blood",
        "NOW: Locked since 2026-11-20, not cleared: a fall that may have hurt.",
        "366 days (312 prescribed)",
        "predictable by a given seed 188",
        "support or worse 1234 (53 %, 51-55);",
        "daily life: 123 falls, 156 near falls reported;",
        "Balance tests: below cut-off four-stage 10.0 s",
        "no norm chair-stand 60 rises.",
        "Review: DUE",
        "Small numbers say little",
        "counterpoise report --whole",
    ] {
        assert!(text.split_whitespace().collect::<Vec<_>>().join(" ").contains(urgent), "{urgent}\n{text}");
    }
}

#[test]
fn the_fullest_whole_report_fits_its_width() {
    let mut report = fullest();
    report.ladder[0].why =
        vec!["As it was said, in a sentence that is longer than a line of the screen.".to_owned(); 2];
    report.prescriptions[0].title = report.prescription.title.clone();
    let group = &mut report.responses.groups[0];
    group.name = "interrupted-walking, with a partner".to_owned();
    let share = Some(Share { count: 999, of: 2_345, share: 0.426, low: 0.406, high: 0.447 });
    (group.one_step_or_better, group.two_or_more, group.support) = (share, share, share);
    for line in super::text::of(&super::blocks(&report)).lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

#[test]
fn what_has_room_is_shown_whole() {
    let mut report = report();
    report.foreseen = "as the audit says, at length, ".repeat(18) + "to the end.";
    let text = shown(&report);
    assert!(!text.contains("...") && text.contains("to the end."), "{text}");
    report.foreseen = "as the audit says, at length, ".repeat(60) + "to the end.";
    let text = shown(&report);
    assert!(text.contains(" ...") && !text.contains("to the end."), "{text}");
    assert!(text.lines().count() <= SCREEN, "{text}");
}

#[test]
fn a_review_is_due_and_not_practice_60_of_12() {
    let mut report = report();
    let sentence = |report: &Report| {
        let text = shown(report);
        let from = text.find("Review").unwrap();
        text[from..].split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert!(
        sentence(&report)
            .starts_with("Review: after 12 practices; so far 1, in 393 days since the first practice.")
    );
    (report.review.sessions, report.review.is_due) = (60, true);
    report.prescription.issued_by = "K. L.".to_owned();
    let due = "Review: DUE, nothing steps up before it. It was planned after 12 practices; there have been 60, in 393 days since \
               K. L. issued it.";
    assert!(sentence(&report).starts_with(due), "{}", sentence(&report));
}
