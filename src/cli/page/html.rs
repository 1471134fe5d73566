//! A page of blocks as one HTML file: no script, nothing fetched, every picture with its words and its table.

use std::io::{self, Write};

use crate::display::svg::{self, escaped};
use crate::page::{Block, Table};

const STYLE: &str = "\
body{font:18px/1.5 sans-serif;color:#222;background:#fff;max-width:50rem;margin:2rem auto;padding:0 1rem}\
h1{font-size:1.6rem}h2{font-size:1.25rem;margin-top:2.5rem}figure{margin:1.5rem 0}\
table{border-collapse:collapse;margin:1rem 0}caption{text-align:left;font-weight:bold;padding:.3rem 0}\
th,td{border-bottom:1px solid #999;padding:.2rem .8rem .2rem 0;text-align:right;vertical-align:top}\
th:first-child,td:first-child,tbody th{text-align:left;font-weight:normal}thead th{font-weight:bold}\
summary{cursor:pointer;padding:.3rem 0}\
@page{margin:18mm}\
@media print{body{font-size:11pt;max-width:none;margin:0;padding:0}h2{break-after:avoid}\
figure,tr,table:not(.long){break-inside:avoid}details{display:none}}";
/// A table of more rows than go on a page of paper is broken between them.
const LONG: usize = 30;

pub(in crate::cli) fn write(blocks: &[Block], out: &mut impl Write) -> io::Result<()> {
    let title = blocks.iter().find_map(|block| match block {
        Block::Heading(heading) => Some(heading.as_str()),
        _ => None,
    });
    let title = escaped(title.unwrap_or("Can anybody foresee it?"));
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
                writeln!(out, "<h{level}>{}</h{level}>", escaped(heading))?;
            }
            Block::Text(text) => writeln!(out, "<p>{}</p>", escaped(text))?,
            Block::Chart(chart) => {
                writeln!(out, "<figure>\n{}", svg::picture(chart, &format!("chart-{index}")).trim_end())?;
                let (title, words) = (escaped(&chart.title), escaped(&chart.words));
                writeln!(out, "<figcaption><strong>{title}.</strong> {words}</figcaption>\n</figure>")?;
                writeln!(out, "<details><summary>The figures of this picture</summary>")?;
                write_table(&chart.table(), out)?;
                writeln!(out, "</details>")?;
            }
            Block::Table(table) => write_table(table, out)?,
        }
    }
    writeln!(out, "</main>\n</body>\n</html>")
}

fn write_table(table: &Table, out: &mut impl Write) -> io::Result<()> {
    let long = if table.rows.len() > LONG { " class=\"long\"" } else { "" };
    writeln!(out, "<table{long}>\n<caption>{}</caption>", escaped(&table.title))?;
    let head: String =
        table.head.iter().map(|cell| format!("<th scope=\"col\">{}</th>", escaped(cell))).collect();
    writeln!(out, "<thead><tr>{head}</tr></thead>\n<tbody>")?;
    for row in &table.rows {
        let cells: String = row[1..].iter().map(|cell| format!("<td>{}</td>", escaped(cell))).collect();
        writeln!(out, "<tr><th scope=\"row\">{}</th>{cells}</tr>", escaped(&row[0]))?;
    }
    writeln!(out, "</tbody>\n</table>")
}
