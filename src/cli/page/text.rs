//! How is a page of blocks written as plain text, for a terminal of 80 columns?

use std::io::{self, Write};

use crate::cli::wrap::{WIDTH, wrapped};
use crate::display::chart;
use counterpoise_core::blocks::{Block, Table};

const INDENT: &str = "  ";
/// The fewest characters that a column of text is wrapped to.
const LEAST_TEXT: usize = 24;

pub(in crate::cli) fn write(blocks: &[Block], out: &mut impl Write) -> io::Result<()> {
    for (index, block) in blocks.iter().enumerate() {
        let heading = matches!(block, Block::Heading(_));
        let under_heading = index > 0 && matches!(blocks[index - 1], Block::Heading(_));
        if index > 0 && (heading || !under_heading) {
            writeln!(out)?;
        }
        match block {
            Block::Heading(heading) => writeln!(out, "{}", wrapped("", heading))?,
            Block::Text(text) => writeln!(out, "{}", wrapped(INDENT, text))?,
            Block::Chart(chart) => {
                writeln!(out, "{}", wrapped(INDENT, &chart.title))?;
                for line in chart::lines(chart, (WIDTH - INDENT.len()) as u16) {
                    writeln!(out, "{}", format!("{INDENT}{line}").trim_end())?;
                }
                if let Some(legend) = chart::legend(chart) {
                    writeln!(out, "{}", wrapped(INDENT, &legend))?;
                }
            }
            Block::Table(table) => write_table(table, out)?,
        }
    }
    Ok(())
}

/// The first column from the left, the others from the right. Where they do not fit, the last column is text: from the left,
/// wrapped.
fn write_table(table: &Table, out: &mut impl Write) -> io::Result<()> {
    writeln!(out, "{}", wrapped(INDENT, &table.title))?;
    let rows: Vec<&Vec<String>> = [&table.head].into_iter().chain(&table.rows).collect();
    let widths: Vec<usize> = (0..table.head.len())
        .map(|column| rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0))
        .collect();
    let (last, front) = widths.split_last().expect("a table has a column");
    let before = INDENT.len() + front.iter().map(|width| width + 2).sum::<usize>();
    let is_wide = before + last > WIDTH && before + LEAST_TEXT <= WIDTH;
    for row in rows {
        let mut line = format!("{INDENT}{:<1$}", row[0], widths[0]);
        let columns = if is_wide { row.len() - 1 } else { row.len() };
        for (cell, width) in row[..columns].iter().zip(&widths).skip(1) {
            line.push_str(&format!("  {cell:>width$}"));
        }
        if is_wide {
            let text = wrapped(&" ".repeat(before), &row[columns]);
            line.push_str("  ");
            line.push_str(text.trim_start());
        }
        writeln!(out, "{}", line.trim_end())?;
    }
    Ok(())
}
