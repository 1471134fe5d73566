//! A judged list in plain words, charts and tables.

use super::OwnList;
use crate::blocks::{Block, Chart, Plot, Table};
use crate::draw::predictability::findings::of_100;
use crate::draw::predictability::interval::Interval;

/// The width of an interval, in points, above which little can be said \[judgment: half of the range that matters\].
const LITTLE_POINTS: f64 = 20.0;
/// Below this, chance is a poor explanation \[judgment: two questions are asked, so together 1 in 100\].
const UNLIKELY: f64 = 0.005;
/// The fewest calls for the learning guessers of SP 800-90B \[judgment; the standard itself asks for a million\].
const ENOUGH: usize = 1_000;
/// What one brace of half a second catches of the app's usual calls: gaps of 5 to 15 s, 10 % blanks, sets of 60 s
/// \[computed, as `counterpoise audit typical` says\].
const USUAL_BRACE: f64 = 0.083;

impl OwnList<'_> {
    /// The report on a list that is called `name`.
    pub fn blocks(&self, name: &str) -> Vec<Block> {
        let mut blocks =
            vec![Block::Heading(format!("{name}: can anybody predict it?")), Block::Text(self.summary())];
        blocks.push(Block::Table(self.counts()));
        for once in self.list.names().iter().filter(|other| other.count == 1) {
            blocks.push(Block::Text(format!(
                "\"{}\" appears only once (line {}). Is it a typo?",
                once.words, once.line
            )));
        }
        if self.list.names().len() > 1 {
            blocks.push(Block::Heading("Which direction?".into()));
            self.which(&mut blocks);
        }
        self.when(&mut blocks);
        blocks.push(Block::Text(
            "\"Between x and y\" means that the true share lies there in 95 of 100 such lists (Clopper and Pearson 1934). \
             docs/audit.md says how the guesser guesses."
                .into(),
        ));
        blocks
    }

    /// The whole in a sentence or two.
    fn summary(&self) -> String {
        let calls = self.list.symbols().len();
        if self.list.names().len() == 1 {
            return format!("All {calls} calls are the same, so there is nothing to guess.");
        }
        let named = self.hits();
        let found = format!(
            "A guesser that looks for habits gets {} of the {} guesses right, {} of 100; chance is {}.",
            named.hits,
            named.of,
            of_100(named.share),
            of_100(self.chance()),
        );
        let wide = (named.high - named.low) * 100.0 > LITTLE_POINTS;
        let guessed = self.guess_p_value() < UNLIKELY;
        let meaning = if guessed || self.has_repeat_habit() {
            let share = if self.has_repeat_habit() { self.repeat_guess_rate() } else { 0.0 };
            let share = if guessed { share.max(named.share) } else { share };
            format!(
                "That is a habit: chance alone rarely does {}. Anybody who notices it gets about {} of 100 right.",
                if guessed { "as well" } else { "what this list does with repeats" },
                of_100(share),
            )
        } else if wide {
            "Little can be said: in a list this short, a lucky guesser looks like one who knows.".into()
        } else {
            "No habit was found.".into()
        };
        format!("{found} {meaning}")
    }

    /// Whether there are far fewer repeats than chance gives, or far more.
    fn has_repeat_habit(&self) -> bool {
        self.repeats_p_value() < UNLIKELY
    }

    fn counts(&self) -> Table {
        let calls = self.list.symbols().len() as f64;
        let rows =
            self.list.names().iter().map(|name| {
                vec![name.words.clone(), name.count.to_string(), of_100(name.count as f64 / calls)]
            });
        Table::new(
            format!("{} calls", self.list.symbols().len()),
            &["direction", "calls", "of 100"],
            rows.collect(),
        )
    }

    fn which(&self, blocks: &mut Vec<Block>) {
        let (named, app, chance) = (self.hits(), self.app(), self.chance());
        blocks.push(Block::Text(format!(
            "The guesser's true share lies between {} and {} of 100. By chance alone it would get as many or more right in {} \
             of 100 lists of this length.",
            of_100(named.low),
            of_100(named.high),
            of_100(self.guess_p_value()),
        )));
        blocks.push(Block::Text(format!(
            "In the app's own lists of this length and number of directions (at most {} alike in a row), this guesser gets {} \
             of 100 right on average, {} to {} in 95 of 100 lists ({} were drawn). Even a guesser who knows the app's \
             rules gets {} in the long run.",
            app.longest_streak,
            of_100(app.mean),
            of_100(app.range.0),
            of_100(app.range.1),
            app.lists,
            of_100(app.rule_knowing_rate),
        )));
        blocks.push(Block::Chart(Chart {
            title: "Directions named right".into(),
            words: format!(
                "Of this list {} of 100; of the app's lists {} on average; chance {}.",
                of_100(named.share),
                of_100(app.mean),
                of_100(chance)
            ),
            across: "list",
            plot: Plot::Bars {
                bars: vec![
                    ("this list".into(), named.share),
                    ("the app's lists, on average".into(), app.mean),
                    ("the app's, knowing its rules".into(), app.rule_knowing_rate),
                ],
                levels: vec![("chance", chance)],
            },
        }));
        let repeats = self.repeats();
        blocks.push(Block::Text(format!(
            "The same direction comes again in {} of {} steps, {} of 100 (between {} and {}); chance alone gives {}.{}",
            repeats.hits,
            repeats.of,
            of_100(repeats.share),
            of_100(repeats.low),
            of_100(repeats.high),
            of_100(chance),
            match (self.has_repeat_habit(), repeats.share < chance) {
                (true, true) => format!(
                    " People who make up lists avoid repeats, and that gives them away: anybody who never bets on one gets \
                     about {} of 100 right.",
                    of_100(self.repeat_guess_rate())
                ),
                (true, false) => format!(
                    " Anybody who always bets on a repeat gets {} of 100 right.",
                    of_100(self.repeat_guess_rate())
                ),
                (false, _) => String::new(),
            }
        )));
        if self.list.symbols().len() >= ENOUGH {
            blocks.push(Block::Table(self.estimator_table()));
        } else {
            blocks.push(Block::Text(format!(
                "The learning guessers of NIST SP 800-90B need at least {ENOUGH} calls, so they are left out."
            )));
        }
    }

    fn estimator_table(&self) -> Table {
        let rows = self.estimators.iter().map(|(estimator, score)| {
            let Interval { share, low, high, .. } = Interval::of(score.hits(), score.guesses());
            vec![
                estimator.description().to_owned(),
                of_100(share),
                format!("{} to {}", of_100(low), of_100(high)),
                format!("{:.3}", score.min_entropy_bits()),
            ]
        });
        Table::new(
            "What guessers that start without any habit learn (NIST SP 800-90B)",
            &["guesser", "of 100", "between", "min-entropy, bits"],
            rows.collect(),
        )
    }

    fn when(&self, blocks: &mut Vec<Block>) {
        let Some(waits) = self.list.waits() else {
            blocks.push(Block::Text(
                "The list has no times, so nothing is said about when. To have the timing judged too, write the time in \
                 seconds before each call."
                    .into(),
            ));
            return;
        };
        blocks.push(Block::Heading("When?".into()));
        let least = waits.iter().min().copied().unwrap_or_default();
        let greatest = waits.iter().max().copied().unwrap_or_default();
        let mean = waits.iter().map(|wait| wait.as_secs_f64()).sum::<f64>() / waits.len() as f64;
        blocks.push(Block::Text(format!("From call to call {least} to {greatest}, {mean:.1} s on average.")));
        blocks.push(Block::Text(match self.catches() {
            None => "There are too few waits to look for a habit.".into(),
            Some(Interval { hits, of, share, low, high }) => {
                let little =
                    if (high - low) * 100.0 > LITTLE_POINTS { " With so few waits, little can be said." } else { "" };
                let habit = if low > USUAL_BRACE { " The timing gives itself away." } else { little };
                format!(
                    "A brace of half a second, placed where it would have caught most earlier waits, catches {hits} of \
                     {of} calls, {} of 100 (between {} and {}); of the app's usual calls {}.{habit}",
                    of_100(share),
                    of_100(low),
                    of_100(high),
                    of_100(USUAL_BRACE),
                )
            }
        }));
    }
}
