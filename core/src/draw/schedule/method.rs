//! Which drawing recipe made a session. A recipe that has landed draws the same bits for ever, so a kept session is
//! drawn again by the one that it names.
//!
//! Whatever changes a drawn bit becomes the next method: a variant here, a branch where the compiler then asks for one,
//! golden files and frozen drills of its own. What is drawn in addition, from a new stream, changes no bit of the others
//! and still belongs to the next method, since what is called is then another session.

use std::fmt;

use serde::{Serialize, Serializer};

/// A version of the drawing recipe.
///
/// ```
/// use counterpoise_core::draw::schedule::Method;
/// assert_eq!(Method::try_from(1), Ok(Method::One));
/// let unknown = Method::try_from(7).unwrap_err();
/// assert_eq!(unknown.to_string(), "drawn by method 7; this version knows 1");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Method {
    /// The first.
    One,
}

/// The number of a method that this version does not know.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("drawn by method {0}; this version knows {known}", known = known())]
pub struct UnknownMethod(pub u32);

impl Method {
    /// Every method, oldest first.
    pub const ALL: &[Self] = &[Self::One];
    /// The one that draws new sessions.
    pub const NEWEST: Self = Self::ALL[Self::ALL.len() - 1];

    /// The number that is kept with a session.
    pub const fn number(self) -> u32 {
        match self {
            Self::One => 1,
        }
    }
}

impl TryFrom<u32> for Method {
    type Error = UnknownMethod;

    fn try_from(number: u32) -> Result<Self, UnknownMethod> {
        Self::ALL.iter().copied().find(|method| method.number() == number).ok_or(UnknownMethod(number))
    }
}

impl UnknownMethod {
    /// What to try.
    pub fn hint(self) -> &'static str {
        "Draw it again with the version of Counterpoise that it was practiced with, or a newer one."
    }
}

fn known() -> String {
    Method::ALL.iter().map(ToString::to_string).collect::<Vec<_>>().join(" and ")
}

impl fmt::Display for Method {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.number().fmt(f)
    }
}

impl Serialize for Method {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_u32(self.number())
    }
}

#[cfg(test)]
mod test;
