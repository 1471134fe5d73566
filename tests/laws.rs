//! The laws of the layout, checked on the source itself: the core touches nothing outside, nothing points up, and
//! each outside thing has its one place. Every path in every file is looked at, not only `use` lines; what stands under
//! `#[cfg(test)]` is free.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use syn::visit::{self, Visit};

/// The rooms of the core, from the bottom up. A room may name itself and those before it, nothing else.
const ROOMS: [&str; 11] = [
    "words",
    "units",
    "blocks",
    "plan",
    "draw",
    "health",
    "record",
    "practice",
    "course",
    "prescribing",
    "report",
];

/// Parts of the shell, and what of the shell each may name beside itself.
const SHELL: [(&str, &[&str]); 5] = [
    ("audio", &[]),
    ("clock", &[]),
    ("entropy", &[]),
    ("display", &[]),
    // What the journal keeps of a device or a folder comes in as values. It draws the ids of its entries.
    ("journal", &["entropy"]),
];

/// Of the core, sound knows lengths only: no meanings.
const SOUND: &str = "units";

/// What the core never names: terminals, clocks, files, environment, entropy, threads, devices.
const OUTSIDE: [&str; 24] = [
    "std::env",
    "std::fs",
    "std::io",
    "std::net",
    "std::process",
    "std::thread",
    "std::time::Instant",
    "std::time::SystemTime",
    "rand::rng",
    "rand::random",
    "rand::rngs::SysRng",
    "rand::rngs::ThreadRng",
    "clap",
    "cpal",
    "crossterm",
    "directories",
    "hound",
    "indicatif",
    "plotters",
    "ratatui",
    "rodio",
    "rusqlite",
    "signal_hook",
    "sysinfo",
];

/// Each outside thing, and the only places of the shell that name it.
const PLACES: [(&str, &[&str]); 10] = [
    ("cpal", &["audio/device.rs", "audio/supervisor.rs"]),
    ("hound", &["audio/wav.rs"]),
    ("rodio", &["audio/decode.rs"]),
    ("rusqlite", &["journal.rs", "journal/"]),
    ("rand::rngs::SysRng", &["entropy.rs"]),
    ("ratatui", &["display.rs", "display/"]),
    ("plotters", &["display/svg.rs"]),
    ("sysinfo", &["handover.rs"]),
    ("textwrap", &["display/words.rs", "cli/page/text.rs"]),
    ("maud", &["cli/page/html.rs", "cli/sheet.rs", "cli/sheet/ticks.rs", "display/svg.rs"]),
];

const PRINTS: [&str; 5] = ["print", "println", "eprint", "eprintln", "dbg"];

/// What a file names: whole paths, with `crate`, `self` and `super` resolved; macros end in `!`, methods begin with `.`.
struct Names {
    module: Vec<String>,
    found: Vec<String>,
}

impl Names {
    fn of(source: &str, module: &[String]) -> Vec<String> {
        let file = syn::parse_file(source).expect("the source compiles");
        let mut names = Self { module: module.to_vec(), found: Vec::new() };
        names.visit_file(&file);
        names.found
    }

    fn add(&mut self, segments: Vec<String>) {
        self.found.push(resolve(&self.module, segments).join("::"));
    }

    fn tree(&mut self, tree: &syn::UseTree, before: &[String]) {
        let with = |ident: &syn::Ident| [before, &[ident.to_string()]].concat();
        match tree {
            syn::UseTree::Path(path) => self.tree(&path.tree, &with(&path.ident)),
            syn::UseTree::Name(name) if name.ident == "self" => self.add(before.to_vec()),
            syn::UseTree::Name(name) => self.add(with(&name.ident)),
            syn::UseTree::Rename(rename) if rename.ident == "self" => self.add(before.to_vec()),
            syn::UseTree::Rename(rename) => self.add(with(&rename.ident)),
            // All that is below is named.
            syn::UseTree::Glob(_) => self.add([before, &["*".to_owned()]].concat()),
            syn::UseTree::Group(group) => group.items.iter().for_each(|item| self.tree(item, before)),
        }
    }
}

fn resolve(module: &[String], segments: Vec<String>) -> Vec<String> {
    let mut base = module.to_vec();
    let mut rest = segments.into_iter().peekable();
    match rest.peek().map(String::as_str) {
        Some("crate") => {
            rest.next();
            base.clear();
        }
        Some("self" | "super") => {
            while let Some(step) = rest.next_if(|segment| segment == "self" || segment == "super") {
                if step == "super" {
                    base.pop();
                }
            }
        }
        _ => return rest.collect(),
    }
    ["crate".to_owned()].into_iter().chain(base).chain(rest).collect()
}

fn is_test(attributes: &[syn::Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        attribute.path().is_ident("cfg")
            && attribute.parse_args::<syn::Ident>().is_ok_and(|argument| argument == "test")
    })
}

impl<'ast> Visit<'ast> for Names {
    fn visit_item_use(&mut self, item: &'ast syn::ItemUse) {
        if !is_test(&item.attrs) {
            self.tree(&item.tree, &[]);
        }
    }

    fn visit_item_mod(&mut self, item: &'ast syn::ItemMod) {
        if !is_test(&item.attrs) {
            self.module.push(item.ident.to_string());
            visit::visit_item_mod(self, item);
            self.module.pop();
        }
    }

    fn visit_item_fn(&mut self, item: &'ast syn::ItemFn) {
        if !is_test(&item.attrs) {
            visit::visit_item_fn(self, item);
        }
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        self.add(path.segments.iter().map(|segment| segment.ident.to_string()).collect());
        visit::visit_path(self, path);
    }

    fn visit_expr_method_call(&mut self, call: &'ast syn::ExprMethodCall) {
        self.found.push(format!(".{}", call.method));
        visit::visit_expr_method_call(self, call);
    }

    fn visit_macro(&mut self, call: &'ast syn::Macro) {
        if let Some(name) = call.path.segments.last() {
            self.found.push(format!("{}!", name.ident));
        }
        // What a macro is given is not parsed; the paths in it are runs of names joined by `::`.
        let tokens = call.tokens.to_string().replace(" :: ", "::").replace(":: ", "::").replace(" ::", "::");
        let is_part = |sign: char| sign.is_alphanumeric() || sign == '_' || sign == ':';
        for path in tokens.split(|sign| !is_part(sign)).filter(|path| path.contains("::")) {
            let segments: Vec<String> =
                path.split("::").filter(|part| !part.is_empty()).map(str::to_owned).collect();
            self.add(segments);
        }
    }
}

/// Whether `name` is `thing` or below it, or takes in `thing` by a glob or by naming what is above it.
fn touches(name: &str, thing: &str) -> bool {
    let below = |inner: &str, outer: &str| {
        inner.strip_prefix(outer).is_some_and(|rest| rest.is_empty() || rest.starts_with("::"))
    };
    below(name, thing) || below(thing, name.strip_suffix("::*").unwrap_or(name))
}

/// What in a core file is not allowed to it.
fn outside(source: &str, module: &[String]) -> Vec<String> {
    let forbidden = |name: &String| {
        OUTSIDE.iter().any(|thing| touches(name, thing))
            || name.split("::").any(|part| part == "Instant" || part == "SystemTime")
            || name.ends_with("::now")
            || name == ".now"
            || PRINTS.iter().any(|print| name.strip_suffix('!') == Some(print))
    };
    Names::of(source, module).into_iter().filter(forbidden).collect()
}

/// What in a file of `own` points at a part of its crate that it may not name.
fn upward(source: &str, module: &[String], own: &str, below: &[&str]) -> Vec<String> {
    let allowed = |name: &String| {
        name.strip_prefix("crate::").is_none_or(|inner| {
            [&[own], below].concat().iter().any(|free| {
                inner.strip_prefix(free).is_some_and(|rest| rest.is_empty() || rest.starts_with("::"))
            })
        })
    };
    Names::of(source, module).into_iter().filter(|name| !allowed(name)).collect()
}

/// One source file: its path from its crate's `src`, its module, its text.
struct Source {
    path: String,
    module: Vec<String>,
    text: String,
}

/// Every source file below `src`, a folder of the workspace, but tests.
fn sources(src: &str) -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join(src);
    let (mut folders, mut files) = (vec![root.clone()], Vec::<PathBuf>::new());
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
            if entry.is_dir() { folders.push(entry) } else { files.push(entry) }
        }
    }
    let mut sources: Vec<_> = files
        .into_iter()
        .filter(|file| file.extension().is_some_and(|ending| ending == "rs"))
        .map(|file| {
            let path = file.strip_prefix(&root).unwrap().with_extension("");
            let module: Vec<String> =
                path.components().map(|part| part.as_os_str().to_string_lossy().into_owned()).collect();
            let text = fs::read_to_string(&file).unwrap();
            Source { path: format!("{}.rs", module.join("/")), module, text }
        })
        .filter(|source| !source.module.iter().any(|part| part == "test" || part == "sample"))
        .collect();
    sources.sort_by(|a, b| a.path.cmp(&b.path));
    assert!(sources.len() > 20, "{src} is nearly empty: the laws are about nothing");
    sources
}

fn core() -> Vec<Source> {
    sources("core/src")
}

fn shell() -> Vec<Source> {
    sources("src")
}

#[test]
fn the_core_touches_no_terminal_clock_file_environment_entropy_or_thread() {
    for Source { path, module, text } in core() {
        let found = outside(&text, &module);
        assert!(found.is_empty(), "{path} names {found:?}");
    }
    let manifest: toml::Table = include_str!("../core/Cargo.toml").parse().unwrap();
    let rand = manifest["dependencies"]["rand"]["features"].as_array().unwrap();
    assert!(!rand.iter().any(|feature| feature.as_str() == Some("sys_rng")), "{rand:?}");
}

#[test]
fn a_room_names_only_rooms_below_it() {
    let mut seen = Vec::new();
    for Source { path, module, text } in core() {
        let own = module[0].as_str();
        if own == "lib" {
            continue;
        }
        let place = ROOMS.iter().position(|room| *room == own);
        let place = place.unwrap_or_else(|| panic!("{path} is in no room of this list"));
        let found = upward(&text, &module, own, &ROOMS[..place]);
        assert!(found.is_empty(), "{path} points at {found:?}");
        seen.push(own.to_owned());
    }
    assert!(ROOMS.iter().all(|room| seen.iter().any(|own| own == room)), "a room is empty");
}

#[test]
fn in_the_shell_nothing_points_up_and_sound_knows_no_meanings() {
    let sources = shell();
    for (own, below) in SHELL {
        assert!(sources.iter().any(|source| source.module[0] == own), "there is no {own}");
        for Source { path, module, text } in sources.iter().filter(|source| source.module[0] == own) {
            let found = upward(text, module, own, below);
            assert!(found.is_empty(), "{path} points at {found:?}");
        }
    }
    for Source { path, module, text } in sources.iter().filter(|source| source.module[0] == "audio") {
        let meaning = |name: &String| {
            name.strip_prefix("counterpoise_core::").is_some_and(|inner| !inner.starts_with(SOUND))
        };
        let found: Vec<_> = Names::of(text, module).into_iter().filter(meaning).collect();
        assert!(found.is_empty(), "{path} points at {found:?}");
    }
}

/// The files of a crate that name each other in a loop. A file and those in its own folder count as one side: the
/// first hands on what the others hold.
fn circles(sources: &[Source]) -> Vec<Vec<String>> {
    let place: BTreeMap<String, usize> =
        sources.iter().enumerate().map(|(place, source)| (source.module.join("::"), place)).collect();
    let target = |name: &str| {
        let mut path = name.strip_prefix("crate::")?;
        loop {
            if let Some(place) = place.get(path) {
                return Some(*place);
            }
            path = path.rsplit_once("::")?.0;
        }
    };
    let kin = |a: usize, b: usize| {
        let (a, b) = (&sources[a].module, &sources[b].module);
        a.starts_with(b) || b.starts_with(a)
    };
    let arrows: Vec<BTreeSet<usize>> = sources
        .iter()
        .enumerate()
        .map(|(from, source)| {
            let names = Names::of(&source.text, &source.module);
            names.iter().filter_map(|name| target(name)).filter(|to| !kin(from, *to)).collect()
        })
        .collect();
    let reached = |from: usize| {
        let (mut seen, mut waiting) = (BTreeSet::new(), vec![from]);
        while let Some(place) = waiting.pop() {
            waiting.extend(arrows[place].iter().filter(|to| seen.insert(**to)));
        }
        seen
    };
    let reached: Vec<_> = (0..sources.len()).map(reached).collect();
    let mut circles: Vec<Vec<String>> = Vec::new();
    for from in 0..sources.len() {
        let with = reached[from].iter().filter(|to| reached[**to].contains(&from));
        let circle: Vec<String> = with.map(|to| sources[*to].path.clone()).collect();
        if !circle.is_empty() && !circles.contains(&circle) {
            circles.push(circle);
        }
    }
    circles
}

#[test]
fn no_files_name_each_other_in_a_circle() {
    let of = |path: &str, text: &str| Source {
        path: path.to_owned(),
        module: path.split('/').map(str::to_owned).collect(),
        text: text.to_owned(),
    };
    let planted =
        [of("a", "use crate::b::X;"), of("b", "fn f() { super::c::g() }"), of("c", "use crate::a::Y;")];
    assert_eq!(circles(&planted), [["a", "b", "c"]], "a planted circle is found");
    let found = circles(&core());
    assert!(found.is_empty(), "{found:#?}");
    let found = circles(&shell());
    assert!(found.is_empty(), "{found:#?}");
}

/// A file of the shell's commands bears the name of its command; else a name stands for one thing in its crate.
#[test]
fn no_two_modules_of_a_crate_have_one_name() {
    for (sources, commands) in [(core(), false), (shell(), true)] {
        let mut seen: BTreeMap<String, String> = BTreeMap::new();
        let mut twice = Vec::new();
        for Source { path, module, .. } in
            sources.iter().filter(|source| !commands || source.module[0] != "cli")
        {
            if let Some(other) = seen.insert(module.last().unwrap().clone(), path.clone()) {
                twice.push((other, path.clone()));
            }
        }
        assert!(twice.is_empty(), "{twice:#?}");
    }
}

#[test]
fn what_decides_a_session_uses_no_library_of_distributions() {
    let named = |source: &Source| {
        Names::of(&source.text, &source.module)
            .iter()
            .any(|name| name.split("::").next() == Some("rand_distr"))
    };
    let places: Vec<String> = core().into_iter().filter(named).map(|source| source.path).collect();
    assert_eq!(places, ["draw/predictability/second_draw.rs"]);
}

#[test]
fn each_outside_thing_has_its_one_place() {
    for (thing, places) in PLACES {
        for Source { path, module, text } in shell() {
            if !places.iter().any(|place| path.starts_with(place)) {
                let named = |name: &String| {
                    name.strip_prefix(thing).is_some_and(|rest| rest.is_empty() || rest.starts_with("::"))
                };
                let found: Vec<_> = Names::of(&text, &module).into_iter().filter(named).collect();
                assert!(found.is_empty(), "{path} names {found:?}, which belongs to {places:?}");
            }
        }
    }
}

/// A command builds a page, and the writers print it. One command streams JSON, and one shows where to type.
#[test]
fn a_command_hands_over_a_page_and_writes_no_text() {
    let writes = |name: &String| {
        let macros = PRINTS.iter().chain(&["write", "writeln"]);
        name.strip_suffix('!').is_some_and(|name| macros.clone().any(|one| *one == name))
    };
    let writes = |source: &Source| Names::of(&source.text, &source.module).iter().any(writes);
    let commands = shell().into_iter().filter(|source| source.path.starts_with("cli/"));
    let places: Vec<String> = commands.filter(writes).map(|source| source.path).collect();
    assert_eq!(places, ["cli/prescribe.rs", "cli/preview.rs"]);
}

/// Words that only a caution has. Each is written in one file, and every surface gets it from there.
const CAUTIONS: [(&str, &str); 6] = [
    ("come first", "plan/caution.rs"),
    ("prevent falls", "plan/caution.rs"),
    ("linician first about", "plan/caution.rs"),
    ("blood pressure condition", "plan/caution.rs"),
    ("Stop at once for", ""),
    ("not evidence of safety", "plan/drill.rs"),
];

#[test]
fn cautions_are_written_in_one_place() {
    let texts = |source: &Source| {
        let of_lines = source.text.split("#[cfg(test)]").next().unwrap_or_default().lines();
        let code = of_lines.map(str::trim_start).filter(|line| !line.starts_with("//"));
        code.collect::<Vec<_>>().join("\n")
    };
    let all: Vec<Source> = core().into_iter().chain(shell()).collect();
    for (words, place) in CAUTIONS {
        let found: Vec<&str> = all
            .iter()
            .filter(|source| texts(source).contains(words))
            .map(|source| source.path.as_str())
            .collect();
        let expected: &[&str] = if place.is_empty() { &[] } else { &[place] };
        assert_eq!(found, expected, "\"{words}\" is said elsewhere too, or nowhere");
    }
    // What is spoken is in one place as well.
    assert_eq!(include_str!("../sounds/phrases.toml").matches("Stop at once for chest pain").count(), 1);
}

/// What is practiced stays on this computer: nothing names a network, and no crate that brings one is asked for.
#[test]
fn nothing_leaves_the_machine() {
    let is_network = |name: &String| name.starts_with("std::net") || name.starts_with("std::os::unix::net");
    for Source { path, module, text } in core().iter().chain(&shell()) {
        let found: Vec<_> = Names::of(text, module).into_iter().filter(is_network).collect();
        assert!(found.is_empty(), "{path} names {found:?}");
    }
    let caught = Names::of("fn f() { std::net::TcpStream::connect(a); }", &["cli".to_owned()]);
    assert!(caught.iter().any(is_network), "{caught:?}");
    let mut asked_for = Vec::new();
    for manifest in [include_str!("../Cargo.toml"), include_str!("../core/Cargo.toml")] {
        let manifest: toml::Table = manifest.parse().unwrap();
        asked_for.extend(manifest["dependencies"].as_table().unwrap().keys().cloned());
    }
    assert!(asked_for.len() > 20);
    for network in ["reqwest", "ureq", "hyper", "curl", "tokio", "isahc", "attohttpc", "socket2", "mio"] {
        assert!(!asked_for.iter().any(|name| name == network), "{network}");
    }
}

/// A law that cannot be broken proves nothing: each way around it that is known is planted here.
#[test]
fn a_planted_violation_is_caught() {
    let module = ["draw", "schedule", "gaps"].map(str::to_owned);
    for planted in [
        "use std::fs;",
        "use std::{fmt, io::{self, Write}};",
        "use std as s;",
        "use std::time::*;",
        "use rand::rngs::SysRng;",
        "fn f() { let at = std::time::Instant::now(); }",
        "fn f() { let at = jiff::Zoned::now(); }",
        "fn f() { let at = clock.now(); }",
        "fn f() -> ::std::path::PathBuf { ::std::env::temp_dir() }",
        "fn f() { println!(\"x\"); }",
        "fn f() { assert!(std::thread::available_parallelism().is_ok()); }",
        "mod inner { fn f(x: impl Fn() -> std::process::ExitCode) {} }",
        "fn f<T: rusqlite::ToSql>(t: T) {}",
    ] {
        assert!(!outside(planted, &module).is_empty(), "not caught: {planted}");
    }
    for planted in [
        "use crate::practice::session::Event;",
        "use crate::{plan, practice};",
        "fn f() { crate::record::Entry::new(); }",
        "fn f() { super::super::super::course::past::none(); }",
        "use super::super::super::practice;",
        "fn f() { vec![crate::record::Entry] }",
    ] {
        assert!(!upward(planted, &module, "draw", below("draw")).is_empty(), "not caught: {planted}");
    }
}

/// The rooms below this one.
fn below(own: &str) -> &'static [&'static str] {
    &ROOMS[..ROOMS.iter().position(|room| *room == own).expect("it is a room")]
}

#[test]
fn what_is_allowed_is_not_caught() {
    let module = ["draw".to_owned(), "schedule".to_owned()];
    for free in [
        "use std::fmt; use std::collections::BTreeMap; use std::sync::LazyLock;",
        "use std::time::Duration;",
        "use rand::rngs::ChaCha12Rng;",
        "#[cfg(test)] mod tests { use std::fs; fn f() { println!(\"x\"); } }",
    ] {
        assert_eq!(outside(free, &module), Vec::<String>::new(), "{free}");
    }
    for free in [
        "use crate::plan::drill::Drill;",
        "use self::gaps::Table;",
        "fn f() { super::super::plan::drill::all(); }",
    ] {
        assert_eq!(upward(free, &module, "draw", below("draw")), Vec::<String>::new(), "{free}");
    }
}
