//! Charts from texts: TOML, or bars as they are typed.

use fretloom_theory::{BarFault, BarSection, BarText, Chart, Meter, ScaleKind};

use toml::de::DeTable;

use super::bars_place::BarsPlace;
use super::read_chart::ReadChart;
use super::toml_chart;
use crate::library::Problem;

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
        let place = BarsPlace::whole(content);
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

impl ReadChart {
    /// Is it TOML with lines that are none?
    pub(super) fn is_broken_toml(content: &str) -> bool {
        is_toml(content) && DeTable::parse(content).is_err()
    }
}

/// Is it TOML? No line of bars begins with two brackets, or gives a value to a name but to `pickup`.
pub(super) fn is_toml(content: &str) -> bool {
    content.lines().map(str::trim_start).any(|line| {
        let is_of_key =
            |sign: char| sign.is_ascii_alphanumeric() || matches!(sign, '_' | '-' | '.');
        let after = line.trim_start_matches(is_of_key);
        let key = line.strip_suffix(after).unwrap_or_default();
        let gives = !key.is_empty() && key != "pickup" && after.trim_start().starts_with('=');
        gives || line.starts_with("[[")
    })
}
