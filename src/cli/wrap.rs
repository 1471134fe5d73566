//! Text in lines of a width. Not which text.

/// The width of what is printed for people: it fits a terminal of 80 columns with a margin.
pub(super) const WIDTH: usize = 78;

/// `text` in lines of at most [`WIDTH`] characters, each beginning with `indent`; a longer word has its own line.
pub(super) fn wrapped(indent: &str, text: &str) -> String {
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
}
