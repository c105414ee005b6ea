//! `settings`: what is in force, the sample, and the file to begin with.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::args::{OwnFile, SettingsArgs};
use super::call::say_all;
use super::outcome::{Failure, Outcome};
use super::player::Player;
use crate::answer::SettingsAnswer;
use crate::library::staged_file::StagedFile;
use crate::settings::{SAMPLE, Settings};
use crate::sound::{SoundPlaces, Ways};
use crate::tui::keys::Keys;
use crate::tui::theme::Themes;
use crate::words::in_plain_words;

/// Runs `settings`; `printed` says how its answer is printed.
pub(super) fn settings(
    wanted: &SettingsArgs,
    player: &Player,
    printed: impl Fn(&SettingsAnswer) -> String,
) -> Result<Outcome, Failure> {
    if let Some(own) = wanted.sample {
        return Ok(Outcome::Print(own.sample().to_owned()));
    }
    let folder = player.folders.config.as_deref();
    if let Some(own) = wanted.write {
        return write_sample(own, folder);
    }
    let file = folder.map(|folder| folder.join(Settings::FILE));
    say_all(&player.settings_problems);
    let settled = player.settings.values().map(|(name, _, value)| (name, value));
    let sound = Ways::look(&SoundPlaces::from_environment());
    let answer = SettingsAnswer::new(file.as_deref(), settled, sound);
    Ok(Outcome::Print(printed(&answer)))
}

impl OwnFile {
    fn sample(self) -> &'static str {
        match self {
            OwnFile::Settings => SAMPLE,
            OwnFile::Keys => Keys::SAMPLE,
            OwnFile::Theme => Themes::SAMPLE,
        }
    }

    fn place(self, folder: &Path) -> PathBuf {
        match self {
            OwnFile::Settings => folder.join(Settings::FILE),
            OwnFile::Keys => folder.join(Keys::FILE),
            OwnFile::Theme => folder.join(Themes::FOLDER).join("mine.toml"),
        }
    }
}

fn write_sample(own: OwnFile, folder: Option<&Path>) -> Result<Outcome, Failure> {
    let folder = folder.ok_or_else(|| {
        let message = "there is no folder for settings; expected FRETLOOM_CONFIG to name one";
        Failure::Input(message.to_owned())
    })?;
    let file = own.place(folder);
    match create(&file, own.sample()) {
        Ok(()) => Ok(Outcome::Print(format!("{}\n", file.display()))),
        Err(error) => Err(Failure::Input(format!(
            "cannot write the file {}: {}; expected a place for a new file",
            file.display(),
            why(&error, folder)
        ))),
    }
}

/// Writes a new file, with the folders above it; where one is there it is left as it is.
fn create(file: &Path, content: &str) -> io::Result<()> {
    fs::create_dir_all(file.parent().unwrap_or(Path::new("")))?;
    StagedFile::write(file, content.as_bytes())?.put_new(file)
}

/// Why it could not be written; a folder that is none is named.
fn why(error: &io::Error, folder: &Path) -> String {
    if folder.exists() && !folder.is_dir() {
        return format!("{} is a file and no folder", folder.display());
    }
    match error.kind() {
        io::ErrorKind::AlreadyExists => "it is there already, and is left as it is".to_owned(),
        _ => in_plain_words(error),
    }
}
