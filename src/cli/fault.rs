//! What happens when the program itself is at fault: an account is kept in the person's folder, and a plain message
//! takes the place of a trace. Not how the terminal is restored (the display's own hook does that first).

use std::backtrace::Backtrace;
use std::panic::{self, AssertUnwindSafe, PanicHookInfo};
use std::path::{Path, PathBuf};
use std::sync::Mutex;

use super::Failure;
use crate::journal::Folder;

/// The latest fault. To write its account takes seconds, in which a practice that broke down would go on calling:
/// while it breaks down it is only noted.
static LATEST: Mutex<Option<Fault>> = Mutex::new(None);

/// What broke and where; the names of the places are looked up when it is printed.
struct Fault {
    what: String,
    trace: Backtrace,
}

impl Fault {
    fn of(fault: &PanicHookInfo<'_>) -> Self {
        Self { what: fault.to_string(), trace: Backtrace::force_capture() }
    }

    /// For whoever repairs it. The texts of panics name invariants, never answers.
    fn account(&self) -> String {
        let version = env!("CARGO_PKG_VERSION");
        format!("counterpoise {version} broke down.\n{}\n\n{}\n", self.what, self.trace)
    }
}

/// Runs `command`; a panic in it becomes a failure whose hint names the account. Whatever the command held, its sound
/// above all, is gone before the account is written.
pub(super) fn catch(
    data_dir: Option<&Path>,
    command: impl FnOnce() -> Result<(), Failure>,
) -> Result<(), Failure> {
    let latest = || LATEST.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
    panic::set_hook(Box::new(move |fault| *latest() = Some(Fault::of(fault))));
    let result = panic::catch_unwind(AssertUnwindSafe(command));
    drop(panic::take_hook());
    let fault = latest().take();
    // In a thread of its own a fault may have let the command end in order; its account is kept all the same.
    let kept = fault.map(|fault| keep(data_dir, &fault.account()));
    result.unwrap_or_else(|_| Err(failure(kept)))
}

fn keep(data_dir: Option<&Path>, text: &str) -> Result<PathBuf, String> {
    let folder = Folder::find(data_dir).map_err(|error| error.to_string())?;
    folder.write_fault(text).map_err(|error| error.to_string())
}

fn failure(kept: Option<Result<PathBuf, String>>) -> Failure {
    let hint = match kept {
        Some(Ok(path)) => format!(
            "What was done is kept. Start again; an account for whoever repairs it is in {}",
            path.display()
        ),
        Some(Err(why)) => format!("What was done is kept. Start again. No account could be written ({why})."),
        None => "What was done is kept. Start again.".to_owned(),
    };
    Failure::new("Counterpoise has a fault and had to stop", hint)
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;

    use super::*;

    #[test]
    fn a_panic_becomes_a_plain_message_and_an_account() {
        let folder = tempfile::tempdir().unwrap();
        let failure = catch(Some(folder.path()), || panic!("the seventh cue has a place")).unwrap_err();
        assert_eq!(failure.fact(), "Counterpoise has a fault and had to stop");
        let account = folder.path().join("fault-1.txt");
        assert!(failure.hint().ends_with(&account.display().to_string()), "{}", failure.hint());
        let account = std::fs::read_to_string(account).unwrap();
        assert!(account.contains("the seventh cue has a place") && account.contains("fault.rs"), "{account}");

        // What the command held is dropped before the account is written: the sound of a practice is silent by then.
        struct Held<'a>(&'a Path, &'a Cell<Option<bool>>);
        impl Drop for Held<'_> {
            fn drop(&mut self) {
                self.1.set(Some(self.0.exists()));
            }
        }
        let (second, there) = (folder.path().join("fault-2.txt"), Cell::new(None));
        let held = Held(&second, &there);
        let failure = catch(Some(folder.path()), || {
            let _held = held;
            panic!("while something is held")
        });
        assert!(failure.unwrap_err().hint().contains("fault-2.txt") && second.exists());
        assert_eq!(there.get(), Some(false), "dropped, and the account was not there yet");

        let under_a_file = folder.path().join("fault-1.txt/below");
        let failure = catch(Some(&under_a_file), || panic!("again")).unwrap_err();
        assert!(failure.hint().contains("No account could be written"), "{}", failure.hint());
    }
}
