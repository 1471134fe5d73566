//! The sentences that must be true before practice, the pages they are on, and the follow-up questions when one is not
//! true.

use super::Today;
use crate::words;

/// A page of sentences that belong together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Page {
    /// How the person is.
    Body,
    /// Whether the room is safe.
    Room,
    /// Whether the partner is there, well and informed.
    Partner,
}

/// One sentence that must be true. Its name is what the journal keeps.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Item {
    /// No chest pain or pressure.
    Chest,
    /// Not badly short of breath.
    Breath,
    /// No new weakness or numbness, no trouble speaking or seeing.
    Nerve,
    /// Not dizzy, nor since last time.
    Dizzy,
    /// Follow-up: the dizziness passed within five minutes.
    DizzyPassed,
    /// Has not fainted since last time.
    Faint,
    /// Has not fallen since last time.
    Fall,
    /// Follow-up: the fall did no harm.
    FallUnhurt,
    /// Follow-up: the fall was more than two days ago.
    FallPast,
    /// No knock to the head.
    Head,
    /// No new pain.
    Pain,
    /// Legs and back are not sore.
    Sore,
    /// No fever, no upset stomach.
    Ill,
    /// Slept well last night.
    Night,
    /// No alcohol today.
    Alcohol,
    /// No new medicine.
    Medicine,
    /// Follow-up: the new medicine causes no trouble.
    MedicineAgreed,
    /// Only after a practice that ended unwell: it passed, and was nothing grave.
    UnwellPassed,
    /// The counter is fixed.
    Counter,
    /// Nothing hot or sharp.
    Hot,
    /// The floor is dry and clear.
    Floor,
    /// The light is good.
    Light,
    /// Clear floor or a wall behind the person.
    Behind,
    /// Wears firm shoes.
    Shoes,
    /// Glasses and hearing aids.
    Aids,
    /// A phone within reach.
    Phone,
    /// A chair, and water.
    Chair,
    /// Only for harder steps: somebody is in the house.
    House,
    /// The partner is there.
    PartnerHere,
    /// The partner is well.
    PartnerWell,
    /// The partner knows where hands go.
    PartnerKnows,
    /// Both want to practice.
    BothWilling,
}

words! {
    Page {
        Body => "body",
        Room => "room",
        Partner => "partner",
    }
    Item {
        Chest => "no chest pain",
        Breath => "breathing as usual",
        Nerve => "no new weakness or numbness",
        Dizzy => "not dizzy",
        DizzyPassed => "dizziness passed in five minutes",
        Faint => "not fainted",
        Fall => "not fallen",
        FallUnhurt => "the fall did no harm",
        FallPast => "the fall was over two days ago",
        Head => "no knock to the head",
        Pain => "no new pain",
        Sore => "not sore",
        Ill => "not ill",
        Night => "slept well",
        Alcohol => "no alcohol",
        Medicine => "no new medicine",
        MedicineAgreed => "the new medicine is no trouble",
        UnwellPassed => "feeling unwell passed",
        Counter => "counter fixed",
        Hot => "nothing hot or sharp",
        Floor => "floor dry and clear",
        Light => "good light",
        Behind => "clear floor or wall behind",
        Shoes => "firm shoes",
        Aids => "glasses and hearing aids",
        Phone => "phone in reach",
        Chair => "chair and water in reach",
        House => "somebody in the house",
        PartnerHere => "partner within reach",
        PartnerWell => "partner well",
        PartnerKnows => "partner knows where hands go",
        BothWilling => "both willing",
    }
}

/// A line of a page, and the sentences that it summarizes.
type Line = (&'static str, &'static [Item]);

// A line fits one line of large letters at 200 columns, so that seven of them fit on one screen.
const BODY: &[Line] = &[
    ("My chest does not hurt. I breathe as always.", &[Item::Chest, Item::Breath]),
    ("No new weak or numb part. I speak and see well.", &[Item::Nerve]),
    ("I have not been dizzy and have not fainted.", &[Item::Dizzy, Item::Faint]),
    ("I have not had a fall or hit my head.", &[Item::Fall, Item::Head]),
    ("No new pain, no sore legs. I am not ill.", &[Item::Pain, Item::Sore, Item::Ill]),
    ("I slept well. No alcohol and no new pills.", &[Item::Night, Item::Alcohol, Item::Medicine]),
];
const UNWELL: Line = ("What I felt last time soon passed.", &[Item::UnwellPassed]);
const ROOM: &[Line] = &[
    ("The counter is fixed. Nothing slides or tips.", &[Item::Counter]),
    ("Nothing near me is hot or sharp.", &[Item::Hot]),
    ("The floor is dry and clear, the light good.", &[Item::Floor, Item::Light]),
    ("Behind me: a wall, or two big steps of floor.", &[Item::Behind]),
    ("I wear firm shoes. Glasses on, hearing aids in.", &[Item::Shoes, Item::Aids]),
    ("A phone, water and a firm chair are in reach.", &[Item::Phone, Item::Chair]),
];
const HOUSE: Line = (Item::House.sentence(), &[Item::House]);
const PARTNER: &[Line] = &[
    (Item::PartnerHere.sentence(), &[Item::PartnerHere]),
    (Item::PartnerWell.sentence(), &[Item::PartnerWell]),
    (Item::PartnerKnows.sentence(), &[Item::PartnerKnows]),
    (Item::BothWilling.sentence(), &[Item::BothWilling]),
];

impl Page {
    fn all(self, today: Today) -> impl Iterator<Item = Line> {
        let (lines, more) = match self {
            Self::Body => (BODY, today.unwell_last_time.then_some(UNWELL)),
            Self::Room => (ROOM, today.harder.then_some(HOUSE)),
            Self::Partner => (PARTNER, None),
        };
        lines.iter().copied().chain(more)
    }

    /// The sentence above its lines.
    pub const fn intro(self) -> &'static str {
        match self {
            Self::Body => "All of this is true today, and since last time:",
            Self::Room | Self::Partner => "All of this is true today:",
        }
    }

    /// Its lines, seven at most.
    pub fn lines(self, today: Today) -> Vec<&'static str> {
        self.all(today).map(|(line, _)| line).collect()
    }

    /// The phrases that read its lines aloud, by their ids; the session's own pages for the partner have none.
    pub fn spoken_ids(self, today: Today) -> Vec<String> {
        let (page, more) = match self {
            Self::Body => ("body", today.unwell_last_time.then_some("ready.unwell")),
            Self::Room => ("room", today.harder.then_some("ready.house")),
            Self::Partner => return Vec::new(),
        };
        let lines = self.lines(today).len() - usize::from(more.is_some());
        let own = (1..=lines).map(|line| format!("ready.{page}.{line}"));
        own.chain(more.map(str::to_owned)).collect()
    }

    /// The sentences that its lines summarize.
    pub fn items(self, today: Today) -> Vec<Item> {
        self.all(today).flat_map(|(_, items)| items.iter().copied()).collect()
    }

    /// The page after it.
    pub(super) fn next(self, today: Today) -> Option<Self> {
        match self {
            Self::Body => Some(Self::Room),
            Self::Room => today.partner.then_some(Self::Partner),
            Self::Partner => None,
        }
    }
}

impl Item {
    /// What is asked by itself, after "something is not". True is the good answer.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::Chest => "My chest does not hurt or feel tight.",
            Self::Breath => "I am not badly short of breath.",
            Self::Nerve => "No part of me is newly weak or numb. I speak and see as I always do.",
            Self::Dizzy => "I have not been dizzy since last time.",
            Self::DizzyPassed => "I was dizzy for less than five minutes.",
            Self::Faint => "I have not fainted since last time.",
            Self::Fall => "I have not had a fall since last time.",
            Self::FallUnhurt => "The fall did not hurt me.",
            Self::FallPast => "The fall was more than two days ago.",
            Self::Head => "I have not hit my head since last time.",
            Self::Pain => "I have no new pain.",
            Self::Sore => "My legs and my back are not sore.",
            Self::Ill => "I am not ill: no fever, no upset stomach.",
            Self::Night => "I slept well last night.",
            Self::Alcohol => "I have had no alcohol today.",
            Self::Medicine => "I take no new pills or drops.",
            Self::MedicineAgreed => {
                "They do not make me sleepy or dizzy. My doctor or chemist says that I may practice."
            }
            Self::UnwellPassed => {
                "I felt unwell last time. It soon passed. It was not my chest or my breath, and no part of me went weak \
                 or numb."
            }
            Self::Counter => "The counter is fixed. Nothing near me slides or tips.",
            Self::Hot => "Nothing near me is hot or sharp. Doors and drawers are shut.",
            Self::Floor => "The floor is dry and clear. No pets or children are on it.",
            Self::Light => "The light is good.",
            Self::Behind => "Behind me is a wall, or clear floor for two big steps (1.5 m).",
            Self::Shoes => "I wear firm shoes, not socks or slippers.",
            Self::Aids => "I have my glasses on and my hearing aids in, if I need them.",
            Self::Phone => "A phone is in reach.",
            Self::Chair => "Some water and a firm chair are in reach.",
            Self::House => "Somebody else is in the house.",
            Self::PartnerHere => "My partner is within reach of me, with both hands free.",
            Self::PartnerWell => "My partner is well today, has a good back, and has had no alcohol.",
            Self::PartnerKnows => "My partner knows where hands go, and where they must not go.",
            Self::BothWilling => "We both want to practice. We both know that either of us may stop.",
        }
    }

    /// The questions that follow when it is not true.
    pub const fn follow_ups(self) -> &'static [Self] {
        match self {
            Self::Dizzy => &[Self::DizzyPassed],
            Self::Fall => &[Self::FallUnhurt, Self::FallPast],
            Self::Medicine => &[Self::MedicineAgreed],
            _ => &[],
        }
    }
}
