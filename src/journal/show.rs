//! One session in plain words: what was planned beside what was heard.

use std::io::{self, Write};

use super::list::minutes;
use super::read::{SessionRecord, SetRecord, SummaryRow};
use super::row::{AnswerRow, CueRow, DeliveryRow};
use super::{Journal, JournalError};
use crate::phrase::Phrase;

/// Writes the session whose id begins with `which`, or the newest if that is `last`.
///
/// # Errors
/// If there is no such session, the journal cannot be read or `out` cannot be written.
pub fn show(journal: &Journal, which: &str, out: &mut impl Write) -> Result<(), JournalError> {
    Ok(write(&journal.find(which)?, out)?)
}

fn write(session: &SessionRecord, out: &mut impl Write) -> io::Result<()> {
    let start = &session.start;
    writeln!(out, "Session {}", session.id)?;
    writeln!(out, "  Begun         {}", start.begun.minute())?;
    match &session.end {
        Some(end) => writeln!(out, "  Ended         {}: {}", end.at.minute(), end.why)?,
        None => writeln!(out, "  Ended         not yet")?,
    }
    writeln!(out, "  Prescription  {}", start.title)?;
    writeln!(out, "    {}", start.digest)?;
    writeln!(out, "  Seed          {}", start.seed)?;
    writeln!(
        out,
        "                {}",
        match start.seed_given {
            true => "given by somebody: this practice was not unpredictable",
            false => "drawn for this session",
        }
    )?;
    match &start.device {
        Some(device) => writeln!(out, "  Voice         {}, through {device}", start.voice)?,
        None => writeln!(out, "  Voice         none: the calls were on the screen only")?,
    }
    if let Some(end) = &session.end {
        figures(end, out)?;
    }
    answers(session.answers.iter().filter(|answer| answer.set.is_none()), "Before the first set", out)?;
    for set in &session.sets {
        write_set(set, out)?;
        let number = set.start.number;
        let after = session.answers.iter().filter(|answer| answer.set == Some(number));
        answers(after, &format!("After set {number}"), out)?;
    }
    Ok(())
}

fn figures(end: &SummaryRow, out: &mut impl Write) -> io::Result<()> {
    writeln!(out, "  Sets          {} of {} done whole", end.sets_completed, end.sets_planned)?;
    let shown = if end.cues_shown > 0 { format!(", {} shown only", end.cues_shown) } else { String::new() };
    writeln!(out, "  Calls         {} heard{shown}", end.cues_heard)?;
    writeln!(out, "  Work          {} minutes", minutes(end.active_ms))
}

fn answers<'a>(
    answers: impl Iterator<Item = &'a AnswerRow>,
    title: &str,
    out: &mut impl Write,
) -> io::Result<()> {
    let mut answers = answers.peekable();
    if answers.peek().is_some() {
        writeln!(out, "\n{title}")?;
    }
    answers.try_for_each(|row| writeln!(out, "  {}: {}", row.question, row.question.say(row.answer)))
}

fn write_set(set: &SetRecord, out: &mut impl Write) -> io::Result<()> {
    let start = &set.start;
    let side =
        start.side.map(|side| format!(", {} foot ahead", super::keep::word(&side))).unwrap_or_default();
    writeln!(out, "\nSet {}: {}, step {}, {}", start.number, start.drill, start.step, start.form.name())?;
    writeln!(
        out,
        "  {}{side}; {} surface; {}; eyes {}",
        start.stance, start.surface, start.support, start.vision
    )?;
    let planned = f64::from(start.work_ms) / 1000.0;
    match &set.end {
        Some(end) => writeln!(
            out,
            "  Begun {}; {} s of {planned} s worked: {}",
            start.begun.minute(),
            f64::from(end.worked_ms) / 1000.0,
            end.why
        )?,
        None => writeln!(out, "  Begun {}; {planned} s planned; no end yet", start.begun.minute())?,
    }
    for plan in &set.plans {
        if let Some(paused) = plan.paused_at_ms {
            writeln!(
                out,
                "  Pause {} at {} s; the rest was drawn anew",
                plan.plan,
                f64::from(paused) / 1000.0
            )?;
        }
    }
    for row in &set.disturbed {
        writeln!(out, "  The sound {} at {} s.", row.how, f64::from(row.at_ms) / 1000.0)?;
    }
    if !set.disturbed.is_empty() {
        writeln!(out, "  Calls after that may have been heard later than stated here.")?;
    }
    let shown = !set.delivered.is_empty() && set.delivered.iter().all(|row| row.heard_ms.is_none());
    let heard = if shown { "Shown" } else { "Heard" };
    writeln!(out, "  Call   Planned       {heard}     Error  What")?;
    let ended_ms = set.end.as_ref().map_or(u32::MAX, |end| end.worked_ms);
    set.last_plan()
        .iter()
        .try_for_each(|cue| writeln!(out, "{}", cue_line(cue, set.delivery_of(cue.cue), ended_ms).trim_end()))
}

fn cue_line(cue: &CueRow, delivery: Option<&DeliveryRow>, ended_ms: u32) -> String {
    let seconds = |ms: u32| format!("{:.3}", f64::from(ms) / 1000.0);
    let what = match &cue.phrase {
        None => "(nothing, on purpose)",
        Some(id) => Phrase::named(id).map_or(id.as_str(), |phrase| phrase.words()),
    };
    let (heard, error) = match delivery {
        None if cue.blank => (String::new(), String::new()),
        None if cue.at_ms >= ended_ms => ("not called".to_owned(), String::new()),
        None => ("not heard".to_owned(), String::new()),
        Some(delivery) => match delivery.late_us(cue.at_ms) {
            Some(late) => (seconds(delivery.at_ms()), format!("{:+.1} ms", late as f64 / 1000.0)),
            None => (seconds(delivery.at_ms()), "shown".to_owned()),
        },
    };
    format!("  {:>4}  {:>8}  {heard:>10}  {error:>8}  {what}", cue.cue + 1, seconds(cue.at_ms))
}
