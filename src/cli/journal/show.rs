//! The `journal show` command: one session in plain words, what was planned and what was heard.

use std::io::{self, Write};

use crate::cli::wrap::wrapped;
use crate::journal::adopt::short;
use crate::journal::list::minutes;
use crate::journal::{AnswerRow, CueRow, DeliveryRow};
use crate::journal::{BY_HAND, Journal, JournalError};
use counterpoise_core::draw::schedule::Method;
use counterpoise_core::plan::phrase::Phrase;
use counterpoise_core::record::{ChangeRow, Response, SessionRecord, SetRecord, SummaryRow};

/// Writes the session whose id begins with `which`, or the newest if that is `last`.
///
/// # Errors
/// If there is no such session, the journal cannot be read or `out` cannot be written.
pub(crate) fn show(journal: &Journal, which: &str, out: &mut impl Write) -> Result<(), JournalError> {
    let session = journal.find(which)?;
    let in_use = journal.handed_over(session.start.begun.ms())?;
    write(&session, in_use.as_ref(), out)?;
    for row in journal.corrections()?.iter().filter(|row| row.session == session.id) {
        writeln!(out, "{}", wrapped("", &format!("Corrected on {}: {}", row.at.minute(), row.sentence())))?;
    }
    Ok(())
}

fn write(session: &SessionRecord, in_use: Option<&ChangeRow>, out: &mut impl Write) -> io::Result<()> {
    let start = &session.start;
    writeln!(out, "Session {}", session.id)?;
    let by_hand = start.is_by_hand();
    match start.begun.day().filter(|_| by_hand) {
        Some(day) => writeln!(out, "  Day           {day}; the hour is not known")?,
        None => writeln!(out, "  Started       {}", start.begun.minute())?,
    }
    match &session.end {
        Some(end) if by_hand => writeln!(out, "  Ended         {}", end.why)?,
        Some(end) => writeln!(out, "  Ended         {}: {}", end.at.minute(), end.why)?,
        None => writeln!(out, "  Ended         not yet")?,
    }
    writeln!(out, "  Prescription  {}", start.title)?;
    writeln!(out, "    {}", start.digest)?;
    if let Some(other) = in_use.filter(|row| row.digest != start.digest && session.tryout.is_none()) {
        let (digest, at) = (short(&other.digest), other.at.minute());
        let text = format!("This is not the prescription that was in use: since {at} that was {digest}.");
        writeln!(out, "{}", wrapped("    ", &text))?;
    }
    // The journal does not know the seed and the calls of a track.
    if !by_hand {
        writeln!(out, "  Seed          {}", start.seed)?;
        let whose = match start.seed_given {
            true => "given with --seed: this practice was not unpredictable",
            false => "drawn for this session",
        };
        writeln!(out, "                {whose}")?;
        if let Err(unknown) = Method::try_from(start.method) {
            writeln!(out, "{}", wrapped("                ", &format!("{unknown}. {}", unknown.hint())))?;
        }
    }
    match &start.device {
        None if by_hand => writeln!(out, "  Voice         {BY_HAND}: practice with a track")?,
        Some(device) => writeln!(out, "  Voice         {}, through {device}", start.voice)?,
        None => writeln!(out, "  Voice         none: the calls were on the screen only")?,
    }
    if let Some(end) = &session.end {
        figures(end, by_hand, out)?;
    }
    write_tryout(session, out)?;
    write_decision(session, out)?;
    answers(session.answers.iter().filter(|answer| answer.set.is_none()), "Before the first set", out)?;
    not_true(session, out)?;
    around(session, out)?;
    for set in &session.sets {
        write_set(set, by_hand, out)?;
        mishaps(session, set.start.number, out)?;
        let number = set.start.number;
        let after = session.answers.iter().filter(|answer| answer.set == Some(number));
        answers(after, &format!("After set {number}"), out)?;
    }
    Ok(())
}

/// Writes who watched a try-out, and what was seen.
fn write_tryout(session: &SessionRecord, out: &mut impl Write) -> io::Result<()> {
    let Some(row) = &session.tryout else { return Ok(()) };
    let with = if row.partner.is_empty() { String::new() } else { format!("; partner: {}", row.partner) };
    let text = format!("A try-out: it does not count as practice. Watched by: {}{with}", row.watched_by);
    writeln!(out, "\n{}", wrapped("", &text))?;
    row.seen.iter().try_for_each(|seen| {
        writeln!(out, "{}", wrapped("  ", &format!("Seen, {}: {}", seen.what, seen.words)))
    })
}

/// Writes what progression decided, and why.
fn write_decision(session: &SessionRecord, out: &mut impl Write) -> io::Result<()> {
    let Some(row) = &session.decided else { return Ok(()) };
    let gentler = if row.gentler { ", gentler by choice" } else { "" };
    writeln!(out, "\nSteps: {}{gentler}", row.decision)?;
    row.reasons.iter().try_for_each(|reason| writeln!(out, "{}", wrapped("  ", reason)))?;
    row.given
        .iter()
        .try_for_each(|given| writeln!(out, "  {}, {}: step {}", given.drill, given.form, given.step))
}

/// Writes which statements were not true on the readiness pages.
fn not_true(session: &SessionRecord, out: &mut impl Write) -> io::Result<()> {
    let rows = session.ready.iter().filter(|row| !row.is_true);
    rows.map(|row| row.item.sentence())
        .try_for_each(|sentence| writeln!(out, "{}", wrapped("  ", &format!("not true: {sentence}"))))
}

fn figures(end: &SummaryRow, by_hand: bool, out: &mut impl Write) -> io::Result<()> {
    writeln!(out, "  Sets          {} of {} completed", end.sets_completed, end.sets_planned)?;
    let shown = if end.cues_shown > 0 { format!(", {} shown only", end.cues_shown) } else { String::new() };
    let asked =
        if end.cues_asked > 0 { format!(", {} asked of the partner", end.cues_asked) } else { String::new() };
    if !by_hand {
        writeln!(out, "  Calls         {} heard{shown}{asked}", end.cues_heard)?;
    }
    if end.pushes_noted + end.pushes_not_noted > 0 {
        let (noted, not_noted) = (end.pushes_noted, end.pushes_not_noted);
        writeln!(out, "  Pushes        {noted} noted, {not_noted} not noted, which never counts as fine")?;
    }
    if end.grabs + end.falls > 0 {
        writeln!(out, "  Grabs         {} grabbed or steadied, {} fell", end.grabs, end.falls)?;
    }
    writeln!(out, "  Work          {} minutes", minutes(end.active_ms))
}

/// Writes what happened around the sets: warm-up and cool-down, the floor course, and sets that were left out.
fn around(session: &SessionRecord, out: &mut impl Write) -> io::Result<()> {
    let (routines, left_out) = (&session.routines, &session.left_out);
    if routines.is_empty() && left_out.is_empty() && session.course.is_empty() {
        return Ok(());
    }
    writeln!(out, "\nAround the sets")?;
    routines.iter().try_for_each(|row| writeln!(out, "  {}: {}", row.part, row.how))?;
    if !session.course.is_empty() {
        writeln!(out, "  Floor course: {}", session.course.join(", "))?;
    }
    left_out.iter().try_for_each(|row| writeln!(out, "  Set {} was left out: {}", row.set, row.why))
}

fn mishaps(session: &SessionRecord, set: u8, out: &mut impl Write) -> io::Result<()> {
    for row in session.mishaps.iter().filter(|row| row.set == set) {
        let push = row.cue.map(|cue| format!(", after call {}", cue + 1)).unwrap_or_default();
        writeln!(out, "  The partner's key at {} s{push}: {}", f64::from(row.at_ms) / 1000.0, row.what)?;
    }
    let advised = session.advised.iter().filter(|row| row.set == set);
    for row in advised {
        writeln!(out, "  Advised: {}", row.advice)?;
    }
    Ok(())
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

fn write_set(set: &SetRecord, by_hand: bool, out: &mut impl Write) -> io::Result<()> {
    let start = &set.start;
    let side = start.side.map(|side| format!(", {} foot ahead", side.name())).unwrap_or_default();
    writeln!(out, "\nSet {}: {}, step {}, {}", start.number, start.drill, start.step, start.form.name())?;
    writeln!(
        out,
        "  {}{side}; {} surface; {}; eyes {}",
        start.stance, start.surface, start.support, start.vision
    )?;
    let planned = f64::from(start.work_ms) / 1000.0;
    if let Some(end) = set.end.as_ref().filter(|_| by_hand) {
        // A sheet does not say how long an interrupted set lasted.
        let of = if end.worked_ms == start.work_ms { format!("{planned} s worked: ") } else { String::new() };
        return writeln!(out, "  {of}{}", end.why);
    }
    match &set.end {
        Some(end) => writeln!(
            out,
            "  Started {}; {} s of {planned} s worked: {}",
            start.begun.minute(),
            f64::from(end.worked_ms) / 1000.0,
            end.why
        )?,
        None => writeln!(out, "  Started {}; {planned} s planned; no end yet", start.begun.minute())?,
    }
    for plan in &set.plans {
        if let Some(paused) = plan.paused_at_ms {
            writeln!(
                out,
                "  Pause {} at {} s; the rest was drawn again",
                plan.plan,
                f64::from(paused) / 1000.0
            )?;
        }
    }
    for row in &set.disturbed {
        writeln!(out, "  The sound {} at {} s.", row.how, f64::from(row.at_ms) / 1000.0)?;
    }
    if !set.disturbed.is_empty() {
        writeln!(out, "  Calls after that may have been heard later than shown here.")?;
    }
    let all = |is: fn(&DeliveryRow) -> bool| !set.delivered.is_empty() && set.delivered.iter().all(is);
    let heard = if all(|row| row.asked_ms.is_some()) {
        "Asked"
    } else if all(|row| row.shown_ms.is_some()) {
        "Shown"
    } else {
        "Heard"
    };
    writeln!(out, "  Call   Planned       {heard}     Error  What")?;
    let ended_ms = set.end.as_ref().map_or(u32::MAX, |end| end.worked_ms);
    set.last_plan().iter().try_for_each(|cue| {
        let response = set.response_of(cue.cue).map(|response| response.map_or("not noted", Response::name));
        let line = cue_line(cue, set.delivery_of(cue.cue), ended_ms);
        let response = response.map(|response| format!(": {response}")).unwrap_or_default();
        writeln!(out, "{}{response}", line.trim_end())
    })
}

/// The words of phrases whose ids are joined by `+`.
fn spelled(ids: &str) -> String {
    let words = ids
        .split('+')
        .map(|id| Phrase::named(id).map_or_else(|| id.to_owned(), |phrase| phrase.words().to_owned()));
    words.collect::<Vec<_>>().join(", ")
}

fn cue_line(cue: &CueRow, delivery: Option<&DeliveryRow>, ended_ms: u32) -> String {
    let seconds = |ms: u32| format!("{:.3}", f64::from(ms) / 1000.0);
    let what = match (&cue.tell, &cue.phrase) {
        (Some(ids), _) | (None, Some(ids)) => spelled(ids),
        (None, None) => "(nothing, on purpose)".to_owned(),
    };
    let what = match cue.until_ms {
        Some(until) => format!("{what} (until {})", seconds(until)),
        None => what,
    };
    let (heard, error) = match delivery {
        None if cue.blank => (String::new(), String::new()),
        None if cue.at_ms >= ended_ms => ("not called".to_owned(), String::new()),
        None => ("not heard".to_owned(), String::new()),
        Some(delivery) => match delivery.late_us(cue.at_ms) {
            Some(late) => (seconds(delivery.at_ms()), format!("{:+.1} ms", late as f64 / 1000.0)),
            None if delivery.asked_ms.is_some() => (seconds(delivery.at_ms()), "asked".to_owned()),
            None => (seconds(delivery.at_ms()), "shown".to_owned()),
        },
    };
    format!("  {:>4}  {:>8}  {heard:>10}  {error:>8}  {what}", cue.cue + 1, seconds(cue.at_ms))
}

#[cfg(test)]
mod test;
