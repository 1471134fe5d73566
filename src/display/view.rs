//! How does a [`Screen`] look in cells? A pure function of the value and the size, read from three meters by
//! someone of 80. Not when it is drawn (that is [`terminal`](super::terminal)).
//!
//! No color at all, only bold and reverse: the terminal's own two colors have the contrast its owner chose, and
//! `NO_COLOR` has nothing to turn off.

use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::layout::{Rect, Size};
use ratatui::style::{Modifier, Style};

use super::big::{self, Words};
use super::words;
use crate::millis::Millis;
use crate::session::screen::{Body, KeyHint, Screen, Shown};

/// The widest a paragraph gets: longer lines lose the eye on the way back (45 to 75 is the common advice;
/// common practice, no source).
const PARAGRAPH: u16 = 76;

/// One line of text and how it stands out.
struct Row {
    text: String,
    style: Style,
}

impl Row {
    fn plain(text: impl Into<String>) -> Self {
        Self { text: text.into(), style: Style::new() }
    }

    fn bold(text: impl Into<String>) -> Self {
        Self { text: text.into(), style: Style::new().add_modifier(Modifier::BOLD) }
    }

    fn blank() -> Self {
        Self::plain("")
    }

    /// Indented by the first line's lead, `- ` or a key: what wraps stands under the words, not under the lead.
    fn hanging(lead: &str, text: &str, width: u16) -> Vec<Self> {
        let indent = lead.chars().count();
        let lines = words::wrap(text, usize::from(width).saturating_sub(indent));
        let lead_of = |i| if i == 0 { lead.to_owned() } else { " ".repeat(indent) };
        if lines.is_empty() {
            return vec![Self::plain(lead.trim_end())];
        }
        lines.iter().enumerate().map(|(i, line)| Self::plain(lead_of(i) + line)).collect()
    }
}

/// Draws the screen on the whole frame.
pub fn draw(screen: &Screen, frame: &mut Frame) {
    draw_in(screen, frame.area(), frame.buffer_mut());
}

/// Draws the screen in one area, whatever its size; what has no room is left out, the main part last.
pub fn draw_in(screen: &Screen, area: Rect, buffer: &mut Buffer) {
    let mut area = area.intersection(buffer.area);
    if area.is_empty() {
        return;
    }
    notices(&screen.notices, &mut area, buffer);
    if !screen.place.is_empty() && area.height > 3 {
        let place = split_top(&mut area, 1);
        put(&[Row::bold(screen.place.as_str())], place, buffer);
    }
    keys(&screen.keys, &mut area, buffer);
    match &screen.body {
        Body::Page { title, text, items } => page(title, text, items, area, buffer),
        Body::Question { ask, answers, asking_again } => question(ask, answers, *asking_again, area, buffer),
        Body::Count { number, standing } => count(*number, standing, area, buffer),
        Body::Work { call, left, whole } => {
            bar(*left, *whole, &words::left(*left), &mut area, buffer);
            match call {
                Some(call) => shout(call, area, buffer),
                None => loud(words::LISTEN, area, buffer),
            }
        }
        Body::Paused { left, ends_in } => {
            let below = [Row::bold(words::left(*left)), Row::plain(words::ends_in(*ends_in))];
            loud_over(words::PAUSED, &below, area, buffer);
        }
        Body::Rest { left, whole, next } => rest(*left, *whole, next, area, buffer),
    }
}

/// A reversed block at the top, a blank row under it when there is room.
fn notices(notices: &[String], area: &mut Rect, buffer: &mut Buffer) {
    let style = Style::new().add_modifier(Modifier::BOLD | Modifier::REVERSED);
    let wide = usize::from(area.width.saturating_sub(2));
    let lines: Vec<_> = notices.iter().flat_map(|notice| words::wrap(notice, wide)).collect();
    // The main part keeps a row, even when that cuts the notices.
    let block = split_top(area, (lines.len() as u16).min(area.height.saturating_sub(1)));
    for (row, line) in block.rows().zip(lines) {
        buffer.set_style(row, style);
        put(&[Row { text: format!(" {line}"), style }], row, buffer);
    }
    if block.height > 0 && area.height > 12 {
        split_top(area, 1);
    }
}

/// The keys at the bottom, as many on a row as fit; a blank row above them when there is room.
fn keys(keys: &[KeyHint], area: &mut Rect, buffer: &mut Buffer) {
    let mut lines: Vec<String> = Vec::new();
    for hint in keys.iter().map(words::key) {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 4 + hint.chars().count() <= usize::from(area.width) => {
                line.push_str("    ");
                line.push_str(&hint);
            }
            _ => lines.extend(words::wrap(&hint, usize::from(area.width))),
        }
    }
    let rows = (lines.len() as u16).min(area.height / 3);
    let block = split_bottom(area, rows);
    put(&lines.into_iter().map(Row::bold).collect::<Vec<_>>(), block, buffer);
    if rows > 0 && area.height > 12 {
        split_bottom(area, 1);
    }
}

fn page(title: &str, text: &[String], items: &[String], area: Rect, buffer: &mut Buffer) {
    let width = area.width.min(PARAGRAPH);
    let mut rows: Vec<_> = words::wrap(title, usize::from(area.width)).into_iter().map(Row::bold).collect();
    for paragraph in text {
        rows.push(Row::blank());
        rows.extend(words::wrap(paragraph, usize::from(width)).into_iter().map(Row::plain));
    }
    if !items.is_empty() {
        rows.push(Row::blank());
    }
    rows.extend(items.iter().flat_map(|item| Row::hanging("- ", item, width)));
    put_tight(rows, area, buffer);
}

fn question(ask: &str, answers: &[KeyHint], again: bool, area: Rect, buffer: &mut Buffer) {
    let width = usize::from(area.width.min(PARAGRAPH));
    let mut rows = Vec::new();
    if again {
        let style = Style::new().add_modifier(Modifier::BOLD | Modifier::REVERSED);
        rows.extend(words::wrap(words::ALL_RIGHT, width).into_iter().map(|text| Row { text, style }));
        rows.push(Row::blank());
    }
    rows.extend(words::wrap(ask, width).into_iter().map(Row::bold));
    rows.push(Row::blank());
    let wide = answers.iter().map(|answer| answer.key.chars().count()).max().unwrap_or(0);
    for answer in answers {
        rows.extend(Row::hanging(&format!("{:wide$}   ", answer.key), &answer.does, width as u16));
    }
    put_tight(rows, area, buffer);
}

fn count(number: Option<u8>, standing: &[String], area: Rect, buffer: &mut Buffer) {
    let width = usize::from(area.width.min(PARAGRAPH));
    let below: Vec<_> = standing.iter().flat_map(|line| words::wrap(line, width)).map(Row::bold).collect();
    let words = number.map_or_else(|| words::GET_READY.to_owned(), |number| number.to_string());
    loud_over(&words, &below, area, buffer);
}

fn rest(left: Millis, whole: Millis, next: &str, mut area: Rect, buffer: &mut Buffer) {
    let below: Vec<_> =
        words::wrap(next, usize::from(area.width.min(PARAGRAPH))).into_iter().map(Row::bold).collect();
    if left == Millis(0) {
        loud_over(words::REST_OVER, &below, area, buffer);
    } else {
        bar(left, whole, &words::rest_left(left), &mut area, buffer);
        loud_over(&words::seconds(left).to_string(), &below, area, buffer);
    }
}

/// The call: words as large as they get, and an arrow in the larger of the two rooms that they leave.
fn shout(call: &Shown, area: Rect, buffer: &mut Buffer) {
    let beside = if area.width >= 40 { area.width / 5 } else { 0 };
    let room = Size::new(area.width - beside, area.height);
    let Some(fit) = Words::fit(&call.words, room).or_else(|| Words::fit(&call.words, area.as_size())) else {
        return loud(&call.words, area, buffer);
    };
    let taken = fit.size();
    let right = (area.width - taken.width).saturating_sub(1).max(beside.saturating_sub(1));
    let below = area.height - taken.height;
    if right / 2 >= below {
        let right = (right / 2).min(area.height) * 2;
        let words = Rect { width: area.width - right, ..area };
        fit.draw(words, buffer);
        big::arrow(call.direction, Rect { x: area.right() - right, width: right, ..area }, buffer);
    } else {
        fit.draw(Rect { height: taken.height, ..area }, buffer);
        big::arrow(call.direction, Rect { y: area.y + taken.height, height: below, ..area }, buffer);
    }
}

/// Words in the middle of the area, in the largest letters that fit; in bold text where none do.
fn loud(words: &str, area: Rect, buffer: &mut Buffer) {
    if let Some(fit) = Words::fit(words, area.as_size()) {
        return fit.draw(area, buffer);
    }
    let lines = words::wrap(words, usize::from(area.width));
    let mut top = area;
    split_top(&mut top, area.height.saturating_sub(lines.len() as u16) / 2);
    let wide = lines.iter().map(|line| line.chars().count() as u16).max().unwrap_or(0);
    top.x += top.width.saturating_sub(wide) / 2;
    top.width = top.width.min(wide);
    put(&lines.into_iter().map(Row::bold).collect::<Vec<_>>(), top, buffer);
}

/// Loud words, and some rows of text under them: the words keep at least one row.
fn loud_over(words: &str, below: &[Row], mut area: Rect, buffer: &mut Buffer) {
    let rows = (below.len() as u16).min(area.height.saturating_sub(1));
    let text = split_bottom(&mut area, rows);
    put(below, text, buffer);
    loud(words, area, buffer);
}

/// One row at the bottom: how much is left, drawn and in words.
fn bar(left: Millis, whole: Millis, said: &str, area: &mut Rect, buffer: &mut Buffer) {
    if area.height < 2 {
        return;
    }
    let row = split_bottom(area, 1);
    let said_wide = said.chars().count() as u16;
    let wide = row.width.saturating_sub(said_wide + 2);
    let full = if whole.0 == 0 { 0 } else { u64::from(wide) * u64::from(left.0) / u64::from(whole.0) };
    let full = full.min(u64::from(wide)) as usize;
    let drawn = "█".repeat(full) + &"░".repeat(usize::from(wide) - full);
    let gap = if wide > 0 { "  " } else { "" };
    put(&[Row::bold(format!("{drawn}{gap}{said}"))], row, buffer);
}

/// Rows from the top; blank ones go first when there is no room for all.
fn put_tight(mut rows: Vec<Row>, area: Rect, buffer: &mut Buffer) {
    let room = usize::from(area.height);
    while rows.len() > room {
        let Some(blank) = rows.iter().rposition(|row| row.text.is_empty()) else { break };
        rows.remove(blank);
    }
    if rows.len() > room && room > 1 {
        rows.truncate(room - 1);
        rows.push(Row::bold("(more: make the window larger)"));
    }
    put(&rows, area, buffer);
}

fn put(rows: &[Row], area: Rect, buffer: &mut Buffer) {
    for (place, row) in area.rows().zip(rows) {
        buffer.set_stringn(place.x, place.y, &row.text, usize::from(place.width), row.style);
    }
}

/// Takes rows off the top of an area.
fn split_top(area: &mut Rect, rows: u16) -> Rect {
    let rows = rows.min(area.height);
    let top = Rect { height: rows, ..*area };
    area.y += rows;
    area.height -= rows;
    top
}

/// Takes rows off the bottom of an area.
fn split_bottom(area: &mut Rect, rows: u16) -> Rect {
    let rows = rows.min(area.height);
    area.height -= rows;
    Rect { y: area.bottom(), height: rows, ..*area }
}

#[cfg(test)]
mod test;
