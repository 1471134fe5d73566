//! Types in a practice with a track, from the sheet: line by line, nothing kept before the last answer.

use std::io::{BufRead, Write};

use jiff::ZonedDateTime;
use jiff::civil::{Date, Time};

use crate::cli::form::Form;
use crate::cli::standing::{self, Known};
use crate::cli::wrap::wrapped;
use crate::cli::{Failure, source};
use crate::clock::Clock;
use crate::entropy;
use crate::journal::{Folder, Journal, SessionId, SetTicked, Ticked};
use crate::past::{Past, Sitting};
use crate::schedule::{Scheduler, SetPlan};

pub(super) fn run(folder: &Folder, out: &mut impl Write) -> Result<(), Failure> {
    let prescription = source::find(None, || Ok(folder.clone()))?.prescription;
    let (mut journal, notices) = Journal::open(folder.lock()?)?;
    for notice in notices {
        writeln!(out, "{}", wrapped("", &format!("Note: {notice}.")))?;
    }
    let now = Clock::real().wall();
    let known = Known::of(&journal)?;
    let mut form = Form::new(out, "nothing was kept", "counterpoise journal add");
    form.say(
        "A practice with a track, from your sheet. Each answer is one line; nothing is kept before the last.",
    )?;
    let day = form.day(&now, &known.past)?;
    let at = moment(day, &now);
    let next = known.next(&prescription, &at);
    let today = standing::at_steps(&prescription, &next.steps);
    let schedule = Scheduler::new(&today)?.draw(entropy::seed()?);
    let sets_whole = schedule.sets().len();
    let mut ticked = Ticked {
        at,
        title: prescription.title().to_owned(),
        digest: prescription.digest(),
        decided: standing::decided(&next, &prescription, &known.past, false, sets_whole),
        sets: Vec::new(),
        fell: None,
        unwell: None,
    };
    for plan in schedule.sets() {
        let done = form.set(plan)?;
        ticked.sets.push((plan.clone(), done));
    }
    if ticked.sets.iter().all(|(_, done)| done.is_none()) {
        return Err(Failure::new(
            "no set was done, so nothing was kept",
            "A day without practice needs no entry.",
        ));
    }
    if form.yes("Did you fall?")? {
        ticked.fell = Some(form.yes("Did it hurt, or was there a knock to the head? If you do not know: Y")?);
    }
    if form.yes("Did you feel unwell?")? {
        let ask = "What felt wrong? 1 chest   2 badly short of breath   3 weak, numb, trouble to speak or see   4 fainted, or \
                   nearly   5 dizzy   6 something else";
        ticked.unwell = Some(form.number(ask, 1, 6)?);
    }
    if !form.yes("Keep it as the practice of that day?")? {
        return Err(Failure::new("nothing was kept", "Start again: counterpoise journal add"));
    }
    let id = SessionId::random().map_err(|error| Failure::new(error.to_string(), "Start again."))?;
    journal.keep_ticked(&id, &ticked)?;
    form.say(&format!("Kept, marked as typed in by hand: {day}, session {}.", id.short()))?;
    form.say("What follows from it: counterpoise next")
}

/// Noon of that day; of this day now.
fn moment(day: Date, now: &ZonedDateTime) -> ZonedDateTime {
    if day == now.date() {
        return now.clone();
    }
    let noon = day.to_datetime(Time::constant(12, 0, 0, 0));
    noon.to_zoned_datetime(now.time_zone().clone()).unwrap_or_else(|_| now.clone())
}

impl<R: BufRead, W: Write> Form<R, W> {
    /// A day that has come, on which nothing was practiced yet.
    fn day(&mut self, now: &ZonedDateTime, past: &Past) -> Result<Date, Failure> {
        let done: Vec<Date> = past.sittings().iter().map(Sitting::day).collect();
        loop {
            let typed = self.line("On which day? Such as 2026-11-02, or T for today.")?;
            let day =
                if typed.eq_ignore_ascii_case("t") { Some(now.date()) } else { typed.parse::<Date>().ok() };
            match day {
                None => self.refuse(&format!("\"{typed}\" is no day"))?,
                Some(day) if day > now.date() => {
                    self.refuse(&format!("{day} lies ahead: today is {}", now.date()))?;
                }
                Some(day) if done.contains(&day) => {
                    self.refuse(&format!("{day} has a practice already, and a day has one"))?;
                }
                Some(day) => return Ok(day),
            }
        }
    }

    fn set(&mut self, plan: &SetPlan) -> Result<Option<SetTicked>, Failure> {
        let title = plan.drill().title();
        let whole = loop {
            let ask = format!("Set {}, {title}. (D done whole, B broken off, N not begun)", plan.number());
            match self.line(&ask)?.to_lowercase().as_str() {
                "d" => break true,
                "b" => break false,
                "n" => return Ok(None),
                other => self.refuse(&format!("\"{other}\" is none of D, B and N"))?,
            }
        };
        Ok(Some(SetTicked {
            whole,
            grabbed: self.yes("Did you have to grab hold, or nearly fall?")?,
            held_on: self.number(
                "Apart from the hand that rests there, how often did you hold on? (0 to 3; 3: three or more)",
                0,
                3,
            )?,
            effort: self.number(
                "How hard was it, at its hardest? (0 nothing, 5-6 moderate, 7-8 hard, 10 the most)",
                0,
                10,
            )?,
            steadiness: self.number("How steady were you? (1 steady ... 5 lost balance)", 1, 5)?,
        }))
    }
}
