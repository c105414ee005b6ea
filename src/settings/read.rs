//! Reading the file of settings, entry by entry.

use std::path::Path;

use super::known::Known;
use super::rows::ROWS;
use super::settled::Settings;
use super::value;
use crate::library::Problem;
use crate::library::fields::Fields;
use crate::library::files::text_if_there;

impl Settings {
    /// The settings of the player's folder, and what is wrong with the file.
    #[must_use]
    pub fn load(config_folder: Option<&Path>, known: &Known<'_>) -> (Settings, Vec<Problem>) {
        let Some(folder) = config_folder else { return (Settings::default(), Vec::new()) };
        let path = folder.join(Settings::FILE);
        match text_if_there(&path) {
            Ok(None) => (Settings::default(), Vec::new()),
            Ok(Some(text)) => Settings::read(&path.display().to_string(), &text, known),
            Err(problem) => (Settings::default(), vec![problem]),
        }
    }

    /// The settings in the text of a file, and what is wrong with it.
    #[must_use]
    pub fn read(file: &str, content: &str, known: &Known<'_>) -> (Settings, Vec<Problem>) {
        let mut intact = String::new();
        let mut fields = Fields::salvage(file, content, &mut intact);
        let mut settings = Settings::default();
        if fields.read_key("format", value::format).is_some_and(|format| format > Settings::FORMAT)
        {
            return (settings, vec![newer(file, &fields)]);
        }
        let names = ROWS.iter().map(|row| row.name);
        fields.report_unknown(&names.chain(["format"]).collect::<Vec<_>>());
        for row in ROWS {
            let found = fields.read_key(row.name, |value| (row.read)(value, known));
            if let Some(set) = found {
                set(&mut settings);
            }
        }
        (settings, fields.into_problems())
    }

    /// Every setting: its name, the name of its option on the command line, and its value as that
    /// option takes it.
    pub fn values(&self) -> impl Iterator<Item = (&'static str, &'static str, String)> {
        ROWS.iter().map(|row| (row.name, row.option, (row.print)(self)))
    }
}

/// The problem of a file in a newer format, which is not used.
fn newer(file: &str, fields: &Fields<'_>) -> Problem {
    let known = Settings::FORMAT;
    let expected = format!("format {known}; a newer file is left alone, and none of it is used");
    fields.problem_at_key("format", &expected).unwrap_or_else(|| Problem::of_file(file, expected))
}
