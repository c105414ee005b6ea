//! `check`

use serde::Serialize;

use super::AsJson;
use crate::answer::CheckAnswer;
use crate::library::Problem as Found;

#[derive(Serialize)]
struct Check<'a> {
    problems: Vec<Problem<'a>>,
}

#[derive(Serialize)]
struct Problem<'a> {
    file: &'a str,
    line: usize,
    column: usize,
    text: &'a str,
    expected: &'a str,
}

impl<'a> Problem<'a> {
    fn new(found: &'a Found) -> Problem<'a> {
        let Found { file, line, column, text, expected } = found;
        Problem { file, line: *line, column: *column, text, expected }
    }
}

impl AsJson for CheckAnswer {
    fn as_json(&self) -> impl Serialize {
        Check { problems: self.problems.iter().map(Problem::new).collect() }
    }
}
