use jiff::civil::{Date, date};
use jiff::{SignedDuration, ToSpan, ZonedDateTime};

use super::{Due, Mark, Program, moment};
use crate::course::past::sample::{at, clean, on, past, prescription};
use crate::course::past::{Barrier, Lifted, Past};
use crate::plan::prescription::Prescription;
use crate::record::SessionEnd;

fn nov(day: i8) -> Date {
    date(2026, 11, day)
}

/// The past with a clean session on each of these days of November.
fn practiced(days: &[i8]) -> Past {
    let prescription = prescription();
    past(days.iter().map(|day| clean(&prescription, &at(*day), &[1, 2, 2])))
}

fn due(past: &Past, day: i8) -> Due {
    let at = at(day);
    Program::new(past, &prescription()).due(at.date(), at.timestamp())
}

fn with_days(days_a_week: u8) -> Prescription {
    let text = Prescription::ready_text("gentle").unwrap();
    let text = text.replace("days_a_week = 3", &format!("days_a_week = {days_a_week}"));
    Prescription::read("test.toml", text.as_bytes()).unwrap()
}

#[test]
fn three_days_a_week_are_the_first_third_and_fifth_of_the_programs_week() {
    // Begun on Monday the 2nd: planned are the 2nd, 4th, 6th; then the 9th, 11th, 13th.
    assert_eq!(due(&practiced(&[]), 2), Due::Today);
    assert_eq!(due(&practiced(&[2]), 3), Due::Free { next: nov(4) });
    assert_eq!(due(&practiced(&[2]), 4), Due::Today);
    assert_eq!(due(&practiced(&[2, 4]), 5), Due::Free { next: nov(6) });
    assert_eq!(due(&practiced(&[2, 4, 6]), 7), Due::Rest { next: nov(9) });
    assert_eq!(due(&practiced(&[2, 4, 6]), 8), Due::Rest { next: nov(9) });
    assert_eq!(due(&practiced(&[2, 4, 6]), 9), Due::Today);
}

#[test]
fn one_session_a_day_and_the_next_is_said() {
    let past = practiced(&[2]);
    assert_eq!(due(&past, 2), Due::Done { next: nov(4) }, "closed again at ten, when it began");
    let evening = on(nov(2), 23);
    let program = prescription();
    let program = Program::new(&past, &program);
    assert_eq!(program.due(evening.date(), evening.timestamp()), Due::Done { next: nov(4) });
}

#[test]
fn a_missed_day_moves_and_is_never_doubled() {
    // The 4th was missed: the 5th takes its place. The 6th is then a day of rest, and the 7th comes for it.
    assert_eq!(due(&practiced(&[2]), 5), Due::Today);
    assert_eq!(due(&practiced(&[2, 5]), 6), Due::Free { next: nov(7) });
    assert_eq!(due(&practiced(&[2, 5]), 7), Due::Today);
    // The whole rest of the week was missed: the new week begins as always.
    assert_eq!(due(&practiced(&[2]), 9), Due::Today);
    assert_eq!(due(&practiced(&[2, 9]), 10), Due::Free { next: nov(11) });
}

#[test]
fn any_seven_days_hold_no_more_practices_than_a_week() {
    // The 5th, 6th and 7th were practiced by moving days: from the 8th to the 11th all seven days before hold three.
    let crowded = practiced(&[5, 6, 7]);
    for day in 8..=11 {
        assert_eq!(due(&crowded, day), Due::Rest { next: nov(12) }, "the {day}th");
    }
    assert_eq!(due(&crowded, 12), Due::Today);
}

#[test]
fn an_interrupted_session_may_be_finished_within_two_hours_and_not_a_moment_later() {
    let prescription = prescription();
    let begun = at(2);
    let session = clean(&prescription, &begun, &[1, 2, 2]).broken_off_after(2);
    let ended = session.ended;
    let broken = past([session.clone()]);
    let program = Program::new(&broken, &prescription);
    let two_hours = ended + SignedDuration::from_hours(2);
    assert_eq!(program.due(nov(2), two_hours), Due::Finish { until: two_hours });
    let late = two_hours + SignedDuration::from_millis(1);
    assert_eq!(program.due(nov(2), late), Due::Done { next: nov(4) });
    let before = ended - SignedDuration::from_millis(1);
    assert_eq!(program.due(nov(2), before), Due::Done { next: nov(4) }, "the clock was set back");
    // Only what counts against nobody may be finished.
    for end in SessionEnd::ALL {
        let other = past([session.clone().but(|session| session.end = Some(*end))]);
        let may = matches!(end, SessionEnd::Closed | SessionEnd::Interrupted | SessionEnd::StoppedOther);
        let found = Program::new(&other, &prescription).due(nov(2), two_hours);
        assert_eq!(matches!(found, Due::Finish { .. }), may, "{end}");
    }
    // Nor where every set was begun: its work would be doubled.
    let all = past([session.clone().but(|session| session.sets_planned = 2)]);
    assert!(matches!(Program::new(&all, &prescription).due(nov(2), two_hours), Due::Done { .. }));
    // Nor under another prescription.
    let other = Prescription::ready("gentle").unwrap();
    assert!(matches!(Program::new(&broken, other).due(nov(2), two_hours), Due::Done { .. }));
}

#[test]
fn an_interrupted_session_and_what_finished_it_are_one_practice() {
    let prescription = prescription();
    let begun = at(2);
    let whole = clean(&prescription, &begun, &[1, 2, 2]);
    let second = whole.clone().but(|session| {
        session.id = "second".into();
        session.begun = session.ended + SignedDuration::from_mins(90);
        session.ended = session.begun + SignedDuration::from_mins(10);
        session.sets.drain(..2);
    });
    let both = past([whole.broken_off_after(2), second]);
    let sittings = both.sittings();
    assert_eq!(sittings.len(), 1);
    assert_eq!(sittings[0].done(), [1, 2, 3, 4, 5]);
    let program = Program::new(&both, &prescription);
    assert!(matches!(program.due(nov(2), sittings[0].last().ended), Due::Done { .. }));
}

#[test]
fn a_clock_set_back_opens_no_second_session() {
    let past = practiced(&[2, 4]);
    // The clock says the 3rd, after a practice on the 4th.
    assert_eq!(due(&past, 3), Due::ClockBack { last: nov(4) });
    // A clearance that sets that date aside opens it again.
    let id = past.sessions[1].id.clone();
    let cleared = Past { lifted: vec![Lifted { session: id, what: Barrier::Date }], ..past };
    assert_eq!(due(&cleared, 3), Due::Free { next: nov(4) });
}

#[test]
fn who_flies_over_the_date_line_has_practiced_that_day() {
    // Ten in the morning of the 4th in Tokyo is the evening of the 3rd in Honolulu, and the instants go on.
    let prescription = prescription();
    let tokyo = nov(4).at(10, 0, 0, 0).in_tz("Asia/Tokyo").unwrap();
    let past = past([clean(&prescription, &tokyo, &[1, 2, 2])]);
    let honolulu = nov(3).at(20, 0, 0, 0).in_tz("Pacific/Honolulu").unwrap();
    assert!(honolulu.timestamp() > past.sessions[0].ended);
    let program = Program::new(&past, &prescription);
    assert_eq!(program.due(honolulu.date(), honolulu.timestamp()), Due::Done { next: nov(6) });
}

#[test]
fn days_are_counted_across_a_clock_change() {
    // Clocks in New York go back on November 1, 2026 (IANA tz database): that day has 25 hours.
    let prescription = prescription();
    let saturday = on(date(2026, 10, 31), 23);
    let past = past([clean(&prescription, &saturday, &[1, 2, 2])]);
    let program = Program::new(&past, &prescription);
    let sunday = on(nov(1), 0);
    assert_eq!(program.due(sunday.date(), sunday.timestamp()), Due::Free { next: nov(2) });
}

#[test]
fn weeks_count_from_the_first_practice_and_end() {
    let past = practiced(&[2, 4]);
    let prescription = prescription();
    let program = Program::new(&past, &prescription);
    let rows = [(2, 1), (8, 1), (9, 2), (15, 2), (16, 3)];
    for (day, week) in rows {
        assert_eq!(program.week(nov(day)), week, "the {day}th");
    }
    // Twelve weeks from November 2 end with January 24.
    let (last, after) = (date(2027, 1, 24), date(2027, 1, 25));
    assert_eq!((program.is_over(last), program.is_over(after)), (false, true));
}

#[test]
fn every_number_of_days_a_week_is_practiced_as_often_as_prescribed() {
    for days_a_week in 1..=6 {
        let prescription = with_days(days_a_week);
        let mut past = Past::default();
        let mut done = Vec::new();
        for ahead in 0..70 {
            let day = nov(2).saturating_add(i64::from(ahead).days());
            let now = on(day, 10);
            if Program::new(&past, &prescription).due(day, now.timestamp()) == Due::Today {
                past.sessions.push(clean(&prescription, &now, &[1, 1]));
                done.push(day);
            }
        }
        assert_eq!(done.len(), 10 * usize::from(days_a_week), "{days_a_week} a week for ten weeks");
    }
}

#[test]
fn the_month_shows_what_was_done_and_what_is_planned() {
    let past = practiced(&[2, 5]);
    let prescription = prescription();
    let program = Program::new(&past, &prescription);
    let month = program.month(nov(7), true);
    // By hand: the 9th is the first day of the second week; on the 11th the seven days before it hold the 5th, 7th and
    // 9th already, so it moves to the 12th, and the 13th to the 14th. The weeks after follow it, three days each.
    insta::assert_snapshot!(month, @r"
    November 2026
      Sun   Mon   Tue   Wed   Thu   Fri   Sat
       1     2 x   3     4     5 x   6    [7]o
       8     9 o  10    11    12 o  13    14 o
      15    16 o  17    18    19 o  20    21 o
      22    23 o  24    25    26 o  27    28 o
      29    30 o
    x practiced   o planned   [ ] today
    ");
    let marks: Vec<Mark> = month.days().map(|(_, mark)| mark).collect();
    assert_eq!(
        (marks.len(), marks[1], marks[3]),
        (30, Mark::Done, Mark::None),
        "the missed 4th bears no mark"
    );
}

#[test]
fn nothing_is_planned_past_the_last_week() {
    let past = practiced(&[2]);
    let prescription = prescription();
    let program = Program::new(&past, &prescription);
    let planned = program.planned_days(nov(3), date(2027, 3, 1));
    assert_eq!(planned.last(), Some(&date(2027, 1, 22)));
    assert_eq!(planned.len(), 35, "36 in twelve weeks, one of them done");
}

#[test]
fn a_day_means_its_end_and_today_means_now() {
    let now: ZonedDateTime = "2026-11-02T09:30:00-05:00[America/New_York]".parse().unwrap();
    assert_eq!(moment(None, &now), now);
    assert_eq!(moment(Some(date(2026, 11, 2)), &now), now);
    let later = moment(Some(date(2026, 11, 4)), &now);
    assert_eq!(later.to_string(), "2026-11-04T23:59:59.999-05:00[America/New_York]");
    // Clocks there go on by an hour on March 8 and back on November 1 (IANA tz database): 23 and 25 hours.
    for (day, end) in [(date(2026, 3, 8), "T23:59:59.999-04:00"), (date(2026, 11, 1), "T23:59:59.999-05:00")]
    {
        let last = moment(Some(day), &now);
        assert_eq!((last.date(), last.to_string().contains(end)), (day, true), "{last}");
    }
}
