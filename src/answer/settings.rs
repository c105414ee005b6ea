//! What is settled, and where.

use std::path::Path;

use serde::Serialize;

/// The answer to `settings`.
#[derive(Clone, PartialEq, Eq, Serialize, Debug)]
pub struct SettingsAnswer {
    /// Where the file belongs; none where there is no folder for it.
    pub file: Option<String>,
    /// Is there such a file?
    pub exists: bool,
    /// Every setting in force.
    pub settings: Vec<SettingAnswer>,
}

/// One setting in force.
#[derive(Clone, PartialEq, Eq, Serialize, Debug)]
pub struct SettingAnswer {
    /// Its name in the file.
    pub name: &'static str,
    /// Its value, as the command line takes it.
    pub value: String,
}

impl SettingsAnswer {
    /// The answer for the file at this place and what is settled: names with their values.
    pub fn new(
        file: Option<&Path>,
        settled: impl Iterator<Item = (&'static str, String)>,
    ) -> SettingsAnswer {
        SettingsAnswer {
            file: file.map(|file| file.display().to_string()),
            exists: file.is_some_and(Path::is_file),
            settings: settled.map(|(name, value)| SettingAnswer { name, value }).collect(),
        }
    }
}
