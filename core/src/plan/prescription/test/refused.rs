//! Every refusal: its line, its words and its hint.

use super::super::{Prescription, Refusal, limits};
use super::{WHOLE, changed, read};

fn refused(text: &str) -> (Option<usize>, String, String) {
    let refusal = read(text).unwrap_err();
    assert_eq!(refusal.file(), "balance.toml");
    (refusal.line(), refusal.fact(), refusal.hint())
}

/// `from` is replaced by `to` in `WHOLE`; the refusal must name this line, these words and a hint with this in it.
#[track_caller]
fn refuses(from: &str, to: &str, line: usize, fact: &str, hint: &str) {
    let (found_line, found, advice) = refused(&changed(from, to));
    assert_eq!(found, fact);
    assert_eq!(found_line, Some(line), "{found}");
    assert!(advice.contains(hint), "{advice}");
}

#[test]
fn the_place_follows_the_fact() {
    let refusal = read(&changed("rest_ms = 70000", "rest_ms = 4000")).unwrap_err();
    assert_eq!(
        refusal.to_string(),
        "`rest_ms` is 4000 (4 s); the least is 45000 (45 s) (balance.toml, line 8)"
    );
    assert_eq!(
        refusal.hint(),
        "Every set is followed by a rest with a chair at hand; 60 s (60000) is usual."
    );
    let refusal = Prescription::read("no.toml", b"").unwrap_err();
    assert_eq!(refusal.to_string(), "the file is empty (no.toml)");
}

#[test]
fn files_that_are_no_prescription() {
    let bytes = |bytes: &[u8]| -> Refusal { Prescription::read("x.toml", bytes).unwrap_err() };
    for nothing in ["", "\n\n", "# only a comment\n", "\u{feff}"] {
        assert_eq!(bytes(nothing.as_bytes()).fact(), "the file is empty");
    }
    let text = bytes(b"title = \"x\"\nissued_by = \"\xff\"\n");
    assert_eq!(text.fact(), "the file is not UTF-8 text: byte 26 is not part of a character");
    assert_eq!(text.line(), Some(2));
    assert_eq!(text.hint(), "Save it as plain text in UTF-8.");

    let mut padded = WHOLE.as_bytes().to_vec();
    padded.resize(limits::FILE_BYTES, b'\n');
    assert!(Prescription::read("x.toml", &padded).is_ok(), "exactly 256 KiB");
    padded.push(b'\n');
    let large = bytes(&padded);
    assert_eq!(large.fact(), "the file has 262145 bytes; the most is 262144 (256 KiB)");
    assert_eq!(large.hint(), "A prescription is a page or two of text. Is this the right file?");

    let prose = bytes(b"schema = \"counterpoise.prescription/1\"\nThree times a week, please.\n");
    assert!(prose.fact().starts_with("the file is not valid TOML: "), "{prose}");
    assert_eq!(prose.line(), Some(2));
    assert!(prose.hint().contains("docs/prescription.md"));
}

#[test]
fn a_key_given_twice() {
    refuses("weeks = 9", "weeks = 9\nweeks = 10", 7, "`weeks` is given twice", "Keep one line with `weeks`");
    let twice = format!("{WHOLE}\n[limits]\neffort_at_most = 4\n");
    assert_eq!(refused(&twice).1, "`limits` is given twice");
}

#[test]
fn fields_that_are_unknown_or_missing() {
    refuses("gap_ms =", "gap =", 19, "`gap` is not a field of [[drills]]", "`gap_ms`");
    refuses("weeks = 9", "week = 9", 6, "`week` is not a field of the prescription", "`weeks`");
    refuses("partner = \"\"", "with = \"\"", 44, "`with` is not a field of [[unlocks]]", "`partner`");
    refuses("effort_at_most", "effort", 47, "`effort` is not a field of [limits]", "`effort_at_most`");
    refuses("sets = 2\n", "", 11, "`sets` is missing in [[drills]]", "Add it, for example: sets = 3");
    refuses(
        "gap_ms = [4500, 12500]\n",
        "",
        11,
        "`gap_ms` is missing in [[drills]]",
        "gap_ms = [5000, 15000]",
    );
    refuses("on = 2026-04-10\n", "", 40, "`on` is missing in [[unlocks]]", "on = 2026-11-02");
    for (from, name) in [
        ("schema = \"counterpoise.prescription/1\"\n", "schema"),
        ("title = \"Second month\"\n", "title"),
        ("issued_on = 2026-04-17\n", "issued_on"),
    ] {
        let (line, fact, hint) = refused(&changed(from, ""));
        assert_eq!((line, fact), (None, format!("`{name}` is missing in the prescription")));
        assert!(hint.starts_with(&format!("Add it, for example: {name} = ")), "{hint}");
    }
    let head = &WHOLE[..WHOLE.find("[[drills]]").unwrap()];
    assert_eq!(refused(head).1, "`drills` is missing in the prescription");
    assert_eq!(
        refused(&format!("{head}drills = []")),
        (
            Some(11),
            "`drills` is an empty list".into(),
            "Add a [[drills]] section; see docs/prescription.md.".into()
        )
    );
}

#[test]
fn values_of_another_kind() {
    let whole = "a whole number";
    refuses("sets = 2", "sets = \"2\"", 14, &format!("`sets` is \"2\"; it must be {whole}"), "sets = 3");
    refuses("sets = 2", "sets = nan", 14, &format!("`sets` is nan; it must be {whole}"), "sets = 3");
    refuses("sets = 2", "sets = -inf", 14, &format!("`sets` is -inf; it must be {whole}"), "sets = 3");
    refuses("sets = 2", "sets = 2.0", 14, &format!("`sets` is 2.0; it must be {whole}"), "sets = 3");
    refuses("55000", "5.5e4", 15, &format!("`work_ms` is 5.5e4; it must be {whole}"), "work_ms = 60000");
    refuses("sets = 2", "sets = true", 14, &format!("`sets` is true; it must be {whole}"), "sets = 3");
    refuses(
        "sets = 2",
        "sets = 99999999999999999999",
        14,
        "`sets` is 99999999999999999999 (far too large); it must be a whole number",
        "sets = 3",
    );
    let wholes = "a list of whole numbers";
    refuses("[4500, 12500]", "4500", 19, &format!("`gap_ms` is 4500; it must be {wholes}"), "[5000, 15000]");
    refuses(
        "[4500, 12500]",
        "[4500, inf]",
        19,
        &format!("`gap_ms` is [4500, inf]; it must be {wholes}"),
        "gap_ms = [5000, 15000]",
    );
    refuses(
        "[\"left\", \"right\", \"forward left\"]",
        "\"left\"",
        23,
        "`directions` is \"left\"; it must be a list of texts in quotation marks",
        "directions = [",
    );
    refuses("\"Second month\"", "3", 2, "`title` is 3; it must be text in quotation marks", "title = \"");
    for date in ["\"2026-04-17\"", "2026-04-17T10:00:00", "2026-04-17T10:00:00Z", "10:00:00"] {
        let fact = format!("`issued_on` is {date}; it must be a date");
        refuses("2026-04-17", date, 4, &fact, "issued_on = 2026-11-02");
    }
    refuses(
        "[[unlocks]]\nname = \"backward\"\nwatched_by = \"initials\"\non = 2026-04-10\npartner = \"\"\n",
        "[unlocks]\nname = \"backward\"\n",
        40,
        "`unlocks` is [unlocks]; it must be one or more sections",
        "[[unlocks]] on its own line",
    );
    let (_, fact, hint) =
        refused(&changed("weeks = 9", "weeks = 9\nlimits = 6").replace("[limits]\neffort_at_most = 5\n", ""));
    assert_eq!(fact, "`limits` is 6; it must be a section");
    assert_eq!(hint, "Write it like this: [limits] on its own line, with its fields below");
}

/// What is replaced, by what, on which line, the fact, and a part of the hint.
type Case = (&'static str, &'static str, usize, &'static str, &'static str);

const OUT_OF_RANGE: [Case; 20] = [
    (
        "days_a_week = 4",
        "days_a_week = 7",
        5,
        "`days_a_week` is 7; the most is 6",
        "One day a week stays free",
    ),
    ("days_a_week = 4", "days_a_week = 0", 5, "`days_a_week` is 0; the least is 1", "Three days are usual"),
    ("weeks = 9", "weeks = 53", 6, "`weeks` is 53; the most is 52", "Twelve weeks are usual"),
    (
        "review_after_sessions = 10",
        "review_after_sessions = 25",
        7,
        "`review_after_sessions` is 25; the most is 24",
        "after 12 sessions",
    ),
    (
        "rest_ms = 70000",
        "rest_ms = 44999",
        8,
        "`rest_ms` is 44999 (44.999 s); the least is 45000 (45 s)",
        "chair",
    ),
    ("sets = 2", "sets = 11", 14, "`sets` is 11; the most is 10", "Three to five are usual"),
    (
        "work_ms = 55000",
        "work_ms = 120001",
        15,
        "`work_ms` is 120001 (120.001 s); the most is 120000 (120 s)",
        "more sets",
    ),
    ("work_ms = 55000", "work_ms = -1", 15, "`work_ms` is -1 (-0.001 s); the least is 10000 (10 s)", "usual"),
    (
        "recover_ms = 6000",
        "recover_ms = 1999",
        16,
        "`recover_ms` is 1999 (1.999 s); the least is 2000 (2 s)",
        "5 s (5000) is usual",
    ),
    (
        "recover_ms = 6000",
        "recover_ms = 55001",
        16,
        "`recover_ms` is 55001 (55.001 s); the most is `work_ms`, 55000 (55 s)",
        "5 s (5000) is usual",
    ),
    (
        "rate_thousandths = 900",
        "rate_thousandths = 99",
        21,
        "`rate_thousandths` is 99; the least is 100",
        "1.25 (1250) is usual",
    ),
    (
        "blank_per_mille = 120",
        "blank_per_mille = 251",
        22,
        "`blank_per_mille` is 251 (25.1 %); the most is 250 (25 %)",
        "10 % (100) is usual",
    ),
    ("slack = 2", "slack = 4", 38, "`slack` is 4; the most is 3", "1 is usual"),
    ("[2, 2, 1]", "[2, 0, 1]", 24, "`weights` is 0; the least is 1", "Leave a direction out"),
    ("longest_streak = 3", "longest_streak = 4", 26, "`longest_streak` is 4; the most is 3", "pattern"),
    ("effort_at_most = 5", "effort_at_most = 7", 47, "`effort_at_most` is 7; the most is 6", "only lower it"),
    (
        "step = 1",
        "step = 6",
        17,
        "`step` is 6; the ladder of \"counter-shift\" has 5 steps",
        "counted from 1",
    ),
    (
        "step = 1",
        "step = 0",
        17,
        "`step` is 0; the ladder of \"counter-shift\" has 5 steps",
        "counted from 1",
    ),
    (
        "ceiling = 4",
        "ceiling = 6",
        18,
        "`ceiling` is 6; the ladder of \"counter-shift\" has 5 steps",
        "counted from 1",
    ),
    (
        "step = 2\nceiling = 5",
        "step = 2\nceiling = 1",
        33,
        "`ceiling` is 1, below `step`, which is 2",
        "`step` or above",
    ),
];

#[test]
fn numbers_outside_their_range() {
    for (from, to, line, fact, hint) in OUT_OF_RANGE {
        refuses(from, to, line, fact, hint);
    }
}

#[test]
fn gaps_that_cannot_be() {
    let gap = |to: &str, fact: &str, hint: &str| refuses("[4500, 12500]", to, 19, fact, hint);
    gap(
        "[4500]",
        "`gap_ms` has 1 numbers; it needs two, the shortest gap and the longest",
        "gap_ms = [5000, 15000]",
    );
    gap(
        "[]",
        "`gap_ms` has 0 numbers; it needs two, the shortest gap and the longest",
        "gap_ms = [5000, 15000]",
    );
    gap(
        "[15000, 5000]",
        "`gap_ms` is [15000, 5000]; the shortest gap must be below the longest",
        "shorter one first",
    );
    gap(
        "[3999, 12500]",
        "the shortest gap in `gap_ms` is 3999 (3.999 s); the least for \"shift\" is 4000 (4 s)",
        "2.2 s",
    );
    gap(
        "[4500, 60001]",
        "the longest gap in `gap_ms` is 60001 (60.001 s); the most is 60000 (60 s)",
        "15 s (15000) is usual",
    );
    gap(
        "[4500, 5499]",
        "the range of `gap_ms` is 999 (0.999 s) wide; the least is 1000 (1 s)",
        "easy to predict",
    );
    gap(
        "[24501, 30000]",
        "a gap of 24501 (24.501 s) is too long for the set: twice the shortest gap plus `recover_ms` is 55002 (55.002 s), but `work_ms` is only 55000 (55 s)",
        "at least two calls fit",
    );
    let (line, fact, hint) = refused(&changed("[4500, 12500]", "[24500, 30000]"));
    assert_eq!(line, Some(19));
    assert!(
        fact.ends_with(" of 100 sets would hold fewer than 2 calls and be drawn again; the most is 20"),
        "{fact}"
    );
    assert!(hint.contains("Make the set longer"), "{hint}");
}

/// 30 s sets at 12-40 s with 2 s to come back: 97.78 of 100 by a simulation with `SciPy` 1.17, standard error 0.02.
#[test]
fn moments_that_would_be_nearly_known_are_refused() {
    let text = changed("work_ms = 55000\nrecover_ms = 6000", "work_ms = 30000\nrecover_ms = 2000")
        .replace("[4500, 12500]", "[12000, 40000]")
        .replace("rate_thousandths = 900", "rate_thousandths = 1250")
        .replace("blank_per_mille = 120", "blank_per_mille = 100");
    assert_eq!(
        refused(&text).1,
        "97.7 of 100 sets would hold fewer than 2 calls and be drawn again; the most is 20"
    );
}

#[test]
fn directions_that_cannot_be() {
    let list = "[\"left\", \"right\", \"forward left\"]";
    let shifts = "\"left\", \"right\", \"forward\", \"forward left\", \"forward right\", \"up\"";
    refuses(list, "[]", 23, "`directions` is an empty list", "at least one direction");
    refuses(
        list,
        "[\"left\", \"North\", \"right\"]",
        23,
        &format!("`directions` is \"North\"; it can be {shifts}"),
        "spelled exactly as shown",
    );
    refuses(
        list,
        "[\"left\", \"back\", \"right\"]",
        23,
        &format!("`directions` lists \"back\"; \"counter-shift\" has {shifts}"),
        "choose another drill",
    );
    refuses(
        list,
        "[\"left\", \"right\", \"left\"]",
        23,
        "`directions` lists \"left\" twice",
        "give it a weight",
    );
    for unlock in ["pushes", "one-leg"] {
        refuses(
            "name = \"backward\"",
            &format!("name = \"{unlock}\""),
            36,
            "`directions` lists \"back\", which is locked: it goes behind the person",
            "name = \"backward\"",
        );
    }
    let diagonal = WHOLE.replace("\"back\", ", "").replace("name = \"backward\"", "name = \"surface\"");
    assert_eq!(
        refused(&diagonal).1,
        "`directions` lists \"back left\", which is locked: it goes behind the person"
    );
}

#[test]
fn weights_sequences_and_streaks_that_cannot_be() {
    refuses("[2, 2, 1]", "[2, 2]", 24, "`weights` has 2 numbers for 3 directions", "in the same order");
    refuses(
        "slack = 2",
        "slack = 2\nweights = [1, 1, 1, 1]",
        39,
        "`weights` is only allowed with sequence = \"open\"",
        "Delete the line with `weights`",
    );
    refuses(
        "slack = 2",
        "slack = 0",
        38,
        "`slack` is 0; the least is 1",
        "anybody who counts knows the last ones",
    );
    refuses(
        "sequence = \"open\"",
        "sequence = \"open\"\nslack = 1",
        26,
        "`slack` is only allowed with sequence = \"covered\"",
        "Delete the line with `slack`",
    );
    refuses(
        "shape = \"flat\"",
        "shape = \"even\"",
        21,
        "`rate_thousandths` is only allowed with shape = \"flat\"",
        "Delete the line with `rate_thousandths`",
    );
    let directions = |list: &str, streak: u32, sequence: &str| {
        changed("[\"left\", \"right\", \"forward left\"]", list)
            .replace("weights = [2, 2, 1]\n", "")
            .replace("sequence = \"open\"", &format!("sequence = \"{sequence}\""))
            .replace("longest_streak = 3", &format!("longest_streak = {streak}"))
    };
    let (line, fact, hint) = refused(&directions("[\"left\", \"right\"]", 2, "open"));
    assert_eq!(
        (line, fact.as_str()),
        (Some(25), "`longest_streak` is 2 with two directions; the least is 3")
    );
    assert!(hint.contains("67 of 100"), "{hint}");
    let (_, fact, hint) = refused(&directions("[\"left\", \"right\"]", 1, "open"));
    assert_eq!(
        fact,
        "`longest_streak` is 1 with two directions, which leaves no choice: they would simply alternate"
    );
    assert_eq!(hint, "Write 3, or list more directions.");
    let (_, fact, hint) = refused(&directions("[\"up\"]", 2, "open"));
    assert_eq!(fact, "`longest_streak` is 2, but only one direction is listed");
    assert_eq!(hint, "Delete the line, or list more directions.");
    let (line, fact, hint) = refused(&directions("[\"up\"]", 2, "covered"));
    assert_eq!(
        (line, fact.as_str()),
        (Some(24), "`sequence` is \"covered\", but only one direction is listed")
    );
    assert_eq!(hint, "Write sequence = \"open\", or list more directions.");
}

#[test]
fn words_that_are_not_among_those_allowed() {
    for (from, to, line, fact) in [
        ("\"drawn\"", "\"random\"", 9, "`order` is \"random\"; it can be \"as written\", \"drawn\""),
        (
            "drill = \"counter-shift\"",
            "drill = \"shift\"",
            12,
            "`drill` is \"shift\"; it can be \"counter-shift\", \"counter-reach\", \"steady-holds\", \"head-turns\", \
             \"slow-target\", \"following\", \"shoulder-looks\", \"combined-reaches\", \"quick-steps\", \
             \"fast-rises\", \"called-changes\", \"wall-throws\", \"catching\", \"counter-walk\", \
             \"floor-course\", \"moving-base\", \"pushes\", \"interrupted-walking\"",
        ),
        ("form = \"alone\"", "form = \"solo\"", 13, "`form` is \"solo\"; it can be \"alone\", \"partner\""),
        ("shape = \"flat\"", "shape = \"Flat\"", 20, "`shape` is \"Flat\"; it can be \"flat\", \"even\""),
        (
            "sequence = \"open\"",
            "sequence = \"shuffled\"",
            25,
            "`sequence` is \"shuffled\"; it can be \"open\", \"covered\"",
        ),
        (
            "name = \"backward\"",
            "name = \"back\"",
            41,
            "`name` is \"back\"; it can be \"pushes\", \"surface\", \"walking\", \"backward\", \"eyes-closed\", \"second-task\", \"one-leg\"",
        ),
    ] {
        refuses(from, to, line, fact, "spelled exactly as shown");
    }
    refuses(
        "prescription/1",
        "prescription/2",
        1,
        "`schema` is \"counterpoise.prescription/2\"; this version reads \"counterpoise.prescription/1\"",
        "Write: schema = \"counterpoise.prescription/1\"",
    );
    refuses(
        "form = \"alone\"",
        "form = \"partner\"",
        13,
        "`form` is \"partner\"; \"counter-shift\" is only offered as alone",
        "form = \"alone\"",
    );
    refuses(
        "longest_streak = 3",
        "longest_streak = 3\nstrength = [1, 1]",
        27,
        "`strength` is given, but \"counter-shift\" has no pushes",
        "Delete the line",
    );
    let word = refused(&changed("\"drawn\"", "\"\\u001b[2J\"")).1;
    assert_eq!(
        word, "`order` is \"\\u{1b}[2J\"; it can be \"as written\", \"drawn\"",
        "nothing reaches a terminal raw"
    );
}

#[test]
fn texts_that_cannot_be_shown() {
    refuses("\"Second month\"", "\"\"", 2, "`title` is empty", "title = \"At the counter\"");
    refuses("\"Second month\"", "\" \\t \"", 2, "`title` is empty", "title = ");
    let long = format!("\"{}\"", "a".repeat(81));
    refuses("\"Second month\"", &long, 2, "`title` has 81 characters; the most is 80", "Shorten it");
    refuses("\"Ward 4\"", &long, 3, "`issued_by` has 81 characters; the most is 80", "Shorten it");
    refuses(
        "\"Ward 4\"",
        "\"a\\u001b[2J\"",
        3,
        "`issued_by` contains a character that cannot be shown: '\\u{1b}'",
        "on one line",
    );
    refuses(
        "\"Second month\"",
        "\"a\\nb\"",
        2,
        "`title` contains a character that cannot be shown: '\\n'",
        "on one line",
    );
    refuses("\"initials\"", "\" \"", 42, "`watched_by` is empty", "watched_by = ");
    refuses(
        "partner = \"\"",
        "partner = \"\\u202e\"",
        44,
        "`partner` contains a character that cannot be shown: '\\u{202e}'",
        "letters",
    );
}

#[test]
fn sessions_that_are_too_long() {
    let (line, fact, hint) = refused(&changed("sets = 3\nwork_ms = 65000", "sets = 9\nwork_ms = 60000"));
    assert_eq!((line, fact.as_str()), (Some(28), "the session has 11 sets; the most is 10"));
    assert_eq!(hint, "Remove sets.");
    let (line, fact, hint) = refused(&changed("sets = 3\nwork_ms = 65000", "sets = 7\nwork_ms = 120000"));
    assert_eq!(
        (line, fact.as_str()),
        (Some(28), "the sets of a session add up to 950 s of work; the most is 840 s (14 min)")
    );
    assert_eq!(hint, "Remove sets or make them shorter.");
    let harder = changed("step = 1", "step = 3");
    let (_, fact, _) = refused(&harder.replace("sets = 3\nwork_ms = 65000", "sets = 8\nwork_ms = 60000"));
    assert_eq!(fact, "the session has 11 sets, with the built-in warm-up of 1 set of 60 s; the most is 10");
    let (_, fact, _) = refused(&harder.replace("sets = 3\nwork_ms = 65000", "sets = 7\nwork_ms = 120000"));
    assert_eq!(
        fact,
        "the sets of a session add up to 1010 s of work, with the built-in warm-up of 1 set of 60 s; the most is 840 s (14 min)"
    );
}

#[test]
fn unlocks_that_cannot_be() {
    refuses(
        "on = 2026-04-10",
        "on = 2026-04-18",
        43,
        "`on` is 2026-04-18, after `issued_on`, which is 2026-04-17",
        "Correct one of the two dates",
    );
    assert!(read(&changed("on = 2026-04-10", "on = 2026-04-17")).is_ok(), "the same day");
    refuses(
        "[limits]",
        "[[unlocks]]\nname = \"backward\"\nwatched_by = \"me\"\non = 2026-04-10\n\n[limits]",
        47,
        "`unlocks` lists \"backward\" twice",
        "List each one only once.",
    );
}

/// A section that accepts a topic, in the place of the limits of the whole file.
#[test]
fn topics_that_cannot_be_accepted() {
    let with = |topic: &str, when: &str| {
        format!("[[accepts]]\ntopic = \"{topic}\"\nwho = \"K. L.\"\nwhen = {when}\n\n[limits]")
    };
    let refused = |topic: &str, when: &str| {
        let text = WHOLE.replacen("[limits]", &with(topic, when), 1);
        let refusal = Prescription::read("x.toml", text.as_bytes()).unwrap_err();
        (refusal.fact(), refusal.hint(), text.lines().nth(refusal.line().unwrap() - 1).unwrap().to_owned())
    };
    for topic in
        ["chest pain", "blackouts", "dizziness", "fall that still hurts", "fall that makes it hard to walk"]
    {
        let (fact, hint, line) = refused(topic, "2026-04-10");
        assert_eq!(fact, format!("`topic` is \"{topic}\", which a prescription cannot accept"));
        assert!(hint.contains("counterpoise clear"), "{hint}");
        assert_eq!(line, format!("topic = \"{topic}\""));
    }
    let (_, hint, _) = refused("heart or blood pressure", "2026-04-10");
    assert!(hint.ends_with("\"heart trouble\", \"blood pressure\"."), "{hint}");
    let (_, hint, _) = refused("walking aid indoors", "2026-04-10");
    assert!(hint.contains("It locks nothing"), "{hint}");
    let (fact, hint, _) = refused("the heart", "2026-04-10");
    assert!(fact.starts_with("`topic` is \"the heart\"; it can be \"heart trouble\", "), "{fact}");
    assert!(!fact.contains("chest pain"), "{fact}");
    assert!(!hint.is_empty());
    let (fact, hint, line) = refused("stroke", "2026-04-18");
    assert_eq!(fact, "`when` is 2026-04-18, after `issued_on`, which is 2026-04-17");
    assert!(!hint.is_empty() && line == "when = 2026-04-18");
    let twice = WHOLE.replacen(
        "[limits]",
        &with("stroke", "2026-04-10").replace("[limits]", &with("stroke", "2026-04-11")),
        1,
    );
    let refusal = Prescription::read("x.toml", twice.as_bytes()).unwrap_err();
    assert_eq!(refusal.fact(), "`accepts` lists \"stroke\" twice");
    let nobody = WHOLE
        .replacen("[limits]", &with("stroke", "2026-04-10"), 1)
        .replace("issued_by = \"Ward 4\"", "issued_by = \" \"");
    let refusal = Prescription::read("x.toml", nobody.as_bytes()).unwrap_err();
    assert_eq!(refusal.fact(), "`accepts` is given, but `issued_by` is empty");
    let fine = WHOLE.replacen("[limits]", &with("stroke", "2026-04-17"), 1);
    assert_eq!(Prescription::read("x.toml", fine.as_bytes()).unwrap().accepts().len(), 1);
}
