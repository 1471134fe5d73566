//! The bytes of the safety record, and that nothing that stands in it gets lost.

use jiff::civil::date;
use proptest::prelude::*;

use super::{
    BARRIERS, HEADER_BYTES, HOLDS, MARK_BYTES, MARKS, Mark, RECORD_BYTES, SafetyRecord, UNKNOWN, What, header,
};
use crate::health::lock::{Hold, Lock, Restriction};
use crate::record::{Barrier, Id};

const JOURNAL: Id = Id::from_bytes([7; 16]);

fn mark(number: u32, what: What) -> Mark {
    let session = Id::from_bytes([9; 16]);
    Mark { number, what, at_ms: 1_793_888_000_000, day: date(2026, 11, 5), journal: JOURNAL, session }
}

/// The record of these marks in these places, as bytes.
fn bytes_of(marks: &[(usize, Mark)]) -> Vec<u8> {
    let mut bytes = header(JOURNAL).to_vec();
    bytes.resize(RECORD_BYTES, 0);
    for (nth, mark) in marks {
        let from = HEADER_BYTES + nth * MARK_BYTES;
        bytes[from..from + MARK_BYTES].copy_from_slice(&mark.bytes());
    }
    bytes
}

fn whats() -> Vec<What> {
    let bars = BARRIERS.iter().map(|(_, barrier)| What::Bars(*barrier));
    let holds = HOLDS.iter().map(|(_, hold)| What::Holds(*hold));
    bars.chain(holds).chain([What::EndsDay, What::Clears(3)]).collect()
}

/// Frozen: files that lie on disks have these.
#[test]
fn the_bytes_of_a_mark_are_as_documented() {
    let bytes = mark(2, What::Bars(Barrier::Lock(Lock::Chest))).bytes();
    assert_eq!(bytes[..8], [2, 0, 0, 0, 1, 4, 0, 0]);
    assert_eq!(bytes[8..16], 1_793_888_000_000_i64.to_le_bytes());
    assert_eq!((&bytes[16..32], &bytes[32..48]), (&[7; 16][..], &[9; 16][..]));
    // 20,762 days from 1970-01-01 to 2026-11-05.
    assert_eq!(bytes[48..56], [0x1a, 0x51, 0, 0, 0, 0, 0, 0]);
    assert_eq!(&header(JOURNAL)[..13], b"CoPo safety 1");
    assert_eq!(mark(1, What::Clears(258)).bytes()[52..56], [2, 1, 0, 0]);
    let kinds: Vec<[u8; 2]> =
        whats().iter().map(|what| mark(1, *what).bytes()[4..6].try_into().unwrap()).collect();
    let locks = (1..=9).map(|kind| [1, kind]);
    let frozen = locks.chain([[1, 32], [1, 33], [1, 64], [2, 1], [2, 2], [2, 3], [2, 4], [3, 0], [4, 0]]);
    assert_eq!(kinds, frozen.collect::<Vec<_>>());
}

#[test]
fn every_kind_of_lock_hold_and_restriction_has_bytes() {
    let barriers: Vec<Barrier> = BARRIERS.iter().map(|(_, barrier)| *barrier).collect();
    assert!(Lock::ALL.iter().all(|lock| barriers.contains(&Barrier::Lock(*lock))));
    assert!(Restriction::ALL.iter().all(|what| barriers.contains(&Barrier::Restriction(*what))));
    assert!(Hold::ALL.iter().all(|hold| HOLDS.iter().any(|(_, one)| one == hold)));
    for what in whats() {
        let read = SafetyRecord::read(&bytes_of(&[(5, mark(6, what))]));
        assert_eq!(read.marks().copied().collect::<Vec<_>>(), [mark(6, what)]);
        assert_eq!((read.journal(), read.last_number()), (Some(JOURNAL), 6));
    }
}

#[test]
fn what_is_torn_damaged_or_cut_off_counts_as_a_lock() {
    let whole = bytes_of(&[(0, mark(1, What::Holds(Hold::Fall)))]);
    let kinds = |bytes: &[u8]| -> Vec<What> {
        SafetyRecord::read(bytes).standing().iter().map(|mark| mark.what).collect()
    };
    assert_eq!(kinds(&whole), [What::Holds(Hold::Fall)]);
    // Half a mark, and the other half empty.
    let mut torn = whole.clone();
    torn[HEADER_BYTES + 64..HEADER_BYTES + 96].copy_from_slice(&mark(2, UNKNOWN).bytes()[..32]);
    assert_eq!(kinds(&torn), [What::Holds(Hold::Fall), UNKNOWN]);
    for cut in [0, 1, 40, HEADER_BYTES, HEADER_BYTES + 64, RECORD_BYTES - 1] {
        assert!(kinds(&whole[..cut]).contains(&UNKNOWN), "{cut}");
    }
    let longer = [whole.clone(), vec![0]].concat();
    assert!(kinds(&longer).contains(&UNKNOWN));
    assert!(kinds(&vec![0; RECORD_BYTES]).contains(&UNKNOWN), "zeros are no record without marks");
    assert_eq!(kinds(&SafetyRecord::empty_bytes(JOURNAL)), []);
}

#[test]
fn a_standing_lock_is_never_overwritten_and_a_cleared_one_makes_room() {
    let mut record = SafetyRecord::new(JOURNAL);
    let chest = What::Bars(Barrier::Lock(Lock::Chest));
    for number in 1..=MARKS as u32 {
        assert_eq!(record.keep(mark(0, chest)).unwrap(), (number as usize - 1, mark(number, chest)));
    }
    assert!(record.keep(mark(0, chest)).is_err(), "all of them stand");
    assert_eq!(record.standing().len(), MARKS);
    // A full record can still be cleared: the mark that clears a lock takes its place.
    let (nth, cleared) = record.keep(mark(0, What::Clears(5))).unwrap();
    assert_eq!((nth, cleared.number, record.standing().len()), (4, MARKS as u32 + 1, MARKS - 1));
    let (nth, kept) = record.keep(mark(0, chest)).unwrap();
    assert_eq!((nth, kept.number, record.standing().len()), (4, MARKS as u32 + 2, MARKS));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever is written in whatever order: the bytes on the disk are read as the record in memory, each lock stands until a
    /// mark names it, and numbers only grow.
    #[test]
    fn no_lock_is_lost_by_anything_but_the_mark_that_clears_it(
        steps in proptest::collection::vec((0_usize..18, 0_u8..4, any::<prop::sample::Index>(), 0_i64..400), 1..700)
    ) {
        let (mut record, mut disk) = (SafetyRecord::new(JOURNAL), SafetyRecord::empty_bytes(JOURNAL));
        let mut locks: Vec<u32> = Vec::new();
        let mut last = 0;
        for (nth, session, which, hours) in steps {
            let what = match whats()[nth] {
                What::Clears(_) if !locks.is_empty() => What::Clears(locks[which.index(locks.len())]),
                what => what,
            };
            let session = Id::from_bytes([session; 16]);
            let Ok((place, kept)) = record.keep(Mark { session, at_ms: hours * 3_600_000, ..mark(0, what) }) else {
                prop_assert!(locks.len() > MARKS / 2, "there is room");
                continue;
            };
            prop_assert!(kept.number > last);
            last = kept.number;
            let from = HEADER_BYTES + place * MARK_BYTES;
            disk[from..from + MARK_BYTES].copy_from_slice(&kept.bytes());
            match kept.what {
                What::Bars(_) => locks.push(kept.number),
                What::Clears(number) => locks.retain(|one| *one != number),
                _ => {}
            }
            let standing: Vec<u32> = record
                .standing()
                .iter()
                .filter(|mark| matches!(mark.what, What::Bars(_)))
                .map(|mark| mark.number)
                .collect();
            prop_assert!(locks.iter().all(|lock| standing.contains(lock)) && standing.len() == locks.len());
        }
        prop_assert_eq!(SafetyRecord::read(&disk), record);
    }

    /// Any bytes are read, and any byte that is changed takes no lock away.
    #[test]
    fn damage_takes_no_lock_away(at in 0..RECORD_BYTES, to in any::<u8>(), place in 0..MARKS) {
        let whole = bytes_of(&[(place, mark(1, What::Bars(Barrier::Lock(Lock::Faint))))]);
        let mut bytes = whole.clone();
        bytes[at] = to;
        let locks = |bytes: &[u8]| {
            let standing = SafetyRecord::read(bytes).standing();
            standing.iter().filter(|mark| matches!(mark.what, What::Bars(Barrier::Lock(_)))).count()
        };
        prop_assert!(locks(&bytes) >= 1);
        prop_assert_eq!(locks(&bytes) == 1 && SafetyRecord::read(&bytes) == SafetyRecord::read(&whole), bytes == whole);
    }

    #[test]
    fn any_bytes_are_read(bytes in proptest::collection::vec(any::<u8>(), 0..20_000)) {
        prop_assert!(!SafetyRecord::read(&bytes).standing().is_empty());
    }
}
