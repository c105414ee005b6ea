//! Answers as text for people.

mod own_files;
mod shapes;
mod tunings;
mod view;

use fretloom_theory::SpelledTriad;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use crate::answer::{
    ChordAnswer, ChordLine, ChordListAnswer, NeckAnswer, OneChordAnswer, PairAnswer, PairsAnswer,
    ScaleAnswer, ScalesAnswer, TriadsAnswer, TuningAnswer, Wishes, behind_capo,
};
use crate::tui::neck::NeckPicture;
use crate::tui::theme::Theme;
use crate::words::{mode_of, spaced};

pub(super) use own_files::{check, settings};
pub(super) use shapes::{CARE, arpeggios, ladder, shapes};
pub(super) use view::{View, view};

use tunings::courses;
pub(super) use tunings::{compare, tunings};

/// Rows with their columns lined up, two spaces between them and none at the end.
fn table(rows: &[Vec<String>]) -> String {
    let columns = rows.iter().map(Vec::len).max().unwrap_or_default();
    let width = |column: usize| {
        let cells = rows.iter().filter_map(|row| row.get(column));
        cells.map(|cell| cell.chars().count()).max().unwrap_or_default()
    };
    let widths: Vec<usize> = (0..columns).map(width).collect();
    let line = |row: &Vec<String>| {
        let cells = row.iter().zip(&widths).map(|(cell, width)| format!("{cell:width$}  "));
        cells.collect::<String>().trim_end().to_owned() + "\n"
    };
    rows.iter().map(line).collect()
}

fn row<const N: usize>(cells: [&str; N]) -> Vec<String> {
    cells.into_iter().map(str::to_owned).collect()
}

fn chord_lines(chord: &ChordAnswer) -> String {
    let mut text = format!("{}   {}\n", chord.chord, spaced(&chord.tones));
    for assumption in &chord.assumed {
        text += &format!("  {assumption}\n");
    }
    text
}

fn scale_line(scale: &ScaleAnswer) -> String {
    let mut text = format!("{}   {}", scale.scale, spaced(&scale.notes));
    if let Some(parent) = &scale.parent {
        text += &format!("   {}", mode_of(scale.mode.unwrap_or(1), &parent.on_everyday_root()));
    }
    if let Some(said) = &scale.said {
        text += &format!(", {said}");
    }
    if let Some(asked) = scale.respelled_from {
        text += &format!("   on {} instead of {asked}, to be readable", scale.root);
    }
    text
}

/// `pairs`
pub(super) fn pairs(answer: &PairsAnswer, wishes: &Wishes) -> String {
    let head = pairs_head(answer);
    if answer.pairs.is_empty() {
        let none = if wishes.are_none() {
            "no pair of triads without a common note"
        } else {
            "no pair fulfils the wish"
        };
        return head + none + "\n";
    }
    head + &pair_table(answer)
}

/// `pairs --pair`: the row of the list, and below it what the list has no room for.
pub(super) fn one_pair(answer: &PairsAnswer) -> String {
    let facts = answer.pairs.iter().flat_map(pair_facts);
    let facts: String = facts.map(|fact| format!("     {fact}\n")).collect();
    format!("{}{}\n{facts}", pairs_head(answer), pair_table(answer))
}

/// The chord and the scale above the pairs.
fn pairs_head(answer: &PairsAnswer) -> String {
    let mut text = String::new();
    if let Some(chord) = &answer.chord {
        text += &chord_lines(chord);
    }
    if let Some(scale) = &answer.scale {
        text += &format!("{}\n", scale_line(scale));
        if !scale.why.is_empty() {
            text += &format!("  {}\n", scale.why);
        }
        text += "\n";
    }
    text
}

fn pair_table(answer: &PairsAnswer) -> String {
    let mut rows = Vec::new();
    if answer.scale.is_some() {
        rows.push(row(["", "pair", "says", "leaves out", "why"]));
    }
    rows.extend(answer.pairs.iter().map(pair_row));
    table(&rows)
}

/// What is true of a pair besides its row, a line each.
fn pair_facts(pair: &PairAnswer) -> Vec<String> {
    let interleaves = if pair.interleaves { "the triads interleave" } else { "not interleaving" };
    let vector: String = pair.interval_vector.iter().map(ToString::to_string).collect();
    let mut facts = vec![format!("{interleaves} · set {}, interval vector {vector}", pair.forte)];
    if !pair.symmetry.is_empty() {
        let moves = alternatives(&pair.symmetry);
        facts.push(format!("the same six notes when moved by {moves} frets"));
    }
    let serves: Vec<String> = pair.also_fits.iter().map(ToString::to_string).collect();
    facts.push(if serves.is_empty() {
        "serves no other common chord".to_owned()
    } else {
        format!("also serves {}", serves.join(", "))
    });
    facts
}

/// `2, 4 or 6`
fn alternatives(numbers: &[u8]) -> String {
    let listed = spaced(numbers).replace(' ', ", ");
    match listed.rsplit_once(", ") {
        Some((before, last)) => format!("{before} or {last}"),
        None => listed,
    }
}

fn pair_row(pair: &PairAnswer) -> Vec<String> {
    let left_out: Vec<String> =
        pair.left_out.iter().map(|out| format!("{} {}", out.note, out.degree)).collect();
    let says = if pair.first.degrees.is_empty() {
        format!("{} · {}", spaced(pair.first.notes), spaced(pair.second.notes))
    } else {
        format!("{} · {}", spaced(&pair.first.degrees), spaced(&pair.second.degrees))
    };
    vec![
        format!("{:>3}", pair.rank),
        format!("{} & {}", pair.first.name, pair.second.name),
        says,
        left_out.join(", "),
        pair.why.to_string(),
    ]
}

/// `scales`
pub(super) fn scales(answer: &ScalesAnswer) -> String {
    let mut rows = Vec::new();
    for scale in &answer.scales {
        rows.push(vec![
            format!("{:>3}", scale.rank.unwrap_or_default()),
            scale.scale.to_string(),
            spaced(&scale.degrees),
            scale.why.clone(),
        ]);
    }
    let reading = answer.reading.as_ref().map(|reading| format!("  {reading}\n"));
    let reading = reading.unwrap_or_default();
    format!("{}{reading}\n{}", chord_lines(&answer.chord), table(&rows))
}

/// `triads`
pub(super) fn triads(answer: &TriadsAnswer) -> String {
    let rows: Vec<Vec<String>> = answer
        .triads
        .iter()
        .map(|triad| {
            vec![
                format!("{:>4}", triad.degree),
                triad.name.to_string(),
                spaced(triad.notes),
                triad.quality.to_owned(),
            ]
        })
        .collect();
    format!("{}\n\n{}", scale_line(&answer.scale), table(&rows))
}

/// `chord SYMBOL`
pub(super) fn chord(answer: &OneChordAnswer) -> String {
    let chord = &answer.chord;
    let mut rows = vec![row(["notes"]), row(["degrees"])];
    for (note, degree) in chord.tones.iter().zip(&chord.degrees) {
        rows[0].push(note.to_string());
        rows[1].push(degree.to_string());
    }
    let mut text = format!("{}\n{}", chord.chord, table(&rows));
    if let Some(bass) = chord.bass {
        text += &format!("bass     {bass}\n");
    }
    for assumption in &chord.assumed {
        text += &format!("assumed  {assumption}\n");
    }
    text
}

/// `chord --file`
pub(super) fn chords(answer: &ChordListAnswer) -> String {
    let line = |line: &ChordLine| match line {
        ChordLine::Read(chord) => vec![
            chord.symbol.clone(),
            chord.chord.to_string(),
            spaced(&chord.tones),
            spaced(&chord.degrees),
        ],
        ChordLine::Unread { symbol, error, .. } => vec![symbol.clone(), error.clone()],
    };
    // A message is longer than any column and would push the others apart.
    let read: Vec<Vec<String>> = answer.chords.iter().map(line).collect();
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

pub(super) fn tuning_line(tuning: &TuningAnswer) -> String {
    let mut text = format!("{}   {}", tuning.name, courses(tuning));
    if tuning.octaves_inferred {
        text += "   (octaves inferred)";
    }
    if !tuning.held_by().is_none() {
        text += &format!("   {}", tuning.held_by());
    }
    text + "\n"
}

/// What sounds, and what the hand makes behind the capo; nothing without one.
fn capo_line<const N: usize>(tuning: &TuningAnswer, triads: [SpelledTriad; N]) -> String {
    let capo = tuning.held_by();
    let Some(shapes) = behind_capo(capo, triads) else { return String::new() };
    let named = |triads: [SpelledTriad; N]| triads.map(|triad| triad.to_string()).join(" & ");
    let of = if N == 1 { "shape" } else { "shapes" };
    let (sounding, made, fret) = (named(triads), named(shapes), capo.fret());
    format!("sounds {sounding} · {of} of {made} behind the capo at {fret}\n")
}

/// `neck`
pub(super) fn neck(answer: &NeckAnswer, pair: &PairAnswer, picture: &NeckPicture) -> String {
    neck_head(answer, pair) + "\n" + &drawn(picture)
}

/// The tuning, and the pair in its brackets.
fn neck_head(answer: &NeckAnswer, pair: &PairAnswer) -> String {
    let (first, second) = (pair.first.name, pair.second.name);
    format!(
        "{}{}[{first}] & ({second})   {}\n",
        tuning_line(&answer.tuning),
        capo_line(&answer.tuning, [first, second]),
        pair.why
    )
}

/// A neck picture at its narrowest, as lines of text.
fn drawn(picture: &NeckPicture) -> String {
    let area = Rect::new(0, 0, picture.narrowest_width(), picture.height());
    let mut buffer = Buffer::empty(area);
    picture.draw(area, &mut buffer, &Theme::monochrome());
    crate::tui::text_of(&buffer)
}
