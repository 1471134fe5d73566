//! What is allowed: a therapist's limits for one person, checked once and unforgeable afterwards.
//! Not when or where a cue comes (that is `schedule`).

use std::sync::LazyLock;

use jiff::civil::Date;

pub use crate::drill::UnlockName;
use crate::drill::{Drill, Form, LadderStep, Need, Strength, Target};
use crate::millis::Millis;

mod digest;
pub mod draft;
pub mod explain;
mod gate;
mod gentler;
pub mod limits;
pub mod refusal;
mod seal;
mod text;
mod today;
mod write;

pub use digest::{Digest, NotADigest};
pub use draft::{Draft, DraftDrill};
pub use explain::Explanation;
pub use gentler::Harder;
pub use refusal::{Reason, Refusal};
pub use seal::Seal;

/// The `schema` of a prescription file.
pub const SCHEMA: &str = "counterpoise.prescription/1";

/// The prescriptions that are built in, the default first.
const READY: [(&str, &str); 5] = [
    ("gentle", include_str!("../presets/prescriptions/gentle.toml")),
    ("typical", include_str!("../presets/prescriptions/typical.toml")),
    ("steps-and-rises", include_str!("../presets/prescriptions/steps-and-rises.toml")),
    ("reach-and-look", include_str!("../presets/prescriptions/reach-and-look.toml")),
    ("with-a-partner", include_str!("../presets/prescriptions/with-a-partner.toml")),
];

/// A therapist's limits for one person. A value of this type is within every hard limit: the only way to one is
/// [`Prescription::read`].
#[derive(Debug, Clone)]
pub struct Prescription {
    title: String,
    issued_by: String,
    issued_on: Date,
    days_a_week: u8,
    weeks: u8,
    review_after_sessions: u16,
    rest: Millis,
    order: DrillOrder,
    drills: Vec<DrillPlan>,
    unlocks: Vec<Unlock>,
    effort_at_most: u8,
    accepted_because: Option<String>,
    digest: Digest,
}

/// The order of the drills within a session.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DrillOrder {
    /// As the file lists them.
    AsWritten,
    /// Drawn for each session; a warm-up drill stays first.
    Drawn,
}

/// One drill with its ranges and dose.
#[derive(Debug, Clone)]
pub struct DrillPlan {
    drill: &'static Drill,
    form: Form,
    sets: u8,
    work: Millis,
    recover: Millis,
    step: u8,
    ceiling: u8,
    gaps: GapRange,
    blank_per_mille: u16,
    targets: Vec<Target>,
    weights: Vec<u32>,
    sequence: Sequence,
    longest_streak: Option<u8>,
    strength: Option<(Strength, Strength)>,
    balls: u8,
    tested_hold: Option<Millis>,
    confirmed: Vec<Need>,
    partners: Vec<String>,
    line: usize,
}

/// The range of gaps and how they are spread over it. `least < greatest`, both within the hard limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct GapRange {
    least: Millis,
    greatest: Millis,
    shape: Shape,
}

/// How gaps are spread over their range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Truncated exponential: the chance of a cue in the next moment stays level for longest.
    Flat {
        /// Rate times range, in thousandths.
        rate_thousandths: u32,
    },
    /// Uniform: no single moment is a better guess than another.
    Even,
}

/// How directions follow each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sequence {
    /// Drawn one by one among those that the streak limit allows now.
    Open,
    /// Drawn among all sequences in which every direction comes about equally often.
    Covered {
        /// How far each direction's count may lie below `floor(n / k)` or above `ceil(n / k)`.
        slack: u8,
    },
}

/// A named danger that somebody watched this person master.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unlock {
    /// Which.
    pub name: UnlockName,
    /// Initials or a role.
    pub watched_by: String,
    /// When.
    pub on: Date,
    /// With which partner; empty for drills alone.
    pub partner: String,
    /// Whether it holds only while the therapist is there; then pushes may be firmer.
    pub therapist_present: bool,
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
    /// use counterpoise::prescription::Prescription;
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
    /// # Ok::<(), counterpoise::prescription::Refusal>(())
    /// ```
    pub fn read(source_name: &str, bytes: &[u8]) -> Result<Self, Refusal> {
        let raw = text::read(source_name, bytes)?;
        gate::Gate::new(source_name).admit(raw, Digest::of(bytes))
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
    /// use counterpoise::prescription::Prescription;
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
        &self.title
    }
    /// Who wrote it; may be empty.
    pub fn issued_by(&self) -> &str {
        &self.issued_by
    }
    /// When it was written.
    pub fn issued_on(&self) -> Date {
        self.issued_on
    }
    /// How many days a week.
    pub fn days_a_week(&self) -> u8 {
        self.days_a_week
    }
    /// For how many weeks.
    pub fn weeks(&self) -> u8 {
        self.weeks
    }
    /// After how many sessions a therapist looks again.
    pub fn review_after_sessions(&self) -> u16 {
        self.review_after_sessions
    }
    /// The least rest after a set.
    pub fn rest(&self) -> Millis {
        self.rest
    }
    /// The order of the drills.
    pub fn order(&self) -> DrillOrder {
        self.order
    }
    /// The drills, a warm-up first: the first plan is always a warm-up drill at its first step.
    pub fn drills(&self) -> &[DrillPlan] {
        &self.drills
    }
    /// What somebody has watched.
    pub fn unlocks(&self) -> &[Unlock] {
        &self.unlocks
    }
    /// Whether somebody has watched this, whoever the partner.
    pub fn unlocks_name(&self, name: UnlockName) -> bool {
        self.unlocks.iter().any(|unlock| unlock.name == name)
    }
    /// The effort on the 0-10 scale above which practice does not step up.
    pub fn effort_at_most(&self) -> u8 {
        self.effort_at_most
    }
    /// Why whoever issued it accepts the person although the answers about suitability say: a clinician first.
    pub fn accepted_because(&self) -> Option<&str> {
        self.accepted_because.as_deref()
    }
    /// The digest of the file.
    pub fn digest(&self) -> Digest {
        self.digest
    }
}

impl DrillPlan {
    /// The drill.
    pub fn drill(&self) -> &'static Drill {
        self.drill
    }
    /// Alone or with a partner.
    pub fn form(&self) -> Form {
        self.form
    }
    /// How many sets.
    pub fn sets(&self) -> u8 {
        self.sets
    }
    /// How long a set works.
    pub fn work(&self) -> Millis {
        self.work
    }
    /// How long before the end of the work the last cue may come.
    pub fn recover(&self) -> Millis {
        self.recover
    }
    /// The ladder step to start at, from 1.
    pub fn step(&self) -> u8 {
        self.step
    }
    /// The highest step that progression may reach.
    pub fn ceiling(&self) -> u8 {
        self.ceiling
    }
    /// The conditions at `step`.
    pub fn conditions(&self) -> LadderStep {
        self.drill.ladder()[usize::from(self.step) - 1]
    }
    /// The gaps.
    pub fn gaps(&self) -> GapRange {
        self.gaps
    }
    /// The chance of a blank, given that the last event was not one, in thousandths.
    pub fn blank_per_mille(&self) -> u16 {
        self.blank_per_mille
    }
    /// What may be called, in the order of the prescription.
    pub fn targets(&self) -> &[Target] {
        &self.targets
    }
    /// The weight of each target; all 1 unless given.
    pub fn weights(&self) -> &[u32] {
        &self.weights
    }
    /// How directions follow each other.
    pub fn sequence(&self) -> Sequence {
        self.sequence
    }
    /// How often one direction may come in a row; no limit when there is only one.
    pub fn longest_streak(&self) -> Option<u8> {
        self.longest_streak
    }
    /// The gentlest and the firmest push; `None` where nothing is pushed.
    pub fn strength(&self) -> Option<(Strength, Strength)> {
        self.strength
    }
    /// How many balls are in play: 2 if one is named aloud as it leaves the hand, else 1.
    pub fn balls(&self) -> u8 {
        self.balls
    }
    /// How long the person was seen to hold it, where tandem or one-leg stances are practiced.
    pub fn tested_hold(&self) -> Option<Millis> {
        self.tested_hold
    }
    /// What the prescription says is in place where the person practices.
    pub fn confirmed(&self) -> &[Need] {
        &self.confirmed
    }
    /// With whom it was watched, for a drill with a partner that needs an unlock: only with one of these. Empty where
    /// nothing had to be watched: any partner who read what the drill says.
    pub fn partners(&self) -> &[String] {
        &self.partners
    }
    /// Whether somebody pushes, so that a set holds at most six calls.
    pub fn has_pushes(&self) -> bool {
        self.targets.iter().any(|target| target.action.is_push())
    }
    /// The most calls of one set: six where somebody pushes; else as many as fit.
    pub fn most_calls(&self) -> u32 {
        if self.has_pushes() { limits::SET_PUSHES } else { u32::MAX }
    }
    /// Whether everything that may be called lasts equally long, so that the moments do not depend on what comes.
    pub fn lasts_evenly(&self) -> bool {
        self.targets.windows(2).all(|pair| pair[0].lasts() == pair[1].lasts())
    }
    /// The conditions of every step from where it starts to its ceiling, with their numbers.
    pub fn reachable(&self) -> impl Iterator<Item = (u8, LadderStep)> {
        reachable(self.drill, self.step, self.ceiling)
    }
    /// The line of the file on which this drill begins, for messages; 0 for the built-in warm-up.
    pub fn line(&self) -> usize {
        self.line
    }
}

/// The steps of a ladder from `step` to `ceiling`, with their numbers.
fn reachable(drill: &'static Drill, step: u8, ceiling: u8) -> impl Iterator<Item = (u8, LadderStep)> {
    (1..).zip(drill.ladder().iter().copied()).filter(move |(number, _)| (step..=ceiling).contains(number))
}

impl GapRange {
    /// A range that no gate has seen, for tests.
    #[cfg(test)]
    pub(crate) fn unchecked(least: Millis, greatest: Millis, shape: Shape) -> Self {
        Self { least, greatest, shape }
    }
    /// The shortest gap.
    pub fn least(self) -> Millis {
        self.least
    }
    /// The bound that no gap reaches.
    pub fn greatest(self) -> Millis {
        self.greatest
    }
    /// How gaps are spread.
    pub fn shape(self) -> Shape {
        self.shape
    }
}

#[cfg(test)]
mod test;
