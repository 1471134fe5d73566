//! Is every question positive? Somebody who answers yes to "You have not ... ?" may mean either. So no question that is
//! answered yes, no or not sure has a negation in it: not in the question, and not in the statements of its page.

use counterpoise_core::health::readiness::{Item, Page, Today};
use counterpoise_core::practice::missed::Missed;
use counterpoise_core::practice::session::question_lines;
use counterpoise_core::practice::session::screen::{Body, Screen};
use counterpoise_core::record::Question;

use crate::reading_age::{setup, suitability};
use crate::screens::example;

/// A day of practice.
const DAY: jiff::civil::Date = jiff::civil::date(2026, 11, 3);

/// The words that turn a sentence around. What ends in "n't" does too.
const NEGATIONS: [&str; 11] =
    ["no", "not", "never", "none", "nothing", "nobody", "nor", "neither", "without", "cannot", "unless"];

/// The first word that turns this text around.
fn negation(text: &str) -> Option<String> {
    let inner = |c: char| !(c.is_alphanumeric() || c == '\'');
    let mut words = text.split(inner).map(str::to_lowercase);
    words.find(|word| NEGATIONS.contains(&word.as_str()) || word.ends_with("n't"))
}

/// What is read on a screen that is answered yes or no, but for the words of its keys.
fn asked(screen: &Screen) -> Vec<String> {
    let is_yes = |key: &str, does: &str| key == "Y" && does.starts_with("yes");
    match &screen.body {
        Body::Question { ask, answers, .. } if answers.iter().any(|hint| is_yes(&hint.key, &hint.does)) => {
            // An answer that is asked once more is said as it was given.
            vec![ask.replace("You answered: no", "").replace("You answered: not sure", "")]
        }
        Body::Page { title, text, items } if screen.keys.iter().any(|hint| is_yes(&hint.key, &hint.does)) => {
            [std::slice::from_ref(title), text, items].concat()
        }
        _ => Vec::new(),
    }
}

/// The questions in what `setup` prints: sentences that end with a question mark.
fn questions_of_setup() -> Vec<String> {
    let pages = setup();
    let sentences = pages.iter().flat_map(|page| page.split_inclusive(['.', '?', ':']));
    sentences.filter(|sentence| sentence.ends_with('?')).map(str::to_owned).collect()
}

#[test]
fn no_question_is_a_double_negative() {
    let today = Today { partner: true, harder: true, unwell_last_time: true };
    let pages = Page::ALL.iter().flat_map(|page| [vec![page.question()], page.lines(today)].concat());
    let items = Item::ALL.iter().map(|item| item.question());
    let readiness: Vec<String> = items.chain(pages).map(str::to_owned).collect();
    // The first line is the question; "not sore" is an answer to "How sore?"
    let session: Vec<String> =
        Question::ALL.iter().filter_map(|question| question_lines(*question).into_iter().next()).collect();
    let screens: Vec<String> = example::screens().iter().flat_map(asked).collect();
    let setup = questions_of_setup();
    let health: Vec<String> = suitability().map(str::to_owned).collect();
    // What the next start asks of a practice whose answers are not whole.
    let fall = [Question::FellThen, Question::UnwellThen, Question::FallHurt, Question::Head];
    let missed: Vec<String> = fall.map(|question| Missed::new(DAY, DAY, &[question]).ask()).to_vec();
    for (what, texts, least) in [
        ("readiness", &readiness, 50),
        ("session", &session, 11),
        ("screens", &screens, 60),
        ("setup", &setup, 5),
        ("suitability", &health, 46),
        ("the last practice", &missed, 4),
    ] {
        assert!(texts.len() >= least, "{} texts of {what}", texts.len());
        for text in texts {
            assert!(!text.is_empty(), "{what}");
            assert_eq!(negation(text), None, "{what}: {text:?}");
        }
    }
}

#[test]
fn a_negation_is_found() {
    for text in [
        "Is it true that you have not fallen?",
        "I have had no alcohol.",
        "Haven't you fainted?",
        "Do you practice without pain?",
        "Nothing near me is hot.",
    ] {
        assert!(negation(text).is_some(), "{text}");
    }
    assert_eq!(negation("Have you noted another knock?"), None, "\"no\" is a word, and no part of one");
}
