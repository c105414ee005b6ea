//! What there is to ask about the program and the player's own files.

use clap::{Args, Subcommand, ValueEnum};
use clap_complete::Shell;

/// What there is about the program and the player's own files.
#[derive(Subcommand, Debug)]
pub enum OwnCommand {
    /// What is wrong in your own files: settings, keys, themes, tunings, scales; status 1 if
    /// anything is
    Check,
    /// Your settings as they are in force, where their file lies, and how sound is played
    Settings(SettingsArgs),
    /// Completions of commands and options for a shell, to be put where the shell looks for them
    Completions {
        /// Which shell
        #[arg(value_enum)]
        shell: Shell,
    },
    /// The page of the manual, for man
    Manual {
        /// The page of this command instead of the program's
        command: Option<String>,
    },
}

/// `settings`
#[derive(Args, Debug)]
pub struct SettingsArgs {
    /// Print a file to begin with: every setting, what it means, and its usual value; or the keys,
    /// or a theme
    #[arg(long, value_enum, value_name = "FILE", num_args = 0..=1, require_equals = true,
          default_missing_value = "settings", conflicts_with_all = ["write", "json"])]
    pub sample: Option<OwnFile>,
    /// Write that file where it belongs; what is there is never overwritten
    #[arg(long, value_enum, value_name = "FILE", num_args = 0..=1, require_equals = true,
          default_missing_value = "settings", conflicts_with = "json")]
    pub write: Option<OwnFile>,
}

/// A file of the player's own that can be begun with a sample.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub enum OwnFile {
    /// settings.toml
    Settings,
    /// keys.toml
    Keys,
    /// themes/mine.toml
    Theme,
}
