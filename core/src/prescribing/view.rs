//! What a page of the form shows, as values: the question, the present value, its limits with their reason, the
//! consequences, and what can be typed.

use super::draft_text::{accept, changes, drill, drill_value, prescription_value, unlock};
use super::form_page::{AcceptEntry, Page, UnlockEntry, acceptable};
use super::remedies::advice;
use super::{Figures, Form};
use crate::plan::caution::{self, Contents, Surface};
use crate::plan::drill::{Drill, UnlockName};
use crate::plan::prescription::field::{Field, Sheet};
use crate::plan::prescription::{Draft, DraftDrill, Prescription, limits};
use crate::words::counted;

mod detail;

use detail::details;

/// One thing on a page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Item {
    /// A paragraph, to be wrapped.
    Text(String),
    /// A label and its text.
    Pair(&'static str, String),
    /// What can be typed, and what it means.
    Choice(String, String),
    /// An empty line.
    Gap,
}

/// One page of the form.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct View {
    /// The title of the prescription and the page.
    pub heading: String,
    /// What the page shows, from top to bottom.
    pub items: Vec<Item>,
    /// What can be typed.
    pub keys: String,
}

impl Form {
    /// The page. `figures` are those of the draft, and `before` those that were shown last, where there are any.
    pub fn view(&self, figures: Option<&Figures>, before: Option<&Figures>) -> View {
        if self.confirming_leave {
            let text = if self.is_changed() {
                "Leave without writing the file? What you typed will be lost."
            } else {
                "Leave? You changed nothing."
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
            Page::PrescriptionField(field) => self.prescription_field_page(field, &mut items),
            Page::Drills => self.drills_page(&mut items),
            Page::Add => self.add_page(&mut items),
            Page::Drill(place) => self.drill_page(*place, &mut items),
            Page::DrillField(place, field) => self.drill_field_page(*place, field, &mut items),
            Page::Unlocks => self.unlocks_page(&mut items),
            Page::UnlockEntry(watched) => self.unlock_entry_page(watched, &mut items),
            Page::Accepts => self.accepts_page(&mut items),
            Page::AcceptEntry(entry) => self.accept_entry_page(entry, &mut items),
            Page::Overview => self.overview_page(figures, &mut items),
        };
        let counts = match self.page {
            Page::Start
            | Page::Add
            | Page::UnlockEntry(_)
            | Page::Unlocks
            | Page::AcceptEntry(_)
            | Page::Accepts => false,
            Page::PrescriptionField(field) => field.is_dose,
            Page::Drills | Page::Drill(_) | Page::DrillField(..) | Page::Overview => true,
        };
        if counts {
            self.consequences(figures, before, &mut items);
        }
        let notes = self.notes.iter().map(|note| Item::Pair("Note", note.clone()));
        items.extend(notes);
        if let Some((fact, hint)) = self.refusal() {
            items.extend([
                Item::Gap,
                Item::Pair("Refused", format!("{fact}.")),
                Item::Pair("Hint", hint.to_owned()),
            ]);
        }
        View { heading, items, keys }
    }

    fn start_page(items: &mut Vec<Item>) -> (String, String) {
        items.push(Item::Text("For one person. Type each answer, then Enter. Nothing is written until the end. The hard limits hold. From which ready prescription do you start?".to_owned()));
        items.push(Item::Gap);
        for (number, (name, ready)) in (1..).zip(Prescription::all_ready()) {
            items.push(Item::Choice(format!("{number}"), format!("{} ({name})", ready.title())));
        }
        items.push(Item::Gap);
        items.extend(
            caution::statements(Surface::Prescribe, Contents::Everything)
                .map(|(_, statement)| Item::Text(statement.to_string())),
        );
        ("Prescribing".to_owned(), "A number; Enter takes the first.   Q leave".to_owned())
    }

    fn prescription_field_page(&self, field: &Field, items: &mut Vec<Item>) -> (String, String) {
        let prompt = details(field, None, prescription_value(&self.draft, field), items);
        (self.place(field.label), format!("Enter keeps it.  {prompt}.  {MOVES}"))
    }

    fn drills_page(&self, items: &mut Vec<Item>) -> (String, String) {
        items.push(Item::Text("The drills, in the order they are practiced.".to_owned()));
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
            "{} sets and {} min of work a session, including the warm-up",
            limits::SETS.most,
            limits::ACTIVE.0 / 60_000
        );
        items.extend([Item::Gap, Item::Pair("At most", most)]);
        let keys = "A number changes one.  A add  R 2 remove 2  M 2 move 2 up  Enter goes on";
        (self.place("Drills"), format!("{keys}  {MOVES}"))
    }

    fn add_page(&self, items: &mut Vec<Item>) -> (String, String) {
        for (number, drill) in (1..).zip(Drill::all()) {
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
        let fields = DraftDrill::asked().into_iter().filter(|field| plan.suits(field));
        for (number, field) in (1..).zip(fields) {
            items.push(Item::Choice(
                format!("{number}"),
                format!("{}: {}", field.label, drill_value(plan, field)),
            ));
        }
        if self.expanded {
            items.push(Item::Gap);
            items.push(Item::Text(plan.drill.about().to_owned()));
            items.extend(plan.drill.cautions().iter().map(|caution| Item::Text(caution.text().to_owned())));
        }
        (self.place(plan.drill.title()), format!("A number changes it.  Enter drills  ? about it  {MOVES}"))
    }

    fn drill_field_page(&self, place: usize, field: &Field, items: &mut Vec<Item>) -> (String, String) {
        let plan = &self.draft.drills[place];
        let now = match field.name {
            "directions" => format!("{} of {}, marked x", plan.directions.len(), plan.offered().count()),
            _ => drill_value(plan, field),
        };
        let prompt = details(field, Some(plan), now, items);
        let heading = self.place(&format!("{}: {}", plan.drill.title(), field.label));
        (heading, format!("Enter keeps it.  {prompt}.  {MOVES}"))
    }

    fn unlocks_page(&self, items: &mut Vec<Item>) -> (String, String) {
        items.push(Item::Text("What somebody has watched this person do. Only this unlocks what is locked, and only with the partner who was there. A try-out adds it too: counterpoise prescribe --try --from FILE".to_owned()));
        list(self.draft.unlocks.iter().map(unlock), items);
        (self.place("Watched"), format!("A add one   R 1 remove number 1   Enter goes on  {MOVES}"))
    }

    fn unlock_entry_page(&self, watched: &UnlockEntry, items: &mut Vec<Item>) -> (String, String) {
        let UnlockEntry { name, partner, by, on, .. } = watched;
        if let Some(name) = name {
            items.push(Item::Pair("What", format!("{name}: {}", name.why())));
            items.push(Item::Pair("With", name.safeguard().to_owned()));
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
                "Which partner was there? It unlocks nothing with anybody else.",
                "A name or initials; Enter: nobody, alone.",
            ),
            (_, _, None, _) => (
                "Who watched this person do it? The person named here is responsible for it.",
                "A name, initials or a role.",
            ),
            (_, _, _, None) => {
                ("On which day? It cannot be after the day of issue.", "Year-month-day; Enter: today.")
            }
            _ => (
                "Is it valid only while a therapist is there? Then pushes may be firmer than at home.",
                "Y yes   Enter no",
            ),
        };
        items.push(Item::Text(text.to_owned()));
        (self.place("Watched"), format!("{keys}   B back   Q leave"))
    }

    fn accepts_page(&self, items: &mut Vec<Item>) -> (String, String) {
        items.push(Item::Text("Topics of suitability that are accepted although the answer says \"a clinician first\". The lock is lifted, its limits stay. A later yes is asked about again: is it new or worse?".to_owned()));
        list(self.draft.accepts.iter().map(accept), items);
        items.extend(self.draft.accepted_because.as_ref().map(|because| {
            Item::Pair("Older form", format!("{because} (only answers before {})", self.draft.issued_on))
        }));
        (self.place("Accepted"), format!("A add one   R 1 remove number 1   Enter goes on  {MOVES}"))
    }

    fn accept_entry_page(&self, entry: &AcceptEntry, items: &mut Vec<Item>) -> (String, String) {
        items.extend(entry.topic.map(|topic| Item::Pair("Topic", topic.to_string())));
        items.extend(entry.who.as_ref().map(|who| Item::Pair("By", who.clone())));
        let (text, keys) = match (entry.topic, &entry.who) {
            (None, _) => {
                let all =
                    (1..).zip(acceptable()).map(|(number, topic): (u32, _)| format!("{number} {topic}"));
                items.push(Item::Text(all.collect::<Vec<_>>().join("; ")));
                (
                    "Which topic? Chest pain, blackouts, dizziness and a fall that still hurts are lifted only by a clinician's clearance.",
                    "A number.",
                )
            }
            (_, None) => (
                "Who accepts it? The person named here is responsible for it.",
                "A name, initials or a role.",
            ),
            _ => ("On which day? It cannot be after the day of issue.", "Year-month-day; Enter: today."),
        };
        items.extend([Item::Gap, Item::Text(text.to_owned())]);
        (self.place("Accepted"), format!("{keys}   B back   Q leave"))
    }

    fn overview_page(&self, figures: Option<&Figures>, items: &mut Vec<Item>) -> (String, String) {
        for (number, field) in (1..).zip(Draft::asked()) {
            items.push(Item::Choice(
                format!("{number}"),
                format!("{}: {}", field.label, prescription_value(&self.draft, field)),
            ));
        }
        let next = Draft::asked().len() + 2;
        items.push(Item::Choice(
            format!("{}", next - 1),
            format!("Accepted: {}", counted(self.draft.accepts.len(), "topic")),
        ));
        items.push(Item::Choice(
            format!("{next}"),
            format!("Drills: {}", counted(self.draft.drills.len(), "drill")),
        ));
        items.push(Item::Choice(
            format!("{}", next + 1),
            format!("Watched: {}", counted(self.draft.unlocks.len(), "unlock")),
        ));
        if self.expanded {
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
            "W write it  A number changes it.  ? changes, warnings  B back  Q leave"
        } else {
            "Enter goes to what is open.  A number changes it.  ? changes  B back  Q leave"
        };
        (self.place("Everything"), keys.to_owned())
    }

    /// What it comes to now, and what it came to before the last answer; or what is still open.
    fn consequences(&self, figures: Option<&Figures>, before: Option<&Figures>, items: &mut Vec<Item>) {
        let Some(figures) = figures else {
            let problems = self.open_problems();
            // The page of everything has the most rows, and the longest advice: 24 rows are all there are.
            if self.page != Page::Overview {
                items.push(Item::Gap);
            }
            // One at a time: the first is what Enter leads to, and its advice is shown in the overview.
            let Some(problem) = problems.first() else { return };
            let more = if problems.len() > 1 {
                format!(" (and {} more)", problems.len() - 1)
            } else {
                String::new()
            };
            let text = match self.page {
                Page::Overview => format!("{}. {}{more}", problem.fact(), advice(problem)),
                Page::DrillField(..) => format!("{}; see L{more}", problem.fact()),
                _ => {
                    format!("{} to solve before it can be written; see L", counted(problems.len(), "problem"))
                }
            };
            items.push(Item::Pair("Open", text));
            return;
        };
        items.push(Item::Gap);
        let mut line = |label, now: &str, was: Option<&str>| {
            let was = was.filter(|was| *was != now).map(|was| format!(" (was: {was})")).unwrap_or_default();
            items.push(Item::Pair(label, format!("{now}{was}")));
        };
        line("Calls", &figures.calls, before.map(|before| before.calls.as_str()));
        line("Guess", &figures.foresight, before.map(|before| before.foresight.as_str()));
        line("Dose", &figures.dose, before.map(|before| before.dose.as_str()));
        let many = figures.second_looks.len();
        if many > 0 && self.page == Page::Overview && !self.expanded {
            items.push(Item::Pair(
                "Look",
                format!("{}; ? shows {}", counted(many, "warning"), if many == 1 { "it" } else { "them" }),
            ));
        }
    }

    fn place(&self, what: &str) -> String {
        format!("{} - {what}", self.draft.title)
    }

    fn starts_with_a_warm_up(&self) -> bool {
        self.draft.drills.first().is_some_and(|plan| plan.drill.is_warm_up() && plan.step == 1)
    }
}

/// The entries of a page on which A adds one and R takes one out.
fn list(entries: impl ExactSizeIterator<Item = String>, items: &mut Vec<Item>) {
    items.push(Item::Gap);
    if entries.len() == 0 {
        items.push(Item::Text("Nothing so far.".to_owned()));
    }
    items.extend((1..).zip(entries).map(|(number, entry): (u32, _)| Item::Choice(number.to_string(), entry)));
}

const MOVES: &str = "B back  L list  Q leave";
