//! A therapist's limits for one person, checked once; a value of this type cannot exceed them.

use std::sync::LazyLock;

use jiff::civil::Date;

use crate::plan::drill::Drill;
pub use crate::plan::drill::UnlockName;
pub use crate::plan::gaps::{GapRange, Shape};
use crate::plan::precaution::Precautions;
use crate::units::Millis;

mod digest;
pub mod draft;
mod drill_plan;
mod edit;
mod excess;
pub mod field;
mod fields;
mod gate;
pub mod limits;
mod narrowing;
mod reading;
pub mod refusal;
mod seal;
pub mod set_counts;
mod today;
mod value;
mod write;

pub use digest::{Digest, DigestError};
pub use drill_plan::{DrillPlan, Sequence};
pub use excess::Excess;
pub use fields::{Accept, Draft, DraftDrill, Unlock, row};
pub use narrowing::{Narrowing, Taken};
pub use refusal::{Reason, Refusal};
pub use seal::Seal;
pub use value::DrillOrder;

/// The `schema` of a prescription file.
pub const SCHEMA: &str = "counterpoise.prescription/1";

/// The prescriptions that are built in, the default first.
const READY: [(&str, &str); 5] = [
    ("gentle", include_str!("../../../presets/prescriptions/gentle.toml")),
    ("typical", include_str!("../../../presets/prescriptions/typical.toml")),
    ("steps-and-rises", include_str!("../../../presets/prescriptions/steps-and-rises.toml")),
    ("reach-and-look", include_str!("../../../presets/prescriptions/reach-and-look.toml")),
    ("with-a-partner", include_str!("../../../presets/prescriptions/with-a-partner.toml")),
];

/// A therapist's limits for one person. A value of this type is within every hard limit: the only way to one is
/// [`Prescription::read`].
#[derive(Debug, Clone)]
pub struct Prescription {
    draft: Draft,
    drills: Vec<DrillPlan>,
    precautions: Precautions,
    narrowings: Vec<Narrowing>,
    digest: Digest,
}

impl Prescription {
    /// Reads a prescription file. `source_name` is how the file is called in a refusal; nothing is opened here.
    ///
    /// If the first drill is not a warm-up drill at its first step, the built-in warm-up is put before it and counts
    /// in every limit.
    ///
    /// # Errors
    /// The first rule of `docs/prescription.md` that the file breaks, with line, value and limit.
    ///
    /// ```
    /// use counterpoise_core::plan::prescription::Prescription;
    /// let file = r#"
    /// schema = "counterpoise.prescription/1"
    /// title = "Reaches to the sides"
    /// issued_on = 2026-11-02
    ///
    /// [[drills]]
    /// drill = "counter-reach"
    /// sets = 2
    /// work_ms = 75000
    /// gap_ms = [6000, 14000]
    /// directions = ["left", "right", "forward"]
    /// "#;
    /// let prescription = Prescription::read("sides.toml", file.as_bytes())?;
    /// assert_eq!(prescription.drills()[0].drill().name(), "counter-shift", "the built-in warm-up");
    /// assert_eq!(prescription.drills()[1].longest_streak(), Some(2), "the default for three directions");
    ///
    /// let refusal = Prescription::read("sides.toml", file.replace("75000", "130000").as_bytes()).unwrap_err();
    /// assert_eq!(
    ///     refusal.to_string(),
    ///     "`work_ms` is 130000 (130 s); the most is 120000 (120 s) (sides.toml, line 9)",
    /// );
    /// # Ok::<(), counterpoise_core::plan::prescription::Refusal>(())
    /// ```
    pub fn read(source_name: &str, bytes: &[u8]) -> Result<Self, Refusal> {
        Self::read_with(Drill::all(), source_name, bytes)
    }

    /// The same with other drills than the built-in ones, so that a ladder can be tried before it is released. Each bears
    /// the name of a built-in one.
    pub(crate) fn read_with(
        drills: &'static [Drill],
        source_name: &str,
        bytes: &[u8],
    ) -> Result<Self, Refusal> {
        let (draft, lines) = reading::read(source_name, bytes)?;
        gate::Gate::new(source_name, drills).admit(draft, &lines, Digest::of(bytes))
    }

    /// The names of the ready prescriptions, the default first.
    pub fn ready_names() -> impl Iterator<Item = &'static str> {
        READY.iter().map(|(name, _)| *name)
    }

    /// The file of the ready prescription with this name.
    pub fn ready_text(name: &str) -> Option<&'static str> {
        READY.iter().find(|(ready, _)| *ready == name).map(|(_, text)| *text)
    }

    /// The ready prescription with this name.
    ///
    /// ```
    /// use counterpoise_core::plan::prescription::Prescription;
    /// assert_eq!(Prescription::ready("gentle").unwrap().days_a_week(), 3);
    /// assert!(Prescription::ready("no such name").is_none());
    /// ```
    pub fn ready(name: &str) -> Option<&'static Self> {
        Self::all_ready().iter().find(|(ready, _)| *ready == name).map(|(_, prescription)| prescription)
    }

    /// The ready prescription with this digest.
    pub fn ready_with(digest: &Digest) -> Option<&'static Self> {
        Self::all_ready().iter().map(|(_, ready)| ready).find(|ready| ready.digest() == *digest)
    }

    /// Every ready prescription with its name, the default first.
    pub fn all_ready() -> &'static [(&'static str, Self)] {
        static ALL: LazyLock<Vec<(&str, Prescription)>> = LazyLock::new(|| {
            let read = |(name, text): &(&'static str, &str)| {
                let read = Prescription::read(name, text.as_bytes());
                (*name, read.expect("every ready prescription is within the limits, as a test proves"))
            };
            READY.iter().map(read).collect()
        });
        &ALL
    }

    /// What the therapist calls it.
    pub fn title(&self) -> &str {
        &self.draft.title
    }
    /// Who wrote it; may be empty.
    pub fn issued_by(&self) -> &str {
        &self.draft.issued_by
    }
    /// When it was written.
    pub fn issued_on(&self) -> Date {
        self.draft.issued_on
    }
    /// Days of practice a week.
    pub fn days_a_week(&self) -> u8 {
        self.draft.days_a_week as u8
    }
    /// Weeks that the program lasts.
    pub fn weeks(&self) -> u8 {
        self.draft.weeks as u8
    }
    /// Sessions until a therapist reviews it.
    pub fn review_after_sessions(&self) -> u16 {
        self.draft.review_after_sessions as u16
    }
    /// The least rest after a set.
    pub fn rest(&self) -> Millis {
        Millis(self.draft.rest_ms as u32)
    }
    /// The order of the drills within a session.
    pub fn order(&self) -> DrillOrder {
        self.draft.order
    }
    /// The drills, a warm-up first: the first plan is always a warm-up drill at its first step.
    pub fn drills(&self) -> &[DrillPlan] {
        &self.drills
    }
    /// What somebody has watched this person do.
    pub fn unlocks(&self) -> &[Unlock] {
        &self.draft.unlocks
    }
    /// Whether somebody has watched this, whoever the partner.
    pub fn unlocks_name(&self, name: UnlockName) -> bool {
        self.unlocks().iter().any(|unlock| unlock.name == name)
    }
    /// The effort on the 0-10 scale above which practice does not step up.
    pub fn effort_at_most(&self) -> u8 {
        self.draft.effort_at_most as u8
    }
    /// The topics of suitability that somebody accepts.
    pub fn accepts(&self) -> &[Accept] {
        &self.draft.accepts
    }
    /// Why the issuer accepts what was answered about suitability before the day of issue: an older form of
    /// [`Prescription::accepts`].
    pub fn accepted_because(&self) -> Option<&str> {
        self.draft.accepted_because.as_deref()
    }
    /// The digest of the file.
    pub fn digest(&self) -> Digest {
        self.digest
    }
}

#[cfg(test)]
mod test;
