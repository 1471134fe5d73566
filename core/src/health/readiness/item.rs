//! What is asked before practice: the questions, the pages that ask several at once, and the follow-up questions.

use super::Today;
use crate::health::yes_no::YesNoNotSure;
use crate::words;

/// A page of statements that belong together, asked about at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Page {
    /// What makes today a bad day for practice: none of it should be true.
    Body,
    /// Whether the room is safe: all of it should be true.
    Room,
    /// Whether the partner is there, well and informed: all of it should be true.
    Partner,
}

/// One thing that is asked before practice. Its name is what the journal keeps.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Item {
    /// Chest pain or pressure.
    Chest,
    /// Badly short of breath.
    Breath,
    /// A sign of a stroke: new weakness or numbness, trouble speaking or seeing.
    Nerve,
    /// Dizzy since last time.
    Dizzy,
    /// Follow-up: the dizziness passed within five minutes.
    DizzyPassed,
    /// Fainted since last time.
    Faint,
    /// Fell since last time.
    Fall,
    /// Follow-up: the fall did harm.
    FallHurt,
    /// Follow-up: the fall was in the last two days.
    FallRecent,
    /// A knock to the head.
    Head,
    /// New pain.
    Pain,
    /// Legs or back are sore.
    Sore,
    /// Fever, an upset stomach.
    Ill,
    /// Slept badly last night.
    Night,
    /// Alcohol today.
    Alcohol,
    /// A new medicine.
    Medicine,
    /// Follow-up: it makes sleepy or dizzy.
    MedicineDrowsy,
    /// Follow-up: doctor or pharmacist agreed to practice with it. Before the one above was asked, both in one.
    MedicineAgreed,
    /// Only after a practice that ended unwell: it passed. Before the signs above were asked singly: and was nothing grave.
    UnwellPassed,
    /// The counter is fixed. Before the one below was asked, both in one.
    Counter,
    /// What is near stands firm.
    Firm,
    /// Hot and sharp things are out of reach. Before the one below was asked, both in one.
    Hot,
    /// Doors and drawers are shut.
    Shut,
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
        Chest => "chest pain",
        Breath => "badly short of breath",
        Nerve => "sign of a stroke",
        Dizzy => "dizzy",
        DizzyPassed => "dizziness passed in five minutes",
        Faint => "fainted",
        Fall => "fell",
        FallHurt => "hurt by the fall",
        FallRecent => "fall in the last two days",
        Head => "head knock",
        Pain => "new pain",
        Sore => "sore",
        Ill => "ill",
        Night => "slept badly",
        Alcohol => "alcohol today",
        Medicine => "new medicine",
        MedicineDrowsy => "sleepy or dizzy from the new medicine",
        MedicineAgreed => "new medicine agreed",
        UnwellPassed => "what was felt last time has passed",
        Counter => "counter fixed",
        Firm => "things nearby stand firm",
        Hot => "hot and sharp things out of reach",
        Shut => "doors and drawers shut",
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

/// A line of a page, and the items that it sums up.
type Line = (&'static str, &'static [Item]);

// A line fits one line of large letters at 200 columns, so that seven of them fit on one screen.
const BODY: &[Line] = &[
    ("I have been dizzy since last time.", &[Item::Dizzy]),
    ("I have a new pain.", &[Item::Pain]),
    ("My legs or my back are sore.", &[Item::Sore]),
    ("I am ill: fever or an upset stomach.", &[Item::Ill]),
    ("I slept badly last night.", &[Item::Night]),
    ("I have had alcohol today.", &[Item::Alcohol]),
    ("I take new pills or drops.", &[Item::Medicine]),
];
const ROOM: &[Line] = &[
    ("The counter is fixed. All near it stands firm.", &[Item::Counter, Item::Firm]),
    ("Hot and sharp things are away. Doors are shut.", &[Item::Hot, Item::Shut]),
    ("The floor is dry and clear, the light good.", &[Item::Floor, Item::Light]),
    ("Behind me: a wall, or two big steps of floor.", &[Item::Behind]),
    ("I wear firm shoes. Glasses on, hearing aids in.", &[Item::Shoes, Item::Aids]),
    ("A phone, water and a firm chair are in reach.", &[Item::Phone, Item::Chair]),
];
const HOUSE: Line = ("Somebody else is in the house.", &[Item::House]);
const PARTNER: &[Line] = &[
    ("My partner is in reach, with both hands free.", &[Item::PartnerHere]),
    ("My partner is well, sober and steady today.", &[Item::PartnerWell]),
    ("My partner knows where hands may go.", &[Item::PartnerKnows]),
    ("We both want to practice.", &[Item::BothWilling]),
];

impl Page {
    fn all(self, today: Today) -> impl Iterator<Item = Line> {
        let (lines, more) = match self {
            Self::Body => (BODY, None),
            Self::Room => (ROOM, today.harder.then_some(HOUSE)),
            Self::Partner => (PARTNER, None),
        };
        lines.iter().copied().chain(more)
    }

    /// What is asked about its lines.
    pub const fn question(self) -> &'static str {
        match self {
            Self::Body => "Is any of this true today?",
            Self::Room | Self::Partner => "Is all of this true today?",
        }
    }

    /// The answer that is good, for the page and for each of its items.
    pub const fn good(self) -> YesNoNotSure {
        match self {
            Self::Body => YesNoNotSure::No,
            Self::Room | Self::Partner => YesNoNotSure::Yes,
        }
    }

    /// What an answer to its question says of its lines.
    pub const fn words(self, answer: YesNoNotSure) -> &'static str {
        match (self, answer) {
            (Self::Body, YesNoNotSure::Yes) => "yes, one or more",
            (Self::Body, YesNoNotSure::No) => "no, none of it",
            (Self::Room | Self::Partner, YesNoNotSure::Yes) => "yes, all of it",
            (Self::Room | Self::Partner, YesNoNotSure::No) => "no",
            (_, YesNoNotSure::NotSure) => "not sure",
        }
    }

    /// Its lines, seven at most.
    pub fn lines(self, today: Today) -> Vec<&'static str> {
        self.all(today).map(|(line, _)| line).collect()
    }

    /// The phrases that read its question and its lines aloud, by their ids; the session's own pages for the partner have
    /// none.
    pub(super) fn spoken_ids(self, today: Today) -> Vec<String> {
        let (page, question) = match self {
            Self::Body => ("body", "ready.any"),
            Self::Room => ("room", "ready.all"),
            Self::Partner => return Vec::new(),
        };
        let house = self == Self::Room && today.harder;
        let lines = self.lines(today).len() - usize::from(house);
        let own = (1..=lines).map(|line| format!("ready.{page}.{line}"));
        let house = house.then(|| "ready.house".to_owned());
        std::iter::once(question.to_owned()).chain(own).chain(house).collect()
    }

    /// The items that its lines sum up.
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
    /// What is asked by itself every day, before the pages: what calls for help or for a clinician.
    pub const SINGLY: [Self; 6] =
        [Self::Chest, Self::Breath, Self::Nerve, Self::Faint, Self::Fall, Self::Head];

    /// The question, when it is asked by itself.
    pub const fn question(self) -> &'static str {
        match self {
            Self::Chest => "Have you had chest pain or a tight chest since last time?",
            Self::Breath => "Have you been badly short of breath since last time?",
            Self::Nerve => {
                "Have you had a sign of a stroke since last time: a weak or numb part, or trouble with speech or sight?"
            }
            Self::Dizzy => "Have you been dizzy since last time?",
            Self::DizzyPassed => "Did the dizziness pass within five minutes?",
            Self::Faint => "Have you fainted since last time?",
            Self::Fall => "Have you had a fall since last time?",
            Self::FallHurt => "Did the fall hurt you?",
            Self::FallRecent => "Was the fall in the last two days?",
            Self::Head => "Have you hit your head since last time?",
            Self::Pain => "Do you have a new pain?",
            Self::Sore => "Are your legs or your back sore?",
            Self::Ill => "Are you ill, with a fever or an upset stomach?",
            Self::Night => "Did you sleep badly last night?",
            Self::Alcohol => "Have you had alcohol today?",
            Self::Medicine => "Do you take new pills or drops?",
            Self::MedicineDrowsy => "Do the new pills or drops make you sleepy or dizzy?",
            Self::MedicineAgreed => "Has your doctor or pharmacist said that you may practice with them?",
            Self::UnwellPassed => "You felt unwell last time. Has it passed?",
            Self::Counter => "Is the counter fixed?",
            Self::Firm => "Does all that is near you stand firm?",
            Self::Hot => "Are hot and sharp things out of reach?",
            Self::Shut => "Are doors and drawers shut?",
            Self::Floor => "Is the floor dry, and clear of things, pets and children?",
            Self::Light => "Is the light good?",
            Self::Behind => "Is there a wall behind you, or clear floor for two big steps (1.5 m)?",
            Self::Shoes => "Do you wear firm shoes?",
            Self::Aids => "Do you wear the glasses and hearing aids that you need?",
            Self::Phone => "Is a phone in reach?",
            Self::Chair => "Are water and a firm chair in reach?",
            Self::House => "Is somebody else in the house?",
            Self::PartnerHere => "Is your partner in reach of you, with both hands free?",
            Self::PartnerWell => "Is your partner well, sober and steady today?",
            Self::PartnerKnows => "Does your partner know where hands may go?",
            Self::BothWilling => "Do you both want to practice?",
        }
    }

    /// The phrase that reads its question aloud, by its id; `None` for what is asked one by one only after a page.
    pub(super) const fn spoken_id(self) -> Option<&'static str> {
        match self {
            Self::Chest => Some("ready.chest"),
            Self::Breath => Some("ready.breath"),
            Self::Nerve => Some("ready.nerve"),
            Self::Faint => Some("ready.faint"),
            Self::Fall => Some("ready.fall"),
            Self::Head => Some("ready.head"),
            Self::UnwellPassed => Some("ready.unwell"),
            _ => None,
        }
    }

    /// The good answer. The other one and "not sure" count as the careful one.
    pub const fn good(self) -> YesNoNotSure {
        match self {
            Self::Chest
            | Self::Breath
            | Self::Nerve
            | Self::Dizzy
            | Self::Faint
            | Self::Fall
            | Self::FallHurt
            | Self::FallRecent
            | Self::Head
            | Self::Pain
            | Self::Sore
            | Self::Ill
            | Self::Night
            | Self::Alcohol
            | Self::Medicine
            | Self::MedicineDrowsy => YesNoNotSure::No,
            Self::DizzyPassed
            | Self::MedicineAgreed
            | Self::UnwellPassed
            | Self::Counter
            | Self::Firm
            | Self::Hot
            | Self::Shut
            | Self::Floor
            | Self::Light
            | Self::Behind
            | Self::Shoes
            | Self::Aids
            | Self::Phone
            | Self::Chair
            | Self::House
            | Self::PartnerHere
            | Self::PartnerWell
            | Self::PartnerKnows
            | Self::BothWilling => YesNoNotSure::Yes,
        }
    }

    /// Whether this is the good answer. "Not sure" never is.
    pub fn is_good(self, answer: YesNoNotSure) -> bool {
        answer == self.good()
    }

    /// The questions that follow after another answer than the good one.
    pub const fn follow_ups(self) -> &'static [Self] {
        match self {
            Self::Dizzy => &[Self::DizzyPassed],
            Self::Fall => &[Self::FallHurt, Self::FallRecent],
            Self::Medicine => &[Self::MedicineDrowsy, Self::MedicineAgreed],
            _ => &[],
        }
    }
}
