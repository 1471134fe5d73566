//! What the journal knows of a person, and the refusals that follow from it, worded once for every command that starts
//! practice.

use std::io::Write;

use jiff::ZonedDateTime;
use jiff::civil::Date;

use super::Failure;
use super::page::show;
use super::source::{self, Source};
use crate::journal::{Folder, Journal};
use counterpoise_core::blocks::Block;
use counterpoise_core::course::progression::{Decision, Next, Reason};
use counterpoise_core::course::trainee::{Retest, Trainee};
use counterpoise_core::plan::prescription::{Prescription, Seal};

/// Opens the journal for writing, and prints what was noticed on the way.
pub(super) fn open(folder: &Folder, out: &mut impl Write) -> Result<Journal, Failure> {
    let (journal, notices) = Journal::open(folder.lock()?)?;
    let notes: Vec<Block> = notices.iter().map(|notice| Block::line(format!("Note: {notice}."))).collect();
    show(&notes, out)?;
    Ok(journal)
}

/// What this journal knows of the person.
pub(super) fn known(journal: &Journal) -> Result<Trainee, Failure> {
    Ok(journal.trainee()?)
}

/// The offer of balance tests.
pub(super) fn retest(known: &Trainee, today: Date) -> Option<Block> {
    Some(Block::line(match known.retest(today)? {
        Retest::First => "Balance tests, if you like: counterpoise assess".to_owned(),
        Retest::Since(from) => {
            format!("The balance tests can be done again, since {from}: counterpoise assess")
        }
    }))
}

/// Refuses what is harder than the program in use. `today`: what was asked for, at the steps of today.
///
/// # Errors
/// If it is harder, or the program in use cannot be read: then nobody knows what is gentler.
pub(super) fn within_program(
    folder: &Folder,
    known: &Trainee,
    today: &Prescription,
    now: &ZonedDateTime,
) -> Result<(), Failure> {
    let Some(Source { prescription: program, .. }) = source::in_use(folder)? else { return Ok(()) };
    known.harder_than(&program, today, now).map_or(Ok(()), |harder| {
        Err(Failure::new(
            format!("\"{}\" asks for {harder} (\"{}\")", today.title(), program.title()),
            "Practice your program: counterpoise practice. To change it, talk to your therapist.",
        ))
    })
}

/// Refuses to put a prescription to use that is harder than the one in use, whatever anybody at this computer says. Only a
/// sealed file of a named issuer can be harder, and not one that is older than the program.
///
/// # Errors
/// If it is refused. Where the program in use cannot be read, nobody knows what is gentler.
pub(super) fn may_replace(
    folder: &Folder,
    known: &Trainee,
    (bytes, asked): (&[u8], &Prescription),
    now: &ZonedDateTime,
) -> Result<(), Failure> {
    let by_issuer = Seal::of(bytes) == Seal::Whole && !asked.issued_by().is_empty();
    let refuse = |fact: String| {
        Failure::new(fact, "Your program stays as it is. To change it, talk to your therapist.")
    };
    let program = match source::in_use(folder) {
        Ok(None) => return Ok(()),
        Ok(Some(Source { prescription, .. })) => prescription,
        Err(_) if by_issuer => return Ok(()),
        Err(error) => return Err(refuse(error.fact().to_owned())),
    };
    let is_older = !program.issued_by().is_empty() && asked.issued_on() < program.issued_on();
    let Some(harder) = known.harder_to_use(&program, asked, now) else { return Ok(()) };
    match by_issuer {
        true if !is_older => Ok(()),
        true => Err(refuse(format!(
            "\"{}\" was issued on {}, before your program (\"{}\", {}), and asks for {harder}",
            asked.title(),
            asked.issued_on(),
            program.title(),
            program.issued_on()
        ))),
        false => Err(refuse(format!("\"{}\" asks for {harder} (\"{}\")", asked.title(), program.title()))),
    }
}

/// A note where the file in use is not the one that came into use: somebody changed it since.
pub(super) fn altered(journal: &Journal, folder: &Folder) -> Result<Option<Block>, Failure> {
    Ok(journal.altered(folder)?.map(|altered| Block::line(format!("Note: {altered}."))))
}

/// Why there is no practice now, and what to do: `Error:` and `Hint:`.
pub(super) fn refusal(next: &Next, emergency: Option<&str>) -> Failure {
    let said = |reason: &Reason| {
        reason.bar().unwrap_or_else(|| (reason.to_string().trim_end_matches('.').to_owned(), String::new()))
    };
    let (fact, advice) = next.reasons.first().map(said).unwrap_or_default();
    let is_grave = |reason: &&Reason| matches!(reason, Reason::Locked { .. } | Reason::Holding { .. });
    let more = next.reasons.iter().skip(1).filter(is_grave).map(|reason| said(reason).0);
    let fact = std::iter::once(fact).chain(more).collect::<Vec<_>>();
    let mut hint = vec![advice];
    match next.decision {
        Decision::Locked => {
            if next.is_emergency() {
                hint.extend(emergency.map(|number| format!("Your emergency number: {number}.")));
            }
            hint.push(
                "Once a clinician has cleared you: counterpoise clear --by WHO --reason WHY".to_owned(),
            );
        }
        Decision::NotDue if next.can_be_moved() => {
            hint.push("To move the next practice to today: counterpoise practice --move".to_owned());
        }
        Decision::Rest if next.reasons.iter().any(|reason| matches!(reason, Reason::ClockBack { .. })) => {
            hint.push("If they are right now: counterpoise clear --by WHO --reason WHY".to_owned());
        }
        _ => {}
    }
    hint.retain(|part| !part.is_empty());
    if hint.is_empty() {
        hint.push("See what is planned: counterpoise program".to_owned());
    }
    Failure::new(fact.join("; "), hint.join(" "))
}
