//! The `journal show` command: one session in plain words, what was planned and what was heard.

use super::list::minutes;
use crate::journal::{Journal, JournalError, find};
use counterpoise_core::blocks::Block;
use counterpoise_core::draw::schedule::Method;
use counterpoise_core::plan::phrase::Phrase;
use counterpoise_core::record::{
    AnswerRow, ChangeRow, CueRow, DeliveryRow, Figures, Response, SessionRecord, SetRecord,
};

/// The session whose id begins with `which`, or the newest if that is `last`.
///
/// # Errors
/// If there is no such session, or the journal cannot be read.
pub(crate) fn page(journal: &Journal, which: &str) -> Result<Vec<Block>, JournalError> {
    let contents = journal.contents()?;
    let session = find(&contents, which)?;
    let in_use = journal.handed_over(session.start.begun.ms())?;
    let mut page = of_session(session, in_use.as_ref());
    let ours = contents.corrections.iter().filter(|row| row.session == session.id);
    page.extend(ours.map(|row| Block::line(format!("Corrected on {}: {}", row.at.minute(), row.sentence()))));
    Ok(page)
}

fn of_session(session: &SessionRecord, in_use: Option<&ChangeRow>) -> Vec<Block> {
    let start = &session.start;
    let by_hand = start.is_by_hand();
    let mut page = vec![
        Block::line(format!("Session {}", session.id)),
        match start.begun.day().filter(|_| by_hand) {
            Some(day) => Block::fact("Day", format!("{day}; the hour is not known")),
            None => Block::fact("Started", start.begun.minute()),
        },
        match &session.end {
            Some(end) if by_hand => Block::fact("Ended", end.why.to_string()),
            Some(end) => Block::fact("Ended", format!("{}: {}", end.at.minute(), end.why)),
            None => Block::fact("Ended", "not yet"),
        },
        Block::fact("Prescription", &start.title),
        Block::verbatim(&format!("    {}", start.digest)),
    ];
    if let Some(other) = in_use.filter(|row| row.digest != start.digest && session.tryout.is_none()) {
        let (digest, at) = (other.digest.short(), other.at.minute());
        let text = format!("    This is not the prescription that was in use: since {at} that was {digest}.");
        page.push(Block::verbatim(&text));
    }
    match &start.drawn {
        // The journal does not know the seed and the calls of a track.
        None => page.push(Block::fact("Voice", "typed in by hand: practice with a track")),
        Some(drawn) => {
            let whose = match drawn.seed_given {
                true => "given with --seed: this practice was not unpredictable",
                false => "drawn for this session",
            };
            page.extend([Block::fact("Seed", drawn.seed.to_string()), Block::fact("", whose)]);
            if let Err(unknown) = Method::try_from(drawn.method) {
                page.push(Block::fact("", format!("{unknown}. {}", unknown.hint())));
            }
            page.push(match &drawn.device {
                Some(device) => Block::fact("Voice", format!("{}, through {device}", drawn.voice)),
                None => Block::fact("Voice", "none: the calls were on the screen only"),
            });
        }
    }
    page.extend(session.end.iter().flat_map(|end| figures(end, by_hand)));
    page.extend(tryout(session));
    page.extend(decision(session));
    let no_set = || session.answers.iter().map(|answer| &answer.row).filter(|answer| answer.set.is_none());
    let later = |row: &&AnswerRow| row.answer.question().is_asked_later();
    page.extend(answers(no_set().filter(|row| !later(row)), "Before the first set"));
    page.extend(answers(no_set().filter(later), "Asked at the next start"));
    // What did not get the good answer before practice.
    let not_good = session.ready.iter().filter(|row| !row.is_good());
    page.extend(not_good.map(|row| Block::item(format!("{} {}", row.item.question(), row.answer))));
    page.extend(around(session));
    for set in &session.sets {
        let number = set.start.number;
        page.extend(of_set(set, by_hand));
        page.extend(mishaps(session, number));
        let after =
            session.answers.iter().map(|answer| &answer.row).filter(|answer| answer.set == Some(number));
        page.extend(answers(after, &format!("After set {number}")));
    }
    page
}

/// Who watched a try-out, and what was seen.
fn tryout(session: &SessionRecord) -> Vec<Block> {
    let Some(row) = &session.tryout else { return Vec::new() };
    let with = if row.partner.is_empty() { String::new() } else { format!("; partner: {}", row.partner) };
    let text = format!("A try-out: it does not count as practice. Watched by: {}{with}", row.watched_by);
    let seen = session.seen.iter().map(|seen| format!("Seen, {}: {}", seen.what, seen.words));
    Block::section(text, seen).collect()
}

/// What progression decided, and why.
fn decision(session: &SessionRecord) -> Vec<Block> {
    let Some(row) = &session.decided else { return Vec::new() };
    let gentler = if row.gentler { ", gentler by choice" } else { "" };
    let given = row.given.iter().map(|given| format!("{}, {}: step {}", given.drill, given.form, given.step));
    let items = row.reasons.iter().cloned().chain(given);
    Block::section(format!("Steps: {}{gentler}", row.decision), items).collect()
}

fn figures(end: &Figures, by_hand: bool) -> Vec<Block> {
    let mut page =
        vec![Block::fact("Sets", format!("{} of {} completed", end.sets_completed, end.sets_planned))];
    let shown = if end.cues_shown > 0 { format!(", {} shown only", end.cues_shown) } else { String::new() };
    let asked =
        if end.cues_asked > 0 { format!(", {} asked of the partner", end.cues_asked) } else { String::new() };
    if !by_hand {
        page.push(Block::fact("Calls", format!("{} heard{shown}{asked}", end.cues_heard)));
    }
    if end.pushes_noted + end.pushes_not_noted > 0 {
        let (noted, not_noted) = (end.pushes_noted, end.pushes_not_noted);
        let text = format!("{noted} noted, {not_noted} not noted, which never counts as fine");
        page.push(Block::fact("Pushes", text));
    }
    if end.grabs + end.falls > 0 {
        page.push(Block::fact("Grabs", format!("{} grabbed or steadied, {} fell", end.grabs, end.falls)));
    }
    page.push(Block::fact("Work", format!("{} minutes", minutes(end.active_ms))));
    page
}

/// What happened around the sets: warm-up and cool-down, the floor course, and sets that were left out.
fn around(session: &SessionRecord) -> Vec<Block> {
    let mut items: Vec<String> =
        session.routines.iter().map(|row| format!("{}: {}", row.part, row.how)).collect();
    if !session.course.is_empty() {
        items.push(format!("Floor course: {}", session.course.join(", ")));
    }
    items.extend(session.left_out.iter().map(|row| format!("Set {} was left out: {}", row.set, row.why)));
    if items.is_empty() { Vec::new() } else { Block::section("Around the sets", items).collect() }
}

fn mishaps(session: &SessionRecord, set: u8) -> impl Iterator<Item = Block> + '_ {
    let keys = session.mishaps.iter().filter(move |row| row.set == set).map(|row| {
        let push = row.cue.map(|cue| format!(", after call {}", cue + 1)).unwrap_or_default();
        format!("The partner's key at {} s{push}: {}", f64::from(row.at_ms) / 1000.0, row.what)
    });
    let advised = session.advised.iter().filter(move |row| row.set == set);
    keys.chain(advised.map(|row| format!("Advised: {}", row.advice))).map(Block::item)
}

fn answers<'a>(answers: impl Iterator<Item = &'a AnswerRow>, title: &str) -> Vec<Block> {
    let items = answers.map(|row| format!("{}: {}", row.answer.question(), row.answer.words()));
    let mut section: Vec<Block> = Block::section(title, items).collect();
    section.truncate(if section.len() > 1 { section.len() } else { 0 });
    section
}

fn of_set(set: &SetRecord, by_hand: bool) -> Vec<Block> {
    let start = &set.start;
    let side = start.side.map(|side| format!(", {} foot ahead", side.name())).unwrap_or_default();
    let title = format!("Set {}: {}, step {}, {}", start.number, start.drill, start.step, start.form.name());
    let stance = format!(
        "{}{side}; {} surface; {}; eyes {}",
        start.stance, start.surface, start.support, start.vision
    );
    let mut page: Vec<Block> = Block::section(title, [stance]).collect();
    let planned = f64::from(start.work_ms) / 1000.0;
    if let Some(end) = set.end.as_ref().filter(|_| by_hand) {
        // A sheet does not say how long an interrupted set lasted.
        let of = if end.worked_ms == start.work_ms { format!("{planned} s worked: ") } else { String::new() };
        page.push(Block::item(format!("{of}{}", end.why)));
        return page;
    }
    let begun = start.begun.minute();
    page.push(Block::item(match &set.end {
        Some(end) => {
            let worked = f64::from(end.worked_ms) / 1000.0;
            format!("Started {begun}; {worked} s of {planned} s worked: {}", end.why)
        }
        None => format!("Started {begun}; {planned} s planned; going on"),
    }));
    page.extend(set.plans.iter().filter_map(|plan| {
        let paused = f64::from(plan.paused_at_ms?) / 1000.0;
        Some(Block::item(format!("Pause {} at {paused} s; the rest was drawn again", plan.plan)))
    }));
    page.extend(
        set.disturbed
            .iter()
            .map(|row| Block::item(format!("The sound {} at {} s.", row.how, f64::from(row.at_ms) / 1000.0))),
    );
    if !set.disturbed.is_empty() {
        page.push(Block::item("Calls after that may have been heard later than shown here."));
    }
    let all = |is: fn(&DeliveryRow) -> bool| !set.delivered.is_empty() && set.delivered.iter().all(is);
    let heard = if all(|row| row.asked_ms.is_some()) {
        "Asked"
    } else if all(|row| row.shown_ms.is_some()) {
        "Shown"
    } else {
        "Heard"
    };
    let ended_ms = set.end.as_ref().map_or(u32::MAX, |end| end.worked_ms);
    let mut lines = vec![format!("  Call   Planned       {heard}     Error  What")];
    lines.extend(set.last_plan().iter().map(|cue| {
        let response = set.response_of(cue.cue).map(|response| response.map_or("not noted", Response::name));
        let line = cue_line(cue, set.delivery_of(cue.cue), ended_ms);
        let response = response.map(|response| format!(": {response}")).unwrap_or_default();
        format!("{}{response}", line.trim_end())
    }));
    page.push(Block::Verbatim(lines));
    page
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
