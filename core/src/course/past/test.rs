//! What a past says of a day.

use super::sample::{clean, on, past, prescription};

#[test]
fn a_week_is_new_until_its_first_practice_and_the_first_of_all_is_none() {
    let of = |days: &[&str]| {
        past(days.iter().map(|day| clean(&prescription(), &on(day.parse().unwrap(), 10), &[1, 2, 2])))
    };
    let is_new = |days: &[&str], today: &str| of(days).is_new_week(today.parse().unwrap());
    assert!(!is_new(&[], "2026-11-02"), "there is no week before it");
    // Monday the 2nd to Sunday the 8th.
    assert!(!is_new(&["2026-11-02"], "2026-11-08"));
    assert!(is_new(&["2026-11-08"], "2026-11-09"));
    // 2026-W53 goes into January.
    assert!(!is_new(&["2026-12-28"], "2027-01-03") && is_new(&["2027-01-03"], "2027-01-04"));
}
