//! How is a page written as plain text, for a terminal of 80 columns?

use unicode_width::UnicodeWidthStr;

use crate::display::chart;
use crate::display::words::between_words;
use counterpoise_core::blocks::{Block, Chart, Table};
use counterpoise_core::words::Printable;

/// The width of what is printed for people: it fits a terminal of 80 columns with a margin.
pub(in crate::cli) const WIDTH: usize = 78;

const INDENT: &str = "  ";
/// The fewest columns that a column of text is wrapped to.
const LEAST_TEXT: usize = 24;
/// The least width of labels: pages of a form look alike.
const LEAST_LABEL: usize = 7;
/// Blanks between keys on one line.
const BETWEEN: usize = 3;

/// The page, each line with its end.
pub(in crate::cli) fn of(blocks: &[Block]) -> String {
    let widest = |label: fn(&Block) -> Option<&str>| {
        blocks.iter().filter_map(label).map(UnicodeWidthStr::width).max().unwrap_or(0)
    };
    let label = widest(|block| if let Block::Fact(label, _) = block { Some(label) } else { None });
    let key = widest(|block| if let Block::Choice(key, _) = block { Some(key) } else { None });
    let mut page = String::new();
    for (index, block) in blocks.iter().enumerate() {
        if index > 0 && is_apart(&blocks[index - 1], block) {
            page.push('\n');
        }
        page += &match block {
            Block::Heading(text) | Block::Line(text) => fill("", "", text),
            Block::Text(text) | Block::Item(text) => fill(INDENT, INDENT, text),
            Block::About(of) => fill(INDENT, INDENT, &format!("{}: {}", of.about, of.text)),
            Block::Fact(name, value) => {
                hanging(&format!("{INDENT}{}{INDENT}", padded(name, label.max(LEAST_LABEL))), value)
            }
            Block::Choice(name, meaning) => {
                hanging(&format!("{INDENT}{}{INDENT}", right(name, key)), meaning)
            }
            Block::Keys(keys) => columns(keys),
            Block::Verbatim(lines) => lines.iter().map(|line| fitted(line)).collect(),
            Block::Gap => "\n".to_owned(),
            Block::Chart(chart) => with_legend(chart),
            Block::Table(table) => rows(table),
        };
    }
    page
}

/// Whether a blank line is between two blocks.
fn is_apart(before: &Block, block: &Block) -> bool {
    let is_wide = match block {
        Block::Text(_) | Block::About(_) | Block::Chart(_) => true,
        Block::Table(table) => !table.title.is_empty(),
        _ => false,
    };
    match before {
        Block::Gap => false,
        Block::Heading(_) => matches!(block, Block::Heading(_)),
        _ => is_wide || matches!(block, Block::Heading(_)),
    }
}

/// `text` in lines of at most [`WIDTH`] columns, the first behind `first` and the others behind `rest`. A word is broken only
/// in a script that sets no blanks between words: a path or a digest must stay whole to be copied.
fn fill(first: &str, rest: &str, text: &str) -> String {
    let text = Printable::of(text);
    let options = between_words(WIDTH).initial_indent(first).subsequent_indent(rest);
    let options = options.break_words(text.width() > text.chars().count());
    textwrap::fill(&text, options).trim_end().to_owned() + "\n"
}

/// `text` after `label`, its later lines under its first.
pub(in crate::cli) fn hanging(label: &str, text: &str) -> String {
    fill(label, &" ".repeat(label.width()), text)
}

/// A line as it is; a longer one is wrapped at its own indent.
fn fitted(line: &str) -> String {
    let text = line.trim_start_matches(' ');
    let indent = &line[..line.len() - text.len()];
    fill(indent, indent, text)
}

fn padded(text: &str, width: usize) -> String {
    let text = Printable::of(text);
    format!("{text}{}", " ".repeat(width.saturating_sub(text.width())))
}

fn right(text: &str, width: usize) -> String {
    let text = Printable::of(text);
    format!("{}{text}", " ".repeat(width.saturating_sub(text.width())))
}

/// Keys in one line if they fit, else in columns of one width. Where two columns have no room, as many on a line as fit.
fn columns(keys: &[String]) -> String {
    let room = WIDTH - INDENT.len() + BETWEEN;
    let taken = |key: &str| Printable::of(key).width() + BETWEEN;
    let column = keys.iter().map(|key| taken(key)).max().unwrap_or(1);
    let in_one = keys.iter().map(|key| taken(key)).sum::<usize>() <= room;
    let width = if in_one || room / column < 2 { 0 } else { column };
    let (mut lines, mut used) = (vec![INDENT.to_owned()], 0);
    for key in keys {
        let taken = taken(key).max(width);
        if used > 0 && used + taken > room {
            lines.push(INDENT.to_owned());
            used = 0;
        }
        used += taken;
        let line = lines.pop().unwrap_or_default();
        lines.push(line + &padded(key, taken));
    }
    lines.iter().map(|line| line.trim_end().to_owned() + "\n").collect()
}

fn with_legend(chart: &Chart) -> String {
    let mut text = fill(INDENT, INDENT, &chart.title);
    for line in chart::lines(chart, (WIDTH - INDENT.len()) as u16) {
        text += &fitted(&format!("{INDENT}{line}"));
    }
    text + &chart::legend(chart).map_or_else(String::new, |legend| fill(INDENT, INDENT, &legend))
}

/// Words from the left, figures from the right. Where the columns do not fit, the last one is text, wrapped.
fn rows(table: &Table) -> String {
    let indent = if table.title.is_empty() { "" } else { INDENT };
    let set = |row: &Vec<String>| row.iter().map(|cell| Printable::of(cell)).collect::<Vec<_>>();
    let rows: Vec<Vec<Printable>> = [&table.head].into_iter().chain(&table.rows).map(set).collect();
    let width = |column: usize| rows.iter().map(|row| row[column].width()).max().unwrap_or(0);
    let widths: Vec<usize> = (0..table.head.len()).map(width).collect();
    let (last, front) = widths.split_last().expect("a table has a column");
    let before = indent.len() + front.iter().map(|width| width + 2).sum::<usize>();
    let is_wide = before + last > WIDTH && before + LEAST_TEXT <= WIDTH;
    let mut text = if table.title.is_empty() { String::new() } else { fill(INDENT, INDENT, &table.title) };
    for row in rows {
        let mut line = indent.to_owned();
        for (column, cell) in row[..front.len()].iter().enumerate() {
            let place = if table.is_of_words(column) { padded } else { right };
            line += &(place(cell, widths[column]) + "  ");
        }
        let cell = &row[front.len()];
        if is_wide {
            text += &hanging(&line, cell);
        } else {
            let place = if table.is_of_words(front.len()) { padded } else { right };
            text += &format!("{}\n", (line + &place(cell, *last)).trim_end());
        }
    }
    text
}

#[cfg(test)]
mod test;
