//! Charts: tunes as they stand on paper, with what their player has settled.
//!
//! A file is TOML, or bars of chords as they are typed:
//!
//! ```toml
//! title = "Two Doors"
//! key = "C"
//! tempo = 160
//! meter = "4/4"
//! feel = "swing"
//! pickup = 1
//!
//! [[section]]
//! name = "A"
//! bars = "| N.C. |: Dm7 | G7 | Cmaj7 | % :|"
//!
//! [[choice]]
//! bar = 2
//! beat = 1
//! scale = "G altered"
//! pair = "Bbm & A"
//! ```
//!
//! Everything but one section with its bars may be missing. Repeats and jumps hold over all sections. The
//! bar of a choice is one that is heard, counted from 1, and 0 is a pick-up; its beat is a number, or
//! `"2&"`. What cannot be used costs itself: a bar keeps its place, a choice is passed over. Only what leaves
//! the form uncertain costs the chart.

mod bars_place;
mod choice;
mod read_chart;
mod toml_chart;

pub use read_chart::ReadChart;

use fretloom_theory::{BarFault, BarSection, BarText, Chart, Meter, ScaleKind};

use super::Problem;
use bars_place::BarsPlace;

/// The longest text of a chart that is read, in bytes: 1 MiB.
pub const LONGEST_CHART: usize = 1024 * 1024;

impl ReadChart {
    /// The chart in the text of a file: TOML, or bars as they are typed. Scales of the player's `own`
    /// kinds are known by name in choices.
    ///
    /// # Errors
    ///
    /// Where no chart can be made of it: everything that is wrong, in the order of the file.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::library::ReadChart;
    /// let read = ReadChart::of_text("own.toml", "[[section]]\nbars = \"| Dm7 | G7x |\"\n", &[]).unwrap();
    /// assert_eq!(read.chart.to_string(), "| Dm7 | G7x |");
    /// assert!(read.problems[0].to_string().starts_with("own.toml:2:19: found `G7x`, expected"));
    /// let typed = ReadChart::of_text("own.txt", "|: Dm7 | G7 :|", &[]).unwrap();
    /// assert_eq!(typed.chart.bars.bars().len(), 2);
    /// assert!(ReadChart::of_text("own.txt", "|: Dm7 | G7 |", &[]).is_err());
    /// ```
    pub fn of_text(
        file: &str,
        content: &str,
        own: &[ScaleKind],
    ) -> Result<ReadChart, Vec<Problem>> {
        if content.len() > LONGEST_CHART {
            let expected = "a chart of 1 MiB at most".to_owned();
            return Err(vec![Problem::of_file(file, expected)]);
        }
        if is_toml(content) {
            return toml_chart::read(file, content, own);
        }
        let place = BarsPlace::whole();
        let told = |fault: &BarFault| place.problem(file, fault);
        let sections = [BarSection::unnamed(content)];
        match BarText::read_marking(&sections, Meter::COMMON, None) {
            Ok((bars, faults)) => {
                let problems = faults.iter().map(told).collect();
                Ok(ReadChart { problems, ..ReadChart::of(Chart::of(bars)) })
            }
            Err(fault) => Err(vec![told(&fault)]),
        }
    }
}

/// Is it TOML? No line of bars begins with two brackets, or gives a value to a name but to `pickup`.
fn is_toml(content: &str) -> bool {
    content.lines().map(str::trim_start).any(|line| {
        let is_of_key =
            |sign: char| sign.is_ascii_alphanumeric() || matches!(sign, '_' | '-' | '.');
        let after = line.trim_start_matches(is_of_key);
        let key = line.strip_suffix(after).unwrap_or_default();
        let gives = !key.is_empty() && key != "pickup" && after.trim_start().starts_with('=');
        gives || line.starts_with("[[")
    })
}

#[cfg(test)]
mod tests;
