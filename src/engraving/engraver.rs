//! From a score to lines for a page.

use super::bar_columns::BarColumns;
use super::line::{LineDrawing, head_width};
use super::look::EngravingLook;
use super::music::Music;
use super::spacing;
use crate::picture::page::Figure;
use crate::score_file::{ScoreWriteError, WrittenScore};

/// A line of music that is set.
#[derive(Clone, PartialEq, Debug)]
pub struct EngravedLine {
    /// What begins with it: another key.
    pub section: Option<String>,
    /// The line.
    pub figure: Figure,
}

/// Sets a score: its lines from the first to the last. A line ends with a bar, and what begins anew
/// begins a line.
///
/// # Errors
///
/// Where there are too many bars, and where notes are so fine that no value says them.
///
/// # Example
///
/// ```
/// use fretloom::engraving::{EngravingLook, engrave};
/// use fretloom::score_file::WrittenScore;
/// use fretloom_fretboard::Tuning;
/// use fretloom_theory::{Note, Part, Quarters, Score};
///
/// let note = Note::new(Quarters::ONE, Quarters::EIGHTH, "B3".parse().unwrap()).unwrap();
/// let score = Score { parts: vec![Part::new([note])], ..Score::default() };
/// let written = WrittenScore::of(score, Tuning::read("EADGBE").unwrap());
/// let lines = engrave(&written, &EngravingLook::new(180.0)).unwrap();
/// assert_eq!(lines.len(), 1);
/// assert!(lines[0].figure.width_mm <= 180.0);
/// ```
pub fn engrave(
    written: &WrittenScore,
    look: &EngravingLook,
) -> Result<Vec<EngravedLine>, ScoreWriteError> {
    let music = Music::of(written)?;
    let columns =
        music.bars.iter().zip(0..).map(|(bar, index)| BarColumns::of(&music, bar, index, look));
    let columns: Vec<BarColumns> = columns.collect();
    let room = |bar: usize| look.width_mm - head_width(&music, bar);
    let begins = |bar: usize| music.bars.get(bar).is_some_and(|bar| bar.section.is_some());
    let lines = spacing::lines(&columns, room, begins);
    let set = |spacing: &spacing::Spacing| EngravedLine {
        section: music.bars.get(spacing.bars.start).and_then(|bar| bar.section.clone()),
        figure: LineDrawing::new(&music, &columns, spacing, look).figure(),
    };
    Ok(lines.iter().map(set).collect())
}
