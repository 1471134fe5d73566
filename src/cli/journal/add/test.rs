//! What is typed in stands on its day, at the steps of its sheet, and makes practice no freer than it was.

use jiff::civil::date;
use jiff::{SignedDuration, ZonedDateTime};
use tempfile::tempdir;

use super::{Form, standing};
use crate::journal::{Folder, Journal};
use counterpoise_core::course::program::moment;
use counterpoise_core::course::progression::{Barriers, Decision};
use counterpoise_core::health::lock::{HOLD, Hold};
use counterpoise_core::plan::prescription::Prescription;
use counterpoise_core::record::SessionRecord;
use counterpoise_core::record::Ticked;

/// Friday, in New York.
fn now() -> ZonedDateTime {
    "2026-11-27T09:30:00-05:00[America/New_York]".parse().unwrap()
}

/// One set of shifts and two of reaches, each done whole and easy; no fall, not unwell, keep it.
const EASY: &str = "d\nn\n0\n4\n2\nd\nn\n0\n4\n2\nd\nn\n0\n4\n2\nn\nn\ny\n";

struct Place {
    _folder: tempfile::TempDir,
    folder: Folder,
    journal: Journal,
}

impl Place {
    fn new() -> Self {
        let place = tempdir().unwrap();
        let folder = Folder::open_in(place.path()).unwrap();
        let journal = Journal::open(folder.lock().unwrap()).unwrap().0;
        Self { _folder: place, folder, journal }
    }

    /// What a terminal shows, and what was typed in or why not.
    fn ask(&self, typed: &str) -> (String, Result<Ticked, String>) {
        let mut shown = Vec::new();
        let mut form =
            Form::over(typed.as_bytes(), &mut shown, false, "nothing was saved", "counterpoise journal add");
        let ticked = form.practice(&self.journal, &self.folder, &now());
        let shown = String::from_utf8(shown).unwrap();
        assert!(shown.lines().all(|line| line.chars().count() <= 80), "{shown}");
        let flat = shown.split_whitespace().collect::<Vec<_>>().join(" ");
        (flat, ticked.map(|(_, ticked)| ticked).map_err(|failure| failure.fact().to_owned()))
    }

    fn keep(&mut self, typed: &str) -> (String, SessionRecord) {
        let (shown, ticked) = self.ask(typed);
        let id = crate::entropy::id().unwrap();
        self.journal.keep_ticked(id, &ticked.unwrap_or_else(|fact| panic!("{fact}: {shown}"))).unwrap();
        (shown, self.journal.find(&id.to_string()).unwrap())
    }

    fn refused(&self, typed: &str) -> (String, String) {
        let (shown, ticked) = self.ask(typed);
        (shown, ticked.unwrap_err())
    }

    fn past(&self) -> counterpoise_core::course::past::Past {
        self.journal.trainee().unwrap().past
    }
}

fn steps(session: &SessionRecord) -> Vec<u8> {
    session.sets.iter().map(|set| set.start.step).collect()
}

fn given(session: &SessionRecord) -> Vec<u8> {
    session.decided.as_ref().unwrap().given.iter().map(|given| given.step).collect()
}

#[test]
fn a_day_is_enough_and_a_hold_counts_from_its_last_moment() {
    let mut place = Place::new();
    // The day before yesterday, with a fall that did not hurt in the last set.
    let (_, fell) = place.keep(&format!("2\n{}y\nn\nn\ny\n", EASY.trim_end_matches("n\nn\ny\n")));
    assert_eq!(fell.start.begun.text(), "2026-11-25T23:59:59.999-05:00[America/New_York]");
    let past = place.past();
    let end = past.sessions[0].known();
    let held = |at| {
        Barriers::of(&past, at, date(2026, 11, 27)).holds.iter().map(|hold| hold.what).collect::<Vec<_>>()
    };
    assert_eq!(held(end + HOLD - SignedDuration::from_millis(1)), [Hold::Fall]);
    assert!(held(end + HOLD).is_empty());
    // Of this day it is now: it can have been no later.
    let (_, today) = place.keep(&format!("t\n{EASY}"));
    assert_eq!(today.start.begun.text(), "2026-11-27T09:30:00-05:00[America/New_York]");
    assert!(!place.past().sessions[1].may_be_finished());
}

#[test]
fn a_day_has_come_is_not_long_ago_and_has_no_practice_yet() {
    let mut place = Place::new();
    for (typed, said) in [
        ("2026-11-28\n", "2026-11-28 is in the future: today is 2026-11-27"),
        ("2025-11-25\n", "2025-11-25 is more than a year ago"),
        ("0226-11-25\n", "more than a year ago"),
        ("0\n", "\"0\" is not a day"),
        ("367\n", "\"367\" is not a day"),
        ("yesterday\n", "\"yesterday\" is not a day"),
        ("2026-02-30\n", "\"2026-02-30\" is not a day"),
        ("2026-10-26\nn\n", "That is Monday, 2026-10-26, 32 days ago. Is that right?"),
    ] {
        let (shown, fact) = place.refused(typed);
        assert!(shown.contains(said), "{typed:?}: {shown}");
        assert_eq!(fact, "not every question was answered, and nothing was saved");
    }
    let (shown, session) = place.keep(&format!("31\n{EASY}"));
    assert!(!shown.contains("Is that right") && session.start.begun.text().starts_with("2026-10-27"));
    assert!(shown.contains("Save it as the practice of Tuesday, 2026-10-27?"), "{shown}");
    let (_, session) = place.keep(&format!("2025-11-26\ny\n{EASY}"));
    assert!(session.start.begun.text().starts_with("2025-11-26"), "a year ago to the day");
    // A day with a practice: the same, or another.
    let (shown, fact) = place.refused("31\ns\n");
    assert!(shown.contains("already has a practice: 3 of 3 sets completed, typed in by hand"), "{shown}");
    assert_eq!(fact, "2026-10-27 already has that practice, so nothing was saved");
    place.keep(&format!("31\na\n{EASY}"));
    let past = place.past();
    assert_eq!(past.sittings().iter().filter(|one| one.day() == date(2026, 10, 27)).count(), 2);
    let gentle = Prescription::ready("gentle").unwrap();
    let then = moment(Some(date(2026, 10, 29)), &now());
    let next = standing::known(&place.journal).unwrap().before(date(2026, 10, 29)).next(gentle, &then);
    assert_eq!(next.decision, Decision::Hold, "two of one day are no two clean sessions");
}

#[test]
fn the_steps_are_those_of_the_sheet_and_never_above_what_was_allowed_then() {
    let mut place = Place::new();
    // Two clean days lead to step 2 of the reaches; what is typed in later of a day before them knows nothing of that.
    for day in ["2026-11-16", "2026-11-18"] {
        let (shown, session) = place.keep(&format!("{day}\n{EASY}"));
        assert!(!shown.contains("Does it?"), "{shown}");
        assert_eq!(steps(&session), [1, 1, 1]);
    }
    let (_, before) = place.keep(&format!("2026-11-14\n{EASY}"));
    assert_eq!(steps(&before), [1, 1, 1]);
    // The sheet of Friday has step 2.
    let (shown, up) = place.keep(&format!("2026-11-20\ny\n{EASY}"));
    assert!(
        shown.contains("should say: Reaches at the counter: stand with the counter ahead, feet together"),
        "{shown}"
    );
    assert_eq!((steps(&up), given(&up)), (vec![1, 2, 2], vec![1, 2]));
    // One that was printed before it went up still has step 1, which is no gentler choice.
    let (_, early) = place.keep(&format!("2026-11-23\nn\n1\n{EASY}"));
    assert_eq!((steps(&early), given(&early)), (vec![1, 1, 1], vec![1, 1]));
    // Nothing harder than any sheet of that week could have.
    let (shown, _) = place.refused("2026-11-25\nn\n3\n");
    assert!(shown.contains("\"3\" is not a whole number from 1 to 2"), "{shown}");
}

#[test]
fn after_a_step_down_a_sheet_from_before_it_is_kept_as_it_was_and_it_goes_on_from_the_lower() {
    let mut place = Place::new();
    for typed in ["2026-11-16\n", "2026-11-18\n", "2026-11-20\ny\n"] {
        // The last one was far too hard.
        let effort =
            if typed.ends_with("y\n") { EASY.replacen("0\n4\n", "0\n9\n", 3) } else { EASY.to_owned() };
        place.keep(&format!("{typed}{effort}"));
    }
    // On the 23rd a new sheet would have step 1, but that of the 20th has step 2.
    let (shown, kept) = place.keep(&format!("2026-11-23\nn\n2\n{EASY}"));
    assert!(
        shown.contains("should say: Reaches at the counter: stand with the counter ahead, feet apart"),
        "{shown}"
    );
    assert_eq!((steps(&kept), given(&kept)), (vec![1, 2, 2], vec![1, 1]));
    let next = standing::known(&place.journal).unwrap().next(Prescription::ready("gentle").unwrap(), &now());
    assert_eq!(next.steps, [Some(1), Some(1)]);
}

#[test]
fn the_prescription_is_that_of_the_sheet() {
    let mut place = Place::new();
    let typical = Prescription::ready_text("typical").unwrap();
    let own = typical.replace("Usual practice", "For Ada");
    for (text, day) in [(typical, "2026-11-02"), (&own, "2026-11-24")] {
        let at = format!("{day}T08:00:00-05:00[America/New_York]").parse().unwrap();
        place.journal.adopt(text.as_bytes(), "file", &at).unwrap();
    }
    let title = |typed: &str| {
        let (shown, _) = place.ask(typed);
        let line = shown.find("Which title is on the sheet").map(|_| ());
        (line.is_some(), shown)
    };
    // Of one week ago there is no doubt, nor of a day long before either came into use.
    for day in ["2026-11-10", "2026-11-23", "2026-10-31"] {
        let (asked, shown) = title(&format!("{day}\n"));
        assert!(!asked && shown.contains("Set 1,"), "{day}: {shown}");
    }
    let (asked, shown) = title("2026-11-26\n");
    assert!(
        asked && shown.contains("1 For Ada at the counter, of") && shown.contains("2 Usual practice"),
        "{shown}"
    );
    assert!(title("2026-11-02\n").1.contains("Gentle start at the counter"), "the ready one, until then");
    for (number, name) in [("1", "For Ada at the counter"), ("2", "Usual practice at the counter")] {
        // Both have more sets than are typed here: what was chosen is seen before.
        let (shown, fact) = place.refused(&format!("2026-11-26\n{number}\n"));
        assert!(shown.contains("Set 1,") && fact.contains("not every question"), "{name}");
    }
    // One that is gone is not guessed.
    for entry in std::fs::read_dir(place.folder.path()).unwrap().flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        if name.starts_with("prescription-") {
            std::fs::remove_file(entry.path()).unwrap();
        }
    }
    // The ready one is known by its digest all the same.
    assert!(title("2026-11-10\n").1.contains("Set 1,"));
    let other = own.replace("For Ada", "For Ben");
    let at = "2026-11-26T08:00:00-05:00[America/New_York]".parse().unwrap();
    place.journal.adopt(other.as_bytes(), "file", &at).unwrap();
    for entry in std::fs::read_dir(place.folder.path()).unwrap().flatten() {
        if entry.file_name().to_string_lossy().starts_with("prescription-") {
            std::fs::remove_file(entry.path()).unwrap();
        }
    }
    let (shown, _) = place.refused("2026-11-25\n");
    assert!(
        shown.contains("1 Usual practice at the counter, of") && shown.contains("2 another title"),
        "{shown}"
    );
    let (shown, fact) = place.refused("2026-11-25\n2\n");
    assert!(!shown.contains("Set 1,") && fact.contains("is no longer on this computer"), "{fact}: {shown}");
    // It is put back under any name of that kind.
    std::fs::write(place.folder.path().join("prescription-earlier.toml"), &own).unwrap();
    let (shown, _) = place.refused("2026-11-25\n1\n");
    assert!(
        shown.contains("1 For Ada") && !shown.contains("another title") && shown.contains("Set 1,"),
        "{shown}"
    );
}

#[test]
fn what_a_partner_does_is_on_no_track() {
    let mut place = Place::new();
    let text = Prescription::ready_text("with-a-partner").unwrap();
    let prescription = Prescription::ready("with-a-partner").unwrap();
    let partner = |one: &Prescription| {
        one.drills()
            .iter()
            .filter(|plan| plan.form() == counterpoise_core::plan::drill::Form::Partner)
            .count()
    };
    assert!(partner(prescription) > 0);
    place.journal.adopt(text.as_bytes(), "file", &"2026-11-02T08:00:00Z[UTC]".parse().unwrap()).unwrap();
    let alone: u8 = prescription
        .drills()
        .iter()
        .filter(|plan| plan.form() == counterpoise_core::plan::drill::Form::Alone)
        .map(counterpoise_core::plan::prescription::DrillPlan::sets)
        .sum();
    let ticks = "d\nn\n0\n4\n2\n".repeat(usize::from(alone));
    let (shown, kept) = place.keep(&format!("1\n{ticks}n\nn\ny\n"));
    assert!(shown.contains("Sets with a partner are left out"), "{shown}");
    assert_eq!(kept.sets.len(), usize::from(alone));
    // A practice without its sets with a partner is no whole one, and leads to no step up.
    let past = place.past();
    assert!(!counterpoise_core::course::progression::judge(&past.sittings()[0], prescription).is_clean());
}

#[test]
fn where_the_order_is_drawn_it_is_asked_by_the_exercise_and_not_by_a_number() {
    let mut place = Place::new();
    let (name, drawn) = Prescription::all_ready()
        .iter()
        .find(|(_, one)| {
            let alone =
                one.drills().iter().all(|plan| plan.form() == counterpoise_core::plan::drill::Form::Alone);
            alone
                && one.order() == counterpoise_core::plan::prescription::DrillOrder::Drawn
                && one.drills().len() > 2
        })
        .expect("one of the ready ones has a drawn order");
    let text = Prescription::ready_text(name).unwrap();
    place.journal.adopt(text.as_bytes(), "file", &"2026-11-02T08:00:00Z[UTC]".parse().unwrap()).unwrap();
    let sets: u8 = drawn.drills().iter().map(counterpoise_core::plan::prescription::DrillPlan::sets).sum();
    let steps = if drawn.drills()[1..].iter().any(|plan| plan.step() > 1) { "y\n" } else { "" };
    let efforts: Vec<String> = (0..sets).map(|effort| format!("d\nn\n0\n{effort}\n2\n")).collect();
    let (shown, kept) = place.keep(&format!("1\n{steps}{}n\nn\ny\n", efforts.concat()));
    assert!(shown.contains("Answer by exercise, not by set number") && !shown.contains("Set 1,"), "{shown}");
    // As they are written: the answers of each drill stand together, in order.
    let mut expected = 0;
    for plan in drawn.drills() {
        let of_drill = kept.sets.iter().filter(|set| set.start.drill == plan.drill().name());
        for set in of_drill {
            let effort = kept.answers.iter().find(|row| {
                row.set == Some(set.start.number)
                    && row.answer.question() == counterpoise_core::record::Question::Effort
            });
            assert_eq!(effort.unwrap().answer.number(), Some(expected), "{}", set.start.drill);
            expected += 1;
        }
    }
    assert_eq!(expected, sets);
}

#[test]
fn an_answer_that_is_none_is_asked_again_at_a_terminal_and_the_end_of_input_keeps_nothing() {
    let place = Place::new();
    let whole = format!("2026-11-25\n{EASY}");
    for (end, _) in whole.char_indices().filter(|(_, sign)| *sign == '\n') {
        if end + 1 < whole.len() {
            assert!(place.refused(&whole[..=end]).1.contains("nothing was saved"), "{end}");
        }
    }
    let wrong = whole.replacen("d\nn\n0\n4\n2\n", "x\nd\nperhaps\nn\n4\n0\n11\n4\n0\n6\n2\n", 1);
    let (shown, ticked) = place.ask(&wrong);
    for said in [
        "is not D, B or N",
        "neither Y nor N",
        "not a whole number from 0 to 3",
        "not a whole number from 0 to 10",
        "not a whole number from 1 to 5",
    ] {
        assert!(shown.contains(said), "{said}: {shown}");
    }
    assert_eq!(
        ticked.unwrap().sets.iter().filter(|(_, done)| done.is_some_and(|done| done.whole)).count(),
        3
    );
}

#[test]
fn while_the_disk_does_not_take_it_what_was_typed_is_still_there() {
    let place = Place::new();
    let ticked = place.ask(&format!("2\n{EASY}")).1.unwrap();
    // A journal that is only looked at stands for one that cannot be written.
    let mut closed = Journal::look(&place.folder).unwrap();
    let (id, mut shown) = (crate::entropy::id().unwrap(), Vec::new());
    let mut form =
        Form::over(&b"\n\nq\n"[..], &mut shown, false, "nothing was saved", "counterpoise journal add");
    let failure = form.save(&mut closed, id, &ticked).unwrap_err();
    assert!(failure.fact().contains("cannot be written"), "{}", failure.fact());
    let shown = String::from_utf8(shown).unwrap();
    assert_eq!(shown.matches("NOT SAVED").count(), 3, "twice tried again: {shown}");
    let Place { mut journal, .. } = place;
    let mut form = Form::over(&b""[..], Vec::new(), false, "nothing was saved", "counterpoise journal add");
    form.save(&mut journal, id, &ticked).unwrap();
    assert_eq!(journal.contents().unwrap().sessions.len(), 1);
}
