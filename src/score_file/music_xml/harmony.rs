//! `<harmony>`: chord symbols.
//!
//! A root, a kind and degrees become the symbol that a lead sheet would have, and that is read as
//! every chord symbol is. What is no chord of a lead sheet (a Neapolitan sixth, a chord by its
//! function alone) is kept as unread text.

use fretloom_theory::{ChordSymbol, NoteName};

use super::names::{altered, letter};
use super::reading::Reading;
use super::time::Time;
use super::transposition::Transposition;
use crate::score_file::element::Element;

/// The kinds of MusicXML and how a chord symbol says them.
const KINDS: &[(&str, &str)] = &[
    ("major", ""),
    ("minor", "m"),
    ("augmented", "+"),
    ("diminished", "dim"),
    ("dominant", "7"),
    ("major-seventh", "maj7"),
    ("minor-seventh", "m7"),
    ("diminished-seventh", "dim7"),
    ("augmented-seventh", "7#5"),
    ("half-diminished", "m7b5"),
    ("major-minor", "m(maj7)"),
    ("major-sixth", "6"),
    ("minor-sixth", "m6"),
    ("dominant-ninth", "9"),
    ("major-ninth", "maj9"),
    ("minor-ninth", "m9"),
    ("dominant-11th", "11"),
    ("major-11th", "maj11"),
    ("minor-11th", "m11"),
    ("dominant-13th", "13"),
    ("major-13th", "maj13"),
    ("minor-13th", "m13"),
    ("suspended-second", "sus2"),
    ("suspended-fourth", "sus4"),
    ("power", "5"),
    // Not of the standard, but written by programs.
    ("dominant-seventh", "7"),
    ("minor-major", "m(maj7)"),
    ("minor-major-seventh", "m(maj7)"),
    ("half-diminished-seventh", "m7b5"),
    ("augmented-major-seventh", "maj7#5"),
    ("suspended-fourth-seventh", "7sus4"),
];

/// Reads one `<harmony>`. It begins where the reader stands, moved by its offset.
pub(super) fn read(reading: &mut Reading<'_>, element: &Element) {
    let symbol = symbol(element, reading.transposition(element.staff()));
    let from = moved(reading, element.readable("offset").unwrap_or_default());
    reading.found.chords.push((from.quarters(), symbol));
}

/// Where the reader stands, moved by so many divisions, not before the beginning of the bar.
fn moved(reading: &Reading<'_>, divisions: f64) -> Time {
    let by = reading.divisions.filter(|_| divisions.is_finite());
    let by = by.map_or(Time::ZERO, |quarter| Time::of(divisions.abs(), quarter));
    if divisions < 0.0 {
        reading.cursor.minus(by).max(reading.bar_from)
    } else {
        reading.cursor.plus(by)
    }
}

fn symbol(element: &Element, transposition: Transposition) -> ChordSymbol {
    let Some(kind) = element.child("kind") else { return ChordSymbol::Unread(String::new()) };
    let name = kind.text.trim();
    if name == "none" {
        return ChordSymbol::NoChord;
    }
    let shown = kind.attribute("text").unwrap_or(name);
    if has_hidden_root(element) {
        return ChordSymbol::Unread(shown.to_owned());
    }
    let root = note(element, "root", transposition).map(|root| format!("{root:#}"));
    let bass = note(element, "bass", transposition).map(|bass| format!("/{bass:#}"));
    let (root, bass) = (root.unwrap_or_default(), bass.unwrap_or_default());
    let degrees: Option<Vec<Degree>> = element.children_named("degree").map(Degree::read).collect();
    let known = KINDS.iter().find(|(known, _)| *known == name).map(|(_, symbol)| *symbol);
    let body = match known {
        Some(kind) => degrees.and_then(|degrees| body(kind, &degrees)),
        // Where the kind is none of a lead sheet, what is printed may still be.
        None => Some(shown.to_owned()),
    };
    let symbol = body.map(|body| ChordSymbol::read(&format!("{root}{body}{bass}")));
    let printed = kind.attribute("text").map(|text| format!("{root}{text}{bass}"));
    if let Some(printed) = printed.and_then(|text| says_it_all(element, &text, symbol.as_ref())) {
        return printed;
    }
    let unread = || {
        let root = if root.is_empty() { unread_root(element) } else { root };
        ChordSymbol::Unread(format!("{root} {shown}{bass}").trim().to_owned())
    };
    symbol.filter(|symbol| symbol.chord().is_some()).unwrap_or_else(unread)
}

/// Is the root not shown, as where the format wants one and there is none?
fn has_hidden_root(element: &Element) -> bool {
    let step = element.child("root").and_then(|root| root.child("root-step"));
    step.and_then(|step| step.attribute("text")).is_some_and(|text| text.trim().is_empty())
}

/// A root that is none, as it stands in the file.
fn unread_root(element: &Element) -> String {
    let root = element.child("root");
    let text = |name: &str| root.and_then(|root| root.child_text(name)).unwrap_or_default();
    let alter = text("root-alter");
    let signs = match alter.parse::<i8>() {
        Ok(sharps @ 0..=9) => "#".repeat(usize::from(sharps.unsigned_abs())),
        Ok(flats @ -9..=-1) => "b".repeat(usize::from(flats.unsigned_abs())),
        Ok(_) | Err(_) => alter.chars().take(LONGEST_ALTER).collect(),
    };
    format!("{}{signs}", text("root-step"))
}

/// The longest alteration that is shown where it is none, in characters.
const LONGEST_ALTER: usize = 20;

/// What is printed, where it is a chord of the same notes, or where the degrees are not shown because
/// it says them: so `7alt` stays what it was.
fn says_it_all(element: &Element, text: &str, symbol: Option<&ChordSymbol>) -> Option<ChordSymbol> {
    let printed = ChordSymbol::read(text);
    let notes = printed.chord()?.set();
    let is_same = symbol.and_then(ChordSymbol::chord).is_some_and(|chord| chord.set() == notes);
    let mut degrees = element.children_named("degree").peekable();
    let is_said = degrees.peek().is_some()
        && degrees.all(|degree| degree.attribute("print-object") == Some("no"));
    (is_same || is_said).then_some(printed)
}

/// The note `part`, root or bass, as it sounds.
fn note(element: &Element, part: &str, transposition: Transposition) -> Option<NoteName> {
    let note = element.child(part)?;
    let step = letter(note.child_text(&format!("{part}-step"))?)?;
    let alter: f64 = note.readable(&format!("{part}-alter")).unwrap_or_default();
    transposition.name(altered(step, alter)?)
}

/// What a degree does to the chord.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Change {
    Add,
    Alter,
    Subtract,
}

/// A degree that is added to the chord of the kind, altered or taken away.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
struct Degree {
    change: Change,
    number: u8,
    sharps: i8,
}

impl Degree {
    fn read(element: &Element) -> Option<Degree> {
        let change = match element.child_text("degree-type")? {
            "add" => Change::Add,
            "alter" => Change::Alter,
            "subtract" => Change::Subtract,
            _ => return None,
        };
        let number = element.readable("degree-value")?;
        let sharps = element.readable("degree-alter").unwrap_or_default();
        Some(Degree { change, number, sharps })
    }

    /// How a chord symbol says it; `None` where none does.
    fn symbol(self) -> Option<String> {
        let number = self.number;
        match (self.change, self.sharps) {
            // A seventh is added as a dominant chord has it.
            (Change::Add, 1) if number == 7 => Some("(maj7)".to_owned()),
            (Change::Add, 0) => Some(format!("add{number}")),
            (Change::Add | Change::Alter, -1) => Some(format!("(b{number})")),
            (Change::Add | Change::Alter, 1) => Some(format!("(#{number})")),
            (Change::Alter, 0) => Some(String::new()),
            (Change::Subtract, _) if matches!(number, 3 | 5) => Some(format!("no{number}")),
            (Change::Add | Change::Alter | Change::Subtract, _) => None,
        }
    }
}

/// All that follows the root; `None` where no symbol says it.
fn body(kind: &str, degrees: &[Degree]) -> Option<String> {
    let has = |change, number| {
        degrees.iter().any(|degree| degree.change == change && degree.number == number)
    };
    let is_sus = has(Change::Add, 4) && has(Change::Subtract, 3);
    let is_said = |degree: &&Degree| {
        let of_sus = is_sus && matches!(degree.number, 3 | 4);
        // A 13 chord has no 11 here anyway.
        let of_13 = kind == "13" && degree.change == Change::Subtract && degree.number == 11;
        !of_sus && !of_13
    };
    let said: Option<Vec<String>> =
        degrees.iter().filter(is_said).map(|degree| degree.symbol()).collect();
    let sus = if is_sus { "sus4" } else { "" };
    Some(format!("{kind}{sus}{}", said?.concat()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn element(name: &str, text: &str, children: Vec<Element>) -> Element {
        Element { name: name.to_owned(), text: text.to_owned(), children, ..Element::default() }
    }

    fn degree(change: &str, number: &str, alter: &str) -> Element {
        let children = vec![
            element("degree-value", number, Vec::new()),
            element("degree-alter", alter, Vec::new()),
            element("degree-type", change, Vec::new()),
        ];
        element("degree", "", children)
    }

    fn harmony(root: &str, alter: &str, kind: &str, more: Vec<Element>) -> Element {
        let step = element("root-step", root, Vec::new());
        let alter = element("root-alter", alter, Vec::new());
        let mut children =
            vec![element("root", "", vec![step, alter]), element("kind", kind, Vec::new())];
        children.extend(more);
        element("harmony", "", children)
    }

    fn said(element: &Element) -> String {
        format!("{:#}", symbol(element, Transposition::default()))
    }

    #[test]
    fn every_kind_of_a_lead_sheet_is_a_chord() {
        for (kind, _) in KINDS {
            let symbol = symbol(&harmony("B", "-1", kind, Vec::new()), Transposition::default());
            assert!(symbol.chord().is_some(), "{kind}: {symbol}");
        }
    }

    #[test]
    fn degrees_are_those_of_the_symbol() {
        let add = |number, alter| degree("add", number, alter);
        let alter = |number, by| degree("alter", number, by);
        let subtract = |number| degree("subtract", number, "0");
        for (kind, degrees, expected) in [
            ("major-seventh", vec![add("11", "1")], "Gmaj7#11"),
            ("major", vec![add("9", "0")], "Gadd9"),
            ("major", vec![add("2", "0")], "Gadd9"),
            ("dominant", vec![add("9", "-1"), add("13", "-1")], "G7b9b13"),
            ("dominant", vec![alter("5", "1"), add("9", "1")], "G7#5#9"),
            ("dominant", vec![add("13", "0")], "G7(13)"),
            ("dominant-ninth", vec![alter("5", "-1")], "G9b5"),
            ("dominant-13th", vec![subtract("11")], "G13"),
            ("dominant", vec![add("4", "0"), subtract("3")], "G7sus4"),
            ("suspended-fourth", vec![add("7", "0")], "G7sus4"),
            ("minor", vec![add("7", "1")], "Gm(maj7)"),
            ("major-sixth", vec![add("9", "0")], "G6/9"),
            ("major", vec![subtract("5")], "Gno5"),
        ] {
            assert_eq!(said(&harmony("G", "0", kind, degrees)), expected, "{kind}");
        }
    }

    #[test]
    fn what_no_lead_sheet_has_is_kept_as_text() {
        let none = Vec::new;
        assert_eq!(said(&harmony("G", "0", "Neapolitan", none())), "G Neapolitan");
        let odd = vec![degree("add", "20", "0")];
        assert_eq!(said(&harmony("G", "0", "major", odd)), "G major");
        assert_eq!(said(&element("harmony", "", none())), "");
        let mut other = harmony("C", "1", "other", none());
        other.children[1].attributes.push(("text".to_owned(), "7alt".to_owned()));
        assert_eq!(said(&other), "C#7alt");
        let mut seventh = harmony("C", "0", "dominant", vec![degree("add", "9", "-1")]);
        seventh.children[1].attributes.push(("text".to_owned(), "7".to_owned()));
        assert_eq!(said(&seventh), "C7b9");
        seventh.children[2].attributes.push(("print-object".to_owned(), "no".to_owned()));
        seventh.children[1].attributes[0].1 = "7(b9)".to_owned();
        assert_eq!(said(&seventh), "C7b9");
        assert_eq!(said(&harmony("C", "0", "none", none())), "N.C.");
    }

    /// For a clarinet in B♭, chords are written a tone above what sounds.
    #[test]
    fn chords_are_transposed_like_notes() {
        let bass = element("bass", "", vec![element("bass-step", "E", Vec::new())]);
        let written = harmony("A", "0", "minor-seventh", vec![bass]);
        let sounding = symbol(&written, Transposition::new(-2, Some(-1)));
        assert_eq!(format!("{sounding:#}"), "Gm7/D");
    }
}
