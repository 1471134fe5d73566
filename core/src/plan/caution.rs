//! The two statements shown wherever practice can be started: what comes first, and what this program does not
//! promise. Each drill has its own cautions in addition.

/// What comes first.
pub const FIRST: &str =
    "Local codes, the local emergency number, your therapist's advice and licensed practice come first.";

/// What this is not, always.
pub const NO_PROMISE: &str = "Nothing here promises to prevent falls.";

/// What it is and is not, where every call names a movement that the person makes.
pub const WHAT_IT_IS: &str = "A called movement trains a movement you choose. Only a real push, tug or slip trains a reaction, and \
                              nothing here promises to prevent falls.";
