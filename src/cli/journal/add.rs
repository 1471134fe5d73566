//! The `journal add` command: enters a practice with a track from the sheet. Nothing is saved before the last answer.

use std::io::{BufRead, Write};

use jiff::ZonedDateTime;
use jiff::civil::Date;

use super::questions;
use crate::cli::Failure;
use crate::cli::form::Form;
use crate::cli::standing;
use crate::clock::Clock;
use crate::entropy;
use crate::journal::{Folder, Journal, JournalError};
use counterpoise_core::blocks::Block;
use counterpoise_core::course::printed_sheet;
use counterpoise_core::course::program::moment;
use counterpoise_core::course::progression::at_steps;
use counterpoise_core::draw::schedule::{Scheduler, SetPlan};
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::plan::drill::Form as DrillForm;
use counterpoise_core::plan::prescription::DrillOrder;
use counterpoise_core::record::{Id, Numbered, Question, SetTicked, Ticked};

mod day;
mod sheet;

pub(super) fn run(folder: &Folder, out: &mut impl Write) -> Result<Vec<Block>, Failure> {
    let mut journal = standing::open(folder, out)?;
    let now = Clock::real().wall();
    let mut form = Form::new(out, "nothing was saved", "counterpoise journal add");
    form.show(&caution::blocks(Surface::Record, Contents::Nothing))?;
    form.say(
        "Enter a practice with a track from your sheet. Each answer is one line. Nothing is saved until the last one.",
    )?;
    let (day, ticked) = form.practice(&journal, folder, &now)?;
    let id = entropy::id().map_err(|error| Failure::new(error.to_string(), "Start again."))?;
    form.save(&mut journal, id, &ticked)?;
    let saved = format!("Saved, marked as typed in by hand: {}, session {}.", spelled(day), id.short());
    let mut page = vec![Block::Gap, Block::line(saved)];
    page.extend(super::consequence(&journal, folder, &now));
    Ok(page)
}

/// "Monday, 2026-11-02".
fn spelled(day: Date) -> String {
    day.strftime("%A, %Y-%m-%d").to_string()
}

impl<R: BufRead, W: Write> Form<R, W> {
    /// Asks for everything on the sheet.
    fn practice(
        &mut self,
        journal: &Journal,
        folder: &Folder,
        now: &ZonedDateTime,
    ) -> Result<(Date, Ticked), Failure> {
        let known = standing::known(journal)?;
        let day = self.day(&known.past, now)?;
        let prescription = self.prescription(journal, folder, day)?;
        let at = moment(Some(day), now);
        let before = known.before(day);
        let next = before.next(&prescription, &at);
        let steps = self.steps(&prescription, &known, &at, &next.steps)?;
        let schedule = Scheduler::new(&at_steps(&prescription, &steps))?.draw(entropy::seed()?);
        let sets_whole = next.sets_whole(&prescription);
        let mut decided = next.decided(&prescription, &before.past, false, sets_whole);
        decided.given = printed_sheet::given(&prescription, &steps, &next.steps);
        let mut ticked = Ticked {
            at,
            title: prescription.title().to_owned(),
            digest: prescription.digest(),
            decided,
            sets: Vec::new(),
            fell: None,
            unwell: None,
        };
        let (mut alone, partner): (Vec<&SetPlan>, Vec<&SetPlan>) =
            schedule.sets().iter().partition(|plan| plan.form() == DrillForm::Alone);
        if !partner.is_empty() {
            let text = "Sets with a partner are left out: no track has them, and nobody noted what happened.";
            self.show(&[Block::Gap, Block::line(text)])?;
        }
        let is_drawn = prescription.order() == DrillOrder::Drawn;
        if is_drawn {
            // The order of the drills on the track is not known here.
            let plans = prescription.drills();
            alone.sort_by_key(|set| plans.iter().position(|plan| plan.drill() == set.drill()));
            let text = "On a track the order changes from day to day. Answer by exercise, not by set number.";
            self.show(&[Block::Gap, Block::line(text)])?;
        }
        for (nth, plan) in alone.iter().enumerate() {
            let of_drill = |other: &&&SetPlan| other.drill() == plan.drill();
            let title = plan.drill().title();
            let name = match (
                alone[..nth].iter().filter(of_drill).count() + 1,
                alone.iter().filter(of_drill).count(),
            ) {
                _ if !is_drawn => format!("Set {}, {title}.", plan.number()),
                (_, 1) => format!("{title}."),
                (nth, of) => format!("{title}, {nth} of {of}."),
            };
            let done = self.set(&name)?;
            ticked.sets.push(((*plan).clone(), done));
        }
        if ticked.sets.iter().all(|(_, done)| done.is_none()) {
            return Err(Failure::new(
                "no set was done, so nothing was saved",
                "A day without practice needs no entry.",
            ));
        }
        if self.yes(questions::FELL)? {
            ticked.fell = Some(self.yes(questions::HURT)?.into());
        }
        if self.yes(questions::UNWELL)? {
            ticked.unwell = Some(self.scaled(&questions::with_scale(questions::WRONG, Question::Symptom))?);
        }
        if self.yes(&format!("Save it as the practice of {}?", spelled(day)))? {
            return Ok((day, ticked));
        }
        Err(Failure::new("nothing was saved", "Start again: counterpoise journal add"))
    }

    fn set(&mut self, name: &str) -> Result<Option<SetTicked>, Failure> {
        let whole = loop {
            let ask = format!("{name} {}", questions::DONE);
            match self.line(&ask)?.to_lowercase().as_str() {
                "d" => break true,
                "b" => break false,
                "n" => return Ok(None),
                other => self.refuse(&format!("\"{other}\" is not D, B or N"))?,
            }
        };
        Ok(Some(SetTicked {
            whole,
            grabbed: self.yes(questions::GRABBED)?.into(),
            held_on: self.scaled(&questions::held_on())?,
            effort: self.scaled(&questions::effort())?,
            steadiness: self.scaled(&questions::steadiness())?,
        }))
    }

    /// Asks for the number of an answer.
    fn scaled<T: Numbered>(&mut self, ask: &str) -> Result<T, Failure> {
        let (least, most) = T::LIMITS;
        Ok(T::numbered(self.number(ask, least, most)?).expect("every number within the limits is an answer"))
    }

    /// Saves it. If the disk is full, the person can try again at a terminal, so that nothing typed is lost.
    fn save(&mut self, journal: &mut Journal, id: Id, ticked: &Ticked) -> Result<(), Failure> {
        loop {
            match journal.keep_ticked(id, ticked) {
                Ok(()) => return Ok(()),
                Err(error @ JournalError::NotImported { .. }) => return Err(error.into()),
                Err(error) => {
                    if !self.again(&error.to_string(), &error.hint())? {
                        return Err(error.into());
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod test;
