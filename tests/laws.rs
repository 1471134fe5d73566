//! The laws of the layout, checked on the source itself: the core touches nothing outside, nothing points up, and
//! each outside thing has its one place. Every path in every file is looked at, not only `use` lines; what stands under
//! `#[cfg(test)]` is free.

use std::fs;
use std::path::{Path, PathBuf};

use syn::visit::{self, Visit};

/// The core, and for each module those that it may name. Whoever is named here is below.
const CORE: [(&str, &[&str]); 28] = [
    ("caution", &[]),
    ("words", &[]),
    ("page", &[]),
    ("millis", &[]),
    ("direction", &["words"]),
    ("phrase", &[]),
    ("routine", &["millis", "phrase"]),
    ("drill", &["direction", "millis", "phrase", "words"]),
    ("place", &["direction", "drill", "phrase", "words"]),
    // `schedule::count` is exact arithmetic on a plan's numbers: the gate refuses a set that would be drawn anew too
    // often, and the explanation tells how many calls to expect. It draws nothing. Nothing else of the schedule.
    ("prescription", &["caution", "direction", "drill", "millis", "phrase", "schedule::count"]),
    ("schedule", &["direction", "drill", "millis", "phrase", "place", "prescription"]),
    (
        "record",
        &[
            "direction",
            "drill",
            "millis",
            "phrase",
            "place",
            "prescription",
            "readiness",
            "schedule",
            "words",
        ],
    ),
    (
        "predictability",
        &["direction", "drill", "millis", "page", "phrase", "prescription", "schedule", "words"],
    ),
    ("prescribing", &["drill", "predictability", "prescription", "schedule"]),
    (
        "session",
        &[
            "caution",
            "direction",
            "drill",
            "millis",
            "phrase",
            "place",
            "prescription",
            "lock",
            "readiness",
            "record",
            "routine",
            "schedule",
            "standing",
        ],
    ),
    ("standing", &["drill", "phrase", "schedule"]),
    ("lock", &["words"]),
    ("readiness", &["lock", "words"]),
    ("assessment", &["words"]),
    ("bounds", &["drill"]),
    ("guide", &["assessment", "millis", "phrase", "readiness", "session"]),
    ("suitability", &["bounds", "words"]),
    ("past", &["drill", "lock", "prescription", "readiness", "record"]),
    ("program", &["past", "prescription"]),
    ("progress", &["drill", "past", "prescription", "program", "progression"]),
    ("overview", &["page", "past", "prescription", "program", "progression", "record", "words"]),
    (
        "report",
        &[
            "assessment",
            "direction",
            "drill",
            "page",
            "past",
            "predictability::Interval",
            "prescription",
            "program",
            "progression",
            "readiness",
            "record",
            "words",
        ],
    ),
    (
        "progression",
        &["bounds", "drill", "lock", "past", "prescription", "program", "readiness", "record", "suitability"],
    ),
];

/// A track is a plan: values in, values out, counted in frames.
const TRACK: (&str, &[&str]) = (
    "track",
    &[
        "caution",
        "drill",
        "millis",
        "phrase",
        "placing",
        "prescription",
        "schedule",
        "standing",
        "audio::Frame",
        "audio::Frames",
        "audio::SampleRate",
    ],
);

/// Which sound of a cue belongs on which frame: values in, values out, counted in frames.
const PLACING: (&str, &[&str]) = (
    "placing",
    &["drill", "millis", "phrase", "place", "schedule", "audio::Frame", "audio::Frames", "audio::SampleRate"],
);

/// Sound knows lengths, not meanings.
const SOUND: (&str, &[&str]) = ("audio", &["millis"]);

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

/// Each outside thing, and the only places that name it.
const PLACES: [(&str, &[&str]); 8] = [
    ("cpal", &["audio/device.rs", "audio/supervisor.rs"]),
    ("hound", &["audio/wav.rs"]),
    ("rodio", &["audio/decode.rs"]),
    ("rusqlite", &["journal.rs", "journal/"]),
    // A seed, and the id of a session, which must not tell the seed.
    ("rand::rngs::SysRng", &["entropy.rs", "journal/row.rs"]),
    ("ratatui", &["display.rs", "display/"]),
    ("plotters", &["display/svg.rs"]),
    ("sysinfo", &["handover.rs"]),
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

/// What in a file of `own` points at a module that it may not name.
fn upward(source: &str, module: &[String], own: &str, below: &[&str]) -> Vec<String> {
    let allowed = |name: &String| {
        let Some(inner) = name.strip_prefix("crate::").or_else(|| name.strip_prefix("counterpoise::")) else {
            return true;
        };
        [&[own], below].concat().iter().any(|free| {
            inner.strip_prefix(free).is_some_and(|rest| rest.is_empty() || rest.starts_with("::"))
        })
    };
    Names::of(source, module).into_iter().filter(|name| !allowed(name)).collect()
}

/// Every source file but tests: its path from `src`, its module, its text.
fn sources() -> Vec<(String, Vec<String>, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
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
            (format!("{}.rs", module.join("/")), module, text)
        })
        .filter(|(_, module, _)| !module.iter().any(|part| part == "test" || part == "sample"))
        .collect();
    sources.sort();
    sources
}

fn of_module<'a>(
    sources: &'a [(String, Vec<String>, String)],
    own: &'a str,
) -> impl Iterator<Item = &'a (String, Vec<String>, String)> {
    let mut files = sources.iter().filter(move |(_, module, _)| module[0] == own).peekable();
    assert!(files.peek().is_some(), "there is no module {own}: the law is about nothing");
    files
}

#[test]
fn the_core_touches_no_terminal_clock_file_environment_entropy_or_thread() {
    let sources = sources();
    for (own, _) in CORE.iter().chain([&TRACK, &PLACING]) {
        for (path, module, text) in of_module(&sources, own) {
            let found = outside(text, module);
            assert!(found.is_empty(), "{path} names {found:?}");
        }
    }
}

#[test]
fn nothing_in_the_core_points_up_and_sound_knows_no_meanings() {
    let sources = sources();
    for (own, below) in CORE.iter().chain([&TRACK, &PLACING, &SOUND]) {
        for (path, module, text) in of_module(&sources, own) {
            let found = upward(text, module, own, below);
            assert!(found.is_empty(), "{path} points at {found:?}");
        }
    }
}

#[test]
fn each_outside_thing_has_its_one_place() {
    let sources = sources();
    for (thing, places) in PLACES {
        for (path, module, text) in &sources {
            if !places.iter().any(|place| path.starts_with(place)) {
                let named = |name: &String| {
                    name.strip_prefix(thing).is_some_and(|rest| rest.is_empty() || rest.starts_with("::"))
                };
                let found: Vec<_> = Names::of(text, module).into_iter().filter(named).collect();
                assert!(found.is_empty(), "{path} names {found:?}, which belongs to {places:?}");
            }
        }
    }
}

/// What is practiced stays on this computer: nothing names a network, and no crate that brings one is asked for.
#[test]
fn nothing_leaves_the_machine() {
    let is_network = |name: &String| name.starts_with("std::net") || name.starts_with("std::os::unix::net");
    for (path, module, text) in &sources() {
        let found: Vec<_> = Names::of(text, module).into_iter().filter(is_network).collect();
        assert!(found.is_empty(), "{path} names {found:?}");
    }
    let caught = Names::of("fn f() { std::net::TcpStream::connect(a); }", &["cli".to_owned()]);
    assert!(caught.iter().any(is_network), "{caught:?}");
    let manifest: toml::Table = include_str!("../Cargo.toml").parse().unwrap();
    let asked_for: Vec<&String> = manifest["dependencies"].as_table().unwrap().keys().collect();
    assert!(asked_for.len() > 20);
    for network in ["reqwest", "ureq", "hyper", "curl", "tokio", "isahc", "attohttpc", "socket2", "mio"] {
        assert!(!asked_for.iter().any(|name| *name == network), "{network}");
    }
}

/// A law that cannot be broken proves nothing: each way around it that is known is planted here.
#[test]
fn a_planted_violation_is_caught() {
    let module = ["schedule".to_owned(), "gaps".to_owned()];
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
        "use crate::session::Event;",
        "use crate::{drill, session};",
        "fn f() { crate::journal::Folder::find(None); }",
        "fn f() { super::super::audio::tone::alert(rate); }",
        "use super::super::session;",
        "fn f() { vec![crate::record::Entry] }",
    ] {
        let below = CORE.iter().find(|(own, _)| *own == "schedule").unwrap().1;
        assert!(!upward(planted, &module, "schedule", below).is_empty(), "not caught: {planted}");
    }
    let gate = ["prescription".to_owned(), "gate".to_owned()];
    let below = CORE.iter().find(|(own, _)| *own == "prescription").unwrap().1;
    assert!(
        upward("use crate::schedule::count::redraw_and_counts;", &gate, "prescription", below).is_empty()
    );
    assert!(!upward("use crate::schedule::Schedule;", &gate, "prescription", below).is_empty());
}

#[test]
fn what_is_allowed_is_not_caught() {
    let module = ["schedule".to_owned()];
    for free in [
        "use std::fmt; use std::collections::BTreeMap; use std::sync::LazyLock;",
        "use std::time::Duration;",
        "use rand::rngs::ChaCha12Rng;",
        "#[cfg(test)] mod tests { use std::fs; fn f() { println!(\"x\"); } }",
    ] {
        assert_eq!(outside(free, &module), Vec::<String>::new(), "{free}");
    }
    let below = CORE.iter().find(|(own, _)| *own == "schedule").unwrap().1;
    for free in
        ["use crate::drill::Drill;", "use self::gaps::Table;", "fn f() { super::prescription::read(); }"]
    {
        assert_eq!(upward(free, &module, "schedule", below), Vec::<String>::new(), "{free}");
    }
}
