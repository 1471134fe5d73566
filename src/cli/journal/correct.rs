//! Corrects an entry by a new one with a reason. The entry itself stays as it was kept.

use std::io::Write;

use crate::cli::Failure;
use crate::cli::wrap::wrapped;
use crate::clock::Clock;
use crate::journal::{Corrected, CorrectionRow, Folder, Journal};
use crate::record::{Question, Response};

/// The most characters of a reason \[judgment\].
const LONGEST: usize = 200;

/// What is corrected.
#[derive(Debug, Clone, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise journal correct 3f2a --set-aside --reason \"somebody else tried it\"\n  \
    counterpoise journal correct last --set 2 --question effort --right 4 --reason \"wrong key\"\n  \
    counterpoise journal correct last --set 3 --push 2 --right \"one step\" --reason \"seen again on video\"\n\n\
    Questions: \"grabbed hold or nearly fell\" and \"unwell\" (0 no, 1 yes), \"held on\" (0 to 3), effort (0 to 10), steadiness\n\
    (1 to 5). Responses: feet in place, one step, two or more steps, touched support, grabbed or steadied, fell. With\n\
    \"not said\" or \"not noted\" an answer is taken back.\n\
    Nothing is erased: both stand in the journal and the report. A correction lifts no lock; only a clinician's clearance does.")]
#[group(skip)]
pub(in crate::cli) struct Arguments {
    /// The beginning of the session's id, as `journal list` shows it, or last
    #[arg(value_name = "SESSION")]
    session: String,
    /// It counts as no practice: somebody else's, or a test run
    #[arg(long, conflicts_with_all = ["set", "question", "push", "right"])]
    set_aside: bool,
    /// The set
    #[arg(long, value_name = "N")]
    set: Option<u8>,
    /// The question that was answered wrongly
    #[arg(long, value_name = "QUESTION", conflicts_with = "push", requires = "set")]
    question: Option<String>,
    /// The push, counted from 1, as `journal show` lists them
    #[arg(long, value_name = "N", requires = "set")]
    push: Option<u16>,
    /// What is right
    #[arg(long, value_name = "ANSWER")]
    right: Option<String>,
    /// Why
    #[arg(long, value_name = "WHY")]
    reason: String,
}

pub(super) fn run(arguments: &Arguments, folder: &Folder, out: &mut impl Write) -> Result<(), Failure> {
    let reason = arguments.reason.trim();
    let length = reason.chars().count();
    if reason.is_empty() || length > LONGEST || reason.chars().any(char::is_control) {
        return Err(Failure::new(
            format!("`--reason` has {length} characters; it is one line of 1 to {LONGEST}"),
            "It stands in the report beside what was corrected.",
        ));
    }
    let (mut journal, notices) = Journal::open(folder.lock()?)?;
    for notice in notices {
        writeln!(out, "{}", wrapped("", &format!("Note: {notice}.")))?;
    }
    let session = journal.find(&arguments.session)?;
    let now = Clock::real().wall();
    let row = |what| Journal::correction(&now, &session.id, what, reason);
    let row = match (arguments.set_aside, &arguments.question, arguments.push) {
        (true, ..) => row(Corrected::SetAside),
        (false, Some(question), None) => answer(arguments, &session, question, row(Corrected::Answer))?,
        (false, None, Some(push)) => response(arguments, &session, push, row(Corrected::Response))?,
        _ => {
            return Err(Failure::new(
                "it is not said what is corrected",
                "Name --set-aside, or --set with --question or --push. See: counterpoise journal correct --help",
            ));
        }
    };
    journal.keep_correction(&row)?;
    writeln!(
        out,
        "{}",
        wrapped("", &format!("Corrected, session {}: {}.", session.id.short(), row.sentence()))
    )?;
    writeln!(
        out,
        "{}",
        wrapped("", "What was kept stays beside it. Locks stay until a clinician clears them.")
    )?;
    Ok(())
}

/// The most that each question after a set can be answered with, and the least.
fn range(question: Question) -> Option<(u8, u8)> {
    match question {
        Question::Grabbed | Question::Unwell => Some((0, 1)),
        Question::HeldOn => Some((0, 3)),
        Question::Effort => Some((0, 10)),
        Question::Steadiness => Some((1, 5)),
        _ => None,
    }
}

fn right(arguments: &Arguments) -> Result<&str, Failure> {
    arguments.right.as_deref().map(str::trim).ok_or_else(|| {
        Failure::new("it is not said what is right", "Add --right, for example: --question effort --right 4")
    })
}

fn answer(
    arguments: &Arguments,
    session: &crate::journal::read::SessionRecord,
    question: &str,
    row: CorrectionRow,
) -> Result<CorrectionRow, Failure> {
    let known = Question::from_name(question).and_then(|question| Some((question, range(question)?)));
    let Some((question, (least, most))) = known else {
        return Err(Failure::new(
            format!("\"{question}\" is no question that can be corrected"),
            "They are: grabbed hold or nearly fell, held on, effort, steadiness, unwell",
        ));
    };
    let asked =
        session.answers.iter().any(|answer| answer.set == arguments.set && answer.question == question);
    if !asked {
        return Err(Failure::new(
            format!("after set {} of that session nobody was asked: {question}", arguments.set.unwrap_or(0)),
            format!("Look at it: counterpoise journal show {}", session.id.short()),
        ));
    }
    let written = right(arguments)?;
    let right = match written.parse::<u8>() {
        _ if written == "not said" => None,
        Ok(number) if (least..=most).contains(&number) => Some(number.to_string()),
        _ => {
            return Err(Failure::new(
                format!("\"{written}\" is no answer to {question}"),
                format!("It is a number from {least} to {most}, or \"not said\""),
            ));
        }
    };
    Ok(CorrectionRow { set: arguments.set, question: Some(question), right, ..row })
}

fn response(
    arguments: &Arguments,
    session: &crate::journal::read::SessionRecord,
    push: u16,
    row: CorrectionRow,
) -> Result<CorrectionRow, Failure> {
    let cue = push.checked_sub(1);
    let set = session.sets.iter().find(|set| Some(set.start.number) == arguments.set);
    let noted = set.is_some_and(|set| cue.is_some_and(|cue| set.response_of(cue).is_some()));
    if !noted {
        return Err(Failure::new(
            format!("set {} of that session has no push {push} with a response", arguments.set.unwrap_or(0)),
            format!("Look at it: counterpoise journal show {}", session.id.short()),
        ));
    }
    let written = right(arguments)?;
    let right = match Response::from_name(written) {
        _ if written == "not noted" => None,
        Some(response) => Some(response.name().to_owned()),
        None => {
            let names = Response::ALL.iter().map(|response| response.name()).collect::<Vec<_>>().join(", ");
            return Err(Failure::new(
                format!("\"{written}\" is no response"),
                format!("They are: {names}; or \"not noted\""),
            ));
        }
    };
    Ok(CorrectionRow { set: arguments.set, cue, right, ..row })
}
