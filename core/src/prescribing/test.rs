//! The form beside the gate: its bounds on both sides, what waits, what is refused, and random paths through all of it.

use jiff::civil::date;
use proptest::prelude::*;

use super::*;
use crate::plan::drill::Drill;
use crate::plan::prescription::{DraftDrill, Seal, limits};

const TODAY: Date = date(2026, 11, 25);

/// A form on its overview, over the gentle prescription.
fn form() -> Form {
    Form::edit(Prescription::ready("gentle").unwrap(), TODAY)
}

fn at(page: Page) -> Form {
    Form { page, ..form() }
}

fn typed(form: &mut Form, lines: &[&str]) -> Outcome {
    let mut outcome = Outcome::Page;
    for line in lines {
        outcome = form.answer(line);
        assert_eq!(form.refusal(), None, "{line}");
    }
    outcome
}

#[test]
fn enter_all_the_way_gives_the_ready_prescription() {
    let mut form = Form::new(TODAY);
    let mut pages = 0;
    while *form.page() != Page::Overview {
        typed(&mut form, &[""]);
        pages += 1;
        assert!(pages < 15, "{:?}", form.page());
    }
    assert_eq!(form.answer("w"), Outcome::Write);
    let ready = Draft { issued_on: TODAY, ..Draft::of(Prescription::ready("gentle").unwrap()) };
    assert_eq!(*form.draft(), ready);
}

/// Each bound as it stands in `limits`, typed in the unit that the page asks for, on both sides.
#[test]
fn every_bound_is_the_gates_on_both_sides() {
    let seconds = |ms: u32| format!("{}", f64::from(ms) / 1000.0);
    let plain = |value: u32| value.to_string();
    let percent = |value: u32| format!("{}", f64::from(value) / 10.0);
    type Typed<'a> = &'a dyn Fn(u32) -> String;
    let whole = |whole| Page::PrescriptionField(whole);
    let cases: [(Page, limits::Limit, Typed<'_>, u32); 9] = [
        (whole(&row::days_a_week), limits::DAYS_A_WEEK, &plain, 1),
        (whole(&row::weeks), limits::WEEKS, &plain, 1),
        (whole(&row::review_after_sessions), limits::REVIEW_AFTER_SESSIONS, &plain, 1),
        (whole(&row::rest_ms), limits::REST, &seconds, 1),
        (whole(&row::effort_at_most), limits::EFFORT, &plain, 1),
        (Page::DrillField(1, &row::sets), limits::SETS, &plain, 1),
        (Page::DrillField(1, &row::rate_thousandths), limits::RATE_THOUSANDTHS, &seconds, 1),
        (Page::DrillField(1, &row::blank_per_mille), limits::BLANKS, &percent, 1),
        (Page::DrillField(1, &row::work_ms), limits::WORK, &seconds, 1),
    ];
    for (page, limit, say, by) in cases {
        for value in [limit.least, limit.most] {
            let mut form = at(page.clone());
            form.answer(&say(value));
            assert_eq!(form.refusal(), None, "{limit:?}: {value} is allowed");
        }
        let below = limit.least.checked_sub(by);
        for (value, side) in
            below.map(|value| (value, "least")).into_iter().chain([(limit.most + by, "most")])
        {
            let mut form = at(page.clone());
            form.answer(&say(value));
            let (fact, hint) = form.refusal().unwrap_or_else(|| panic!("{limit:?}: {value} is refused"));
            let (Page::PrescriptionField(field) | Page::DrillField(_, field)) = page else { panic!() };
            assert!(fact.contains(field.name) && fact.contains(side), "{fact}");
            assert_eq!(hint, limit.why);
            assert_eq!(form.draft(), form.opened(), "a refused answer changes nothing");
            assert_eq!(*form.page(), page, "and is asked again");
        }
    }
}

#[test]
fn gaps_are_bounded_by_the_slowest_call_and_say_so_at_once() {
    let mut form = at(Page::DrillField(1, &row::gap_ms));
    typed(&mut form, &["4 60"]);
    for (wrong, fact) in [
        ("3.9 15", "the shortest gap in `gap_ms` is 3900 (3.9 s); the least for \"reach\" is 4000 (4 s)"),
        ("5 60.1", "the longest gap in `gap_ms` is 60100 (60.1 s); the most is 60000 (60 s)"),
        ("5 5.9", "the range of `gap_ms` is 900 (0.9 s) wide; the least is 1000 (1 s)"),
        ("15 5", "`gap_ms` is [15000, 5000]; the shortest gap must be below the longest"),
    ] {
        let mut form = at(Page::DrillField(1, &row::gap_ms));
        form.answer(wrong);
        assert_eq!(form.refusal().map(|(fact, _)| fact.to_owned()).as_deref(), Some(fact));
    }
}

#[test]
fn what_must_be_watched_waits_and_is_led_to() {
    let mut form = form();
    // The second drill, what is called, everything that it has.
    typed(&mut form, &["12", "2", "1", "all", "l"]);
    assert_eq!(*form.page(), Page::Overview);
    assert_eq!(form.answer("w"), Outcome::Page, "not while something is open");
    assert!(matches!(form.page(), Page::UnlockEntry(_)), "{:?}", form.page());
    form.answer("");
    assert!(form.refusal().is_some(), "somebody must be named");
    typed(&mut form, &["K. L., physical therapist", "2026-11-24"]);
    // Issued on an earlier day than it was watched: the gate's words, and nothing is unlocked.
    assert_eq!(form.draft().unlocks.len(), 1);
    assert_eq!(typed(&mut form, &["w"]), Outcome::Write);
    let read = form.draft().admit().unwrap();
    assert_eq!(read.unlocks()[0].watched_by, "K. L., physical therapist");
}

#[test]
fn what_was_watched_later_than_issued_is_refused_in_the_gates_words() {
    let mut form = at(Page::Unlocks);
    typed(&mut form, &["a", "4", "", "K. L."]);
    form.answer("2027-01-01");
    let (fact, hint) = form.refusal().unwrap();
    assert_eq!(fact, "`on` is 2027-01-01, after `issued_on`, which is 2026-11-25");
    assert_eq!(hint, "Somebody must watch it on or before the day of issue. Correct one of the two dates.");
    assert!(form.draft().unlocks.is_empty());
}

#[test]
fn a_new_drill_is_asked_for_in_order_and_then_shown() {
    let mut form = at(Page::Drills);
    let rises = 1 + Drill::all().iter().position(|drill| drill.name() == "fast-rises").unwrap();
    typed(&mut form, &["a", &rises.to_string(), "1"]);
    assert_eq!(*form.page(), Page::DrillField(2, &row::step));
    typed(&mut form, &["1", "2", "1", "", ""]);
    assert_eq!(*form.page(), Page::DrillField(2, &row::confirmed), "a chair against a wall");
    assert!(!form.open_problems().is_empty());
    typed(&mut form, &["1"]);
    assert_eq!(*form.page(), Page::Drill(2));
    assert_eq!(form.open_problems(), []);
}

#[test]
fn back_list_more_and_leave_work_on_every_page() {
    let mut form = Form::new(TODAY);
    typed(&mut form, &["2", "For A.", "b", "b"]);
    assert_eq!(*form.page(), Page::Start);
    assert_eq!(form.draft().title, "For A.", "going back takes nothing away");
    typed(&mut form, &["2", "\"b\"", "l", "?", "b"]);
    assert_eq!(form.draft().title, "b", "in quotation marks it is a text");
    assert_eq!(typed(&mut form, &["q", ""]), Outcome::Page, "Enter is no yes");
    assert_eq!(typed(&mut form, &["q", "yes"]), Outcome::Leave);
}

#[test]
fn what_was_changed_is_said_line_by_line() {
    let mut form = form();
    typed(&mut form, &["4", "2", "12", "2", "8"]);
    typed(&mut form, &["4 12", "l", "12", "r 1"]);
    let changed = changes(form.opened(), form.draft());
    assert_eq!(changed[0], "Days a week: 3 -> 2");
    assert!(
        changed.iter().any(|line| line.contains("time between calls: 5 s to 15 s -> 4 s to 12 s")),
        "{changed:?}"
    );
    assert!(changed.iter().any(|line| line.starts_with("Removed: Weight shifts")), "{changed:?}");
    assert_eq!(changes(form.draft(), form.draft()), Vec::<String>::new());
}

#[test]
fn nobody_is_accepted_by_nobody() {
    let mut form = at(Page::Accepts);
    typed(&mut form, &["a", "2", "K. L."]);
    form.answer("");
    assert_eq!(form.refusal().unwrap().0, "`accepts` is given, but `issued_by` is empty");
    let mut form = at(Page::PrescriptionField(&row::issued_by));
    typed(&mut form, &["K. L.", "11", "a", "2", "K. L.", ""]);
    let accepts = &form.draft().accepts;
    assert_eq!(
        (accepts.len(), accepts[0].topic.name(), accepts[0].who.as_str()),
        (1, "blood pressure", "K. L.")
    );
    assert!(
        changes(form.opened(), form.draft()).iter().any(|line| line.starts_with("Accepted: blood pressure"))
    );
    typed(&mut form, &["11", "r 1"]);
    assert_eq!(form.draft().accepts, [], "it can be taken out again");
    typed(&mut form, &["a", "1", "K. L.", "", "2", "-"]);
    assert_eq!(form.answer("w"), Outcome::Page, "the name was taken away again");
}

/// No page is longer than a small terminal, and no line of it wider; wrapped as the command wraps it.
#[test]
fn every_page_of_every_drill_has_something_to_say() {
    for drill in Drill::all() {
        for company in drill.forms() {
            let mut form = form();
            form.draft.drills = vec![DraftDrill::new(drill, *company)];
            for ask in DraftDrill::asked()
                .into_iter()
                .filter(|ask| form.draft.drills[0].suits(ask))
                .collect::<Vec<_>>()
            {
                form.page = Page::DrillField(0, ask);
                let view = form.view(None, None);
                assert!(
                    view.items.iter().any(|item| matches!(item, Item::Pair("Now", now) if !now.is_empty())),
                    "{ask:?}"
                );
                assert!(view.keys.contains("B back"), "{ask:?}");
            }
        }
    }
}

/// What a hand may type, sense and nonsense.
fn line() -> impl Strategy<Value = String> {
    let words = [
        "",
        "",
        "",
        "",
        "1",
        "2",
        "3",
        "4",
        "5",
        "6",
        "7",
        "8",
        "9",
        "10",
        "11",
        "12",
        "13",
        "16",
        "17",
        "w",
        "w",
        "l",
        "l",
        "b",
        "?",
        "a",
        "r 1",
        "r 2",
        "m 2",
        "all",
        "1 2",
        "1 2 3",
        "2 4",
        "5 15",
        "8 20",
        "12 40",
        "30",
        "45",
        "60",
        "90",
        "120",
        "0.1",
        "1.25",
        "25",
        "y",
        "no",
        "none",
        "even",
        "K. L.",
        "today",
        "2026-11-01",
        "2030-01-01",
        "own",
        "1 1",
        "1 2 2",
        "99999999999",
        "-5",
    ];
    prop_oneof![
        12 => prop::sample::select(words.to_vec()).prop_map(str::to_owned),
        1 => ".{0,90}",
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(if cfg!(debug_assertions) { 48 } else { 512 }))]
    /// Whatever is typed: an answer that the gate refuses is never kept, and what is written passes it and comes back.
    #[test]
    fn nothing_gets_past_the_gate_on_any_path(lines in prop::collection::vec(line(), 1..60), fresh in any::<bool>()) {
        let mut form = if fresh { Form::new(TODAY) } else { form() };
        for line in &lines {
            let before = form.draft().clone();
            let outcome = form.answer(line);
            if form.refusal().is_some() {
                prop_assert_eq!(&before, form.draft(), "a refused answer changes nothing: {}", line);
            }
            if outcome == Outcome::Write {
                let text = Seal::append(&form.draft().to_toml());
                let read = Prescription::read("written.toml", text.as_bytes());
                prop_assert!(read.is_ok(), "{:?}\n{}", read.err(), text);
                let read = read.unwrap();
                prop_assert_eq!(read.title(), form.draft().title.trim());
                prop_assert_eq!(Draft::of(&read).to_toml(), Draft::of(&Prescription::read("again", Draft::of(&read).to_toml().as_bytes()).unwrap()).to_toml());
                prop_assert!(Figures::of(&read).is_ok(), "a session can be drawn from it");
            }
            if outcome == Outcome::Leave {
                break;
            }
        }
        let open = form.open_problems();
        prop_assert!(open.iter().all(|problem| is_pending(problem.reason())), "{:?}", open);
        prop_assert_eq!(open.is_empty(), form.draft().admit().is_ok());
        let view = form.view(None, None);
        prop_assert!(!view.keys.is_empty());
    }
}
