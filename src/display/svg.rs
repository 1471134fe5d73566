//! How does a chart look as an SVG picture? With its title and a description for people who cannot see it.

use std::io;

use maud::html;
use plotters::coord::CoordTranslate;
use plotters::element::DashedPathElement;
use plotters::prelude::*;

use counterpoise_core::blocks::{Chart, Plot};
use counterpoise_core::words::Printable;

type Drawn = Result<(), DrawingAreaErrorKind<io::Error>>;
type Area<'a> = DrawingArea<SVGBackend<'a>, plotters::coord::Shift>;

const SIZE: (u32, u32) = (760, 330);
const FONT: (&str, i32) = ("sans-serif", 19);
/// The greatest width of a letter, and of the names next to bars, in pixels.
const LETTER: u32 = 12;
const MOST_FOR_NAMES: u32 = 310;
const INK: RGBColor = RGBColor(0x22, 0x22, 0x22);
const FILL: RGBColor = RGBColor(0x8f, 0xb4, 0xd9);
/// Lines are told apart by their dashes as well: color, dash and space in pixels.
const LINES: [(RGBColor, i32, i32); 3] =
    [(RGBColor(0x1b, 0x4f, 0x8a), 12, 0), (RGBColor(0xa8, 0x4b, 0x00), 9, 5), (INK, 3, 4)];

/// The picture. `id` must be unique on its page.
///
/// # Panics
/// Never: drawing into memory does not fail.
///
/// ```
/// use counterpoise::display::svg;
/// use counterpoise_core::blocks::{Chart, Plot};
/// let chart = Chart {
///     title: "Right of 100".into(),
///     words: "Chance gets 25.".into(),
///     across: "guesser",
///     plot: Plot::Bars { bars: vec![("somebody".into(), 0.4)], levels: vec![("chance", 0.25)] },
/// };
/// let picture = svg::picture(&chart, "chart-1");
/// assert!(picture.starts_with("<svg role=\"img\" aria-labelledby=\"chart-1-title chart-1-words\""));
/// assert!(picture.contains("<desc id=\"chart-1-words\">Chance gets 25.</desc>"));
/// ```
pub fn picture(chart: &Chart, id: &str) -> String {
    let mut svg = String::new();
    let area = SVGBackend::with_string(&mut svg, SIZE).into_drawing_area();
    let drawn = match &chart.plot {
        Plot::Histogram { from, width, bars_are, curve_is, bars } => {
            histogram(&area, chart, (*from, *width), (bars_are, curve_is), bars)
        }
        Plot::Lines { from, width, top, lines } => over_time(&area, chart, (*from, *width), *top, lines),
        Plot::Counts { counted, counts, top, level } => {
            over_weeks(&area, chart, (counted, counts), *top, *level)
        }
        Plot::Bars { bars, levels } => named_bars(&area, chart, bars, levels),
    };
    drawn.and_then(|()| area.present()).expect("a picture that goes into memory always has room");
    drop(area);
    let name = format!(
        "<svg role=\"img\" aria-labelledby=\"{id}-title {id}-words\" style=\"max-width:100%;height:auto\" "
    );
    let inside = html! {
        title id={ (id) "-title" } { (chart.title) } "\n" desc id={ (id) "-words" } { (chart.words) } "\n"
    };
    let (head, rest) = svg.split_once('>').expect("a picture has an opening tag");
    let picture =
        format!("{}>\n{}{}", head.replacen("<svg ", &name, 1), inside.into_string(), rest.trim_start());
    picture.lines().map(|line| Printable::of(line).to_string() + "\n").collect()
}

fn histogram(
    area: &Area<'_>,
    chart: &Chart,
    (from, width): (f64, f64),
    (bars_are, curve_is): (&str, &str),
    bars: &[(f64, f64)],
) -> Drawn {
    let end = from + width * bars.len() as f64;
    let mut plot = axes(area, chart, from..end)?;
    let filled = bars.iter().enumerate().map(|(index, (bar, _))| {
        let begin = from + width * index as f64;
        Rectangle::new([(begin + width * 0.06, 0.0), (begin + width * 0.94, *bar)], FILL.filled())
    });
    plot.draw_series(filled)?
        .label(bars_are)
        .legend(|(x, y)| Rectangle::new([(x, y - 5), (x + 22, y + 5)], FILL.filled()));
    let middle = |(index, (_, curve)): (usize, &(f64, f64))| (from + width * (index as f64 + 0.5), *curve);
    plot.draw_series(
        LineSeries::new(bars.iter().enumerate().map(middle), INK.stroke_width(2)).point_size(3),
    )?
    .label(curve_is)
    .legend(|(x, y)| PathElement::new([(x, y), (x + 22, y)], INK.stroke_width(2)));
    legend(&mut plot, SeriesLabelPosition::UpperRight)
}

fn over_time(
    area: &Area<'_>,
    chart: &Chart,
    (from, width): (f64, f64),
    top: f64,
    lines: &[(&'static str, Vec<f64>)],
) -> Drawn {
    let longest = lines.iter().map(|(_, line)| line.len()).max().unwrap_or(0);
    let mut plot = axes(area, chart, from..from + width * longest as f64)?;
    for ((name, line), (color, dash, space)) in lines.iter().zip(LINES) {
        let drawn = line.iter().position(|height| *height > top).unwrap_or(line.len());
        let points: Vec<(f64, f64)> = line[..drawn]
            .iter()
            .enumerate()
            .map(|(index, y)| (from + width * (index as f64 + 0.5), *y))
            .collect();
        let style = color.stroke_width(2);
        plot.draw_series(DashedLineSeries::new(points, dash, space, style))?
            .label(*name)
            .legend(move |(x, y)| DashedPathElement::new([(x, y), (x + 28, y)], dash, space, style));
    }
    legend(&mut plot, SeriesLabelPosition::UpperLeft)
}

/// Columns from left to right, as many names under them as have room, and a line at what was asked.
fn over_weeks(
    area: &Area<'_>,
    chart: &Chart,
    (counted, counts): (&str, &[(String, u32)]),
    top: u32,
    (name, level): (&str, u32),
) -> Drawn {
    /// The names that fit side by side.
    const NAMES: usize = 6;
    // The legend is above the highest possible column.
    let room = top + top.div_ceil(3);
    // A column is centered over its whole number.
    let end = counts.len().max(1) as f64 - 0.5;
    let mut plot = ChartBuilder::on(area)
        .margin(12)
        .x_label_area_size(52)
        .y_label_area_size(60)
        .build_cartesian_2d(-0.5..end, 0.0..f64::from(room))?;
    let name_of = |place: &f64| match place.fract() == 0.0 {
        true => counts.get(*place as usize).map_or(String::new(), |(when, _)| when.clone()),
        false => String::new(),
    };
    plot.configure_mesh()
        .disable_x_mesh()
        .max_light_lines(0)
        .label_style(FONT.into_font().color(&INK))
        .axis_desc_style(FONT.into_font().color(&INK))
        .x_desc(chart.across)
        .y_desc(counted)
        .x_labels(NAMES)
        .y_labels(room as usize + 1)
        .x_label_formatter(&name_of)
        .y_label_formatter(&|count| {
            if *count > f64::from(top) { String::new() } else { format!("{count:.0}") }
        })
        .draw()?;
    plot.draw_series(counts.iter().enumerate().map(|(place, (_, count))| {
        let middle = place as f64;
        Rectangle::new([(middle - 0.4, 0.0), (middle + 0.4, f64::from(*count))], FILL.filled())
    }))?;
    let ends = [(-0.5, f64::from(level)), (end, f64::from(level))];
    plot.draw_series(DashedLineSeries::new(ends, 6, 4, INK.stroke_width(2)))?
        .label(format!("{name}: {level}"))
        .legend(|(x, y)| DashedPathElement::new([(x, y), (x + 22, y)], 6, 4, INK.stroke_width(2)));
    legend(&mut plot, SeriesLabelPosition::UpperRight)
}

fn named_bars(
    area: &Area<'_>,
    chart: &Chart,
    bars: &[(String, f64)],
    levels: &[(&'static str, f64)],
) -> Drawn {
    let longest = bars.iter().map(|(name, _)| name.chars().count()).max().unwrap_or(0);
    let mut plot = ChartBuilder::on(area)
        .margin(12)
        .x_label_area_size(46)
        .y_label_area_size((LETTER * longest as u32 + 24).min(MOST_FOR_NAMES))
        .build_cartesian_2d(0.0..chart.greatest() * 1.45, (0..bars.len().max(1) - 1).into_segmented())?;
    let name = |place: &SegmentValue<usize>| match place {
        // The first bar is on top.
        SegmentValue::CenterOf(place) | SegmentValue::Exact(place) => {
            bars.len().checked_sub(place + 1).map_or(String::new(), |index| bars[index].0.clone())
        }
        SegmentValue::Last => String::new(),
    };
    plot.configure_mesh()
        .disable_y_mesh()
        .x_max_light_lines(0)
        .label_style(FONT.into_font().color(&INK))
        .axis_desc_style(FONT.into_font().color(&INK))
        .x_desc("of 100")
        .y_labels(bars.len())
        .y_label_formatter(&name)
        .x_label_formatter(&|share| format!("{:.0}", share * 100.0))
        .draw()?;
    plot.draw_series(bars.iter().rev().enumerate().map(|(place, (_, height))| {
        let (below, above) = (SegmentValue::Exact(place), SegmentValue::Exact(place + 1));
        let mut bar = Rectangle::new([(0.0, below), (*height, above)], FILL.filled());
        bar.set_margin(3, 3, 0, 0);
        bar
    }))?;
    for (name, height) in levels {
        let ends = [(*height, SegmentValue::Exact(0)), (*height, SegmentValue::Last)];
        plot.draw_series(DashedLineSeries::new(ends, 6, 4, INK.stroke_width(2)))?
            .label(*name)
            .legend(|(x, y)| DashedPathElement::new([(x, y), (x + 22, y)], 6, 4, INK.stroke_width(2)));
    }
    legend(&mut plot, SeriesLabelPosition::LowerRight)
}

type Axes<'a, 'b> = ChartContext<
    'a,
    SVGBackend<'b>,
    Cartesian2d<plotters::coord::types::RangedCoordf64, plotters::coord::types::RangedCoordf64>,
>;

fn axes<'a, 'b>(
    area: &'a Area<'b>,
    chart: &Chart,
    across: std::ops::Range<f64>,
) -> Result<Axes<'a, 'b>, DrawingAreaErrorKind<io::Error>> {
    let mut plot = ChartBuilder::on(area)
        .margin(12)
        .x_label_area_size(46)
        .y_label_area_size(60)
        .build_cartesian_2d(across, 0.0..chart.greatest() * 1.08)?;
    let decimals = usize::from(chart.greatest() < 0.1);
    plot.configure_mesh()
        .max_light_lines(0)
        .label_style(FONT.into_font().color(&INK))
        .axis_desc_style(FONT.into_font().color(&INK))
        .x_desc(chart.across)
        .y_desc("of 100")
        .x_label_formatter(&|seconds| format!("{seconds:.0}"))
        .y_label_formatter(&|share| format!("{:.decimals$}", share * 100.0))
        .draw()?;
    Ok(plot)
}

fn legend<'a, 'b: 'a, C: CoordTranslate>(
    plot: &mut ChartContext<'a, SVGBackend<'b>, C>,
    at: SeriesLabelPosition,
) -> Drawn {
    plot.configure_series_labels()
        .position(at)
        .background_style(WHITE.filled())
        .border_style(INK)
        .label_font(FONT.into_font().color(&INK))
        .draw()
}

#[cfg(test)]
mod test;
