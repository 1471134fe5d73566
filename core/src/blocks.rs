//! What every page is made of, as values: headings, paragraphs, lists, tables, charts. Whoever shows them decides how they
//! look.

/// One piece of a page, in reading order. A text may be of any length and contain any character.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// The heading of a section.
    Heading(String),
    /// A paragraph of a report, apart from what is around it.
    Text(String),
    /// A paragraph that begins with what it is about.
    About(About),
    /// A statement, close to what is around it.
    Line(String),
    /// What belongs to the statement or the heading above it.
    Item(String),
    /// A label and its value.
    Fact(String, String),
    /// What can be typed, and what it means.
    Choice(String, String),
    /// What can be typed, each with its meaning, beside each other.
    Keys(Vec<String>),
    /// Lines whose blanks are part of them, such as a calendar.
    Verbatim(Vec<String>),
    /// An empty line.
    Gap,
    /// A chart, drawn from its values.
    Chart(Chart),
    /// Rows of cells under a head.
    Table(Table),
}

/// A paragraph, and what it is about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct About {
    /// What it is about, in a few words.
    pub about: String,
    /// The rest of it.
    pub text: String,
    /// Whether it must not be overlooked.
    pub is_urgent: bool,
}

impl Block {
    /// A heading.
    pub fn heading(text: impl Into<String>) -> Self {
        Self::Heading(text.into())
    }

    /// A statement.
    pub fn line(text: impl Into<String>) -> Self {
        Self::Line(text.into())
    }

    /// What belongs to the statement or the heading above it.
    pub fn item(text: impl Into<String>) -> Self {
        Self::Item(text.into())
    }

    /// A label and its value.
    pub fn fact(label: &str, value: impl Into<String>) -> Self {
        Self::Fact(label.to_owned(), value.into())
    }

    /// The lines of a text whose blanks are part of it.
    pub fn verbatim(text: &str) -> Self {
        Self::Verbatim(text.lines().map(str::to_owned).collect())
    }

    /// A heading with items under it.
    pub fn section<T: Into<String>>(
        heading: impl Into<String>,
        items: impl IntoIterator<Item = T>,
    ) -> impl Iterator<Item = Self> {
        std::iter::once(Self::heading(heading)).chain(items.into_iter().map(Self::item))
    }
}

/// Rows of cells under a head; the first cell of a row says what the row is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// What it shows, as a title; empty where the page says it.
    pub title: String,
    /// The heading of each column.
    pub head: Vec<String>,
    /// The rows, each as long as the head.
    pub rows: Vec<Vec<String>>,
    /// How many of the first columns say what a row is.
    pub labels: usize,
}

/// A column with more characters than this in a cell is one of words: read from the left.
const FIGURES: usize = 24;

impl Table {
    /// A table with this title and head.
    pub fn new(title: impl Into<String>, head: &[&str], rows: Vec<Vec<String>>) -> Self {
        Self {
            title: title.into(),
            head: head.iter().map(|cell| (*cell).to_owned()).collect(),
            rows,
            labels: 1,
        }
    }

    /// Whether a column has sentences or names, read from the left, in place of figures.
    pub fn is_of_words(&self, column: usize) -> bool {
        let cells = || self.rows.iter().map(|row| row[column].as_str());
        column < self.labels
            || cells().any(|cell| cell.chars().count() > FIGURES)
            || !cells().any(|cell| cell.contains(|character: char| character.is_ascii_digit()))
    }
}

/// A chart, with what it shows in words. All heights are shares from 0 to 1, except those of `Plot::Counts`.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// What it shows, as a title.
    pub title: String,
    /// The same in words, for readers who cannot see it.
    pub words: String,
    /// What runs from left to right, with its unit.
    pub across: &'static str,
    /// The values that are drawn.
    pub plot: Plot,
}

/// What a chart draws.
#[derive(Debug, Clone, PartialEq)]
pub enum Plot {
    /// Neighboring bars, and a curve of what was expected of each.
    Histogram {
        /// Where the first bar begins.
        from: f64,
        /// How wide each is.
        width: f64,
        /// What the bars are.
        bars_are: &'static str,
        /// What the curve is.
        curve_is: &'static str,
        /// The height of each bar, and of the curve over it.
        bars: Vec<(f64, f64)>,
    },
    /// Lines over the same steps.
    Lines {
        /// Where the first step begins.
        from: f64,
        /// How wide each step is.
        width: f64,
        /// The top of the picture: higher values are cut off there, but not in the table.
        top: f64,
        /// What each line is, and its height at each step.
        lines: Vec<(&'static str, Vec<f64>)>,
    },
    /// Counts over time, and a level that was prescribed.
    Counts {
        /// What is counted: "days".
        counted: &'static str,
        /// The time of each count, and the count.
        counts: Vec<(String, u32)>,
        /// The greatest count that is possible.
        top: u32,
        /// What the level is, and how many.
        level: (&'static str, u32),
    },
    /// Named bars, and levels to compare them with.
    Bars {
        /// What each bar is, and its height.
        bars: Vec<(String, f64)>,
        /// What each level is, and its height.
        levels: Vec<(&'static str, f64)>,
    },
}

impl Chart {
    /// The figures of the chart.
    pub fn table(&self) -> Table {
        let percent = |share: f64| format!("{:.2}", share * 100.0);
        let step = |from: f64, width: f64, index: usize| {
            let begin = from + width * index as f64;
            format!("{begin:.1} to {:.1}", begin + width)
        };
        let (head, rows) = match &self.plot {
            Plot::Histogram { from, width, bars_are, curve_is, bars } => (
                vec![self.across.to_owned(), format!("{bars_are}, of 100"), format!("{curve_is}, of 100")],
                bars.iter()
                    .enumerate()
                    .map(|(index, (bar, curve))| {
                        vec![step(*from, *width, index), percent(*bar), percent(*curve)]
                    })
                    .collect(),
            ),
            Plot::Lines { from, width, lines, .. } => {
                let head = lines.iter().map(|(name, _)| format!("{name}, of 100"));
                let longest = lines.iter().map(|(_, line)| line.len()).max().unwrap_or(0);
                let row = |index: usize| {
                    let cells =
                        lines.iter().map(|(_, line)| line.get(index).map_or(String::new(), |x| percent(*x)));
                    [step(*from, *width, index)].into_iter().chain(cells).collect()
                };
                ([self.across.to_owned()].into_iter().chain(head).collect(), (0..longest).map(row).collect())
            }
            Plot::Counts { counted, counts, .. } => (
                vec![self.across.to_owned(), (*counted).to_owned()],
                counts.iter().map(|(when, count)| vec![when.clone(), count.to_string()]).collect(),
            ),
            Plot::Bars { bars, levels } => {
                let bars = bars.iter().map(|(name, height)| vec![name.clone(), percent(*height)]);
                let levels = levels.iter().map(|(name, height)| vec![(*name).to_owned(), percent(*height)]);
                (vec![self.across.to_owned(), "of 100".to_owned()], bars.chain(levels).collect())
            }
        };
        Table { title: self.title.clone(), head, rows, labels: 1 }
    }

    /// The greatest height that is drawn, and at least 0.001, so that it can be a divisor.
    pub fn greatest(&self) -> f64 {
        let heights: Vec<f64> = match &self.plot {
            Plot::Histogram { bars, .. } => bars.iter().flat_map(|(bar, curve)| [*bar, *curve]).collect(),
            Plot::Lines { lines, top, .. } => {
                lines.iter().flat_map(|(_, line)| line.iter().map(|height| height.min(*top))).collect()
            }
            Plot::Counts { top, .. } => vec![f64::from(*top)],
            Plot::Bars { bars, levels } => {
                bars.iter().map(|(_, bar)| *bar).chain(levels.iter().map(|(_, level)| *level)).collect()
            }
        };
        heights.into_iter().fold(0.001, f64::max)
    }
}
