//! The fixed list of phrases that can be spoken, each with an id and its words.

use std::sync::LazyLock;

/// One phrase of `sounds/phrases.toml`: small, copyable, always valid.
///
/// ```
/// use counterpoise_core::plan::phrase::Phrase;
/// let phrase = Phrase::named("set.over").unwrap();
/// assert_eq!(phrase.id(), "set.over");
/// assert_eq!(phrase.words(), "The set is over.");
/// assert_eq!(Phrase::named("no such phrase"), None);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Phrase(u16);

struct Row {
    id: String,
    words: String,
    is_cue: bool,
}

static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| {
    let file: toml::Table = include_str!("../../../sounds/phrases.toml")
        .parse()
        .expect("sounds/phrases.toml is part of the build and is TOML");
    let mut rows: Vec<Row> = file
        .iter()
        .filter_map(|(group, value)| Some((group, value.as_table()?)))
        .flat_map(|(group, phrases)| {
            phrases.iter().map(move |(id, words)| Row {
                id: id.clone(),
                words: words.as_str().expect("a phrase is a string").to_owned(),
                is_cue: group == "cue",
            })
        })
        .collect();
    rows.sort_by(|a, b| a.id.cmp(&b.id));
    rows
});

impl Phrase {
    /// Every phrase, in the order of their ids.
    pub fn all() -> impl Iterator<Item = Self> {
        (0..ROWS.len()).map(|index| Self(index as u16))
    }

    /// The phrase with this id, if there is one.
    pub fn named(id: &str) -> Option<Self> {
        ROWS.binary_search_by(|row| row.id.as_str().cmp(id)).ok().map(|index| Self(index as u16))
    }

    /// The phrase that the program itself names: its id is in the source, not in a file.
    ///
    /// # Panics
    /// If there is no such phrase: a mistake in the source. Tests of each caller try every name.
    pub fn own(id: &str) -> Self {
        Self::named(id).expect("every phrase that the source names is in sounds/phrases.toml")
    }

    /// The id: what drills, cue sheets and file names use.
    pub fn id(self) -> &'static str {
        &ROWS[usize::from(self.0)].id
    }

    /// The words, as they are spoken.
    pub fn words(self) -> &'static str {
        &ROWS[usize::from(self.0)].words
    }

    /// Whether this is called during a set.
    pub fn is_cue(self) -> bool {
        ROWS[usize::from(self.0)].is_cue
    }
}
