//! The pages as they are printed: none is longer or wider than a small terminal.

use super::*;
use counterpoise_core::plan::drill::Drill;
use counterpoise_core::plan::prescription::DraftDrill;
use counterpoise_core::prescribing::Page;

/// Rows of a small terminal, the row for typing apart.
const ROWS: usize = 23;

fn fits(form: &Form, seen: &mut Vec<String>) {
    // As wide as they become: what they say is looked at where they are made.
    let figures = form.draft().admit().ok().map(|_| Figures {
        calls: "24.7 a session; 21 to 40 in 95 of 100 sessions".into(),
        foresight: "22.5 of 100 directions (chance 21.7); one brace of 0.5 s catches 18.3".into(),
        dose: "16.5 min a session, 116 a week; 6 hours after 120 weeks (12 given)".into(),
        second_looks: vec!["something".into()],
    });
    let text = crate::cli::page::text::of(&page(&form.view(figures.as_ref(), None)));
    let (rows, columns) =
        (text.lines().count(), text.lines().map(|line| line.chars().count()).max().unwrap_or(0));
    if rows > ROWS || columns > 80 {
        seen.push(format!("{rows} rows, {columns} columns:\n{text}"));
    }
}

/// Every page that can be come to by numbers from the overview, of every drill in every form at its highest step.
#[test]
fn every_page_fits_a_terminal_of_80_by_24() {
    let today = jiff::civil::date(2026, 11, 25);
    let mut seen = Vec::new();
    for drill in Drill::all() {
        for form in drill.forms() {
            let mut plan = DraftDrill::new(drill, *form);
            plan.ceiling = drill.ladder().len() as i64;
            let draft = Draft { drills: vec![plan], ..Draft::of(Prescription::ready("typical").unwrap()) };
            let start = Form::from_draft(draft, today);
            fits(&start, &mut seen);
            let mut hub = start.clone();
            hub.answer("11");
            fits(&hub, &mut seen);
            hub.answer("1");
            fits(&hub, &mut seen);
            for number in 1..=20 {
                let mut page = hub.clone();
                page.answer(&number.to_string());
                if matches!(page.page(), Page::DrillField(..)) {
                    fits(&page, &mut seen);
                }
            }
        }
    }
    let mut walk = Form::new(today);
    for _ in 0..12 {
        fits(&walk, &mut seen);
        walk.answer("");
    }
    for page in ["11", "12", "10", "a"] {
        walk.answer(page);
        fits(&walk, &mut seen);
    }
    assert!(seen.is_empty(), "{} pages do not fit:\n{}", seen.len(), seen.join("\n"));
}
