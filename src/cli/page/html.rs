//! How is a page written as one HTML file? Without scripts or anything to fetch; every picture has a description
//! and a table.

use maud::{Markup, PreEscaped, Render, html};

use crate::display::svg;
use counterpoise_core::blocks::{About, Block, Table};
use counterpoise_core::words::Printable;

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
/// The most characters of a row name, such as a day, that is kept on one line.
const SHORT: usize = 12;

/// The page as one file.
pub(in crate::cli) fn of(blocks: &[Block]) -> String {
    let title = blocks.iter().find_map(|block| match block {
        Block::Heading(heading) => Some(heading.as_str()),
        _ => None,
    });
    document(title.unwrap_or("Can anybody predict it?"), STYLE, &body(blocks, 1))
}

/// A whole file with this style.
pub(in crate::cli) fn document(title: &str, style: &str, body: &Markup) -> String {
    let page = html! {
        (PreEscaped("<!doctype html>")) "\n"
        html lang="en" {
            "\n" head {
                "\n" meta charset="utf-8";
                "\n" meta name="viewport" content="width=device-width, initial-scale=1";
                "\n" title { (*Printable::of(title)) }
                "\n" style { (PreEscaped(style)) } "\n"
            }
            "\n" body { "\n" main { "\n" (body) } "\n" } "\n"
        }
        "\n"
    };
    page.into_string()
}

/// The blocks, each on lines of its own. `first` is the level of a heading that opens them; all others have level 2.
pub(in crate::cli) fn body(blocks: &[Block], first: u8) -> Markup {
    let is_item = |block: &Block| matches!(block, Block::Item(_));
    let groups = blocks.chunk_by(|one, other| is_item(one) && is_item(other));
    let mut place = 0;
    let groups = groups.map(|group| {
        place += group.len();
        (place - group.len(), group)
    });
    html! {
        @for (place, group) in groups {
            @match &group[0] {
                Block::Heading(heading) if place == 0 && first == 1 => h1 { (Broken(heading)) },
                Block::Heading(heading) => h2 { (Broken(heading)) },
                Block::Text(text) | Block::Line(text) => p { (Broken(text)) },
                Block::About(About { about, text, is_urgent }) => {
                    p class=[is_urgent.then_some("now")] { strong { (Broken(about)) ":" } " " (Broken(text)) }
                },
                Block::Item(_) => ul {
                    @for block in group {
                        @if let Block::Item(text) = block { "\n" li { (Broken(text)) } }
                    }
                    "\n"
                },
                Block::Fact(name, text) | Block::Choice(name, text) => p { strong { (Broken(name)) } " " (Broken(text)) },
                Block::Keys(keys) => p { (Broken(&keys.join("   "))) },
                Block::Verbatim(lines) => pre { @for line in lines { (*Printable::of(line)) "\n" } },
                Block::Gap => {},
                Block::Chart(chart) => {
                    figure {
                        "\n" (PreEscaped(svg::picture(chart, &format!("chart-{place}")).trim_end()))
                        "\n" figcaption { strong { (Broken(&chart.title)) "." } " " (Broken(&chart.words)) } "\n"
                    }
                    "\n" details { summary { "The figures of this picture" } "\n" (rows(&chart.table(), true)) }
                },
                // A table whose title is the heading above it needs no caption.
                Block::Table(table) => {
                    (rows(table, !matches!(place.checked_sub(1).map(|before| &blocks[before]),
                        Some(Block::Heading(heading)) if *heading == table.title)))
                },
            }
            "\n"
        }
    }
}

/// Escaped text, with places at which a long word may be broken.
struct Broken<'a>(&'a str);

impl Render for Broken<'_> {
    fn render(&self) -> Markup {
        let text = Printable::of(self.0);
        let word = |word: &str| {
            let letters: Vec<char> = word.chars().collect();
            // A day or a range is one thing.
            let is_range = word.contains('-') && word.contains(|sign: char| sign.is_ascii_digit());
            if letters.len() <= LONG_WORD && is_range {
                return html! { span.short { (word) } };
            }
            let pieces = if letters.len() > LONG_WORD { LONG_WORD / 2 } else { letters.len().max(1) };
            html! {
                @for (nth, piece) in letters.chunks(pieces).enumerate() {
                    @if nth > 0 { wbr; }
                    (piece.iter().collect::<String>())
                }
            }
        };
        PreEscaped(text.split(' ').map(|one| word(one).into_string()).collect::<Vec<_>>().join(" "))
    }
}

/// On a narrow screen a wide table scrolls by itself, with the keyboard too, and the page does not.
fn rows(table: &Table, has_caption: bool) -> Markup {
    let class = |column: usize| match column {
        0 => table.rows.iter().all(|row| row[0].chars().count() <= SHORT).then_some("short"),
        column => table.is_of_words(column).then_some("words"),
    };
    html! {
        div.wide role="group" aria-label=(*Printable::of(&table.title)) tabindex="0" {
            "\n" table {
                "\n" @if has_caption { caption { (Broken(&table.title)) } "\n" }
                thead { tr {
                    @for (column, cell) in table.head.iter().enumerate() {
                        th scope="col" class=[class(column)] { (Broken(cell)) }
                    }
                } }
                "\n" tbody {
                    @for row in &table.rows {
                        "\n" tr {
                            th scope="row" class=[class(0)] { (Broken(&row[0])) }
                            @for (column, cell) in row.iter().enumerate().skip(1) {
                                td class=[class(column)] { (Broken(cell)) }
                            }
                        }
                    }
                    "\n"
                }
                "\n"
            }
            "\n"
        }
    }
}

#[cfg(test)]
mod test {
    use maud::Render;

    use super::{About, Block, Broken, Table, of};

    fn page(block: Block) -> String {
        of(&[Block::Heading("A".into()), block])
    }

    fn broken(text: &str) -> String {
        Broken(text).render().into_string()
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
        let of = |about: &str, text: &str, is_urgent| {
            page(Block::About(About { about: about.to_owned(), text: text.to_owned(), is_urgent }))
        };
        let now = of("NOW", "<locked>.", true);
        assert!(now.contains("<p class=\"now\"><strong>NOW:</strong> &lt;locked&gt;.</p>"), "{now}");
        let practice = of("Practice", "3 of 4 days: so.", false);
        assert!(practice.contains("<p><strong>Practice:</strong> 3 of 4 days: so.</p>"), "{practice}");
        assert!(page(Block::Text("Why: so".to_owned())).contains("<p>Why: so</p>"));
    }

    #[test]
    fn a_heading_is_not_said_again_by_its_table() {
        let table = |title: &str| page(Block::Table(Table::new(title, &["day"], Vec::new())));
        assert!(!table("A").contains("<caption>") && table("A").contains("aria-label=\"A\""));
        assert!(table("B").contains("<caption>B</caption>"));
    }

    #[test]
    fn words_are_read_from_the_left_and_figures_stand_under_each_other() {
        let why = "After two good practices one thing became a little harder.";
        let row = |calls: &str, why: &str| ["2026-11-02", calls, why, "reaches"].map(str::to_owned).to_vec();
        let rows = vec![row("12", why), row("not said", "")];
        let html = page(Block::Table(Table::new("\"T\"", &["day", "calls", "why", "drill"], rows)));
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
