//! How does a chart look as lines of plain text?

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::symbols::Marker;
use ratatui::text::Line;
use ratatui::widgets::{Axis, Bar, BarChart, Chart as Plotted, Dataset, GraphType, Widget};

use counterpoise_core::blocks::{Chart, Plot};

/// The rows of a chart with axes.
const ROWS: u16 = 11;
/// What the lines of a chart are drawn with, so that no color is needed to tell them apart.
const SIGNS: [char; 3] = ['·', 'o', '*'];

/// The chart without title and legend, in lines of at most `width` characters.
pub fn lines(chart: &Chart, width: u16) -> Vec<String> {
    let greatest = chart.greatest();
    match &chart.plot {
        Plot::Histogram { from, width: step, bars, .. } => {
            let end = from + step * bars.len() as f64;
            // A bar is as many strokes as it has columns, so that none is left out.
            let strokes = usize::from(width).div_ceil(bars.len().max(1));
            let stroke = |index: usize, height: f64| {
                (0..strokes).map(move |stroke| {
                    (from + step * (index as f64 + (stroke as f64 + 0.5) / strokes as f64), height)
                })
            };
            let filled: Vec<(f64, f64)> =
                bars.iter().enumerate().flat_map(|(index, (bar, _))| stroke(index, *bar)).collect();
            let curve: Vec<(f64, f64)> = bars
                .iter()
                .enumerate()
                .map(|(index, (_, curve))| (from + step * (index as f64 + 0.5), *curve))
                .collect();
            let sets = vec![
                Dataset::default().marker(Marker::Bar).graph_type(GraphType::Bar).data(&filled),
                Dataset::default().marker(Marker::Custom('o')).graph_type(GraphType::Scatter).data(&curve),
            ];
            with_axes(sets, *from, end, greatest, width)
        }
        Plot::Lines { from, width: step, lines: plotted, .. } => {
            let longest = plotted.iter().map(|(_, line)| line.len()).max().unwrap_or(0);
            let points: Vec<Vec<(f64, f64)>> = plotted
                .iter()
                .map(|(_, line)| {
                    line.iter().enumerate().map(|(i, y)| (from + step * (i as f64 + 0.5), *y)).collect()
                })
                .collect();
            let sets = points.iter().zip(SIGNS).map(|(points, sign)| {
                Dataset::default().marker(Marker::Custom(sign)).graph_type(GraphType::Line).data(points)
            });
            let end = from + step * longest as f64;
            with_axes(sets.collect(), *from, end, greatest, width)
        }
        Plot::Counts { counts, top, .. } => count_bars(counts, *top, width),
        Plot::Bars { bars, levels } => {
            let levels = levels.iter().map(|(name, height)| ((*name).to_owned(), *height));
            let all: Vec<(String, f64)> = bars.iter().cloned().chain(levels).collect();
            named_bars(&all, greatest, width)
        }
    }
}

/// What runs across and up, and what is drawn how; nothing for bars, which have their names.
pub fn legend(chart: &Chart) -> Option<String> {
    let signs = match &chart.plot {
        Plot::Histogram { bars_are, curve_is, .. } => format!("Bars: {bars_are}; o: {curve_is}"),
        Plot::Lines { lines, .. } => {
            let names = lines.iter().zip(SIGNS).map(|((name, _), sign)| format!("{sign} {name}"));
            names.collect::<Vec<_>>().join("; ")
        }
        Plot::Counts { counted, level: (name, level), .. } => {
            return Some(format!("Down: {}; across: {counted}. {name}: {level}.", chart.across));
        }
        Plot::Bars { .. } => return None,
    };
    Some(format!("Across: {}; up: of 100. {signs}.", chart.across))
}

fn with_axes(sets: Vec<Dataset<'_>>, from: f64, end: f64, greatest: f64, width: u16) -> Vec<String> {
    let seconds = |at: f64| format!("{at:.0}");
    let hundredths = |height: f64| {
        let decimals = usize::from(greatest < 0.1);
        format!("{:.decimals$}", height * 100.0)
    };
    let chart = Plotted::new(sets)
        .x_axis(Axis::default().bounds([from, end]).labels([
            seconds(from),
            seconds(f64::midpoint(from, end)),
            seconds(end),
        ]))
        .y_axis(Axis::default().bounds([0.0, greatest]).labels([
            hundredths(0.0),
            hundredths(greatest / 2.0),
            hundredths(greatest),
        ]));
    render(chart, width, ROWS)
}

fn count_bars(counts: &[(String, u32)], top: u32, width: u16) -> Vec<String> {
    let bars = counts.iter().map(|(when, count)| {
        Bar::with_label(Line::from(format!("{when} {count:>2}")), u64::from(*count)).text_value(String::new())
    });
    let rows = counts.len() as u16;
    let most = u64::from(top).max(1);
    render(BarChart::horizontal(bars.collect::<Vec<_>>()).bar_width(1).bar_gap(0).max(most), width, rows)
}

fn named_bars(bars: &[(String, f64)], greatest: f64, width: u16) -> Vec<String> {
    /// Bars are drawn from whole numbers.
    const FINE: f64 = 10_000.0;
    let names = bars.iter().map(|(name, _)| name.chars().count()).max().unwrap_or(0);
    let labeled = bars.iter().map(|(name, height)| {
        let label = format!("{name:<names$} {:>5.1}", height * 100.0);
        Bar::with_label(Line::from(label), (height * FINE) as u64).text_value(String::new())
    });
    let labeled: Vec<Bar<'_>> = labeled.collect();
    let rows = labeled.len() as u16;
    let greatest = (greatest * FINE).max(1.0) as u64;
    render(BarChart::horizontal(labeled).bar_width(1).bar_gap(0).max(greatest), width, rows)
}

/// What a widget draws, without the blanks at the ends of lines.
fn render(widget: impl Widget, width: u16, rows: u16) -> Vec<String> {
    let area = Rect::new(0, 0, width, rows);
    let mut buffer = Buffer::empty(area);
    widget.render(area, &mut buffer);
    let row = |y: u16| (0..width).map(|x| buffer[(x, y)].symbol()).collect::<String>().trim_end().to_owned();
    (0..rows).map(row).collect()
}

#[cfg(test)]
mod test {
    use super::*;

    fn chart(plot: Plot) -> Chart {
        Chart { title: "T".into(), words: "W".into(), across: "seconds", plot }
    }

    #[test]
    fn bars_have_their_names_and_figures() {
        let bars = chart(Plot::Bars {
            bars: vec![("call 1".into(), 0.25), ("call 10".into(), 0.5)],
            levels: vec![("chance", 0.25)],
        });
        insta::assert_snapshot!(lines(&bars, 34).join("\n"), @r"
        call 1   25.0 ██████████
        call 10  50.0 ████████████████████
        chance   25.0 ██████████
        ");
        assert_eq!(legend(&bars), None);
    }

    #[test]
    fn counts_have_their_days_and_what_was_asked() {
        let counts = chart(Plot::Counts {
            counted: "days",
            counts: vec![("2025-W52".into(), 3), ("2026-W01".into(), 0), ("2026-W02".into(), 7)],
            top: 7,
            level: ("prescribed", 3),
        });
        insta::assert_snapshot!(lines(&counts, 26).join("\n"), @r"
        2025-W52  3 ██████
        2026-W01  0
        2026-W02  7 ██████████████
        ");
        assert_eq!(legend(&counts).unwrap(), "Down: seconds; across: days. prescribed: 3.");
    }

    #[test]
    fn a_histogram_has_its_curve_and_axes() {
        let histogram = chart(Plot::Histogram {
            from: 5.0,
            width: 1.0,
            bars_are: "drawn calls",
            curve_is: "computed",
            bars: vec![(0.4, 0.38), (0.3, 0.3), (0.2, 0.22), (0.1, 0.1)],
        });
        insta::assert_snapshot!(lines(&histogram, 24).join("\n"), @r"
        40│▄▄▄o▄▄
          │▄▄▄▄▄▄
          │▄▄▄▄▄▄▄▄o▄▄
          │▄▄▄▄▄▄▄▄▄▄▄
        20│▄▄▄▄▄▄▄▄▄▄▄▄▄o▄▄
          │▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄
          │▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄o▄▄
          │▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄
        0 │▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄
          └─────────────────────
          5          7         9
        ");
        assert_eq!(
            legend(&histogram).unwrap(),
            "Across: seconds; up: of 100. Bars: drawn calls; o: computed."
        );
    }

    #[test]
    fn lines_are_told_apart_without_color_and_cut_at_the_top() {
        let plot = chart(Plot::Lines {
            from: 0.0,
            width: 1.0,
            top: 0.5,
            lines: vec![("first", vec![0.1, 0.2, 0.4, 1.0]), ("second", vec![0.4, 0.3, 0.2, 0.1])],
        });
        let lines = lines(&plot, 30);
        let text = lines.join("\n");
        assert!(text.contains('·') && text.contains('o') && text.starts_with("50"), "{text}");
        assert!(lines.iter().all(|line| line.chars().count() <= 30));
        assert_eq!(legend(&plot).unwrap(), "Across: seconds; up: of 100. · first; o second.");
    }
}
