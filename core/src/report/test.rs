//! The figures of a report against values of other libraries, and against practices made by hand.

use jiff::civil::{Date, date};

use super::{
    FEWEST_FOR_TREND, Material, Period, Report, SessionDetails, SetDetails, Share, blocks, summary, theil_sen,
};
use crate::blocks::{About, Block};
use crate::course::past::PastSession;
use crate::course::past::sample::{clean, on, past, prescription};
use crate::plan::direction::Direction;
use crate::plan::prescription::Prescription;
use crate::record::{Answer, Effort, Given, Numbered, Response, Soreness, Steadiness, Times};

mod adverse_events;
mod answers;
mod changes;
mod days;
mod dose;
mod events;

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
fn shares_are_those_of_statsmodels_and_hold_the_narrower_interval_of_wilson() {
    // statsmodels 0.15.0: proportion_confint(count, of, 0.05, method="beta"), then method="wilson". The exact interval is the
    // cautious one: on these data Wilson's lies within it.
    for (count, of, exact, wilson) in [
        (0, 10, (0.0, 0.308_497_107_818_760_83), (0.0, 0.277_532_799_862_889_26)),
        (10, 10, (0.691_502_892_181_239_2, 1.0), (0.722_467_200_137_110_6, 1.0)),
        (
            7,
            11,
            (0.307_904_715_011_677_15, 0.890_736_556_180_901_9),
            (0.353_801_174_507_848_9, 0.848_335_289_046_324_3),
        ),
        (
            12,
            18,
            (0.409_925_238_172_074_44, 0.866_572_597_493_876_5),
            (0.437_494_672_959_451_1, 0.837_212_252_491_663_2),
        ),
        (
            33,
            40,
            (0.672_209_866_638_414_2, 0.926_617_270_647_914_8),
            (0.680_500_096_682_122_7, 0.912_545_862_539_640_9),
        ),
        (
            180,
            200,
            (0.849_787_212_132_244_2, 0.937_840_633_745_933_8),
            (0.850_594_187_567_282_6, 0.934_329_551_330_904_1),
        ),
    ] {
        let share = Share::of(count, of).unwrap();
        assert!((share.low - exact.0).abs() < 1e-9 && (share.high - exact.1).abs() < 1e-9, "{share:?}");
        assert!(share.low <= wilson.0 && wilson.1 <= share.high, "{share:?} {wilson:?}");
    }
}

/// A slope of the report against `scipy` 1.17.1: `theilslopes(values, range(len(values)), 0.95)`.
fn is_scipys(found: Option<super::Slope>, expected: [f64; 3], of: usize) {
    let found = found.unwrap();
    assert_eq!(found.of, of);
    for (found, expected) in [found.slope, found.low, found.high].into_iter().zip(expected) {
        assert!((found - expected).abs() < 1e-12, "{found} {expected}");
    }
}

#[test]
fn trends_of_a_report_and_their_intervals_are_those_of_scipy() {
    let efforts = [4, 6, 4, 2, 6, 4, 8, 4, 6];
    let held = [1, 1, 1, 1, 1, 1, 1, 2];
    let mut sessions: Vec<PastSession> = (0..9).map(|nth| session(nov(2 + 2 * nth))).collect();
    for (session, effort) in sessions.iter_mut().zip(efforts) {
        session.sets.iter_mut().for_each(|set| set.effort = Effort::numbered(effort.min(2)));
        session.sets[2].effort = Effort::numbered(effort);
        session.sets[1].held_on = None;
    }
    // In one practice nobody said how often: its place is not filled.
    sessions[4].sets.iter_mut().for_each(|set| set.held_on = None);
    for (session, times) in sessions.iter_mut().filter(|session| session.sets[0].held_on.is_some()).zip(held)
    {
        session.sets[3].held_on = Times::numbered(times);
    }
    let mut material = material(sessions);
    for (more, soreness) in material.details.iter_mut().zip([3, 1, 2, 2, 1, 1, 1, 0]) {
        more.weekly = vec![Answer::Soreness(Soreness::numbered(soreness))];
    }
    // Of four pushes so many were one step or better.
    for (more, good) in material.details.iter_mut().zip([2, 3, 3, 4, 2, 4, 4, 3]) {
        let response = |nth| Some(if nth < good { Response::OneStep } else { Response::Touched });
        more.sets[1].responses = (0..4).map(|nth| (Some(Direction::Left), response(nth))).collect();
    }
    let found = report(&material, nov(1), nov(30));
    assert_eq!(found.ratings.effort.values, efforts.map(u32::from));
    is_scipys(found.ratings.effort.trend, [0.0, -0.5, 1.0], 9);
    assert_eq!(found.ratings.held_on.values, held.map(u32::from));
    is_scipys(found.ratings.held_on.trend, [0.0, 0.0, 0.0], 8);
    is_scipys(found.ratings.soreness.trend, [-1.0 / 3.0, -0.5, 0.0], 8);
    is_scipys(found.responses.trend, [0.042_857_142_857_142_86, 0.0, 0.125], 8);
    // Zero lies at the edge of the interval, so nothing is called a trend.
    let said = said(&found);
    assert!(said.contains("no clear trend") && !said.contains("points of 100"), "{said}");
}

/// The summary in words.
fn said(report: &Report) -> String {
    let words = summary(report).into_iter().map(|said| match said.block {
        Block::Text(text) => text + "\n",
        Block::About(About { about, text, .. }) => format!("{about}: {text}\n"),
        other => panic!("a summary has no {other:?}"),
    });
    words.collect()
}

/// Sessions with what a report needs besides: a minute of work in each set.
fn material(sessions: Vec<PastSession>) -> Material {
    let more = sessions.iter().map(|session| SessionDetails {
        title: "Reaches and steps".to_owned(),
        why: vec!["As it was said.".to_owned()],
        sets: session
            .sets
            .iter()
            .map(|_| SetDetails { worked_ms: 60_000, ..SetDetails::default() })
            .collect(),
        ..SessionDetails::default()
    });
    Material { details: more.collect(), past: past(sessions), ..Material::default() }
}

pub(super) fn report(material: &Material, since: Date, until: Date) -> Report {
    report_of(material, &prescription(), since, until)
}

fn report_of(material: &Material, prescription: &Prescription, since: Date, until: Date) -> Report {
    let period = Period { since, until };
    Report::of(material, prescription, period, "as the audit says.".to_owned(), Vec::new(), None)
}

fn session(day: Date) -> PastSession {
    clean(&prescription(), &on(day, 10), &[1, 2, 2])
}

fn nov(day: i8) -> Date {
    date(2026, 11, day)
}

#[test]
fn responses_are_counted_by_drill_direction_and_side() {
    let mut material = material((0..FEWEST_FOR_TREND as i8).map(|nth| session(nov(2 + 2 * nth))).collect());
    for more in &mut material.details {
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
    material.details.truncate(few);
    assert_eq!(report(&material, nov(1), nov(30)).responses.trend, None, "five sessions give no trend");
    assert!(report(&Material::default(), nov(1), nov(30)).responses.groups.is_empty());
}

#[test]
fn each_kind_of_response_is_in_the_sum_and_the_share_that_it_belongs_to() {
    use Response::{Fell, Grabbed, InPlace, MoreSteps, OneStep, Touched};
    // A number of its own for each, so that none can stand for another.
    let kinds = [(InPlace, 19), (OneStep, 11), (MoreSteps, 7), (Touched, 5), (Grabbed, 3), (Fell, 2)];
    let responses = kinds.iter().flat_map(|(kind, count)| vec![(Some(Direction::Left), Some(*kind)); *count]);
    let mut material = material(vec![session(nov(2))]);
    material.details[0].sets[1].responses = responses.collect();
    let found = report(&material, nov(1), nov(30));
    assert_eq!(found.responses.noted, 47);
    for group in &found.responses.groups {
        let counts =
            [group.in_place, group.one_step, group.more_steps, group.touched, group.grabbed, group.fell];
        assert_eq!(counts, kinds.map(|(_, count)| count), "{}", group.name);
        assert_eq!((group.good(), group.supported()), (30, 10), "{}", group.name);
        assert_eq!(group.one_step_or_better, Share::of(30, 47), "{}", group.name);
        assert_eq!(group.two_or_more, Share::of(7, 47), "{}", group.name);
        assert_eq!(group.support, Share::of(10, 47), "touched, grabbed and fell: {}", group.name);
    }
    // Too few for a share: the sum itself is on the page.
    material.details[0].sets[1].responses =
        [OneStep, Touched, Grabbed, Fell].map(|kind| (None, Some(kind))).to_vec();
    let few = said(&report(&material, nov(1), nov(30)));
    assert!(few.contains("support or worse 3"), "{few}");
}

#[test]
fn ratings_are_the_hardest_and_worst_of_each_session() {
    let hard = session(nov(4)).but(|session| {
        session.sets[1].effort = Effort::numbered(8);
        session.sets[2].steadiness = Some(Steadiness::VeryUnsteady);
        session.sets[2].held_on = Some(Times::Twice);
        session.sets[3].held_on = Some(Times::Once);
    });
    let found = report(&material(vec![session(nov(2)), hard]), nov(1), nov(30)).ratings;
    assert_eq!((found.effort.values, found.effort.median), (vec![4, 8], Some(6.0)));
    assert_eq!((found.steadiness.values, found.held_on.values), (vec![2, 4], vec![0, 3]));
    assert_eq!(found.effort.trend, None);
}

#[test]
fn each_change_of_a_step_has_its_day_and_its_reasons() {
    let step = |day, step| {
        session(day).but(|session| {
            let drill = "counter-reach".to_owned();
            session.given = vec![Given { drill, form: crate::plan::drill::Form::Alone, step, ladder: None }];
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
    let mut text = said(&report);
    for block in blocks(&report) {
        match block {
            Block::Heading(said) | Block::Text(said) | Block::About(About { text: said, .. }) => {
                text += &said;
            }
            Block::Table(table) => text += &table.rows.concat().join(" "),
            Block::Chart(chart) => text += &chart.words,
            other => panic!("a report has no {other:?}"),
        }
    }
    for part in [
        "29 % against 20 %",
        "Small numbers say little",
        "six hours",
        "not a promise",
        "of 6 hours",
        "lower than therapists'",
    ] {
        assert!(text.contains(part), "{part}");
    }
    for word in ["score", "rank", "grade", "streak", "risk of fall", "prevent"] {
        assert!(!text.to_lowercase().contains(word), "{word}");
    }
    let mut tested = material(vec![session(nov(2))]);
    tested.tests = vec![crate::health::assessment::Dated {
        day: nov(3),
        reading: crate::health::assessment::Reading::read(crate::health::assessment::Test::OneLeg, "4")
            .unwrap(),
        age: None,
        sex: None,
        company: crate::health::assessment::Company::Elsewhere,
    }];
    let report = Report::of(
        &tested,
        &prescription(),
        Period { since: nov(1), until: nov(30) },
        String::new(),
        vec![],
        None,
    );
    assert!(report.remarks.iter().any(|remark| remark.starts_with("No single test")));
    assert!(report.tests[0].finding.contains("than the published cut-off"));
}
