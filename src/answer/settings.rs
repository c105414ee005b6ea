//! What is settled, and where; and how sound leaves this machine.

use std::path::{Path, PathBuf};

use crate::sound::Ways;

/// The answer of `settings`.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SettingsAnswer {
    /// Where the file belongs; `None` where there is no folder for it.
    pub file: Option<PathBuf>,
    /// Is there such a file?
    pub exists: bool,
    /// Every setting in force.
    pub settings: Vec<SettingAnswer>,
    /// The way by which sound is played, and why the others are not taken.
    pub sound: Ways,
}

/// One setting in force.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SettingAnswer {
    /// Its name in the file.
    pub name: &'static str,
    /// Its value, as the command line takes it.
    pub value: String,
}

impl SettingsAnswer {
    /// The answer for the file at this place, what is settled (names with their values), and the ways of
    /// sound.
    pub fn new(
        file: Option<&Path>,
        settled: impl Iterator<Item = (&'static str, String)>,
        sound: Ways,
    ) -> SettingsAnswer {
        SettingsAnswer {
            exists: file.is_some_and(Path::is_file),
            file: file.map(Path::to_owned),
            settings: settled.map(|(name, value)| SettingAnswer { name, value }).collect(),
            sound,
        }
    }
}
