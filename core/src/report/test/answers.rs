//! Every answer that was not good stands in the report, with what it led to and who lifted that.

use super::{material, nov, report_of, session};
use crate::course::past::sample::{at, prescription};
use crate::course::past::{Barrier, Lifted};
use crate::health::lock::Lock;
use crate::health::readiness::{Item, Readiness};
use crate::health::suitability::{Answer, Reply, Topic};
use crate::health::yes_no::YesNoNotSure::{self, No, NotSure, Yes};
use crate::plan::prescription::Prescription;
use crate::record::{Id, Identified, Stamp, SuitabilityRow, TopicRow};
use crate::report::{Asked, Cleared, Material, NotGood};

/// Good answers of a day to everything, but for these.
fn answered(day: i8, partner: bool, not_good: &[(Topic, Reply)]) -> Identified<SuitabilityRow> {
    let good = |topic: Topic| if topic.is_good_if_yes() { Answer::Yes } else { Answer::No };
    let reply = |topic: Topic| {
        let other = not_good.iter().find(|(other, _)| *other == topic);
        other.map_or_else(|| Reply::new(good(topic)), |(_, reply)| *reply)
    };
    let answers = Topic::questions(partner).map(|topic| TopicRow::new(topic, reply(topic))).collect();
    let at = Stamp::from(&at(day));
    let id = Id::of(at.text());
    Identified { id, row: SuitabilityRow { at, partner, answers, replaces: Vec::new() } }
}

fn reply(answer: Answer) -> Reply {
    Reply::new(answer)
}

fn told(material: &Material, program: &Prescription, since: i8, until: i8) -> Vec<String> {
    let one = |one: &NotGood| format!("{} {} | {}", one.day.day(), one.said(), one.consequences());
    report_of(material, program, nov(since), nov(until)).not_good.iter().map(one).collect()
}

#[test]
fn each_answer_about_suitability_that_is_not_good_is_listed_whatever_the_topic() {
    for topic in Topic::questions(true) {
        let bad = if topic.is_good_if_yes() { Answer::No } else { Answer::Yes };
        for answer in [bad, Answer::NotSure] {
            let answered = vec![answered(3, true, &[(topic, reply(answer))])];
            let material = Material { answered, ..material(Vec::new()) };
            let found = report_of(&material, &prescription(), nov(1), nov(30)).not_good;
            assert_eq!(found.len(), 1, "{topic}: {found:?}");
            assert_eq!((found[0].day, found[0].asked), (nov(3), Asked::Suitability));
            assert_eq!(found[0].said(), format!("{topic}: {answer}"));
            assert_eq!(found[0].is_open(), topic.locks(), "{topic}: {:?}", found[0].led_to);
            assert!(!found[0].led_to.is_empty(), "{topic}");
        }
        // Without any answer it is the careful case, and says so.
        let mut left_out = answered(3, true, &[]);
        left_out.row.answers.retain(|row| row.topic != topic);
        let material = Material { answered: vec![left_out], ..material(Vec::new()) };
        let found = report_of(&material, &prescription(), nov(1), nov(30)).not_good;
        assert_eq!(found.iter().map(NotGood::said).collect::<Vec<_>>(), [format!("{topic}: not answered")]);
        assert_eq!(found[0].is_open(), topic.locks());
    }
    let fine = Material { answered: vec![answered(3, true, &[])], ..material(Vec::new()) };
    assert!(told(&fine, &prescription(), 1, 30).is_empty());
}

#[test]
fn who_cleared_or_accepted_an_answer_is_named_with_the_day_and_its_limits_stay() {
    let text =
        Prescription::ready_text("gentle").unwrap().replace("issued_by = \"\"", "issued_by = \"K. L.\"");
    let text = text.replace("issued_on = 2026-11-25", "issued_on = 2026-11-08");
    let accepts = "[[accepts]]\ntopic = \"blood thinners\"\nwho = \"M. N.\"\nwhen = 2026-11-07\n";
    let program = Prescription::read("test.toml", format!("{text}\n{accepts}").as_bytes()).unwrap();
    let agreed = Reply { agreed: Some(Yes), ..reply(Answer::NotSure) };
    let refused = Reply { agreed: Some(NotSure), ..reply(Answer::Yes) };
    let row = answered(
        3,
        false,
        &[
            (Topic::ChestPain, reply(Answer::Yes)),
            (Topic::Thinners, reply(Answer::Yes)),
            (Topic::PainPills, agreed),
            (Topic::Sight, refused),
            (Topic::Sugar, reply(Answer::Yes)),
        ],
    );
    let (id, what) = (row.id.to_string(), Barrier::Topic(Topic::ChestPain));
    let mut material = Material { answered: vec![row], ..material(Vec::new()) };
    material.past.lifted.push(Lifted { session: id.clone(), what });
    material.cleared.push(Cleared { session: id, what, on: nov(5), by: "Dr. A. B.".to_owned() });
    let cautious = "limits: Only what you practice alone. Up to step 3 of each kind of practice. One hand always rests on the \
                    counter. (as long as the answer holds)";
    assert_eq!(
        told(&material, &program, 1, 30),
        [
            format!("3 chest pain: yes | a clinician first (cleared by Dr. A. B. on 2026-11-05); {cautious}"),
            "3 blood thinners: yes | a clinician first (accepted by M. N. on 2026-11-07); limits: Only what you practice \
             alone. (as long as the answer holds)"
                .to_owned(),
            format!(
                "3 strong pain pills: not sure; a clinician agreed: yes | a clinician first (lifted: the person says a \
                 clinician agreed on 2026-11-03); {cautious}"
            ),
            "3 low sugar: yes | advice: Eat first, and keep something sweet in reach. (as long as the answer holds)"
                .to_owned(),
            "3 sight: yes; a clinician agreed: not sure | a clinician first (not cleared)".to_owned(),
        ]
    );
    // Under a program that accepts nothing, that lock stands.
    let other = told(&material, &prescription(), 1, 30);
    assert_eq!(other[1], "3 blood thinners: yes | a clinician first (not cleared)");
}

#[test]
fn later_answers_hide_no_earlier_one_and_what_still_holds_stays_in_later_reports() {
    let bad = [Topic::ChestPain, Topic::Thinners, Topic::House].map(|topic| (topic, reply(Answer::Yes)));
    let first = answered(3, false, &bad);
    let mut second = answered(9, false, &[(Topic::House, reply(Answer::NotSure))]);
    second.row.replaces.push(first.id);
    let later = second.id.to_string();
    let mut material = Material { answered: vec![first, second], ..material(Vec::new()) };
    let all = told(&material, &prescription(), 1, 30);
    assert_eq!(all.len(), 4, "{all:#?}");
    assert_eq!(
        all[0], "3 chest pain: yes | a clinician first (not cleared)",
        "another answer is no clearance"
    );
    assert_eq!(all[1], "3 blood thinners: yes | a clinician first (replaced by later answers on 2026-11-09)");
    assert!(all[2].ends_with("(replaced by later answers on 2026-11-09)"), "{}", all[2]);
    assert!(all[3].starts_with("9 alone in the house: not sure | limits: "), "{}", all[3]);
    // Until the later ones were given, the first ones held.
    assert_eq!(
        told(&material, &prescription(), 1, 8)[1],
        "3 blood thinners: yes | a clinician first (not cleared)"
    );
    let still = [all[0].clone(), all[3].clone()];
    assert_eq!(told(&material, &prescription(), 20, 30), still, "what holds stands, whenever it was said");
    // A clearance of the later answers was given after the first ones.
    let what = Barrier::Topic(Topic::ChestPain);
    material.past.lifted.push(Lifted { session: later.clone(), what });
    material.cleared.push(Cleared { session: later, what, on: nov(12), by: "Dr. A. B.".to_owned() });
    assert!(
        told(&material, &prescription(), 1, 30)[0]
            .contains("a clinician first (cleared by Dr. A. B. on 2026-11-12)")
    );
    assert_eq!(told(&material, &prescription(), 20, 30), still[1..]);
}

#[test]
fn an_old_sentence_that_was_not_true_is_listed_and_one_that_was_true_is_not() {
    let mut row = answered(3, false, &[]);
    let is_old = |topic: &&Topic| topic.whole() == **topic && !topic.is_about_partner();
    let old =
        |answer| Topic::ALL.iter().filter(is_old).map(move |topic| TopicRow::new(*topic, reply(answer)));
    row.row.answers = old(Answer::True).collect();
    let of = |row: &Identified<SuitabilityRow>| {
        told(&Material { answered: vec![row.clone()], ..material(Vec::new()) }, &prescription(), 1, 30)
    };
    assert!(of(&row).is_empty());
    row.row.answers = old(Answer::NotTrue).collect();
    let not_true = of(&row);
    assert_eq!(not_true.len(), row.answers.len());
    assert!(not_true.iter().all(|one| one.contains(": not true | ")), "{not_true:#?}");
    assert!(
        not_true
            .contains(&"3 heart or blood pressure: not true | a clinician first (not cleared)".to_owned())
    );
}

/// The good answer to a question, and both others.
fn others(item: Item) -> [YesNoNotSure; 2] {
    if item.good() == No { [Yes, NotSure] } else { [No, NotSure] }
}

#[test]
fn each_answer_before_practice_that_is_not_good_is_listed_with_the_locks_and_holds_that_come_of_it() {
    for item in Item::ALL {
        for answer in others(*item) {
            let asked = session(nov(4)).but(|session| session.ready = vec![(*item, answer)]);
            let material = material(vec![asked]);
            let found = report_of(&material, &prescription(), nov(1), nov(30)).not_good;
            assert_eq!(found.len(), 1, "{item}");
            assert_eq!(
                (found[0].asked, found[0].said()),
                (Asked::BeforePractice, format!("{item}: {answer}"))
            );
            let whole = Readiness::of(&[(*item, answer)]);
            let words = found[0].consequences();
            for lock in &whole.locks {
                assert!(words.contains(&format!("locked: {lock} (not cleared)")), "{item}: {words}");
            }
            for hold in &whole.holds {
                assert!(
                    words.contains(&format!("held for 48 hours: {hold} (ends by itself)")),
                    "{item}: {words}"
                );
            }
            for reason in &whole.reasons {
                assert!(words.contains(reason.verdict.name()), "{item}: {words}");
            }
            assert_eq!(found[0].is_open(), !whole.locks.is_empty());
            assert_eq!(words == "nothing by itself", whole.reasons.is_empty(), "{item}: {words}");
        }
    }
    let fine = session(nov(4))
        .but(|session| session.ready = Item::ALL.iter().map(|item| (*item, item.good())).collect());
    assert!(told(&material(vec![fine]), &prescription(), 1, 30).is_empty());
}

#[test]
fn a_reason_to_see_a_clinician_and_a_lock_of_before_the_period_are_listed_and_what_was_set_aside_is_not() {
    let chest =
        session(nov(4)).but(|session| session.ready = vec![(Item::Chest, NotSure), (Item::Sore, Yes)]);
    let mut material = material(vec![chest, session(nov(20))]);
    material.details[1].clinician_first = vec![crate::record::Answer::ClinicianFirst(Some(NotSure))];
    let said = told(&material, &prescription(), 18, 30);
    assert_eq!(
        said,
        [
            "4 chest pain: not sure | not today (ends by itself); locked: chest pain or pressure (not cleared)",
            "20 a reason to see a clinician first: not sure | not today (ends by itself)",
        ]
    );
    let id = material.past.sessions[0].id.clone();
    material.past.lifted.push(Lifted { session: id, what: Barrier::Lock(Lock::Chest) });
    assert_eq!(told(&material, &prescription(), 18, 30).len(), 1, "cleared");
    assert_eq!(told(&material, &prescription(), 1, 30).len(), 3, "that period keeps it");
    material.past.sessions[0].discounted = true;
    assert_eq!(told(&material, &prescription(), 1, 30).len(), 1, "it may be somebody else's");
}
