//! How are questions asked and answered line by line, on a terminal or from a file? The end of input is never an answer.

use std::io::{self, BufRead, IsTerminal, Write};

use super::Failure;
use super::page::show;
use counterpoise_core::blocks::Block;

/// A series of questions, with one line for each answer.
pub(super) struct Form<R, W> {
    from: R,
    /// Where the questions are printed.
    pub out: W,
    is_pipe: bool,
    /// What happened to the answers if the form is left early: "nothing was saved".
    unkept: &'static str,
    /// The command that starts over.
    command: &'static str,
}

impl<W: Write> Form<io::StdinLock<'static>, W> {
    /// A form on standard input.
    pub(crate) fn new(out: W, unkept: &'static str, command: &'static str) -> Self {
        Self::over(io::stdin().lock(), out, !io::stdin().is_terminal(), unkept, command)
    }
}

impl<R: BufRead, W: Write> Form<R, W> {
    /// A form on other lines. `is_pipe`: nobody is there to answer a question again.
    pub(crate) fn over(from: R, out: W, is_pipe: bool, unkept: &'static str, command: &'static str) -> Self {
        Self { from, out, is_pipe, unkept, command }
    }

    /// Prints blocks.
    pub(crate) fn show(&mut self, blocks: &[Block]) -> Result<(), Failure> {
        Ok(show(blocks, &mut self.out)?)
    }

    /// Prints a statement.
    pub(crate) fn say(&mut self, text: impl Into<String>) -> Result<(), Failure> {
        self.show(&[Block::line(text)])
    }

    /// Prints what belongs to the question or the answer before it.
    pub(crate) fn add(&mut self, text: impl Into<String>) -> Result<(), Failure> {
        self.show(&[Block::item(text)])
    }

    /// Prints what can be chosen, each with its number.
    pub(crate) fn choices(&mut self, things: impl Iterator<Item = String>) -> Result<(), Failure> {
        let choices =
            (1..).zip(things).map(|(number, thing): (u32, _)| Block::Choice(number.to_string(), thing));
        self.show(&std::iter::once(Block::Gap).chain(choices).collect::<Vec<_>>())
    }

    /// Asks a question and reads one line, trimmed.
    pub(crate) fn line(&mut self, ask: &str) -> Result<String, Failure> {
        self.show(&[Block::Gap, Block::line(ask)])?;
        self.read()
    }

    /// Reads one line, trimmed. The end of input is an error.
    pub(crate) fn read(&mut self) -> Result<String, Failure> {
        self.out.flush()?;
        let mut line = String::new();
        if self.from.read_line(&mut line).is_ok_and(|read| read > 0) {
            return Ok(line.trim().to_owned());
        }
        Err(Failure::new(
            format!("not every question was answered, and {}", self.unkept),
            format!("Start again: {}", self.command),
        ))
    }

    /// Says why an answer is not accepted. At a terminal the question is asked again; from a file it is an error, since
    /// the next line would answer the wrong question.
    pub(crate) fn refuse(&mut self, fact: &str) -> Result<(), Failure> {
        if self.is_pipe {
            let mut unkept = self.unkept.to_owned();
            unkept[..1].make_ascii_uppercase();
            return Err(Failure::new(fact, format!("Answer each question with one line. {unkept}.")));
        }
        self.add(format!("{fact}."))
    }

    /// Asks whether to try again what failed, with all answers still there. From a file the answer is no.
    pub(crate) fn again(&mut self, fact: &str, hint: &str) -> Result<bool, Failure> {
        if self.is_pipe {
            return Ok(false);
        }
        self.show(&[Block::Gap, Block::line(format!("NOT SAVED: {fact}. {hint}"))])?;
        Ok(!self.line("Press Enter to try again, or Q to give up.")?.eq_ignore_ascii_case("q"))
    }

    /// Asks a question whose answer is Y or N.
    pub(crate) fn yes(&mut self, ask: &str) -> Result<bool, Failure> {
        loop {
            match self.line(&format!("{ask} (Y or N)"))?.to_lowercase().as_str() {
                "y" => return Ok(true),
                "n" => return Ok(false),
                other => self.refuse(&format!("\"{other}\" is neither Y nor N"))?,
            }
        }
    }

    /// Asks for a whole number from `least` to `most`.
    pub(crate) fn number(&mut self, ask: &str, least: u8, most: u8) -> Result<u8, Failure> {
        loop {
            let typed = self.line(ask)?;
            match typed.parse::<u8>() {
                Ok(number) if (least..=most).contains(&number) => return Ok(number),
                _ => self.refuse(&format!("\"{typed}\" is not a whole number from {least} to {most}"))?,
            }
        }
    }
}

#[cfg(test)]
mod test {
    use super::{Block, Form};

    fn form<'a>(typed: &'a str, shown: &'a mut Vec<u8>, is_pipe: bool) -> Form<&'a [u8], &'a mut Vec<u8>> {
        Form::over(typed.as_bytes(), shown, is_pipe, "nothing was saved", "counterpoise x")
    }

    #[test]
    fn what_is_added_is_indented_and_an_empty_line_is_one() {
        let mut shown = Vec::new();
        form("", &mut shown, false).show(&[Block::Gap, Block::item("word ".repeat(30))]).unwrap();
        let shown = String::from_utf8(shown).unwrap();
        let lines: Vec<&str> = shown.lines().collect();
        assert!(lines.len() == 3 && lines[0].is_empty(), "{shown}");
        assert!(lines[1..].iter().all(|line| line.starts_with("  word") && line.len() <= 80), "{shown}");
    }

    #[test]
    fn a_person_can_make_room_and_try_again_and_a_file_is_not_waited_for() {
        let tries = |typed: &str, is_pipe| {
            form(typed, &mut Vec::new(), is_pipe).again("the disk is full", "Make room.")
        };
        assert_eq!((tries("\n", false), tries(" Q\n", false)), (Ok(true), Ok(false)));
        assert_eq!(tries("\n", true), Ok(false));
        assert!(
            tries("", false).unwrap_err().fact().contains("nothing was saved"),
            "the end of input is no yes"
        );
    }
}
