//! Has every number that decides about practice its origin, and does every reference value of a test name where it comes
//! from: a formula, a script or a source?

use std::fs;
use std::path::{Path, PathBuf};

use counterpoise_core::plan::prescription::Prescription;
use syn::visit::{self, Visit};

/// How sure an origin is.
const TAGS: [&str; 6] = ["judgment", "read", "derived", "second-hand", "memory", "common practice"];

/// Where numbers decide about practice: what is clean, one session, the gate, the partner, the drills.
const DECIDING: [&str; 10] = [
    "core/src/course/progression/judge.rs",
    "core/src/practice/session.rs",
    "core/src/practice/session",
    "core/src/plan/prescription/gate.rs",
    "core/src/plan/prescription/gate",
    "core/src/plan/prescription/limits.rs",
    "core/src/record/partner.rs",
    "core/src/plan/drill.rs",
    "core/src/plan/drill",
    "core/src/plan/gaps.rs",
];

/// Constants whose number is no value of practice.
const NOT_A_VALUE: [(&str, &str); 2] = [
    ("GENTLEST", "the first number of a scale whose words say what it is"),
    ("FIRST_WEIGHT", "the scale of the weights of a table, of which only the ratios matter"),
];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The files of a place, tests left out.
fn files(place: &Path) -> Vec<PathBuf> {
    if place.is_file() {
        return vec![place.to_owned()];
    }
    let inside = fs::read_dir(place).unwrap().map(|entry| entry.unwrap().path());
    inside
        .filter(|path| !path.ends_with("test") && !path.ends_with("test.rs"))
        .flat_map(|path| files(&path))
        .collect()
}

/// The text of a line of documentation.
fn text_of(attribute: &syn::Attribute) -> String {
    match &attribute.meta {
        syn::Meta::NameValue(line) if line.path.is_ident("doc") => match &line.value {
            syn::Expr::Lit(syn::ExprLit { lit: syn::Lit::Str(text), .. }) => text.value(),
            _ => String::new(),
        },
        _ => String::new(),
    }
}

/// Whether a value has numbers and no words.
#[derive(Default)]
struct Numbers {
    numbers: bool,
    words: bool,
}

impl<'ast> Visit<'ast> for Numbers {
    fn visit_lit(&mut self, literal: &'ast syn::Lit) {
        self.numbers |= matches!(literal, syn::Lit::Int(_) | syn::Lit::Float(_));
        self.words |= matches!(literal, syn::Lit::Str(_) | syn::Lit::Char(_));
    }
}

/// Constants that are numbers and whose comment has no tag.
#[derive(Default)]
struct Untagged {
    found: Vec<String>,
    seen: usize,
}

impl Untagged {
    fn look(&mut self, name: &syn::Ident, value: &syn::Expr, attributes: &[syn::Attribute]) {
        let mut literals = Numbers::default();
        literals.visit_expr(value);
        if name == "_" || literals.words || !literals.numbers {
            return;
        }
        self.seen += 1;
        let said: String = attributes.iter().map(text_of).collect();
        if !TAGS.iter().any(|tag| said.contains(tag)) && NOT_A_VALUE.iter().all(|(other, _)| name != other) {
            self.found.push(name.to_string());
        }
    }
}

impl<'ast> Visit<'ast> for Untagged {
    fn visit_item_const(&mut self, item: &'ast syn::ItemConst) {
        self.look(&item.ident, &item.expr, &item.attrs);
    }

    fn visit_impl_item_const(&mut self, item: &'ast syn::ImplItemConst) {
        self.look(&item.ident, &item.expr, &item.attrs);
    }

    fn visit_item_mod(&mut self, item: &'ast syn::ItemMod) {
        if !item.attrs.iter().any(|attribute| attribute.path().is_ident("cfg")) {
            visit::visit_item_mod(self, item);
        }
    }
}

#[test]
fn every_number_that_decides_about_practice_has_its_origin() {
    let planted = "/// How long.\nconst LONG: Millis = Millis(3_000);\n/// How long \\[judgment\\].\nconst OTHER: u8 = 3;";
    let mut untagged = Untagged::default();
    untagged.visit_file(&syn::parse_file(planted).unwrap());
    assert_eq!((untagged.found.len(), untagged.seen), (1, 2), "{:?}", untagged.found);
    let mut seen = 0;
    for place in DECIDING {
        for file in files(&root().join(place)) {
            let mut untagged = Untagged::default();
            untagged.visit_file(&syn::parse_file(&fs::read_to_string(&file).unwrap()).unwrap());
            assert!(untagged.found.is_empty(), "{}: {:?}", file.display(), untagged.found);
            seen += untagged.seen;
        }
    }
    assert!(seen > 40, "{seen} constants");
}

/// The fields of the ready prescriptions whose values are numbers or choices, and the table in which each has its origin.
#[test]
fn every_value_of_a_ready_prescription_has_its_origin() {
    let page = fs::read_to_string(root().join("docs/prescription.md")).unwrap();
    let table = page.split("### Where the values of the ready ones come from").nth(1).expect("the table");
    let table = table.split("\n#").next().unwrap();
    let rows: Vec<&str> = table.lines().filter(|line| line.starts_with("| `")).collect();
    let words = ["schema", "title", "issued_by", "issued_on", "drill", "form"];
    for (name, _) in Prescription::all_ready() {
        let text = fs::read_to_string(root().join(format!("presets/prescriptions/{name}.toml"))).unwrap();
        for field in text.lines().filter_map(|line| line.split_once(" = ")).map(|(field, _)| field.trim()) {
            if words.contains(&field) || field.starts_with('#') {
                continue;
            }
            let row = rows.iter().find(|row| row.contains(&format!("`{field}`")));
            let row = row.unwrap_or_else(|| panic!("{name}: `{field}` is not in the table"));
            assert!(TAGS.iter().any(|tag| row.contains(tag)), "no origin: {row}");
        }
    }
}

/// "The notes" are nowhere: a reader must find what a value is compared with.
#[test]
fn a_test_names_a_formula_a_script_or_a_source() {
    let mut waiting = vec![root().join("core/src"), root().join("src"), root().join("tests")];
    let mut seen = 0;
    while let Some(path) = waiting.pop() {
        if path.is_dir() {
            waiting.extend(fs::read_dir(&path).unwrap().map(|entry| entry.unwrap().path()));
        } else if path.extension().is_some_and(|ending| ending == "rs") && !path.ends_with("evidence.rs") {
            let text = fs::read_to_string(&path).unwrap();
            for words in ["project's notes", "the notes say", "notes_say", "as the notes"] {
                assert!(!text.contains(words), "{}: \"{words}\"", path.display());
            }
            seen += 1;
        }
    }
    assert!(seen > 200, "{seen} files");
    let script = fs::read_to_string(root().join("scripts/reference.py")).unwrap();
    for test in ["covered/test.rs", "order/test.rs", "gap_draw/test.rs"] {
        let text = fs::read_to_string(root().join("core/src/draw/schedule").join(test)).unwrap();
        assert!(text.contains("scripts/reference.py") && script.contains(test), "{test}");
    }
}
