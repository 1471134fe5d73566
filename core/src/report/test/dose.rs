//! Days, sessions, sets and hours against those prescribed.

use jiff::civil::{Date, date};

use super::{material, nov, report, report_of, session};
use crate::course::past::PastSession;
use crate::course::past::sample::{clean, on, prescription};
use crate::plan::prescription::Prescription;
use crate::record::{Answer, LeftOut, SessionEnd, SetEnd, Times};
use crate::report::CountsAs;

/// The sample prescription, issued by somebody on a day, for so many weeks.
fn issued(on: &str, weeks: u8) -> Prescription {
    let text = format!(
        "schema = \"counterpoise.prescription/1\"\ntitle = \"t\"\nissued_by = \"K. L.\"\nissued_on = {on}\n\
         weeks = {weeks}\ndays_a_week = 3\n[[drills]]\ndrill = \"counter-reach\"\nsets = 2\nwork_ms = 60000\nstep = 1\n\
         ceiling = 3\ngap_ms = [5000, 15000]\ndirections = [\"left\", \"right\", \"forward\"]\n"
    );
    Prescription::read("issued.toml", text.as_bytes()).unwrap()
}

fn under(prescription: &Prescription, day: Date) -> PastSession {
    clean(prescription, &on(day, 10), &[1, 1])
}

#[test]
fn sessions_and_sets_stand_against_those_prescribed_week_by_week() {
    // 2 November 2026 is a Monday. Three days a week from the first practice on: Monday, Wednesday, Friday.
    let broken = session(nov(13)).but(|session| {
        session.sets.truncate(3);
        session.sets[2].end = Some(SetEnd::Interrupted);
        session.end = Some(SessionEnd::Interrupted);
    });
    let mut material =
        material(vec![session(nov(2)), session(nov(5)), session(nov(9)), broken, session(nov(25))]);
    material.details[2].left_out = vec![(4, LeftOut::Refused)];
    let dose = report(&material, nov(4), nov(20)).dose;
    let sets: u32 = prescription().drills().iter().map(|plan| u32::from(plan.sets())).sum();
    let weeks: Vec<_> = dose
        .weeks
        .iter()
        .map(|week| (week.week.as_str(), week.days, week.days_prescribed, week.days_in_period))
        .collect();
    assert_eq!(weeks, [("2026-W45", 1, 2, 5), ("2026-W46", 2, 3, 7), ("2026-W47", 0, 3, 5)]);
    let whole: Vec<_> = dose.weeks.iter().map(|week| (week.sessions, week.sessions_whole)).collect();
    assert_eq!(whole, [(1, 1), (2, 1), (0, 0)]);
    assert_eq!((dose.days, dose.days_prescribed), (3, 8));
    assert_eq!((dose.sessions, dose.sessions_whole), (3, 2));
    assert_eq!((dose.sets as u32, dose.sets_prescribed), (2 * sets + 2, 8 * sets));
    assert_eq!(dose.weeks[1].sets_prescribed, 3 * sets);
    assert_eq!((dose.sets_broken_off, dose.sets_left_out, dose.interrupted), (1, 1, 1));
    assert_eq!(dose.active_ms, u64::from(2 * sets + 3) * 60_000);
    assert_eq!(dose.cues, u64::from(2 * sets + 3) * 5);
    // Each lasts 20 minutes with its rests.
    assert_eq!((dose.session_ms, dose.length_unknown), (3 * 20 * 60_000, 0));
    assert_eq!(dose.weeks[1].session_ms, 2 * 20 * 60_000);
}

#[test]
fn a_program_asks_for_as_many_days_as_it_has_and_none_after_its_end() {
    let two_weeks = issued("2026-11-04", 2);
    // Begun on a Wednesday: it ends on Tuesday the 17th, and goes over three ISO weeks.
    let days = [nov(4), nov(6), nov(8), nov(11), nov(13), nov(15)];
    let sessions: Vec<PastSession> = days.iter().map(|day| under(&two_weeks, *day)).collect();
    let dose = report_of(&material(sessions), &two_weeks, nov(1), nov(30)).dose;
    let asked: Vec<u32> = dose.weeks.iter().map(|week| week.days_prescribed).collect();
    assert_eq!(asked, [0, 3, 3, 0, 0, 0], "2 weeks of 3 days are 6 days, wherever its weeks begin");
    assert_eq!((dose.days, dose.days_prescribed, dose.sets_prescribed), (6, 6, 18));
    // Before the day of issue nobody asked for anything.
    let earlier = session(date(2026, 10, 28));
    let early = report_of(&material(vec![earlier]), &two_weeks, date(2026, 10, 26), nov(3)).dose;
    assert_eq!((early.days, early.days_prescribed), (1, 0));
    // Issued and not begun: asked for from that day on. Its weeks have not begun either.
    let waiting = report_of(&material(Vec::new()), &two_weeks, nov(1), nov(24)).dose;
    assert_eq!((waiting.days, waiting.days_prescribed), (0, 9));
    // Begun a week late: that week was asked for too, and the end is a week later.
    let late = report_of(&material(vec![under(&two_weeks, nov(11))]), &two_weeks, nov(1), nov(30)).dose;
    assert_eq!(late.days_prescribed, 3 + 6);
    // Nobody issued it and nobody practiced: nothing is asked for.
    assert_eq!(report(&material(Vec::new()), nov(1), nov(30)).dose.days_prescribed, 0);
}

#[test]
fn what_finished_a_session_belongs_to_it_and_makes_it_whole() {
    let first = session(nov(4)).broken_off_after(2);
    let mut second = session(nov(4)).but(|session| {
        session.id.push_str(", finished");
        session.sets.drain(..2);
        session.begun = first.ended + jiff::SignedDuration::from_mins(10);
        session.ended = session.begun + jiff::SignedDuration::from_mins(15);
    });
    second.end = Some(SessionEnd::Finished);
    let dose = report(&material(vec![first.clone(), second]), nov(1), nov(30)).dose;
    assert_eq!((dose.sessions, dose.sessions_whole, dose.interrupted, dose.days), (1, 1, 1, 1));
    assert_eq!(dose.session_ms, 35 * 60_000, "both, without what lay between them");
    // Fewer sets chosen at the start than the session has: not whole, although all of them were done.
    let fewer = session(nov(6)).but(|session| {
        session.sets.truncate(2);
        (session.sets_planned, session.sets_whole) = (2, Some(5));
    });
    let dose = report(&material(vec![fewer]), nov(1), nov(30)).dose;
    assert_eq!((dose.sessions, dose.sessions_whole), (1, 0));
}

#[test]
fn a_length_that_nobody_knows_is_in_no_hour() {
    let set_back =
        session(nov(4)).but(|session| session.ended = session.begun - jiff::SignedDuration::from_secs(1));
    let slept = session(nov(6)).but(|session| session.sets[1].end = Some(SetEnd::Slept));
    let standing = session(nov(9))
        .but(|session| session.ended = session.begun + jiff::SignedDuration::from_millis(6 * 3_600_000 + 1));
    let longest = session(nov(11))
        .but(|session| session.ended = session.begun + jiff::SignedDuration::from_millis(6 * 3_600_000));
    let open = session(nov(13)).but(|session| session.end = None);
    let typed_in = session(nov(2)).but(|session| session.by_hand = true);
    let material = material(vec![typed_in, set_back, slept, standing, longest, open]);
    let dose = report(&material, nov(1), nov(30)).dose;
    assert_eq!((dose.session_ms, dose.length_unknown), (6 * 3_600_000, 5));
    assert_eq!((dose.interrupted, dose.by_hand), (0, 1), "what goes on is not interrupted");
}

#[test]
fn only_a_session_that_nobody_wanted_to_end_was_interrupted() {
    let ended = |end: SessionEnd| session(nov(4)).but(|session| session.end = Some(end));
    let counted = |end: SessionEnd| report(&material(vec![ended(end)]), nov(1), nov(30)).dose.interrupted;
    let interrupted: Vec<SessionEnd> =
        SessionEnd::ALL.iter().copied().filter(|end| counted(*end) == 1).collect();
    assert_eq!(
        interrupted,
        [SessionEnd::Closed, SessionEnd::Interrupted],
        "a stop for another reason is a stop"
    );
    assert!(SessionEnd::ALL.iter().all(|end| counted(*end) <= 1));
    // All of them together are as many as one by one.
    let all = (2..).zip(SessionEnd::ALL).map(|(day, end)| session(nov(day)).but(|s| s.end = Some(*end)));
    assert_eq!(report(&material(all.collect()), nov(1), nov(30)).dose.interrupted, 2);
}

#[test]
fn what_does_not_count_is_in_no_figure_and_counted_apart() {
    let tried = session(nov(2)).but(|session| session.tried_out = true);
    let aside = session(nov(4)).but(|session| session.discounted = true);
    let pages = session(nov(6)).but(|session| {
        session.sets.clear();
        session.end = Some(SessionEnd::NotToday);
    });
    let mut material = material(vec![tried, aside, pages, session(nov(9))]);
    material.details[1].corrected = vec!["set aside".to_owned()];
    material.details[1].weekly = vec![Answer::NearFalls(Some(Times::ThreeOrMore))];
    material.details[1].not_said = 4;
    material.details[3].weekly = vec![Answer::NearFalls(Some(Times::Once))];
    let found = report(&material, nov(1), nov(30));
    let dose = &found.dose;
    assert_eq!((dose.days, dose.sessions, dose.tried_out, dose.set_aside, dose.corrected), (1, 1, 1, 1, 1));
    assert_eq!((found.ratings.near_falls.values, found.ratings.not_said), (vec![1], 0));
    let as_what: Vec<&str> =
        material.past.sessions.iter().map(|session| CountsAs::of(&material.past, session).name()).collect();
    assert_eq!(as_what, ["supervised try-out", "set aside", "no set begun", "practice"]);
}

#[test]
fn only_what_was_asked_and_passed_over_is_not_said() {
    // Grabbed: effort and steadiness are never asked then. With pushes nobody asks about grabs.
    let never_asked = session(nov(2)).but(|session| {
        for set in &mut session.sets {
            (set.grabbed, set.effort, set.steadiness, set.held_on, set.unwell) =
                (None, None, None, None, None);
        }
    });
    let mut material = material(vec![never_asked, session(nov(4))]);
    assert_eq!(report(&material, nov(1), nov(30)).ratings.not_said, 0);
    material.details[1].not_said = 2;
    assert_eq!(report(&material, nov(1), nov(30)).ratings.not_said, 2);
}
