//! A file that is changed in place: only what differs is written again. The comments, order and spacing of whoever
//! wrote the file stay.

use std::mem;

use toml_edit::{Array, ArrayOfTables, DocumentMut, Item, Table, TableLike, Value as Written};

use super::field::{Field, Place, Sheet, Value};
use super::fields::{Accept, Draft, Unlock};
use super::write::{about, accept, drill, note, section, unlock};
use super::{DraftDrill, Prescription, Seal};

impl Draft {
    /// The text of a file that held another draft, with the values of this one and without a seal. What cannot be put
    /// into that file is written anew, as by [`Draft::to_toml`].
    ///
    /// ```
    /// use counterpoise_core::plan::prescription::{Draft, Prescription};
    /// let file = Prescription::ready_text("gentle").unwrap();
    /// let draft = Draft { weeks: 8, ..Draft::of(Prescription::ready("gentle").unwrap()) };
    /// assert_eq!(draft.to_toml_over(file.as_bytes()), file.replace("weeks = 12", "weeks = 8"));
    /// ```
    pub fn to_toml_over(&self, original: &[u8]) -> String {
        let text = std::str::from_utf8(original).ok().and_then(|original| self.edited(original));
        let is_this = |text: &String| {
            Prescription::read("", text.as_bytes()).is_ok_and(|read| Self::of(&read) == *self)
        };
        text.filter(is_this).unwrap_or_else(|| self.to_toml())
    }

    fn edited(&self, original: &str) -> Option<String> {
        let before = Self::of(&Prescription::read("", original.as_bytes()).ok()?);
        let text = Seal::strip(original);
        // Neither survives in the document: they are put back.
        let (mark, text) = text.strip_prefix('\u{feff}').map_or(("", text), |text| ("\u{feff}", text));
        let line_end = if text.contains("\r\n") { "\r\n" } else { "\n" };
        let mut document: DocumentMut = text.replace("\r\n", "\n").parse().ok()?;
        fields(document.as_table_mut(), Place::Top, &before, self)?;
        for place in [Place::Limits, Place::Suitability] {
            let of_it = |field: &&Field| field.place == place && before.value(field) != self.value(field);
            if Self::FIELDS.iter().copied().any(|field| of_it(&field)) {
                match document.get_mut(place.key()) {
                    Some(section) => fields(section.as_table_like_mut()?, place, &before, self)?,
                    None => {
                        let mut new = parsed(&section(self, place, about(place)), place)?;
                        // At the end.
                        new.as_table_mut()?.set_position(None);
                        document.insert(place.key(), new);
                    }
                }
            }
        }
        let same = |a: &DraftDrill, b: &DraftDrill| a.drill.name() == b.drill.name();
        sections(&mut document, Place::Drill, (&before.drills, &self.drills), same, drill)?;
        let same = |a: &Unlock, b: &Unlock| a.name == b.name && a.partner == b.partner;
        sections(&mut document, Place::Unlock, (&before.unlocks, &self.unlocks), same, unlock)?;
        let same = |a: &Accept, b: &Accept| a.topic == b.topic;
        sections(&mut document, Place::Accept, (&before.accepts, &self.accepts), same, accept)?;
        Some(format!("{mark}{}", document.to_string().replace('\n', line_end)))
    }
}

/// Writes the fields that differ.
fn fields<S: Sheet>(table: &mut dyn TableLike, place: Place, before: &S, now: &S) -> Option<()> {
    for field in S::FIELDS.iter().filter(|field| field.place == place) {
        match now.value(field) {
            value if value == before.value(field) => {}
            None => drop(table.remove(field.name)),
            Some(value) => match table.get_mut(field.name) {
                Some(item) => replace(item.as_value_mut()?, written(&value)?),
                None => {
                    let mut new = written(&value)?;
                    let note = note(field, &value);
                    new.decor_mut().set_suffix(if note.is_empty() {
                        String::new()
                    } else {
                        format!(" # {note}")
                    });
                    table.insert(field.name, Item::Value(new));
                }
            },
        }
    }
    Some(())
}

/// A section of a new file.
fn parsed(text: &str, place: Place) -> Option<Item> {
    let mut document: DocumentMut = text.parse().ok()?;
    document.remove(place.key())
}

fn written(value: &Value) -> Option<Written> {
    value.to_string().parse().ok()
}

/// Puts a value into the place of another, with the spaces and comments around it.
fn replace(old: &mut Written, mut new: Written) {
    match (&mut *old, &new) {
        (Written::Array(old), Written::Array(new)) => entries(old, new),
        _ => {
            *new.decor_mut() = old.decor().clone();
            *old = new;
        }
    }
}

/// Puts each entry into the place of another.
fn entries(old: &mut Array, new: &Array) {
    let plain =
        |value: Option<&Written>| value.map(|value| (value.as_integer(), value.as_str().map(str::to_owned)));
    for (place, entry) in new.iter().enumerate() {
        if place >= old.len() {
            old.push(entry.clone().decorated(if place == 0 { "" } else { " " }, ""));
        } else if plain(old.get(place)) != plain(Some(entry)) {
            old.replace(place, entry.clone());
        }
    }
    while old.len() > new.len() {
        old.remove(old.len() - 1);
    }
}

/// Writes a list of sections: each into that of the same thing, and what is new with the comments of a new file.
fn sections<S: Sheet + PartialEq>(
    document: &mut DocumentMut,
    place: Place,
    (before, now): (&[S], &[S]),
    is_same: impl Fn(&S, &S) -> bool,
    text: impl Fn(&S) -> String,
) -> Option<()> {
    if before == now {
        return Some(());
    }
    let item = document.entry(place.key()).or_insert(Item::ArrayOfTables(ArrayOfTables::new()));
    let tables = mem::take(item).into_array_of_tables().ok()?;
    let mut left: Vec<Option<(&S, Table)>> = before.iter().zip(tables).map(Some).collect();
    let mut take = |fits: &dyn Fn(&S) -> bool| {
        let of_it = |entry: &&mut Option<(&S, Table)>| entry.as_ref().is_some_and(|(was, _)| fits(was));
        left.iter_mut().find(of_it).and_then(Option::take)
    };
    // What stays as it is comes first, so that nothing else takes its section.
    let mut found: Vec<_> = now.iter().map(|sheet| take(&|was| was == sheet)).collect();
    for (sheet, found) in now.iter().zip(&mut found) {
        *found = found.take().or_else(|| take(&|was| is_same(was, sheet)));
    }
    let kept = found.iter().flatten().map(|(_, table)| table.position());
    let mut positions: Vec<Option<isize>> = kept.collect();
    positions.sort_unstable();
    let mut positions = positions.into_iter();
    let mut tables = ArrayOfTables::new();
    for (sheet, found) in now.iter().zip(found) {
        let table = match found {
            Some((was, mut table)) => {
                fields(&mut table, place, was, sheet)?;
                table.set_position(positions.next().flatten());
                table
            }
            None => {
                // It follows the one before it.
                let mut table = parsed(&text(sheet), place)?.as_array_of_tables()?.get(0)?.clone();
                table.set_position(None);
                table
            }
        };
        tables.push(table);
    }
    document.insert(place.key(), Item::ArrayOfTables(tables));
    Some(())
}

#[cfg(test)]
mod test {
    use super::*;
    use crate::plan::drill::{Drill, Form, UnlockName};
    use crate::plan::prescription::DrillOrder;
    use crate::plan::prescription::field::SequenceName;

    /// Nobody's usual spacing, order or comments.
    const ODD: &str = "# for A., see the file\ntitle   =   'Second month'  # her own words\nschema=\"counterpoise.prescription/1\"

weeks=9 # until Christmas
\t days_a_week = 3
rest_ms = 60_000
issued_on = 2026-04-17\nissued_by = \"K.\"

# the gentle one first
[[drills]] # standing
sets = 2
drill = \"counter-shift\"
gap_ms = [
  5_000, # not shorter
  15_000,
]
directions = [ 'left' , \"right\",\"up\" ]   # she likes up
work_ms = 60000\nstep = 1\nceiling = 3

[limits]
effort_at_most = 5 # the heart

  # then reaches
  [[drills]]   # sitting is no option
drill = \"counter-reach\"
work_ms = 60000
sets = 2
gap_ms = [5000, 15000]
directions = [\"left\", \"right\", \"forward\"]
# the end
";

    fn draft() -> Draft {
        Draft::of(&Prescription::read("odd.toml", ODD.as_bytes()).unwrap())
    }

    /// The lines that are taken away and added by a change.
    fn changed(change: impl Fn(&mut Draft)) -> (Vec<String>, Vec<String>) {
        let mut draft = draft();
        change(&mut draft);
        let text = draft.to_toml_over(ODD.as_bytes());
        assert!(
            Prescription::read("new.toml", text.as_bytes()).is_ok_and(|read| Draft::of(&read) == draft),
            "{text}"
        );
        let without = |text: &str, other: &str| {
            let mut other: Vec<&str> = other.lines().collect();
            let mut lines = Vec::new();
            for line in text.lines() {
                match other.iter().position(|same| *same == line) {
                    Some(place) => drop(other.remove(place)),
                    None => lines.push(line.to_owned()),
                }
            }
            lines
        };
        (without(ODD, &text), without(&text, ODD))
    }

    #[test]
    fn one_field_changes_one_line_and_nothing_changes_none() {
        assert_eq!(draft().to_toml_over(ODD.as_bytes()), ODD);
        let sealed = Seal::append(ODD);
        assert_eq!(draft().to_toml_over(sealed.as_bytes()), ODD, "without the seal");
        type Change = fn(&mut Draft);
        let changes: [(Change, &str, &str); 9] = [
            (|d| d.weeks = 8, "weeks=9 # until Christmas", "weeks=8 # until Christmas"),
            (|d| d.days_a_week = 2, "\t days_a_week = 3", "\t days_a_week = 2"),
            (
                |d| d.title = "Third".into(),
                "title   =   'Second month'  # her own words",
                "title   =   \"Third\"  # her own words",
            ),
            (|d| d.rest_ms = 90_000, "rest_ms = 60_000", "rest_ms = 90000"),
            (|d| d.effort_at_most = 4, "effort_at_most = 5 # the heart", "effort_at_most = 4 # the heart"),
            (|d| d.drills[0].gap_ms[0] = 6_000, "  5_000, # not shorter", "  6000, # not shorter"),
            (|d| d.drills[0].ceiling = 2, "ceiling = 3", "ceiling = 2"),
            (
                |d| d.drills[0].directions[2] = "forward".into(),
                "directions = [ 'left' , \"right\",\"up\" ]   # she likes up",
                "directions = [ 'left' , \"right\",\"forward\" ]   # she likes up",
            ),
            (
                |d| d.drills[1].directions.push("forward left".into()),
                "directions = [\"left\", \"right\", \"forward\"]",
                "directions = [\"left\", \"right\", \"forward\", \"forward left\"]",
            ),
        ];
        for (change, was, is) in changes {
            assert_eq!(changed(change), (vec![was.to_owned()], vec![is.to_owned()]));
        }
    }

    #[test]
    fn what_was_left_out_is_added_with_our_comment_and_what_is_left_out_goes() {
        let added = |change: fn(&mut Draft), lines: &[&str]| {
            assert_eq!(changed(change), (Vec::new(), lines.iter().map(|line| (*line).to_owned()).collect()));
        };
        added(
            |d| d.order = DrillOrder::Drawn,
            &["order = \"drawn\" # of the drills; the warm-up stays first"],
        );
        added(
            |d| d.drills[1].blank_per_mille = 50,
            &["blank_per_mille = 50 # moments that stay silent, of 1000"],
        );
        added(
            |d| d.drills[1].sequence = SequenceName::Covered,
            &["sequence = \"covered\" # each about equally often"],
        );
        added(
            |d| d.accepted_because = Some("seen".into()),
            &[
                "# Why the person may start although the suitability answers say \"a clinician first\".",
                "[suitability]",
                "accepted_because = \"seen\"",
                "",
            ],
        );
        let weights = |d: &mut Draft| d.drills[1].weights = Some(vec![2, 1, 1]);
        let mut draft = draft();
        weights(&mut draft);
        let text = draft.to_toml_over(ODD.as_bytes());
        draft.drills[1].weights = None;
        assert_eq!(draft.to_toml_over(text.as_bytes()), ODD);
    }

    #[test]
    fn sections_move_go_and_come_with_their_comments() {
        assert_eq!(changed(|d| d.drills.swap(0, 1)), (Vec::new(), Vec::new()), "every line is still there");
        let mut swapped = draft();
        swapped.drills.swap(0, 1);
        let text = swapped.to_toml_over(ODD.as_bytes());
        let at = |words: &str| text.find(words).unwrap();
        assert!(
            at("# then reaches") < at("counter-reach") && at("counter-reach") < at("# the gentle one first")
        );
        let (gone, come) = changed(|d| drop(d.drills.remove(0)));
        assert!(come.is_empty() && gone.contains(&"# the gentle one first".to_owned()), "{gone:?} {come:?}");
        assert!(!gone.contains(&"  # then reaches".to_owned()), "{gone:?}");
        let (gone, come) = changed(|d| {
            d.drills.push(DraftDrill::new(Drill::named("head-turns").unwrap(), Form::Alone));
            let (watched_by, on) = ("K.".to_owned(), d.issued_on);
            let (name, partner) = (UnlockName::Backward, String::new());
            d.unlocks.push(Unlock { name, watched_by, on, partner, therapist_present: false });
        });
        assert_eq!(gone, Vec::<String>::new());
        assert!(come.contains(&"drill = \"head-turns\"".to_owned()), "{come:?}");
        assert!(come.contains(&"# Watched, because it goes behind the person.".to_owned()), "{come:?}");
    }

    #[test]
    fn ends_of_lines_and_a_byte_order_mark_stay() {
        let windows = format!("\u{feff}{}", ODD.replace('\n', "\r\n"));
        let draft = Draft { weeks: 8, ..draft() };
        assert_eq!(draft.to_toml_over(windows.as_bytes()), windows.replace("weeks=9", "weeks=8"));
    }

    #[test]
    fn what_cannot_be_edited_in_place_is_written_anew() {
        let head = ODD.split("# the gentle").next().unwrap();
        let list = "drills = [{ drill = \"counter-shift\", sets = 2, work_ms = 60000, gap_ms = [5000, 15000], directions = [\"left\", \"right\"] }]\n";
        let file = format!("{head}{list}");
        let draft = Draft::of(&Prescription::read("inline.toml", file.as_bytes()).unwrap());
        assert_eq!(draft.to_toml_over(file.as_bytes()), file);
        let mut more = draft.clone();
        more.drills[0].sets = 3;
        let text = more.to_toml_over(file.as_bytes());
        assert_eq!(Draft::of(&Prescription::read("new.toml", text.as_bytes()).unwrap()), more);
        assert_eq!(more.to_toml_over(b"no prescription"), more.to_toml());
    }
}
