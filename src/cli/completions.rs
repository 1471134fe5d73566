//! The `completions` command: prints the completions of a shell.

use clap::CommandFactory;
use clap_complete::Shell;

use super::Cli;
use super::page::Output;

/// The options of `completions`.
#[derive(Debug, Clone, Copy, clap::Args)]
#[command(after_help = "Examples:\n  \
    counterpoise completions bash > ~/.local/share/bash-completion/completions/counterpoise\n  \
    counterpoise completions fish > ~/.config/fish/completions/counterpoise.fish")]
pub(super) struct Arguments {
    /// The shell
    shell: Shell,
}

pub(super) fn run(arguments: Arguments) -> Output {
    // Into memory first: the generator panics where it cannot write.
    let mut text = Vec::new();
    clap_complete::generate(arguments.shell, &mut Cli::command(), "counterpoise", &mut text);
    Output::Bytes(text)
}
