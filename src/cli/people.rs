//! Whose folder is it, if several people practice on one computer? Each has their own folder and journal. The first person
//! has the data folder itself, so that somebody who practices alone sees nothing of this.

use std::io::{self, BufRead, IsTerminal, Write};
use std::path::{Path, PathBuf};

use super::Failure;
use super::page::show;
use crate::journal::Folder;
use crate::settings::Settings;
use counterpoise_core::blocks::Block;

/// The folder of the other people's folders, inside the data folder. They are numbered: no name appears in a path.
const OTHERS: &str = "people";

/// Somebody who practices here.
#[derive(Debug, Clone)]
pub(super) struct Person {
    /// A name, initials or a symbol.
    pub name: String,
    /// The folder with their journal, settings and prescription.
    pub folder: Folder,
}

/// Everybody, in the order in which they were added. Empty if only the owner of the data folder practices.
///
/// # Errors
/// If a folder or its settings cannot be read: nobody is skipped.
pub(super) fn all(data: &Folder) -> Result<Vec<Person>, Failure> {
    let others = numbered(data)?;
    if others.is_empty() {
        return Ok(Vec::new());
    }
    let mut people = Vec::new();
    for (nth, path) in std::iter::once(data.path().to_owned()).chain(others).enumerate() {
        let folder = Folder::open_in(path)?;
        let name = Settings::load(&folder)?.name.unwrap_or_else(|| format!("person {}", nth + 1));
        people.push(Person { name, folder });
    }
    Ok(people)
}

/// The folders of the others, in order.
fn numbered(data: &Folder) -> Result<Vec<PathBuf>, Failure> {
    let place = data.path().join(OTHERS);
    let entries = match std::fs::read_dir(&place) {
        Ok(entries) => entries,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        Err(error) => {
            return Err(Failure::new(
                format!("the list of people cannot be read: {error} ({})", place.display()),
                "Check that you are allowed to read the folder, or name one person's folder with --data-dir.",
            ));
        }
    };
    let number = |entry: io::Result<std::fs::DirEntry>| {
        let path = entry.ok()?.path();
        let number: u32 = path.file_name()?.to_str()?.parse().ok()?;
        path.is_dir().then_some((number, path))
    };
    let mut found: Vec<(u32, PathBuf)> = entries.filter_map(number).collect();
    found.sort_unstable();
    Ok(found.into_iter().map(|(_, path)| path).collect())
}

/// The folder for the next person to be added. It is not created here.
pub(super) fn next_folder(data: &Folder) -> Result<Folder, Failure> {
    let last = numbered(data)?.last().and_then(|path| path.file_name()?.to_str()?.parse::<u32>().ok());
    let number = last.unwrap_or(1) + 1;
    Ok(Folder::open_in(data.path().join(OTHERS).join(number.to_string()))?)
}

/// The folder of the person who practices: the named one, else the only one, else the one chosen at the terminal.
///
/// # Errors
/// If nobody has this name, or several practice here and none is named.
pub(super) fn find(data_dir: Option<&Path>, person: Option<&str>) -> Result<Folder, Failure> {
    let data = Folder::find(data_dir)?;
    let people = all(&data)?;
    match person {
        Some(name) => named(&data, &people, name),
        None if people.is_empty() => Ok(data),
        None if io::stdin().is_terminal() && io::stdout().is_terminal() => {
            ask(&people, &mut io::stdin().lock(), &mut io::stdout())
        }
        None => Err(Failure::new(
            format!("{} people practice here, and none of them was named", people.len()),
            format!("Say who practices: --person NAME. They are: {}", names(&people)),
        )),
    }
}

fn names(people: &[Person]) -> String {
    people.iter().map(|person| person.name.as_str()).collect::<Vec<_>>().join(", ")
}

/// Whether two names are the same, apart from capital letters and the width of spaces.
pub(super) fn is_same(one: &str, other: &str) -> bool {
    let plain = |name: &str| name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    plain(one) == plain(other)
}

/// The folder of the person with this name.
pub(super) fn named(data: &Folder, people: &[Person], name: &str) -> Result<Folder, Failure> {
    let same = |other: &str| is_same(other, name);
    if people.is_empty() {
        let own = Settings::load(data)?.name;
        return match own {
            Some(own) if same(&own) => Ok(data.clone()),
            _ => Err(Failure::new(
                format!("nobody called \"{name}\" practices here"),
                "Leave out --person, or add the person: counterpoise setup --new",
            )),
        };
    }
    let found: Vec<&Person> = people.iter().filter(|person| same(&person.name)).collect();
    match found[..] {
        [person] => Ok(person.folder.clone()),
        [] => Err(Failure::new(
            format!("nobody called \"{name}\" practices here"),
            format!("They are: {}. To add a person: counterpoise setup --new", names(people)),
        )),
        _ => Err(Failure::new(
            format!("{} people here are called \"{name}\"", found.len()),
            "Rename one of them with counterpoise setup, or name a folder with --data-dir.",
        )),
    }
}

/// Asks at the terminal until somebody is chosen.
fn ask(people: &[Person], from: &mut impl BufRead, out: &mut impl Write) -> Result<Folder, Failure> {
    loop {
        let choice = |(nth, person): (u32, &Person)| Block::Choice(nth.to_string(), person.name.clone());
        let mut question = vec![Block::line("Who practices?")];
        question.extend((1..).zip(people).map(choice));
        question.push(Block::line("Number, then Enter:"));
        show(&question, out)?;
        let mut line = String::new();
        let read = from.read_line(&mut line).unwrap_or(0);
        if read == 0 {
            return Err(Failure::new(
                "nobody was chosen",
                "Start again, or say who practices: --person NAME",
            ));
        }
        let number = line.trim().parse::<usize>().ok();
        if let Some(person) = number.and_then(|number| people.get(number.checked_sub(1)?)) {
            return Ok(person.folder.clone());
        }
    }
}

#[cfg(test)]
mod test {
    use super::{Person, ask, is_same};
    use crate::journal::Folder;

    fn people() -> Vec<Person> {
        let of = |name: &str| Person {
            name: name.to_owned(),
            folder: Folder::open_in(format!("/nowhere/{name}")).unwrap(),
        };
        vec![of("Ada"), of("*")]
    }

    #[test]
    fn a_name_is_known_again_with_its_dots_spaces_and_letters() {
        for (one, other) in [
            ("A.", "a."),
            ("Mary Ann", " mary  ann "),
            ("Jürgen Ö.", "JÜRGEN Ö."),
            ("李", "李"),
            ("K. L.", "k. l."),
        ] {
            assert!(is_same(one, other), "{one}");
        }
        for (one, other) in [("A.", "A"), ("Mary Ann", "Maryann"), ("Ö", "O")] {
            assert!(!is_same(one, other), "{one}");
        }
    }

    #[test]
    fn who_practices_is_chosen_by_number_and_the_end_of_input_is_nobody() {
        let chosen = |typed: &str| {
            let mut out = Vec::new();
            ask(&people(), &mut typed.as_bytes(), &mut out).map(|folder| folder.path().display().to_string())
        };
        assert_eq!(chosen("2\n").unwrap(), "/nowhere/*");
        assert_eq!(chosen("0\n3\nAda\n\n1\n").unwrap(), "/nowhere/Ada", "what is no number is asked again");
        assert_eq!(chosen("").unwrap_err().fact(), "nobody was chosen");
        assert_eq!(chosen("9\n").unwrap_err().fact(), "nobody was chosen");
    }
}
