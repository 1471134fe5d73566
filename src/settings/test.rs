//! Settings come back as they were saved; what is not in order is refused with its line.

use proptest::prelude::*;
use tempfile::tempdir;

use super::{Glasses, PATCHES_EXAMPLE, Reason, SCHEMA, Settings, TEXT_CHARACTERS, Voice};
use crate::journal::Folder;
use counterpoise_core::plan::place::{Place, Room};
use counterpoise_core::words::Printable;

fn read(rest: &str) -> Result<Settings, super::SettingsError> {
    Settings::read("s.toml", format!("schema = \"{SCHEMA}\"\n{rest}").as_bytes())
}

#[test]
fn what_is_left_out_has_its_default() {
    let settings = read("").unwrap();
    assert_eq!(settings, Settings::default());
    assert_eq!((settings.voice, settings.screen_distance_m), (Voice::Lower, 3));
    assert_eq!(settings.emergency_number, None, "never assumed");
}

#[test]
fn every_setting_is_read() {
    let settings = read(
        "name = \"Ada\"\ncontact = \"Ben, 555 0100\"\nglasses = \"bifocals or varifocals\"\nhearing_aids = true\n\
         voice = \"tones\"\ndevice = \"USB\"\nemergency_number = \"+44 (0)20-7946.0000\"\nscreen_distance_m = 2\n\
         patches = [\"doormat\", \"low board\", \"bare floor\"]\n[sides]\nleft = \"window\"\nright = \"unknown\"\n",
    );
    let sides = Some(Room { left: Some(Place::Window), right: None, behind: None });
    let expected = Settings {
        name: Some("Ada".into()),
        contact: Some("Ben, 555 0100".into()),
        glasses: Some(Glasses::Multifocal),
        hearing_aids: Some(true),
        voice: Voice::Tones,
        device: Some("USB".into()),
        emergency_number: Some("+44 (0)20-7946.0000".into()),
        screen_distance_m: 2,
        sides,
        patches: ["doormat", "low board", "bare floor"].map(str::to_owned).to_vec(),
    };
    assert_eq!(settings, Ok(expected));
    assert_eq!(read("emergency_number = \"unknown\"").unwrap().emergency_number, None);
    assert_eq!(read(PATCHES_EXAMPLE).unwrap().patches, ["doormat", "folded blanket", "low board"]);
}

#[test]
fn what_is_not_in_order_is_refused_with_its_line() {
    let long = format!("device = \"{}\"", "x".repeat(TEXT_CHARACTERS + 1));
    for (rest, said) in [
        ("\nvoice = \"loud\"", "`voice` is \"loud\"; it can be lower, higher or tones (s.toml, line 3)"),
        ("voice = 3", "invalid type: integer `3`, expected a string (s.toml, line 2)"),
        ("volume = 3", "unknown field `volume`"),
        ("voice = \"lower\"\nvoice = \"tones\"", "duplicate key (s.toml, line 3)"),
        ("[sides]\nahead = \"wall\"", "unknown field `ahead`"),
        (
            "[sides]\nleft = \"my garden\"",
            "`left` in [sides] is \"my garden\", which is not a place that can be named to a partner (s.toml, line 3)",
        ),
        ("patches = [\"doormat\",\n\"low board\"]", "`patches` has 2; a course has 3 to 8 (s.toml, line 2)"),
        (
            "patches = [\"doormat\",\n\"low board\", \"doormat\"]",
            "`patches` has \"doormat\" twice (s.toml, line 3)",
        ),
        ("patches = [\"mat\",\n\"\", \"mat\"]", "`patches` is empty (s.toml, line 3)"),
        ("device = \"a\\tb\"", "`device` has a character that cannot be shown: '\\t' (s.toml, line 2)"),
        ("name = \"a\\u200bb\"", "`name` has a character that cannot be shown: '\\u{200b}' (s.toml, line 2)"),
        (&long, "`device` has 41 characters; the most is 40 (s.toml, line 2)"),
        ("screen_distance_m = 0", "`screen_distance_m` is 0; it can be 1 to 10 (s.toml, line 2)"),
        ("screen_distance_m = 300", "`screen_distance_m` is 300; it can be 1 to 10"),
        ("screen_distance_m = 2.5", "expected i64 (s.toml, line 2)"),
        ("screen_distance_m = nan", "(s.toml, line 2)"),
        ("emergency_number = \"my daughter\"", "\"my daughter\", which cannot be dialed (s.toml, line 2)"),
        ("emergency_number = \"1\"", "cannot be dialed"),
        ("emergency_number = 911", "expected a string"),
        ("glasses = \"pink\"", "`glasses` is \"pink\"; it can be none, distance"),
        ("name = \"\"", "`name` is empty"),
        ("hearing_aids = \"yes\"", "expected a boolean"),
        ("device = ", "(s.toml, line 2)"),
    ] {
        let error = read(rest).unwrap_err();
        assert!(error.to_string().contains(said), "{rest}: {error}");
        assert!(error.hint().ends_with('.') || error.hint().contains(" = "), "{}", error.hint());
    }
    let error = Settings::read("s.toml", b"voice = \"lower\"").unwrap_err();
    assert!(error.to_string().contains("missing field `schema`"), "{error}");
    let error = Settings::read("s.toml", b"schema = \"counterpoise.settings/2\"").unwrap_err();
    assert_eq!(error.reason(), &Reason::Schema { written: "counterpoise.settings/2".into() });
    let error = Settings::read("s.toml", b"# ok\n# \xff").unwrap_err();
    assert_eq!((error.line(), error.reason()), (Some(2), &Reason::NotUtf8 { at: 8 }));
    let error = Settings::read("s.toml", &vec![b' '; 70_000]).unwrap_err();
    assert_eq!(error.reason(), &Reason::TooLarge { bytes: 70_000 });
}

#[test]
fn a_folder_without_settings_has_the_defaults_and_one_with_broken_settings_is_refused() {
    let place = tempdir().unwrap();
    let folder = Folder::open_in(place.path().join("ada")).unwrap();
    assert_eq!(Settings::load(&folder), Ok(Settings::default()));
    Settings::default().save(&folder).unwrap();
    assert_eq!(Settings::load(&folder), Ok(Settings::default()));
    std::fs::write(folder.settings_file(), "voice = ").unwrap();
    assert!(Settings::load(&folder).is_err());
    std::fs::remove_file(folder.settings_file()).unwrap();
    std::fs::create_dir(folder.settings_file()).unwrap();
    assert!(matches!(Settings::load(&folder).unwrap_err().reason(), Reason::Unreadable { .. }));
    assert!(Settings::default().save(&folder).is_err());
}

/// A text in any script, without what cannot be shown.
const SHOWN: &str = "[^\\p{C}\\p{Z}][^\\p{C}\\p{Zl}\\p{Zp}]{0,39}";

fn any_text() -> impl Strategy<Value = Option<String>> {
    prop::option::of(SHOWN)
}

fn any_room() -> impl Strategy<Value = Room> {
    let place = || prop::option::of(prop::sample::select(Place::ALL));
    (place(), place(), place()).prop_map(|(left, right, behind)| Room { left, right, behind })
}

proptest! {
    #[test]
    fn settings_come_back_as_they_were_written(
        voice in prop::sample::select(&Voice::ALL[..]),
        (name, contact, device) in (any_text(), any_text(), any_text()),
        glasses in prop::option::of(prop::sample::select(Glasses::ALL)),
        hearing_aids in any::<Option<bool>>(),
        emergency_number in prop::option::of("[+]?[0-9]{2}[0-9 -]{0,9}"),
        screen_distance_m in 1_u8..=10,
        sides in prop::option::of(any_room()),
        patches in prop::collection::hash_set(SHOWN, 3..8),
        with_patches in any::<bool>(),
    ) {
        let refused = |text: &String| text.trim().is_empty() || Printable::first_hidden(text).is_some();
        prop_assume!(!device.iter().chain(&name).chain(&contact).chain(&patches).any(refused));
        let patches = patches.into_iter().filter(|_| with_patches).collect();
        let settings = Settings {
            name, voice, device, emergency_number, contact, glasses, hearing_aids, screen_distance_m, sides, patches,
        };
        prop_assert_eq!(Settings::read("s.toml", settings.to_toml().as_bytes()), Ok(settings));
    }

    #[test]
    fn no_file_makes_the_reader_panic(bytes in prop::collection::vec(any::<u8>(), 0..200), text in "\\PC{0,80}") {
        let _ = Settings::read("s.toml", &bytes);
        let _ = read(&text);
    }
}
