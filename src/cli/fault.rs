//! What happens when the program itself is at fault: an account is kept in the person's folder, and a plain message
//! takes the place of a trace. Not how the terminal is restored (the display's own hook does that first).

use std::backtrace::Backtrace;
use std::panic::{self, AssertUnwindSafe, PanicHookInfo};
use std::path::{Path, PathBuf};
use std::sync::Mutex;

use super::Failure;
use crate::journal::Folder;

/// Where the account of the latest fault is kept, or why it could not be.
static KEPT: Mutex<Option<Result<PathBuf, String>>> = Mutex::new(None);

/// Runs `command`; a panic in it becomes a failure whose hint names the account.
pub(super) fn catch(
    data_dir: Option<&Path>,
    command: impl FnOnce() -> Result<(), Failure>,
) -> Result<(), Failure> {
    let data_dir = data_dir.map(Path::to_owned);
    panic::set_hook(Box::new(move |fault| {
        let kept = keep(data_dir.as_deref(), &account(fault));
        *KEPT.lock().unwrap_or_else(std::sync::PoisonError::into_inner) = Some(kept);
    }));
    let result = panic::catch_unwind(AssertUnwindSafe(command));
    drop(panic::take_hook());
    result.unwrap_or_else(|_| {
        let kept = KEPT.lock().unwrap_or_else(std::sync::PoisonError::into_inner).take();
        Err(failure(kept))
    })
}

fn keep(data_dir: Option<&Path>, text: &str) -> Result<PathBuf, String> {
    let folder = Folder::find(data_dir).map_err(|error| error.to_string())?;
    folder.write_fault(text).map_err(|error| error.to_string())
}

/// What broke and where, for whoever repairs it. The texts of panics name invariants, never answers.
fn account(fault: &PanicHookInfo<'_>) -> String {
    let version = env!("CARGO_PKG_VERSION");
    format!("counterpoise {version} broke down.\n{fault}\n\n{}\n", Backtrace::force_capture())
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

        let under_a_file = folder.path().join("fault-1.txt/below");
        let failure = catch(Some(&under_a_file), || panic!("again")).unwrap_err();
        assert!(failure.hint().contains("No account could be written"), "{}", failure.hint());
    }
}
