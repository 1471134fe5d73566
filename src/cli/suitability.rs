//! The `suitability` command: asks the health questions line by line, and saves the answers.

use std::io::{self, BufRead, IsTerminal, Write};

use super::Failure;
use super::standing;
use super::wrap::wrapped;
use crate::clock::Clock;
use crate::journal::{Folder, Journal};
use counterpoise_core::health::suitability::{Answer, Suitability, Topic};
use counterpoise_core::plan::caution;

/// The options of `suitability`.
#[derive(Debug, Clone, Copy, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise suitability              about two dozen sentences, true or not true; once, and when something changes\n  \
    counterpoise suitability --partner    also for practice with a partner\n  \
    counterpoise suitability --show       the result of the last answers\n\n\
    Answer each sentence with one letter and Enter, from a keyboard or a file.\n\
    T true, N not true, D not true and my doctor knows and agrees, B back, Q quit without saving.\n\
    Your therapist's advice and your local rules come first. Nothing here promises to prevent falls.")]
pub(super) struct Arguments {
    /// Ask about practice with a partner too
    #[arg(long)]
    partner: bool,
    /// Show the result of the last answers without asking again
    #[arg(long, conflicts_with = "partner")]
    show: bool,
}

pub(super) fn run(arguments: Arguments, folder: &Folder, out: &mut impl Write) -> Result<(), Failure> {
    if arguments.show {
        let known = standing::known(&Journal::look(folder)?)?;
        let found = known.fitness.suitability.ok_or_else(|| {
            Failure::new("the questions have not been answered yet", "Answer them: counterpoise suitability")
        })?;
        return say(&found, out);
    }
    let answers = ask(arguments.partner, &mut io::stdin().lock(), out)?;
    let (mut journal, notices) = Journal::open(folder.lock()?)?;
    for notice in notices {
        writeln!(out, "{}", wrapped("", &format!("Note: {notice}.")))?;
    }
    journal.keep_suitability(&Clock::real().wall(), arguments.partner, &answers)?;
    writeln!(out)?;
    say(&Suitability::of(&answers, arguments.partner, false), out)
}

/// Asks every topic. If the input ends early, nothing is saved.
fn ask(
    partner: bool,
    from: &mut impl BufRead,
    out: &mut impl Write,
) -> Result<Vec<(Topic, Answer)>, Failure> {
    let topics: Vec<Topic> = Topic::questions(partner).collect();
    let mut answers: Vec<(Topic, Answer)> = Vec::new();
    writeln!(
        out,
        "{}",
        wrapped(
            "",
            "Is each sentence true? If you do not know, answer not true. Only you and the people you show them to see the answers."
        )
    )?;
    while let Some(topic) = topics.get(answers.len()).copied() {
        writeln!(out, "\n{} of {}", answers.len() + 1, topics.len())?;
        writeln!(out, "{}", wrapped("  ", topic.sentence()))?;
        let agreed = if topic.can_be_agreed() { "   D not true, and my doctor knows and agrees" } else { "" };
        writeln!(out, "  T true   N not true{agreed}\n  B back   Q quit")?;
        out.flush()?;
        let mut line = String::new();
        let read = from.read_line(&mut line).map_err(|error| {
            Failure::new(
                format!("the answer cannot be read: {error}"),
                "Start again: counterpoise suitability",
            )
        })?;
        let answer = match line.trim().to_lowercase().as_str() {
            _ if read == 0 => return Err(quit()),
            "q" => return Err(quit()),
            "b" => {
                answers.pop();
                continue;
            }
            "t" => Answer::True,
            "n" => Answer::NotTrue,
            "d" if topic.can_be_agreed() => Answer::Agreed,
            other => {
                let other =
                    if other.is_empty() { "an empty line".to_owned() } else { format!("\"{other}\"") };
                // The next line of a file would answer the wrong sentence.
                if !io::stdin().is_terminal() {
                    return Err(Failure::new(
                        format!("{other} is not an answer to sentence {}", answers.len() + 1),
                        "Write one letter per line: T, N, D where it is offered, B or Q. Nothing was saved.",
                    ));
                }
                writeln!(out, "  {other} is not one of the answers.")?;
                continue;
            }
        };
        answers.push((topic, answer));
    }
    Ok(answers)
}

fn quit() -> Failure {
    Failure::new(
        "not every sentence was answered, and nothing was saved",
        "Start again: counterpoise suitability",
    )
}

fn say(found: &Suitability, out: &mut impl Write) -> Result<(), Failure> {
    writeln!(out, "{}", wrapped("", &found.outcome.to_string()))?;
    for reason in found.reasons() {
        writeln!(out, "{}", wrapped("  ", &reason))?;
    }
    if found.bounds().is_some_and(|bounds| bounds.limits.alone) {
        writeln!(
            out,
            "{}",
            wrapped("  ", "For practice with a partner: counterpoise suitability --partner")
        )?;
    }
    writeln!(out, "{}", wrapped("", caution::FIRST))?;
    let text = "Answer again when something changes: counterpoise suitability";
    writeln!(out, "{}", wrapped("", text))?;
    Ok(())
}
