//! What a person can answer: each answer with its number in files, its key, the words beside the key, and the words in
//! which it is read back.

use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::health::lock::Lock;
pub use crate::health::yes_no::YesNoNotSure;

/// An answer that is kept as a number.
pub trait Numbered: Copy + Ord + 'static {
    /// The least and the greatest number.
    const LIMITS: (u8, u8);
    /// The keys that give it, in the order of the screen, each with the words beside it.
    const KEYS: &'static [(char, &'static str, Self)];

    /// The number that stands for it in files.
    fn number(self) -> u8;

    /// The answer with this number.
    fn numbered(number: u8) -> Option<Self>;

    /// The answer as it is read back to the person.
    fn words(self) -> String;
}

const fn limits(numbers: &[u8]) -> (u8, u8) {
    let (mut least, mut most, mut nth) = (numbers[0], numbers[0], 1);
    while nth < numbers.len() {
        let number = numbers[nth];
        (least, most) =
            (if number < least { number } else { least }, if number > most { number } else { most });
        nth += 1;
    }
    (least, most)
}

/// For each kind of answer: the number, the key with the words beside it, and the words in which it is read back where
/// those are others. On a scale it is read back as the number with what the ends of the scale mean.
macro_rules! answers {
    ($($(#[$doc:meta])* $kind:ident $($scale:literal)? {
        $($variant:ident = $number:literal $(, $key:literal $beside:literal)? $(=> $back:literal)?;)+
    })+) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum $kind {
            $(#[doc = concat!($number $(, ": ", $beside)? $(, ": ", $back)?)] $variant = $number),+
        }

        impl Numbered for $kind {
            const LIMITS: (u8, u8) = limits(&[$($number),+]);
            const KEYS: &'static [(char, &'static str, Self)] = &[$($(($key, $beside, Self::$variant),)?)+];

            fn number(self) -> u8 {
                self as u8
            }

            fn numbered(number: u8) -> Option<Self> {
                match number {
                    $($number => Some(Self::$variant),)+
                    _ => None,
                }
            }

            fn words(self) -> String {
                let scale: &[&str] = &[$($scale)?];
                let words = match self { $(Self::$variant => [$($back,)? $($beside)?][0]),+ };
                scale.first().map_or_else(|| words.to_owned(), |scale| format!("{} {scale}", self.number()))
            }
        }

        as_number!($kind);
    )+};
}

macro_rules! as_number {
    ($kind:ty) => {
        impl Serialize for $kind {
            fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                to.serialize_u8(self.number())
            }
        }

        impl<'de> Deserialize<'de> for $kind {
            fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                let (number, (least, most)) = (u8::deserialize(from)?, Self::LIMITS);
                Self::numbered(number).ok_or_else(|| {
                    serde::de::Error::custom(format_args!("{number} is not from {least} to {most}"))
                })
            }
        }
    };
}

answers! {
    /// Yes or no.
    YesNo {
        Yes = 1, 'Y' "yes";
        No = 0, 'N' "no";
    }
    /// Which word of the sound check was heard.
    Heard {
        TheWord = 1 => "the right word was heard";
        Another = 0 => "another word or none was heard";
    }
    /// How often.
    Times {
        Never = 0, '0' "not at all";
        Once = 1, '1' "once";
        Twice = 2, '2' "twice";
        ThreeOrMore = 3, '3' "three times or more" => "3 times or more";
    }
    /// How steady.
    Steadiness "on the scale from 1, steady, to 5, lost balance" {
        Steady = 1, '1' "steady";
        ALittleUnsteady = 2, '2' "a little unsteady";
        Unsteady = 3, '3' "unsteady";
        VeryUnsteady = 4, '4' "very unsteady";
        LostBalance = 5, '5' "lost balance";
    }
    /// Why somebody stopped.
    WhyStopped {
        Unwell = 1, '1' "I feel unwell" => "felt unwell";
        Unsteady = 2, '2' "I feel unsteady" => "felt unsteady";
        Other = 3, '3' "something else, such as the door or the phone" => "something else";
    }
    /// What feels wrong.
    Symptom {
        Chest = 1, '1' "my chest hurts or feels tight" => "chest pain or pressure";
        Breath = 2, '2' "I am badly short of breath" => "badly short of breath";
        Nerve = 3, '3' "weak, numb, or trouble to speak or see" => "weak, numb, or trouble speaking or seeing";
        Faint = 4, '4' "I fainted, or nearly did" => "fainted, or nearly";
        Dizzy = 5, '5' "I am dizzy" => "dizzy";
        Other = 6, '6' "something else";
    }
    /// How sure of the own balance in daily life.
    Confidence "on the scale from 1, not sure at all, to 5, quite sure" {
        NotAtAll = 1, '1' "not sure at all";
        NotVery = 2, '2' "not very sure";
        Fairly = 3, '3' "fairly sure";
        Sure = 4, '4' "sure";
        Quite = 5, '5' "quite sure";
    }
    /// How sore after the last practices.
    Soreness "on the scale from 0, not sore, to 3, very sore" {
        NotSore = 0, '0' "not sore";
        ALittle = 1, '1' "a little";
        Sore = 2, '2' "sore";
        VerySore = 3, '3' "very sore";
    }
}

/// Yes and no keep the numbers and keys that they have alone.
impl Numbered for YesNoNotSure {
    const LIMITS: (u8, u8) = (0, 2);
    const KEYS: &'static [(char, &'static str, Self)] = &[
        ('Y', Self::Yes.name(), Self::Yes),
        ('N', Self::No.name(), Self::No),
        ('U', Self::NotSure.name(), Self::NotSure),
    ];

    fn number(self) -> u8 {
        match self {
            Self::No => 0,
            Self::Yes => 1,
            Self::NotSure => 2,
        }
    }

    fn numbered(number: u8) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.number() == number)
    }

    fn words(self) -> String {
        self.name().to_owned()
    }
}

/// The hardest effort, from 0 to 10. Five words are keyed (5-6 moderate, 7-8 vigorous: US Physical Activity Guidelines).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Effort(u8);

impl Effort {
    /// The most.
    pub const HARDEST: Self = Self(10);
}

impl Numbered for Effort {
    const LIMITS: (u8, u8) = (0, 10);
    const KEYS: &'static [(char, &'static str, Self)] = &[
        ('1', "very easy", Self(2)),
        ('2', "easy", Self(4)),
        ('3', "moderate", Self(6)),
        ('4', "hard", Self(8)),
        ('5', "very hard", Self(10)),
    ];

    fn number(self) -> u8 {
        self.0
    }

    fn numbered(number: u8) -> Option<Self> {
        (number <= Self::LIMITS.1).then_some(Self(number))
    }

    fn words(self) -> String {
        format!("{} on the scale from 0 to 10", self.0)
    }
}

as_number!(Effort);

impl fmt::Display for Effort {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl From<bool> for YesNo {
    fn from(yes: bool) -> Self {
        if yes { Self::Yes } else { Self::No }
    }
}

impl Symptom {
    /// What it locks. Dizziness and what has no name of its own lock nothing; they hold, and it is asked next time whether
    /// it passed.
    ///
    /// ```
    /// use counterpoise_core::health::lock::Lock;
    /// use counterpoise_core::record::Symptom;
    /// assert_eq!(Symptom::Chest.lock(), Some(Lock::Chest));
    /// assert_eq!(Symptom::Dizzy.lock(), None);
    /// ```
    pub const fn lock(self) -> Option<Lock> {
        match self {
            Self::Chest => Some(Lock::Chest),
            Self::Breath => Some(Lock::Breath),
            Self::Nerve => Some(Lock::Nerve),
            Self::Faint => Some(Lock::Faint),
            Self::Dizzy | Self::Other => None,
        }
    }
}

#[cfg(test)]
mod test {
    use super::{Numbered, YesNo, YesNoNotSure};

    #[test]
    fn yes_and_no_keep_number_and_key_where_not_sure_is_a_third_answer() {
        for (number, (key, words)) in [(1, ('Y', "yes")), (0, ('N', "no"))] {
            let (two, three) = (YesNo::numbered(number).unwrap(), YesNoNotSure::numbered(number).unwrap());
            assert_eq!((two.words().as_str(), three.words().as_str()), (words, words));
            assert!(
                YesNo::KEYS.contains(&(key, words, two)) && YesNoNotSure::KEYS.contains(&(key, words, three))
            );
        }
        assert_eq!(YesNoNotSure::KEYS[2], ('U', "not sure", YesNoNotSure::NotSure));
        assert_eq!((YesNoNotSure::NotSure.number(), YesNoNotSure::numbered(3)), (2, None));
    }
}
