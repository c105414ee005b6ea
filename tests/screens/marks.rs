//! The neck of every screen, read back: its marks with their places, labels and styles.

use std::collections::{BTreeMap, BTreeSet};

use fretloom::answer::PairPlace;
use fretloom::picture::Labels;
use fretloom::tui::program::Program;
use fretloom::tui::text_of;
use fretloom_fretboard as fretboard;
use fretloom_theory::Degree;
use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Modifier, Style};

use super::blocks::rows_of;
use super::neck_reader::{DrawnNeck, Lie, ReadMark, WhichTriad};
use super::necks::NECKS;
use super::themes::tracer;
use super::{SCREENS, SIZES, drawn, in_state};

/// What lies over the neck of the session, or shows another one, and what is no neck at all.
const WITHOUT_NECK: [&str; 5] = ["help", "details", "scales", "tunings", "search"];

/// Semitones of the open strings of a guitar in standard tuning above the lowest, string 1 first.
const OPEN: [i32; 6] = [24, 19, 15, 10, 5, 0];

fn lie_of(name: &str) -> Lie {
    Lie {
        left_handed: name == "true_widths" || name.contains("left_handed"),
        upside_down: name.contains("upside_down"),
    }
}

/// The marks, what is held, the bars of the capo and the strings are those of the model.
#[test]
fn the_neck_of_every_screen_reads_back() {
    let screens = SCREENS.into_iter().filter(|(name, _)| !WITHOUT_NECK.contains(name));
    let screens = screens.map(|(name, keys)| (name, "guitar-standard", keys));
    for (name, tuning, keys) in screens.chain(NECKS) {
        for size in SIZES {
            let program = &mut in_state(tuning, keys, size);
            program.use_theme(tracer());
            let buffer = drawn(program, size.0, size.1);
            let told = format!("{name} {size:?}\n{}", text_of(&buffer));
            let read = DrawnNeck::read_lying(&buffer, lie_of(name)).unwrap();
            assert_eq!(read.strings, program.neck().tuning().string_count(), "{told}");
            assert_marks(name, program, &read, &told);
            assert_held(program, &read, &told);
            assert_capo(program, &read, &told);
            assert_styles(name, program, &buffer, &read, &told);
        }
    }
}

fn assert_marks(name: &str, program: &Program, read: &DrawnNeck, told: &str) {
    let explore = program.explore();
    let places = explore.view_places().unwrap_or_else(|| explore.places());
    let wanted = places.iter().map(|place| mark_of(place, explore.labels()));
    let wanted: BTreeSet<ReadMark> =
        wanted.filter(|mark| mark.fret == 0 || read.frets.contains(&mark.fret)).collect();
    match name {
        "across" => {
            assert_eq!(without_labels(&read.marks), without_labels(&wanted), "{told}");
            assert_chain(&read.marks, told);
        }
        "two" => {
            assert_eq!(without_labels(&read.marks), without_labels(&wanted), "{told}");
            assert_two_a_string(&read.marks, told);
        }
        _ => assert_eq!(read.marks, wanted, "{told}"),
    }
}

/// The shapes of a chain are numbered from 1 as they rise, the triads in turn, three notes each.
fn assert_chain(marks: &BTreeSet<ReadMark>, told: &str) {
    let mut shapes: BTreeMap<usize, Vec<&ReadMark>> = BTreeMap::new();
    for mark in marks {
        shapes.entry(mark.label.parse().unwrap()).or_default().push(mark);
    }
    assert!(shapes.keys().copied().eq(1..=shapes.len()), "{told}");
    let mut before: Option<(WhichTriad, i32)> = None;
    for (number, notes) in shapes {
        let strings: BTreeSet<u8> = notes.iter().map(|mark| mark.string).collect();
        assert_eq!((notes.len(), strings.len()), (3, 3), "{number}\n{told}");
        assert!(notes.iter().all(|mark| mark.which == notes[0].which), "{number}\n{told}");
        let height = notes.iter().map(|mark| pitch(mark)).sum();
        if let Some((which, lower)) = before {
            assert!(which != notes[0].which && lower < height, "{number}\n{told}");
        }
        before = Some((notes[0].which, height));
    }
}

/// The notes that lie two a string are numbered as they rise.
fn assert_two_a_string(marks: &BTreeSet<ReadMark>, told: &str) {
    let mut notes: Vec<(usize, i32)> =
        marks.iter().map(|mark| (mark.label.parse().unwrap(), pitch(mark))).collect();
    notes.sort_unstable();
    assert!(notes.iter().map(|note| note.0).eq(1..=notes.len()), "{told}");
    assert!(notes.is_sorted_by(|one, other| one.1 < other.1), "{notes:?}\n{told}");
    assert_eq!(notes.len(), 6, "{told}");
    for mark in marks {
        let on_string = marks.iter().filter(|other| other.string == mark.string);
        assert_eq!(on_string.count(), 2, "{told}");
    }
}

fn pitch(mark: &ReadMark) -> i32 {
    OPEN[usize::from(mark.string) - 1] + i32::from(mark.fret)
}

fn mark_of(place: &PairPlace, labels: Labels) -> ReadMark {
    let which = match place.which {
        fretloom_theory::WhichTriad::First => WhichTriad::First,
        fretloom_theory::WhichTriad::Second => WhichTriad::Second,
    };
    let (string, fret) = (place.place.string.number(), place.place.fret.number());
    let root = place.member == Degree::ROOT;
    ReadMark { string, fret, which, label: place.label(labels), root }
}

fn without_labels(marks: &BTreeSet<ReadMark>) -> BTreeSet<ReadMark> {
    marks.iter().map(|mark| ReadMark { label: String::new(), ..mark.clone() }).collect()
}

fn assert_held(program: &Program, read: &DrawnNeck, told: &str) {
    let shape = program.explore().shape(program.neck());
    let places = shape.into_iter().flat_map(|shape| shape.shape.places());
    let held = places.map(|place| (place.string.number(), place.fret.number()));
    let held: BTreeSet<(u8, u8)> =
        held.filter(|(_, fret)| *fret == 0 || read.frets.contains(fret)).collect();
    assert_eq!(read.held, held, "{told}");
}

fn assert_capo(program: &Program, read: &DrawnNeck, told: &str) {
    let tuning = program.neck().tuning();
    let capo = tuning.capo();
    let covered = tuning
        .strings()
        .filter(|(string, open)| capo.covers(*string) && open.starts_at() < capo.fret());
    let bars = covered.map(|(string, _)| (string.number(), capo.fret().number()));
    assert_eq!(read.bars, bars.filter(|(_, fret)| read.frets.contains(fret)).collect(), "{told}");
}

/// A mark has the colour of its triad and no modifier but reversed where it is held and underlined
/// where it stays; on a string that is not in use it is muted. Dots, wires and numbers are muted or
/// of the strings.
fn assert_styles(name: &str, program: &Program, buffer: &Buffer, read: &DrawnNeck, told: &str) {
    let theme = tracer();
    let in_use = program.explore().strings().unwrap();
    let is_locked = name == "climbing";
    let rows: Vec<&[Cell]> = rows_of(buffer).filter(|row| is_string(row)).collect();
    assert!(rows.len() >= read.strings, "{told}");
    let rows = &rows[rows.len() - read.strings..];
    let mut numbers: Vec<u8> = (1..=read.strings).map(|number| number as u8).collect();
    if lie_of(name).upside_down {
        numbers.reverse();
    }
    for (row, string) in rows.iter().zip(numbers) {
        let number = fretboard::StringNumber::new(string).unwrap();
        let is_quiet = is_locked && !in_use.contains(number);
        let mut role: Option<Style> = None;
        for cell in *row {
            let opened = match cell.symbol() {
                "[" => Some(theme.first),
                "(" => Some(theme.second),
                _ => None,
            };
            role = opened.or(role);
            let wanted = if is_quiet { theme.muted.fg } else { role.and_then(|role| role.fg) };
            let style = cell.style();
            if role.is_some() {
                assert_eq!(style.fg, wanted, "{string} {}\n{told}", cell.symbol());
                let extra = style.add_modifier - Modifier::REVERSED - Modifier::UNDERLINED;
                assert!(extra.is_empty(), "{string} {}\n{told}", cell.symbol());
            } else if matches!(cell.symbol(), "·") {
                assert_eq!((style.fg, style.add_modifier), (theme.muted.fg, Modifier::empty()));
            }
            if matches!(cell.symbol(), "]" | ")") {
                role = None;
            }
        }
    }
    let reversed = rows.iter().flat_map(|row| row.iter());
    let reversed = reversed.filter(|cell| cell.symbol() == "[" || cell.symbol() == "(");
    let reversed = reversed.filter(|cell| cell.modifier.contains(Modifier::REVERSED)).count();
    assert_eq!(reversed, read.held.len(), "{told}");
}

fn is_string(row: &[Cell]) -> bool {
    row.iter().any(|cell| matches!(cell.symbol(), "┃" | "‹"))
}

/// The neck under the list of tunings is that of the marked tuning: each label names what sounds
/// there, by the names of its open strings.
#[test]
fn the_neck_under_the_tunings_is_that_of_the_marked_one() {
    for size in SIZES {
        let buffer = drawn(&mut in_state("guitar-standard", "g down", size), size.0, size.1);
        let read = DrawnNeck::read(&buffer).unwrap();
        assert_eq!(read.names, ["E", "B", "G", "D", "A", "D"]);
        let semitones = ["C", "C♯", "D", "D♯", "E", "F", "F♯", "G", "G♯", "A", "A♯", "B"];
        let class = |name: &str| semitones.iter().position(|note| *note == name).unwrap();
        for mark in &read.marks {
            let open = class(&read.names[usize::from(mark.string) - 1]);
            assert_eq!((open + usize::from(mark.fret)) % 12, class(&mark.label), "{mark:?}");
        }
        // G & A: six of twelve notes, on six strings, in the open string and every fret shown.
        let places = 6 * (usize::from(*read.frets.end()) + 1);
        assert!(read.marks.len().abs_diff(places / 2) <= 6, "{}", read.marks.len());
    }
}
