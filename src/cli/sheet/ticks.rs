//! Which part of the sheet is filled in? The questions of `journal add`, in its words and order, with a box or a space for
//! each answer.

use maud::{Markup, html};

use crate::cli::journal::questions;
use counterpoise_core::plan::drill::Form;
use counterpoise_core::plan::prescription::{DrillOrder, DrillPlan, Prescription};
use counterpoise_core::record::Question;

/// The questions about each set, and the names of their columns, with hyphens that do not break.
fn of_a_set() -> [(String, &'static str); 5] {
    [
        (format!("Was it done? {}", questions::DONE), "Done?"),
        (format!("{} (Y or N)", questions::GRABBED), "Grabbed or nearly fell?"),
        (questions::held_on(), "Held on, 0\u{2011}3"),
        (questions::effort(), "Hard, 0\u{2011}10"),
        (questions::steadiness(), "Steady, 1\u{2011}5"),
    ]
}

/// The questions, then a table with a row for each set and one for the whole practice, for each day of the week.
pub(super) fn table(today: &Prescription) -> Markup {
    let boxes = |letters: &[&str]| html! { @for letter in letters { span.box { (letter) } } };
    let (done, yes) = (boxes(&["D", "B", "N"]), boxes(&["Y", "N"]));
    let (sets, of_a_set) = (sets(today), of_a_set());
    let after = format!(
        "After the practice: {} If so: {}. {} If so: {} {}.",
        questions::FELL,
        questions::HURT,
        questions::UNWELL,
        questions::WRONG,
        Question::Symptom.numbered_words().join("; ")
    );
    html! {
        section.ticks {
            "\n" h2 { "What was done" } "\n" p { "After each set mark a letter, or write a number:" }
            "\n" ol { @for (question, _) in &of_a_set { "\n" li { (question) } } "\n" }
            "\n" p { (after) }
            "\n" p { strong { "If you fell, felt unwell or nearly fell: no more today, and tell your therapist." } }
            "\n" table aria-label="What was done" {
                "\n" thead { tr {
                    th scope="col" { "On which day?" }
                    th scope="col" { "Set" }
                    @for (_, name) in &of_a_set { th scope="col" { (name) } }
                } }
                @for day in 1..=today.days_a_week() {
                    "\n" tbody {
                        @for (nth, set) in sets.iter().enumerate() {
                            "\n" tr {
                                @if nth == 0 { th scope="rowgroup" rowspan=(sets.len() + 1) { (day) "." } }
                                th scope="row" { (set) }
                                td { (done) } td { (yes) } td {} td {} td {}
                            }
                        }
                        "\n" tr {
                            th scope="row" { "The practice" }
                            td colspan="5" {
                                (questions::FELL) " " (yes) " Hurt? " (yes) br;
                                "Unwell? " (yes) " " (questions::WRONG) " ____"
                            }
                        }
                        "\n"
                    }
                }
                "\n"
            }
            "\n" p { "Later, at the computer: counterpoise journal add asks the same questions in the same order." } "\n"
        }
        "\n"
    }
}

/// "Set 2, Reaches at the counter, step 1": in the order of the practice. If the order is drawn each time, by exercise:
/// "Reaches at the counter, 1 of 2, step 1". Sets with a partner are on no track.
fn sets(today: &Prescription) -> Vec<String> {
    let drawn = today.order() == DrillOrder::Drawn;
    let plans = today.drills().iter().flat_map(|plan| (1..=plan.sets()).map(move |of| (plan, of)));
    let name = |(number, (plan, of)): (u32, (&DrillPlan, u8))| {
        let (title, step, sets) = (plan.drill().title(), plan.step(), plan.sets());
        match sets {
            _ if !drawn => format!("Set {number}, {title}, step {step}"),
            1 => format!("{title}, step {step}"),
            sets => format!("{title}, {of} of {sets}, step {step}"),
        }
    };
    (1..).zip(plans).filter(|(_, (plan, _))| plan.form() == Form::Alone).map(name).collect()
}
