//! What the screen opens on: a chord, or a tune as bars or as a file.

use std::path::{Path, PathBuf};

use fretloom_theory::{BarText, Chart, Meter, ReadChord, ScaleKind};

use super::files;
use crate::answer::{Refusal, read_chart};
use crate::library::{ChartFile, ReadChart};

/// What the screen opens on.
pub(super) enum Opening {
    /// A chord; none for the one on which the player left off.
    Chord(Option<String>),
    /// A tune, and its file if it can be saved there.
    Tune(Box<ReadChart>, Option<ChartFile>),
}

impl Opening {
    /// What a word on the command line means: a chord where it is one; bars where `|` stands in it; else
    /// the file of that name, if there is one.
    ///
    /// # Errors
    ///
    /// Where bars or a file cannot be read. A word that is none of the three is taken for a chord, and
    /// refused as one.
    pub(super) fn of(word: Option<&str>, own: &[ScaleKind]) -> Result<Opening, Refusal> {
        let Some(text) = word else { return Ok(Opening::Chord(None)) };
        if text.parse::<ReadChord>().is_ok() {
            return Ok(Opening::Chord(Some(text.to_owned())));
        }
        if text.contains('|') {
            let bars = BarText::read(text, Meter::COMMON)?;
            return Ok(Opening::Tune(Box::new(ReadChart::of(Chart::of(bars))), None));
        }
        let path = Path::new(text);
        if path.is_file() {
            Opening::of_file(path, own)
        } else {
            Ok(Opening::Chord(Some(text.to_owned())))
        }
    }

    fn of_file(path: &Path, own: &[ScaleKind]) -> Result<Opening, Refusal> {
        let bytes = files::bytes(path)?;
        let tune = read_chart(&path.display().to_string(), &bytes, own)?;
        let file = |text: String| ChartFile::read(PathBuf::from(path), text);
        let is_text = |text: &String| !text.trim_start().starts_with('<');
        let file = String::from_utf8(bytes).ok().filter(is_text).map(file);
        Ok(Opening::Tune(Box::new(tune), file))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kind(word: &str) -> &'static str {
        match Opening::of(Some(word), &[]) {
            Ok(Opening::Chord(_)) => "chord",
            Ok(Opening::Tune(..)) => "tune",
            Err(_) => "refused",
        }
    }

    #[test]
    fn a_word_is_a_chord_bars_or_a_file() {
        for (word, meant) in [
            ("Dm7", "chord"),
            ("C7(b9)/G", "chord"),
            ("F#m7b5 | B7alt | Em6", "tune"),
            ("|: Dm7 | G7 :|", "tune"),
            ("Dm7 | H7", "refused"),
            ("H7", "chord"),
            ("/nonexistent/tune.toml", "chord"),
            (concat!(env!("CARGO_MANIFEST_DIR"), "/Cargo.toml"), "refused"),
        ] {
            assert_eq!(kind(word), meant, "{word}");
        }
    }
}
