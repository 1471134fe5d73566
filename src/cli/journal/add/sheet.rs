//! What was on the sheet? The prescription in use then, and the steps that a sheet of that week could have, never above
//! those allowed then.

use std::fs;
use std::io::{BufRead, Write};

use jiff::civil::Date;
use jiff::{ToSpan, ZonedDateTime};

use crate::cli::form::Form;
use crate::cli::{Failure, source};
use crate::journal::{Folder, Journal};
use counterpoise_core::blocks::Block;
use counterpoise_core::course::printed_sheet::{self, WEEK};
use counterpoise_core::course::trainee::Trainee;
use counterpoise_core::plan::drill::Form as DrillForm;
use counterpoise_core::plan::prescription::{Digest, DrillPlan, Prescription};

impl<R: BufRead, W: Write> Form<R, W> {
    /// The prescription of the sheet. If several were in use in the week up to that day, the person chooses by title.
    pub(super) fn prescription(
        &mut self,
        journal: &Journal,
        folder: &Folder,
        day: Date,
    ) -> Result<Prescription, Failure> {
        let could_be = in_use_then(journal, folder, day)?;
        let nth = if could_be.len() == 1 { 0 } else { self.title(&could_be)? };
        could_be.into_iter().nth(nth).flatten().ok_or_else(|| {
            Failure::new(
                "the prescription of that sheet is no longer on this computer, so its sets are not known",
                "Ask your therapist for its file, and put it in the folder under a name such as prescription-earlier.toml",
            )
        })
    }

    /// Asks which title is on the sheet. A prescription that is no longer here has no title.
    fn title(&mut self, could_be: &[Option<Prescription>]) -> Result<usize, Failure> {
        self.choices(could_be.iter().map(|prescription| {
            prescription.as_ref().map_or_else(
                || "another title".to_owned(),
                |prescription| format!("{}, of {}", prescription.title(), prescription.issued_on()),
            )
        }))?;
        let most = u8::try_from(could_be.len()).unwrap_or(u8::MAX);
        Ok(usize::from(self.number("Which title is on the sheet? Type a number.", 1, most)?) - 1)
    }

    /// The steps of the sheet. `then`: those of that day. A sheet printed some days earlier may have others.
    pub(super) fn steps(
        &mut self,
        prescription: &Prescription,
        known: &Trainee,
        at: &ZonedDateTime,
        then: &[Option<u8>],
    ) -> Result<Vec<Option<u8>>, Failure> {
        let most = printed_sheet::most(known, prescription, at, then);
        let plans = prescription.drills();
        let mut steps = then.to_vec();
        // The first drill of all is the warm-up, which stays at its first step.
        let is_open = |place: &usize| {
            plans[*place].form() == DrillForm::Alone && most[*place].is_some_and(|most| most > 1)
        };
        let open: Vec<usize> = (1..plans.len()).filter(is_open).collect();
        if open.is_empty() {
            return Ok(steps);
        }
        let mut page = vec![Block::Gap, Block::line("The sheet of that day should say:")];
        page.extend(
            open.iter()
                .map(|place| Block::item(how(&plans[*place], steps[*place].or(most[*place]).unwrap_or(1)))),
        );
        self.show(&page)?;
        if self.yes("Does it?")? {
            for place in open {
                steps[place] = steps[place].or(most[place]);
            }
            return Ok(steps);
        }
        for place in open {
            steps[place] = Some(self.step(&plans[place], most[place].unwrap_or(1))?);
        }
        Ok(steps)
    }

    /// Asks for the step of this drill on the sheet, by its words.
    fn step(&mut self, plan: &DrillPlan, most: u8) -> Result<u8, Failure> {
        self.choices((1..=most).map(|step| how(plan, step)))?;
        self.number(
            "Which of these is on the sheet? Type a number. If none is, the sheet is not from that week: press Ctrl-C to leave without saving.",
            1,
            most,
        )
    }
}

/// As the sheet words it: "Reaches at the counter: stand with the counter ahead, feet apart on a firm floor ...".
fn how(plan: &DrillPlan, step: u8) -> String {
    let (drill, conditions) = (plan.drill(), plan.conditions_at(step));
    let posture = conditions.posture().to_lowercase();
    format!("{}: {posture} {}", drill.title(), conditions.stance_text(drill.facings()[0], None))
}

/// The prescriptions that were in use in the week up to that day, the latest first, and at the end one `None` if some are
/// no longer here.
fn in_use_then(journal: &Journal, folder: &Folder, day: Date) -> Result<Vec<Option<Prescription>>, Failure> {
    let first = day.saturating_sub((WEEK - 1).days());
    let handed_over = journal.all_handed_over()?;
    let now = source::find(None, || Ok(folder.clone()))?.prescription;
    let mut could_be: Vec<Option<Prescription>> = Vec::new();
    let mut add = |one: Option<Prescription>| {
        let digest = one.as_ref().map(Prescription::digest);
        if !could_be.iter().any(|other| other.as_ref().map(Prescription::digest) == digest) {
            could_be.push(one);
        }
    };
    let mut until = None;
    for (since, digest) in handed_over.iter().rev() {
        let over = until.is_some_and(|until: Date| until < first);
        if *since <= day && !over {
            match until {
                // The person goes by the present content of the file in use.
                None => add(Some(now.clone())),
                Some(_) => add(of_digest(folder, *digest)?),
            }
        }
        until = Some(*since);
    }
    match until {
        None => add(Some(now)),
        // Before anything was handed over there was the ready one that practice opens by itself.
        Some(first_of_all) if first_of_all >= first => add(Some(Prescription::all_ready()[0].1.clone())),
        Some(_) => {}
    }
    could_be.sort_by_key(Option::is_none);
    Ok(could_be)
}

/// The prescription with this digest: a ready one, or one in the folder.
fn of_digest(folder: &Folder, digest: Digest) -> Result<Option<Prescription>, Failure> {
    if let Some(ready) = Prescription::ready_with(&digest) {
        return Ok(Some(ready.clone()));
    }
    let is_it = |one: &Prescription| one.digest() == digest;
    let entries = fs::read_dir(folder.path()).map_err(Failure::from)?;
    for path in entries.filter_map(|entry| Some(entry.ok()?.path())) {
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let is_toml = path.extension().is_some_and(|ending| ending == "toml");
        if name.starts_with("prescription") && is_toml {
            // A file with an error is not the one, whatever its name.
            let read = source::named(&path.display().to_string()).map(|source| source.prescription);
            if let Some(found) = read.ok().filter(is_it) {
                return Ok(Some(found));
            }
        }
    }
    Ok(None)
}
