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
mod at_place;
mod changes;
mod charts;
mod check;
mod chord;
mod compare;
mod comping;
mod explain;
mod finger;
mod keepers;
mod ladder;
mod line;
mod listen;
mod neck;
mod pairs;
mod patterns;
mod practice;
mod scale;
mod scales;
mod settings;
mod shapes;
mod triads;
mod tunings;

use serde::Serialize;

use crate::glyphs::is_harmful;

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
    harmless(&serde_json::to_string(&formatted).unwrap_or_default())
}

/// JSON with every character that could do something to a terminal as its code. JSON itself asks for
/// that only below the space. All of them stand in strings, so no value changes.
fn harmless(json: &str) -> String {
    let mut out = String::with_capacity(json.len());
    let mut units = [0; 2];
    for char in json.chars() {
        if is_harmful(char) {
            let codes = char.encode_utf16(&mut units).iter();
            out.extend(codes.map(|unit| format!("\\u{unit:04x}")));
        } else {
            out.push(char);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_harmful_is_written_as_its_code_and_read_as_itself() {
        let text = "a\u{1b}\u{7f}\u{9b}\u{202e}\u{e0041}\n\"♭";
        let json = harmless(&serde_json::to_string(text).unwrap());
        assert_eq!(json, r#""a\u001b\u007f\u009b\u202e\udb40\udc41\n\"♭""#);
        assert_eq!(serde_json::from_str::<String>(&json).unwrap(), text);
    }
}
