//! The `sheet` command: a sheet to print, in large type, for practice with tracks away from the computer. It has this
//! week's practice, how to set up the place, when to stop, and boxes for what was done. It is one HTML file without scripts
//! or anything to fetch.

use std::path::PathBuf;

use maud::{PreEscaped, html};

use super::page::{Output, html};
use super::report::new_file;
use super::standing::{self, Position};
use super::{Failure, source};
use crate::clock::Clock;
use crate::journal::{Folder, Journal};
use crate::settings::Settings;
use counterpoise_core::blocks::Block;
use counterpoise_core::course::progression::at_steps;
use counterpoise_core::plan::caution;
use counterpoise_core::plan::counts::CueCounts;
use counterpoise_core::plan::explanation::{Explanation, Part};
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::words::{Printable, counted};

mod place;
mod ticks;

/// The options of `sheet`.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise sheet                     this week, as practice-sheet-YYYY-MM-DD.html\n  \
    counterpoise sheet --out sheet.html    then print it from a browser, on A4 or Letter\n\n\
    Afterward, type in what was done: counterpoise journal add")]
pub(super) struct Arguments {
    /// The new file
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
}

pub(super) fn run(arguments: &Arguments, folder: &Folder) -> Result<Output, Failure> {
    let prescription = source::find(None, || Ok(folder.clone()))?.prescription;
    let known = standing::known(&Journal::look(folder)?)?;
    let now = Clock::real().wall();
    let position = Position::of(folder, &known, &prescription, None, &now)?;
    position.allow_any()?;
    let today = at_steps(&prescription, &position.standing.next.steps);
    let day = now.date();
    let path = arguments.out.clone().unwrap_or_else(|| PathBuf::from(format!("practice-sheet-{day}.html")));
    new_file(&path, page(&today, &position.settings, &day.to_string()).as_bytes())?;
    let text = "Print it from a browser. Afterward, type in what was done: counterpoise journal add";
    Ok(vec![Block::line(path.display().to_string()), Block::line(text)].into())
}

const STYLE: &str = "\
body{font:20px/1.4 sans-serif;color:#000;background:#fff;max-width:48rem;margin:1.5rem auto;padding:0 1rem}\
h1{font-size:1.7rem;margin:.2rem 0}h2{font-size:1.3rem;margin:1.1rem 0 .3rem}ul,ol{margin:.2rem 0;padding-left:1.6rem}\
p{margin:.5rem 0}figure{margin:.8rem 0}svg{width:100%;height:auto}\
.stop{border:3px solid;padding:.1rem .8rem .5rem}.stop h2{margin-top:.4rem}\
table{border-collapse:collapse;width:100%;margin:.5rem 0}\
th,td{border:2px solid #000;padding:.2rem .3rem;text-align:left;font-size:.8em;vertical-align:top}\
tbody th{font-weight:normal}td{white-space:nowrap}thead th{width:9%}thead th:first-child{width:13%}thead th:nth-child(2){width:auto}\
thead th:nth-child(3){width:16%}thead th:nth-child(4){width:12%}.ticks p,.ticks li{font-size:.9em}\
.box{display:inline-block;min-width:1.1em;border:2px solid #000;padding:0 .15em;margin-right:.3em;text-align:center}\
@media (max-width:40rem){table,thead,tbody,tr,th,td{display:block}thead{display:none}td{white-space:normal;min-height:1.5em}}\
@page{margin:15mm}\
@media print{body{font-size:14pt;max-width:none;margin:0;padding:0}h1,h2{break-after:avoid}\
li,figure,tbody,.stop{break-inside:avoid}.ticks{break-before:page}}";

/// The whole page: first whom to call and when to stop, then the place, then what is done, then what is written on.
fn page(today: &Prescription, settings: &Settings, day: &str) -> String {
    let line = "____________________";
    let who = settings.name.as_ref().map(|name| format!("{name}, ")).unwrap_or_default();
    let issued = format!(
        "{who}{day}. {} this week, at most one practice a day. The plan was issued on {}.",
        counted(today.days_a_week(), "day"),
        today.issued_on()
    );
    let counts = CueCounts::of(today);
    let parts = |parts: Vec<Part>| {
        let blocks = parts.into_iter().flat_map(|part| Block::section(part.heading, part.lines));
        html::body(&blocks.collect::<Vec<_>>(), 2)
    };
    let top = [Block::heading(today.title()), Block::line(issued)];
    let end = [Block::line(caution::WHAT_IT_IS)];
    let body = html! {
        (html::body(&top, 1))
        section.stop {
            "\n" (parts(vec![Explanation::when_to_stop()]))
            p {
                strong { "Emergency: " (*Printable::of(settings.emergency_number.as_deref().unwrap_or(line))) }
                br; "Also call: " (*Printable::of(settings.contact.as_deref().unwrap_or(line)))
            }
            "\n"
        }
        "\n" figure { (PreEscaped(place::PICTURE)) } "\n"
        (parts(Explanation::of(today, &counts).this_week()))
        (ticks::table(today))
        (html::body(&end, 2))
    };
    html::document(&format!("{}: practice sheet of {day}", today.title()), STYLE, &body)
}

#[cfg(test)]
mod test {
    use super::page;
    use crate::settings::Settings;
    use counterpoise_core::plan::prescription::Prescription;

    #[test]
    fn the_sheet_has_the_practice_the_stops_and_a_row_for_each_set() {
        let gentle = Prescription::ready("gentle").unwrap();
        let settings = Settings { name: Some("<A>".to_owned()), ..Settings::default() };
        let html = page(gentle, &settings, "2026-11-02");
        assert_eq!(html.matches("<tbody>").count(), 3, "three days");
        assert_eq!(html.matches("<tr>").count(), 1 + 3 * (3 + 1), "a row a set, and one for all of it");
        assert_eq!(html.matches(">Set 2, Reaches at the counter, step 1<").count(), 3);
        let at = |part: &str| html.find(part).unwrap_or_else(|| panic!("{part} is missing"));
        let order =
            ["<h1>", "<h2>Stop</h2>", "chest pain", "Emergency: ____", "seen from the side", "You hear"];
        assert!(order.windows(2).all(|two| at(two[0]) < at(two[1])), "{html}");
        assert!(html.contains("&lt;A&gt;") && html.contains("This week: stand with the counter ahead"));
        assert!(!html.contains("Later, one small change"), "a sheet is for one week");
        assert!(!html.contains("<A>") && !html.contains("<script") && html.contains("@page"));
        let known = Settings { emergency_number: Some("911".to_owned()), ..Settings::default() };
        assert!(page(gentle, &known, "2026-11-02").contains("Emergency: 911"));
    }

    #[test]
    fn where_the_order_is_drawn_a_set_goes_by_its_exercise_and_what_needs_a_partner_is_on_no_track() {
        let rows = |name: &str| {
            let ready = Prescription::ready(name).unwrap();
            let html = page(ready, &Settings::default(), "2026-11-02");
            assert!(!html.contains(">Set 1,"), "which comes first is heard on the day");
            (ready, html)
        };
        let (drawn, html) = rows("steps-and-rises");
        let sets: u32 = drawn.drills().iter().map(|plan| u32::from(plan.sets())).sum();
        assert_eq!(html.matches(">D</span>").count() as u32, sets * u32::from(drawn.days_a_week()));
        assert!(html.contains(", 1 of 2, step ") && html.contains(", 2 of 2, step "), "{html}");
        let (partner, html) = rows("with-a-partner");
        assert_eq!(html.matches(">D</span>").count(), usize::from(partner.days_a_week()), "the warm-up");
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
