use jiff::civil::{Date, date};

use super::{
    FEWEST_FOR_TREND, Material, More, MoreOfSet, Period, Report, Share, Week, blocks, summary, theil_sen,
};
use crate::direction::Direction;
use crate::lock::Lock;
use crate::page::Block;
use crate::past::sample::{clean, on, past, prescription};
use crate::past::{Barrier, Lifted, PastSession};
use crate::prescription::Prescription;
use crate::readiness::Item;
use crate::record::{Given, Response, SessionEnd, SetEnd};

/// What `scipy.stats.theilslopes(values, range(len(values)), 0.95)` gives (version 1.17.1): slope, low, high.
const SCIPY_SLOPES: [(&[f64], [f64; 3]); 6] = [
    (&[1.0, 2.0, 3.0, 40.0, 5.0, 6.0], [1.0, -17.0, 19.0]),
    (&[3.0, 3.0, 2.0, 2.0, 2.0, 1.0, 1.0, 1.0], [-0.333_333_333_333_333_3, -0.5, 0.0]),
    (&[0.5, 0.8, 0.75, 0.9, 1.0, 0.85, 0.95], [0.066_666_666_666_666_65, -0.025_000_000_000_000_022, 0.125]),
    (&[2.0, 2.0, 2.0, 2.0, 2.0, 2.0], [0.0, 0.0, 0.0]),
    (&[5.0, 4.5], [-0.5, -0.5, -0.5]),
    (&[6.0, 4.0, 4.0, 6.0, 2.0, 4.0, 6.0, 4.0, 8.0, 2.0, 4.0, 4.0], [0.0, -0.4, 0.25]),
];

#[test]
fn slopes_are_those_of_scipy() {
    for (values, expected) in SCIPY_SLOPES {
        let found = theil_sen(values).unwrap();
        for (found, expected) in [found.slope, found.low, found.high].into_iter().zip(expected) {
            assert!((found - expected).abs() < 1e-12, "{values:?}: {found} {expected}");
        }
    }
    assert_eq!(theil_sen(&[]), None);
}

#[test]
fn shares_are_those_of_scipy_and_few_observations_have_none() {
    // scipy.stats.binomtest(count, of).proportion_ci(0.95, method="exact"), SciPy 1.17.1.
    for (count, of, low, high) in [
        (0, 10, 0.0, 0.308_497_107_818_762_94),
        (10, 10, 0.691_502_892_181_237_1, 1.0),
        (5, 10, 0.187_086_028_447_404_5, 0.812_913_971_552_595_5),
        (33, 40, 0.672_209_866_638_405_4, 0.926_617_270_647_915),
        (1, 12, 0.002_107_593_231_861_633_2, 0.384_796_165_150_943_84),
        (180, 200, 0.849_787_212_132_244_2, 0.937_840_633_745_933_8),
    ] {
        let share = Share::of(count, of).unwrap();
        assert!(
            (share.low - low).abs() < 1e-9 && (share.high - high).abs() < 1e-9,
            "{count} of {of}: {share:?}"
        );
    }
    assert_eq!(Share::of(9, 9), None);
    assert_eq!(Share::of(0, 0), None);
}

#[test]
fn weeks_are_those_of_iso_8601() {
    // Python's date.isocalendar() says so too: 2020 and 2026 have 53 weeks.
    for (day, week) in [
        (date(2020, 12, 31), "2020-W53"),
        (date(2021, 1, 3), "2020-W53"),
        (date(2021, 1, 4), "2021-W01"),
        (date(2026, 12, 31), "2026-W53"),
        (date(2027, 1, 3), "2026-W53"),
        (date(2027, 1, 4), "2027-W01"),
        (date(2024, 12, 30), "2025-W01"),
        (date(2023, 1, 1), "2022-W52"),
    ] {
        assert_eq!(Week::name_of(day), week, "{day}");
    }
}

#[test]
fn a_try_out_is_told_and_counts_as_no_practice() {
    let tried = session(nov(2)).but(|session| session.tried_out = true);
    let report = report(&material(vec![tried]), nov(1), nov(30));
    assert_eq!((report.dose.days, report.dose.sets, report.review.sessions), (0, 0, 0));
    assert_eq!(report.events[0].what, "supervised try-out, which counts as no practice");
}

/// Sessions with what a report needs besides: a minute of work in each set.
fn material(sessions: Vec<PastSession>) -> Material {
    let more = sessions.iter().map(|session| More {
        title: "Reaches and steps".to_owned(),
        why: vec!["As it was said.".to_owned()],
        sets: session.sets.iter().map(|_| MoreOfSet { worked_ms: 60_000, ..MoreOfSet::default() }).collect(),
        ..More::default()
    });
    Material { more: more.collect(), past: past(sessions), ..Material::default() }
}

fn report(material: &Material, since: Date, until: Date) -> Report {
    report_of(material, &prescription(), since, until)
}

fn report_of(material: &Material, prescription: &Prescription, since: Date, until: Date) -> Report {
    let period = Period { since, until };
    Report::of(material, prescription, period, "as the audit says.".to_owned(), Vec::new())
}

fn session(day: Date) -> PastSession {
    clean(&prescription(), &on(day, 10), &[1, 2, 2])
}

fn nov(day: i8) -> Date {
    date(2026, 11, day)
}

#[test]
fn sessions_and_sets_stand_against_those_prescribed_week_by_week() {
    // 2 November 2026 is a Monday. Three days a week; five sets a day with the built-in warm-up.
    let broken = session(nov(13)).but(|session| {
        session.sets.truncate(3);
        session.sets[2].end = Some(SetEnd::Interrupted);
        session.end = Some(SessionEnd::Interrupted);
    });
    let later = session(nov(25));
    let material = material(vec![session(nov(2)), session(nov(5)), session(nov(9)), broken, later]);
    let report = report(&material, nov(4), nov(20));
    let dose = &report.dose;
    let sets: u32 = prescription().drills().iter().map(|plan| u32::from(plan.sets())).sum();
    // From Wednesday on: two days, seven, five.
    let weeks: Vec<_> = dose
        .weeks
        .iter()
        .map(|week| (week.week.as_str(), week.days, week.days_prescribed, week.days_in_period))
        .collect();
    assert_eq!(weeks, [("2026-W45", 1, 3, 5), ("2026-W46", 2, 3, 7), ("2026-W47", 0, 3, 5)]);
    assert_eq!((dose.days, dose.days_prescribed), (3, 9));
    assert_eq!((dose.sets as u32, dose.sets_prescribed), (2 * sets + 2, 9 * sets));
    assert_eq!((dose.sets_broken_off, dose.interrupted), (1, 1));
    assert_eq!(dose.active_ms, u64::from(2 * sets + 3) * 60_000);
    assert_eq!(dose.cues, u64::from(2 * sets + 3) * 5);
    // The last two days of a week can hold no more than two practices.
    let short = Report::of(
        &material,
        &prescription(),
        Period { since: nov(7), until: nov(8) },
        String::new(),
        vec![],
    );
    assert_eq!((short.dose.days_prescribed, short.dose.weeks.len()), (2, 1));
}

#[test]
fn a_day_is_counted_once_and_clock_changes_lose_none() {
    // New York's clocks go back on 1 November 2026.
    let days = [date(2026, 10, 31), nov(1), nov(2)];
    let mut sessions: Vec<PastSession> = days.map(session).to_vec();
    // What finished an interrupted session, the same day.
    sessions.push(session(nov(2)).but(|session| session.id.push_str(", finished")));
    let report = report(&material(sessions), date(2026, 10, 31), nov(2));
    assert_eq!((report.dose.days, report.dose.weeks.len()), (3, 2));
}

#[test]
fn responses_are_counted_by_drill_direction_and_side() {
    let mut material = material((0..FEWEST_FOR_TREND as i8).map(|nth| session(nov(2 + 2 * nth))).collect());
    for more in &mut material.more {
        more.sets[1].responses = vec![
            (Some(Direction::Left), Some(Response::InPlace)),
            (Some(Direction::Left), Some(Response::MoreSteps)),
            (Some(Direction::Right), Some(Response::OneStep)),
            (Some(Direction::Right), None),
        ];
    }
    let found = report(&material, nov(1), nov(30)).responses;
    assert_eq!((found.noted, found.not_noted), (18, 6));
    let group = |name: &str| found.groups.iter().find(|group| group.name == name).unwrap();
    let all = group("all pushes");
    assert_eq!((all.in_place, all.one_step, all.more_steps, all.fell), (6, 6, 6, 0));
    assert_eq!(all.one_step_or_better, Share::of(12, 18));
    assert_eq!((group("left").one_step_or_better, group("left").more_steps), (Share::of(6, 12), 6));
    assert_eq!(group("right").one_step_or_better, None, "six observations give no percentage");
    assert_eq!(group("right").one_step, 6);
    assert!(found.trend.unwrap().slope.abs() < 1e-12, "every session alike");
    let few = material.past.sessions.len() - 1;
    material.past.sessions.truncate(few);
    material.more.truncate(few);
    assert_eq!(report(&material, nov(1), nov(30)).responses.trend, None, "five sessions give no trend");
    assert!(report(&Material::default(), nov(1), nov(30)).responses.groups.is_empty());
}

#[test]
fn ratings_are_the_hardest_and_worst_of_each_session() {
    let hard = session(nov(4)).but(|session| {
        session.sets[1].effort = Some(8);
        session.sets[2].steadiness = Some(4);
        session.sets[2].held_on = Some(2);
        session.sets[3].held_on = Some(1);
        session.sets[3].unwell = None;
    });
    let found = report(&material(vec![session(nov(2)), hard]), nov(1), nov(30)).ratings;
    assert_eq!((found.effort.values, found.effort.median), (vec![4, 8], Some(6.0)));
    assert_eq!((found.steadiness.values, found.held_on.values), (vec![2, 4], vec![0, 3]));
    assert_eq!((found.not_said, found.effort.trend), (1, None));
}

#[test]
fn events_are_dated_and_a_lifted_lock_is_still_told() {
    let fell = session(nov(4)).but(|session| {
        session.sets[1].end = Some(SetEnd::Fell);
        (session.end, session.hurt) = (Some(SessionEnd::Fell), Some(1));
    });
    let told = session(nov(12)).but(|session| {
        session.sets.clear();
        session.end = Some(SessionEnd::NotToday);
        session.ready = vec![(Item::Sore, false), (Item::Light, false), (Item::Night, false)];
    });
    let unwell = session(nov(16)).but(|session| {
        session.sets[0].unwell = Some(1);
        (session.end, session.symptom) = (Some(SessionEnd::Unwell), Some(5));
    });
    let mut material = material(vec![fell, told, unwell]);
    let locked = material.past.sessions[0].id.clone();
    material.past.lifted = vec![Lifted { session: locked, what: Barrier::Lock(Lock::FallHurt) }];
    material.clearances = vec![(nov(10), "K. L.".to_owned(), "no injury".to_owned())];
    material.changes = vec![
        (nov(1), "prescription in use: a.toml".to_owned()),
        (nov(11), "prescription in use: b.toml".to_owned()),
    ];
    let events = report(&material, nov(2), nov(30)).events;
    let said: Vec<String> =
        events.iter().map(|event| format!("{} {}", event.day.day(), event.what)).collect();
    assert_eq!(said.len(), 7, "{said:#?}");
    for (at, part) in [
        (0, "4 fell (set 2"),
        (1, "4 locked: a fall that may have hurt"),
        (2, "10 cleared by K. L.: no injury"),
        (3, "11 prescription in use: b.toml"),
        (4, "12 told before practice, not true: My legs"),
        (5, "12 not today"),
        (6, "16 felt unwell: dizzy"),
    ] {
        assert!(said[at].starts_with(part), "{part}: {said:#?}");
    }
}

#[test]
fn each_change_of_a_step_has_its_day_and_its_reasons() {
    let step = |day, step| {
        session(day).but(|session| {
            let drill = "counter-reach".to_owned();
            session.given = vec![Given { drill, form: crate::drill::Form::Alone, step }];
        })
    };
    let material = material(vec![step(nov(2), 2), step(nov(4), 2), step(nov(6), 3), step(nov(9), 2)]);
    let found = report(&material, nov(1), nov(30)).ladder;
    let steps: Vec<_> = found.iter().map(|change| (change.day.day(), change.from, change.to)).collect();
    assert_eq!(steps, [(2, None, 2), (6, Some(2), 3), (9, Some(3), 2)]);
    assert!(found[0].why.is_empty(), "a beginning is no change");
    assert_eq!(found[1].why, ["As it was said."]);
}

#[test]
fn a_review_is_due_after_as_many_practices_as_the_prescription_says() {
    let due = |sessions: i8| {
        let material = material((0..sessions).map(|nth| session(nov(1 + nth))).collect());
        report(&material, nov(1), nov(30)).review
    };
    assert_eq!((due(11).is_due, due(12).is_due, due(12).sessions, due(12).due_after), (false, true, 12, 12));
    assert_eq!(due(12).days, 29, "since the first practice: nobody issued it");
}

#[test]
fn what_applies_is_said_and_nothing_is_scored() {
    let report = report(&material(vec![session(nov(2))]), nov(1), nov(30));
    let mut text = summary(&report).join("\n");
    for block in blocks(&report) {
        match block {
            Block::Heading(said) | Block::Text(said) => text += &said,
            Block::Table(table) => text += &table.rows.concat().join(" "),
            Block::Chart(chart) => text += &chart.words,
        }
    }
    for part in
        ["29 % against 20 %", "Small numbers say little", "six hours", "no promise", "lower than therapists'"]
    {
        assert!(text.contains(part), "{part}");
    }
    for word in ["score", "rank", "grade", "streak", "risk of fall", "prevent"] {
        assert!(!text.to_lowercase().contains(word), "{word}");
    }
    let mut tested = material(vec![session(nov(2))]);
    tested.tests = vec![crate::assessment::Dated {
        day: nov(3),
        reading: crate::assessment::Reading::read(crate::assessment::Test::OneLeg, "4").unwrap(),
        age: None,
        sex: None,
        company: crate::assessment::Company::Elsewhere,
    }];
    let report =
        Report::of(&tested, &prescription(), Period { since: nov(1), until: nov(30) }, String::new(), vec![]);
    assert!(report.remarks.iter().any(|remark| remark.starts_with("No single test")));
    assert!(report.tests[0].finding.contains("Below the published cut-off"));
}
