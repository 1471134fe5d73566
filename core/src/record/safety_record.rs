//! The safety record: a second, small record of what bars practice, beside the journal. Of fixed size, each mark written in
//! place with a checksum, so that a full disk, a torn write or a lost journal leaves a lock standing. It holds no words: kinds,
//! moments, numbers and ids. What it bars beside a journal is decided in `course`; `docs/journal.md` has the bytes.

use std::collections::HashSet;

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};
use sha2::{Digest as _, Sha256};

use super::{Barrier, Id};
use crate::health::lock::{HOLD, Hold, Lock, Restriction};

/// The bytes before the first mark.
pub const HEADER_BYTES: usize = 4096;
/// The bytes of a mark. None lies across two sectors of a disk.
pub const MARK_BYTES: usize = 64;
/// So many marks fit \[judgment\]: a lock ends practice, so that few stand at once.
pub const MARKS: usize = 448;
/// The bytes of the whole.
pub const RECORD_BYTES: usize = HEADER_BYTES + MARKS * MARK_BYTES;

const MAGIC: [u8; 16] = *b"CoPo safety 1\0\0\0";

/// Something that an answer barred, or that a clearance lifted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Mark {
    /// Each has its own, above all before it.
    pub number: u32,
    /// What.
    pub what: What,
    /// Since when, in milliseconds since 1970.
    pub at_ms: i64,
    /// The local day.
    pub day: Date,
    /// The journal beside which it was written.
    pub journal: Id,
    /// The session, or the answers about suitability, that it is of.
    pub session: Id,
}

/// What a mark says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum What {
    /// It bars practice, or a part of it, until it is cleared.
    Bars(Barrier),
    /// It holds practice for 48 hours.
    Holds(Hold),
    /// It ended practice for its day.
    EndsDay,
    /// The mark with this number is cleared, or what was answered after it says that it was not so.
    Clears(u32),
}

/// The kinds as they are written. A number is never given to something else.
const BARRIERS: [(u8, Barrier); 12] = [
    (1, Barrier::Lock(Lock::FallHurt)),
    (2, Barrier::Lock(Lock::HeadKnock)),
    (3, Barrier::Lock(Lock::Faint)),
    (4, Barrier::Lock(Lock::Chest)),
    (5, Barrier::Lock(Lock::Breath)),
    (6, Barrier::Lock(Lock::Nerve)),
    (7, Barrier::Lock(Lock::Dizziness)),
    (8, Barrier::Lock(Lock::Unwell)),
    (9, Barrier::Lock(Lock::Lost)),
    (32, Barrier::Restriction(Restriction::Fall)),
    (33, Barrier::Restriction(Restriction::Grabs)),
    (64, Barrier::Clinician),
];
const HOLDS: [(u8, Hold); 4] = [(1, Hold::Fall), (2, Hold::Grab), (3, Hold::Dizziness), (4, Hold::Unwell)];

/// What stands for something that is not known.
pub const UNKNOWN: What = What::Bars(Barrier::Lock(Lock::Lost));

impl What {
    /// The two bytes for what and which kind, and the number that it names.
    fn code(self) -> (u8, u8, u32) {
        match self {
            Self::Bars(barrier) => {
                // What the table does not name is a lock all the same.
                let found = BARRIERS.iter().find(|(_, one)| *one == barrier);
                (1, found.map_or(9, |(code, _)| *code), 0)
            }
            Self::Holds(hold) => {
                (2, HOLDS.iter().find(|(_, one)| *one == hold).map_or(0, |(code, _)| *code), 0)
            }
            Self::EndsDay => (3, 0, 0),
            Self::Clears(number) => (4, 0, number),
        }
    }

    fn of(code: (u8, u8, u32)) -> Option<Self> {
        match code {
            (1, kind, 0) => BARRIERS.iter().find(|(code, _)| *code == kind).map(|(_, one)| Self::Bars(*one)),
            (2, kind, 0) => HOLDS.iter().find(|(code, _)| *code == kind).map(|(_, one)| Self::Holds(*one)),
            (3, 0, 0) => Some(Self::EndsDay),
            (4, 0, number) => Some(Self::Clears(number)),
            _ => None,
        }
    }
}

const EPOCH: Date = Date::constant(1970, 1, 1);

impl Mark {
    /// Its bytes.
    pub fn bytes(&self) -> [u8; MARK_BYTES] {
        let (what, kind, names) = self.what.code();
        let day = self.day.duration_since(EPOCH).as_hours() / 24;
        let mut bytes = [0; MARK_BYTES];
        bytes[..4].copy_from_slice(&self.number.to_le_bytes());
        (bytes[4], bytes[5]) = (what, kind);
        bytes[8..16].copy_from_slice(&self.at_ms.to_le_bytes());
        bytes[16..32].copy_from_slice(self.journal.as_bytes());
        bytes[32..48].copy_from_slice(self.session.as_bytes());
        bytes[48..52].copy_from_slice(&(day as i32).to_le_bytes());
        bytes[52..56].copy_from_slice(&names.to_le_bytes());
        let sum = checksum(&bytes[..56]);
        bytes[56..].copy_from_slice(&sum);
        bytes
    }

    /// The mark of these bytes; `None` unless they are one to the last bit.
    fn read(bytes: &[u8; MARK_BYTES]) -> Option<Self> {
        let days: i64 = i32::from_le_bytes(part(bytes, 48)).into();
        let mark = Self {
            number: u32::from_le_bytes(part(bytes, 0)),
            what: What::of((bytes[4], bytes[5], u32::from_le_bytes(part(bytes, 52))))?,
            at_ms: i64::from_le_bytes(part(bytes, 8)),
            day: EPOCH.checked_add(days.days()).ok()?,
            journal: Id::from_bytes(part(bytes, 16)),
            session: Id::from_bytes(part(bytes, 32)),
        };
        (mark.bytes() == *bytes && mark.number > 0).then_some(mark)
    }

    /// The id by which a clearance names it, where the journal does not know what it is of.
    pub fn id(&self) -> Id {
        Id::of(&format!("mark {} beside the journal {}", self.number, self.journal))
    }

    /// When a hold that begins with it runs out.
    pub fn until(&self) -> Timestamp {
        super::instant(self.at_ms).saturating_add(HOLD).unwrap_or(Timestamp::MAX)
    }
}

fn part<const N: usize>(bytes: &[u8], from: usize) -> [u8; N] {
    std::array::from_fn(|nth| bytes[from + nth])
}

fn checksum(bytes: &[u8]) -> [u8; 8] {
    part(&Sha256::digest(bytes), 0)
}

/// One place for a mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Slot {
    #[default]
    Empty,
    Mark(Mark),
    /// Bytes that are no mark: a write that was cut off, or damage. It counts as a lock.
    Torn(Id),
}

/// The whole record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SafetyRecord {
    /// The journal that it lies beside; `None` where that cannot be read.
    journal: Option<Id>,
    slots: Vec<Slot>,
    /// Bytes are missing or the header is damaged: what stood there is not known.
    damaged: Option<Id>,
}

/// A mark is to be written, and every place holds something that still counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("the safety record is full of locks that nobody has cleared")]
pub struct Full;

impl SafetyRecord {
    /// One without marks, beside this journal.
    pub fn new(journal: Id) -> Self {
        Self { journal: Some(journal), slots: vec![Slot::Empty; MARKS], damaged: None }
    }

    /// The record of these bytes, whatever they are.
    pub fn read(bytes: &[u8]) -> Self {
        let whole = |bytes: &[u8]| format!("{:?}", Sha256::digest(bytes));
        let header = header(Id::from_bytes(bytes.get(16..32).map_or([0; 16], |id| part(id, 0))));
        let is_whole = bytes.len() == RECORD_BYTES && bytes[..HEADER_BYTES] == header;
        let slots =
            bytes.get(HEADER_BYTES..).unwrap_or_default().chunks(MARK_BYTES).take(MARKS).map(|slot| {
                let exact = <&[u8; MARK_BYTES]>::try_from(slot);
                match exact {
                    Ok([0, ..]) if slot.iter().all(|byte| *byte == 0) => Slot::Empty,
                    Ok(exact) => {
                        Mark::read(exact).map_or_else(|| Slot::Torn(Id::of(&whole(slot))), Slot::Mark)
                    }
                    Err(_) => Slot::Torn(Id::of(&whole(slot))),
                }
            });
        let mut slots: Vec<Slot> = slots.collect();
        slots.resize(MARKS, Slot::Empty);
        let journal = is_whole.then(|| Id::from_bytes(part(bytes, 16)));
        Self { journal, slots, damaged: (!is_whole).then(|| Id::of(&whole(bytes))) }
    }

    /// The bytes of one without marks.
    pub fn empty_bytes(journal: Id) -> Vec<u8> {
        let mut bytes = header(journal).to_vec();
        bytes.resize(RECORD_BYTES, 0);
        bytes
    }

    /// The journal that it lies beside; `None` where that cannot be read.
    pub fn journal(&self) -> Option<Id> {
        self.journal
    }

    /// All marks that can be read.
    pub fn marks(&self) -> impl Iterator<Item = &Mark> {
        self.slots.iter().filter_map(|slot| match slot {
            Slot::Mark(mark) => Some(mark),
            _ => None,
        })
    }

    /// The marks that bar, hold or end a day, and that none clears. What is torn or damaged is among them as a lock of which
    /// nobody knows the kind, with the latest moment that any mark has.
    pub fn standing(&self) -> Vec<Mark> {
        let clears = self.marks().filter_map(|mark| match mark.what {
            What::Clears(number) => Some((number, mark.number)),
            _ => None,
        });
        let cleared: HashSet<u32> =
            clears.filter(|(number, by)| number < by).map(|(number, _)| number).collect();
        let stands = |mark: &&Mark| !matches!(mark.what, What::Clears(_)) && !cleared.contains(&mark.number);
        let known = self.marks().filter(stands).copied();
        known.chain(self.unknown().map(|(_, mark)| mark)).collect()
    }

    /// Whether a mark written after it clears it.
    fn is_cleared(&self, mark: &Mark) -> bool {
        self.marks().any(|later| later.what == What::Clears(mark.number) && later.number > mark.number)
    }

    /// What is torn or damaged, as marks to write, and the place where each goes; `None`: any.
    pub fn unknown(&self) -> impl Iterator<Item = (Option<usize>, Mark)> {
        let latest = self.marks().max_by_key(|mark| mark.at_ms);
        let (at_ms, day) = latest.map_or((0, EPOCH), |mark| (mark.at_ms, mark.day));
        let journal = self.journal.unwrap_or(Id::from_bytes([0; 16]));
        let torn = self.slots.iter().enumerate().filter_map(|(nth, slot)| match slot {
            Slot::Torn(id) => Some((Some(nth), *id)),
            _ => None,
        });
        // A mark of the same damage is there once.
        let damaged = self.damaged.filter(|id| self.marks().all(|mark| mark.session != *id));
        let all = torn.chain(damaged.map(|id| (None, id))).zip(self.last_number().saturating_add(1)..);
        all.map(move |((nth, session), number)| {
            (nth, Mark { number, what: UNKNOWN, at_ms, day, journal, session })
        })
    }

    /// The highest number; 0 without marks.
    pub fn last_number(&self) -> u32 {
        self.marks().map(|mark| mark.number).max().unwrap_or(0)
    }

    /// Takes a mark, gives it its number, and says where it goes: its place among the marks. A standing lock is never
    /// overwritten, except by the mark that clears it.
    ///
    /// # Errors
    /// If every place holds something that still counts.
    pub fn keep(&mut self, mark: Mark) -> Result<(usize, Mark), Full> {
        let number = self.last_number().checked_add(1).ok_or(Full)?;
        let mark = Mark { number, ..mark };
        let own = |slot: &Slot| matches!((slot, mark.what), (Slot::Mark(one), What::Clears(number)) if one.number == number);
        let free = self.slots.iter().position(|slot| *slot == Slot::Empty);
        let nth = free
            .or_else(|| self.past_use(mark.at_ms))
            .or_else(|| self.slots.iter().position(own))
            .ok_or(Full)?;
        self.slots[nth] = Slot::Mark(mark);
        Ok((nth, mark))
    }

    /// Writes over a torn place.
    pub fn mend(&mut self, nth: usize, mark: Mark) {
        self.slots[nth] = Slot::Mark(mark);
    }

    /// The header is written anew, for this journal.
    pub fn renew(&mut self, journal: Id) {
        (self.journal, self.damaged) = (Some(journal), None);
    }

    /// The oldest place of which nothing is needed any more: a cleared mark before the one that clears it.
    fn past_use(&self, now_ms: i64) -> Option<usize> {
        let there = |number| self.marks().any(|mark| mark.number == number);
        let over = |mark: &Mark| match mark.what {
            What::Clears(number) => !there(number),
            What::Bars(_) => self.is_cleared(mark),
            What::Holds(_) | What::EndsDay => self.is_cleared(mark) || mark.until() < super::instant(now_ms),
        };
        let marks = self.slots.iter().enumerate().filter_map(|(nth, slot)| match slot {
            Slot::Mark(mark) if over(mark) => Some((mark.number, nth)),
            _ => None,
        });
        marks.min().map(|(_, nth)| nth)
    }
}

/// The bytes before the first mark, beside this journal.
pub fn header(journal: Id) -> [u8; HEADER_BYTES] {
    let mut bytes = [0; HEADER_BYTES];
    bytes[..16].copy_from_slice(&MAGIC);
    bytes[16..32].copy_from_slice(journal.as_bytes());
    let sum = checksum(&bytes[..32]);
    bytes[32..40].copy_from_slice(&sum);
    bytes
}

#[cfg(test)]
mod test;
