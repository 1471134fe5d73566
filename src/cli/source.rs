//! Which prescription and which seed does a command mean? A ready prescription, a file, or the one in use.

use std::borrow::Cow;
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use super::Failure;
use crate::entropy;
use crate::journal::{Folder, Journal};
use counterpoise_core::draw::schedule::{Method, Seed};
use counterpoise_core::plan::prescription::{Prescription, limits};

/// A prescription, the bytes it was read from, and its name.
#[derive(Debug, Clone)]
pub struct Source {
    /// The name of a ready one, or the path of a file.
    pub name: String,
    /// The bytes of the file.
    pub bytes: Cow<'static, [u8]>,
    /// The prescription read from them.
    pub prescription: Prescription,
}

/// The prescription that is named, else the one in the person's folder, else the first ready one. `folder` is asked
/// only if nothing is named.
///
/// # Errors
/// If there is no such prescription, or it cannot be read or has an error.
pub fn find(
    given: Option<&str>,
    folder: impl FnOnce() -> Result<Folder, Failure>,
) -> Result<Source, Failure> {
    if let Some(name) = given {
        return named(name);
    }
    in_use(&folder()?)?.map_or_else(|| named(Prescription::all_ready()[0].0), Ok)
}

/// The same for whoever practices in this folder: the precautions of the program in use hold for everything.
///
/// # Errors
/// As [`find`], and if the program in use cannot be read: then nobody knows what it rules out.
pub fn for_person(given: Option<&str>, folder: &Folder) -> Result<Source, Failure> {
    let source = find(given, || Ok(folder.clone()))?;
    let program = if given.is_some() { in_use(folder)? } else { None };
    Ok(source.within(program.as_ref()))
}

impl Source {
    /// The same within the precautions of the program in use.
    #[must_use]
    pub fn within(mut self, program: Option<&Self>) -> Self {
        if let Some(program) = program {
            self.prescription = self.prescription.within(program.prescription.precautions());
        }
        self
    }
}

/// The prescription in the person's folder; `None` if there is none yet.
///
/// # Errors
/// If the file exists but cannot be read or has an error.
pub fn in_use(folder: &Folder) -> Result<Option<Source>, Failure> {
    let file = folder.prescription_file();
    match file.symlink_metadata() {
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        _ => read(&file.display().to_string()).map(Some),
    }
}

/// The ready prescription or the file of this name. A ready name comes first; `./gentle` is the file.
///
/// # Errors
/// As [`find`].
pub fn named(name: &str) -> Result<Source, Failure> {
    match (Prescription::ready(name), Prescription::ready_text(name)) {
        (Some(prescription), Some(text)) => Ok(Source {
            name: name.to_owned(),
            bytes: Cow::Borrowed(text.as_bytes()),
            prescription: prescription.clone(),
        }),
        _ => read(name),
    }
}

fn read(name: &str) -> Result<Source, Failure> {
    let most = limits::FILE_BYTES as u64;
    let mut bytes = Vec::new();
    let read = File::open(Path::new(name)).and_then(|file| {
        // One byte more than is allowed is enough to be refused, and `/dev/zero` has an end.
        let size = file.metadata()?.len();
        file.take(most + 1).read_to_end(&mut bytes).map(|read| size.max(read as u64))
    });
    let size = read.map_err(|error| not_read(name, &error))?;
    if size > most {
        return Err(Failure::new(
            format!("the file has {size} bytes or more; the most is {most} (256 KiB) ({name})"),
            "A prescription is a page or two of text. Is this the right file?",
        ));
    }
    let prescription = Prescription::read(name, &bytes)?;
    Ok(Source { name: name.to_owned(), bytes: Cow::Owned(bytes), prescription })
}

fn not_read(name: &str, error: &io::Error) -> Failure {
    let ready: Vec<&str> = Prescription::ready_names().collect();
    let ready = ready.join(", ");
    if error.kind() == io::ErrorKind::NotFound {
        Failure::new(
            format!("there is no ready prescription and no file called `{name}`"),
            format!("The ready ones are: {ready}. Name a file by its path, such as ./balance.toml"),
        )
    } else {
        Failure::new(
            format!("the prescription {name} cannot be read: {error}"),
            format!("Check that it is a file you are allowed to read. The ready ones are: {ready}"),
        )
    }
}

/// The seed that is given, else a fresh one.
///
/// # Errors
/// If the text is not a seed, or the operating system gives no random bytes.
pub fn seed(given: Option<&str>) -> Result<Seed, Failure> {
    Ok(match given {
        Some(hex) => Seed::from_hex(hex)?,
        None => entropy::seed()?,
    })
}

/// The recipe that draws this seed: that of the kept session, where one has it, else the newest.
///
/// # Errors
/// If the journal cannot be read, or this version does not know the recipe.
pub fn method(seed: Seed, journal: &Journal) -> Result<Method, Failure> {
    let sessions = journal.contents()?.sessions;
    let mut drawn = sessions.iter().rev().filter_map(|session| session.start.drawn.as_ref());
    let kept = drawn.find(|drawn| drawn.seed == seed);
    Ok(kept.map_or(Ok(Method::NEWEST), |drawn| Method::try_from(drawn.method))?)
}

/// The seed that is given, with the recipe that draws it; else a fresh one and the newest. Where no journal can be read,
/// no session is known to have had it.
///
/// # Errors
/// As for [`seed`] and [`method`].
pub fn replay(
    given: Option<&str>,
    folder: impl FnOnce() -> Result<Folder, Failure>,
) -> Result<(Method, Seed), Failure> {
    let seed = seed(given)?;
    let kept = given.and_then(|_| Journal::look(&folder().ok()?).ok());
    Ok((kept.map_or(Ok(Method::NEWEST), |journal| method(seed, &journal))?, seed))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::journal::sample::{begun, id, keep, moment, open};
    use counterpoise_core::record::Entry;

    #[test]
    fn a_kept_session_is_drawn_again_by_its_own_method_or_not_at_all() {
        let place = tempfile::tempdir().unwrap();
        let folder = || Ok(Folder::open_in(place.path()).unwrap());
        let kept = Seed::from_bytes([7; 32]).to_string();
        let mut journal = open(&folder().unwrap());
        keep(&mut journal, &id(1), &[begun(moment(0))]);
        assert_eq!(replay(Some(&kept), folder).unwrap().0, Method::One);

        let Entry::SessionBegun(mut row) = begun(moment(1)) else { unreachable!() };
        row.drawn.as_mut().unwrap().method = 7;
        keep(&mut journal, &id(2), &[Entry::SessionBegun(row)]);
        for refused in [
            replay(Some(&kept), folder).unwrap_err(),
            method(Seed::from_bytes([7; 32]), &journal).unwrap_err(),
        ] {
            assert_eq!(refused.fact(), "drawn by method 7; this version knows 1");
        }
        let other = "00".repeat(32);
        assert_eq!(replay(Some(&other), folder).unwrap().0, Method::NEWEST, "no session is kept that had it");
        let nowhere = || -> Result<Folder, Failure> { panic!("a fresh seed needs no journal") };
        assert_eq!(replay(None, nowhere).unwrap().0, Method::NEWEST);
    }

    #[test]
    fn a_name_comes_before_the_persons_own_and_that_before_the_first_ready_one() {
        let place = tempfile::tempdir().unwrap();
        let folder = || Ok(Folder::open_in(place.path()).unwrap());
        assert_eq!(find(None, folder).unwrap().name, "gentle");
        let typical = Prescription::ready_text("typical").unwrap();
        std::fs::write(folder().unwrap().prescription_file(), typical).unwrap();
        let own = find(None, folder).unwrap();
        assert_eq!(own.prescription.title(), "Usual practice at the counter");
        assert_eq!(&*own.bytes, typical.as_bytes());
        let nowhere = || -> Result<Folder, Failure> { panic!("a name needs no folder") };
        assert_eq!(find(Some("gentle"), nowhere).unwrap().name, "gentle");

        std::fs::write(folder().unwrap().prescription_file(), "title = 3").unwrap();
        let refused = find(None, folder).unwrap_err();
        assert!(refused.fact().contains("prescription.toml"), "a broken one is never passed over");
    }

    #[test]
    fn the_precautions_of_the_program_in_use_hold_for_whatever_is_practiced_in_its_folder() {
        let place = tempfile::tempdir().unwrap();
        let folder = Folder::open_in(place.path()).unwrap();
        let free = for_person(Some("typical"), &folder).unwrap();
        assert!(free.prescription.precautions().is_empty(), "nothing is in use");
        let gentle = Prescription::ready_text("gentle").unwrap();
        let program = gentle.replacen("order =", "precautions = [\"left arm stays down\"]\norder =", 1);
        std::fs::write(folder.prescription_file(), program).unwrap();
        for name in Prescription::ready_names() {
            let bound = for_person(Some(name), &folder).unwrap().prescription;
            assert_eq!(bound.precautions().to_string(), "left arm stays down", "{name}");
            let ready = Prescription::ready(name).unwrap();
            assert_eq!(
                bound.digest(),
                ready.digest(),
                "it is kept as that file, with the precautions beside it"
            );
        }
        let own = for_person(None, &folder).unwrap().prescription;
        assert_eq!(own.drills()[1].targets().len(), 2, "right and forward right");
        assert_eq!(own.excess_over(&for_person(Some("gentle"), &folder).unwrap().prescription), None);
        std::fs::write(folder.prescription_file(), "title = 3").unwrap();
        assert!(for_person(Some("gentle"), &folder).is_err(), "nobody knows what it rules out");
    }
}
