//! Answers as JSON: what the commands print with `--json`.
//!
//! The names, the order and the notation of fields stand here and nowhere else, a file for each
//! command. A view borrows its answer, takes it apart, and works nothing out. It stands outside
//! [`answer`](crate::answer), so that nothing there has to fit a format.
//!
//! Notes, degrees and names are ASCII; strings count from 1, the one nearest the floor; pitches are
//! MIDI numbers. Fields may be added, none is renamed.

mod arpeggios;
mod ascii;
mod check;
mod chord;
mod compare;
mod finger;
mod ladder;
mod neck;
mod pairs;
mod scale;
mod scales;
mod settings;
mod shapes;
mod triads;
mod tunings;

use serde::Serialize;

/// The number that stands first in every answer; it grows when a field changes its meaning.
const FORMAT: u32 = 1;

/// An answer that a command prints as JSON.
pub trait AsJson {
    /// The fields of the answer, without the number of the format.
    fn as_json(&self) -> impl Serialize;
}

#[derive(Serialize)]
struct Formatted<T> {
    format: u32,
    #[serde(flatten)]
    answer: T,
}

/// An answer as one JSON object, on one line that is not ended.
///
/// ```
/// use fretloom::{answer, json};
/// let text = json::text(&answer::chord("C").unwrap());
/// assert!(text.starts_with(r#"{"format":1,"chord":{"symbol":"C","name":"C","root":"C""#));
/// ```
#[must_use]
pub fn text(answer: &impl AsJson) -> String {
    // Every key is a text and every number is finite: nothing here fails to be written.
    let formatted = Formatted { format: FORMAT, answer: answer.as_json() };
    serde_json::to_string(&formatted).unwrap_or_default()
}
