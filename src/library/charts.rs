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
mod built_in;
mod choice;
mod edited;
mod file;
mod loaded;
mod of_text;
mod read_chart;
mod toml_chart;
mod written;

pub use file::{ChartFile, ChartNotSaved};
pub use loaded::{KnownChart, LoadedCharts, OpenedChart};
pub use of_text::LONGEST_CHART;
pub use read_chart::ReadChart;
pub use written::text_of_chart;

#[cfg(test)]
mod tests;
