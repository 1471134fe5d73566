//! An overview as a page: who, since when, in which state, and what could not be read.

use jiff::civil::Date;

use super::{Order, Person, Skipped, State, counts};
use crate::blocks::{Block, Table};
use crate::course::progression::Decision;

/// The page of these people, in the order in which they are given.
pub fn blocks(
    people: &[Person],
    skipped: &[Skipped],
    (order, only): (Order, Option<State>),
    today: Date,
) -> Vec<Block> {
    let mut blocks = vec![Block::Heading(format!("Who practices, on {today}")), Block::Text(heading(people))];
    if let Some(only) = only {
        blocks.push(Block::Text(format!("Only people in this state: {only}. The others are left out.")));
    }
    let mut table = |heading: Option<&str>, title: String, head: &[&str], rows: Vec<Vec<String>>| {
        if !rows.is_empty() {
            blocks.extend(heading.map(|heading| Block::Heading(heading.to_owned())));
            blocks.push(Block::Table(Table::new(title, head, rows)));
        }
    };
    let head = ["Who", "State", "Last practice", "Days in four weeks", "Practices", "Next", "Why"];
    let title = format!("Sorted by {}; nobody is ranked", order_words(order));
    table(None, title, &head, people.iter().map(row).collect());
    let same = people.iter().filter(|person| !person.also.is_empty());
    table(
        Some("Found more than once, counted once"),
        "The same practices were found in several places".to_owned(),
        &["Who", "Also"],
        same.map(|person| vec![person.name.clone(), person.also.join("; ")]).collect(),
    );
    table(
        Some("Not read"),
        "They were left unchanged, and are not among the people above".to_owned(),
        &["Which", "Why"],
        skipped.iter().map(|one| vec![one.name.clone(), one.why.clone()]).collect(),
    );
    let end = "\"Practices\" counts those under the prescription in use. Stopped: more than 14 days without practice.";
    blocks.push(Block::Text(end.to_owned()));
    blocks
}

/// How many there are, and of each state.
pub fn heading(people: &[Person]) -> String {
    let count = match people.len() {
        1 => "1 person".to_owned(),
        count => format!("{count} people"),
    };
    let found: Vec<String> = counts(people)
        .into_iter()
        .filter(|(_, count)| *count > 0)
        .map(|(state, count)| format!("{state} {count}"))
        .collect();
    if found.is_empty() {
        return format!("{count}.");
    }
    format!("{count}: {}. A person in several states counts in each.", found.join(", "))
}

fn order_words(order: Order) -> &'static str {
    match order {
        Order::Name => "name",
        Order::Last => "last practice, the oldest first",
        Order::State => "state",
    }
}

fn row(person: &Person) -> Vec<String> {
    vec![
        person.name.clone(),
        person.states.iter().map(|state| state.name()).collect::<Vec<_>>().join(", "),
        person.last.map_or("-".to_owned(), |day| day.to_string()),
        person.days_in_four_weeks.to_string(),
        person.practices.to_string(),
        person.next.map_or("-", Decision::name).to_owned(),
        person.because.clone(),
    ]
}

#[cfg(test)]
mod test {
    use jiff::civil::date;

    use super::blocks;
    use crate::blocks::{Block, Table};
    use crate::course::progression::Decision;
    use crate::report::overview::{Order, Person, Skipped, State};

    fn person(name: &str, also: &[&str]) -> Person {
        Person {
            name: name.to_owned(),
            states: vec![State::Locked, State::Stopped],
            last: Some(date(2026, 11, 2)),
            days_in_four_weeks: 0,
            practices: 7,
            next: Some(Decision::Locked),
            because: "Because.".to_owned(),
            also: also.iter().map(|name| (*name).to_owned()).collect(),
        }
    }

    fn tables(blocks: &[Block]) -> Vec<&Table> {
        let tables = blocks.iter().filter_map(|block| match block {
            Block::Table(table) => Some(table),
            _ => None,
        });
        tables.collect()
    }

    #[test]
    fn the_page_has_who_is_there_who_is_there_twice_and_what_was_not_read() {
        let people = [person("b", &[]), person("a", &["x/a.json", "y"])];
        let skipped = [Skipped { name: "c".to_owned(), why: "It is empty.".to_owned() }];
        let page = blocks(&people, &skipped, (Order::State, Some(State::Locked)), date(2026, 11, 30));
        let [all, twice, left] = tables(&page)[..] else { panic!("three tables") };
        assert_eq!(all.rows[0], ["b", "locked, stopped", "2026-11-02", "0", "7", "locked", "Because."]);
        assert!(all.rows.iter().all(|row| row.len() == all.head.len()));
        assert!(
            all.rows[1][0] == "a" && all.title.contains("Sorted by state"),
            "in the order that was given"
        );
        assert_eq!(twice.rows, [["a", "x/a.json; y"]]);
        assert_eq!(left.rows, [["c", "It is empty."]]);
        let said =
            |words: &str| page.iter().any(|block| matches!(block, Block::Text(text) if text.contains(words)));
        assert!(said("2 people: locked 2, stopped 2.") && said("Only people in this state: locked."));
        let few = blocks(&people[..1], &[], (Order::Name, None), date(2026, 11, 30));
        assert_eq!(tables(&few).len(), 1, "no empty tables");
    }
}
