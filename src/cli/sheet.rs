//! A sheet to print, in large type, for whoever practices with tracks away from the computer: this week's practice, how the
//! place is set up, when to stop, and boxes for what was done. One HTML file; nothing in it runs or is fetched.

use std::fmt::Write as _;
use std::io::Write;
use std::path::PathBuf;

use super::report::new_file;
use super::standing::{self, Known};
use super::{Failure, source};
use crate::caution;
use crate::clock::Clock;
use crate::display::svg::escaped;
use crate::journal::{Folder, Journal};
use crate::prescription::{DrillPlan, Explanation, Prescription};
use crate::schedule::count::CueCounts;
use crate::settings::Settings;

/// Where it goes.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise sheet                     this week, as practice-sheet-YYYY-MM-DD.html\n  \
    counterpoise sheet --out sheet.html    then print it from a browser, on A4 or Letter\n\n\
    Afterwards type in what was done: counterpoise journal add")]
pub(super) struct Arguments {
    /// The new file
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
}

pub(super) fn run(arguments: &Arguments, folder: &Folder, out: &mut impl Write) -> Result<(), Failure> {
    let prescription = source::find(None, || Ok(folder.clone()))?.prescription;
    let known = Known::of(&Journal::look(folder)?)?;
    let now = Clock::real().wall();
    let next = known.next(&prescription, &now);
    let settings = Settings::load(folder)?;
    if next.is_barred() {
        return Err(standing::refusal(&next, settings.emergency_number.as_deref()));
    }
    let today = standing::at_steps(&prescription, &next.steps);
    let day = now.date();
    let path = arguments.out.clone().unwrap_or_else(|| PathBuf::from(format!("practice-sheet-{day}.html")));
    new_file(&path, page(&today, &settings, &day.to_string()).as_bytes())?;
    writeln!(out, "{}", path.display())?;
    writeln!(out, "Print it from a browser. Afterwards type in what was done: counterpoise journal add")?;
    Ok(())
}

const STYLE: &str = "\
body{font:20px/1.45 sans-serif;color:#000;background:#fff;max-width:48rem;margin:1.5rem auto;padding:0 1rem}\
h1{font-size:1.7rem;margin:.2rem 0}h2{font-size:1.3rem;margin:1.2rem 0 .3rem}ul{margin:.2rem 0;padding-left:1.3rem}\
svg{width:100%;max-width:26rem;height:auto}\
table{border-collapse:collapse;width:100%;margin:.5rem 0}caption{text-align:left;font-weight:bold}\
th,td{border:2px solid #000;padding:.2rem .4rem;text-align:left;font-size:.85rem}td{height:1.7rem}th:first-child{width:6rem}\
.box{display:inline-block;width:1.1rem;height:1.1rem;border:2px solid #000;margin-right:.35rem;vertical-align:-.2rem}\
@page{margin:15mm}\
@media print{body{font-size:14pt;max-width:none;margin:0;padding:0}h2{break-after:avoid}table,figure,li{break-inside:avoid}}";

/// The whole page.
fn page(today: &Prescription, settings: &Settings, day: &str) -> String {
    let mut html = String::new();
    let title = escaped(today.title());
    let _ = write!(
        html,
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <title>{title}: practice sheet of {day}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<main>\n<h1>{title}</h1>\n"
    );
    let who = settings.name.as_ref().map(|name| format!("{}, ", escaped(name))).unwrap_or_default();
    let _ = writeln!(
        html,
        "<p>{who}{day}. {} days this week, one practice a day at most.</p>",
        today.days_a_week()
    );
    let _ = writeln!(html, "<figure>{SET_UP}</figure>");
    // The parts of the handout: what is done, in words for the person.
    let counts = CueCounts::of(today);
    for part in Explanation::of(today, &counts).handout().into_iter().skip(1) {
        if part.heading.starts_with("Numbers") || part.heading == "How it goes on" {
            continue;
        }
        let _ = writeln!(html, "<h2>{}</h2>\n<ul>", escaped(&part.heading));
        for line in &part.lines {
            let _ = writeln!(html, "<li>{}</li>", escaped(line));
        }
        html.push_str("</ul>\n");
    }
    let _ = writeln!(html, "<p>{} {}</p>", escaped(caution::FIRST), escaped(caution::WHAT_IT_IS));
    let line = "____________________";
    let number = settings.emergency_number.as_deref().map_or_else(|| line.to_owned(), escaped);
    let contact = settings.contact.as_deref().map_or_else(|| line.to_owned(), escaped);
    let _ = writeln!(html, "<p><strong>Emergency: {number}</strong><br>Besides: {contact}</p>");
    ticks(today, &mut html);
    html.push_str("</main>\n</body>\n</html>\n");
    html
}

/// Boxes to tick and places for numbers, a row a practice.
fn ticks(today: &Prescription, html: &mut String) {
    let sets: u32 = today.drills().iter().map(DrillPlan::sets).map(u32::from).sum();
    html.push_str(
        "<table>\n<caption>What was done</caption>\n<thead><tr><th scope=\"col\">Date</th><th scope=\"col\">Set</th>\
         <th scope=\"col\">Hardest, 0 to 10</th><th scope=\"col\">Unsteady, 1 to 5</th><th scope=\"col\">Held on, times</th>\
         <th scope=\"col\">Grabbed or nearly fell</th></tr></thead>\n<tbody>\n",
    );
    let tick = "<span class=\"box\"></span>";
    for _ in 0..today.days_a_week() {
        for set in 1..=sets {
            let day = if set == 1 { format!("<td rowspan=\"{sets}\"></td>") } else { String::new() };
            let _ = writeln!(
                html,
                "<tr>{day}<td>{tick}{set}</td><td></td><td></td><td></td><td>{tick}</td></tr>"
            );
        }
    }
    html.push_str(
        "</tbody>\n</table>\n<p>Hardest: 0 nothing, 5 to 6 moderate, 7 to 8 hard, 10 the most. Unsteady: 1 steady, 5 lost balance. \
         If you fell, felt unwell or nearly fell: no more today, and tell your therapist.</p>\n",
    );
}

/// The place from above: counter, person, phone, chair, clear floor. Plain lines, with words.
const SET_UP: &str = "\
<svg role=\"img\" aria-labelledby=\"place-title place-words\" viewBox=\"0 0 520 400\" xmlns=\"http://www.w3.org/2000/svg\" \
fill=\"none\" stroke=\"#000\" stroke-width=\"3\" font-family=\"sans-serif\" font-size=\"20\">\
<title id=\"place-title\">The place, seen from above</title>\
<desc id=\"place-words\">You stand facing the kitchen counter, a hand on it. The phone lies on the counter within reach. A firm chair \
stands beside you, against the wall. Behind you are 1.5 meters of clear floor, or a wall.</desc>\
<rect x=\"20\" y=\"20\" width=\"480\" height=\"70\"/>\
<text x=\"40\" y=\"62\" fill=\"#000\" stroke=\"none\">counter, fixed</text>\
<rect x=\"390\" y=\"34\" width=\"26\" height=\"42\" rx=\"5\"/>\
<text x=\"424\" y=\"62\" fill=\"#000\" stroke=\"none\">phone</text>\
<ellipse cx=\"230\" cy=\"172\" rx=\"11\" ry=\"24\"/><ellipse cx=\"278\" cy=\"172\" rx=\"11\" ry=\"24\"/>\
<circle cx=\"254\" cy=\"156\" r=\"24\" fill=\"#fff\"/>\
<path d=\"M236 140 L222 92 M272 140 L286 92\"/>\
<text x=\"300\" y=\"166\" fill=\"#000\" stroke=\"none\">you, firm shoes</text>\
<rect x=\"60\" y=\"140\" width=\"70\" height=\"70\"/><path d=\"M60 140 L60 210\" stroke-width=\"8\"/>\
<text x=\"52\" y=\"238\" fill=\"#000\" stroke=\"none\">firm chair</text>\
<path d=\"M140 250 H370 V370 H140 Z\" stroke-dasharray=\"10 8\"/>\
<text x=\"160\" y=\"305\" fill=\"#000\" stroke=\"none\">clear, dry floor: 1.5 m,</text>\
<text x=\"160\" y=\"332\" fill=\"#000\" stroke=\"none\">or a wall behind you</text>\
</svg>";

#[cfg(test)]
mod test {
    use super::page;
    use crate::prescription::Prescription;
    use crate::settings::Settings;

    #[test]
    fn the_sheet_has_the_practice_the_stops_and_a_row_for_each_day() {
        let gentle = Prescription::ready("gentle").unwrap();
        let settings = Settings { name: Some("<A>".to_owned()), ..Settings::default() };
        let html = page(gentle, &settings, "2026-11-02");
        assert_eq!(html.matches("<td rowspan=\"3\"></td>").count(), 3, "three days");
        assert_eq!(html.matches("<tr>").count(), 1 + 9, "a row a set");
        for part in [
            "Reaches at the counter",
            "<h2>Stop</h2>",
            "chest pain",
            "&lt;A&gt;",
            "Emergency: ____",
            "seen from above",
        ] {
            assert!(html.contains(part), "{part}");
        }
        assert!(!html.contains("<A>") && !html.contains("<script") && html.contains("@page"));
        let known = Settings { emergency_number: Some("911".to_owned()), ..Settings::default() };
        assert!(page(gentle, &known, "2026-11-02").contains("Emergency: 911"));
    }

    #[test]
    fn the_steps_are_those_of_the_day() {
        let gentle = Prescription::ready("gentle").unwrap();
        let settings = Settings::default();
        let first = page(gentle, &settings, "2026-11-02");
        let later = page(&gentle.at_steps(&[Some(1), Some(3)]).unwrap(), &settings, "2026-11-02");
        assert!(first.contains("feet apart") && later != first);
    }
}
