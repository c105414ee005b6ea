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
    /// What the file calls each of the bars as they are written.
    pub bar_names: Vec<String>,
    /// What was made of the file where there was a choice, a sentence each.
    pub remarks: Vec<String>,
}
