//! What happens when the program crashes? A crash report is saved in the person's folder, and a plain message is printed
//! instead of a trace. The display's own hook restores the terminal first.

use std::backtrace::Backtrace;
use std::panic::{self, AssertUnwindSafe, PanicHookInfo};
use std::path::{Path, PathBuf};
use std::sync::Mutex;

use super::Failure;
use crate::journal::Folder;

/// The latest fault. Writing a report takes seconds, in which a crashing practice would go on calling: so the fault is
/// only noted here, and written later.
static LATEST: Mutex<Option<Fault>> = Mutex::new(None);

/// The message of a panic and its backtrace, whose symbols are looked up when it is printed.
struct Fault {
    what: String,
    trace: Backtrace,
}

impl Fault {
    fn of(fault: &PanicHookInfo<'_>) -> Self {
        Self { what: fault.to_string(), trace: Backtrace::force_capture() }
    }

    /// The crash report for developers. The messages of panics name invariants, never a person's answers.
    fn report(&self) -> String {
        let version = env!("CARGO_PKG_VERSION");
        format!("counterpoise {version} crashed.\n{}\n\n{}\n", self.what, self.trace)
    }
}

/// Runs `command`; a panic in it becomes a failure whose hint names the crash report. What the command held, above all
/// its sound, is dropped before the report is written.
pub(super) fn catch(
    data_dir: Option<&Path>,
    command: impl FnOnce() -> Result<(), Failure>,
) -> Result<(), Failure> {
    let latest = || LATEST.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
    panic::set_hook(Box::new(move |fault| *latest() = Some(Fault::of(fault))));
    let result = panic::catch_unwind(AssertUnwindSafe(command));
    drop(panic::take_hook());
    let fault = latest().take();
    // A fault in another thread may have let the command finish. Its report is saved all the same.
    let kept = fault.map(|fault| keep(data_dir, &fault.report()));
    result.unwrap_or_else(|_| Err(failure(kept)))
}

fn keep(data_dir: Option<&Path>, text: &str) -> Result<PathBuf, String> {
    let folder = Folder::find(data_dir).map_err(|error| error.to_string())?;
    folder.write_fault(text).map_err(|error| error.to_string())
}

fn failure(kept: Option<Result<PathBuf, String>>) -> Failure {
    let hint = match kept {
        Some(Ok(path)) => format!(
            "What was done is saved. Start again. A crash report for the developers is in {}",
            path.display()
        ),
        Some(Err(why)) => {
            format!("What was done is saved. Start again. No crash report could be written ({why}).")
        }
        None => "What was done is saved. Start again.".to_owned(),
    };
    Failure::new("Counterpoise ran into a bug and had to stop", hint)
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;

    use super::*;

    #[test]
    fn a_panic_becomes_a_plain_message_and_an_account() {
        let folder = tempfile::tempdir().unwrap();
        let failure = catch(Some(folder.path()), || panic!("the seventh cue has a place")).unwrap_err();
        assert_eq!(failure.fact(), "Counterpoise ran into a bug and had to stop");
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
        assert!(failure.hint().contains("No crash report could be written"), "{}", failure.hint());
    }
}
