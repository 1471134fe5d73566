//! What the journal knows of a person, and the refusals that follow from it, the same for every command that starts
//! practice. The sentences are the core's.

use std::io::Write;

use jiff::ZonedDateTime;

use super::Failure;
use super::page::show;
use super::source::{self, Source};
use crate::journal::{Folder, Journal};
use crate::settings::Settings;
use counterpoise_core::blocks::Block;
use counterpoise_core::course::standing::{Offer, Standing, Surroundings};
use counterpoise_core::course::trainee::Trainee;
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

/// Where a person stands, with what can be done now.
pub(super) struct Position {
    /// Where.
    pub standing: Standing,
    /// The commands that would be accepted now.
    pub offers: Vec<Offer>,
    /// The settings of this person.
    pub settings: Settings,
    /// The program in use.
    program: Option<Prescription>,
    /// The name by which the prescription was asked for.
    named: Option<String>,
}

impl Position {
    /// Where this person stands now under a prescription, which was asked for by name unless it is the one in use.
    pub(super) fn of(
        folder: &Folder,
        known: &Trainee,
        prescription: &Prescription,
        named: Option<&str>,
        now: &ZonedDateTime,
    ) -> Result<Self, Failure> {
        let settings = Settings::load(folder)?;
        let standing = Standing::of(known, prescription, now);
        let program = source::in_use(folder)?.map(|source| source.prescription);
        let around =
            Surroundings { in_use: program.as_ref(), named, has_patches: !settings.patches.is_empty() };
        let offers = standing.offers(known, prescription, around);
        Ok(Self { standing, offers, settings, program, named: named.map(str::to_owned) })
    }

    /// The sentence and the day of the next practice.
    pub(super) fn lines(&self) -> Vec<String> {
        self.standing.lines(self.number())
    }

    /// The commands of the offers, without the program's name.
    pub(super) fn commands(&self) -> Vec<String> {
        self.offers.iter().map(|offer| offer.command(self.named.as_deref())).collect()
    }

    /// The lines of the offers.
    pub(super) fn offered(&self) -> impl Iterator<Item = String> {
        self.offers.iter().map(|offer| offer.line(self.named.as_deref()))
    }

    /// How the next practice is moved to today, where it can be.
    pub(super) fn moved(&self) -> Option<String> {
        let offer = self.offers.iter().find(|offer| matches!(offer, Offer::Move { .. }))?;
        Some(offer.line(self.named.as_deref()))
    }

    /// Whom to call in an emergency.
    pub(super) fn number(&self) -> Option<&str> {
        self.settings.emergency_number.as_deref()
    }

    /// Why there is no practice now, and what can be done: `Error:` and `Hint:`.
    pub(super) fn refusal(&self) -> Failure {
        let fact = self.lines().join(" ");
        let hint: Vec<String> = self.offered().collect();
        let hint = match &hint[..] {
            [] => "See what is planned: counterpoise program".to_owned(),
            some => some.join(". "),
        };
        Failure::new(fact.trim_end_matches('.'), hint)
    }

    /// Refuses what is harder than the program in use. `today`: what was asked for, at the steps of today.
    ///
    /// # Errors
    /// If it is harder.
    pub(super) fn within_program(
        &self,
        known: &Trainee,
        today: &Prescription,
        now: &ZonedDateTime,
    ) -> Result<(), Failure> {
        let Some(program) = &self.program else { return Ok(()) };
        known.harder_than(program, today, now).map_or(Ok(()), |harder| {
            Err(Failure::new(
                format!("\"{}\" asks for {harder} (\"{}\")", today.title(), program.title()),
                "See your program: counterpoise program. To change it, talk to your therapist.",
            ))
        })
    }

    /// Refuses whatever is practice in some form while nothing of that is open.
    ///
    /// # Errors
    /// Under a lock, a hold and "not today", and while it is not known how the last practice ended.
    pub(super) fn allow_any(&self) -> Result<(), Failure> {
        if self.standing.state().is_some_open() { Ok(()) } else { Err(self.refusal()) }
    }
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
