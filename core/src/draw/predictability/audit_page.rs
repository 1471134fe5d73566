//! An audit in plain words, charts and tables, for the person who prescribes.

use super::attribute_guess::AttributeGuess;
use super::audit::Audit;
use super::estimators::Estimator;
use super::findings::{
    self, CLOSE_POINTS, GOOD_BRACE, GUESSABLE_BRACE, GUESSABLE_POINTS, GUESSABLE_RATE, of_100,
};
use super::foresight::{Drill, MomentForesight};
use super::learning::{self, LEAK_ERRORS, Learning};
use super::symbols::{CLASSES, Kind};
use super::wait::{SLOT, Wait, least_expected_hazard};
use crate::blocks::{Block, Chart, Plot, Table};
use crate::plan::gaps::GapTable;
use crate::plan::prescription::Shape;
use crate::units::Millis;

/// How high the picture of hazards goes: at the longest gap, without blanks, a call is certain, and beside
/// that nothing else would be visible.
const HAZARD_TOP: f64 = 0.3;

/// The whole report.
pub fn blocks(audit: &Audit<'_>) -> Vec<Block> {
    let mut blocks = vec![
        Block::Heading(format!("{}: can anybody predict it?", audit.prescription.title())),
        Block::Text(findings::summary(&audit.foresight)),
        Block::Text(
            "Nobody remembers every call, counts without a slip and braces to the tenth of a second: what a person can \
             do is below these figures."
                .into(),
        ),
    ];
    let warnings = audit.warnings();
    if !warnings.is_empty() {
        blocks.push(Block::Heading("Worth a second look".into()));
        blocks.extend(warnings.into_iter().map(Block::Text));
    }
    for (index, drill) in audit.foresight.drills().iter().enumerate() {
        when(audit, index, drill, &mut blocks);
        which(drill, &mut blocks);
        learning(audit, index, drill, &mut blocks);
    }
    blocks.push(Block::Heading("How to read this".into()));
    blocks.extend([
        format!(
            "Directions: up to {CLOSE_POINTS:.0} points above chance is close to chance; more than \
             {GUESSABLE_POINTS:.0}, or {} of 100 right or more, is guessable. Moments: up to {} of 100 calls caught by \
             half a second is hard to catch; more than {} is guessable. These thresholds are judgment.",
            of_100(GUESSABLE_RATE),
            of_100(GOOD_BRACE),
            of_100(GUESSABLE_BRACE),
        ),
        "These predictions are computed exactly from the rules for drawing calls, including blanks, the ends of sets, \
         sets drawn again and the session's last call; only the learners' results come from calls drawn by chance. \
         docs/audit.md has every formula and its source."
            .into(),
        format!("To draw the same calls again: --seed {}", audit.seed),
    ]
    .map(Block::Text));
    blocks
}

fn when(audit: &Audit<'_>, index: usize, drill: &Drill, blocks: &mut Vec<Block>) {
    let when = &drill.moment;
    let (heard, drawn) = (&when.heard.all, &when.drawn);
    blocks.push(Block::Heading(format!("{}: when does the call come?", drill.title)));
    let least = when.gap.from();
    let blanks = if when.blank > 0.0 {
        format!(" {} of 100 moments stay blank; then the call comes one gap later.", of_100(when.blank))
    } else {
        String::new()
    };
    blocks.push(Block::Text(format!(
        "The gap to the next moment is {least} to {}.{blanks} The wait from one call to the next averages {:.1} s as \
         drawn and {:.1} s as heard, because a call past the end of a set is never heard.",
        when.greatest_gap,
        drawn.mean(),
        heard.mean(),
    )));
    let brace = |width: u32| heard.brace(Millis(width));
    let half = brace(500);
    blocks.push(Block::Text(format!(
        "A brace held once after each call, at the best moment, catches {} of 100 calls if it lasts 0.2 s, {} if 0.5 s, \
         {} if 1 s: {}. That moment begins {} after the last call. Of the first calls of sets, and of the last ones, \
         0.5 s catches {}; {}.",
        of_100(brace(200).chance),
        of_100(half.chance),
        of_100(brace(1_000).chance),
        findings::moments_verdict(drill),
        half.after,
        of_100(when.heard.edge.brace(Millis(500)).chance),
        by_the_clock(when, half.chance),
    )));
    if let Some(other) = same_moments(audit, index) {
        blocks.push(Block::Text(format!(
            "Gaps, blanks and sets are the same as in {other}; see there for the rest."
        )));
        return;
    }
    blocks.push(Block::Chart(waits(audit, index, drill)));
    let least_hazard = least_expected_hazard(when.slots());
    blocks.push(Block::Text(format!(
        "Hazard is the chance that the call comes in the next {SLOT}, if it has not come yet. It rises toward the longest \
         gap, where a call is certain; a blank softens that. At the moment of a call it is {} of 100 on average \
         as heard, {} as drawn, {} without blanks. Without blanks no shape of gaps can be below {}; with blanks that \
         bound does not hold.",
        of_100(heard.expected_hazard()),
        of_100(drawn.expected_hazard()),
        of_100(when.gap.expected_hazard()),
        of_100(least_hazard),
    )));
    blocks.push(Block::Chart(hazard(drill)));
    blocks.push(Block::Text(
        "There are two theories of what people track: the hazard (classical work on foreperiods) and the density, how \
         likely each moment is by itself (Grabenhorst and others, Nature Communications 2019). The hazard favors shorter \
         gaps more often; the density, and one committed brace, favor all gaps equally often. The default is in between: \
         near the best under the first, close to it under the second."
            .into(),
    ));
    blocks.push(Block::Table(shapes(when)));
    let second = &audit.second_draws[index];
    blocks.push(Block::Text(format!(
        "The gaps were also drawn a second way, by a library of distributions, {} each way. The two differ by {:.4} at \
         most; {:.4} or more would be a fault, and is reached by chance once in {:.0} audits.",
        second.draws,
        second.difference,
        second.limit,
        1.0 / second.false_alarm,
    )));
}

/// An earlier drill whose calls come by the same rules.
fn same_moments(audit: &Audit<'_>, index: usize) -> Option<&'static str> {
    let drills = audit.foresight.drills();
    let own = &drills[index].moment;
    // The same sum in another order differs in its last digits.
    let alike = |other: &&Drill| {
        let (mean, own_mean) = (other.moment.heard.edge.mean(), own.heard.edge.mean());
        other.moment.drawn == own.drawn && (mean - own_mean).abs() < 1e-9
    };
    Some(drills[..index].iter().find(alike)?.title)
}

fn by_the_clock(when: &MomentForesight, blind: f64) -> String {
    let clock = when.heard.brace_by_the_clock(Millis(500));
    if of_100(clock) == of_100(blind) {
        "also watching the clock adds nothing".into()
    } else {
        let most = if when.bounded { "at most " } else { "" };
        format!("also watching the clock catches {most}{} of all", of_100(clock))
    }
}

fn waits(audit: &Audit<'_>, index: usize, drill: &Drill) -> Chart {
    let heard = &drill.moment.heard.all;
    let sequence = &audit.sequences[index];
    let slot = SLOT.0 as usize;
    let bar = if (drill.moment.greatest_gap - heard.from()) < Millis(8_000) { slot } else { 5 * slot };
    let shortest = heard.from().0 as usize;
    let from = shortest / bar * bar;
    let end = (shortest + heard.chances().len()).div_ceil(bar) * bar;
    let total = sequence.len().max(1) as f64;
    let drawn = |begin: usize| {
        let slots = sequence.slots().iter().skip(begin / slot).take(bar / slot);
        f64::from(slots.sum::<u32>()) / total
    };
    let computed = |begin: usize| {
        let place = |time: usize| time.saturating_sub(shortest).min(heard.chances().len());
        heard.chances()[place(begin)..place(begin + bar)].iter().sum::<f64>()
    };
    let bars: Vec<(f64, f64)> =
        (from..end).step_by(bar).map(|begin| (drawn(begin), computed(begin))).collect();
    let used = bars.iter().rposition(|(_, curve)| *curve > 5e-4).map_or(bars.len(), |last| last + 1);
    Chart {
        title: "Waits from one call to the next".into(),
        words: format!(
            "The waits of {} drawn calls, in bars of {}, lie on the curve that was computed: from {} on, {} of 100 in \
             the first second; half are shorter than {:.1} s, nine in ten shorter than {:.1} s.",
            sequence.len(),
            Millis(bar as u32),
            heard.from(),
            of_100(heard.chances().iter().take(1_000).sum()),
            heard.quantile(0.5).as_secs_f64(),
            heard.quantile(0.9).as_secs_f64(),
        ),
        across: "seconds since the last call",
        plot: Plot::Histogram {
            from: from as f64 / 1000.0,
            width: bar as f64 / 1000.0,
            bars_are: "drawn calls",
            curve_is: "computed",
            bars: bars[..used].to_vec(),
        },
    }
}

fn hazard(drill: &Drill) -> Chart {
    let when = &drill.moment;
    let most = 2 * when.slots() + 1;
    // Where almost no wait is left the chance among those left says nothing.
    let line = |wait: &Wait| -> Vec<f64> {
        let mut left = 1.0;
        let lasting = |chance: &f64| {
            let some = left > 1e-3;
            left -= chance;
            some
        };
        let length = wait.slots().into_iter().take_while(lasting).count().min(most);
        wait.hazard().into_iter().take(length).collect()
    };
    let lines = vec![
        ("without blanks", line(&when.gap)),
        ("with blanks, as drawn", line(&when.drawn)),
        ("as heard", line(&when.heard.all)),
    ];
    let first = |line: &[f64]| of_100(line.first().copied().unwrap_or(0.0));
    let middle = |line: &[f64]| of_100(line.get(line.len() / 2).copied().unwrap_or(0.0));
    let words = format!(
        "In the first {SLOT} the hazard is {} of 100 without blanks, {} with them, {} as heard; half way {}, {} and {}; \
         without blanks it ends at 100.",
        first(&lines[0].1),
        first(&lines[1].1),
        first(&lines[2].1),
        middle(&lines[0].1),
        middle(&lines[1].1),
        middle(&lines[2].1),
    );
    Chart {
        title: format!(
            "Hazard: the chance of a call in the next {SLOT}, if it has not come yet (drawn up to {} of 100)",
            of_100(HAZARD_TOP)
        ),
        words,
        across: "seconds since the last call",
        plot: Plot::Lines {
            from: when.gap.from().as_secs_f64(),
            width: SLOT.as_secs_f64(),
            top: HAZARD_TOP,
            lines,
        },
    }
}

/// This range of gaps under several shapes, without blanks and edges.
fn shapes(when: &MomentForesight) -> Table {
    let (least, greatest) = (when.gap.from(), when.greatest_gap);
    let flat = |rate_thousandths| Shape::Flat { rate_thousandths };
    let known = [
        ("even", Shape::Even),
        ("flat, rate 1.25 (default)", flat(1_250)),
        ("flat, rate 2", flat(2_000)),
        ("flat, rate 3", flat(3_000)),
    ];
    let row = |name: &str, wait: &Wait| {
        vec![
            name.to_owned(),
            of_100(wait.expected_hazard()),
            format!("{:.3}", wait.density_square()),
            of_100(wait.brace(Millis(500)).chance),
        ]
    };
    let mut rows: Vec<Vec<String>> = known
        .iter()
        .map(|(name, shape)| row(name, &Wait::gap(&GapTable::over(least, greatest, *shape))))
        .collect();
    rows.push(row("this prescription", &when.gap));
    Table::new(
        format!("Gaps of {least} to {greatest} in several shapes, without blanks; the least is best"),
        &["shape", "hazard, of 100", "density, 1/s", "0.5 s catches"],
        rows,
    )
}

fn attributes(drill: &Drill, blocks: &mut Vec<Block>) {
    for AttributeGuess { what, kinds, chance, guess_rate } in &drill.attributes {
        let name = match *what {
            "strength" => "How firm a push is",
            "ball" => "Which ball is thrown",
            _ => "What a call asks for beyond its direction, if that is known,",
        };
        blocks.push(Block::Text(match kinds {
            1 => format!("{name} is always the same."),
            kinds => format!(
                "{name} is drawn separately from {kinds} possibilities: chance gets {} of 100 right, a guesser who knows \
                 every rule {}.",
                of_100(*chance),
                of_100(*guess_rate)
            ),
        }));
    }
}

fn which(drill: &Drill, blocks: &mut Vec<Block>) {
    let which = &drill.direction;
    blocks.push(Block::Heading(format!("{}: which direction?", drill.title)));
    if which.directions == 1 {
        blocks
            .push(Block::Text("There is one direction, so there is nothing to guess but the moment.".into()));
        attributes(drill, blocks);
        return;
    }
    let knows = if which.covered { ", and how many there will be," } else { "" };
    let sampled = if which.error > 0.0 {
        format!(
            "This was simulated, because calls have different durations (standard error {}).",
            of_100(which.error)
        )
    } else {
        "This is computed, not sampled.".into()
    };
    blocks.push(Block::Text(format!(
        "{} directions: chance gets {} of 100 right. The best guesser, who knows every rule and every call so far{knows} \
         but not the seed, gets {}: {}. {sampled}{}",
        which.directions,
        of_100(which.chance),
        of_100(which.guess_rate),
        findings::directions_verdict(drill),
        which.long_run.map_or(String::new(), |rate| format!(
            " In an endless practice it would be {}.",
            of_100(rate)
        )),
    )));
    let row = match which.longest_streak {
        None => "no limit in a row".to_owned(),
        Some(1) => "never twice in a row".to_owned(),
        Some(2) => "at most twice in a row".to_owned(),
        Some(more) => format!("at most {more} times in a row"),
    };
    blocks.push(Block::Text(format!(
        "A call holds {:.3} bits of surprise; {row}, no way of drawing could have more than {:.3}{}.",
        which.entropy_bits,
        which.limit_bits,
        if which.covered { " in a long sequence" } else { "" },
    )));
    let bars =
        which.by_position.iter().enumerate().map(|(place, share)| (format!("call {}", place + 1), *share));
    let first = which.by_position.first().copied().unwrap_or(0.0);
    let last = which.by_position.last().copied().unwrap_or(0.0);
    blocks.push(Block::Chart(Chart {
        title: "The best guesser, by the place of the call in its set".into(),
        words: format!(
            "The first call of a set is named right {} of 100 times, call {} {}; chance is {}.",
            of_100(first),
            which.by_position.len(),
            of_100(last),
            of_100(which.chance)
        ),
        across: "place in the set",
        plot: Plot::Bars { bars: bars.collect(), levels: vec![("chance", which.chance)] },
    }));
    if which.covered {
        blocks.push(Block::Text(format!(
            "Since every direction must come about equally often, late calls are easier: the last one of the session is \
             named right {} of 100 times.",
            of_100(which.last_call),
        )));
    }
    attributes(drill, blocks);
}

fn learning(audit: &Audit<'_>, index: usize, drill: &Drill, blocks: &mut Vec<Block>) {
    let learned = audit.of_drill(index);
    if learned.is_empty() {
        return;
    }
    blocks.push(Block::Heading(format!("{}: what could a learner do?", drill.title)));
    blocks.push(Block::Text(format!(
        "Four guessers that know no rule and learn as they go (NIST SP 800-90B, 6.3.7 to 6.3.10) were given {} calls of \
         {} drawn sessions: the directions; the waits, in {CLASSES} classes that are equally likely; and both together, \
         where a tie between moment and direction would show.",
        audit.sequences[index].len(),
        audit.sessions,
    )));
    let kind = if drill.direction.directions > 1 { Kind::Direction } else { Kind::Gap };
    let of_kind = learned.iter().filter(|one| one.kind == kind);
    let mut bars: Vec<(String, f64)> =
        of_kind.map(|one| (one.estimator.description().to_owned(), one.score.hit_rate())).collect();
    let rules = learning::rule_knowing_rate(drill, kind);
    bars.push(("knows every rule".into(), rules));
    let best = bars[..bars.len() - 1].iter().map(|(_, rate)| *rate).fold(0.0, f64::max);
    blocks.push(Block::Chart(Chart {
        title: if kind == Kind::Direction { "Directions named right" } else { "Waits named right" }.into(),
        words: format!(
            "The best of the four gets {} of 100 right; a guesser who knows every rule {}, chance {}.",
            of_100(best),
            of_100(rules),
            of_100(learning::chance(drill, kind))
        ),
        across: "guesser",
        plot: Plot::Bars { bars, levels: vec![("chance", learning::chance(drill, kind))] },
    }));
    blocks.push(Block::Table(scores(drill, &learned)));
    let leaks = findings::leaks(drill, &learned);
    let found: Vec<String> =
        leaks.iter().map(|leak| format!("{} over {}", leak.estimator.name(), leak.kind.name())).collect();
    blocks.push(Block::Text(if found.is_empty() {
        format!(
            "None of them gets more right than the rules allow, beyond {LEAK_ERRORS:.0} standard errors of chance: no leak \
             was found."
        )
    } else {
        format!(
            "LEAK: more is learned than the rules allow ({}). Calls are not drawn as they should be: please report this \
             with the seed.",
            found.join(", ")
        )
    }));
}

fn scores(drill: &Drill, learned: &[Learning]) -> Table {
    let kinds: Vec<Kind> =
        Kind::ALL.into_iter().filter(|kind| learned.iter().any(|one| one.kind == *kind)).collect();
    let head = kinds.iter().map(|kind| match kind {
        Kind::Direction => "direction",
        Kind::Gap => "wait",
        Kind::Pair => "both",
    });
    let cells = |name: &str, cell: &dyn Fn(Kind) -> String| {
        [name.to_owned()].into_iter().chain(kinds.iter().map(|kind| cell(*kind))).collect::<Vec<String>>()
    };
    let mut rows = vec![
        cells("chance", &|kind| format!("{:.2}", learning::chance(drill, kind) * 100.0)),
        cells("knows every rule", &|kind| format!("{:.2}", learning::rule_knowing_rate(drill, kind) * 100.0)),
    ];
    for estimator in Estimator::ALL {
        let of = |kind: Kind| learned.iter().find(|one| one.kind == kind && one.estimator == estimator);
        rows.push(cells(estimator.description(), &|kind| {
            of(kind).map_or("-".to_owned(), |one| {
                format!("{:.2} ({:.3})", one.score.hit_rate() * 100.0, one.score.min_entropy_bits())
            })
        }));
    }
    Table {
        title: "Right of 100 (in brackets: min-entropy, bits a call)".into(),
        head: ["guesser"].into_iter().chain(head).map(str::to_owned).collect(),
        rows,
        labels: 1,
    }
}
