//! The `suitability` command: asks the health questions line by line, and saves the answers.

use std::io::{BufRead, Write};

use super::Failure;
use super::form::Form;
use super::page::{Output, help};
use super::source;
use super::standing;
use crate::clock::Clock;
use crate::journal::{Folder, Journal};
use counterpoise_core::blocks::Block;
use counterpoise_core::health::suitability::{AGREED, Acceptances, NEW_OR_WORSE, Reply, Suitability, Topic};
use counterpoise_core::health::yes_no::YesNoNotSure;
use counterpoise_core::plan::caution::{self, Contents, Surface};
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::record::TopicRow;

/// The options of `suitability`.
#[derive(Debug, Clone, Copy, Default, clap::Args)]
#[command(after_help = help("Examples:\n  \
    counterpoise suitability              about three dozen short questions; once, and when something changes\n  \
    counterpoise suitability --partner    also for practice with a partner\n  \
    counterpoise suitability --show       the result of the last answers\n\n\
    Answer each question with one letter and Enter, from a keyboard or a file.\n\
    Y yes, N no, U not sure, B back, Q quit without saving."))]
pub(super) struct Arguments {
    /// Ask about practice with a partner too
    #[arg(long)]
    partner: bool,
    /// Show the result of the last answers without asking again
    #[arg(long, conflicts_with = "partner")]
    show: bool,
}

pub(super) fn run(arguments: Arguments, folder: &Folder, out: &mut impl Write) -> Result<Output, Failure> {
    let program = source::find(None, || Ok(folder.clone()))?.prescription;
    if arguments.show {
        let found = found(&Journal::look(folder)?, &program)?.ok_or_else(|| {
            Failure::new("the questions have not been answered yet", "Answer them: counterpoise suitability")
        })?;
        let cautions = caution::blocks(Surface::Health, Contents::Nothing);
        return Ok([result(&found), cautions].concat().into());
    }
    let answers = ask(arguments.partner, &Acceptances::of(&program, Clock::real().wall().date()), out)?;
    let mut journal = standing::open(folder, out)?;
    journal.keep_suitability(&Clock::real().wall(), arguments.partner, &answers)?;
    let mut page = vec![Block::Gap];
    page.extend(found(&journal, &program)?.iter().flat_map(result));
    Ok(page.into())
}

/// What the last answers come to under the program in use.
fn found(journal: &Journal, program: &Prescription) -> Result<Option<Suitability>, Failure> {
    Ok(standing::known(journal)?.suitability_under(program, Clock::real().wall().date()))
}

/// An answer, or a step back.
enum Typed {
    Answer(YesNoNotSure),
    Back,
}

/// Asks every topic. If the input ends early, nothing is saved.
fn ask(partner: bool, accepted: &Acceptances, out: &mut impl Write) -> Result<Vec<TopicRow>, Failure> {
    let topics: Vec<Topic> = Topic::questions(partner).collect();
    let mut answers: Vec<TopicRow> = Vec::new();
    let mut form = Form::new(out, "nothing was saved", "counterpoise suitability");
    form.show(&caution::blocks(Surface::Health, Contents::Nothing))?;
    form.say("If you are not sure, answer U: it counts as the careful answer. Only you and the people you show them to see the answers.")?;
    while let Some(topic) = topics.get(answers.len()).copied() {
        let place = format!("{} of {}", answers.len() + 1, topics.len());
        let Typed::Answer(said) = question(&mut form, &place, topic.question())? else {
            answers.pop();
            continue;
        };
        let mut reply = Reply::new(said.into());
        if !topic.is_good(said) && topic.locks() {
            let more = match accepted.since(topic) {
                Some(since) => Some((NEW_OR_WORSE.replace("then", &since.to_string()), Some(since))),
                None if topic.can_be_agreed() => Some((AGREED.to_owned(), None)),
                None => None,
            };
            if let Some((text, since)) = more {
                let Typed::Answer(said) = question(&mut form, &place, &text)? else { continue };
                match since {
                    Some(since) => reply.worse = Some((since, said)),
                    None => reply.agreed = Some(said),
                }
            }
        }
        answers.push(TopicRow::new(topic, reply));
    }
    Ok(answers)
}

/// Asks one question until it is answered.
fn question<R: BufRead, W: Write>(form: &mut Form<R, W>, place: &str, text: &str) -> Result<Typed, Failure> {
    loop {
        form.show(&[
            Block::Gap,
            Block::line(place),
            Block::item(text),
            Block::Keys(["Y yes", "N no", "U not sure"].map(str::to_owned).into()),
            Block::Keys(["B back", "Q quit"].map(str::to_owned).into()),
        ])?;
        return Ok(match form.read().map_err(|_| quit())?.to_lowercase().as_str() {
            "q" => return Err(quit()),
            "b" => Typed::Back,
            "y" => Typed::Answer(YesNoNotSure::Yes),
            "n" => Typed::Answer(YesNoNotSure::No),
            "u" => Typed::Answer(YesNoNotSure::NotSure),
            other => {
                form.refuse(&format!("\"{other}\" is not an answer to question {place}"))?;
                continue;
            }
        });
    }
}

fn quit() -> Failure {
    Failure::new(
        "not every question was answered, and nothing was saved",
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
    page.push(Block::line(again));
    page
}
