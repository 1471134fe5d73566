//! The warm-up and the cool-down: sentences, each with the time to do it.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::plan::drill::Movement;
use crate::plan::phrase::Phrase;
use crate::plan::precaution::{Precaution, Precautions};
use crate::units::Millis;

/// The `schema` of a routine file.
pub const SCHEMA: &str = "counterpoise.routine/1";

/// A routine lasts at most this long: 3 min before and 3 min after 14 min of practice make the 20 min of Kurz 2016
/// \[read\].
pub const LONGEST: Millis = Millis::from_secs(180);

/// Sentences to do, one after another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Routine {
    title: String,
    items: Vec<Item>,
    moves: Vec<Movement>,
}

/// One sentence and the time for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Item {
    /// What is said when it begins.
    pub phrase: Phrase,
    /// From its beginning to the next one's.
    pub lasts: Millis,
    /// The precautions that leave it out.
    pub ruled_out_by: Precautions,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Raw {
    schema: String,
    name: String,
    title: String,
    items: Vec<RawItem>,
    /// What the person moves in it, as far as a caution could forbid it.
    moves: Vec<Movement>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawItem {
    phrase: String,
    lasts_ms: u32,
    /// What it asks of the body: the precautions that leave it out. Never left away, so that nobody forgets it.
    ruled_out_by: Vec<Precaution>,
}

/// Why a routine file was refused. These files are built in, so the reader is the developer who changes one.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum RoutineError {
    /// The text is not TOML, or a field is missing, unknown or of the wrong kind.
    #[error("routine `{0}`: {1}")]
    Text(String, String),
    /// Another format, or another name than the file's.
    #[error("routine `{0}`: `schema` must be \"{SCHEMA}\" and `name` the name of the file")]
    Head(String),
    /// Not a phrase, or a call.
    #[error("routine `{0}`: \"{1}\" is not an announcement in sounds/phrases.toml")]
    Phrase(String, String),
    /// Nothing to do, or more than three minutes of it.
    #[error("routine `{0}` lasts {1}; it must last more than 0 s and {LONGEST} at most")]
    Length(String, Millis),
}

impl Routine {
    /// Before the first set.
    ///
    /// ```
    /// use counterpoise_core::practice::routine::Routine;
    /// assert_eq!(Routine::warm_up().lasts().to_string(), "180 s");
    /// ```
    pub fn warm_up() -> &'static Self {
        static ROUTINE: LazyLock<Routine> =
            LazyLock::new(|| built_in("warm-up", include_str!("../../../presets/routines/warm-up.toml")));
        &ROUTINE
    }

    /// After the last set.
    pub fn cool_down() -> &'static Self {
        static ROUTINE: LazyLock<Routine> =
            LazyLock::new(|| built_in("cool-down", include_str!("../../../presets/routines/cool-down.toml")));
        &ROUTINE
    }

    /// Reads the routine file called `name`.
    ///
    /// # Errors
    /// If the text is not such a file, names a phrase that does not exist, or lasts more than three minutes.
    pub fn from_toml(name: &str, text: &str) -> Result<Self, RoutineError> {
        let raw: Raw = toml::from_str(text)
            .map_err(|error| RoutineError::Text(name.to_owned(), error.message().to_owned()))?;
        if raw.schema != SCHEMA || raw.name != name {
            return Err(RoutineError::Head(name.to_owned()));
        }
        let item = |raw: RawItem| {
            let phrase = Phrase::named(&raw.phrase).filter(|phrase| !phrase.is_cue());
            let phrase = phrase.ok_or_else(|| RoutineError::Phrase(name.to_owned(), raw.phrase))?;
            let ruled_out_by = Precautions::of(&raw.ruled_out_by);
            Ok(Item { phrase, lasts: Millis(raw.lasts_ms), ruled_out_by })
        };
        let items = raw.items.into_iter().map(item).collect::<Result<_, _>>()?;
        let routine = Self { title: raw.title, items, moves: raw.moves };
        match routine.lasts() {
            lasts if lasts == Millis(0) || lasts > LONGEST => {
                Err(RoutineError::Length(name.to_owned(), lasts))
            }
            _ => Ok(routine),
        }
    }

    /// Its name for people.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// What is done, in order.
    pub fn items(&self) -> &[Item] {
        &self.items
    }

    /// What the person moves in it, as far as a caution could forbid it.
    pub fn moves(&self) -> &[Movement] {
        &self.moves
    }

    /// How long it lasts.
    pub fn lasts(&self) -> Millis {
        self.items.iter().fold(Millis(0), |sum, item| sum + item.lasts)
    }

    /// What is done by somebody with these precautions.
    ///
    /// ```
    /// use counterpoise_core::plan::precaution::{Precaution, Precautions};
    /// use counterpoise_core::practice::routine::Routine;
    /// let within = Routine::warm_up().within(Precautions::of(&[Precaution::NoBending]));
    /// assert!(within.items().iter().all(|item| item.phrase.id() != "warm-up.knees"));
    /// ```
    #[must_use]
    pub fn within(&self, precautions: Precautions) -> Self {
        let is_left = |item: &&Item| (item.ruled_out_by & precautions).is_empty();
        let items = self.items.iter().filter(is_left).copied().collect();
        Self { title: self.title.clone(), items, moves: self.moves.clone() }
    }

    /// What is being done `elapsed` after its beginning, and since when; `None` when it is over.
    pub fn at(&self, elapsed: Millis) -> Option<(Item, Millis)> {
        let mut begins = Millis(0);
        self.items.iter().find_map(|item| {
            let ends = begins + item.lasts;
            let now = (elapsed < ends).then_some((*item, begins));
            begins = ends;
            now
        })
    }
}

fn built_in(name: &str, text: &str) -> Routine {
    Routine::from_toml(name, text).expect("the built-in routines are sound, as a test proves")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::drill::Drill;

    #[test]
    fn both_routines_last_about_three_minutes_and_leave_time_for_every_sentence() {
        for routine in [Routine::warm_up(), Routine::cool_down()] {
            assert!(
                (Millis(150_000)..=Millis(180_000)).contains(&routine.lasts()),
                "{}: {}",
                routine.title(),
                routine.lasts()
            );
            for item in routine.items() {
                // 150 to 200 words a minute are most comfortable for young and old [read]; at 150 a word takes 0.4 s.
                let words = item.phrase.words().split_whitespace().count() as u32;
                assert!(item.lasts.0 >= words * 400, "{}", item.phrase.words());
            }
        }
    }

    /// Both are part of every session: marching and lifting a leg are what "keep both feet on the floor" must not be beside.
    #[test]
    fn no_caution_of_a_drill_contradicts_the_warm_up_or_the_cool_down() {
        assert!(Routine::warm_up().moves().contains(&Movement::LiftFoot));
        for routine in [Routine::warm_up(), Routine::cool_down()] {
            for caution in Drill::all().iter().flat_map(Drill::cautions) {
                let found = caution.contradicts_any(routine.moves());
                assert_eq!(found, [], "{}: {}", routine.title(), caution.text());
            }
        }
    }

    #[test]
    fn each_item_has_its_own_time() {
        let routine = Routine::warm_up();
        let mut begins = Millis(0);
        for item in routine.items() {
            assert_eq!(routine.at(begins), Some((*item, begins)));
            begins = begins + item.lasts;
            assert_eq!(routine.at(begins - Millis(1)).map(|(item, _)| item), Some(*item));
        }
        assert_eq!(routine.at(begins), None);
    }

    #[test]
    fn what_is_no_routine_is_refused() {
        let file = include_str!("../../../presets/routines/warm-up.toml");
        let refused = |from: &str, to: &str| {
            assert!(file.contains(from), "{from}");
            Routine::from_toml("warm-up", &file.replacen(from, to, 1)).unwrap_err()
        };
        assert!(matches!(refused("title =", "titles ="), RoutineError::Text(..)));
        assert!(matches!(refused("routine/1", "routine/2"), RoutineError::Head(_)));
        assert!(matches!(refused("\"warm-up\"", "\"warm\""), RoutineError::Head(_)));
        assert!(matches!(refused("\"warm-up.march\"", "\"reach.left\""), RoutineError::Phrase(..)));
        assert_eq!(refused("40000", "40001"), RoutineError::Length("warm-up".into(), Millis(180_001)));
    }
}
