//! `<staff-details>`: how the strings are tuned, and the capo.

use fretloom_fretboard::Fret;
use fretloom_theory::Pitch;

use super::names::letter;
use crate::score_file::element::Element;

/// The most strings that an instrument has here.
const MOST_STRINGS: u8 = 12;

/// How a staff of tablature is tuned, as far as its file says.
#[derive(Clone, PartialEq, Eq, Default, Debug)]
pub(super) struct StaffTuning {
    /// The open strings without a capo, the lowest line first; empty where not all are given.
    pub(super) strings: Vec<Pitch>,
    pub(super) capo: Option<Fret>,
}

impl StaffTuning {
    /// Reads `<staff-details>`. What cannot be read is as good as not there.
    pub(super) fn read(element: &Element) -> StaffTuning {
        let mut lines: Vec<(u8, Option<Pitch>)> =
            element.children_named("staff-tuning").filter_map(line).collect();
        lines.sort_by_key(|(number, _)| *number);
        let in_order = lines.iter().zip(1..).all(|((number, _), expected)| *number == expected);
        let strings: Option<Vec<Pitch>> = lines.into_iter().map(|(_, pitch)| pitch).collect();
        let capo = element.readable("capo").filter(|fret| *fret > 0).and_then(Fret::new);
        StaffTuning { strings: strings.filter(|_| in_order).unwrap_or_default(), capo }
    }

    /// The same with what a later element says.
    pub(super) fn completed(self, later: StaffTuning) -> StaffTuning {
        let strings = if self.strings.is_empty() { later.strings } else { self.strings };
        StaffTuning { strings, capo: self.capo.or(later.capo) }
    }
}

/// The number of a line, the lowest being 1, and what its open string sounds.
fn line(tuning: &Element) -> Option<(u8, Option<Pitch>)> {
    let number = tuning.attribute("line")?.parse().ok()?;
    let is_line = (1..=MOST_STRINGS).contains(&number);
    is_line.then(|| (number, open_string(tuning)))
}

fn open_string(tuning: &Element) -> Option<Pitch> {
    let step = letter(tuning.child_text("tuning-step")?)?;
    let octave: i32 = tuning.readable("tuning-octave")?;
    let alter: f64 = tuning.readable("tuning-alter").unwrap_or_default();
    let midi = 12.0 * (f64::from(octave) + 1.0) + f64::from(step.semitones_above_c()) + alter;
    let is_midi = midi.fract() == 0.0 && (0.0..=127.0).contains(&midi);
    if is_midi { Pitch::from_midi(midi as u8) } else { None }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn element(name: &str, text: &str, children: Vec<Element>) -> Element {
        Element { name: name.to_owned(), text: text.to_owned(), children, ..Element::default() }
    }

    fn tuned(line: &str, step: &str, alter: &str, octave: &str) -> Element {
        let parts = [("tuning-step", step), ("tuning-alter", alter), ("tuning-octave", octave)];
        let parts = parts.map(|(name, text)| element(name, text, Vec::new()));
        let mut tuning = element("staff-tuning", "", parts.to_vec());
        tuning.attributes.push(("line".to_owned(), line.to_owned()));
        tuning
    }

    /// E♭ tuning of a ukulele: G♯4 C4 E4 A4 is none, so by hand: F♯4 B3 D♯4 G♯4.
    #[test]
    fn strings_are_read_from_the_lowest_line_whatever_their_order() {
        let lines = vec![
            tuned("4", "A", "-1", "4"),
            tuned("1", "F", "1", "4"),
            tuned("3", "E", "-1", "4"),
            tuned("2", "B", "", "3"),
            element("capo", "2", Vec::new()),
        ];
        let read = StaffTuning::read(&element("staff-details", "", lines));
        let midi: Vec<u8> = read.strings.iter().map(|pitch| pitch.midi()).collect();
        assert_eq!((midi, read.capo), (vec![66, 59, 63, 68], Fret::new(2)));
    }

    #[test]
    fn what_is_not_whole_is_no_tuning() {
        for lines in [
            vec![tuned("2", "E", "", "2")],
            vec![tuned("1", "E", "0.5", "2")],
            vec![tuned("1", "H", "", "2")],
            vec![tuned("1", "E", "", "2"), tuned("1", "A", "", "2")],
            vec![tuned("13", "E", "", "2")],
        ] {
            let read = StaffTuning::read(&element("staff-details", "", lines));
            assert_eq!(read, StaffTuning::default());
        }
        let capo = StaffTuning::read(&element("x", "", vec![element("capo", "0", Vec::new())]));
        assert_eq!(capo, StaffTuning::default());
    }
}
