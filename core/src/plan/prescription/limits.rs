//! The hard limits, which no prescription can widen, each with its origin.
//!
//! Tags: *read* in the source named; *derived* from the values before it; *judgment*: ours, a therapist must confirm.

use crate::plan::drill::hazards;
use crate::units::Millis;

/// The unit of a field, so that a refusal can say what a number means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// A plain number.
    Count,
    /// Milliseconds, shown with seconds.
    Millis,
    /// Thousandths of a whole.
    PerMille,
    /// Thousandths of a number that the form shows as a decimal.
    Thousandths,
}

impl Unit {
    /// The number, and what it is where the unit alone does not tell: `45000 (45 s)`, `250 (25 %)`.
    pub fn show(self, value: i64) -> String {
        match self {
            Self::Count | Self::Thousandths => value.to_string(),
            Self::Millis => format!("{value} ({} s)", value as f64 / 1000.0),
            Self::PerMille => format!("{value} ({} %)", value as f64 / 10.0),
        }
    }
}

/// The range that a field must lie in, both ends allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limit {
    /// The unit of the field.
    pub unit: Unit,
    /// The least value allowed.
    pub least: u32,
    /// The greatest value allowed.
    pub most: u32,
    /// Why, for the person who meets the limit.
    pub why: &'static str,
    /// Where it comes from, and how sure that is.
    pub origin: &'static str,
}

impl Limit {
    /// Whether `value` is allowed.
    pub fn allows(&self, value: i64) -> bool {
        (i64::from(self.least)..=i64::from(self.most)).contains(&value)
    }
}

macro_rules! limits {
    ($($name:ident: $unit:ident, $least:expr, $most:expr, $why:literal, $origin:literal;)+) => {$(
        #[doc = $why]
        pub const $name: Limit =
            Limit { unit: Unit::$unit, least: $least, most: $most, why: $why, origin: $origin };
    )+};
}

// The name of each, its unit, both ends, why, and where that is from.
limits! {
    DAYS_A_WEEK: Count, 1, 6, "One day a week stays free. Three days are usual.",
        "at least 3 a week: WHO 2020 [read], World Falls Guidelines 2022 [second-hand]; one free day: judgment";
    WEEKS: Count, 1, 52, "Twelve weeks are usual. After a year a new prescription is due.",
        "at least 12: World Falls Guidelines 2022 [second-hand]; a year at most: judgment";
    REVIEW_AFTER_SESSIONS: Count, 1, 24, "A therapist reviews after 12 sessions unless the prescription says otherwise.",
        "judgment";
    REST: Millis, 45_000, 1_800_000, "Every set is followed by a rest with a chair at hand; 60 s (60000) is usual.",
        "judgment";
    SETS: Count, 1, 10, "A session has at most 10 sets, including its warm-up. Three to five are usual.",
        "3 to 5: common practice, no source; 10 at most: judgment";
    // Below 10 s no two cues fit.
    WORK: Millis, 10_000, 120_000, "30 to 60 s (30000 to 60000) is usual; give more sets instead of longer ones.",
        "30 s: common practice, no source; both ends: judgment";
    // The most is the work itself, which the room for two cues bounds further.
    RECOVER: Millis, 2_000, 120_000, "This is the quiet time at the end of a set, to recover from the last call; 5 s (5000) is usual.",
        "1.2 to 1.5 s to recover from a push to the side, 2.2 s at mean + 2 SD: BMC Geriatrics 2020, 01650-4, table 2 [read, derived]; a called movement needs less: judgment";
    // `flat` only: rate times range. 1,250 is near the optimum under hazard theory and close under density theory
    // [derived]; below 100 the shape is `even` in all but name, above 5,000 gaps crowd at the short end [judgment].
    RATE_THOUSANDTHS: Thousandths, 100, 5_000, "1.25 (1250) is usual. Higher values crowd the calls toward the shortest gap, which is then easy to guess.",
        "1.25 is near the best against a guesser of moments [derived]; both ends: judgment";
    BLANKS: PerMille, 0, 250, "A blank is a moment when a call could come but does not. 10 % (100) is usual.",
        "derived from how certain a call becomes as the longest wait ends";
    // Past 100 to 1 a direction has all but disappeared [judgment].
    WEIGHT: Count, 1, 100, "A weight says how often a direction is called compared with the others. Leave a direction out instead of giving it 0.",
        "judgment";
    // `covered` only. A guesser who counts wins .450 of four directions in 12 cues with exact balance, against .355 with
    // 2 to 4 of each [derived]. Past 3 the bounds hardly bind in 40 cues [judgment].
    SLACK: Count, 1, 3, "This is how far each direction's count may differ from an equal share. With 0, anybody who counts knows the last ones; 1 is usual.",
        "exact balance gives the last directions away to anybody who counts [derived]; 3 at most: judgment";
    BALLS: Count, 1, 2, "With two balls, the one to catch is named aloud as it leaves the hand.",
        "judgment";
    SPELL: Millis, hazards::SHORTEST_SPELL.0, hazards::LONGEST_SPELL.0, "Leave the line out to use the drill's own duration.",
        "judgment";
    TESTED_HOLD: Millis, 4_000, 120_000, "This is how long this person was timed holding it. Below 4 s, it is too early to practice it.",
        "mean holds on one leg at 80 and over are 6 to 8.5 s: Bohannon 2006 [read], Springer 2007 [second-hand]; 80 %: judgment";
    EFFORT: Count, 1, 6, "6 of 10 is the top of moderate effort. A prescription can only lower it.",
        "6 is the top of moderate effort: US Physical Activity Guidelines [read]";
    // With three directions or more.
    STREAK: Count, 1, 3, "This is how often one direction may come in a row. A longer streak feels like a pattern.",
        "with two directions and 2 in a row, anybody who knows the rule guesses 67 of 100 right; with 3 in a row, 57 [derived]";
}

/// The most bytes of a file \[judgment: a full prescription has about 2 KiB\].
pub const FILE_BYTES: usize = 256 * 1024;

/// Characters in a title, a name or a role \[judgment: one line on a screen\].
pub const TEXT_CHARACTERS: usize = 80;

/// The longest gap \[judgment\].
pub const GREATEST_GAP: Millis = Millis(60_000);

/// The narrowest range of gaps \[judgment: a narrower one is nearly a metronome\].
pub const GAP_WIDTH: Millis = Millis(1_000);

/// The longest run of one direction, by how many directions there are.
///
/// With two, a streak of 1 leaves no choice and one of 2 lets a guesser who knows the rule name 67 of 100 right
/// \[derived: capacity of the run-length-limited code\]; 3 leaves 57, 4 leaves 53. With more, 1 to 3.
pub const fn streak(directions: usize) -> Limit {
    let (least, most) = if directions <= 2 { (3, 4) } else { (1, 3) };
    Limit { least, most, ..STREAK }
}

/// The streak when none is given: 2 with three or more directions, 3 with two; one direction has none.
pub const fn default_streak(directions: usize) -> Option<u8> {
    match directions {
        0 | 1 => None,
        2 => Some(3),
        _ => Some(2),
    }
}

/// The firmest push without a therapist present, on the scale from 1 to 4 \[judgment: no force is published for partners
/// at home\].
pub const STRENGTH_AT_HOME: u8 = 2;

/// How far apart the gentlest and the firmest push of a session are at most \[judgment\].
pub const STRENGTH_SPREAD: u8 = 1;

/// The pushes of one session that are the gentlest and announced as practice \[judgment\].
pub const PRACTICE_PUSHES: usize = 2;

/// The most pushes of one set: so few that the partner still remembers each at the rest \[judgment\].
pub const SET_PUSHES: u32 = 6;

/// The longest spell in tandem or on one leg: 80 % of the tested hold \[judgment: mean holds at 80 and over are 6 to 8.5 s,
/// Springer 2007 second-hand, Bohannon 2006 read\].
pub const fn longest_hold(tested: Millis) -> Millis {
    Millis(tested.0 / 10 * 8)
}

/// Work of all sets in which a target on the screen is followed \[judgment\].
pub const WATCHING: Millis = Millis::from_secs(120);

/// After opening the eyes nothing else comes for this long \[judgment\].
pub const AFTER_EYES_OPEN: Millis = Millis(5_000);

/// Work of all sets of a session, the warm-up counted: 14 min (Kurz 2016, 14 active minutes of 20, of perturbations \[read\]; for
/// called movements \[judgment\]).
pub const ACTIVE: Millis = Millis::from_secs(14 * 60);

/// A session without its rests: 20 min (Kurz 2016; Noergaard 2023, on a treadmill \[read\]; for called movements \[judgment\]).
pub const SESSION: Millis = Millis::from_secs(20 * 60);

/// Getting into place before a set \[judgment\].
pub const SET_UP: Millis = Millis::from_secs(20);

// Work and set-up of the most sets stay below the longest session, so that no separate check is needed.
const _: () = assert!(ACTIVE.0 + SETS.most * SET_UP.0 <= SESSION.0);

/// The real cues after which a session calls no more (Noergaard 2023: 40 of a treadmill \[read\]; Kurz 2016: 14-42 \[derived\]; for
/// called movements \[judgment\]).
/// Applied where cues are drawn: a prescription that could give more is not refused.
pub const SESSION_CUES: u16 = 40;

/// The least real cues of a set; a set with fewer is drawn again \[judgment: below two there is nothing to predict\].
pub const LEAST_REAL_CUES: u32 = 2;

/// The share of sets drawn again above which `check` warns \[judgment\].
pub const REDRAW_WARNING: f64 = 0.05;

/// The share of sets drawn again above which a prescription is refused: its moments would be nearly known \[judgment\].
pub const REDRAW_MOST: f64 = 0.20;
