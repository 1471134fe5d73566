//! The audit of one prescription: what can be predicted, what was drawn, and what was learned from the drawn calls;
//! with the JSON of `counterpoise.audit/1`.

use serde::Serialize;

use super::attribute_guess::AttributeGuess;
use super::findings;
use super::foresight::{Drill, Foresight};
use super::learning::{self, Learning};
use super::second_draw::SecondDraw;
use super::symbols::Sequence;
use super::wait::{SLOT, Wait, least_expected_hazard};
use crate::draw::schedule::Seed;
use crate::plan::prescription::Prescription;
use crate::units::Millis;

/// The name and number of the format. Fields may be added; none is renamed without a new number.
pub const SCHEMA: &str = "counterpoise.audit/1";

/// An audit of one prescription.
#[derive(Debug, Clone)]
pub struct Audit<'a> {
    /// The prescription that is audited.
    pub prescription: &'a Prescription,
    /// What can be predicted from the rules.
    pub foresight: Foresight,
    /// The seed from which sessions were drawn.
    pub seed: Seed,
    /// How many sessions were drawn.
    pub sessions: u64,
    /// For each drill, its gaps drawn a second way by a library.
    pub second_draws: Vec<SecondDraw>,
    /// The drawn calls of each drill.
    pub sequences: Vec<Sequence>,
    /// The scores of the estimators over them.
    pub learning: Vec<Learning>,
}

impl Audit<'_> {
    /// The estimators' scores for one drill.
    pub fn of_drill(&self, drill: usize) -> Vec<Learning> {
        self.learning.iter().filter(|learned| learned.drill == drill).copied().collect()
    }

    /// What is worth a second look, one sentence or two for each point; first of all a draw that is at fault.
    pub fn warnings(&self) -> Vec<String> {
        let faults =
            self.foresight.drills().iter().zip(&self.second_draws).filter(|(_, second)| !second.agrees());
        let faults = faults.map(|(drill, second)| {
            format!(
                "{}: the gaps differ from those of a second way of drawing them by {:.4}; the limit is {:.4}. Do not \
                 use this program for practice, and report it.",
                drill.title, second.difference, second.limit
            )
        });
        faults.chain(findings::cautions(&self.foresight).iter().map(ToString::to_string)).collect()
    }

    /// The contract's JSON, as a value that is serialized.
    pub fn to_json(&self) -> impl Serialize {
        let drills = self.foresight.drills();
        AuditJson {
            schema: SCHEMA,
            prescription: Name {
                title: self.prescription.title().to_owned(),
                digest: self.prescription.digest().to_string(),
            },
            seed: self.seed.to_string(),
            sessions: self.sessions,
            summary: findings::summary(&self.foresight),
            warnings: self.warnings(),
            drills: drills
                .iter()
                .zip(&self.sequences)
                .map(|(drill, drawn)| DrillJson::of(drill, drawn))
                .collect(),
            when: drills
                .iter()
                .zip(&self.second_draws)
                .map(|(drill, second)| WhenJson::of(drill, *second))
                .collect(),
            estimators: self.learning.iter().map(|one| EstimatorJson::of(one, &drills[one.drill])).collect(),
        }
    }
}

#[derive(Serialize)]
struct AuditJson {
    schema: &'static str,
    prescription: Name,
    seed: String,
    sessions: u64,
    summary: String,
    warnings: Vec<String>,
    drills: Vec<DrillJson>,
    when: Vec<WhenJson>,
    estimators: Vec<EstimatorJson>,
}

#[derive(Serialize)]
struct Name {
    title: String,
    digest: String,
}

#[derive(Serialize)]
struct DrillJson {
    name: &'static str,
    form: &'static str,
    directions: usize,
    cues: f64,
    cues_drawn: usize,
    chance: f64,
    guess_rate: f64,
    /// The standard error; 0 where the rate is computed, not sampled.
    guess_rate_error: f64,
    /// The same by playing, over the drawn calls, in the order `open`.
    guess_rate_played: Option<f64>,
    guess_rate_long_run: Option<f64>,
    guess_rate_last_cue: f64,
    by_position: Vec<f64>,
    by_cue: Vec<f64>,
    entropy_bits: f64,
    limit_bits: f64,
    #[serde(rename = "besides")]
    attributes: Vec<AttributeJson>,
    verdict: &'static str,
}

#[derive(Serialize)]
struct AttributeJson {
    what: &'static str,
    kinds: usize,
    chance: f64,
    guess_rate: f64,
}

#[derive(Serialize)]
struct WhenJson {
    name: &'static str,
    slot_ms: Millis,
    #[serde(flatten)]
    heard: WaitJson,
    optimum: f64,
    edge: BraceJson,
    clock: BraceJson,
    designed: WaitJson,
    without_blanks: WaitJson,
    gap_classes_ms: Vec<Millis>,
    gap_class_guess_rate: f64,
    second_draw: SecondDraw,
    verdict: &'static str,
}

#[derive(Serialize)]
struct WaitJson {
    from_ms: Millis,
    mean_ms: f64,
    #[serde(flatten)]
    braces: BraceJson,
    expected_hazard: f64,
    density_square: f64,
    hazard: Vec<f64>,
}

/// The names are the contract's.
#[allow(clippy::struct_field_names)]
#[derive(Serialize)]
struct BraceJson {
    brace_200_ms: f64,
    brace_500_ms: f64,
    brace_1000_ms: f64,
}

#[derive(Serialize)]
struct EstimatorJson {
    sequence: &'static str,
    drill: &'static str,
    name: &'static str,
    n: usize,
    hits: usize,
    hit_rate: f64,
    min_entropy_bits: f64,
    chance: f64,
    rule_knowing_rate: f64,
    leak: bool,
}

impl DrillJson {
    fn of(drill: &Drill, drawn: &Sequence) -> Self {
        let which = &drill.direction;
        Self {
            name: drill.name,
            form: drill.form,
            directions: which.directions,
            cues: drill.calls,
            cues_drawn: drawn.len(),
            chance: which.chance,
            guess_rate: which.guess_rate,
            guess_rate_error: which.error,
            guess_rate_played: (!which.covered).then(|| drawn.named_share()),
            guess_rate_long_run: which.long_run,
            guess_rate_last_cue: which.last_call,
            by_position: which.by_position.clone(),
            by_cue: which.by_call.clone(),
            entropy_bits: which.entropy_bits,
            limit_bits: which.limit_bits,
            attributes: drill
                .attributes
                .iter()
                .map(|guess| {
                    let AttributeGuess { what, kinds, chance, guess_rate } = *guess;
                    AttributeJson { what, kinds, chance, guess_rate }
                })
                .collect(),
            verdict: findings::directions_verdict(drill),
        }
    }
}

impl WhenJson {
    fn of(drill: &Drill, second_draw: SecondDraw) -> Self {
        let when = &drill.moment;
        Self {
            name: drill.name,
            slot_ms: SLOT,
            heard: WaitJson::of(&when.heard.all),
            optimum: least_expected_hazard(when.slots()),
            edge: BraceJson::of(|width| when.heard.edge.brace(width).chance),
            clock: BraceJson::of(|width| when.heard.brace_by_the_clock(width)),
            designed: WaitJson::of(&when.drawn),
            without_blanks: WaitJson::of(&when.gap),
            gap_classes_ms: when.bounds.clone(),
            gap_class_guess_rate: when.heard.class_guess(&when.bounds),
            second_draw,
            verdict: findings::moments_verdict(drill),
        }
    }
}

impl WaitJson {
    fn of(wait: &Wait) -> Self {
        Self {
            from_ms: wait.from(),
            mean_ms: wait.mean() * 1000.0,
            braces: BraceJson::of(|width| wait.brace(width).chance),
            expected_hazard: wait.expected_hazard(),
            density_square: wait.density_square(),
            hazard: wait.hazard(),
        }
    }
}

impl BraceJson {
    fn of(chance: impl Fn(Millis) -> f64) -> Self {
        Self {
            brace_200_ms: chance(Millis(200)),
            brace_500_ms: chance(Millis(500)),
            brace_1000_ms: chance(Millis(1_000)),
        }
    }
}

impl EstimatorJson {
    fn of(learned: &Learning, drill: &Drill) -> Self {
        let Learning { kind, estimator, score, .. } = learned;
        Self {
            sequence: kind.name(),
            drill: drill.name,
            name: estimator.name(),
            n: score.guesses(),
            hits: score.hits(),
            hit_rate: score.hit_rate(),
            min_entropy_bits: score.min_entropy_bits(),
            chance: learning::chance(drill, *kind),
            rule_knowing_rate: learning::rule_knowing_rate(drill, *kind),
            leak: learned.leaks(drill),
        }
    }
}
