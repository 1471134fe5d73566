use super::{
    Age, Company, Dated, Reading, Sex, Test, Trend, Verdict, retest_from, score, tests_below_cut_off,
};
use crate::health::bounds::Bounds;

fn reading(test: Test, written: &str) -> Reading {
    Reading::read(test, written).unwrap()
}

#[expect(clippy::unnecessary_wraps, reason = "every caller needs an option")]
fn age(years: u8) -> Option<Age> {
    Some(Age::try_from(years).unwrap())
}

fn verdict(test: Test, written: &str, years: u8, sex: Sex) -> Verdict {
    score(reading(test, written), age(years), Some(sex)).verdict
}

/// CDC, STEADI, 30-Second Chair Stand assessment sheet, 2017: below average with fewer rises [second-hand: two public
/// copies agree]. First and last age, men, women.
const CHAIR_STAND: [(u8, u8, u32, u32); 7] = [
    (60, 64, 14, 12),
    (65, 69, 12, 11),
    (70, 74, 12, 10),
    (75, 79, 11, 10),
    (80, 84, 10, 9),
    (85, 89, 8, 8),
    (90, 94, 7, 4),
];

#[test]
fn every_row_of_the_chair_stand_table_on_both_sides() {
    for (from, to, men, women) in CHAIR_STAND {
        for years in from..=to {
            for (sex, cut_off) in [(Sex::Male, men), (Sex::Female, women)] {
                let test = Test::ChairStand;
                assert_eq!(
                    verdict(test, &(cut_off - 1).to_string(), years, sex),
                    Verdict::Below,
                    "{years} {sex}"
                );
                assert_eq!(
                    verdict(test, &cut_off.to_string(), years, sex),
                    Verdict::NotBelow,
                    "{years} {sex}"
                );
                let found = score(reading(test, "8"), age(years), Some(sex));
                assert_eq!(found.cut_off, Some(cut_off));
            }
        }
    }
}

#[test]
fn outside_its_ages_or_without_sex_the_table_has_no_norm() {
    for years in [18, 59, 95, 120] {
        let found = score(reading(Test::ChairStand, "1"), age(years), Some(Sex::Female));
        assert_eq!((found.verdict, found.cut_off), (Verdict::NoNorm, None), "{years}");
        assert!(found.notes.contains(&"The table is for ages 60 to 94.".to_owned()));
        assert!(found.sentence(Test::ChairStand).starts_with("There is no published norm"));
    }
    for (years, sex) in [(None, Some(Sex::Male)), (age(70), None), (None, None)] {
        assert_eq!(score(reading(Test::ChairStand, "1"), years, sex).verdict, Verdict::NoNorm);
    }
}

#[test]
fn every_cut_off_is_inclusive_as_its_source_has_it() {
    // Test, on the worse side, on the better side. CDC's sheets; Vellas 1997; EWGSOP2.
    for (test, worse, better) in [
        (Test::FourStage, "9.9", "10"),
        (Test::OneLeg, "4.9", "5"),
        (Test::TimedUpAndGo, "12", "11.9"),
        (Test::FiveRises, "15.1", "15"),
    ] {
        for years in [55, 60, 72, 99] {
            assert_eq!(verdict(test, worse, years, Sex::Female), Verdict::Below, "{test} {worse}");
            assert_eq!(verdict(test, better, years, Sex::Female), Verdict::NotBelow, "{test} {better}");
        }
        assert_eq!(score(reading(test, "unable"), None, None).verdict, Verdict::Below, "{test}");
    }
}

#[test]
fn every_mean_stands_at_its_ages_and_outside_them_it_is_said() {
    // Bohannon 2006 (Timed Up and Go [second-hand], one leg [read, abstract]); Springer et al. 2007 [second-hand].
    for (test, means) in [
        (Test::TimedUpAndGo, [(60, 69, "8.1 s"), (70, 79, "9.2 s"), (80, 99, "11.3 s")]),
        (Test::OneLeg, [(60, 69, "27.0 s"), (70, 79, "17.2 s"), (80, 99, "8.5 s")]),
    ] {
        let notes = |years| score(reading(test, "10"), age(years), None).notes.join(" ");
        for (from, to, mean) in means {
            assert!(
                notes(from).contains(&format!("Mean of this age group: {mean} (Bohannon 2006")),
                "{test} {from}"
            );
            assert!(notes(to).contains(mean), "{test} {to}");
        }
        for years in [59, 100] {
            assert!(
                !notes(years).contains("age group") && notes(years).contains("for ages 60 to 99"),
                "{years}"
            );
        }
    }
    let notes = |years| score(reading(Test::OneLeg, "10"), age(years), None).notes.join(" ");
    for (years, mean) in [(60, "27.0 s"), (70, "15.0 s"), (80, "6.0 s")] {
        assert!(
            notes(years).contains(&format!("at most, of this age group: {mean} (Springer")),
            "{}",
            notes(years)
        );
    }
    assert!(notes(60).contains("from people over 60") && !notes(61).contains("from people over 60"));
}

#[test]
fn every_band_of_five_rises_on_both_sides() {
    // SPPB [second-hand].
    for (written, band) in [
        ("11.1", "the first"),
        ("11.2", "the second"),
        ("13.6", "the second"),
        ("13.7", "the third"),
        ("16.6", "the third"),
        ("16.7", "the fourth"),
        ("unable", "the last"),
    ] {
        let notes = score(reading(Test::FiveRises, written), None, None).notes.join(" ");
        assert!(notes.contains(band), "{written}: {notes}");
    }
    let notes = |written| score(reading(Test::TimedUpAndGo, written), None, None).notes.join(" ");
    assert!(notes("15.1").contains("Above 15 s") && !notes("15").contains("Above 15 s"));
}

#[test]
fn a_result_is_within_what_its_test_can_give() {
    for (test, good, bad) in [
        (
            Test::FourStage,
            &["0", "0.0", "9.4", "10", "10.0", "unable"][..],
            &["10.1", "-1", "9.45", "", "ten", "9,4"][..],
        ),
        (Test::OneLeg, &["0", "45", "300"], &["300.1", "301", ".5", "5."]),
        (Test::ChairStand, &["0", "11", "60"], &["61", "9.4", "+5", "1e1"]),
        (Test::TimedUpAndGo, &["1", "600"], &["0.9", "600.1", "99999"]),
        (Test::FiveRises, &["1.0", "11.8"], &["0", "0.9", "NaN"]),
    ] {
        for written in good {
            assert!(Reading::read(test, written).is_ok(), "{test} {written}");
        }
        for written in bad {
            let error = Reading::read(test, written).unwrap_err().to_string();
            assert!(error.contains(written) && error.contains(test.title()), "{error}");
        }
    }
    for written in ["17", "121", "x", "-70", "70.5"] {
        assert!(written.parse::<Age>().unwrap_err().to_string().contains(written));
    }
    assert_eq!((age(18).unwrap().years(), "120".parse::<Age>().unwrap().years()), (18, 120));
}

fn dated(day: &str, test: Test, written: &str) -> Dated {
    let company = Company::WithSomebody;
    Dated {
        day: day.parse().unwrap(),
        reading: reading(test, written),
        age: age(72),
        sex: Some(Sex::Male),
        company,
    }
}

#[test]
fn a_change_is_held_against_the_noise_of_its_test() {
    let said = |test, old: &str, new: &str| {
        let results = [dated("2026-11-30", test, new), dated("2026-11-02", test, old)];
        Trend::all(&results)[0].sentences().join(" ")
    };
    // Donoghue et al. 2019: 2.08 s for the Timed Up and Go, 4.52 s for five rises; Goldberg et al. 2011: 24.1 s.
    for (test, old, within, beyond) in [
        (Test::TimedUpAndGo, "12", "10", "9.9"),
        (Test::FiveRises, "16", "11.5", "11.4"),
        (Test::OneLeg, "3", "27", "27.1"),
    ] {
        let small = said(test, old, within);
        assert!(
            small.contains("a change within the noise of the test") && small.contains("(2026-11-02)"),
            "{small}"
        );
        assert!(said(test, old, beyond).contains("better, by more than the noise"), "{test}");
        assert!(said(test, beyond, old).contains("worse, by more than the noise"), "{test}");
        assert!(said(test, old, old).contains(": the same."), "{test}");
    }
    let unknown = said(Test::ChairStand, "8", "11");
    assert!(
        unknown.contains("a change of 3 rises")
            && unknown.contains("to exceed the noise of this test is not known"),
        "{unknown}"
    );
    assert_eq!(said(Test::FiveRises, "unable", "20"), said(Test::FiveRises, "unable", "20"));
    assert!(
        said(Test::FiveRises, "unable", "20").starts_with("20.0 s now, unable the time before (2026-11-02).")
    );
    assert!(Trend::all(&[dated("2026-11-02", Test::OneLeg, "3")])[0].sentences().is_empty());
    assert!(Trend::all(&[]).is_empty());
}

#[test]
fn three_results_are_held_against_the_first_and_the_one_before() {
    let results = ["2026-09-07", "2026-10-05", "2026-11-02"]
        .map(|day| dated(day, Test::ChairStand, &day[8..].replace('0', "1")));
    let said = Trend::all(&results)[0].sentences();
    assert_eq!(said.len(), 3);
    assert!(
        said[0].contains("the time before (2026-10-05)") && said[1].contains("the first time (2026-09-07)"),
        "{said:?}"
    );
}

#[test]
fn the_latest_result_of_each_test_counts_and_a_review_makes_two_of_them_one() {
    let day = |text: &str| Some(text.parse().unwrap());
    let mut results = vec![
        dated("2026-11-01", Test::OneLeg, "3"),
        dated("2026-11-02", Test::TimedUpAndGo, "14"),
        dated("2026-11-02", Test::FourStage, "10"),
    ];
    assert_eq!(tests_below_cut_off(&results, None), 2);
    assert_eq!(tests_below_cut_off(&results, day("2026-11-01")), 2, "the second came after it");
    assert_eq!(tests_below_cut_off(&results, day("2026-11-02")), 1);
    results.push(dated("2026-11-20", Test::OneLeg, "8"));
    assert_eq!(tests_below_cut_off(&results, None), 1, "the later result holds");
    assert_eq!(tests_below_cut_off(&results, day("2026-12-01")), 1, "one stays one");
    results.push(dated("2026-11-20", Test::TimedUpAndGo, "11"));
    assert_eq!(tests_below_cut_off(&results, None), 0);
    assert_eq!(retest_from(&results), day("2026-12-18"));
    assert_eq!(retest_from(&[]), None);
}

#[test]
fn a_time_is_slower_a_count_fewer_a_hold_shorter_and_the_better_side_is_said_positively() {
    for (test, worse, better, words) in [
        (Test::TimedUpAndGo, "12", "11.9", "Slower than the published cut-off (12 s or more; "),
        (Test::FiveRises, "15.1", "15", "Slower than the published cut-off (more than 15 s; "),
        (Test::ChairStand, "11", "12", "Fewer than the published cut-off (fewer than 12 rises; "),
        (Test::OneLeg, "4.9", "5", "Shorter than the published cut-off (less than 5 s; "),
        (
            Test::FourStage,
            "9.9",
            "10",
            "Shorter than the published cut-off (heel to toe held for less than 10 s; ",
        ),
    ] {
        let said = |written| score(reading(test, written), age(72), Some(Sex::Male)).sentence(test);
        assert!(said(worse).starts_with(words) && said("unable").starts_with(words), "{}", said(worse));
        let better = said(better);
        let side = if test.more_is_better() { "Reaches" } else { "Within" };
        assert!(better.starts_with(&format!("{side} the published cut-off (past it: ")), "{better}");
        assert!(!said(worse).to_lowercase().contains("below") && !better.contains("ot "), "{better}");
    }
}

#[test]
fn nothing_said_predicts_a_fall() {
    for test in Test::ALL {
        for written in ["unable", "1", "10"] {
            let found = score(reading(*test, written), age(72), Some(Sex::Male));
            let said = format!("{} {}", found.sentence(*test), found.notes.join(" ")).to_lowercase();
            let said = said + &Bounds::said_of_tests(2).to_lowercase();
            for word in ["you will", "risk", "predict", "likely to fall"] {
                assert!(!said.contains(word), "{test}: {said}");
            }
            assert!(said.contains('[') && said.contains(']'), "every value carries how sure it is: {said}");
        }
    }
    assert!(super::NO_SINGLE_TEST.starts_with("No single test"));
}
