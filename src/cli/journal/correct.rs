//! The `journal correct` command: adds a correction with a reason, by options or question by question. The original entry
//! is not changed.

use std::io::Write;

use jiff::ZonedDateTime;

use super::scale::scale;
use crate::cli::Failure;
use crate::cli::form::Form;
use crate::cli::standing;
use crate::clock::Clock;
use crate::journal::{Folder, Journal};
use counterpoise_core::blocks::Block;
use counterpoise_core::record::{Answer, Corrected, CorrectionRow, Question, Response, Right, SessionRecord};
use counterpoise_core::words::Printable;

mod guided;

/// The most characters of a reason \[judgment\].
const LONGEST: usize = 200;

/// The options of `journal correct`.
#[derive(Debug, Clone, Default, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise journal correct              asks which practice, what was wrong and what is right\n  \
    counterpoise journal correct 3f2a --set-aside --reason \"somebody else tried it\"\n  \
    counterpoise journal correct 3f2a --counts-again --reason \"it was me after all\"\n  \
    counterpoise journal correct last --set 2 --question effort --right 4 --reason \"wrong key\"\n  \
    counterpoise journal correct last --set 3 --push 2 --right \"one step\" --reason \"seen again on video\"\n\n\
    Questions: \"grabbed hold or nearly fell\", unwell and \"hurt or a knock to the head\" (0 no, 1 yes), fell, \"hurt in a fall\" and \"hit the head\" (2 not sure), \"held on\" (0 to 3), effort\n\
    (0 to 10), steadiness (1 to 5), \"what felt wrong\" (1 to 6), \"why stopped\" (1 to 3); asked once a week, without --set:\n\
    \"nearly fell in daily life\" (0 to 3), confidence (1 to 5), soreness (0 to 3). Responses: feet in place, one step, two or\n\
    more steps, touched support, grabbed or steadied, fell. \"not said\" or \"not noted\" removes an answer.\n\
    A practice that was typed in with a wrong day, or without a fall: set it aside, and type it in again.\n\
    Nothing is erased: both appear in the journal and the report. A correction does not lift a lock or shorten a hold; only\n\
    a clinician's clearance lifts a lock.")]
#[group(skip)]
pub(in crate::cli) struct Arguments {
    /// The beginning of the session's id, as `journal list` shows it, or last [default: it asks]
    #[arg(value_name = "SESSION")]
    session: Option<String>,
    /// Do not count it as practice: it was somebody else's, or a test run
    #[arg(long, conflicts_with_all = ["counts_again", "set", "question", "push", "right"])]
    set_aside: bool,
    /// Count it again after it was set aside
    #[arg(long, conflicts_with_all = ["set", "question", "push", "right"])]
    counts_again: bool,
    /// The number of the set
    #[arg(long, value_name = "N")]
    set: Option<u8>,
    /// The question with the wrong answer
    #[arg(long, value_name = "QUESTION", conflicts_with = "push")]
    question: Option<String>,
    /// The push, counted from 1, as `journal show` lists them
    #[arg(long, value_name = "N", requires = "set")]
    push: Option<u16>,
    /// The right answer
    #[arg(long, value_name = "ANSWER")]
    right: Option<String>,
    /// The reason, one line
    #[arg(long, value_name = "WHY")]
    reason: Option<String>,
}

impl Arguments {
    /// Whether no option says what is wrong, so that the command asks.
    fn is_open(&self) -> bool {
        let said =
            self.set.is_some() || self.question.is_some() || self.push.is_some() || self.right.is_some();
        !(self.set_aside || self.counts_again || said)
    }
}

pub(super) fn run(
    arguments: &Arguments,
    folder: &Folder,
    out: &mut impl Write,
) -> Result<Vec<Block>, Failure> {
    let given = arguments.reason.as_deref().map(reason).transpose().map_err(|fact| {
        Failure::new(fact, "Write `--reason` as one line. It appears in the report next to the correction.")
    })?;
    let mut journal = standing::open(folder, out)?;
    let now = Clock::real().wall();
    let row = if arguments.is_open() {
        let mut form = Form::new(&mut *out, "nothing was corrected", "counterpoise journal correct");
        guided::ask(&mut form, &journal, arguments.session.as_deref(), given, &now)?
    } else {
        by_options(arguments, given, &journal, &now)?
    };
    journal.keep_correction(&now, &row)?;
    let mut page: Vec<Block> = [
        format!("Corrected, session {}: {}.", row.session.short(), row.sentence()),
        "The original entry stays next to it. Locks stay until a clinician clears them, and holds until they run out."
            .to_owned(),
    ]
    .map(Block::line)
    .into();
    page.extend(super::consequence(&journal, folder, &now));
    Ok(page)
}

/// The reason as one trimmed line, or the fact that is wrong with it.
fn reason(text: &str) -> Result<&str, String> {
    let text = text.trim();
    match text.chars().count() {
        0 => Err("the reason is empty".to_owned()),
        length if length > LONGEST => {
            Err(format!("the reason has {length} characters; the most is {LONGEST}"))
        }
        _ if Printable::first_hidden(text).is_some() => {
            Err("the reason has a character that cannot be shown, such as that of an arrow key".to_owned())
        }
        _ => Ok(text),
    }
}

/// The correction that the options describe, checked against the journal.
fn by_options(
    arguments: &Arguments,
    reason: Option<&str>,
    journal: &Journal,
    now: &ZonedDateTime,
) -> Result<CorrectionRow, Failure> {
    let which = arguments.session.as_deref().ok_or_else(|| {
        Failure::new(
            "no practice to correct was named",
            "Name it by the first digits that `journal list` shows, or with last. Without any option the command asks.",
        )
    })?;
    let reason = reason.ok_or_else(|| {
        Failure::new("no reason was given", "Add --reason. It appears in the report next to the correction.")
    })?;
    let session = journal.find(which)?;
    let row = |what| CorrectionRow::new(now, session.id, what, reason);
    match (&arguments.question, arguments.push) {
        _ if arguments.set_aside || arguments.counts_again => {
            whole(journal, &session, !arguments.set_aside, row)
        }
        (Some(question), None) => answer(arguments, &session, question, row(Corrected::Answer)),
        (None, Some(push)) => response(arguments, &session, push, row(Corrected::Response)),
        _ => Err(Failure::new(
            "nothing to correct was named",
            "Add --set-aside, or --question or --push with its --set. See: counterpoise journal correct --help",
        )),
    }
}

/// Sets the session aside, or counts it again. A day has one practice, so a session is not counted again if another one
/// counts.
fn whole(
    journal: &Journal,
    session: &SessionRecord,
    again: bool,
    row: impl Fn(Corrected) -> CorrectionRow,
) -> Result<CorrectionRow, Failure> {
    let set_aside = Right::of(session, &journal.contents()?.corrections).set_aside;
    let look = format!("Look at it: counterpoise journal show {}", session.id.short());
    match (again, set_aside) {
        (false, false) => Ok(row(Corrected::SetAside)),
        (false, true) => Err(Failure::new("that practice is already set aside", look)),
        (true, false) => Err(Failure::new("that practice already counts: it was not set aside", look)),
        (true, true) => {
            let mut past = journal.trainee()?.past;
            let ours = past.sessions.iter_mut().find(|other| other.id == session.id.to_string());
            let day = ours.map(|ours| {
                ours.discounted = false;
                ours.day
            });
            let of_day = past.sittings().iter().filter(|sitting| Some(sitting.day()) == day).count();
            if of_day > 1 {
                return Err(Failure::new(
                    "that day has another practice that counts, and only one per day can count",
                    "If the other one is wrong, set that aside first. See both: counterpoise journal list",
                ));
            }
            Ok(row(Corrected::CountsAgain))
        }
    }
}

fn right(arguments: &Arguments) -> Result<&str, Failure> {
    arguments.right.as_deref().map(str::trim).ok_or_else(|| {
        Failure::new(
            "the right answer was not given",
            "Add --right, for example: --question effort --right 4",
        )
    })
}

fn answer(
    arguments: &Arguments,
    session: &SessionRecord,
    question: &str,
    row: CorrectionRow,
) -> Result<CorrectionRow, Failure> {
    let known = Question::from_name(question).and_then(|question| Some((question, scale(question)?)));
    let Some((question, scale)) = known else {
        let names = Question::ALL.iter().filter(|one| scale(**one).is_some());
        let names: Vec<&str> = names.map(|one| one.name()).collect();
        return Err(Failure::new(
            format!("\"{question}\" is not a question that can be corrected"),
            format!("They are: {}", names.join(", ")),
        ));
    };
    if !session.answers.iter().any(|kept| kept.set == arguments.set && kept.answer.question() == question) {
        let when =
            arguments.set.map_or_else(|| "before the first set".into(), |set| format!("after set {set}"));
        return Err(Failure::new(
            format!("{when} of that session this was not asked: {question}"),
            format!("Look at it: counterpoise journal show {}", session.id.short()),
        ));
    }
    let written = right(arguments)?;
    let number = written.parse().ok();
    let right = match number.map(|number| Answer::from_number(question, Some(number))) {
        _ if written == question.not_said().words() => question.not_said(),
        Some(Ok(right)) => right,
        _ => {
            return Err(Failure::new(
                format!("\"{written}\" is not an answer to {question}"),
                format!("It is a number from {} to {}, or \"not said\"", scale.least, scale.most),
            ));
        }
    };
    Ok(row.to(arguments.set, right))
}

fn response(
    arguments: &Arguments,
    session: &SessionRecord,
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
        _ if written == guided::response_name(None) => None,
        Some(response) => Some(response.name().to_owned()),
        None => {
            let names = Response::ALL.iter().map(|response| response.name()).collect::<Vec<_>>().join(", ");
            return Err(Failure::new(
                format!("\"{written}\" is not a response"),
                format!("They are: {names}; or \"not noted\""),
            ));
        }
    };
    Ok(CorrectionRow { set: arguments.set, cue, right, ..row })
}
