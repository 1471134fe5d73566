//! Which cautions does each surface carry? Their texts are here and nowhere else: commands ask [`blocks`] or [`lines`] and
//! print the answer. What belongs to one drill only is in its file and is shown under its name ([`of_drills`]).

use std::fmt;

use crate::blocks::Block;
use crate::plan::drill::{Drill, NO_TRIAL_AT_HOME, UnlockName};
use crate::plan::phrase::Phrase;
use crate::plan::prescription::Prescription;

/// What comes first.
pub const FIRST: &str =
    "Local codes, the local emergency number, your therapist's advice and licensed practice come first.";

/// What this is not, always.
pub const NO_PROMISE: &str = "Nothing here promises to prevent falls.";

/// What it is and is not, where every call names a movement that the person makes.
pub const WHAT_IT_IS: &str = "A called movement trains a movement you choose. Only a real push, tug or slip trains a reaction, and \
                              nothing here promises to prevent falls.";

/// Reasons to see a clinician before starting: trial exclusions and public-health lists \[read or second-hand\].
pub const CLINICIAN: [&str; 12] = [
    "a heart or blood pressure condition",
    "chest pain, blackouts, fainting or dizziness",
    "a recent fall with pain or trouble walking",
    "a recent fracture or operation",
    "weak bones (osteoporosis), easily broken",
    "a stroke, Parkinson's or multiple sclerosis",
    "an inner ear (balance) or nerve condition",
    "blood thinners",
    "medicine that makes you drowsy",
    "poor sight, even with glasses",
    "a new joint with unclear limits",
    "trouble following what is said or written",
];

const CLINICIAN_FIRST: &str = "See a clinician first if any of this is true of you";

const CLINICIAN_SHORT: &str = "See a clinician first about heart, bone, nerve or balance trouble, fainting, a recent fall or \
                               operation, poor sight, or medicine such as blood thinners.";

/// Unlocks for which evidence from homes is missing.
const WITHOUT_EVIDENCE: [(UnlockName, &str); 3] = [
    (UnlockName::Pushes, "pushes"),
    (UnlockName::Walking, "walking"),
    (UnlockName::Surface, "a soft or moving base"),
];

/// A caution that does not belong to one drill.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Caution {
    /// Local codes, the emergency number, the therapist and licensed practice come first.
    Deferral,
    /// Nothing promises to prevent falls.
    NoPromise,
    /// When to stop at once.
    StopList,
    /// Whom a clinician should see before starting.
    Clinician,
    /// Pushes, walking or a soft base: no evidence from homes.
    EvidenceAtHome,
}

/// How much of a caution is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Length {
    /// One sentence, joined with the others.
    Short,
    /// All of it, with its list.
    Long,
}

/// Where somebody acts or decides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Surface {
    /// Set-up, at the first run.
    FirstRun,
    /// The pages of a practice.
    Practice,
    /// A track, its cue sheet and its list.
    Track,
    /// The sheet for the person who practices, made of a prescription.
    Handout,
    /// The week's sheet to print.
    Sheet,
    /// The list of drills.
    Drills,
    /// One drill.
    DrillShown,
    /// The list of ready prescriptions.
    Presets,
    /// A session before it is practiced.
    Preview,
    /// A prescription in plain words.
    Check,
    /// How well calls can be predicted.
    Audit,
    /// A prescription comes into use.
    Use,
    /// A prescription is written.
    Prescribe,
    /// A supervised try-out.
    TryOut,
    /// A guided balance test.
    Assess,
    /// One result of a balance test, compared.
    Score,
    /// Results of balance tests over time.
    AssessResults,
    /// Answers about health.
    Health,
    /// A lock is lifted.
    Clearance,
    /// What comes next.
    Next,
    /// The weeks of the program.
    Program,
    /// One's own practice.
    Progress,
    /// The report of one person.
    Report,
    /// Many people at a glance.
    Overview,
    /// What was practiced, from the journal.
    Record,
    /// The first page about the program.
    Readme,
}

/// What a surface is about, as far as cautions depend on it.
#[derive(Debug, Clone, Copy)]
pub enum Contents<'a> {
    /// No kind of practice.
    Nothing,
    /// Every kind of practice there is.
    Everything,
    /// One drill.
    Drill(&'a Drill),
    /// A prescription.
    Of(&'a Prescription),
}

/// A caution as it is shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Statement {
    /// Which it is.
    pub caution: Caution,
    /// One or more sentences, or what introduces the list.
    pub text: String,
    /// The list, if it has one.
    pub items: &'static [&'static str],
}

/// The cautions of one drill.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OfDrill {
    /// The drill's title.
    pub title: &'static str,
    /// Its cautions, as far as the prescription contains what they are about.
    pub lines: Vec<&'static str>,
}

use Caution::{Clinician, Deferral, EvidenceAtHome, NoPromise, StopList};
use Length::{Long, Short};

/// Where somebody practices, or decides what somebody practices.
const ALL_LONG: [(Caution, Length); 5] =
    [(Deferral, Long), (NoPromise, Long), (StopList, Long), (Clinician, Long), (EvidenceAtHome, Long)];
/// The same on a short page.
const ALL_SHORT: [(Caution, Length); 5] =
    [(Deferral, Short), (NoPromise, Short), (StopList, Short), (Clinician, Short), (EvidenceAtHome, Short)];
/// Where somebody reads what was done: nobody practices from it.
const RECORD: [(Caution, Length); 3] = [(Deferral, Short), (NoPromise, Short), (EvidenceAtHome, Short)];

impl Surface {
    /// What it carries.
    pub const fn carries(self) -> &'static [(Caution, Length)] {
        match self {
            Self::FirstRun
            | Self::Track
            | Self::Handout
            | Self::Sheet
            | Self::DrillShown
            | Self::Check
            | Self::TryOut
            | Self::Readme => &ALL_LONG,
            // The pages about health have the long list, until suitability was answered.
            Self::Practice
            | Self::Drills
            | Self::Presets
            | Self::Preview
            | Self::Use
            // Its first page has 24 rows for everything.
            | Self::Prescribe
            | Self::Assess
            | Self::Score
            | Self::AssessResults
            | Self::Health
            | Self::Clearance
            | Self::Next
            | Self::Program
            | Self::Progress => &ALL_SHORT,
            Self::Audit | Self::Report | Self::Overview | Self::Record => &RECORD,
        }
    }
}

impl Contents<'_> {
    /// What is, or can be, unlocked in it without evidence from homes.
    fn without_evidence(self) -> Vec<&'static str> {
        let contains = |unlock: UnlockName| match self {
            Self::Nothing => false,
            Self::Everything => true,
            Self::Drill(drill) => {
                let targets = drill.targets().iter().any(|target| target.action.unlocks().contains(&unlock));
                targets || drill.unlocks().contains(&unlock)
            }
            Self::Of(prescription) => prescription.unlocks_name(unlock),
        };
        WITHOUT_EVIDENCE.into_iter().filter(|(unlock, _)| contains(*unlock)).map(|(_, name)| name).collect()
    }
}

impl Caution {
    /// Its text, where it applies to these contents.
    fn statement(self, length: Length, contents: Contents<'_>) -> Option<Statement> {
        let of = |text: &str, items| Some(Statement { caution: self, text: text.to_owned(), items });
        match (self, length) {
            (Deferral, _) => of(FIRST, &[]),
            (NoPromise, _) => of(NO_PROMISE, &[]),
            (StopList, _) => of(Phrase::own("practice.stop-list").words(), &[]),
            (Clinician, Short) => of(CLINICIAN_SHORT, &[]),
            (Clinician, Long) => of(CLINICIAN_FIRST, &CLINICIAN),
            (EvidenceAtHome, _) => {
                let names = contents.without_evidence();
                let about = if let Contents::Of(_) = contents { "Unlocked" } else { "Only with an unlock" };
                (!names.is_empty())
                    .then(|| of(&format!("{about}: {}. {NO_TRIAL_AT_HOME}", names.join(", ")), &[]))
                    .flatten()
            }
        }
    }
}

impl fmt::Display for Statement {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.items {
            [] => f.write_str(&self.text),
            items => write!(f, "{}: {}.", self.text, items.join("; ")),
        }
    }
}

/// What this surface says about these contents, with its length.
pub fn statements(surface: Surface, contents: Contents<'_>) -> impl Iterator<Item = (Length, Statement)> {
    let carried = surface.carries().iter();
    carried.filter_map(move |(caution, length)| Some((*length, caution.statement(*length, contents)?)))
}

/// The cautions of a surface as texts, one for each, for other programs.
///
/// ```
/// use counterpoise_core::plan::caution::{Contents, FIRST, Surface, lines};
/// assert_eq!(lines(Surface::Report, Contents::Nothing)[0], FIRST);
/// ```
pub fn lines(surface: Surface, contents: Contents<'_>) -> Vec<String> {
    statements(surface, contents).map(|(_, statement)| statement.to_string()).collect()
}

/// The cautions of a surface for a page: short ones in one paragraph, long ones with their lists.
pub fn blocks(surface: Surface, contents: Contents<'_>) -> Vec<Block> {
    let (mut short, mut blocks): (Vec<String>, Vec<Block>) = Default::default();
    for (length, statement) in statements(surface, contents) {
        match length {
            Short => short.push(statement.text),
            Long => {
                let colon = if statement.items.is_empty() { "" } else { ":" };
                blocks.push(Block::line(format!("{}{colon}", statement.text)));
                blocks.extend(statement.items.iter().copied().map(Block::item));
            }
        }
    }
    if !short.is_empty() {
        blocks.push(Block::line(short.join(" ")));
    }
    blocks
}

/// The cautions of each drill of a prescription, under its title: only what the prescription contains.
pub fn of_drills(prescription: &Prescription) -> Vec<OfDrill> {
    let mut drills: Vec<OfDrill> = Vec::new();
    for plan in prescription.drills() {
        let title = plan.drill().title();
        let place = drills.iter().position(|drill| drill.title == title).unwrap_or_else(|| {
            drills.push(OfDrill { title, lines: Vec::new() });
            drills.len() - 1
        });
        for caution in plan.cautions() {
            if !drills[place].lines.contains(&caution) {
                drills[place].lines.push(caution);
            }
        }
    }
    drills.retain(|drill| !drill.lines.is_empty());
    drills
}
