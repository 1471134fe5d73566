//! What stands on a page of the form, as values: the question, what is set now, how far it may go and why, what it comes
//! to, and what can be typed. Nothing is drawn or wrapped here.

use super::page::{Ask, Page, Watched, Whole, drills, offered};
use super::said::{change, changes, drill, of_drill, of_whole, seconds, stands, unlock};
use super::settle::advice;
use super::{Figures, Form};
use crate::drill::{Form as Company, Strength, Target, UnlockName};
use crate::prescription::limits::{self, Limit, Unit};
use crate::prescription::{DraftDrill, Prescription};

/// One thing on a page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Item {
    /// A paragraph.
    Text(String),
    /// A word, and what it says.
    Pair(&'static str, String),
    /// What can be typed, and what it means.
    Choice(String, String),
    /// An empty line.
    Gap,
}

/// A page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct View {
    /// Where one is.
    pub heading: String,
    /// What stands there, from top to bottom.
    pub items: Vec<Item>,
    /// What can be typed.
    pub keys: String,
}

/// More entries than this stand in two columns, so that they fit a small terminal.
const ONE_COLUMN: usize = 9;

impl Form {
    /// The page. `figures` are those of the draft, and `before` those that were shown last, where there are any.
    pub fn view(&self, figures: Option<&Figures>, before: Option<&Figures>) -> View {
        if self.leaving {
            let text = if self.is_changed() {
                "Leave without writing anything? What was typed is lost."
            } else {
                "Leave? Nothing was changed."
            };
            let keys = "Y yes, leave   Enter no, go back to the page".to_owned();
            return View {
                heading: self.draft.title.clone(),
                items: vec![Item::Text(text.to_owned())],
                keys,
            };
        }
        let mut items = Vec::new();
        let (heading, keys) = match &self.page {
            Page::Start => Self::start_page(&mut items),
            Page::Whole(whole) => self.whole_page(*whole, &mut items),
            Page::Drills => self.drills_page(&mut items),
            Page::Add => self.add_page(&mut items),
            Page::Drill(place) => self.drill_page(*place, &mut items),
            Page::Of(place, ask) => self.of_page(*place, *ask, &mut items),
            Page::Unlocks => self.unlocks_page(&mut items),
            Page::Watched(watched) => self.watched_page(watched, &mut items),
            Page::Overview => self.overview_page(figures, &mut items),
        };
        let counts = match self.page {
            Page::Start | Page::Add | Page::Watched(_) | Page::Unlocks => false,
            Page::Whole(whole) => matches!(whole, Whole::Days | Whole::Weeks | Whole::Rest | Whole::Order),
            Page::Drills | Page::Drill(_) | Page::Of(..) | Page::Overview => true,
        };
        if counts {
            self.consequences(figures, before, &mut items);
        }
        let notes = self.notes.iter().map(|note| Item::Pair("Note", note.clone()));
        items.extend(notes);
        if let Some((fact, hint)) = self.refused() {
            items.extend([
                Item::Gap,
                Item::Pair("Refused", format!("{fact}.")),
                Item::Pair("Hint", hint.to_owned()),
            ]);
        }
        View { heading, items, keys }
    }

    fn start_page(items: &mut Vec<Item>) -> (String, String) {
        items.push(Item::Text("For one person. Each answer is one line and Enter; nothing is written before the end, and nothing can go past the hard limits. From which ready prescription do you start?".to_owned()));
        items.push(Item::Gap);
        for (number, (name, ready)) in (1..).zip(Prescription::all_ready()) {
            items.push(Item::Choice(format!("{number}"), format!("{} ({name})", ready.title())));
        }
        items.push(Item::Gap);
        items.push(Item::Text(
            "Local codes and licensed practice come first. Nothing here promises to prevent falls."
                .to_owned(),
        ));
        ("Prescribing".to_owned(), "A number; Enter takes the first.   Q leave".to_owned())
    }

    fn whole_page(&self, whole: Whole, items: &mut Vec<Item>) -> (String, String) {
        items.push(Item::Text(question_of_whole(whole).to_owned()));
        items.push(Item::Gap);
        items.push(Item::Pair("Now", of_whole(&self.draft, whole)));
        let (mut enter, mut type_it) = ("Enter keeps it", "Type another one");
        match whole {
            Whole::Days => limit(limits::DAYS_A_WEEK, items),
            Whole::Weeks => limit(limits::WEEKS, items),
            Whole::Review => limit(limits::REVIEW_AFTER_SESSIONS, items),
            Whole::Rest => {
                limit(limits::REST, items);
                type_it = "Seconds";
            }
            Whole::Effort => limit(limits::EFFORT, items),
            Whole::Order => {
                items.push(Item::Choice("1".into(), "as listed".into()));
                items.push(Item::Choice(
                    "2".into(),
                    "drawn anew for each session; the warm-up stays first, walking last".into(),
                ));
                type_it = "A number";
            }
            Whole::Title => text_limit(1, items),
            Whole::IssuedBy => {
                text_limit(0, items);
                type_it = "Type a name, initials or a place; - takes it away";
                enter = "Enter leaves it";
            }
            Whole::IssuedOn => {
                items.push(Item::Pair("Form", "year-month-day, such as 2026-11-02, or: today".into()));
                items.push(Item::Pair("Why", "What was watched was watched on this day or before.".into()));
            }
            Whole::Accepted => {
                text_limit(1, items);
                items.push(Item::Pair("Why", "It stands with every session and in the report, and only somebody named in \"Issued by\" can give it.".into()));
                type_it = "The reason in a few words; - takes it away";
            }
        }
        (self.place(whole.name()), format!("{enter}.  {type_it}.  {MOVES}"))
    }

    fn drills_page(&self, items: &mut Vec<Item>) -> (String, String) {
        items.push(Item::Text("What is practiced, in this order.".to_owned()));
        items.push(Item::Gap);
        if !self.starts_with_a_warm_up() {
            items.push(Item::Choice(
                "-".into(),
                "The built-in warm-up: 1 set of 60 s of weight shifts, both hands resting".into(),
            ));
        }
        for (number, plan) in (1..).zip(&self.draft.drills) {
            items.push(Item::Choice(format!("{number}"), drill(plan)));
        }
        let most = format!(
            "{} sets and {} min of work a session, the warm-up counted",
            limits::SETS.most,
            limits::ACTIVE.0 / 60_000
        );
        items.extend([Item::Gap, Item::Pair("At most", most)]);
        let keys = "A number changes one.  A add  R 2 take out 2  M 2 move 2 up  Enter goes on";
        (self.place("Drills"), format!("{keys}  {MOVES}"))
    }

    fn add_page(&self, items: &mut Vec<Item>) -> (String, String) {
        for (number, drill) in (1..).zip(drills()) {
            let forms: Vec<&str> = drill.forms().iter().map(|form| form.name()).collect();
            let unlocks: Vec<&str> = drill.unlocks().into_iter().map(UnlockName::name).collect();
            let watched = if unlocks.is_empty() {
                String::new()
            } else {
                format!("; watched first: {}", unlocks.join(", "))
            };
            items.push(Item::Choice(
                format!("{number}"),
                format!("{} ({}{watched})", drill.title(), forms.join(", ")),
            ));
        }
        (
            self.place("Add a drill"),
            "A number.   Each in full: counterpoise drills.   Enter or B back".to_owned(),
        )
    }

    fn drill_page(&self, place: usize, items: &mut Vec<Item>) -> (String, String) {
        let plan = &self.draft.drills[place];
        let asks = Ask::ALL.into_iter().filter(|ask| ask.suits(plan));
        for (number, ask) in (1..).zip(asks) {
            items.push(Item::Choice(format!("{number}"), format!("{}: {}", ask.name(), of_drill(plan, ask))));
        }
        if self.more {
            items.push(Item::Gap);
            items.push(Item::Text(plan.drill.about().to_owned()));
            items.extend(plan.drill.cautions().iter().map(|caution| Item::Text(caution.clone())));
        }
        (self.place(plan.drill.title()), format!("A number changes it.  Enter drills  ? about it  {MOVES}"))
    }

    fn of_page(&self, place: usize, ask: Ask, items: &mut Vec<Item>) -> (String, String) {
        let plan = &self.draft.drills[place];
        items.push(Item::Text(question_of_drill(ask).to_owned()));
        items.push(Item::Gap);
        let now = match ask {
            Ask::Directions => format!("{} of {}, marked x", plan.directions.len(), offered(plan).count()),
            _ => of_drill(plan, ask),
        };
        items.push(Item::Pair("Now", now));
        let type_it = details(plan, ask, items);
        let heading = self.place(&format!("{}: {}", plan.drill.title(), ask.name()));
        (heading, format!("Enter keeps it.  {type_it}.  {MOVES}"))
    }

    fn unlocks_page(&self, items: &mut Vec<Item>) -> (String, String) {
        items.push(Item::Text("What somebody has watched this person do. Only this opens what is locked, and only with the partner who was there. A try-out writes it too: counterpoise prescribe --try --from FILE".to_owned()));
        items.push(Item::Gap);
        for (number, other) in (1..).zip(&self.draft.unlocks) {
            items.push(Item::Choice(format!("{number}"), unlock(other)));
        }
        if self.draft.unlocks.is_empty() {
            items.push(Item::Text("Nothing so far.".to_owned()));
        }
        (self.place("Watched"), format!("A add one   R 1 take out number 1   Enter goes on  {MOVES}"))
    }

    fn watched_page(&self, watched: &Watched, items: &mut Vec<Item>) -> (String, String) {
        let Watched { name, partner, by, on, .. } = watched;
        if let Some(name) = name {
            items.push(Item::Pair("What", format!("{name}: {}", name.why())));
            items.push(Item::Pair("With", name.with().to_owned()));
        }
        let who =
            |partner: &String| if partner.is_empty() { "nobody, alone".to_owned() } else { partner.clone() };
        items.extend(partner.as_ref().map(|partner| Item::Pair("Partner", who(partner))));
        items.extend(by.as_ref().map(|by| Item::Pair("By", by.clone())));
        items.extend(on.as_ref().map(|on| Item::Pair("On", on.to_string())));
        items.push(Item::Gap);
        let (text, keys) = match (name, partner, by, on) {
            (None, ..) => {
                for (number, name) in (1..).zip(UnlockName::ALL) {
                    items.push(Item::Choice(format!("{number}"), format!("{name}: {}", name.why())));
                }
                ("What was watched?", "A number.")
            }
            (_, None, ..) => (
                "With which partner was it watched? It opens nothing with anybody else.",
                "A name or initials; Enter: nobody, alone.",
            ),
            (_, _, None, _) => (
                "Who watched this person do it? Whoever is named here answers for it.",
                "A name, initials or a role.",
            ),
            (_, _, _, None) => {
                ("On which day? Not after the prescription is issued.", "Year-month-day; Enter: today.")
            }
            _ => (
                "Does it hold only while a therapist is there? Then pushes may be firmer than at home.",
                "Y yes   Enter no",
            ),
        };
        items.push(Item::Text(text.to_owned()));
        (self.place("Watched"), format!("{keys}   B back   Q leave"))
    }

    fn overview_page(&self, figures: Option<&Figures>, items: &mut Vec<Item>) -> (String, String) {
        for (number, whole) in (1..).zip(Whole::ALL) {
            items.push(Item::Choice(
                format!("{number}"),
                format!("{}: {}", whole.name(), of_whole(&self.draft, whole)),
            ));
        }
        let many = |count: usize, noun: &str| {
            if count == 1 { format!("1 {noun}") } else { format!("{count} {noun}s") }
        };
        let next = Whole::ALL.len() + 1;
        items.push(Item::Choice(
            format!("{next}"),
            format!("Drills: {}", many(self.draft.drills.len(), "drill")),
        ));
        items.push(Item::Choice(
            format!("{}", next + 1),
            format!("Watched: {}", many(self.draft.unlocks.len(), "unlock")),
        ));
        if self.more {
            let changed = changes(&self.opened, &self.draft);
            items.push(Item::Gap);
            items.push(Item::Text(if changed.is_empty() {
                "Nothing was changed.".into()
            } else {
                "Changed:".into()
            }));
            items.extend(changed.into_iter().map(Item::Text));
            items.extend(figures.iter().flat_map(|figures| &figures.second_looks).cloned().map(Item::Text));
        }
        let keys = if figures.is_some() {
            "W write it  A number changes it.  ? changes, second looks  B back  Q leave"
        } else {
            "Enter goes to what is open.  A number changes it.  ? changes  B back  Q leave"
        };
        (self.place("Everything"), keys.to_owned())
    }

    /// What it comes to now, and what it came to before the last answer; or what is still open.
    fn consequences(&self, figures: Option<&Figures>, before: Option<&Figures>, items: &mut Vec<Item>) {
        items.push(Item::Gap);
        let Some(figures) = figures else {
            let points = self.open_points();
            // One at a time: the first is what Enter leads to, and its advice stands in the overview.
            let Some(point) = points.first() else { return };
            let more =
                if points.len() > 1 { format!(" (and {} more)", points.len() - 1) } else { String::new() };
            let text = match self.page {
                Page::Overview => format!("{}. {}{more}", point.fact(), advice(point)),
                Page::Of(..) => format!("{}; see L{more}", point.fact()),
                _ => format!("{} to settle before it can be written; see L", points.len()),
            };
            items.push(Item::Pair("Open", text));
            return;
        };
        let mut line = |label, now: &str, was: Option<&str>| {
            let was = was.filter(|was| *was != now).map(|was| format!(" (was: {was})")).unwrap_or_default();
            items.push(Item::Pair(label, format!("{now}{was}")));
        };
        line("Calls", &figures.calls, before.map(|before| before.calls.as_str()));
        line("Guess", &figures.foreseen, before.map(|before| before.foreseen.as_str()));
        line("Dose", &figures.dose, before.map(|before| before.dose.as_str()));
        let many = figures.second_looks.len();
        if many > 0 && self.page == Page::Overview && !self.more {
            items.push(Item::Pair("Look", format!("{many} to look at a second time: ?")));
        }
    }

    fn place(&self, what: &str) -> String {
        format!("{} - {what}", self.draft.title)
    }

    fn starts_with_a_warm_up(&self) -> bool {
        self.draft.drills.first().is_some_and(|plan| plan.drill.is_warm_up() && plan.step == 1)
    }
}

const MOVES: &str = "B back  L list  Q leave";

/// Range, reason and origin of a hard limit, in the unit that people use.
fn limit(limit: Limit, items: &mut Vec<Item>) {
    items.push(Item::Pair(
        "Allowed",
        format!("{} to {}", shown(limit, limit.least), shown(limit, limit.most)),
    ));
    items.push(Item::Pair("Why", limit.why.to_owned()));
    items.push(Item::Pair("Origin", limit.origin.to_owned()));
}

fn shown(limit: Limit, value: u32) -> String {
    match limit.unit {
        Unit::Count if limit.field == "rate_thousandths" => (f64::from(value) / 1000.0).to_string(),
        Unit::Count => value.to_string(),
        Unit::Millis => seconds(value.into()),
        Unit::PerMille => format!("{} %", f64::from(value) / 10.0),
    }
}

fn text_limit(least: usize, items: &mut Vec<Item>) {
    let most = limits::TEXT_CHARACTERS;
    items.push(Item::Pair("Allowed", format!("{least} to {most} characters, one line")));
}

const fn question_of_whole(whole: Whole) -> &'static str {
    match whole {
        Whole::Title => "What is it called? The person sees this at the start of each practice.",
        Whole::IssuedBy => "Who issues it? It stands on the hand-out and in the report.",
        Whole::IssuedOn => "On which day is it issued?",
        Whole::Days => {
            "On how many days a week does this person practice? One session a day; missed days are never doubled."
        }
        Whole::Weeks => "For how many weeks?",
        Whole::Review => {
            "After how many sessions does a therapist look again? Overdue never blocks practice; it only stops stepping up."
        }
        Whole::Rest => "How long is the rest after each set, at least? A chair is offered.",
        Whole::Order => "In which order do the drills come?",
        Whole::Effort => {
            "Above which effort, 0 to 10, does nothing step up? Rises and quick steps may be 8 unless you lower this."
        }
        Whole::Accepted => {
            "Where the answers about suitability say \"a clinician first\": why may this person begin all the same? It lifts no other limit."
        }
    }
}

const fn question_of_drill(ask: Ask) -> &'static str {
    match ask {
        Ask::Form => "Is it practiced alone or with a partner within reach?",
        Ask::Directions => {
            "What may be called? More directions are harder to guess. What is marked is locked until somebody has watched it."
        }
        Ask::Weights => {
            "How often is each called beside the others? One number for each, in the order above; uneven ones are easier to guess."
        }
        Ask::Step => "At which step of its ladder does it start?",
        Ask::Ceiling => {
            "Up to which step may practice go by itself? It moves one change at a time, after two clean sessions."
        }
        Ask::Sets => "How many sets a session? More sets are more calls.",
        Ask::Work => "How long is one set?",
        Ask::Recover => {
            "How long is the quiet time that ends a set? It is for coming back from the last call."
        }
        Ask::Gap => {
            "How long may it be from one call to the next: shortest and longest? A wide range is harder to foresee; longer waits mean fewer calls."
        }
        Ask::Shape => "Are short waits more frequent than long ones?",
        Ask::Rate => "How much more often do short waits come? 0.1 is hardly, 5 is nearly always.",
        Ask::Blanks => {
            "How many moments stay silent on purpose? They keep the longest wait from giving itself away."
        }
        Ask::Sequence => "How do directions follow each other?",
        Ask::Slack => "By how many may a direction's count stray from an equal share?",
        Ask::Streak => "How often may one direction come in a row, at most?",
        Ask::Strength => {
            "How firm are the pushes? One number, or the gentlest and the firmest. Never a force: none is published for partners at home."
        }
        Ask::Balls => "How many balls are in play?",
        Ask::Spell => "How long does what lasts last?",
        Ask::Hold => {
            "Some step is in tandem or on one leg. How long was this person seen to hold it, hands hovering? A spell lasts 80 % of it at most."
        }
        Ask::Confirmed => "Is this in place where the person practices? The app asks for it again each time.",
    }
}

/// What belongs to one question, and what to type.
#[expect(clippy::too_many_lines, reason = "one arm a question")]
fn details(plan: &DraftDrill, ask: Ask, items: &mut Vec<Item>) -> &'static str {
    let mut choice = |number: usize, text: String| items.push(Item::Choice(number.to_string(), text));
    match ask {
        Ask::Form => {
            for (number, form) in (1..).zip(plan.drill.forms()) {
                choice(
                    number,
                    if *form == Company::Alone { "alone".into() } else { "with a partner".into() },
                );
            }
            "A number"
        }
        Ask::Directions => {
            let entries: Vec<String> = offered(plan).map(|target| entry(plan, target)).collect();
            let half = if entries.len() > ONE_COLUMN { entries.len().div_ceil(2) } else { entries.len() };
            for number in 1..=half {
                let beside = entries.get(number - 1 + half).filter(|_| half < entries.len());
                let beside = beside.map(|text| format!("{:>3}  {text}", number + half)).unwrap_or_default();
                let width = if half < entries.len() { 32 } else { 0 };
                choice(number, format!("{:width$}{beside}", entries[number - 1]));
            }
            "All that may be called, by number, such as: 1 2 4; or: all"
        }
        Ask::Weights => {
            limit(limits::WEIGHT, items);
            "Such as: 2 1 1; or: even"
        }
        Ask::Step | Ask::Ceiling => {
            let ladder = plan.drill.ladder();
            for (number, step) in (1..).zip(ladder) {
                let what = if number == 1 { stands(*step) } else { change(ladder[number - 2], *step) };
                let needs: Vec<&str> = step.unlocks().map(UnlockName::name).collect();
                let locked = if needs.is_empty() {
                    String::new()
                } else {
                    format!("  [watched first: {}]", needs.join(", "))
                };
                choice(number, format!("{what}{locked}"));
            }
            "A step"
        }
        Ask::Sets => said(limits::SETS, items, "A number"),
        Ask::Work => said(limits::WORK, items, "Seconds"),
        Ask::Recover => said(limits::RECOVER, items, "Seconds"),
        Ask::Gap => {
            let (least, most) = (plan.shortest_gap(), limits::GREATEST_GAP);
            items.push(Item::Pair(
                "Allowed",
                format!("{least} (the slowest of what is called) to {most}, {} apart", limits::GAP_WIDTH),
            ));
            let [low, high] = plan.usual_gaps();
            items.push(Item::Pair("Usual", format!("{} to {}", seconds(low), seconds(high))));
            items.push(Item::Pair(
                "Why",
                "Up to 2.2 s to regain balance, and time to reset. Longer is no harder to foresee.".into(),
            ));
            items.push(Item::Pair("Origin", "2.2 s: BMC Geriatrics 2020, 01650-4, table 2 [derived]; 5 to 15 s: common practice, no source; ends: judgment".into()));
            "Two numbers of seconds, such as: 5 15"
        }
        Ask::Shape => {
            choice(1, "shorter waits more often, so that waiting tells as little as it can (usual)".into());
            choice(2, "all waits equally often: no single moment is a better guess than another".into());
            "A number"
        }
        Ask::Rate => said(limits::RATE_THOUSANDTHS, items, "A number"),
        Ask::Blanks => said(limits::BLANKS, items, "Percent"),
        Ask::Sequence => {
            choice(1, "each drawn anew: counting tells nothing (usual)".into());
            choice(
                2,
                "each about equally often: an equal share of practice, and a little easier to guess".into(),
            );
            "A number"
        }
        Ask::Slack => said(limits::SLACK, items, "A number"),
        Ask::Streak => said(limits::streak(plan.directions.len()), items, "A number"),
        Ask::Strength => {
            for number in 1..=4 {
                let Some(strength) = Strength::new(number) else { continue };
                choice(number.into(), format!("{strength}: {}", strength.feels()));
            }
            let most = limits::STRENGTH_AT_HOME;
            items.push(Item::Pair(
                "Allowed",
                format!(
                    "1 to {most} at home, the two at most {} apart; 3 and 4 only with the therapist there",
                    limits::STRENGTH_SPREAD
                ),
            ));
            items.push(Item::Pair("Origin", "judgment".into()));
            "Such as: 1; or: 1 2"
        }
        Ask::Balls => said(limits::BALLS, items, "1 or 2"),
        Ask::Spell => said(limits::SPELL, items, "Seconds; or: own, for the drill's own length"),
        Ask::Hold => said(limits::TESTED_HOLD, items, "Seconds"),
        Ask::Confirmed => {
            for (number, need) in (1..).zip(plan.needs()) {
                choice(number, need.sentence().to_owned());
            }
            "The numbers of what is in place; or: none"
        }
    }
}

/// One thing that may be called: marked where it is, and with what must be watched first.
fn entry(plan: &DraftDrill, target: &Target) -> String {
    let mark = if plan.directions.contains(&target.name) { "x " } else { "- " };
    let mut needs: Vec<&str> = target.action.unlocks().iter().map(|name| name.name()).collect();
    needs.extend(target.direction.is_backward().then_some(UnlockName::Backward.name()));
    let locked =
        if needs.is_empty() { String::new() } else { format!("  [watched first: {}]", needs.join(", ")) };
    format!("{mark}{}{locked}", target.name)
}

fn said(limit_of_it: Limit, items: &mut Vec<Item>, type_it: &'static str) -> &'static str {
    limit(limit_of_it, items);
    type_it
}
