use super::{Check, Contact, Item, Page, Readiness, Reply, Today, Verdict};
use crate::health::lock::{Hold, Lock};

fn of(not: &[Item], yes: &[Item]) -> Readiness {
    let answers: Vec<(Item, bool)> =
        not.iter().map(|item| (*item, false)).chain(yes.iter().map(|item| (*item, true))).collect();
    Readiness::of(&answers)
}

const EVERYTHING: Today = Today { partner: true, harder: true, unwell_last_time: true };

#[test]
fn all_true_on_every_page_is_always_go_and_takes_one_key_a_page() {
    for today in [Today::default(), EVERYTHING] {
        let mut check = Check::new(today);
        let mut keys = 0;
        while check.page().is_some() {
            check.reply(Reply::Yes);
            keys += 1;
        }
        assert_eq!(keys, if today.partner { 3 } else { 2 });
        let readiness = check.readiness();
        assert_eq!((readiness.verdict, readiness.reasons.len()), (Verdict::Go, 0));
        let (locks, holds) = (readiness.locks, readiness.holds);
        assert!(locks.is_empty() && holds.is_empty() && !readiness.lower);
        // A page that is all true answers each of its sentences.
        let asked: usize = Page::ALL.iter().map(|page| page.items(today).len()).sum();
        let asked = asked - if today.partner { 0 } else { Page::Partner.items(today).len() };
        assert_eq!(check.answers().len(), asked);
    }
}

#[test]
fn every_sentence_stands_on_one_page_or_is_asked_besides_one_that_does() {
    for item in Item::ALL {
        let pages = Page::ALL.iter().filter(|page| page.items(EVERYTHING).contains(item)).count();
        let besides = Item::ALL.iter().filter(|other| other.follow_ups().contains(item)).count();
        assert_eq!(pages + besides, 1, "{item}");
    }
    for page in Page::ALL {
        assert!(page.lines(EVERYTHING).len() <= 7, "{page} is one screen");
    }
}

#[test]
fn each_sentence_that_is_not_true_leads_somewhere_and_says_so() {
    for item in Item::ALL.iter().filter(|item| Page::ALL.iter().any(|p| p.items(EVERYTHING).contains(item))) {
        let readiness = of(&[*item], &[]);
        assert_ne!(readiness.verdict, Verdict::Go, "{item}");
        let said = readiness.reasons[0].to_string();
        assert!(said.matches(". ").count() >= 1, "a fact, then what to do: {said}");
    }
}

/// The table of the rules, row by row: what is not true, what is true besides, the verdict, contact, locks, holds, lower.
type Row<'a> = (&'a [Item], &'a [Item], Verdict, Contact, &'a [Lock], &'a [Hold], bool);

#[test]
fn every_row_of_the_table_of_the_body() {
    use Verdict::{Gentler, NotToday};
    let rows: &[Row<'_>] = &[
        (&[Item::Chest], &[], NotToday, Contact::Emergency, &[Lock::Chest], &[], false),
        (&[Item::Breath], &[], NotToday, Contact::Emergency, &[Lock::Breath], &[], false),
        (&[Item::Nerve], &[], NotToday, Contact::Emergency, &[Lock::Nerve], &[], false),
        (&[Item::Faint], &[], NotToday, Contact::Clinician, &[Lock::Faint], &[], false),
        (&[Item::Head], &[], NotToday, Contact::Clinician, &[Lock::HeadKnock], &[], false),
        (&[Item::UnwellPassed], &[], NotToday, Contact::Clinician, &[Lock::Unwell], &[], false),
        (&[Item::Dizzy], &[Item::DizzyPassed], NotToday, Contact::Therapist, &[], &[Hold::Dizziness], false),
        (
            &[Item::Dizzy, Item::DizzyPassed],
            &[],
            NotToday,
            Contact::Clinician,
            &[Lock::Dizziness],
            &[Hold::Dizziness],
            false,
        ),
        (
            &[Item::Fall, Item::FallPast],
            &[Item::FallUnhurt],
            NotToday,
            Contact::Therapist,
            &[],
            &[Hold::Fall],
            false,
        ),
        (&[Item::Fall], &[Item::FallUnhurt, Item::FallPast], Gentler, Contact::Therapist, &[], &[], true),
        (
            &[Item::Fall, Item::FallUnhurt],
            &[Item::FallPast],
            NotToday,
            Contact::Clinician,
            &[Lock::FallHurt],
            &[],
            true,
        ),
        // Not said that it did no harm: locked.
        (&[Item::Fall], &[], NotToday, Contact::Clinician, &[Lock::FallHurt], &[Hold::Fall], false),
        (&[Item::Pain], &[], NotToday, Contact::Clinician, &[], &[], false),
        (&[Item::Ill], &[], NotToday, Contact::Nobody, &[], &[], false),
        (&[Item::Alcohol], &[], NotToday, Contact::Nobody, &[], &[], false),
        (&[Item::Medicine], &[], NotToday, Contact::Pharmacist, &[], &[], false),
        (&[Item::Medicine], &[Item::MedicineAgreed], Gentler, Contact::Nobody, &[], &[], false),
        (&[Item::Sore], &[], Gentler, Contact::Nobody, &[], &[], false),
        (&[Item::Night], &[], Gentler, Contact::Nobody, &[], &[], false),
        (&[Item::House], &[], Gentler, Contact::Nobody, &[], &[], false),
    ];
    for (not, yes, verdict, contact, locks, holds, lower) in rows {
        let found = of(not, yes);
        assert_eq!(found.verdict, *verdict, "{not:?}");
        assert_eq!(found.reasons[0].contact, *contact, "{not:?}");
        assert_eq!(
            (found.locks.as_slice(), found.holds.as_slice(), found.lower),
            (*locks, *holds, *lower),
            "{not:?}"
        );
    }
}

#[test]
fn what_is_wrong_with_the_room_can_be_put_right_and_holds_nothing() {
    for item in Page::Room.items(Today::default()) {
        let found = of(&[item], &[]);
        assert_eq!((found.verdict, found.reasons[0].contact), (Verdict::NotToday, Contact::Nobody), "{item}");
        assert!(found.reasons[0].can_be_put_right());
        assert!(found.locks.is_empty() && found.holds.is_empty());
    }
    for item in Page::Body.items(EVERYTHING) {
        assert!(of(&[item], &[]).reasons.iter().all(|reason| !reason.can_be_put_right()), "{item}");
    }
}

#[test]
fn something_is_not_asks_sentence_by_sentence_and_what_must_be_known_besides() {
    let mut check = Check::new(Today::default());
    check.reply(Reply::No);
    let mut asked = Vec::new();
    while let (Some(Page::Body), Some(item)) = (check.page(), check.item()) {
        asked.push(item);
        check.reply(if item == Item::Fall { Reply::No } else { Reply::Yes });
    }
    let at = asked.iter().position(|item| *item == Item::Fall).unwrap();
    assert_eq!(asked[at + 1..at + 3], [Item::FallUnhurt, Item::FallPast]);
    assert_eq!(asked.len(), Page::Body.items(Today::default()).len() + 2, "each is asked once");
    assert_eq!(check.page(), Some(Page::Room), "a fall long past does not stop the practice");
    check.reply(Reply::Yes);
    assert_eq!(check.readiness().verdict, Verdict::Gentler);
}

#[test]
fn who_has_chest_pain_is_asked_nothing_more() {
    let mut check = Check::new(EVERYTHING);
    check.reply(Reply::No);
    assert_eq!(check.item(), Some(Item::Chest));
    check.reply(Reply::No);
    assert_eq!((check.page(), check.readiness().locks), (None, vec![Lock::Chest]));
}

#[test]
fn not_today_ends_the_questions_after_its_page_and_the_gravest_reason_comes_first() {
    let mut check = Check::new(EVERYTHING);
    check.reply(Reply::No);
    while check.page() == Some(Page::Body) {
        let not = [Item::Night, Item::Ill, Item::Head];
        let reply = if check.item().is_some_and(|item| not.contains(&item)) { Reply::No } else { Reply::Yes };
        check.reply(reply);
    }
    assert_eq!(check.page(), None, "the room is not asked about");
    let items: Vec<Item> = check.readiness().reasons.iter().map(|reason| reason.item).collect();
    assert_eq!(items, [Item::Head, Item::Ill, Item::Night]);
}

#[test]
fn something_is_not_and_then_everything_is_leads_on_as_all_true_does() {
    let mut check = Check::new(Today::default());
    check.reply(Reply::No);
    while check.page() == Some(Page::Body) {
        check.reply(Reply::Yes);
    }
    assert_eq!((check.page(), check.readiness().verdict), (Some(Page::Room), Verdict::Go));
}

#[test]
fn each_page_is_read_aloud_in_the_words_that_stand_on_it() {
    let calm = Today { partner: false, harder: false, unwell_last_time: false };
    for today in [calm, EVERYTHING] {
        for page in [Page::Body, Page::Room] {
            let said: Vec<&str> = page
                .spoken_ids(today)
                .iter()
                .map(|id| crate::plan::phrase::Phrase::named(id).unwrap_or_else(|| panic!("{id}")).words())
                .collect();
            assert_eq!(said, page.lines(today));
        }
    }
}
