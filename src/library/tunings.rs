//! The tunings, built in and the player's own: one a file.
//!
//! The name of the file is the tuning's id. A file has five keys, a sixth where a string does not
//! begin at the nut, and a seventh where strings are courses:
//!
//! ```toml
//! name = "Banjo, open G"
//! instrument = "banjo"
//! strings = ["G4", "D3", "G3", "B3", "D4"]  # from the highest string number to string 1
//! frets = 22
//! scale_mm = 670
//! start_frets = [5, 0, 0, 0, 0]
//! ```
//!
//! The seventh key, `beside`, has a list for each string: the notes of the other strings of its
//! course, or none for a single string. The note in `strings` is then the principal note of the
//! course, by which inversions are judged:
//!
//! ```toml
//! strings = ["G4", "C4", "E4", "A4"]
//! beside = [["G3"], ["C5"], [], []]
//! ```

mod built_in;
mod search;

pub use search::search_tunings;

use std::path::{Path, PathBuf};

use fretloom_fretboard::{Fret, Instrument, OpenString, Tuning, TuningError};
use fretloom_theory::NamedPitch;

use super::fields::{Field, Fields, count, decimal, list, text};
use super::files::{read_text, toml_files, unreadable};
use super::{Problem, Source};
use built_in::BUILT_IN;

const KEYS: &[&str] =
    &["name", "instrument", "strings", "frets", "scale_mm", "start_frets", "beside"];

/// Every tuning that could be read, and what was wrong with the others.
///
/// # Example
///
/// ```
/// use fretloom::library::LoadedTunings;
/// let tunings = LoadedTunings::load(None);
/// assert!(tunings.problems().is_empty());
/// let (ukulele, source) = tunings.get("ukulele-high-g").unwrap();
/// assert_eq!(ukulele.to_string(), "G4 C4 E4 A4");
/// assert_eq!(source.to_string(), "built in");
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct LoadedTunings {
    tunings: Vec<(Tuning, Source)>,
    problems: Vec<Problem>,
}

impl LoadedTunings {
    /// The built-in tunings, and those in the folder `tunings` of the player's `config_folder`,
    /// by file name. A player's tuning with the id of a built-in one replaces it. A file that
    /// cannot be used is reported and left out.
    #[must_use]
    pub fn load(config_folder: Option<&Path>) -> LoadedTunings {
        let mut loaded = LoadedTunings { tunings: Vec::new(), problems: Vec::new() };
        for (id, content) in BUILT_IN {
            let file = format!("tunings/{id}.toml");
            loaded.add(&file, id, content, Source::BuiltIn);
        }
        if let Some(folder) = config_folder {
            loaded.add_folder(&folder.join("tunings"));
        }
        loaded
    }

    /// The tuning in the text of one file named `id`, and what is wrong with it.
    #[must_use]
    pub fn of_text(id: &str, content: &str) -> LoadedTunings {
        let mut loaded = LoadedTunings { tunings: Vec::new(), problems: Vec::new() };
        let file = format!("{id}.toml");
        loaded.add(&file, id, content, Source::File(PathBuf::from(&file)));
        loaded
    }

    /// The tunings with their sources: built-in ones first.
    pub fn iter(&self) -> impl Iterator<Item = (&Tuning, &Source)> {
        self.tunings.iter().map(|(tuning, source)| (tuning, source))
    }

    /// The tuning of that id.
    #[must_use]
    pub fn get(&self, id: &str) -> Option<(&Tuning, &Source)> {
        self.iter().find(|(tuning, _)| tuning.id() == id)
    }

    /// The tuning with that id or name; upper and lower case are the same.
    #[must_use]
    pub fn by_id_or_name(&self, text: &str) -> Option<(&Tuning, &Source)> {
        let matches = |name: &str| name.eq_ignore_ascii_case(text.trim());
        self.iter().find(|(tuning, _)| matches(tuning.id()) || matches(tuning.name()))
    }

    /// The tuning that words of its name, or notes typed in small letters, mean most likely.
    #[must_use]
    pub fn best_match(&self, text: &str) -> Option<Tuning> {
        let tunings: Vec<&Tuning> = self.iter().map(|(tuning, _)| tuning).collect();
        search::best_match(tunings.iter().copied(), text)
    }

    /// What could not be used.
    #[must_use]
    pub fn problems(&self) -> &[Problem] {
        &self.problems
    }

    fn add_folder(&mut self, folder: &Path) {
        let files = match toml_files(folder) {
            Ok(files) => files,
            Err(error) => return self.problems.push(unreadable(folder, "a folder", &error)),
        };
        for path in files {
            match read_text(&path) {
                Ok(content) => {
                    let id = path.file_stem().unwrap_or_default().to_string_lossy();
                    let file = path.display().to_string();
                    self.add(&file, &id, &content, Source::File(path.clone()));
                }
                Err(error) => self.problems.push(unreadable(&path, "a file", &error)),
            }
        }
    }

    fn add(&mut self, file: &str, id: &str, content: &str, source: Source) {
        let (tuning, problems) = read_tuning(file, id, content);
        self.problems.extend(problems);
        let Some(tuning) = tuning else {
            return;
        };
        let same = |(there, _): &&mut (Tuning, Source)| there.id() == id;
        match self.tunings.iter_mut().find(same) {
            Some(there) => *there = (tuning, source),
            None => self.tunings.push((tuning, source)),
        }
    }
}

/// The tuning in the text of a file, if it can be used, and everything that is wrong there.
fn read_tuning(file: &str, id: &str, content: &str) -> (Option<Tuning>, Vec<Problem>) {
    match Fields::read(file, content) {
        Ok(mut fields) => {
            fields.report_unknown(KEYS);
            let tuning = build(id, &mut fields);
            (tuning, fields.into_problems())
        }
        Err(problem) => (None, vec![problem]),
    }
}

fn build(id: &str, fields: &mut Fields<'_>) -> Option<Tuning> {
    let name = fields.required("name", "a name, as in \"Guitar, drop D\"", text);
    let instrument = fields.required("instrument", "an instrument, as in \"guitar\"", text);
    let strings = open_strings(fields);
    let beside = notes_beside(fields);
    let frets = fields.required("frets", "a number of frets, 0 to 36", count);
    let scale = fields.required("scale_mm", "a scale length in mm, as in 648", decimal);
    // Everything is read before any error ends the reading, so that every mistake is reported.
    let (name, instrument, strings, beside) = (name?, instrument?, strings?, beside?);
    let (frets, scale) = (frets?, scale?);
    let tuning = match Tuning::new(strings.value, frets.value, scale.value) {
        Ok(tuning) => tuning,
        Err(error) => {
            let span = match error {
                TuningError::FretCount(_) => &frets.span,
                TuningError::ScaleLength(_) => &scale.span,
                _ => &strings.span,
            };
            fields.report(span, error.expected());
            return None;
        }
    };
    let tuning = with_courses(tuning, beside, fields)?;
    Some(tuning.named(id, &name.value, Instrument::from_word(&instrument.value)))
}

fn with_courses(
    tuning: Tuning,
    beside: Option<Field<Vec<Vec<NamedPitch>>>>,
    fields: &mut Fields<'_>,
) -> Option<Tuning> {
    let Some(beside) = beside else { return Some(tuning) };
    let courses = tuning.with_courses(beside.value);
    courses.map_err(|error| fields.report(&beside.span, error.expected())).ok()
}

/// The other notes of each course: `Some(None)` where the key is absent, `None` where it cannot be
/// read.
fn notes_beside(fields: &mut Fields<'_>) -> Option<Option<Field<Vec<Vec<NamedPitch>>>>> {
    let before = fields.problem_count();
    let expected = "a list for each string of the notes beside it, as in [[\"E3\"], [\"A3\"], []]";
    let typed = fields.optional("beside", expected, |value| list(value, |notes| list(notes, text)));
    let Some(typed) = typed else {
        return (fields.problem_count() == before).then_some(None);
    };
    let mut lists = Vec::new();
    for notes in typed.value {
        lists.push(notes.value.iter().filter_map(|note| read_note(note, fields)).collect());
    }
    (fields.problem_count() == before).then_some(Some(Field { value: lists, span: typed.span }))
}

/// A note with its octave; what cannot be read is reported.
fn read_note(typed: &Field<String>, fields: &mut Fields<'_>) -> Option<NamedPitch> {
    let note = typed.value.parse::<NamedPitch>();
    note.map_err(|error| fields.report(&typed.span, note_expected(&error))).ok()
}

fn open_strings(fields: &mut Fields<'_>) -> Option<Field<Vec<OpenString>>> {
    let expected = "a list of notes with octaves, as in [\"E2\", \"A2\", \"D3\"]";
    let notes = fields.required("strings", expected, |value| list(value, text));
    let expected = "a list of fret numbers, one a string, as in [5, 0, 0, 0, 0]";
    let starts = fields.optional("start_frets", expected, |value| {
        list(value, |item| u8::try_from(count(item)?).ok().and_then(Fret::new))
    });
    let notes = notes?;
    if let Some(starts) = &starts
        && starts.value.len() != notes.value.len()
    {
        fields.report(&starts.span, expected);
        return None;
    }
    let before = fields.problem_count();
    let mut strings = Vec::new();
    for (index, typed) in notes.value.iter().enumerate() {
        let start = starts.as_ref().and_then(|starts| starts.value.get(index));
        let start = start.map_or(Fret::OPEN, |start| start.value);
        let note = read_note(typed, fields);
        strings.extend(note.map(|note| OpenString::starting_at(note, start)));
    }
    (fields.problem_count() == before).then_some(Field { value: strings, span: notes.span })
}

fn note_expected(error: &fretloom_theory::ReadError) -> String {
    format!("{} (character {})", error.advice(), error.at())
}

#[cfg(test)]
mod tests;
