//! Chords as text.

use super::table::{row, table};
use crate::answer::{ChordLine, ChordListAnswer, TypedChord};
use crate::words::spaced;

/// `chord SYMBOL`
pub(in crate::cli) fn chord(typed: &TypedChord) -> String {
    let chord = &typed.read.chord;
    let mut rows = vec![row(["notes"]), row(["degrees"])];
    for (note, degree) in chord.tones().zip(chord.degrees()) {
        rows[0].push(note.to_string());
        rows[1].push(degree.to_string());
    }
    let mut text = format!("{chord}\n{}", table(&rows));
    if let Some(bass) = chord.bass() {
        text += &format!("bass     {bass}\n");
    }
    for assumption in &typed.read.assumed {
        text += &format!("assumed  {assumption}\n");
    }
    text
}

/// `chord --file`
pub(in crate::cli) fn chords(answer: &ChordListAnswer) -> String {
    let line = |line: &ChordLine| match line {
        ChordLine::Read(TypedChord { symbol, read }) => vec![
            symbol.clone(),
            read.chord.to_string(),
            spaced(read.chord.tones()),
            spaced(read.chord.degrees()),
        ],
        ChordLine::Unread { symbol, error } => vec![symbol.clone(), error.to_string()],
    };
    // A message is longer than any column and would push the others apart.
    let read: Vec<Vec<String>> = answer.lines.iter().map(line).collect();
    let is_message = |row: &Vec<String>| row.len() == 2;
    let lined_up = read.iter().filter(|row| !is_message(row)).cloned();
    let aligned = table(&lined_up.collect::<Vec<_>>());
    let mut aligned = aligned.lines();
    let mut text = String::new();
    for row in &read {
        let line = if is_message(row) { row.get(1).map(String::as_str) } else { aligned.next() };
        text += line.unwrap_or_default();
        text.push('\n');
    }
    text
}

/// A chord and its notes, and below them what was assumed in reading it.
pub(super) fn chord_lines(typed: &TypedChord) -> String {
    let chord = &typed.read.chord;
    let mut text = format!("{chord}   {}\n", spaced(chord.tones()));
    for assumption in &typed.read.assumed {
        text += &format!("  {assumption}\n");
    }
    text
}
