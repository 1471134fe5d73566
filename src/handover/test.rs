//! A folder stands for the stick: what is found on it, what is refused, and what is put there.

use tempfile::tempdir;

use super::*;
use counterpoise_core::plan::prescription::Draft;

fn sealed() -> String {
    Seal::append(&Draft::of(Prescription::ready("typical").unwrap()).to_toml())
}

#[test]
fn prescriptions_are_found_and_what_is_wrong_is_named() {
    let stick = tempdir().unwrap();
    let ours = stick.path().join(FOLDER);
    fs::create_dir(&ours).unwrap();
    let put = |path: PathBuf, text: &str| fs::write(path, text).unwrap();
    put(stick.path().join("a-good.toml"), &sealed());
    put(stick.path().join("b-settings.toml"), "[package]\nname = \"something else\"\n");
    put(stick.path().join(".c-hidden.toml"), &sealed());
    put(ours.join("d-edited.toml"), &sealed().replace("weeks = 12", "weeks = 13"));
    put(ours.join("e-beyond.toml"), &sealed().replace("weeks = 12", "weeks = 60"));
    put(ours.join("f-cut.toml"), &sealed()[..300]);
    put(ours.join("g-by-hand.TOML"), Prescription::ready_text("gentle").unwrap());
    fs::create_dir(ours.join("h-folder.toml")).unwrap();

    let [place] = &places_in(stick.path())[..] else { panic!("one place") };
    let found = place.prescriptions();
    let name = |found: &StickFile| found.path.file_name().unwrap().to_string_lossy().into_owned();
    let names: Vec<String> = found.iter().map(name).collect();
    assert_eq!(names, ["a-good.toml", "d-edited.toml", "e-beyond.toml", "f-cut.toml", "g-by-hand.TOML"]);
    assert_eq!(found[0].read.as_ref().unwrap().title(), "Usual practice at the counter");
    assert!(matches!(found[1].read, Err(Unusable::Changed)));
    let beyond = found[2].read.as_ref().unwrap_err().to_string();
    assert!(beyond.starts_with("`weeks` is 60; the most is 52"), "the gate's words: {beyond}");
    assert!(matches!(found[3].read, Err(Unusable::Refused(_))), "a file that was cut off");
    assert!(found[4].read.is_ok(), "a file written by hand has no seal");
}

#[test]
fn what_is_put_there_never_replaces_anything() {
    let stick = tempdir().unwrap();
    let place = &places_in(stick.path())[0];
    let first = place.put("report", "json", b"1").unwrap();
    let second = place.put("report", "json", b"2").unwrap();
    assert_eq!(first, stick.path().join(FOLDER).join("report.json"));
    assert_eq!(second, stick.path().join(FOLDER).join("report-2.json"));
    assert_eq!((fs::read(first).unwrap(), fs::read(second).unwrap()), (b"1".to_vec(), b"2".to_vec()));
}

#[cfg(unix)]
/// Whoever made the stick could lead what is written elsewhere.
#[cfg(unix)]
#[test]
fn a_link_on_the_stick_is_not_followed() {
    let (stick, elsewhere) = (tempdir().unwrap(), tempdir().unwrap());
    std::os::unix::fs::symlink(elsewhere.path(), stick.path().join(FOLDER)).unwrap();
    let place = places_in(stick.path()).remove(0);
    assert!(place.put("report", "html", b"private").is_err());
    assert_eq!(fs::read_dir(elsewhere.path()).unwrap().count(), 0, "nothing was written there");
    fs::remove_file(stick.path().join(FOLDER)).unwrap();
    let path = place.put("report", "html", b"private").unwrap();
    assert_eq!(fs::read(path).unwrap(), b"private");
}

#[test]
fn a_stick_that_can_only_be_read_is_said_so_and_nothing_is_left() {
    use std::os::unix::fs::PermissionsExt;
    let stick = tempdir().unwrap();
    let folder = places_in(stick.path())[0].folder().unwrap();
    fs::set_permissions(&folder, fs::Permissions::from_mode(0o500)).unwrap();
    let done = places_in(stick.path())[0].put("report", "json", b"1");
    let root = fs::File::create(folder.join("probe")).is_ok();
    fs::set_permissions(&folder, fs::Permissions::from_mode(0o700)).unwrap();
    assert!(root || done.is_err(), "a folder without the right to write");
}

#[test]
fn looking_for_sticks_never_fails() {
    // What is plugged in here is not known; every place that is named is a folder.
    assert!(removable().iter().all(|place| place.path.is_dir()));
}

proptest::proptest! {
    #[test]
    fn a_title_makes_a_plain_name(title in ".{0,90}") {
        let stem = file_stem(&title);
        proptest::prop_assert!(!stem.is_empty() && stem.len() <= STEM);
        let plain = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
        proptest::prop_assert!(stem.bytes().all(plain));
    }
}
