//! How are a call, and the partner's task, drawn as large as possible? In cells of a buffer, by pure functions.

use ratatui::buffer::Buffer;
use ratatui::layout::{Rect, Size};
use ratatui::style::{Modifier, Style};
use unicode_width::UnicodeWidthStr;

use super::big::{self, Paragraphs, Words};
use super::words;
use counterpoise_core::plan::direction::Direction;
use counterpoise_core::practice::session::screen::{Item, Moment, ShownCall};

/// Until this many seconds before the moment the partner reads what and where; from then on, where the hand goes and how
/// firmly. One thing at a time is larger, and is read at a glance \[judgment\].
const WHAT_UNTIL: u8 = 5;

/// Draws the call: its words as large as possible, and an arrow next to them, on the side to which it points, or below.
pub(crate) fn draw_call(call: &ShownCall, area: Rect, buffer: &mut Buffer) {
    let beside = |part: u16| Rect { width: area.width - area.width / part, ..area };
    // How high the arrow gets: next to the words, where it may be twice as wide as high, or below them.
    let arrow = |fit: &Words| {
        let taken = fit.size();
        let side = (area.width - taken.width).saturating_sub(1) / 2;
        side.min(area.height).max(area.height - taken.height)
    };
    // Room for a large arrow, for a small one, for none.
    let fits = [beside(4), beside(5), area].map(|room| Words::fit(&call.words, room.as_size()));
    let seen = |fit: &&Words| arrow(fit) >= area.height / 4;
    let largest = fits.iter().flatten().filter(seen).map(Words::letter).max().unwrap_or(0);
    // The letters come first: they give up a quarter of their size at most for a larger arrow, more only for one that
    // can be seen at all.
    let good = fits.iter().flatten().filter(seen).find(|fit| 4 * fit.letter() >= 3 * largest);
    let Some(fit) = good.or(fits.iter().flatten().last()) else {
        return draw_large(&format!("{} {}", call.words, call.direction.arrow()), area, buffer);
    };
    let taken = fit.size();
    let side = (area.width - taken.width).saturating_sub(1);
    let below = area.height - taken.height;
    if side / 2 >= below {
        let side = (side / 2).min(area.height) * 2;
        let (beside, words) = aside(call.direction, side, area);
        fit.draw(words, buffer);
        big::arrow(call.direction, beside, buffer);
    } else {
        fit.draw(Rect { height: taken.height, ..area }, buffer);
        big::arrow(call.direction, Rect { y: area.y + taken.height, height: below, ..area }, buffer);
    }
}

/// Draws what the partner has to do. While it is counted down: what and where to, then where the hand goes and how firmly, with the
/// arrow and the seconds next to it. In the last two seconds it is only LOOK UP.
pub(crate) fn draw_item(item: &Item, area: Rect, buffer: &mut Buffer) {
    let when = match item.moment {
        Moment::LookUp => return draw_large(words::LOOK_UP, area, buffer),
        Moment::In(seconds) => seconds.to_string(),
        Moment::Now => words::NOW.to_owned(),
    };
    let how = words::hand(item);
    let is_how = matches!(item.moment, Moment::In(seconds) if seconds < WHAT_UNTIL) && !how.is_empty();
    let texts = if is_how { how } else { words::task(item) };
    let texts: Vec<String> = texts.iter().map(|text| text.to_uppercase()).collect();
    // A quarter of the width for the arrow and the seconds, if the words leave so much; else a fifth. Each text on lines of
    // its own, if there is room.
    let together = vec![texts.join(" ")];
    let ways = [(&texts, 4), (&texts, 5), (&together, 4), (&together, 5)];
    let fit = ways.into_iter().find_map(|(texts, part)| {
        let (beside, words) = aside(item.direction, (area.width / part) & !1, area);
        let room = Size::new(words.width.saturating_sub(2), words.height);
        Some((Paragraphs::within(texts, room, 16)?, beside, words))
    });
    let Some((fit, beside, words)) = fit else {
        let sign = item.direction.arrow();
        return draw_large(&format!("{} {sign} {when}", together[0]), area, buffer);
    };
    fit.draw_in_the_middle(words, buffer);
    let seconds = (beside.height / 2).saturating_sub(1);
    let (above, below) = (
        Rect { height: beside.height / 2, ..beside },
        Rect { y: beside.bottom() - seconds, height: seconds, ..beside },
    );
    if item.direction == Direction::InPlace {
        draw_large(&when, beside, buffer);
    } else {
        big::arrow(item.direction, above, buffer);
        draw_large(&when, below, buffer);
    }
}

/// So many columns on the side to which the arrow points, and the rest.
fn aside(direction: Direction, columns: u16, area: Rect) -> (Rect, Rect) {
    let columns = columns.min(area.width);
    let rest = area.width - columns;
    let (beside, words) =
        if direction.is_leftward() { (area.x, area.x + columns) } else { (area.right() - columns, area.x) };
    (Rect { x: beside, width: columns, ..area }, Rect { x: words, width: rest, ..area })
}

/// Draws words that need no answer: in the middle, and clearly smaller than a call.
pub(crate) fn draw_small(words: &str, area: Rect, buffer: &mut Buffer) {
    let height = (area.height / 3).max(area.height.min(4));
    draw_large(words, Rect { y: area.y + (area.height - height) / 2, height, ..area }, buffer);
}

/// Draws words in the middle of the area, in the largest letters that fit, or in bold text if none do.
pub(crate) fn draw_large(words: &str, area: Rect, buffer: &mut Buffer) {
    if let Some(fit) = Words::fit(words, area.as_size()) {
        return fit.draw(area, buffer);
    }
    let lines = words::wrap(words, usize::from(area.width));
    let wide = lines.iter().map(|line| line.width() as u16).max().unwrap_or(0);
    let left = area.x + area.width.saturating_sub(wide) / 2;
    let above = area.height.saturating_sub(lines.len() as u16) / 2;
    let bold = Style::new().add_modifier(Modifier::BOLD);
    for (line, row) in lines.iter().zip(area.rows().skip(usize::from(above))) {
        buffer.set_stringn(left, row.y, line, usize::from(area.width), bold);
    }
}
