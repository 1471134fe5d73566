//! Where chance comes from: a 256-bit seed, and the numbered streams of one named generator.
//! Not what is drawn from them.

/// The key of a session's ChaCha12 generator.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Seed([u8; 32]);

impl std::fmt::Debug for Seed {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Seed(..)")
    }
}
