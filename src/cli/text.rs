//! Answers as text for people.

use std::fmt::Display;

use fretloom_fretboard::{FretRange, Neck, Voicing};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use crate::answer::{
    ChordAnswer, ChordLine, ChordListAnswer, Labels, LadderAnswer, NeckAnswer, OneChordAnswer,
    PairAnswer, PairsAnswer, ScaleAnswer, ScalesAnswer, ShapeAnswer, ShapesAnswer, TriadsAnswer,
    TuningAnswer, TuningsAnswer,
};
use crate::tui::neck::NeckPicture;
use crate::tui::theme::Theme;
use crate::words::{dashed, inversion, spaced};

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
        text += &format!("   {}", mode_of(scale.mode.unwrap_or(1), parent));
    }
    if let Some(said) = &scale.said {
        text += &format!(", {said}");
    }
    if let Some(asked) = scale.respelled_from {
        text += &format!("   on {} instead of {asked}, to be readable", scale.root);
    }
    text
}

/// `mode 4 of D major`, or nothing to say of a scale that is its own parent.
pub(crate) fn mode_of(mode: u8, parent: &impl Display) -> String {
    if mode == 1 { format!("mode 1, {parent} itself") } else { format!("mode {mode} of {parent}") }
}

/// `pairs`
pub(super) fn pairs(answer: &PairsAnswer) -> String {
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
    if answer.pairs.is_empty() {
        return text + "no pair of triads without a common note\n";
    }
    let mut rows = Vec::new();
    if answer.scale.is_some() {
        rows.push(row(["", "pair", "says", "leaves out", "why"]));
    }
    rows.extend(answer.pairs.iter().map(pair_row));
    text + &table(&rows)
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
    let (wide, lined_up): (Vec<_>, Vec<_>) = read.iter().partition(|row| row.len() == 2);
    let aligned = table(&lined_up.into_iter().cloned().collect::<Vec<_>>());
    let mut aligned = aligned.lines();
    let mut text = String::new();
    for row in &read {
        let line =
            if wide.contains(&row) { row.get(1).map(String::as_str) } else { aligned.next() };
        text += line.unwrap_or_default();
        text.push('\n');
    }
    text
}

fn tuning_line(tuning: &TuningAnswer) -> String {
    let mut text = format!("{}   {}", tuning.name, tuning.strings.join(" "));
    if tuning.octaves_inferred {
        text += "   (octaves inferred)";
    }
    text + "\n"
}

fn shape_row(shape: &ShapeAnswer) -> Vec<String> {
    let fingers = match &shape.fingers {
        Some(fingers) => format!("fingers {}", dashed(fingers)),
        None => "no hand holds it at once".to_owned(),
    };
    vec![
        shape.triad.to_string(),
        dashed(&shape.frets),
        format!("on {}", dashed(&shape.strings)),
        inversion(shape.inversion, shape.by_name_only),
        if shape.voicing == Voicing::Close { String::new() } else { shape.voicing.to_string() },
        fingers,
        format!("{:.0} mm", shape.stretch_mm),
    ]
}

/// One sober line under wide grips.
const CARE: &str = "Wide stretches can strain the hand: warm up, rest, and stop when it hurts.\n";

/// From how many millimetres on the line of care is shown: a four-fret grip in the lowest frets of
/// a guitar, near the comfortable limit.
const WIDE_MM: f64 = 97.0;

fn with_care(text: String, shapes: &[ShapeAnswer]) -> String {
    if shapes.iter().any(|shape| shape.stretch_mm >= WIDE_MM) { text + "\n" + CARE } else { text }
}

/// `shapes`
pub(super) fn shapes(answer: &ShapesAnswer) -> String {
    let rows: Vec<Vec<String>> = answer.shapes.iter().map(shape_row).collect();
    if rows.is_empty() {
        return tuning_line(&answer.tuning) + "\nno shape fits the wish\n";
    }
    let text = format!("{}\n{}", tuning_line(&answer.tuning), table(&rows));
    with_care(text, &answer.shapes)
}

/// `ladder`: going up, the lowest shape first.
pub(super) fn ladder(answer: &LadderAnswer) -> String {
    let rows: Vec<Vec<String>> = answer.rungs.iter().map(shape_row).collect();
    if rows.is_empty() {
        return tuning_line(&answer.tuning) + "\nno shape fits the wish\n";
    }
    let text = format!("{}\n{}", tuning_line(&answer.tuning), table(&rows));
    with_care(text, &answer.rungs)
}

/// `neck`
pub(super) fn neck(
    answer: &NeckAnswer,
    neck: &Neck,
    pair: &PairAnswer,
    frets: FretRange,
    labels: Labels,
) -> String {
    let picture = NeckPicture::new(neck, &answer.places, labels)
        .between(frets.first().number(), frets.last().number());
    format!(
        "{}[{}] & ({})   {}\n\n{}",
        tuning_line(&answer.tuning),
        pair.first.name,
        pair.second.name,
        pair.why,
        drawn(&picture)
    )
}

/// A neck picture at its narrowest, as lines of text.
fn drawn(picture: &NeckPicture) -> String {
    let area = Rect::new(0, 0, picture.narrowest_width(), picture.height());
    let mut buffer = Buffer::empty(area);
    picture.draw(area, &mut buffer, &Theme::monochrome());
    crate::tui::text_of(&buffer)
}

/// `tunings`
pub(super) fn tunings(answer: &TuningsAnswer) -> String {
    let rows: Vec<Vec<String>> = answer
        .tunings
        .iter()
        .map(|tuning| {
            vec![
                tuning.id.clone(),
                tuning.strings.join(" "),
                format!("{} frets", tuning.frets),
                format!("{} mm", tuning.scale_mm),
                tuning.name.clone(),
                tuning.source.clone(),
            ]
        })
        .collect();
    table(&rows)
}
