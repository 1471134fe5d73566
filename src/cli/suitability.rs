//! The `suitability` command: asks the health questions line by line, and saves the answers.

use std::io::Write;

use super::Failure;
use super::form::Form;
use super::page::Output;
use super::standing;
use crate::clock::Clock;
use crate::journal::{Folder, Journal};
use counterpoise_core::blocks::Block;
use counterpoise_core::health::suitability::{Answer, Suitability, Topic};
use counterpoise_core::plan::caution;

/// The options of `suitability`.
#[derive(Debug, Clone, Copy, Default, clap::Args)]
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

pub(super) fn run(arguments: Arguments, folder: &Folder, out: &mut impl Write) -> Result<Output, Failure> {
    if arguments.show {
        let known = standing::known(&Journal::look(folder)?)?;
        let found = known.fitness.suitability.ok_or_else(|| {
            Failure::new("the questions have not been answered yet", "Answer them: counterpoise suitability")
        })?;
        return Ok(result(&found).into());
    }
    let answers = ask(arguments.partner, out)?;
    let mut journal = standing::open(folder, out)?;
    journal.keep_suitability(&Clock::real().wall(), arguments.partner, &answers)?;
    let mut page = vec![Block::Gap];
    page.extend(result(&Suitability::of(&answers, arguments.partner, false)));
    Ok(page.into())
}

/// Asks every topic. If the input ends early, nothing is saved.
fn ask(partner: bool, out: &mut impl Write) -> Result<Vec<(Topic, Answer)>, Failure> {
    let topics: Vec<Topic> = Topic::questions(partner).collect();
    let mut answers: Vec<(Topic, Answer)> = Vec::new();
    let mut form = Form::new(out, "nothing was saved", "counterpoise suitability");
    form.say("Is each sentence true? If you do not know, answer not true. Only you and the people you show them to see the answers.")?;
    while let Some(topic) = topics.get(answers.len()).copied() {
        let agreed = topic.can_be_agreed().then_some("D not true, and my doctor knows and agrees");
        let keys = ["T true", "N not true"].into_iter().chain(agreed).map(str::to_owned).collect();
        form.show(&[
            Block::Gap,
            Block::line(format!("{} of {}", answers.len() + 1, topics.len())),
            Block::item(topic.sentence()),
            Block::Keys(keys),
            Block::Keys(["B back", "Q quit"].map(str::to_owned).into()),
        ])?;
        match form.read().map_err(|_| quit())?.to_lowercase().as_str() {
            "q" => return Err(quit()),
            "b" => drop(answers.pop()),
            "t" => answers.push((topic, Answer::True)),
            "n" => answers.push((topic, Answer::NotTrue)),
            "d" if topic.can_be_agreed() => answers.push((topic, Answer::Agreed)),
            other => {
                form.refuse(&format!("\"{other}\" is not an answer to sentence {}", answers.len() + 1))?;
            }
        }
    }
    Ok(answers)
}

fn quit() -> Failure {
    Failure::new(
        "not every sentence was answered, and nothing was saved",
        "Start again: counterpoise suitability",
    )
}

fn result(found: &Suitability) -> Vec<Block> {
    let mut page = vec![Block::line(found.outcome.to_string())];
    page.extend(found.reasons().into_iter().map(Block::item));
    if found.bounds().is_some_and(|bounds| bounds.limits.alone) {
        page.push(Block::item("For practice with a partner: counterpoise suitability --partner"));
    }
    let again = "Answer again when something changes: counterpoise suitability";
    page.extend([caution::FIRST, again].map(Block::line));
    page
}
