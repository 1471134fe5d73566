//! The parts of a report as values: headings, paragraphs, charts and tables. Whoever shows them decides how they
//! look.

/// One piece of a report, in reading order.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// The heading of a section.
    Heading(String),
    /// A paragraph, to be wrapped to the width of the page.
    Text(String),
    /// A chart, drawn from its values.
    Chart(Chart),
    /// Rows of cells under a head.
    Table(Table),
}

/// Rows of cells under a head; the first cell of a row says what the row is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// What it shows, as a title.
    pub title: String,
    /// The heading of each column.
    pub head: Vec<String>,
    /// The rows, each as long as the head.
    pub rows: Vec<Vec<String>>,
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
        Table { title: self.title.clone(), head, rows }
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
