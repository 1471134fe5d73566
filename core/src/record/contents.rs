//! The one fold: from the lines of a journal to everything that they tell.

use std::collections::{HashMap, HashSet};
use std::fmt;

use serde::Serialize;

use super::{
    BalanceRow, ChangeRow, ClearanceRow, CorrectionRow, Entry, Id, Identified, Lifted, LiftedRow, Line,
    Place, PlanRecord, PrescriptionText, ReadyRow, ResponseRow, SessionEnd, SessionRecord, SetEnd, SetEndRow,
    SetRecord, Stamp, SuitabilityRow, Told, careful, in_order,
    ranges::{WORK_SLACK_MS, in_time},
};
use crate::words::counted;

/// Everything that a journal holds.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct Contents {
    /// The sessions, in the order in which they were begun.
    pub sessions: Vec<SessionRecord>,
    /// Prescriptions that came into use or were not taken.
    pub changes: Vec<ChangeRow>,
    /// Every time that the questions about suitability were answered.
    pub suitability: Vec<Identified<SuitabilityRow>>,
    /// Clearances.
    pub clearances: Vec<ClearanceRow>,
    /// Results of balance tests.
    pub tests: Vec<BalanceRow>,
    /// Corrections, what is replaced before what replaces it.
    pub corrections: Vec<Identified<CorrectionRow>>,
    /// The texts of prescriptions.
    #[serde(skip)]
    pub prescriptions: Vec<PrescriptionText>,
    /// Lines of a later form: kept, and not understood. Their ids and forms.
    #[serde(skip)]
    pub later: Vec<(Id, u32)>,
    /// What does not fit together.
    #[serde(skip)]
    pub misfits: Vec<Misfit>,
}

/// A line that does not fit: a value is out of its range, it contradicts another one, or it belongs to a session or a set whose
/// beginning is missing. Its session never counts as fine.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Misfit {
    /// Which line.
    pub id: Id,
    /// Of which session.
    pub session: Option<Id>,
    /// What is wrong, as the end of a sentence.
    pub what: String,
}

impl fmt::Display for Misfit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.session {
            Some(session) => write!(f, "session {session}: {}", self.what),
            None => f.write_str(&self.what),
        }
    }
}

impl Contents {
    /// Folds these lines, in whichever order they come. A line that is there twice counts once.
    pub fn of(mut lines: Vec<Line>) -> Self {
        let mut seen = HashSet::new();
        lines.retain(|line| seen.insert(line.id));
        let lines = in_order(lines);
        let mut fold = Fold::default();
        // A clock that was set back must not put the beginning of a session, or of a set, after what belongs to it.
        let (begun, others) = part(lines, |entry| matches!(entry, Entry::SessionBegun(_)));
        let (sets, others) = part(others, |entry| matches!(entry, Entry::SetBegun { .. }));
        // What was called is held against every plan of its set.
        let (plans, others) = part(others, |entry| matches!(entry, Entry::Replanned { .. }));
        let (corrections, others) = part(others, |entry| matches!(entry, Entry::Corrected(_)));
        let in_turn = begun.into_iter().chain(sets).chain(plans).chain(others);
        for (place, line) in in_turn.chain(replaced_first(corrections)) {
            fold.take(place, line);
        }
        fold.finish()
    }

    /// Whether nothing about a person is kept in it.
    pub fn is_empty(&self) -> bool {
        self.sessions.is_empty()
            && self.suitability.is_empty()
            && self.clearances.is_empty()
            && self.tests.is_empty()
    }

    /// What is kept and not read, for the person to know.
    pub fn unread(&self) -> Vec<String> {
        let newest = self.later.iter().map(|(_, form)| form).max();
        let later = newest.map(|form| {
            let count = counted(self.later.len(), "entry");
            format!("{count} of a later form ({form}): kept, and not read; a newer version of Counterpoise reads them")
        });
        let misfits = self.misfits.iter().map(|misfit| {
            format!("an entry does not fit, so its practice does not count as going well: {misfit}")
        });
        later.into_iter().chain(misfits).collect()
    }

    /// The session with this id.
    pub fn session(&self, id: Id) -> Option<&SessionRecord> {
        self.sessions.iter().find(|session| session.id == id)
    }

    /// What clearances lifted.
    pub fn lifted(&self) -> Vec<Lifted> {
        lifted(&self.clearances, |session| {
            let record = self.sessions.iter().find(|record| record.id.to_string() == session);
            record.map_or(&[], |record| &record.can_lock)
        })
    }

    /// The patches of the last floor course, in the order in which they were walked; empty if there was none.
    pub fn last_course(&self) -> &[String] {
        self.sessions
            .iter()
            .rev()
            .map(|session| &session.course[..])
            .find(|course| !course.is_empty())
            .unwrap_or(&[])
    }
}

type Placed = (Place, Line);

/// What these clearances lifted. A lock of a session is lifted as far as it was known: where an entry that nobody named tells
/// of something, now or later, the lock stands. `can_lock`: those entries of a session.
pub fn lifted<'a>(clearances: &[ClearanceRow], can_lock: impl Fn(&str) -> &'a [Id]) -> Vec<Lifted> {
    let all = || clearances.iter().flat_map(|row| &row.lifted);
    let stands = |row: &LiftedRow| {
        let same = || all().filter(|other| (&other.locked_by, other.what) == (&row.locked_by, row.what));
        row.what.is_told()
            && !can_lock(&row.locked_by).iter().all(|id| same().any(|other| other.told_by.contains(id)))
    };
    let lifted = all().filter(|row| !stands(row));
    lifted.map(|row| Lifted { session: row.locked_by.clone(), what: row.what }).collect()
}

fn part(lines: Vec<Placed>, is: fn(&Entry) -> bool) -> (Vec<Placed>, Vec<Placed>) {
    lines.into_iter().partition(|(_, line)| line.entry.entry().is_some_and(is))
}

/// Corrections in their order, but each after those that it names.
fn replaced_first(mut corrections: Vec<Placed>) -> Vec<Placed> {
    let names: HashMap<Id, Vec<Id>> = corrections
        .iter()
        .filter_map(|(_, line)| match line.entry.entry() {
            Some(Entry::Corrected(row)) => Some((line.id, row.replaces.clone())),
            _ => None,
        })
        .collect();
    // How many corrections stand behind one, the longest way. A file can say that two replace each other: no way is longer
    // than there are corrections.
    let mut behind: HashMap<Id, usize> = names.keys().map(|id| (*id, 0)).collect();
    for _ in 0..names.len() {
        let next = names.iter().map(|(id, replaced)| {
            let longest = replaced.iter().filter_map(|one| behind.get(one)).max();
            (*id, longest.map_or(0, |way| (way + 1).min(names.len())))
        });
        let next: HashMap<Id, usize> = next.collect();
        if next == behind {
            break;
        }
        behind = next;
    }
    corrections.sort_by_key(|(_, line)| behind[&line.id]);
    corrections
}

#[derive(Default)]
struct Fold {
    contents: Contents,
    place: HashMap<Id, usize>,
    /// Every end that entries give a session.
    ends: HashMap<Id, Vec<(Stamp, SessionEnd)>>,
    /// Of form 0: what can lock, the answers about suitability, and clearances, which name nothing.
    unnamed_locks: HashSet<Id>,
    unnamed_answers: Vec<(Stamp, Id)>,
    unnamed_clearances: Vec<usize>,
}

impl Fold {
    fn take(&mut self, place: Place, line: Line) {
        let (id, session, format) = (line.id, line.session, line.format);
        let (mut entry, known) = match line.entry {
            Told::Now(entry) => (*entry, Ok(())),
            Told::OutOfRange(value) => {
                let row = careful(&value).expect("nothing else is kept so");
                let what =
                    format!("an answer to \"{}\" has a number that there is not", row.answer.question());
                (Entry::Answered(row), Err(what))
            }
            Told::Later(_) => {
                self.contents.later.push((id, format));
                return;
            }
        };
        let ranged = entry.range();
        let told = self.tell(place, session, format, entry);
        for what in [known, ranged, told].into_iter().filter_map(Result::err) {
            let place = session.and_then(|session| self.place.get(&session));
            if let Some(place) = place {
                self.contents.sessions[*place].is_doubtful = true;
            }
            self.contents.misfits.push(Misfit { id, session, what });
        }
    }

    fn tell(&mut self, place: Place, session: Option<Id>, format: u32, entry: Entry) -> Result<(), String> {
        let (id, contents) = (place.id(), &mut self.contents);
        match entry {
            Entry::Suitability(mut row) => {
                if format == 0 {
                    row.replaces = self.unnamed_answers.iter().map(|(_, id)| *id).collect();
                    self.unnamed_answers.push((row.at.clone(), id));
                }
                contents.suitability.push(Identified { id, row });
            }
            Entry::Cleared(row) => {
                if format == 0 {
                    self.unnamed_clearances.push(contents.clearances.len());
                }
                contents.clearances.push(row);
            }
            Entry::Tested(row) => match row.is_sound() {
                true => contents.tests.push(row),
                false => {
                    let at = row.at.minute();
                    return Err(format!("the balance test {} of {at} has an invalid value", row.test));
                }
            },
            Entry::Changed(row) => contents.changes.push(row),
            Entry::Prescription(text) => contents.prescriptions.push(text),
            Entry::SessionBegun(start) => {
                if session != Some(id) {
                    return Err("its beginning has another id".to_owned());
                }
                self.place.insert(id, contents.sessions.len());
                contents.sessions.push(SessionRecord::begun(place, start));
            }
            other => {
                let place = session.and_then(|session| self.place.get(&session));
                let Some(place) = place else { return Err("its beginning is missing".to_owned()) };
                let record = &mut contents.sessions[*place];
                if other.can_lock() {
                    record.can_lock.push(id);
                    self.unnamed_locks.extend((format == 0).then_some(id));
                }
                match other {
                    Entry::Corrected(row) => {
                        let row = named(row, format, record)?;
                        contents.corrections.push(Identified { id, row });
                    }
                    Entry::SessionEnded { at, why } => {
                        let ends = self.ends.entry(record.id).or_default();
                        let sure = |why| why != SessionEnd::Interrupted;
                        let other =
                            ends.iter().any(|end| sure(end.1) && sure(why) && *end != (at.clone(), why));
                        let in_time = in_time("it", &record.start.begun, &at);
                        ends.push((at, why));
                        if other {
                            return Err("it ends twice".to_owned());
                        }
                        in_time?;
                    }
                    other => record.take(id, other)?,
                }
            }
        }
        Ok(())
    }

    fn finish(mut self) -> Contents {
        for record in &mut self.contents.sessions {
            record.sets.sort_by_key(|set| set.start.number);
            for set in &mut record.sets {
                set.plans.sort_by_key(|plan| plan.plan);
                set.delivered.sort_by_key(|row| row.cue);
                set.responses.sort_by_key(|row| row.cue);
            }
            record.left_out.sort_by_key(|row| row.set);
            record.form = record.form_of_sets();
            let ends = self.ends.remove(&record.id).unwrap_or_default();
            // What was only found missing gives way to what is known; of two that were, the later knows more. Of two that are
            // known the graver counts.
            let end = ends.into_iter().max_by_key(|(at, why)| match why {
                SessionEnd::Interrupted => (0, at.ms()),
                known => (1 + gravity(*known), -at.ms()),
            });
            record.end = end.map(|(at, why)| record.figures(at, why));
        }
        // A clearance that names nothing lifted what was told then, in the same way.
        for nth in self.unnamed_clearances {
            for lifted in &mut self.contents.clearances[nth].lifted {
                let answers = self.unnamed_answers.iter().find(|(at, _)| at.text() == lifted.locked_by);
                if let Some((_, id)) = answers {
                    lifted.locked_by = id.to_string();
                }
                let of =
                    self.contents.sessions.iter().find(|session| session.id.to_string() == lifted.locked_by);
                let told = of.into_iter().flat_map(|session| &session.can_lock);
                lifted.told_by = told.filter(|id| self.unnamed_locks.contains(id)).copied().collect();
            }
        }
        self.contents
    }
}

const fn gravity(why: SessionEnd) -> u8 {
    match why {
        SessionEnd::Fell => 4,
        SessionEnd::Unwell => 3,
        SessionEnd::Grabbed | SessionEnd::StoppedUnsteady => 2,
        SessionEnd::NotAnswered => 1,
        _ => 0,
    }
}

/// A correction that is sound, with the names of what it replaces. One of form 0 replaces every answer to its question.
fn named(mut row: CorrectionRow, format: u32, record: &SessionRecord) -> Result<CorrectionRow, String> {
    let of = format!("the correction of {}", row.at.minute());
    if row.session != record.id {
        return Err(format!("{of} is of another session"));
    }
    if !row.is_sound() {
        return Err(format!("{of} says what it cannot"));
    }
    if format == 0 {
        row.replaces = record.told(&row);
    }
    Ok(row)
}

impl SessionRecord {
    /// Takes what one of its entries tells.
    fn take(&mut self, id: Id, entry: Entry) -> Result<(), String> {
        match entry {
            Entry::SetBegun { set, cues } => {
                let set = SetRecord::begun(set, cues);
                match self.sets.iter().find(|one| one.start.number == set.start.number) {
                    Some(one) if (&one.start, &one.plans[0]) == (&set.start, &set.plans[0]) => {}
                    Some(_) => return Err(format!("set {} begins twice", set.start.number)),
                    None => self.sets.push(set),
                }
                let (begun, planned) = (self.sets.len(), usize::from(self.start.sets_planned));
                if begun > planned {
                    return Err(format!("it has {begun} sets; {planned} were planned"));
                }
            }
            Entry::Replanned { set, pause, paused_at_ms, cues } => {
                let plan = PlanRecord { plan: pause, paused_at_ms: Some(paused_at_ms), cues };
                once(&mut self.set(set)?.plans, plan, |one| one.plan, "plan", set)?;
            }
            Entry::CueDelivered { set, how } => {
                self.set(set)?.planned(how.cue)?;
                once(&mut self.set(set)?.delivered, how, |one| one.cue, "cue", set)?;
            }
            Entry::SoundDisturbed { set, what } => self.set(set)?.disturbed.push(what),
            Entry::Responded { set, response } => self.set(set)?.respond(Identified { id, row: response })?,
            Entry::SetEnded { set, end } => self.set(set)?.end(end)?,
            Entry::SetLeftOut(row) => {
                let set = row.set;
                once(&mut self.left_out, row, |one| one.set.into(), "left-out set", set)?;
            }
            Entry::TriedOut(tried) => only(&mut self.tryout, tried, "try-outs")?,
            Entry::Decided(decided) => only(&mut self.decided, decided, "decisions")?,
            Entry::Seen { seen } => self.seen.extend(seen),
            // Every answer counts, whichever form it was written in.
            Entry::Readied { rows } => {
                let rows: Vec<ReadyRow> = rows.into_iter().map(ReadyRow::in_newest_form).collect();
                if self.ready != rows {
                    self.ready.extend(rows);
                }
            }
            Entry::Mishap(row) => {
                let planned = row.cue.map(|cue| self.set(row.set)?.planned(cue)).transpose();
                self.mishaps.push(row);
                planned?;
            }
            Entry::Advised(row) => self.advised.push(row),
            Entry::Routine(row) => self.routines.push(row),
            Entry::Course { patches } => match self.course.is_empty() {
                true => self.course = patches,
                false if self.course == patches => {}
                false => return Err("it has two floor courses".to_owned()),
            },
            Entry::Answered(row) => self.answers.push(Identified { id, row: row.in_newest_form() }),
            Entry::SessionBegun(_)
            | Entry::SessionEnded { .. }
            | Entry::Corrected(_)
            | Entry::Suitability(_)
            | Entry::Cleared(_)
            | Entry::Tested(_)
            | Entry::Changed(_)
            | Entry::Prescription(_) => unreachable!("the fold takes them before"),
        }
        Ok(())
    }

    fn set(&mut self, number: u8) -> Result<&mut SetRecord, String> {
        let set = self.sets.iter_mut().find(|set| set.start.number == number);
        set.ok_or_else(|| format!("the beginning of set {number} is missing"))
    }
}

impl SetRecord {
    /// That this cue is one of a plan of this set.
    fn planned(&self, cue: u16) -> Result<(), String> {
        let is_planned = self.plans.iter().flat_map(|plan| &plan.cues).any(|plan| plan.cue == cue);
        if is_planned {
            Ok(())
        } else {
            Err(format!("call {} of set {} was not planned", u32::from(cue) + 1, self.start.number))
        }
    }

    /// What was only found missing gives way to what is known; of two that were, on two computers, the later knows more.
    /// Of two that are known and differ the graver counts.
    fn end(&mut self, mut end: SetEndRow) -> Result<(), String> {
        let in_time = in_time(&format!("set {}", self.start.number), &self.start.begun, &end.at);
        let (worked, most) = (end.worked_ms, self.start.work_ms.saturating_add(WORK_SLACK_MS));
        end.worked_ms = worked.min(most);
        let weight = |end: &SetEndRow| match end.why {
            SetEnd::Interrupted => (0, end.worked_ms, end.at.ms()),
            SetEnd::Fell => (3, 0, 0),
            SetEnd::Grabbed => (2, 0, 0),
            _ => (1, 0, 0),
        };
        let sure = |end: &SetEndRow| end.why != SetEnd::Interrupted;
        let twice = self.end.as_ref().is_some_and(|before| sure(before) && sure(&end) && *before != end);
        if self.end.as_ref().is_none_or(|before| weight(before) < weight(&end)) {
            self.end = Some(end);
        }
        if twice {
            return Err(format!("set {} ends twice", self.start.number));
        }
        in_time?;
        match worked > most {
            true => {
                Err(format!("the work of set {} is {worked} ms; {most} ms is the most", self.start.number))
            }
            false => Ok(()),
        }
    }

    /// Of two that differ the graver counts.
    fn respond(&mut self, response: Identified<ResponseRow>) -> Result<(), String> {
        let (set, cue) = (self.start.number, response.cue);
        let planned = self.planned(cue);
        match self.responses.iter_mut().find(|one| one.cue == cue) {
            None => self.responses.push(response),
            Some(one) if one.row == response.row => {}
            Some(one) => {
                if one.response < response.response {
                    *one = response;
                }
                return Err(format!(
                    "the response to push {} of set {set} is there twice",
                    u32::from(cue) + 1
                ));
            }
        }
        planned
    }
}

fn once<T: PartialEq>(
    rows: &mut Vec<T>,
    row: T,
    key: fn(&T) -> u16,
    what: &str,
    set: u8,
) -> Result<(), String> {
    match rows.iter().find(|one| key(one) == key(&row)) {
        Some(one) if *one == row => Ok(()),
        Some(_) => Err(format!("{what} {} of set {set} is there twice, and they differ", key(&row))),
        None => {
            rows.push(row);
            Ok(())
        }
    }
}

fn only<T: PartialEq>(place: &mut Option<T>, value: T, what: &str) -> Result<(), String> {
    match place.replace(value) {
        Some(before) if Some(&before) != place.as_ref() => {
            *place = Some(before);
            Err(format!("it has two {what}"))
        }
        _ => Ok(()),
    }
}

#[cfg(test)]
mod test;
