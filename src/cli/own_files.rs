//! `settings`: what is in force, the sample, and the file to begin with.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::args::SettingsArgs;
use super::player::Player;
use super::run::in_plain_words;
use super::{Failure, Outcome, complain};
use crate::answer::SettingsAnswer;
use crate::settings::{SAMPLE, Settings};

/// Runs `settings`; `printed` says how its answer is printed.
pub(super) fn settings(
    wanted: &SettingsArgs,
    player: &Player,
    printed: impl Fn(&SettingsAnswer) -> String,
) -> Result<Outcome, Failure> {
    if wanted.sample {
        return Ok(Outcome::Print(SAMPLE.to_owned()));
    }
    let file = player.folders.config.as_ref().map(|folder| folder.join(Settings::FILE));
    if wanted.write {
        return write_sample(file.as_deref());
    }
    player.settings_problems.iter().for_each(complain);
    let settled = player.settings.values().map(|(name, _, value)| (name, value));
    let answer = SettingsAnswer::new(file.as_deref(), settled);
    Ok(Outcome::Print(printed(&answer)))
}

fn write_sample(file: Option<&Path>) -> Result<Outcome, Failure> {
    let file = file.ok_or_else(|| {
        let message = "there is no folder for settings; expected FRETLOOM_CONFIG to name one";
        Failure::Input(message.to_owned())
    })?;
    match create(file) {
        Ok(()) => Ok(Outcome::Print(format!("{}\n", file.display()))),
        Err(error) => Err(Failure::Input(format!(
            "cannot write the file {}: {}; expected a place for a new file",
            file.display(),
            why(&error)
        ))),
    }
}

/// Writes a new file, and none where one is.
fn create(file: &Path) -> io::Result<()> {
    fs::create_dir_all(file.parent().map(PathBuf::from).unwrap_or_default())?;
    File::create_new(file)?.write_all(SAMPLE.as_bytes())
}

fn why(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::AlreadyExists => "it is there already, and is left as it is".to_owned(),
        _ => in_plain_words(error),
    }
}
