//! Charts from files of every kind.

use fretloom_theory::ScaleKind;

use super::refusal::Refusal;
use crate::library::ReadChart;
use crate::score_file;

/// The chart in the bytes of a file of this name: TOML, or bars as they are typed. What the file is, its
/// content says. Scales of the player's `own` kinds are known by name.
///
/// # Errors
///
/// Where the bytes are none of these, and where the form of the tune stays uncertain. What costs less
/// is among the [problems](ReadChart::problems).
///
/// # Example
///
/// ```
/// use fretloom::answer::read_chart;
/// let read = read_chart("own", b"|: Dm7 | G7 :| Cmaj7 | % |", &[]).unwrap();
/// assert_eq!(read.chart.bars.bars().len(), 4);
/// let said = read_chart("own", b"|: Dm7 | G7 |", &[]).unwrap_err().to_string();
/// assert!(said.starts_with("own:1:1: found `|:`, expected a :| for this |:"));
/// ```
pub fn read_chart(name: &str, bytes: &[u8], own: &[ScaleKind]) -> Result<ReadChart, Refusal> {
    let no_text = |error| Refusal::ChartFile { name: name.to_owned(), error: Box::new(error) };
    let text = score_file::text(bytes).map_err(no_text)?;
    ReadChart::of_text(name, &text, own).map_err(|problems| Refusal::Chart { problems })
}
