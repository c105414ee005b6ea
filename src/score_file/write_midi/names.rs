//! What is written in letters.

use crate::score_file::written_score::WrittenScore;

/// What is written in letters, in ASCII: the format says of no other what it means.
pub(super) struct Names {
    pub(super) title: String,
    pub(super) line: String,
    pub(super) chords: Vec<String>,
    pub(super) sections: Vec<String>,
}

impl Names {
    pub(super) fn of(written: &WrittenScore) -> Names {
        let score = &written.score;
        let symbols = score.chords.changes().iter();
        let part = written.part().and_then(|part| part.name());
        Names {
            title: score.title.clone().unwrap_or_default(),
            line: part.unwrap_or("Line").to_owned(),
            chords: symbols.map(|(_, symbol)| format!("{symbol:#}")).collect(),
            sections: written.sections.changes().iter().map(|(_, name)| name.clone()).collect(),
        }
    }
}
