//! How is text broken into lines of a width?

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

/// `choices` as a key and its meaning each, in one line if they fit, else in columns of one width.
pub(super) fn columns(indent: &str, choices: &[&str]) -> String {
    const BETWEEN: usize = 3;
    let room = WIDTH - indent.chars().count();
    let in_one = choices.join(&" ".repeat(BETWEEN));
    if in_one.chars().count() <= room {
        return format!("{indent}{in_one}");
    }
    let width = choices.iter().map(|choice| choice.chars().count()).max().unwrap_or_default();
    let a_line = ((room + BETWEEN) / (width + BETWEEN)).max(1);
    let set = |choice: &&str| format!("{choice:<width$}");
    let line = |row: &[&str]| {
        let row: Vec<String> = row.iter().map(set).collect();
        format!("{indent}{}", row.join(&" ".repeat(BETWEEN)).trim_end())
    };
    choices.chunks(a_line).map(line).collect::<Vec<_>>().join("\n")
}

/// The first `most` lines of a text that is set, with three dots where more followed.
pub(super) fn first_lines(text: &str, most: usize) -> String {
    const MORE: &str = " ...";
    let mut lines: Vec<String> = text.lines().take(most).map(str::to_owned).collect();
    if text.lines().count() > most
        && let Some(last) = lines.last_mut()
    {
        while last.chars().count() + MORE.len() > WIDTH {
            // Whole words; a word that fills a line is cut.
            let end = last.trim_end().rfind(' ').filter(|end| !last[..*end].trim().is_empty());
            let cut = last.char_indices().nth(WIDTH - MORE.len()).map_or(last.len(), |(at, _)| at);
            last.truncate(end.unwrap_or(cut));
        }
        last.push_str(MORE);
    }
    lines.join("\n")
}

/// `text` after `label`, its later lines indented under its first.
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

/// `text` with control characters and direction marks escaped, since a file name may have any.
pub(super) fn escape_controls(text: &str) -> String {
    let is_unsafe = |character: char| {
        character.is_control()
            || matches!(character, '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    };
    text.chars()
        .flat_map(|character| {
            let (escaped, itself) = match is_unsafe(character) {
                true => (Some(character.escape_default()), None),
                false => (None, Some(character)),
            };
            escaped.into_iter().flatten().chain(itself)
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
    fn choices_stand_apart_in_one_line_or_in_columns() {
        assert_eq!(columns("  ", &["Y yes", "N no"]), "  Y yes   N no");
        let places: Vec<String> = (1..=10).map(|nth| format!("{nth} refrigerator")).collect();
        let places: Vec<&str> = places.iter().map(String::as_str).collect();
        let lines = columns("  ", &places);
        assert_eq!(lines.lines().count(), 3, "{lines}");
        assert!(lines.lines().all(|line| line.chars().count() <= WIDTH));
        assert!(lines.starts_with("  1 refrigerator    2 refrigerator "), "{lines}");
        assert_eq!(
            lines.lines().nth(1).and_then(|line| line.find('6')),
            lines.find('2'),
            "one under the other"
        );
        assert_eq!(columns("", &["x".repeat(100).as_str(), "y"]).lines().count(), 2);
    }

    #[test]
    fn a_text_is_cut_at_a_line_and_says_so() {
        let text = wrapped("  ", &"né on the right side ".repeat(12));
        let cut = first_lines(&text, 2);
        assert_eq!(cut.lines().count(), 2);
        assert!(cut.ends_with(" ..."), "{cut}");
        assert!(cut.lines().all(|line| line.chars().count() <= WIDTH));
        assert!(text.starts_with(cut.trim_end_matches(" ...")), "nothing else is changed");
        assert_eq!(first_lines(&text, 99), text);
        let one = first_lines(&wrapped("", &format!("{} end", "é".repeat(200))), 1);
        assert!(one.chars().count() == WIDTH && one.ends_with(" ..."), "{one}");
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
    fn no_character_that_a_terminal_obeys_is_left() {
        let text = escape_controls("ada\n\x1b[2J\u{9b}1m\u{202e}exe.b\u{7f}é 王");
        assert_eq!(text, "ada\\n\\u{1b}[2J\\u{9b}1m\\u{202e}exe.b\\u{7f}é 王");
    }
}
