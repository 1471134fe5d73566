//! The JSON of a judged list, `counterpoise.audit-sequence/1`. Fields may be added; none is renamed without a new
//! number.

use serde::Serialize;

use super::{BRACE, OwnList};
use crate::draw::predictability::interval::Interval;

#[derive(Serialize)]
struct OwnListJson {
    schema: &'static str,
    calls: usize,
    directions: Vec<NameJson>,
    chance: f64,
    guess: IntervalJson,
    chance_explains: f64,
    repeats: IntervalJson,
    app: AppJson,
    when: Option<WhenJson>,
    estimators: Vec<EstimatorJson>,
}

#[derive(Serialize)]
struct NameJson {
    name: String,
    count: usize,
    line: usize,
}

#[derive(Serialize)]
struct IntervalJson {
    n: usize,
    hits: usize,
    rate: f64,
    low: f64,
    high: f64,
}

#[derive(Serialize)]
struct AppJson {
    longest_streak: u8,
    rule_knowing_rate: f64,
    lists: usize,
    guess_mean: f64,
    guess_low: f64,
    guess_high: f64,
}

#[derive(Serialize)]
struct WhenJson {
    brace_ms: u32,
    caught: Option<IntervalJson>,
    least_ms: u32,
    greatest_ms: u32,
    mean_ms: f64,
}

#[derive(Serialize)]
struct EstimatorJson {
    name: &'static str,
    n: usize,
    hits: usize,
    hit_rate: f64,
    low: f64,
    high: f64,
    min_entropy_bits: f64,
}

impl From<Interval> for IntervalJson {
    fn from(interval: Interval) -> Self {
        let Interval { hits, of, share, low, high } = interval;
        Self { n: of, hits, rate: share, low, high }
    }
}

impl OwnList<'_> {
    /// The JSON, as a value that is serialized.
    pub fn to_json(&self) -> impl Serialize + use<> {
        let app = self.app();
        let names = self.list.names().iter();
        OwnListJson {
            schema: "counterpoise.audit-sequence/1",
            calls: self.list.symbols().len(),
            directions: names
                .map(|name| NameJson { name: name.words.clone(), count: name.count, line: name.line })
                .collect(),
            chance: self.chance(),
            guess: self.hits().into(),
            chance_explains: self.guess_p_value(),
            repeats: self.repeats().into(),
            app: AppJson {
                longest_streak: app.longest_streak,
                rule_knowing_rate: app.rule_knowing_rate,
                lists: app.lists,
                guess_mean: app.mean,
                guess_low: app.range.0,
                guess_high: app.range.1,
            },
            when: self.list.waits().map(|waits| WhenJson {
                brace_ms: BRACE.0,
                caught: self.catches().map(Into::into),
                least_ms: waits.iter().min().map_or(0, |wait| wait.0),
                greatest_ms: waits.iter().max().map_or(0, |wait| wait.0),
                mean_ms: waits.iter().map(|wait| f64::from(wait.0)).sum::<f64>() / waits.len() as f64,
            }),
            estimators: self
                .estimators
                .iter()
                .map(|(estimator, score)| {
                    let Interval { low, high, .. } = Interval::of(score.hits(), score.guesses());
                    EstimatorJson {
                        name: estimator.name(),
                        n: score.guesses(),
                        hits: score.hits(),
                        hit_rate: score.hit_rate(),
                        low,
                        high,
                        min_entropy_bits: score.min_entropy_bits(),
                    }
                })
                .collect(),
        }
    }
}
