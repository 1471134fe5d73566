//! Text in lines of a width. Not which text.

/// The width of what is printed for people: it fits a terminal of 80 columns with a margin.
pub(super) const WIDTH: usize = 78;

/// `text` in lines of at most [`WIDTH`] characters, each beginning with `indent`; a longer word has its own line.
pub(crate) fn wrapped(indent: &str, text: &str) -> String {
    let mut lines = String::new();
    let mut column = 0;
    for word in text.split_whitespace() {
        let length = word.chars().count();
        if column > 0 && column + 1 + length <= WIDTH {
            lines.push(' ');
            column += 1 + length;
        } else {
            if column > 0 {
                lines.push('\n');
            }
            lines.push_str(indent);
            column = indent.chars().count() + length;
        }
        lines.push_str(word);
    }
    lines
}

/// `text` behind `label`, its further lines under its first.
pub(super) fn hanging(label: &str, text: &str) -> String {
    let width = label.chars().count();
    // What fits keeps its columns.
    if width + text.chars().count() <= WIDTH {
        return format!("{label}{text}").trim_end().to_owned();
    }
    let indent = " ".repeat(width);
    let lines = wrapped(&indent, text);
    format!("{label}{}", lines.trim_start())
}

/// `text` with each line that is longer than [`WIDTH`] wrapped at its own indent; the others as they are.
pub(super) fn fitted(text: &str) -> String {
    let fit = |line: &str| {
        let indent = &line[..line.len() - line.trim_start().len()];
        if line.chars().count() > WIDTH { wrapped(indent, line) } else { line.to_owned() }
    };
    text.lines().map(|line| fit(line) + "\n").collect()
}

/// `text` with every sign written out that moves a cursor, breaks a line or turns the direction of reading: a name may hold any.
pub(super) fn harmless(text: &str) -> String {
    let obeyed = |sign: char| {
        sign.is_control()
            || matches!(sign, '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    };
    text.chars()
        .flat_map(|sign| {
            let (written, itself) =
                if obeyed(sign) { (Some(sign.escape_default()), None) } else { (None, Some(sign)) };
            written.into_iter().flatten().chain(itself)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_longer_than_the_width_and_no_word_is_lost() {
        let text = "né on the right side ".repeat(40);
        let lines = wrapped("  ", &text);
        assert!(lines.lines().all(|line| line.chars().count() <= WIDTH && line.starts_with("  ")));
        assert!(lines.lines().any(|line| line.chars().count() > WIDTH - 5), "lines are used");
        assert!(lines.split_whitespace().eq(text.split_whitespace()));
        assert_eq!(wrapped("", &"x".repeat(100)).len(), 100);
        assert_eq!(wrapped("  ", ""), "");
    }

    #[test]
    fn a_line_that_fits_keeps_its_columns_and_a_longer_one_its_indent() {
        let long = format!("  {}", "right ".repeat(30));
        let text = fitted(&format!("Title\n\n   7.5 s   ← LEFT\n{long}\n"));
        assert!(text.starts_with("Title\n\n   7.5 s   ← LEFT\n  right right"), "{text}");
        assert!(text.lines().skip(3).all(|line| line.starts_with("  r") && line.chars().count() <= WIDTH));
        assert!(text.ends_with("right\n"));
    }

    #[test]
    fn no_sign_that_a_terminal_obeys_is_left() {
        let text = harmless("ada\n\x1b[2J\u{9b}1m\u{202e}exe.b\u{7f}é 王");
        assert_eq!(text, "ada\\n\\u{1b}[2J\\u{9b}1m\\u{202e}exe.b\\u{7f}é 王");
    }
}
