use proptest::prelude::*;

use super::{Asked, Check, Contact, Item, Page, Readiness, Today, Verdict};
use crate::health::lock::{Hold, Lock};
use crate::health::yes_no::YesNoNotSure::{self, No, NotSure, Yes};

fn of(bad: &[Item], good: &[Item]) -> Readiness {
    let bad = bad.iter().map(|item| (*item, item.answer_if(false)));
    let answers: Vec<(Item, YesNoNotSure)> =
        bad.chain(good.iter().map(|item| (*item, item.good()))).collect();
    Readiness::of(&answers)
}

const EVERYTHING: Today = Today { partner: true, harder: true, unwell_last_time: true };

/// Answers until nothing is asked. Gives what was asked.
fn asked(check: &mut Check, answer: impl Fn(Asked) -> YesNoNotSure) -> Vec<Asked> {
    std::iter::from_fn(|| {
        let asked = check.asked()?;
        check.reply(answer(asked));
        Some(asked)
    })
    .collect()
}

/// The good answer to everything but these items, and to the pages that have one of them.
fn all_but<'a>(
    bad: &'a [Item],
    answer: impl Fn(Item) -> YesNoNotSure + 'a,
) -> impl Fn(Asked) -> YesNoNotSure + 'a {
    move |asked| match asked {
        Asked::One(item) if bad.contains(&item) => answer(item),
        Asked::Page(page) if page.items(EVERYTHING).iter().any(|item| bad.contains(item)) => NotSure,
        other => other.good(),
    }
}

#[test]
fn the_good_answer_to_everything_is_always_go_and_takes_one_key_each() {
    for today in [Today::default(), EVERYTHING] {
        let mut check = Check::new(today);
        let places = std::iter::from_fn(|| {
            let asked = check.asked()?;
            let place = check.place();
            check.reply(asked.good());
            Some(place)
        });
        let places: Vec<(usize, usize)> = places.collect();
        let count = if today.partner { 10 } else { 8 };
        assert_eq!(places, (1..=count).map(|place| (place, count)).collect::<Vec<_>>());
        let readiness = check.readiness();
        assert_eq!((readiness.verdict, readiness.reasons.len()), (Verdict::Go, 0));
        let (locks, holds) = (readiness.locks, readiness.holds);
        assert!(locks.is_empty() && holds.is_empty() && !readiness.lower);
        // The answer to a page answers each of its items.
        let pages = Page::ALL.iter().filter(|page| **page != Page::Partner || today.partner);
        let on_pages: usize = pages.map(|page| page.items(today).len()).sum();
        assert_eq!(check.answers().len(), count - if today.partner { 3 } else { 2 } + on_pages);
    }
}

#[test]
fn every_item_is_asked_singly_or_on_one_page_or_follows_one_that_is() {
    for item in Item::ALL {
        let singly = Item::SINGLY.contains(item) || *item == Item::UnwellPassed;
        let pages = Page::ALL.iter().filter(|page| page.items(EVERYTHING).contains(item)).count();
        let follows = Item::ALL.iter().filter(|other| other.follow_ups().contains(item)).count();
        assert_eq!(usize::from(singly) + pages + follows, 1, "{item}");
    }
    for page in Page::ALL {
        assert!(page.lines(EVERYTHING).len() <= 7, "{page} is one screen");
        assert!(page.items(EVERYTHING).iter().all(|item| item.good() == page.good()), "{page} asks one way");
    }
}

/// Chest, breath, signs of a stroke, fainting, falls and the head are never part of a page.
#[test]
fn what_calls_for_help_is_asked_one_question_at_a_time_each_day() {
    let singly = [Item::Chest, Item::Breath, Item::Nerve, Item::Faint, Item::Fall, Item::Head];
    for today in [Today::default(), EVERYTHING] {
        let asked = asked(&mut Check::new(today), Asked::good);
        assert!(asked.starts_with(&singly.map(Asked::One)), "{asked:?}");
        assert_eq!(asked.contains(&Asked::One(Item::UnwellPassed)), today.unwell_last_time);
    }
    for item in singly {
        assert_eq!(item.good(), No, "{item}");
        assert!(item.question().starts_with("Have you"), "{item}");
    }
}

#[test]
fn each_careful_answer_leads_somewhere_and_says_so() {
    let follows = |item: &Item| Item::ALL.iter().any(|other| other.follow_ups().contains(item));
    for item in Item::ALL.iter().filter(|item| !follows(item)) {
        for answer in [item.answer_if(false), NotSure] {
            let readiness = Readiness::of(&[(*item, answer)]);
            assert_ne!(readiness.verdict, Verdict::Go, "{item}");
            let said = readiness.reasons[0].to_string();
            assert!(said.matches(". ").count() >= 1, "a fact, then what to do: {said}");
            assert_eq!(said.contains(", or you are not sure. "), answer == NotSure, "{said}");
        }
    }
}

/// The table of the rules, row by row: what got a careful answer, what got the good one, the verdict, contact, locks, holds, lower.
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
            &[Item::Fall, Item::FallRecent],
            &[Item::FallHurt],
            NotToday,
            Contact::Therapist,
            &[],
            &[Hold::Fall],
            false,
        ),
        (&[Item::Fall], &[Item::FallHurt, Item::FallRecent], Gentler, Contact::Therapist, &[], &[], true),
        (
            &[Item::Fall, Item::FallHurt],
            &[Item::FallRecent],
            NotToday,
            Contact::Clinician,
            &[Lock::FallHurt],
            &[],
            true,
        ),
        // It was not asked whether it did harm: locked.
        (&[Item::Fall], &[], NotToday, Contact::Clinician, &[Lock::FallHurt], &[Hold::Fall], false),
        (&[Item::Pain], &[], NotToday, Contact::Clinician, &[], &[], false),
        (&[Item::Ill], &[], NotToday, Contact::Nobody, &[], &[], false),
        (&[Item::Alcohol], &[], NotToday, Contact::Nobody, &[], &[], false),
        (&[Item::Medicine], &[], NotToday, Contact::Pharmacist, &[], &[], false),
        // As it was kept when both were one sentence, and as it is asked now.
        (&[Item::Medicine], &[Item::MedicineAgreed], Gentler, Contact::Nobody, &[], &[], false),
        (
            &[Item::Medicine],
            &[Item::MedicineDrowsy, Item::MedicineAgreed],
            Gentler,
            Contact::Nobody,
            &[],
            &[],
            false,
        ),
        (
            &[Item::Medicine, Item::MedicineDrowsy],
            &[Item::MedicineAgreed],
            NotToday,
            Contact::Pharmacist,
            &[],
            &[],
            false,
        ),
        (
            &[Item::Medicine, Item::MedicineAgreed],
            &[Item::MedicineDrowsy],
            NotToday,
            Contact::Pharmacist,
            &[],
            &[],
            false,
        ),
        (&[Item::Sore], &[], Gentler, Contact::Nobody, &[], &[], false),
        (&[Item::Night], &[], Gentler, Contact::Nobody, &[], &[], false),
        (&[Item::House], &[], Gentler, Contact::Nobody, &[], &[], false),
    ];
    for (bad, good, verdict, contact, locks, holds, lower) in rows {
        let found = of(bad, good);
        assert_eq!(found.verdict, *verdict, "{bad:?}");
        assert_eq!(found.reasons[0].contact, *contact, "{bad:?}");
        assert_eq!(
            (found.locks.as_slice(), found.holds.as_slice(), found.lower),
            (*locks, *holds, *lower),
            "{bad:?}"
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
    for item in Item::SINGLY.into_iter().chain(Page::Body.items(EVERYTHING)) {
        assert!(of(&[item], &[]).reasons.iter().all(|reason| !reason.can_be_put_right()), "{item}");
    }
}

#[test]
fn another_answer_than_the_good_one_to_a_page_asks_its_items_one_by_one() {
    for (answer, page) in [(Yes, Page::Body), (NotSure, Page::Body), (No, Page::Room), (NotSure, Page::Room)]
    {
        let mut check = Check::new(Today::default());
        while check.asked() != Some(Asked::Page(page)) {
            check.reply(check.asked().unwrap().good());
        }
        check.reply(answer);
        let place = check.place();
        for item in page.items(Today::default()) {
            assert_eq!((check.asked(), check.place()), (Some(Asked::One(item)), place));
            check.reply(item.good());
        }
        asked(&mut check, Asked::good);
        assert_eq!(check.readiness().verdict, Verdict::Go, "each got the good answer after all");
    }
}

#[test]
fn what_must_be_known_of_a_fall_is_asked_at_once() {
    let mut check = Check::new(Today::default());
    let answers = all_but(&[Item::Fall], |_| Yes);
    let asked = asked(&mut check, answers);
    let at = asked.iter().position(|asked| *asked == Asked::One(Item::Fall)).unwrap();
    let follow = [Item::FallHurt, Item::FallRecent, Item::Head].map(Asked::One);
    assert_eq!(asked[at + 1..at + 4], follow);
    assert_eq!(asked.last(), Some(&Asked::Page(Page::Room)), "a fall long past does not stop the practice");
    assert_eq!(check.readiness().verdict, Verdict::Gentler);
}

#[test]
fn a_follow_up_question_belongs_to_the_question_before_it() {
    let mut check = Check::new(Today::default());
    while check.asked() != Some(Asked::One(Item::Fall)) {
        check.reply(No);
    }
    let place = check.place();
    check.reply(Yes);
    for follow_up in Item::Fall.follow_ups() {
        assert_eq!((check.asked(), check.place()), (Some(Asked::One(*follow_up)), place));
        check.reply(No);
    }
    assert_eq!((check.asked(), check.place().0), (Some(Asked::One(Item::Head)), place.0 + 1));
}

#[test]
fn who_has_an_emergency_sign_is_asked_nothing_more() {
    for (item, lock) in [(Item::Chest, Lock::Chest), (Item::Breath, Lock::Breath), (Item::Nerve, Lock::Nerve)]
    {
        for answer in [Yes, NotSure] {
            let mut check = Check::new(EVERYTHING);
            let asked = asked(&mut check, all_but(&[item], |_| answer));
            assert_eq!(asked.last(), Some(&Asked::One(item)));
            assert_eq!((check.asked(), check.readiness().locks), (None, vec![lock]));
        }
    }
}

#[test]
fn not_today_ends_the_questions_before_the_room_and_the_gravest_reason_comes_first() {
    let mut check = Check::new(EVERYTHING);
    let asked = asked(&mut check, all_but(&[Item::Night, Item::Ill, Item::Head], |_| Yes));
    assert!(!asked.contains(&Asked::Page(Page::Room)), "the room is not asked about");
    let items: Vec<Item> = check.readiness().reasons.iter().map(|reason| reason.item).collect();
    assert_eq!(items, [Item::Head, Item::Ill, Item::Night]);
}

#[test]
fn what_is_read_aloud_is_what_is_on_the_screen() {
    let words = |id: &String| {
        crate::plan::phrase::Phrase::named(id).unwrap_or_else(|| panic!("{id} is no phrase")).words()
    };
    for today in [Today { partner: false, ..Today::default() }, Today { partner: false, ..EVERYTHING }] {
        let mut check = Check::new(today);
        while let Some(asked) = check.asked() {
            let spoken = check.spoken_ids();
            let said: Vec<&str> = spoken.iter().map(words).collect();
            let shown: Vec<&str> = match asked {
                Asked::One(item) => vec![item.question()],
                Asked::Page(page) => std::iter::once(page.question()).chain(check.lines()).collect(),
            };
            assert_eq!(said, shown);
            check.reply(asked.good());
        }
    }
}

/// How grave a result is, so that two can be compared: locks, then the verdict, then holds and a lower step.
fn is_at_least(careful: &Readiness, other: &Readiness) -> bool {
    let within = |lock: &Lock| careful.locks.contains(lock);
    careful.verdict >= other.verdict
        && other.locks.iter().all(within)
        && other.holds.iter().all(|hold| careful.holds.contains(hold))
        && (careful.lower || !careful.holds.is_empty() || !other.lower)
}

#[test]
fn not_sure_is_never_the_good_answer() {
    for item in Item::ALL {
        assert!(!item.is_good(NotSure) && item.is_good(item.good()) && !item.is_good(item.answer_if(false)));
    }
}

proptest! {
    /// Whatever else was answered: "not sure" leads to what the careful answer leads to, and to no less than the good one.
    #[test]
    fn not_sure_never_gives_less_than_the_careful_answer(
        answers in prop::collection::vec((prop::sample::select(Item::ALL), prop::sample::select(YesNoNotSure::ALL)), 0..12),
        item in prop::sample::select(Item::ALL),
    ) {
        let with = |answer| {
            let mut answers = answers.clone();
            answers.push((item, answer));
            Readiness::of(&answers)
        };
        let (unsure, careful) = (with(NotSure), with(item.answer_if(false)));
        prop_assert_eq!((unsure.verdict, &unsure.locks), (careful.verdict, &careful.locks));
        prop_assert_eq!((&unsure.holds, unsure.lower), (&careful.holds, careful.lower));
        prop_assert!(is_at_least(&unsure, &with(item.good())));
    }

    /// The same over a whole day of questions: whoever answers "not sure" wherever another answers carefully is asked the
    /// same, and gets the same.
    #[test]
    fn a_day_of_not_sure_is_a_day_of_careful_answers(careful in prop::collection::vec(any::<bool>(), 60)) {
        let day = |unsure: bool| {
            let mut check = Check::new(EVERYTHING);
            let mut nth = 0;
            let mut all = Vec::new();
            while let Some(asked) = check.asked() {
                let bad = match asked {
                    Asked::One(item) => item.answer_if(false),
                    Asked::Page(Page::Body) => Yes,
                    Asked::Page(_) => No,
                };
                let answer = if careful[nth] { asked.good() } else if unsure { NotSure } else { bad };
                check.reply(answer);
                all.push(asked);
                nth += 1;
            }
            let Readiness { verdict, locks, holds, lower, .. } = check.readiness();
            (all, verdict, locks, holds, lower)
        };
        prop_assert_eq!(day(true), day(false));
    }
}
