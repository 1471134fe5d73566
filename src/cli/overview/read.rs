//! What do the journals of many people say? Reads them in parallel, without changing them, and finds people who are there
//! twice.

use std::collections::{BTreeMap, HashMap};
use std::fs::{self, File};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::io::{self, Read};
use std::path::Path;
use std::sync::OnceLock;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use jiff::ZonedDateTime;

use super::find::{FolderContents, Place, Source};
use crate::cli::standing;
use crate::cli::{Failure, source};
use crate::journal::Journal;
use crate::journal::incoming::{LONGEST, bytes_of};
use counterpoise_core::course::standing::Standing;
use counterpoise_core::course::trainee::Trainee;
use counterpoise_core::plan::prescription::{Digest, Prescription, limits};
use counterpoise_core::report::overview::{Person, PrescriptionInUse, Skipped};

/// All people, and what could not be read, in no order. `done` is called for each journal, from any thread.
pub(super) fn read(
    found: &FolderContents,
    now: &ZonedDateTime,
    done: &(impl Fn() + Sync),
) -> (Vec<Person>, Vec<Skipped>) {
    let reader = Reader { found, now, prescriptions: OnceLock::new() };
    let next = AtomicUsize::new(0);
    let work = || {
        let (mut read, mut skipped, mut marks) = (Vec::new(), Vec::new(), Vec::new());
        loop {
            let nth = next.fetch_add(1, Ordering::Relaxed);
            let Some(source) = found.sources.get(nth) else { return (read, skipped, marks) };
            match reader.one(source) {
                Ok((person, own)) => {
                    read.push((nth, person));
                    marks.extend(own.into_iter().map(|mark| (mark, nth as u32)));
                }
                Err(failure) => {
                    skipped.push(Skipped { name: source.name.clone(), why: failure.fact().to_owned() });
                }
            }
            done();
        }
    };
    let threads = thread::available_parallelism().map_or(1, usize::from);
    let (mut people, mut skipped, mut marks) = (BTreeMap::new(), Vec::new(), Vec::new());
    thread::scope(|scope| {
        let workers: Vec<_> = (0..threads).map(|_| scope.spawn(work)).collect();
        for worker in workers {
            let (read, left, own) =
                worker.join().expect("reading a journal panics nowhere: its errors are values");
            people.extend(read);
            skipped.extend(left);
            marks.extend(own);
        }
    });
    for same in duplicates(marks) {
        reader.one_of(&same, &mut people, &mut skipped);
    }
    (people.into_values().collect(), skipped)
}

struct Reader<'a> {
    found: &'a FolderContents,
    now: &'a ZonedDateTime,
    /// Prescriptions among the files of the folder; read only if somebody's prescription is not a ready one.
    prescriptions: OnceLock<HashMap<Digest, Prescription>>,
}

impl Reader<'_> {
    /// A person's state, and the marks that identify the journal.
    fn one(&self, source: &Source) -> Result<(Person, Vec<u64>), Failure> {
        let journal = open(&source.place)?;
        let known = standing::known(&journal)?;
        let marks = marks(&known);
        Ok((self.person(source, &journal, &known)?, marks))
    }

    fn person(&self, source: &Source, journal: &Journal, known: &Trainee) -> Result<Person, Failure> {
        let own = match &source.place {
            Place::Folder(folder) => source::in_use(folder)?.map(|source| source.prescription),
            Place::File(_) | Place::Export(_) => None,
        };
        let first = &Prescription::all_ready()[0].1;
        let under = match (&own, &source.place) {
            (Some(own), _) => PrescriptionInUse::Known(own),
            (None, Place::Folder(_)) => PrescriptionInUse::Known(first),
            (None, _) => in_use(journal, known)?.map_or(PrescriptionInUse::Known(first), |digest| {
                self.prescription(&digest)
                    .map_or(PrescriptionInUse::Elsewhere(digest), PrescriptionInUse::Known)
            }),
        };
        let prescription = match under {
            PrescriptionInUse::Known(prescription) => prescription,
            PrescriptionInUse::Elsewhere(_) => first,
        };
        let standing = Standing::of(known, prescription, self.now);
        Ok(Person::of(&source.name, &known.past, under, &standing, self.now.date()))
    }

    /// The ready prescription with this digest, or the one among the files of the folder.
    fn prescription(&self, digest: &Digest) -> Option<&Prescription> {
        let files = || {
            let files = self.found.prescriptions.iter();
            let read = files.filter_map(|path| prescription(path));
            read.map(|read| (read.digest(), read)).collect::<HashMap<_, _>>()
        };
        Prescription::ready_with(digest).or_else(|| self.prescriptions.get_or_init(files).get(digest))
    }

    /// Several sources with the same practices are one person. Identical files are only named; different ones are combined,
    /// so that a lock in one of them counts.
    fn one_of(&self, same: &[usize], people: &mut BTreeMap<usize, Person>, skipped: &mut Vec<Skipped>) {
        let mut same = same.to_vec();
        // A person's own folder has the prescription too.
        same.sort_by_key(|nth| !matches!(self.found.sources[*nth].place, Place::Folder(_)));
        let sources: Vec<&Source> = same.iter().map(|nth| &self.found.sources[*nth]).collect();
        let also = |first: usize| {
            let others = sources.iter().enumerate().filter(|(place, _)| *place != first);
            let mut names: Vec<String> = others.map(|(_, source)| source.name.clone()).collect();
            names.sort();
            names
        };
        match self.together(&sources) {
            Ok(together) => {
                let mut read: Vec<Option<Person>> = same.iter().map(|nth| people.remove(nth)).collect();
                let Some(person) = together.or_else(|| read[0].take()) else { return };
                people.insert(same[0], Person { also: also(0), ..person });
            }
            Err(failure) => {
                // They contradict each other. The gravest state among them is shown.
                let gravest = |nth: &usize| people.get(nth).map(|person| person.states.first().copied());
                let Some(shown) = same.iter().copied().min_by_key(gravest) else { return };
                for nth in same.iter().filter(|nth| **nth != shown) {
                    people.remove(nth);
                    let (name, of) = (&self.found.sources[*nth].name, &self.found.sources[shown].name);
                    let why =
                        format!("it shares practices with {of}, but contradicts it: {}", failure.fact());
                    skipped.push(Skipped { name: name.clone(), why });
                }
            }
        }
    }

    /// The person of these journals; `None` if the files are identical.
    fn together(&self, sources: &[&Source]) -> Result<Option<Person>, Failure> {
        let mut different = HashMap::new();
        for (nth, source) in sources.iter().enumerate() {
            let bytes = fs::read(source.place.file()).map_err(|error| not_read(&error))?;
            different.entry(Digest::of(&bytes)).or_insert(nth);
        }
        if different.len() < 2 {
            return Ok(None);
        }
        let mut different: Vec<usize> = different.into_values().collect();
        different.sort_unstable();
        let journals: Result<Vec<Journal>, Failure> =
            different.iter().map(|nth| open(&sources[*nth].place)).collect();
        let journal = Journal::together(&journals?)?;
        let known = standing::known(&journal)?;
        self.person(sources[0], &journal, &known).map(Some)
    }
}

fn open(place: &Place) -> Result<Journal, Failure> {
    let Place::Export(path) = place else { return Ok(Journal::peek(&place.file())?) };
    let bytes = bytes_of(path).map_err(|error| not_read(&error))?.ok_or_else(|| {
        Failure::new(format!("it has more than {} MB", LONGEST >> 20), "Is this the right file?")
    })?;
    Ok(Journal::of_export(path, &bytes)?)
}

fn not_read(error: &io::Error) -> Failure {
    Failure::new(format!("it cannot be read: {error}"), "Check that you are allowed to read it.")
}

/// The digest of the prescription that came into use last, else of the one practiced last.
fn in_use(journal: &Journal, known: &Trainee) -> Result<Option<Digest>, Failure> {
    let handed_over = journal.handed_over(i64::MAX)?.map(|row| row.digest);
    Ok(handed_over.or_else(|| known.past.sittings().last().map(|sitting| sitting.first().digest)))
}

fn prescription(path: &Path) -> Option<Prescription> {
    let most = limits::FILE_BYTES as u64;
    let metadata = path.metadata().ok().filter(|metadata| metadata.is_file() && metadata.len() <= most)?;
    let mut bytes = Vec::with_capacity(metadata.len() as usize);
    File::open(path).ok()?.take(most).read_to_end(&mut bytes).ok()?;
    Prescription::read(&path.display().to_string(), &bytes).ok()
}

/// What two journals of one person have in common: their sessions or, before the first, the suitability answers. Each is a
/// hash, since those of all people are in memory at once. Journals with a common mark are read again.
fn marks(known: &Trainee) -> Vec<u64> {
    let mark = |text: &str| {
        let mut hasher = DefaultHasher::new();
        text.hash(&mut hasher);
        hasher.finish()
    };
    let sessions: Vec<u64> = known.past.sessions.iter().map(|session| mark(&session.id)).collect();
    if sessions.is_empty() { known.answered_at().map(mark).into_iter().collect() } else { sessions }
}

/// Groups of the sources that share a mark.
fn duplicates(mut marks: Vec<(u64, u32)>) -> Vec<Vec<usize>> {
    marks.sort_unstable();
    let mut first: BTreeMap<u32, u32> = BTreeMap::new();
    fn root(first: &BTreeMap<u32, u32>, mut of: u32) -> u32 {
        while let Some(before) = first.get(&of).filter(|before| **before != of) {
            of = *before;
        }
        of
    }
    for pair in marks.windows(2).filter(|pair| pair[0].0 == pair[1].0 && pair[0].1 != pair[1].1) {
        let (a, b) = (root(&first, pair[0].1), root(&first, pair[1].1));
        first.insert(a.max(b), a.min(b));
        first.insert(a.min(b), a.min(b));
    }
    let mut groups: BTreeMap<u32, Vec<usize>> = BTreeMap::new();
    for of in first.keys() {
        groups.entry(root(&first, *of)).or_default().push(*of as usize);
    }
    groups.into_values().collect()
}

#[cfg(test)]
mod test {
    use super::duplicates;

    #[test]
    fn whoever_shares_a_mark_belongs_together_over_others_too() {
        let marks =
            [(10, 0), (11, 0), (20, 1), (11, 2), (12, 2), (30, 3), (12, 4), (20, 5), (40, 6), (41, 6)];
        assert_eq!(duplicates(marks.to_vec()), [vec![0, 2, 4], vec![1, 5]]);
        let backward: Vec<(u64, u32)> = marks.iter().map(|(mark, of)| (100 - mark, 9 - of)).collect();
        assert_eq!(duplicates(backward), [vec![4, 8], vec![5, 7, 9]]);
        assert!(duplicates(vec![(1, 0), (2, 1)]).is_empty());
    }
}
