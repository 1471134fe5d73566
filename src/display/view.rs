//! How does a [`Screen`] look in cells? A pure function of the value and the size, for an 80-year-old who reads it from
//! three meters.
//!
//! No color at all, only bold and reverse: the terminal's own two colors have the contrast its owner chose, and
//! `NO_COLOR` has nothing to turn off.

use ratatui::buffer::Buffer;
use ratatui::layout::{Rect, Size};
use ratatui::style::{Modifier, Style};

use super::big::{Paragraphs, Words};
use super::callout::{draw_call, draw_item, draw_large, draw_small};
use super::{dot, words};
use counterpoise_core::practice::session::screen::{Body, KeyHint, Screen};
use counterpoise_core::units::Millis;

/// The widest a paragraph gets: longer lines lose the eye on the way back (45 to 75 is the common advice;
/// common practice, no source).
const PARAGRAPH: u16 = 76;

/// From this size on, pages and questions are drawn in large letters too, where they fit: so many cells on one screen
/// are small ones (judgment).
const ROOMY: Size = Size::new(140, 40);

/// Rows of the smallest large letters, and columns of one.
const LINE: u16 = 4;
/// Characters on a line of a number that is broken: "CALL" and a blank, then as many again.
const BROKEN_AFTER: usize = 5;
/// Rows of a large edge: one line and the gap to the main part.
const EDGE: u16 = LINE + 2;

/// One line of text and how it stands out.
struct Row {
    /// A key, reversed like the top of a key on a keyboard; mostly empty.
    key: String,
    text: String,
    style: Style,
}

impl Row {
    fn plain(text: impl Into<String>) -> Self {
        Self { key: String::new(), text: text.into(), style: Style::new() }
    }

    fn bold(text: impl Into<String>) -> Self {
        Self { style: Style::new().add_modifier(Modifier::BOLD), ..Self::plain(text) }
    }

    fn reversed(text: impl Into<String>) -> Self {
        Self { style: Style::new().add_modifier(Modifier::BOLD | Modifier::REVERSED), ..Self::plain(text) }
    }

    fn blank() -> Self {
        Self::plain("")
    }

    /// Indented by the first line's lead: wrapped lines begin under the words, not under the lead.
    fn hanging(lead: &str, text: &str, width: u16) -> Vec<Self> {
        let indent = lead.chars().count();
        let lines = words::wrap(text, usize::from(width).saturating_sub(indent));
        let lead_of = |i| if i == 0 { lead.to_owned() } else { " ".repeat(indent) };
        if lines.is_empty() {
            return vec![Self::plain(lead.trim_end())];
        }
        lines.iter().enumerate().map(|(i, line)| Self::plain(lead_of(i) + line)).collect()
    }

    /// A key, then what it means, in a column as wide as `wide` letters of keys.
    fn answer(answer: &KeyHint, wide: usize, width: u16) -> Vec<Self> {
        let lead = " ".repeat(wide + 5);
        let mut rows = Self::hanging(&lead, &answer.does, width);
        rows[0].key = format!(" {:wide$} ", answer.key);
        rows[0].text = format!("   {}", rows[0].text.trim_start());
        rows
    }
}

/// Draws the screen in one area, whatever its size; what has no room is left out, the main part last.
pub fn draw_in(screen: &Screen, area: Rect, buffer: &mut Buffer) {
    let mut area = area.intersection(buffer.area);
    if area.is_empty() {
        return;
    }
    if area.width >= 60 {
        area = Rect { x: area.x + 2, width: area.width - 4, ..area };
    }
    notices(screen, &mut area, buffer);
    let large = main_part_may_be_large(screen, area);
    let is_quiet = matches!(screen.body, Body::Follow { .. });
    if !screen.place.is_empty() && area.height > 3 && !is_quiet {
        place(&screen.place, large, &mut area, buffer);
    }
    keys(&screen.keys, large, &mut area, buffer);
    match &screen.body {
        Body::Page { title, text, items } => page(title, text, items, area, buffer),
        Body::Emergency { number, text } => emergency(number.as_deref(), text, area, buffer),
        Body::Question { ask, answers, asking_again } => question(ask, answers, *asking_again, area, buffer),
        Body::Count { number, standing } => count(*number, standing, area, buffer),
        Body::Work { call, left, whole } => {
            bar(*left, *whole, &words::left(*left), &mut area, buffer);
            match call {
                Some(call) => draw_call(call, area, buffer),
                None => draw_small(words::LISTEN, area, buffer),
            }
        }
        // A partner with a hand on a person does not read the time: the item gets the room.
        Body::Partner { item: Some(item), .. } => draw_item(item, area, buffer),
        Body::Partner { item: None, left, whole } => {
            bar(*left, *whole, &words::left(*left), &mut area, buffer);
            draw_small(words::HOLD, area, buffer);
        }
        // Nothing but the target moves.
        Body::Follow { across_per_mille, down_per_mille, .. } => {
            dot::draw((*across_per_mille, *down_per_mille), area, buffer);
        }
        Body::Course { patches } => course(patches, area, buffer),
        Body::Paused { left, ends_in } => {
            let below = [Row::bold(words::left(*left)), Row::plain(words::ends_in(*ends_in))];
            large_over(words::PAUSED, &below, area, buffer);
        }
        Body::Rest { left, whole, next } => rest(*left, *whole, next, area, buffer),
    }
}

/// A reversed block at the top, a blank row under it when there is room. In large letters where the main part stays
/// large under it.
fn notices(screen: &Screen, area: &mut Rect, buffer: &mut Buffer) {
    let notices = &screen.notices;
    // A quarter of the height, or as little as two lines or one, if the page needs the rest.
    let rooms = [area.height / 4, 2 * LINE, LINE].map(|rows| Size::new(area.width.saturating_sub(4), rows));
    let under = |large: &Paragraphs| {
        let mut under = *area;
        split_top(&mut under, large.rows() as u16 + 1);
        under
    };
    let large = rooms.iter().filter(|_| is_roomy(*area)).filter_map(|room| Paragraphs::fit(notices, *room));
    if let Some(large) = large.into_iter().find(|large| main_part_may_be_large(screen, under(large))) {
        let block = split_top(area, large.rows() as u16);
        buffer.set_style(block, Row::reversed("").style);
        large.draw(Rect { x: block.x + 2, ..block }, buffer);
        if block.height > 0 {
            split_top(area, 1);
        }
        return;
    }
    let wide = usize::from(area.width.saturating_sub(2));
    let lines: Vec<_> = notices.iter().flat_map(|notice| words::wrap(notice, wide)).collect();
    // The main part keeps a row, even when that cuts the notices.
    let block = split_top(area, (lines.len() as u16).min(area.height.saturating_sub(1)));
    for (place, line) in block.rows().zip(lines) {
        let row = Row::reversed(format!(" {line}"));
        buffer.set_style(place, row.style);
        put(&[row], place, buffer);
    }
    if block.height > 0 && area.height > 12 {
        split_top(area, 1);
    }
}

/// Whether the main part is large between large edges.
fn main_part_may_be_large(screen: &Screen, area: Rect) -> bool {
    let place = if screen.place.is_empty() { 0 } else { EDGE };
    let keys = large_keys(&screen.keys, area.width).map_or(0, |keys| keys.rows() as u16 + EDGE - LINE);
    let between = Size::new(area.width, area.height.saturating_sub(place + keys));
    is_roomy(area)
        && match &screen.body {
            Body::Page { title, text, items } => {
                Paragraphs::fit(&page_texts(title, text, items), between).is_some()
            }
            Body::Question { ask, answers, asking_again } => {
                Paragraphs::fit(&question_texts(ask, answers, *asking_again), between).is_some()
            }
            Body::Course { patches } => Paragraphs::fit(&course_texts(patches), between).is_some(),
            Body::Count { .. }
            | Body::Emergency { .. }
            | Body::Work { .. }
            | Body::Partner { .. }
            | Body::Follow { .. }
            | Body::Paused { .. }
            | Body::Rest { .. } => true,
        }
}

fn is_roomy(area: Rect) -> bool {
    // Margins, and large edges, may have been taken off already.
    area.width + 4 >= ROOMY.width && area.height + 3 * EDGE >= ROOMY.height
}

/// Where we are, a blank row under it when there is room.
fn place(said: &str, large: bool, area: &mut Rect, buffer: &mut Buffer) {
    if !(large && one_large_line(said, area, buffer)) {
        let top = split_top(area, 1);
        put(&[Row::bold(said)], top, buffer);
        if area.height > 16 {
            split_top(area, 1);
        }
    }
}

/// Draws a line large at the top of the area, if it fits; whether it did.
fn one_large_line(said: &str, area: &mut Rect, buffer: &mut Buffer) -> bool {
    let Some(large) = Words::line(said, 0, Size::new(area.width, LINE)) else { return false };
    Paragraphs::one(large).draw(split_top(area, LINE), buffer);
    split_top(area, EDGE - LINE);
    true
}

/// The keys at the bottom, as many on a row as fit; a blank row above them when there is room.
fn keys(keys: &[KeyHint], large: bool, area: &mut Rect, buffer: &mut Buffer) {
    if let Some(large) = large_keys(keys, area.width).filter(|_| large) {
        large.draw(split_bottom(area, large.rows() as u16), buffer);
        split_bottom(area, EDGE - LINE);
        return;
    }
    let lines = key_lines(keys, "    ", usize::from(area.width));
    let rows = (lines.len() as u16).min(area.height / 3);
    let block = split_bottom(area, rows);
    put(&lines.into_iter().map(Row::bold).collect::<Vec<_>>(), block, buffer);
    if rows > 0 && area.height > 12 {
        split_bottom(area, 1);
    }
}

/// The keys, in lines of at most `letters` characters.
fn key_lines(keys: &[KeyHint], between: &str, letters: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for hint in keys.iter().map(words::key) {
        match lines.last_mut() {
            Some(line)
                if [line, between, &hint].map(|part| part.chars().count()).iter().sum::<usize>()
                    <= letters =>
            {
                line.push_str(between);
                line.push_str(&hint);
            }
            _ => lines.extend(words::wrap(&hint, letters)),
        }
    }
    lines
}

/// The keys in large letters, on two lines at most.
fn large_keys(keys: &[KeyHint], width: u16) -> Option<Paragraphs> {
    let lines = key_lines(keys, "   ", usize::from(width / LINE));
    Paragraphs::lines(&lines, Size::new(width, LINE)).filter(|_| lines.len() <= 2)
}

fn page_texts(title: &str, text: &[String], items: &[String]) -> Vec<String> {
    let items = items.iter().map(|item| format!("- {item}"));
    [title.to_owned()].into_iter().chain(text.iter().cloned()).chain(items).collect()
}

fn question_texts(ask: &str, answers: &[KeyHint], again: bool) -> Vec<String> {
    let again = again.then(|| words::ALL_RIGHT.to_owned());
    again.into_iter().chain([ask.to_owned()]).chain(answers.iter().map(words::key)).collect()
}

fn page(title: &str, text: &[String], items: &[String], area: Rect, buffer: &mut Buffer) {
    if roomy(&page_texts(title, text, items), area, buffer) {
        return;
    }
    let width = area.width.min(PARAGRAPH);
    let mut rows: Vec<_> = words::wrap(title, usize::from(area.width)).into_iter().map(Row::bold).collect();
    for paragraph in text {
        rows.push(Row::blank());
        rows.extend(words::wrap(paragraph, usize::from(width)).into_iter().map(Row::plain));
    }
    let items: Vec<_> = items.iter().map(|item| Row::hanging("- ", item, width)).collect();
    // A blank row before the first item, and before the others if there is room for all.
    let spaced =
        rows.len() + items.iter().map(|item| item.len() + 1).sum::<usize>() <= usize::from(area.height);
    for (i, item) in items.into_iter().enumerate() {
        if i == 0 || spaced {
            rows.push(Row::blank());
        }
        rows.extend(item);
    }
    put_tight(rows, area, buffer);
}

fn course_texts(patches: &[String]) -> Vec<String> {
    [words::COURSE.to_owned()].into_iter().chain(words::course(patches)).collect()
}

/// The order of the patches, in large letters where they fit, since the person who lays them is away from the screen.
fn course(patches: &[String], mut area: Rect, buffer: &mut Buffer) {
    if roomy(&course_texts(patches), area, buffer) {
        return;
    }
    put(&[Row::bold(words::COURSE)], split_top(&mut area, 2), buffer);
    let patches = words::course(patches);
    match Paragraphs::fit(&patches, area.as_size()) {
        Some(large) => large.draw(area, buffer),
        None => put_tight(patches.into_iter().map(Row::bold).collect(), area, buffer),
    }
}

fn question(ask: &str, answers: &[KeyHint], again: bool, area: Rect, buffer: &mut Buffer) {
    if again && ask == words::ALL_RIGHT && answers.is_empty() {
        let (ask, to_do) = words::all_right();
        return large_over(ask, &[Row::bold(to_do)], area, buffer);
    }
    if roomy(&question_texts(ask, answers, again), area, buffer) {
        return;
    }
    let width = area.width.min(PARAGRAPH);
    let mut rows = Vec::new();
    if again {
        rows.extend(words::wrap(words::ALL_RIGHT, usize::from(width)).into_iter().map(Row::reversed));
        rows.push(Row::blank());
    }
    rows.extend(words::wrap(ask, usize::from(width)).into_iter().map(Row::bold));
    let wide = answers.iter().map(|answer| answer.key.chars().count()).max().unwrap_or(0);
    let answers: Vec<_> = answers.iter().map(|answer| Row::answer(answer, wide, width)).collect();
    let spaced =
        rows.len() + answers.iter().map(|answer| answer.len() + 1).sum::<usize>() <= usize::from(area.height);
    for (i, answer) in answers.into_iter().enumerate() {
        if i == 0 || spaced {
            rows.push(Row::blank());
        }
        rows.extend(answer);
    }
    put_tight(rows, area, buffer);
}

/// Draws a whole page in large letters, if there is room; whether it did.
fn roomy(texts: &[String], area: Rect, buffer: &mut Buffer) -> bool {
    let large =
        Some(area).filter(|area| is_roomy(*area)).and_then(|area| Paragraphs::fit(texts, area.as_size()));
    large.inspect(|all| all.draw(area, buffer)).is_some()
}

fn count(number: Option<u8>, standing: &[String], area: Rect, buffer: &mut Buffer) {
    let width = usize::from(area.width.min(PARAGRAPH));
    let below: Vec<_> = standing.iter().flat_map(|line| words::wrap(line, width)).map(Row::bold).collect();
    let words = number.map_or_else(|| words::GET_READY.to_owned(), |number| number.to_string());
    large_over(&words, &below, area, buffer);
}

fn rest(left: Millis, whole: Millis, next: &str, mut area: Rect, buffer: &mut Buffer) {
    let below: Vec<_> =
        words::wrap(next, usize::from(area.width.min(PARAGRAPH))).into_iter().map(Row::bold).collect();
    if left == Millis(0) {
        large_over(words::REST_OVER, &below, area, buffer);
    } else {
        bar(left, whole, &words::rest_left(left), &mut area, buffer);
        large_over(&format!("{} {}", words::REST, words::seconds(left)), &below, area, buffer);
    }
}

/// Whom to call, in the largest letters that fit; under it what else to do, one sentence on each line.
fn emergency(number: Option<&str>, text: &[String], area: Rect, buffer: &mut Buffer) {
    let width = usize::from(area.width.min(PARAGRAPH));
    let below: Vec<_> = text.iter().flat_map(|line| words::wrap(line, width)).map(Row::bold).collect();
    let mut call = words::call(number);
    // A number written without blanks, too long for a line of large letters, is broken.
    if call.split(' ').any(|word| word.chars().count() > usize::from(area.width / LINE)) {
        let letters: Vec<char> = call.chars().collect();
        let parts = letters.chunks(BROKEN_AFTER).map(|part| part.iter().collect::<String>());
        call = parts.collect::<Vec<_>>().join(" ");
    }
    large_over(&call, &below, area, buffer);
}

/// Loud words, and some rows of text under them: the words keep at least one row.
fn large_over(words: &str, below: &[Row], mut area: Rect, buffer: &mut Buffer) {
    // A third for the text, or half or two thirds if that is what it takes.
    let rooms = [(1, 3), (1, 2), (2, 3)].map(|(part, of)| Size::new(area.width, area.height * part / of));
    let texts: Vec<_> = below.iter().map(|row| row.text.clone()).collect();
    let fit = |room: Size| Some((Paragraphs::fit(&texts, room)?, room));
    if let Some((large, room)) = rooms.into_iter().filter(|_| is_roomy(area)).find_map(fit) {
        large.draw(split_bottom(&mut area, room.height), buffer);
    } else {
        let rows = (below.len() as u16).min(area.height.saturating_sub(1));
        put(below, split_bottom(&mut area, rows), buffer);
    }
    draw_large(words, area, buffer);
}

/// At the bottom, as high as the area allows: how much is left, drawn and in words.
fn bar(left: Millis, whole: Millis, said: &str, area: &mut Rect, buffer: &mut Buffer) {
    if area.height < 2 {
        return;
    }
    let high = if is_roomy(*area) { LINE } else { (area.height / 9).clamp(1, LINE) };
    let rows = split_bottom(area, high);
    if area.height > 12 {
        split_bottom(area, 1);
    }
    let large = Words::line(said, "10 s left".len(), Size::new(2 * rows.width / 5, rows.height));
    let said_wide =
        large.as_ref().map_or(said.chars().count() as u16, |large| large.size().width).min(rows.width);
    let wide = rows.width.saturating_sub(said_wide + 2);
    let full = if whole.0 == 0 { 0 } else { u64::from(wide) * u64::from(left.0) / u64::from(whole.0) };
    let full = full.min(u64::from(wide)) as usize;
    let drawn = || Row::bold("█".repeat(full) + &"░".repeat(usize::from(wide) - full));
    put(&(0..rows.height).map(|_| drawn()).collect::<Vec<_>>(), rows, buffer);
    let beside = Rect { x: rows.right() - said_wide, width: said_wide, ..rows };
    match large {
        Some(large) => large.draw(beside, buffer),
        None => put(&[Row::bold(said)], beside, buffer),
    }
}

/// Rows from the top; blank ones go first when there is no room for all.
fn put_tight(mut rows: Vec<Row>, area: Rect, buffer: &mut Buffer) {
    let room = usize::from(area.height);
    while rows.len() > room {
        let Some(blank) = rows.iter().rposition(|row| row.text.is_empty() && row.key.is_empty()) else {
            break;
        };
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
        let key = Row::reversed("").style;
        let (x, _) = buffer.set_stringn(place.x, place.y, &row.key, usize::from(place.width), key);
        buffer.set_stringn(x, place.y, &row.text, usize::from(place.right().saturating_sub(x)), row.style);
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
