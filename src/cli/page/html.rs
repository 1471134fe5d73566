//! How is a page of blocks written as one HTML file? Without scripts or anything to fetch; every picture has a description
//! and a table.

use std::io::{self, Write};

use crate::display::svg::{self, escaped};
use counterpoise_core::blocks::{Block, Table};

const STYLE: &str = "\
body{font:18px/1.5 sans-serif;color:#222;background:#fff;max-width:50rem;margin:2rem auto;padding:0 1rem}\
h1{font-size:1.6rem}h2{font-size:1.25rem;margin-top:2.5rem}figure{margin:1.5rem 0}\
.wide{overflow-x:auto;margin:1rem 0}\
table{border-collapse:collapse}caption{text-align:left;font-weight:bold;padding:.3rem 0}\
th,td{border-bottom:1px solid #777;padding:.2rem .8rem .2rem 0;text-align:right;vertical-align:top}\
th:first-child,td:first-child,.words{text-align:left}tbody th{font-weight:normal}thead th{font-weight:bold}\
.short{white-space:nowrap}.now{border:2px solid;padding:.4rem .8rem}summary{cursor:pointer;padding:.3rem 0}\
@page{margin:18mm}\
@media print{body{font-size:12pt;max-width:none;margin:0;padding:0}table{font-size:11pt}h1,h2,caption{break-after:avoid}\
.wide{overflow:visible}figure,tr{break-inside:avoid}details{display:none}}";

/// A word of more characters than this may be broken anywhere: a paper does not scroll.
const LONG_WORD: usize = 24;
/// A paragraph that begins with this gets a frame.
const URGENT: &str = "NOW:";
/// The most characters before a colon that say what a paragraph is about.
const LEAD: usize = 36;
/// A column with more characters than this in a cell is one of words: read from the left.
const FIGURES: usize = 24;
/// The most characters of a row name, such as a day, that is kept on one line.
const SHORT: usize = 12;

pub(in crate::cli) fn write(blocks: &[Block], out: &mut impl Write) -> io::Result<()> {
    let title = blocks.iter().find_map(|block| match block {
        Block::Heading(heading) => Some(heading.as_str()),
        _ => None,
    });
    let title = escaped(title.unwrap_or("Can anybody predict it?"));
    write!(
        out,
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <title>{title}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<main>\n"
    )?;
    for (index, block) in blocks.iter().enumerate() {
        match block {
            Block::Heading(heading) => {
                let level = if index == 0 { 1 } else { 2 };
                writeln!(out, "<h{level}>{}</h{level}>", broken(heading))?;
            }
            Block::Text(text) => {
                let (lead, rest) = lead(text);
                let lead = if lead.is_empty() {
                    String::new()
                } else {
                    format!("<strong>{}</strong>", broken(lead))
                };
                let class = if text.starts_with(URGENT) { " class=\"now\"" } else { "" };
                writeln!(out, "<p{class}>{lead}{}</p>", broken(rest))?;
            }
            Block::Chart(chart) => {
                writeln!(out, "<figure>\n{}", svg::picture(chart, &format!("chart-{index}")).trim_end())?;
                let (title, words) = (broken(&chart.title), broken(&chart.words));
                writeln!(out, "<figcaption><strong>{title}.</strong> {words}</figcaption>\n</figure>")?;
                writeln!(out, "<details><summary>The figures of this picture</summary>")?;
                write_table(&chart.table(), true, out)?;
                writeln!(out, "</details>")?;
            }
            Block::Table(table) => {
                // A table whose title is the heading above it needs no caption.
                let said = index.checked_sub(1).map(|before| &blocks[before]);
                let has_name = !matches!(said, Some(Block::Heading(heading)) if *heading == table.title);
                write_table(table, has_name, out)?;
            }
        }
    }
    writeln!(out, "</main>\n</body>\n</html>")
}

/// What a paragraph is about, as far as its colon, and the rest.
fn lead(text: &str) -> (&str, &str) {
    match text.split_once(": ") {
        Some((lead, _)) if lead.chars().count() <= LEAD && !lead.contains(['.', '(']) => {
            text.split_at(lead.len() + 1)
        }
        _ => ("", text),
    }
}

/// Escaped text, with places at which a long word may be broken.
fn broken(text: &str) -> String {
    let words = text.split(' ').map(|word| {
        let letters: Vec<char> = word.chars().collect();
        // A day or a range is one thing.
        if letters.len() <= LONG_WORD
            && word.contains('-')
            && word.contains(|character: char| character.is_ascii_digit())
        {
            return format!("<span class=\"short\">{}</span>", escaped(word));
        }
        let pieces = if letters.len() > LONG_WORD { LONG_WORD / 2 } else { letters.len().max(1) };
        letters
            .chunks(pieces)
            .map(|piece| escaped(&piece.iter().collect::<String>()))
            .collect::<Vec<_>>()
            .join("<wbr>")
    });
    words.collect::<Vec<_>>().join(" ")
}

/// On a narrow screen a wide table scrolls by itself, with the keyboard too, and the page does not.
fn write_table(table: &Table, has_caption: bool, out: &mut impl Write) -> io::Result<()> {
    let name = escaped(&table.title);
    writeln!(out, "<div class=\"wide\" role=\"group\" aria-label=\"{name}\" tabindex=\"0\">\n<table>")?;
    if has_caption {
        writeln!(out, "<caption>{}</caption>", broken(&table.title))?;
    }
    let class = |column: usize| match column {
        0 => match table.rows.iter().all(|row| row[0].chars().count() <= SHORT) {
            true => " class=\"short\"",
            false => "",
        },
        column if is_of_words(table, column) => " class=\"words\"",
        _ => "",
    };
    let classes: Vec<&str> = (0..table.head.len()).map(class).collect();
    let head = table.head.iter().zip(&classes);
    let head: String =
        head.map(|(cell, class)| format!("<th scope=\"col\"{class}>{}</th>", broken(cell))).collect();
    writeln!(out, "<thead><tr>{head}</tr></thead>\n<tbody>")?;
    for row in &table.rows {
        let cells = row.iter().zip(&classes).skip(1);
        let cells: String = cells.map(|(cell, class)| format!("<td{class}>{}</td>", broken(cell))).collect();
        writeln!(out, "<tr><th scope=\"row\"{}>{}</th>{cells}</tr>", classes[0], broken(&row[0]))?;
    }
    writeln!(out, "</tbody>\n</table>\n</div>")
}

/// Whether a column has sentences or names in place of figures.
fn is_of_words(table: &Table, column: usize) -> bool {
    let cells = || table.rows.iter().map(|row| row[column].as_str());
    cells().any(|cell| cell.chars().count() > FIGURES)
        || !cells().any(|cell| cell.contains(|character: char| character.is_ascii_digit()))
}

#[cfg(test)]
mod test {
    use super::{broken, write};
    use counterpoise_core::blocks::{Block, Table};

    fn page(block: Block) -> String {
        let mut written = Vec::new();
        write(&[Block::Heading("A".into()), block], &mut written).unwrap();
        String::from_utf8(written).unwrap()
    }

    #[test]
    fn a_long_word_may_be_broken_and_nothing_else() {
        assert_eq!(broken("a < b  & c"), "a &lt; b  &amp; c");
        assert_eq!(broken(&"x".repeat(24)), "x".repeat(24));
        let long = broken(&"<".repeat(25));
        assert_eq!(long.matches("<wbr>").count(), 2, "{long}");
        assert_eq!(long.replace("<wbr>", ""), "&lt;".repeat(25));
        assert_eq!(broken(""), "");
        assert_eq!(broken("on 2026-11-02, so-so"), "on <span class=\"short\">2026-11-02,</span> so-so");
    }

    #[test]
    fn a_paragraph_says_first_what_it_is_about_and_what_is_urgent_is_framed() {
        let of = |text: &str| page(Block::Text(text.to_owned()));
        assert!(of("NOW: <locked>.").contains("<p class=\"now\"><strong>NOW:</strong> &lt;locked&gt;.</p>"));
        assert!(
            of("Practice: 3 of 4 days: so.").contains("<p><strong>Practice:</strong> 3 of 4 days: so.</p>")
        );
        assert!(of("It is so. Because: why").contains("<p>It is so. Because: why</p>"));
    }

    #[test]
    fn a_heading_is_not_said_again_by_its_table() {
        let table = |title: &str| {
            page(Block::Table(Table { title: title.into(), head: vec!["day".into()], rows: Vec::new() }))
        };
        assert!(!table("A").contains("<caption>") && table("A").contains("aria-label=\"A\""));
        assert!(table("B").contains("<caption>B</caption>"));
    }

    #[test]
    fn words_are_read_from_the_left_and_figures_stand_under_each_other() {
        let head = ["day", "calls", "why", "drill"].map(str::to_owned).to_vec();
        let why = "After two good practices one thing became a little harder.";
        let row = |calls: &str, why: &str| ["2026-11-02", calls, why, "reaches"].map(str::to_owned).to_vec();
        let rows = vec![row("12", why), row("not said", "")];
        let html = page(Block::Table(Table { title: "\"T\"".into(), head, rows }));
        assert!(
            html.contains(
                "<th scope=\"row\" class=\"short\"><span class=\"short\">2026-11-02</span></th><td>12</td>"
            ),
            "{html}"
        );
        assert!(html.contains(&format!("<td class=\"words\">{why}</td>")), "{html}");
        assert!(html.contains("<td class=\"words\">reaches</td>") && html.contains("<td>not said</td>"));
        assert!(html.contains("aria-label=\"&quot;T&quot;\" tabindex=\"0\""), "{html}");
    }
}
