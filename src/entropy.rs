//! Where do a fresh seed and an id come from? From the operating system's generator, which only this file asks.

use std::io;

use rand::TryRng;
use rand::rngs::{SysError, SysRng};

use counterpoise_core::draw::schedule::Seed;
use counterpoise_core::record::Id;

/// The operating system gave no random bytes.
#[derive(Debug, thiserror::Error)]
#[error("no random numbers are available from the system: {0}")]
pub struct EntropyError(#[from] SysError);

impl EntropyError {
    /// What to try.
    pub fn hint(&self) -> &'static str {
        "restart the computer; if that does not help, give a seed with --seed"
    }
}

/// A fresh seed from the operating system.
///
/// # Errors
/// If the operating system gives no random bytes.
///
/// ```
/// use counterpoise::entropy;
/// assert_ne!(entropy::seed().unwrap(), entropy::seed().unwrap());
/// ```
pub fn seed() -> Result<Seed, EntropyError> {
    let mut bytes = [0; 32];
    SysRng.try_fill_bytes(&mut bytes)?;
    Ok(Seed::from_bytes(bytes))
}

/// A new id: of a session, an entry, a journal or whoever writes one. It is drawn by itself, so that it does not tell a seed.
///
/// # Errors
/// If the operating system gives no random bytes.
///
/// ```
/// use counterpoise::entropy;
/// assert_ne!(entropy::id().unwrap(), entropy::id().unwrap());
/// ```
pub fn id() -> io::Result<Id> {
    let mut bytes = [0; 16];
    SysRng.try_fill_bytes(&mut bytes).map_err(io::Error::other)?;
    Ok(Id::from_bytes(bytes))
}
