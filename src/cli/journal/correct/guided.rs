//! Which practice, what was wrong in it, what is right, and why? Nothing is corrected before the last answer.

use std::io::{BufRead, Write};

use jiff::ZonedDateTime;

use super::whole;
use crate::cli::Failure;
use crate::cli::form::Form;
use crate::cli::journal::scale::{Scale, scale};
use crate::journal::Journal;
use counterpoise_core::blocks::Block;
use counterpoise_core::plan::drill::Drill;
use counterpoise_core::record::{
    Answer, AnswerRow, Contents, Corrected, CorrectionRow, Response, Right, SessionRecord, SetRecord,
};
use counterpoise_core::words::counted;

/// The most practices on a page: they fit a small terminal together with the question.
const A_PAGE: usize = 10;
/// The answer for "not said" and "not noted".
const NONE: &str = "-";

/// Asks for one correction. `which` and `reason`: the practice and the reason, if already given.
pub(super) fn ask(
    form: &mut Form<impl BufRead, impl Write>,
    journal: &Journal,
    which: Option<&str>,
    reason: Option<&str>,
    now: &ZonedDateTime,
) -> Result<CorrectionRow, Failure> {
    let session = match which {
        Some(which) => journal.find(which)?,
        None => form.which(journal)?,
    };
    let Right { record: right, set_aside } = Right::of(&session, &journal.contents()?.corrections);
    let empty = |what| CorrectionRow::new(now, session.id, what, "");
    let mut row = match form.what(&right, set_aside)? {
        What::Answer => form.answer(&right, empty(Corrected::Answer))?,
        What::Response => form.response(&right, empty(Corrected::Response))?,
        What::Whole => whole(journal, &session, set_aside, empty)?,
    };
    row.reason = match reason {
        Some(reason) => reason.to_owned(),
        None => form.reason()?,
    };
    form.show(&[Block::Gap, Block::line(format!("Of {}: {}.", day(&session), row.sentence()))])?;
    if form.yes("Save this correction? The original entry stays next to it.")? {
        return Ok(row);
    }
    Err(Failure::new("nothing was corrected", "Start again: counterpoise journal correct"))
}

/// The kind of entry that is wrong.
enum What {
    Answer,
    Response,
    Whole,
}

/// "Wed 2026-02-04 09:30"; a practice that was typed in has no hour.
fn day(session: &SessionRecord) -> String {
    let begun = &session.start.begun;
    let Some(day) = begun.day() else { return begun.minute() };
    let hour = if session.start.is_by_hand() { String::new() } else { begun.minute().split_off(10) };
    format!("{}{hour}", day.strftime("%a %Y-%m-%d"))
}

/// The answers that can be corrected.
fn answers(session: &SessionRecord) -> impl Iterator<Item = (&AnswerRow, Scale)> {
    session.answers.iter().filter_map(|row| Some((&row.row, scale(row.answer.question())?)))
}

fn set_title(set: &SetRecord) -> String {
    let name = &set.start.drill;
    let title = Drill::named(name).map_or(name.as_str(), Drill::title);
    format!("set {}, {title}", set.start.number)
}

pub(super) fn response_name(response: Option<Response>) -> &'static str {
    response.map_or("not noted", Response::name)
}

impl<R: BufRead, W: Write> Form<R, W> {
    /// Asks for one of several choices by its number. A single choice is taken without asking.
    fn one_of(&mut self, ask: &str, choices: &[String]) -> Result<usize, Failure> {
        if choices.len() == 1 {
            self.show(&[Block::Gap, Block::line(format!("{}.", choices[0]))])?;
            return Ok(0);
        }
        self.choices(choices.iter().cloned())?;
        let most = u8::try_from(choices.len()).unwrap_or(u8::MAX);
        Ok(usize::from(self.number(ask, 1, most)?) - 1)
    }

    /// Asks for one of the practices, the newest first.
    fn which(&mut self, journal: &Journal) -> Result<SessionRecord, Failure> {
        let Contents { mut sessions, corrections, .. } = journal.contents()?;
        sessions.retain(|session| !session.sets.is_empty() || answers(session).next().is_some());
        sessions.reverse();
        if sessions.is_empty() {
            return Err(Failure::new(
                "there is no practice to correct",
                "To see what was practiced: counterpoise journal list",
            ));
        }
        let mut from = 0;
        loop {
            let mut page = vec![Block::Gap, Block::line("The latest practices:")];
            let to = sessions.len().min(from + A_PAGE);
            for (number, session) in (1_usize..).zip(&sessions).take(to).skip(from) {
                let set_aside = Right::of(session, &corrections).set_aside;
                let marks = [(session.start.is_by_hand(), "typed in by hand"), (set_aside, "set aside")];
                let marks: Vec<&str> = marks.iter().filter(|(is, _)| *is).map(|(_, mark)| *mark).collect();
                let marks = if marks.is_empty() { String::new() } else { format!(" ({})", marks.join("; ")) };
                let sets = counted(session.sets.len(), "set");
                page.push(Block::Choice(number.to_string(), format!("{}  {sets}{marks}", day(session))));
            }
            self.show(&page)?;
            let older = if to < sessions.len() { ", or O for older ones" } else { "" };
            let typed = self.line(&format!("Which one? A number{older}."))?;
            match typed.parse::<usize>() {
                Ok(number) if (1..=to).contains(&number) => return Ok(sessions.swap_remove(number - 1)),
                _ if typed.eq_ignore_ascii_case("o") && to < sessions.len() => from = to,
                _ => self.refuse(&format!("\"{typed}\" is not one of the numbers"))?,
            }
        }
    }

    fn what(&mut self, session: &SessionRecord, set_aside: bool) -> Result<What, Failure> {
        let whole = match set_aside {
            false => "all of it: somebody else practiced, or it was a test run",
            true => "it was set aside, but counts after all",
        };
        let mut choices = Vec::new();
        if answers(session).next().is_some() {
            choices.push((What::Answer, "an answer"));
        }
        if session.sets.iter().any(|set| !set.responses.is_empty()) {
            choices.push((What::Response, "what happened after a push"));
        }
        choices.push((What::Whole, whole));
        let words: Vec<String> = choices.iter().map(|(_, words)| (*words).to_owned()).collect();
        let nth = self.one_of(&format!("{}: what was wrong? A number.", day(session)), &words)?;
        Ok(choices.swap_remove(nth).0)
    }

    fn answer(&mut self, session: &SessionRecord, row: CorrectionRow) -> Result<CorrectionRow, Failure> {
        let mut sets: Vec<Option<u8>> = answers(session).map(|(answer, _)| answer.set).collect();
        sets.sort_unstable();
        sets.dedup();
        let title = |set: &Option<u8>| match set {
            None => "asked before the first set".to_owned(),
            Some(number) => {
                let set = session.sets.iter().find(|set| set.start.number == *number);
                set.map_or_else(|| format!("set {number}"), set_title)
            }
        };
        let titles: Vec<String> = sets.iter().map(title).collect();
        let set = sets[self.one_of("After which set was it asked? A number.", &titles)?];
        let of_set: Vec<(&AnswerRow, Scale)> =
            answers(session).filter(|(answer, _)| answer.set == set).collect();
        let lines: Vec<String> = of_set
            .iter()
            .map(|(row, _)| format!("{}: {}", row.answer.question(), row.answer.words()))
            .collect();
        let (kept, scale) = &of_set[self.one_of("Which answer was wrong? A number.", &lines)?];
        Ok(row.to(set, self.right(kept.answer, scale)?))
    }

    /// Asks for the right answer, which must differ from the present one.
    fn right(&mut self, kept: Answer, scale: &Scale) -> Result<Answer, Failure> {
        let question = kept.question();
        let can = match scale.is_yes_or_no() {
            true => "Y yes, N no".to_owned(),
            false => scale.words.clone(),
        };
        loop {
            let typed = self.line(&format!(
                "The entry is \"{}: {}\". What is right? ({can}; {NONE} not said)",
                question,
                kept.words()
            ))?;
            let right = match typed.to_lowercase().as_str() {
                NONE => Some(question.not_said()),
                "y" if scale.is_yes_or_no() => Answer::from_number(question, Some(1)).ok(),
                "n" if scale.is_yes_or_no() => Answer::from_number(question, Some(0)).ok(),
                digits => {
                    digits.parse().ok().and_then(|number| Answer::from_number(question, Some(number)).ok())
                }
            };
            match right {
                Some(right) if right == kept => self.refuse("that is already the entry")?,
                Some(right) => return Ok(right),
                None => self.refuse(&format!("\"{typed}\" is not one of these answers"))?,
            }
        }
    }

    fn response(&mut self, session: &SessionRecord, row: CorrectionRow) -> Result<CorrectionRow, Failure> {
        let sets: Vec<&SetRecord> = session.sets.iter().filter(|set| !set.responses.is_empty()).collect();
        let titles: Vec<String> = sets.iter().map(|set| set_title(set)).collect();
        let set = sets[self.one_of("In which set was it? A number.", &titles)?];
        let planned = set.last_plan();
        let pushes: Vec<String> = set
            .responses
            .iter()
            .map(|row| {
                let cue = planned.iter().find(|cue| cue.cue == row.cue);
                let direction = cue.and_then(|cue| cue.direction);
                let to = direction.map(|direction| format!(" {}", direction.name())).unwrap_or_default();
                format!("push {}{to}: {}", row.cue + 1, response_name(row.response))
            })
            .collect();
        let kept = &set.responses[self.one_of("After which push? A number.", &pushes)?];
        let choice = |response: &Response| Block::Choice(response.number().to_string(), response.to_string());
        let mut page = vec![Block::Gap];
        page.extend(Response::ALL.iter().map(choice));
        page.push(Block::Choice(NONE.to_owned(), response_name(None).to_owned()));
        self.show(&page)?;
        let right = loop {
            let typed =
                self.line(&format!("The entry is \"{}\". What is right?", response_name(kept.response)))?;
            let right = match typed.as_str() {
                NONE => Some(None),
                digits => digits.parse().ok().and_then(Response::numbered).map(Some),
            };
            match right {
                Some(right) if right == kept.response => self.refuse("that is already the entry")?,
                Some(right) => break right,
                None => self.refuse(&format!("\"{typed}\" is not one of these"))?,
            }
        };
        let right = right.map(|right| right.name().to_owned());
        Ok(CorrectionRow { set: Some(set.start.number), cue: Some(kept.cue), right, ..row })
    }

    fn reason(&mut self) -> Result<String, Failure> {
        loop {
            let typed =
                self.line("Why? Type one line. It appears in the report next to the original entry.")?;
            match super::reason(&typed) {
                Ok(reason) => return Ok(reason.to_owned()),
                Err(fact) => self.refuse(&fact)?,
            }
        }
    }
}
