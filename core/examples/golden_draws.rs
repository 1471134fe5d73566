//! Does a WebAssembly build draw the golden files? The host writes a request into [`room`], calls [`draw`], and reads the
//! answer at [`place`]. `scripts/wasm.sh` builds this; `.ci/golden_draws.mjs` is the host.
//!
//! A request has the name of a golden file in its first line, a seed in the second, and then the prescription. The answer is
//! the rows of `tests/golden`, or a text that begins with `Error:`.
// Exported names must keep their spelling, and the compiler counts the attribute for that as unsafe. There is no unsafe block.
#![allow(unsafe_code)]

#[path = "../../tests/golden/lines.rs"]
mod lines;

use std::sync::{Mutex, MutexGuard, PoisonError};

use counterpoise_core::draw::schedule::{Method, Seed};
use counterpoise_core::plan::prescription::Prescription;

static TEXT: Mutex<Vec<u8>> = Mutex::new(Vec::new());

fn text() -> MutexGuard<'static, Vec<u8>> {
    TEXT.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Makes room for a request of this many bytes and returns its address.
#[unsafe(no_mangle)]
pub extern "C" fn room(length: usize) -> *const u8 {
    *text() = vec![0; length];
    place()
}

/// Replaces the request by its answer and returns the length of the answer in bytes.
#[unsafe(no_mangle)]
pub extern "C" fn draw() -> usize {
    let mut text = text();
    *text = answer(&text).unwrap_or_else(|fact| format!("Error: {fact}")).into_bytes();
    text.len()
}

/// The address of the answer.
#[unsafe(no_mangle)]
pub extern "C" fn place() -> *const u8 {
    text().as_ptr()
}

fn answer(request: &[u8]) -> Result<String, String> {
    let request = std::str::from_utf8(request).map_err(|error| error.to_string())?;
    let mut parts = request.splitn(3, '\n');
    let mut part = || parts.next().ok_or("a request is a name, a seed and a prescription");
    let (name, seed, prescription) = (part()?, part()?, part()?);
    let seed = Seed::from_hex(seed).map_err(|error| error.to_string())?;
    let prescription =
        Prescription::read(name, prescription.as_bytes()).map_err(|refusal| refusal.to_string())?;
    lines::of(Method::One, name, &prescription, seed).map_err(|error| error.to_string())
}
