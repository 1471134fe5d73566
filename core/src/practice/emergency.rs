//! Whom does a person call in an emergency? The page that says so, and the number as it is spoken: digit by digit, until a
//! key hushes it.

use super::session::screen::Body;
use crate::plan::phrase::Phrase;
use crate::units::Millis;

/// What is shown where nobody entered the number. A number is never assumed.
pub const LOCAL_NUMBER: &str = "your local emergency number";

/// The time for the sentences around the number, and the silence before they are said again. A test holds the clips of
/// both voices against it.
const SENTENCES: Millis = Millis(14_000);
/// The time for one digit, and the breath after it. A test holds the clips against it.
const DIGIT: Millis = Millis(1_100);

/// Whom to call, as the person entered it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Contacts {
    /// The emergency number; `None` if it is unknown.
    pub emergency: Option<String>,
    /// Who else to call: a name and a number.
    pub other: Option<String>,
}

impl Contacts {
    /// Under a page that tells when to call: the number, then the contact; empty where neither is known.
    pub fn lines(&self) -> Vec<String> {
        let number = self.emergency.iter().map(|number| format!("Your emergency number: {number}"));
        number.chain(self.then_call()).collect()
    }

    fn then_call(&self) -> Option<String> {
        self.other.as_ref().map(|other| format!("Then call: {other}"))
    }

    /// The emergency page: the number, then the contact, the door, and the clinician. `first` is said before them.
    pub fn page(&self, first: Option<&str>) -> Body {
        let own = |text: &str| Some(text.to_owned());
        let text = [
            first.and_then(own),
            own("Sit down. If somebody is near, call out for them."),
            self.then_call(),
            own("Unlock the door if you can reach it safely. Ask somebody to wait there."),
            own("Do not drive yourself."),
            own("See a clinician before you practice again. Practice is locked until then."),
        ];
        Body::Emergency { number: self.emergency.clone(), text: text.into_iter().flatten().collect() }
    }

    /// The page as it is spoken. Each digit of the number is a phrase of its own.
    ///
    /// ```
    /// use counterpoise_core::practice::emergency::Contacts;
    /// let said = |number: &str| {
    ///     let contacts = Contacts { emergency: Some(number.to_owned()), other: None };
    ///     contacts.aloud().into_iter().map(|phrase| phrase.words()).collect::<Vec<_>>()
    /// };
    /// let number = said("+1 (0)9-2");
    /// assert_eq!(number[1..number.len() - 1], ["plus", "one", "zero", "nine", "two"]);
    /// ```
    pub fn aloud(&self) -> Vec<Phrase> {
        let number: Vec<Phrase> =
            self.emergency.iter().flat_map(|number| number.chars()).filter_map(digit).collect();
        let opening = if number.is_empty() { "emergency.local" } else { "emergency.call" };
        let sentence = |id: &str| std::iter::once(Phrase::own(id));
        sentence(opening).chain(number).chain(sentence("emergency.then")).collect()
    }

    /// From one time it is spoken to the next.
    pub fn repeated_after(&self) -> Millis {
        SENTENCES + Millis(DIGIT.0 * self.aloud().len() as u32)
    }

    /// Every phrase that any number may need.
    pub fn phrases() -> Vec<Phrase> {
        let sentences = ["emergency.call", "emergency.local", "emergency.then"].map(Phrase::own);
        sentences.into_iter().chain("0123456789+*#".chars().filter_map(digit)).collect()
    }
}

/// The phrase that says a character of a number; what people write between the digits is not said.
fn digit(character: char) -> Option<Phrase> {
    Some(match character {
        '1'..='9' => Phrase::own(&format!("count.{character}")),
        '0' => Phrase::own("emergency.0"),
        '+' => Phrase::own("emergency.plus"),
        '*' => Phrase::own("emergency.star"),
        '#' => Phrase::own("emergency.pound"),
        _ => return None,
    })
}

#[cfg(test)]
mod test {
    use super::*;

    #[test]
    fn the_page_has_the_number_then_the_contact_then_the_door_and_the_clinician() {
        let contacts =
            Contacts { emergency: Some("112".to_owned()), other: Some("Ann, 555 0100".to_owned()) };
        let Body::Emergency { number, text } = contacts.page(None) else { panic!() };
        assert_eq!(number.as_deref(), Some("112"));
        let at = |part: &str| text.iter().position(|line| line.contains(part)).unwrap();
        assert_eq!(text[at("Ann")], "Then call: Ann, 555 0100");
        assert!(at("Ann") < at("door") && at("door") < at("clinician"), "{text:#?}");
        assert!(text.iter().all(|line| line.split_whitespace().count() <= 30));
        let Body::Emergency { number, text } = Contacts::default().page(Some("First.")) else { panic!() };
        assert_eq!((number, text[0].as_str()), (None, "First."));
    }

    #[test]
    fn every_digit_of_any_number_is_spoken_and_an_unknown_one_is_the_local_one() {
        let ids = |number: Option<&str>| {
            let contacts = Contacts { emergency: number.map(str::to_owned), other: None };
            contacts.aloud().into_iter().map(Phrase::id).collect::<Vec<_>>()
        };
        let digits = ["count.9", "count.1", "count.1"];
        assert_eq!(ids(Some("911")), [&["emergency.call"][..], &digits, &["emergency.then"]].concat());
        assert_eq!(ids(None), ["emergency.local", "emergency.then"]);
        let written = "+44 (0)20-7946.0000 *#";
        let spoken = ids(Some(written));
        assert_eq!(
            spoken.len() - 2,
            written.chars().filter(|c| c.is_ascii_digit() || "+*#".contains(*c)).count()
        );
        let all: Vec<&str> = Contacts::phrases().into_iter().map(Phrase::id).collect();
        assert!(spoken.iter().chain(&ids(None)).all(|id| all.contains(id)));
    }
}
