//! What was kept before entries had ids: exports and rescue files of the first form. They become lines of form 0, whose ids
//! follow from what they tell, so that what two computers have of one practice is there once.

use serde::Deserialize;
use serde_json::{Value, json};

use super::{
    AdviceRow, BalanceRow, Change, ChangeRow, ClearanceRow, CorrectionRow, CueRow, Decided, DeliveryRow,
    DisturbanceRow, Drawn, Entry, Id, LeftOutRow, Line, MishapRow, ReadyRow, ResponseRow, RoutineRow,
    SeenRow, SessionBegun, SessionEnd, SetEndRow, SetRow, Stamp, SuitabilityRow, Told, TriedOut,
};
use crate::draw::schedule::Seed;
use crate::plan::prescription::Digest;

/// The voice that stood where a practice was typed in.
const BY_HAND: &str = "typed in by hand";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Export {
    #[serde(rename = "schema")]
    _schema: String,
    sessions: Vec<Session>,
    changes: Vec<Changed>,
    #[serde(default)]
    suitability: Vec<SuitabilityRow>,
    #[serde(default)]
    clearances: Vec<ClearanceRow>,
    #[serde(default)]
    tests: Vec<BalanceRow>,
    #[serde(default)]
    corrections: Vec<CorrectionRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Session {
    id: Id,
    #[serde(rename = "form")]
    _form: Value,
    start: Start,
    end: Option<End>,
    #[serde(default)]
    tryout: Option<Tryout>,
    #[serde(default)]
    decided: Option<Decided>,
    #[serde(default)]
    ready: Vec<ReadyRow>,
    answers: Vec<Placed<Value>>,
    sets: Vec<Set>,
    #[serde(default)]
    left_out: Vec<LeftOutRow>,
    #[serde(default)]
    mishaps: Vec<Placed<MishapRow>>,
    #[serde(default)]
    advised: Vec<Placed<AdviceRow>>,
    #[serde(default)]
    routines: Vec<RoutineRow>,
    #[serde(default)]
    course: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Start {
    begun: Stamp,
    title: String,
    digest: String,
    seed: String,
    seed_given: bool,
    method: u32,
    voice: String,
    device: Option<String>,
    sets_planned: u8,
}

/// An end; its figures are counted again from what is kept.
#[derive(Deserialize)]
struct End {
    at: Stamp,
    why: SessionEnd,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Tryout {
    watched_by: String,
    partner: String,
    #[serde(default)]
    seen: Vec<SeenRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Set {
    start: SetRow,
    end: Option<SetEndRow>,
    plans: Vec<Plan>,
    delivered: Vec<DeliveryRow>,
    #[serde(default)]
    responses: Vec<ResponseRow>,
    #[serde(default)]
    disturbed: Vec<Placed<DisturbanceRow>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Plan {
    #[serde(rename = "plan")]
    number: u16,
    paused_at_ms: Option<u32>,
    cues: Vec<CueRow>,
}

/// What was ordered by a number in its session.
struct Placed<T> {
    place: u32,
    row: T,
}

impl<'de, T: for<'a> Deserialize<'a>> Deserialize<'de> for Placed<T> {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        use serde::de::Error;
        let mut fields = serde_json::Map::deserialize(from)?;
        let place = fields.remove("place").ok_or_else(|| D::Error::missing_field("place"))?;
        let place = serde_json::from_value(place).map_err(D::Error::custom)?;
        let row = serde_json::from_value(Value::Object(fields)).map_err(D::Error::custom)?;
        Ok(Self { place, row })
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Changed {
    at: Stamp,
    what: String,
    digest: String,
}

/// The lines of an export of the first form.
///
/// # Errors
/// If it is not of that form.
pub fn lines_of_export(text: &[u8]) -> Result<Vec<Line>, serde_json::Error> {
    lines_of(text, Told::read)
}

/// The lines of what the tables of a journal held. What was let in then and is out of range now is kept, and read as
/// [`careful`](super::careful) says.
///
/// # Errors
/// If it is not of the first form.
pub fn lines_of_tables(text: &[u8]) -> Result<Vec<Line>, serde_json::Error> {
    lines_of(text, Told::read_kept)
}

/// Reads what a line tells.
type Read = fn(u32, Value) -> Result<Told, serde_json::Error>;

fn lines_of(text: &[u8], read: Read) -> Result<Vec<Line>, serde_json::Error> {
    let export: Export = serde_json::from_slice(text)?;
    let mut lines = Vec::new();
    for session in export.sessions {
        session.lines(&mut lines, read)?;
    }
    for row in export.changes {
        let (at, digest) = (row.at, digest(&row.digest));
        let named = |what: Change| Some((what, row.what.strip_prefix(what.name())?.strip_prefix(": ")?));
        // The sentence was all there was. Whatever else it says was not handed over.
        let (what, source) =
            Change::ALL.iter().find_map(|what| named(*what)).unwrap_or((Change::NotTaken, &row.what));
        outside(
            &mut lines,
            at.ms(),
            Entry::Changed(ChangeRow { at, what, source: source.to_owned(), digest }),
        );
    }
    for mut row in export.suitability {
        // Some versions sorted them by topic; they say the same in whichever order.
        row.answers.sort_by_key(|answer| answer.topic.name());
        outside(&mut lines, row.at.ms(), Entry::Suitability(row));
    }
    for row in export.clearances {
        outside(&mut lines, row.at.ms(), Entry::Cleared(row));
    }
    for row in export.tests {
        outside(&mut lines, row.at.ms(), Entry::Tested(row));
    }
    for row in export.corrections {
        let (at, session) = (row.at.ms(), row.session);
        let mut line = line(Id::of("corrections"), counter(at), at, Entry::Corrected(row));
        line.session = Some(session);
        lines.push(line);
    }
    Ok(lines)
}

/// The lines of a rescue file of the first form: what could not be written of one session.
///
/// # Errors
/// If it is not of that form.
pub fn lines_of_rescue(text: &[u8]) -> Result<Vec<Line>, serde_json::Error> {
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Rescue {
        #[serde(rename = "schema")]
        _schema: String,
        session: Id,
        lines: Vec<Value>,
    }
    let rescue: Rescue = serde_json::from_slice(text)?;
    let mut of_session = Lines { session: rescue.session, at: 0, told: Vec::new() };
    for mut value in rescue.lines {
        let place = take_place(&mut value).unwrap_or(0);
        if let Some(start) = value.get_mut("session_begun") {
            let start = serde_json::from_value::<Start>(start.take())?;
            of_session.at = start.begun.ms();
            of_session.begin(start);
        } else if let Some(tried) = value.get_mut("tried_out") {
            of_session.tried_out(serde_json::from_value(tried.take())?);
        } else {
            let entry = serde_json::from_value(value)?;
            of_session.add(place, entry);
        }
    }
    Ok(of_session.told)
}

/// Takes the number that ordered a row out of it, wherever it stands.
fn take_place(value: &mut Value) -> Option<u32> {
    let fields = value.as_object_mut()?;
    match fields.remove("place") {
        Some(place) => place.as_u64().and_then(|place| place.try_into().ok()),
        None => fields.values_mut().find_map(take_place),
    }
}

/// The digest of a prescription. An invalid one still identifies it: what happened in a session counts, whatever its
/// prescription was.
fn digest(written: &str) -> Digest {
    written.parse().unwrap_or_else(|_| Digest::of(written.as_bytes()))
}

fn line(writer: Id, counter: u64, at_ms: i64, entry: impl Into<Told>) -> Line {
    let entry = entry.into();
    let told = json!([writer, counter, at_ms, entry]).to_string();
    Line { id: Id::of(&told), writer, counter, at_ms, format: 0, session: None, entry }
}

/// Before lines had a counter, their moments ordered them.
fn counter(at_ms: i64) -> u64 {
    at_ms.max(0).cast_unsigned()
}

fn outside(lines: &mut Vec<Line>, at_ms: i64, entry: Entry) {
    lines.push(line(Id::of("outside of sessions"), counter(at_ms), at_ms, entry));
}

/// The most numbers of a set.
const SET: u64 = 1_000_000;

/// The lines of one session. It is a writer of its own, since nobody knows which computer wrote it, and an entry's number
/// follows from its place in the session.
struct Lines {
    session: Id,
    at: i64,
    told: Vec<Line>,
}

impl Lines {
    fn begin(&mut self, start: Start) {
        let Start { begun, title, seed, seed_given, method, voice, device, sets_planned, .. } = start;
        // An invalid seed draws nothing again, and what happened counts all the same.
        let seed = Seed::from_hex(&seed)
            .unwrap_or_else(|_| Seed::from_bytes(*Digest::of(seed.as_bytes()).as_bytes()));
        let by_hand = voice == BY_HAND;
        let drawn = (!by_hand).then_some(Drawn { seed, seed_given, method, voice, device });
        let digest = digest(&start.digest);
        self.add(
            0,
            Entry::SessionBegun(SessionBegun {
                begun,
                title,
                digest,
                sets_planned,
                precautions: Vec::new(),
                drawn,
            }),
        );
    }

    fn tried_out(&mut self, Tryout { watched_by, partner, seen }: Tryout) {
        self.add(0, Entry::TriedOut(TriedOut { watched_by, partner }));
        for (nth, row) in (0..).zip(seen) {
            self.add(nth, Entry::Seen { seen: vec![row] });
        }
    }

    /// The numbers of what comes after all sets.
    const AFTER: u64 = 256 * SET;

    const fn of_answer(place: u32) -> u64 {
        Self::AFTER + place as u64
    }

    /// An answer, which may be out of range.
    fn answer(&mut self, place: u32, told: Told) {
        let writer = Id::of(&format!("session {}", self.session));
        let session = Some(self.session);
        self.told.push(Line { session, ..line(writer, Self::of_answer(place), self.at, told) });
    }

    fn add(&mut self, place: u32, entry: Entry) {
        let in_set =
            |set: u8, part: u64, place: u32| u64::from(set) * SET + part * 200_000 + u64::from(place);
        let in_session = |part: u64, place: u32| part * 10_000 + u64::from(place);
        let after = |part: u64, place: u32| Self::AFTER + part * SET + u64::from(place);
        let counter = match &entry {
            Entry::SetBegun { set, .. } => in_set(set.number, 0, 0),
            Entry::Replanned { set, pause, .. } => in_set(*set, 0, (*pause).into()),
            Entry::CueDelivered { set, how } => in_set(*set, 1, how.cue.into()),
            Entry::SoundDisturbed { set, .. } => in_set(*set, 2, place),
            Entry::Responded { set, response } => in_set(*set, 3, response.cue.into()),
            Entry::SetEnded { set, .. } => in_set(*set, 4, 0),
            Entry::SessionBegun(_) => 0,
            Entry::TriedOut(_) => 1,
            Entry::Decided(_) => 2,
            Entry::Readied { .. } => 3,
            Entry::Course { .. } => 4,
            Entry::Seen { .. } => in_session(1, place),
            Entry::Answered(_) => Self::of_answer(place),
            Entry::Mishap(_) => after(1, place),
            Entry::Advised(_) => after(2, place),
            Entry::SetLeftOut(row) => after(3, row.set.into()),
            Entry::Routine(_) => after(4, place),
            _ => after(5, 0),
        };
        let own = match &entry {
            Entry::SetBegun { set, .. } => Some(&set.begun),
            Entry::SetEnded { end, .. } => Some(&end.at),
            Entry::SetLeftOut(row) => Some(&row.at),
            Entry::Routine(row) => Some(&row.at),
            Entry::SessionEnded { at, .. } => Some(at),
            _ => None,
        };
        let at = own.map_or(self.at, Stamp::ms);
        let is_begun = matches!(entry, Entry::SessionBegun(_));
        let mut line = line(Id::of(&format!("session {}", self.session)), counter, at, entry);
        line.session = Some(self.session);
        // Else two sessions could say the same, word for word.
        line.id = if is_begun { self.session } else { line.id };
        self.told.push(line);
    }
}

impl Session {
    fn lines(self, lines: &mut Vec<Line>, read: Read) -> Result<(), serde_json::Error> {
        let mut of = Lines { session: self.id, at: self.start.begun.ms(), told: Vec::new() };
        of.begin(self.start);
        if let Some(tryout) = self.tryout {
            of.tried_out(tryout);
        }
        if let Some(decided) = self.decided {
            of.add(0, Entry::Decided(decided));
        }
        if !self.ready.is_empty() {
            of.add(0, Entry::Readied { rows: self.ready });
        }
        if !self.course.is_empty() {
            of.add(0, Entry::Course { patches: self.course });
        }
        for Set { start, end, plans, delivered, responses, disturbed } in self.sets {
            let set = start.number;
            let mut start = Some(start);
            for Plan { number, paused_at_ms, cues } in plans {
                of.add(
                    0,
                    match (start.take(), paused_at_ms) {
                        (Some(set), _) => Entry::SetBegun { set, cues },
                        (None, paused) => {
                            Entry::Replanned { set, pause: number, paused_at_ms: paused.unwrap_or(0), cues }
                        }
                    },
                );
            }
            // A set without a plan was typed in.
            if let Some(set) = start {
                of.add(0, Entry::SetBegun { set, cues: Vec::new() });
            }
            for how in delivered {
                of.add(0, Entry::CueDelivered { set, how });
            }
            for response in responses {
                of.add(0, Entry::Responded { set, response });
            }
            for Placed { place, row } in disturbed {
                of.add(place, Entry::SoundDisturbed { set, what: row });
            }
            if let Some(end) = end {
                of.add(0, Entry::SetEnded { set, end });
            }
        }
        for Placed { place, row } in self.answers {
            of.answer(place, read(0, json!({ "answered": row }))?);
        }
        for Placed { place, row } in self.mishaps {
            of.add(place, Entry::Mishap(row));
        }
        for Placed { place, row } in self.advised {
            of.add(place, Entry::Advised(row));
        }
        for row in self.left_out {
            of.add(0, Entry::SetLeftOut(row));
        }
        for (place, row) in (0..).zip(self.routines) {
            of.add(place, Entry::Routine(row));
        }
        if let Some(End { at, why }) = self.end {
            of.add(0, Entry::SessionEnded { at, why });
        }
        lines.extend(of.told);
        Ok(())
    }
}
