//! What an answer does: a line becomes a value, the value a changed draft, and the gate says whether it stands. Not the
//! limits, and not where the form goes next.

use super::form_page::{Ask, Page, Watched, Whole, drills, offered};
use super::parsing::{
    NotUnderstood, Read, chosen, count, date, is_word, millis, numbered, numbers, or_none, pair, tenths,
    text, thousandths,
};
use super::{Form, Outcome};
use crate::plan::drill::{Form as Company, Need, UnlockName};
use crate::plan::prescription::{Draft, DraftDrill, DrillOrder, Prescription, Reason, Unlock};

impl Form {
    /// A line on the page that stands.
    pub(super) fn on_page(&mut self, line: &str) -> Outcome {
        let done = match self.page.clone() {
            Page::Start => self.start(line),
            Page::Whole(whole) => self.whole(whole, line),
            Page::Drills => return self.drills(line),
            Page::Add => self.add(line),
            Page::Drill(place) => return self.drill(place, line),
            Page::Of(place, ask) => self.of(place, ask, line),
            Page::Unlocks => return self.unlocks(line),
            Page::Watched(watched) => return self.watched(watched, line),
            Page::Overview => return self.overview(line),
        };
        match done {
            Ok(true) => self.go_on(),
            Ok(false) => {}
            Err(error) => self.not_understood(&error),
        }
        Outcome::Page
    }

    fn not_understood(&mut self, error: &NotUnderstood) {
        self.refused = Some((error.to_string(), error.hint().to_owned()));
    }

    fn start(&mut self, line: &str) -> Read<bool> {
        let all = Prescription::all_ready();
        let by_name = all.iter().position(|(name, _)| *name == line.to_lowercase());
        let place = match by_name {
            Some(place) => place,
            None if line.is_empty() => 0,
            None => numbered(line, all.len())?,
        };
        let ready = Draft::of(&all[place].1);
        let draft =
            Draft { issued_by: self.draft.issued_by.clone(), issued_on: self.draft.issued_on, ..ready };
        // Whoever comes back to this page and takes another one begins anew.
        self.opened = draft.clone();
        self.draft = draft;
        Ok(true)
    }

    fn whole(&mut self, whole: Whole, line: &str) -> Read<bool> {
        if line.is_empty() {
            return Ok(true);
        }
        let mut draft = self.draft.clone();
        match whole {
            Whole::Title => draft.title = text(line),
            Whole::IssuedBy => draft.issued_by = or_none(line).unwrap_or_default(),
            Whole::IssuedOn => draft.issued_on = date(line, self.today)?,
            Whole::Days => draft.days_a_week = count(line)?,
            Whole::Weeks => draft.weeks = count(line)?,
            Whole::Review => draft.review_after_sessions = count(line)?,
            Whole::Rest => draft.rest_ms = millis(line)?,
            Whole::Order => {
                draft.order = if numbered(line, 2)? == 0 { DrillOrder::AsWritten } else { DrillOrder::Drawn };
            }
            Whole::Effort => draft.effort_at_most = count(line)?,
            Whole::Accepted => draft.accepted_because = or_none(line),
        }
        let accepts = |reason: &Reason| *reason == Reason::AcceptedByNobody && whole == Whole::Accepted;
        Ok(self.take(draft, accepts))
    }

    /// A number opens a drill, A adds one, R takes one out, M moves one up.
    fn drills(&mut self, line: &str) -> Outcome {
        let (word, rest) = line.split_once(char::is_whitespace).unwrap_or((line, ""));
        let many = self.draft.drills.len();
        let mut draft = self.draft.clone();
        let done = match word.to_lowercase().as_str() {
            "" => {
                self.go_on();
                return Outcome::Page;
            }
            "a" | "add" => {
                self.go(Page::Add);
                return Outcome::Page;
            }
            "r" | "remove" => numbered(rest, many).map(|place| {
                draft.drills.remove(place);
                self.take(draft, |reason| matches!(reason, Reason::EmptyList { .. }));
            }),
            "m" | "move" => numbered(rest, many).map(|place| {
                draft.drills.swap(place, place.saturating_sub(1));
                self.take(draft, |_| false);
            }),
            _ => numbered(line, many).map(|place| self.go(Page::Drill(place))),
        };
        if let Err(error) = done {
            self.not_understood(&error);
        }
        Outcome::Page
    }

    fn add(&mut self, line: &str) -> Read<bool> {
        if line.is_empty() {
            return Ok(true);
        }
        let by_name = drills().iter().position(|drill| drill.name() == line.to_lowercase());
        let place = by_name.map_or_else(|| numbered(line, drills().len()), Ok)?;
        let drill = &drills()[place];
        let mut draft = self.draft.clone();
        draft.drills.push(DraftDrill::new(drill, drill.forms()[0]));
        let at = draft.drills.len() - 1;
        if self.take(draft, |_| false) {
            self.adding = true;
            let first = Ask::of_a_new_one(None, &self.draft.drills[at]);
            self.go(first.map_or(Page::Drill(at), |ask| Page::Of(at, ask)));
        }
        Ok(false)
    }

    fn drill(&mut self, place: usize, line: &str) -> Outcome {
        if line.is_empty() {
            self.go_on();
            return Outcome::Page;
        }
        let plan = &self.draft.drills[place];
        let asks: Vec<Ask> = Ask::ALL.into_iter().filter(|ask| ask.suits(plan)).collect();
        match numbered(line, asks.len()) {
            Ok(nth) => self.go(Page::Of(place, asks[nth])),
            Err(error) => self.not_understood(&error),
        }
        Outcome::Page
    }

    fn of(&mut self, place: usize, ask: Ask, line: &str) -> Read<bool> {
        if line.is_empty() {
            return Ok(true);
        }
        let mut draft = self.draft.clone();
        let plan = &mut draft.drills[place];
        set(plan, ask, line)?;
        if matches!(ask, Ask::Form) {
            // Another form calls for other waits, unless the therapist has set them.
            let usual = DraftDrill { form: self.draft.drills[place].form, ..plan.clone() }.usual_gaps();
            if self.adding || plan.gap_ms == usual {
                plan.gap_ms = plan.usual_gaps();
            }
        }
        let notes = plan.tidy();
        let taken = self.take(draft, |reason| is_own(ask, reason));
        if taken {
            self.notes = notes;
        }
        Ok(taken)
    }

    /// A number takes one out, A adds one.
    fn unlocks(&mut self, line: &str) -> Outcome {
        let (word, rest) = line.split_once(char::is_whitespace).unwrap_or((line, ""));
        match word.to_lowercase().as_str() {
            "" => self.go_on(),
            "a" | "add" => self.go(Page::Watched(Watched::default())),
            "r" | "remove" => match numbered(rest, self.draft.unlocks.len()) {
                Ok(place) => {
                    let mut draft = self.draft.clone();
                    draft.unlocks.remove(place);
                    self.take(draft, |_| false);
                }
                Err(error) => self.not_understood(&error),
            },
            _ => self.not_understood(&NotUnderstood::Choice(line.to_owned())),
        }
        Outcome::Page
    }

    fn watched(&mut self, watched: Watched, line: &str) -> Outcome {
        match self.told(watched, line) {
            Ok(page) => self.page = page,
            Err(error) => {
                self.not_understood(&error);
                return Outcome::Page;
            }
        }
        let Page::Watched(Watched {
            name: Some(name),
            partner: Some(partner),
            by: Some(by),
            on: Some(on),
            present: Some(present),
        }) = self.page.clone()
        else {
            return Outcome::Page;
        };
        let unlock = Unlock { name, watched_by: by, on, partner, therapist_present: present };
        if self.add_unlock(unlock) {
            self.go_on();
        } else {
            self.page = Page::Watched(Watched { name: Some(name), ..Watched::default() });
        }
        Outcome::Page
    }

    fn told(&self, mut watched: Watched, line: &str) -> Read<Page> {
        if watched.name.is_none() {
            watched.name = Some(UnlockName::ALL[numbered(line, UnlockName::ALL.len())?]);
        } else if watched.partner.is_none() {
            watched.partner = Some(or_none(line).unwrap_or_default());
        } else if watched.by.is_none() {
            if line.is_empty() {
                return Err(NotUnderstood::Nothing);
            }
            watched.by = Some(text(line));
        } else if watched.on.is_none() {
            watched.on = Some(if line.is_empty() { self.today } else { date(line, self.today)? });
            watched.present = (watched.name != Some(UnlockName::Pushes)).then_some(false);
        } else {
            watched.present = Some(match line.to_lowercase().as_str() {
                "y" | "yes" => true,
                "n" | "no" | "" => false,
                _ => return Err(NotUnderstood::YesOrNo(line.to_owned())),
            });
        }
        Ok(Page::Watched(watched))
    }

    /// A number opens what it stands beside; W writes.
    fn overview(&mut self, line: &str) -> Outcome {
        let points = self.open_points();
        let word = line.to_lowercase();
        match (points.first(), word.as_str()) {
            (None, "w" | "write") => return Outcome::Write,
            (Some(point), "" | "w" | "write") => {
                let page = self.page_of(point.reason());
                if page == Page::Overview {
                    self.refused = Some((point.fact(), point.hint()));
                } else {
                    self.go(page);
                }
            }
            (None, "") => {
                self.notes.push("W writes it.".to_owned());
            }
            _ => match numbered(line, Whole::ALL.len() + 2) {
                Ok(nth) => match Whole::ALL.get(nth) {
                    Some(whole) => self.go(Page::Whole(*whole)),
                    None if nth == Whole::ALL.len() => self.go(Page::Drills),
                    None => self.go(Page::Unlocks),
                },
                Err(error) => self.not_understood(&error),
            },
        }
        Outcome::Page
    }
}

/// What would be settled by another answer to the same question, so that this one does not stand.
fn is_own(ask: Ask, reason: &Reason) -> bool {
    match ask {
        Ask::Gap => matches!(reason, Reason::GapShort { .. }),
        Ask::Spell => matches!(reason, Reason::Spell { .. }),
        Ask::Recover => matches!(reason, Reason::RecoverLong { .. }),
        Ask::Sequence => matches!(reason, Reason::CoveredUneven),
        Ask::Strength => matches!(reason, Reason::StrengthHome { .. }),
        _ => false,
    }
}

fn set(plan: &mut DraftDrill, ask: Ask, line: &str) -> Read<()> {
    match ask {
        Ask::Form => plan.form = plan.drill.forms()[numbered(line, plan.drill.forms().len())?],
        Ask::Directions => {
            let names: Vec<&str> = offered(plan).map(|target| target.name.as_str()).collect();
            plan.directions = chosen(line, &names)?;
        }
        Ask::Weights => {
            plan.weights = if is_word(line, &["even", "none"]) { None } else { Some(numbers(line)?) };
        }
        Ask::Step => plan.step = count(line)?,
        Ask::Ceiling => plan.ceiling = count(line)?,
        Ask::Sets => plan.sets = count(line)?,
        Ask::Work => plan.work_ms = millis(line)?,
        Ask::Recover => plan.recover_ms = millis(line)?,
        Ask::Gap => plan.gap_ms = pair(line, millis)?,
        Ask::Shape => {
            let flat = numbered(line, 2)? == 0;
            plan.rate_thousandths = flat.then(|| plan.rate_thousandths.unwrap_or(1_250));
        }
        Ask::Rate => plan.rate_thousandths = Some(thousandths(line)?),
        Ask::Blanks => plan.blank_per_mille = tenths(line)?,
        Ask::Sequence => {
            let open = numbered(line, 2)? == 0;
            plan.slack = (!open).then(|| plan.slack.unwrap_or(1));
            if !open {
                plan.weights = None;
            }
        }
        Ask::Slack => plan.slack = Some(count(line)?),
        Ask::Streak => plan.longest_streak = Some(count(line)?),
        Ask::Strength => {
            let one = numbers(line)?;
            plan.strength = Some(if let [only] = one[..] { [only, only] } else { pair(line, count)? });
        }
        Ask::Balls => plan.balls = Some(count(line)?),
        Ask::Spell => {
            plan.spell_ms = if is_word(line, &["own", "none"]) { None } else { Some(millis(line)?) }
        }
        Ask::Hold => plan.tested_hold_ms = Some(millis(line)?),
        Ask::Confirmed => {
            let needs: Vec<&str> = plan.needs().iter().map(|need| need.name()).collect();
            let kept = if is_word(line, &["none", "no"]) { Vec::new() } else { chosen(line, &needs)? };
            plan.confirmed = kept.iter().filter_map(|name| Need::from_name(name)).collect();
        }
    }
    if ask == Ask::Form && plan.form == Company::Partner {
        plan.recover_ms = plan.recover_ms.max(5_000);
    }
    Ok(())
}
