//! Which program came into use in the place of which other one, when, who issued it, and in what it is harder or easier. It
//! stands at the top of the next report, beside the falls.

use jiff::civil::Date;
use serde::Serialize;

use super::material::{Material, Period, Program};
use crate::plan::prescription::{Prescription, Seal};

/// Where a program comes from that nobody put to use: its file was edited, or another one was put in its place.
const EDITED: &str = "the file was changed without \"use\"";

/// A program that came into use.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ProgramChange {
    /// The day; `None` where the file was changed without this program, so that nobody knows.
    pub day: Option<Date>,
    /// Where it came from.
    pub source: String,
    /// The digest of its file.
    pub digest: String,
    /// Its title; `None` where its text was not kept.
    pub title: Option<String>,
    /// Who issued it, empty for nobody; `None` where its text was not kept.
    pub issued_by: Option<String>,
    /// Whether it is as it was issued; `None` where its text was not kept.
    pub is_sealed: Option<bool>,
    /// The digest of the program before; `None` where there was none.
    pub before: Option<String>,
    /// The title of the program before; `None` where there was none, or where its text was not kept.
    pub before_title: Option<String>,
    /// Whether both texts were kept, so that they could be compared.
    pub is_compared: bool,
    /// In what it is harder, or may come to be; `None` in nothing, or not compared.
    pub harder: Option<String>,
    /// In what it is easier; `None` in nothing, or not compared.
    pub easier: Option<String>,
}

/// The changes of a period and the last one before it, oldest first. A file in use that is not the one that came into use
/// last is one more.
pub fn changes(material: &Material, in_use: &Prescription, period: Period) -> Vec<ProgramChange> {
    let mut before: Option<&Program> = None;
    let mut all = Vec::new();
    for program in &material.programs {
        // The same file put to use again changes nothing.
        if before.is_none_or(|before| before.digest != program.digest) {
            let kept = program.kept.as_ref().map(|(prescription, seal)| (prescription, Some(*seal)));
            let (day, source, digest) =
                (Some(program.day), program.source.clone(), program.digest.to_string());
            all.push(change(day, source, digest, kept, before));
        }
        before = Some(program);
    }
    let first = all.iter().filter(|one| one.day < Some(period.since)).count().saturating_sub(1);
    let mut found: Vec<ProgramChange> = all.into_iter().skip(first).collect();
    found.retain(|one| one.day <= Some(period.until));
    if before.is_some_and(|last| last.digest != in_use.digest()) {
        let digest = in_use.digest().to_string();
        found.push(change(None, EDITED.to_owned(), digest, Some((in_use, None)), before));
    }
    found
}

fn change(
    day: Option<Date>,
    source: String,
    digest: String,
    kept: Option<(&Prescription, Option<Seal>)>,
    before: Option<&Program>,
) -> ProgramChange {
    let former = before.and_then(|before| before.kept.as_ref()).map(|(prescription, _)| prescription);
    let both = kept.zip(former).map(|((prescription, _), former)| (prescription, former));
    let more = |one: &Prescription, other: &Prescription, name| {
        let excess = one.excess_over(other).or_else(|| one.excess_in_time_over(other));
        excess.map(|excess| excess.beside(name))
    };
    ProgramChange {
        day,
        source,
        digest,
        title: kept.map(|(prescription, _)| prescription.title().to_owned()),
        issued_by: kept.map(|(prescription, _)| prescription.issued_by().to_owned()),
        is_sealed: kept.and_then(|(_, seal)| seal).map(|seal| seal == Seal::Whole),
        before: before.map(|before| before.digest.to_string()),
        before_title: former.map(|former| former.title().to_owned()),
        is_compared: both.is_some(),
        harder: both.and_then(|(now, former)| more(now, former, "the one before")),
        easier: both.and_then(|(now, former)| more(former, now, "the one since")),
    }
}

impl ProgramChange {
    /// Whether it took the place of another one.
    pub const fn is_replacement(&self) -> bool {
        self.before.is_some()
    }

    /// "2026-11-10", or that nobody knows the day.
    pub fn day_words(&self) -> String {
        self.day.map_or_else(|| "day not known".to_owned(), |day| day.to_string())
    }

    /// Everything but the day, in a sentence.
    pub fn words(&self) -> String {
        let title = self.title.as_deref().map_or_else(|| short(&self.digest), |title| format!("\"{title}\""));
        let issued = match (self.issued_by.as_deref(), self.is_sealed) {
            (None, _) => "its text was not kept",
            (Some(""), _) => "issued by nobody",
            (Some(by), Some(true)) => &format!("issued by {by}, sealed"),
            (Some(by), _) => &format!("issued by {by}, not sealed"),
        };
        let instead = match (&self.before, &self.before_title) {
            (None, _) => return format!("{title} ({}; {issued}), the first.", self.source),
            (Some(_), Some(before)) => format!("\"{before}\""),
            (Some(digest), None) => short(digest),
        };
        let what = match (&self.harder, &self.easier) {
            _ if !self.is_compared => "Not known whether it is harder.".to_owned(),
            (None, None) => "Neither harder nor easier.".to_owned(),
            (Some(harder), None) => format!("Harder: {harder}."),
            (None, Some(easier)) => format!("Easier: the one before has {easier}."),
            (Some(harder), Some(easier)) => {
                format!("Harder: {harder}. Also easier: the one before has {easier}.")
            }
        };
        format!("{title} ({}; {issued}) instead of {instead}. {what}", self.source)
    }
}

/// The first digits of a digest, enough to tell files apart.
pub(super) fn short(digest: &str) -> String {
    digest.trim_start_matches("sha256:").chars().take(12).collect()
}
