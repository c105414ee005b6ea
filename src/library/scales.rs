//! The player's own scales: one file, with the name and the degrees of a scale on each line.
//!
//! ```toml
//! "six bright notes" = "1 2 3 5 6 7"
//! "flat sixth" = "1 2 3 4 5 b6"
//! ```
//!
//! The name of a built-in scale is refused, so that common names keep their meaning.

use std::path::Path;

use fretloom_theory::{Degree, ReadError, ScaleKind};

use super::Problem;
use super::fields::{Fields, text};
use super::files::text_if_there;

/// The file's name in the player's folder.
const FILE: &str = "scales.toml";

/// The player's own scales that could be read, and what was wrong with the others.
///
/// # Example
///
/// ```
/// use fretloom::library::OwnScales;
/// let own = OwnScales::read("scales.toml", "\"six bright notes\" = \"1 2 3 5 6 7\"");
/// assert_eq!(own.kinds()[0].name(), "six bright notes");
/// assert!(OwnScales::load(None).kinds().is_empty());
/// ```
#[derive(Clone, PartialEq, Debug, Default)]
pub struct OwnScales {
    kinds: Vec<ScaleKind>,
    problems: Vec<Problem>,
}

impl OwnScales {
    /// The scales in `scales.toml` of the player's folder; none where there is no such file.
    #[must_use]
    pub fn load(config_folder: Option<&Path>) -> OwnScales {
        let Some(folder) = config_folder else { return OwnScales::default() };
        let path = folder.join(FILE);
        let file = path.display().to_string();
        match text_if_there(&path) {
            Ok(None) => OwnScales::default(),
            Ok(Some(content)) => OwnScales::read(&file, &content),
            Err(problem) => OwnScales { kinds: Vec::new(), problems: vec![problem] },
        }
    }

    /// The scales in the text of a file. A bad entry or a broken line is reported and left out.
    #[must_use]
    pub fn read(file: &str, content: &str) -> OwnScales {
        let mut intact = String::new();
        let mut fields = Fields::salvage(file, content, &mut intact);
        let mut kinds = Vec::new();
        for (name, span) in fields.names() {
            if ScaleKind::named(&name).is_some() {
                fields.report(&span, "a name that no built-in scale has");
                continue;
            }
            let expected = "degrees in quotes, as in \"1 2 b3 4 5 6 b7\"";
            let Some(degrees) = fields.optional(&name, expected, text) else { continue };
            match kind(&name, &degrees.value) {
                Ok(kind) => kinds.push(kind),
                Err(expected) => fields.report(&degrees.span, expected),
            }
        }
        OwnScales { kinds, problems: fields.into_problems() }
    }

    /// The scales.
    #[must_use]
    pub fn kinds(&self) -> &[ScaleKind] {
        &self.kinds
    }

    /// What could not be used.
    #[must_use]
    pub fn problems(&self) -> &[Problem] {
        &self.problems
    }
}

fn kind(name: &str, degrees: &str) -> Result<ScaleKind, String> {
    let degrees: Vec<Degree> = degrees
        .split_whitespace()
        .map(|degree| degree.parse().map_err(|error: ReadError| error.advice()))
        .collect::<Result<_, String>>()?;
    ScaleKind::own(name, &degrees)
        .ok_or_else(|| "three to twelve degrees beginning with 1, no two alike".to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bad_entry_costs_itself_and_is_told_by_place() {
        let own = OwnScales::read(
            "scales.toml",
            "good = \"1 2 3 5 6 7\"\n\
             dorian = \"1 2 3\"\n\
             odd = \"1 2 x\"\n\
             short = \"1 5\"\n\
             number = 3\n",
        );
        let names: Vec<&str> = own.kinds().iter().map(ScaleKind::name).collect();
        assert_eq!(names, ["good"]);
        let places: Vec<(usize, usize)> =
            own.problems().iter().map(|problem| (problem.line, problem.column)).collect();
        assert_eq!(places, [(2, 1), (3, 7), (4, 9), (5, 10)]);
    }

    #[test]
    fn a_file_that_is_not_toml_is_one_problem() {
        let own = OwnScales::read("scales.toml", "six bright notes\n");
        assert!(own.kinds().is_empty());
        assert_eq!(own.problems().len(), 1);
    }
}
