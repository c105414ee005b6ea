//! Lead sheets: what a score says of a tune besides its notes.

use fretloom_theory::{Chart, Melody};

/// A tune out of MusicXML: chord symbols, form, meter, key, pick-up and title as a chart, and its melody.
#[derive(Clone, PartialEq, Debug)]
pub struct LeadSheet {
    /// The chart. A symbol that cannot be read makes its bar one that [is not
    /// read](fretloom_theory::BarContent::Unread).
    pub chart: Chart,
    /// The melody as it is heard, in the time of the [chorus](Chart::chorus).
    pub melody: Melody,
    /// Where each of the bars stands, as they are written.
    pub measures: Vec<SheetMeasure>,
    /// What was made of the file where there was a choice, a sentence each.
    pub remarks: Vec<String>,
}

/// A measure of a score file.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SheetMeasure {
    /// What the file calls it, most often its number.
    pub name: String,
    /// The line in which it begins, counted from 1; of a compressed file that of the score in it.
    pub line: usize,
    /// The column, counted in characters from 1.
    pub column: usize,
}
