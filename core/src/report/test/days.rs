//! Days are local days as they were written: clock changes, travel and midnight lose none and make none. Weeks are those of
//! ISO 8601.

use jiff::civil::{Date, date};
use jiff::{SignedDuration, ZonedDateTime};

use super::{material, nov, report, session};
use crate::course::past::PastSession;
use crate::course::past::sample::{clean, prescription};
use crate::report::Week;

/// A clean session that began then and there.
fn begun(at: &str) -> PastSession {
    let at: ZonedDateTime = at.parse().unwrap();
    clean(&prescription(), &at, &[1, 2, 2])
}

/// Days, sessions and the weeks with practice of a report.
fn counted(sessions: Vec<PastSession>, since: Date, until: Date) -> (usize, usize, Vec<(String, usize)>) {
    let dose = report(&material(sessions), since, until).dose;
    let weeks =
        dose.weeks.into_iter().filter(|week| week.days > 0).map(|week| (week.week, week.days)).collect();
    (dose.days, dose.sessions, weeks)
}

#[test]
fn weeks_are_those_of_iso_8601() {
    for (day, week) in [
        // Examples of ISO 8601 itself (as quoted from its 1988 and 2004 editions; from memory).
        (date(1985, 4, 12), "1985-W15"),
        (date(1995, 1, 1), "1994-W52"),
        (date(1996, 12, 31), "1997-W01"),
        // Python 3.11, `date.isocalendar()`: 2015, 2020 and 2026 have 53 weeks, 2024 and 2027 do not.
        (date(2015, 12, 31), "2015-W53"),
        (date(2016, 1, 3), "2015-W53"),
        (date(2020, 12, 31), "2020-W53"),
        (date(2021, 1, 3), "2020-W53"),
        (date(2021, 1, 4), "2021-W01"),
        (date(2023, 1, 1), "2022-W52"),
        (date(2024, 12, 29), "2024-W52"),
        (date(2024, 12, 30), "2025-W01"),
        (date(2026, 12, 27), "2026-W52"),
        (date(2026, 12, 28), "2026-W53"),
        (date(2026, 12, 31), "2026-W53"),
        (date(2027, 1, 3), "2026-W53"),
        (date(2027, 1, 4), "2027-W01"),
        (date(2027, 12, 31), "2027-W52"),
        (date(2028, 1, 2), "2027-W52"),
    ] {
        assert_eq!(Week::name_of(day), week, "{day}");
    }
}

#[test]
fn a_week_53_is_one_week_over_the_turn_of_the_year() {
    let days = [date(2026, 12, 28), date(2026, 12, 30), date(2027, 1, 1), date(2027, 1, 4)];
    let dose = report(&material(days.map(session).to_vec()), date(2026, 12, 28), date(2027, 1, 10)).dose;
    let weeks: Vec<_> = dose
        .weeks
        .iter()
        .map(|week| (week.week.as_str(), week.days, week.days_prescribed, week.days_in_period))
        .collect();
    assert_eq!(weeks, [("2026-W53", 3, 3, 7), ("2027-W01", 1, 3, 7)]);
}

#[test]
fn clock_changes_lose_no_day_and_make_none() {
    // New York: forward on 8 March 2026 (a Sunday of 23 hours), back on 1 November (a Sunday of 25).
    let forward = vec![
        begun("2026-03-07T23:50:00-05:00[America/New_York]"),
        begun("2026-03-08T23:50:00-04:00[America/New_York]"),
        begun("2026-03-09T00:05:00-04:00[America/New_York]").but(|session| session.id.push_str(", another")),
    ];
    let expected = (3, 3, vec![("2026-W10".to_owned(), 2), ("2026-W11".to_owned(), 1)]);
    assert_eq!(counted(forward, date(2026, 3, 2), date(2026, 3, 15)), expected);
    // 01:30 comes twice on that day: it is one day, and the hours between the two are elapsed ones.
    let back = vec![
        begun("2026-11-01T01:30:00-04:00[America/New_York]"),
        begun("2026-11-01T01:30:00-05:00[America/New_York]"),
    ];
    assert_eq!(back[1].begun.duration_since(back[0].begun), SignedDuration::from_hours(1));
    assert_eq!(counted(back, nov(1), nov(1)), (1, 2, vec![("2026-W44".to_owned(), 1)]));
    // A session of twenty minutes over the change has twenty minutes, both ways.
    for at in ["2026-03-08T01:50:00-05:00[America/New_York]", "2026-11-01T01:50:00-04:00[America/New_York]"] {
        let one = begun(at);
        let day = one.day;
        assert_eq!(report(&material(vec![one]), day, day).dose.session_ms, 20 * 60_000, "{at}");
    }
    // Every week of the year has seven days, both changes included.
    let year = report(&material(Vec::new()), date(2026, 1, 5), nov(29)).dose;
    assert!(year.weeks.iter().all(|week| week.days_in_period == 7));
    assert_eq!(year.weeks.len(), 47);
}

#[test]
fn whoever_travels_practices_on_the_days_of_the_place() {
    // West over the date line: Tokyo's Wednesday evening is followed by Honolulu's Wednesday morning: one date, two
    // sessions. East: Los Angeles' Friday is followed by Tokyo's Sunday, and no Saturday is made up.
    let west = vec![
        begun("2026-11-04T10:00:00+09:00[Asia/Tokyo]"),
        begun("2026-11-04T10:00:00-10:00[Pacific/Honolulu]"),
    ];
    assert_eq!(counted(west, nov(1), nov(30)).0, 1);
    let east = vec![
        begun("2026-11-06T22:00:00-08:00[America/Los_Angeles]"),
        begun("2026-11-08T09:00:00+09:00[Asia/Tokyo]"),
    ];
    assert_eq!(counted(east.clone(), nov(1), nov(30)), (2, 2, vec![("2026-W45".to_owned(), 2)]));
    // The period is of local days too: that Sunday morning is still Saturday in universal time.
    assert_eq!(east[1].begun.to_string(), "2026-11-08T00:00:00Z");
    let earlier = begun("2026-11-08T08:00:00+09:00[Asia/Tokyo]");
    assert_eq!(earlier.begun.to_string(), "2026-11-07T23:00:00Z");
    assert_eq!(counted(vec![earlier.clone()], nov(8), nov(8)).0, 1);
    assert_eq!(counted(vec![earlier], nov(7), nov(7)).0, 0);
}

#[test]
fn a_session_over_midnight_is_of_the_day_on_which_it_began() {
    // Sunday night, and what finishes it on Monday, in the next week: one practice of Sunday.
    let first = begun("2026-11-08T23:45:00-05:00[America/New_York]").broken_off_after(2);
    let second = begun("2026-11-09T00:30:00-05:00[America/New_York]").but(|session| {
        session.sets.drain(..2);
    });
    let both = vec![first, second];
    assert_eq!(counted(both.clone(), nov(2), nov(15)), (1, 1, vec![("2026-W45".to_owned(), 1)]));
    assert_eq!(counted(both.clone(), nov(2), nov(8)).0, 1, "all of it, although the period ends at midnight");
    assert_eq!(counted(both, nov(9), nov(15)).0, 0);
    // A whole session after midnight is of the new day.
    let late = begun("2026-11-08T23:55:00-05:00[America/New_York]");
    let next = begun("2026-11-09T10:00:00-05:00[America/New_York]");
    assert_eq!(late.ended.to_string(), "2026-11-09T05:15:00Z", "it ended after midnight");
    let expected = (2, 2, vec![("2026-W45".to_owned(), 1), ("2026-W46".to_owned(), 1)]);
    assert_eq!(counted(vec![late, next], nov(2), nov(15)), expected);
}
