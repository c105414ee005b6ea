//! The tunings that there are, and two of them compared.

use fretloom_theory::SpelledTriad;

use super::table::table;
use crate::answer::{CompareAnswer, TuningAnswer, TuningsAnswer, behind_capo};
use crate::words::dashed;

/// `tunings`
pub(in crate::cli) fn tunings(answer: &TuningsAnswer) -> String {
    let rows: Vec<Vec<String>> = answer
        .tunings
        .iter()
        .map(|tuning| {
            vec![
                tuning.id.clone(),
                courses(tuning),
                format!("{} frets", tuning.frets),
                format!("{} mm", tuning.scale_mm),
                tuning.name.clone(),
                tuning.source.clone(),
            ]
        })
        .collect();
    table(&rows)
}

/// The width that `tunings compare` keeps to.
const COLUMNS: usize = 80;

/// `tunings compare`: a paragraph for each set, which fits 80 columns.
pub(in crate::cli) fn compare(answer: &CompareAnswer) -> String {
    let names = [("from", &answer.a), ("to", &answer.b)];
    let head =
        names.map(|(word, tuning)| vec![word.to_owned(), tuning.name.clone(), courses(tuning)]);
    let mut text = table(&head);
    for set in &answer.sets {
        let sets = match (dashed(&set.a), dashed(&set.b)) {
            (a, b) if a == b => a,
            (a, b) => format!("{a} to {b}"),
        };
        let verdict = match (set.shapes_survive, set.only_inversions_change) {
            (true, _) => "shapes survive",
            (false, true) => "grips stay, inversions change",
            (false, false) => "shapes change",
        };
        text += &format!("\n{sets}   {verdict}\n");
        text += &paragraph(&set.why);
        text += &paragraph(&set.ladder);
    }
    for set in &answer.alone {
        let tuning = if set.tuning == "a" { &answer.a.name } else { &answer.b.name };
        text += &format!("\n{}   only on {tuning}\n{}", dashed(&set.strings), paragraph(&set.why));
    }
    text
}

/// Words in lines that are indented; those after the first a little more.
fn paragraph(words: &str) -> String {
    let mut text = String::new();
    let mut line = String::from(" ");
    for word in words.split(' ') {
        if line.chars().count() + 1 + word.chars().count() > COLUMNS {
            text += &format!("{line}\n");
            line = String::from("   ");
        }
        line += &format!(" {word}");
    }
    text + &line + "\n"
}

/// The line above a neck: the tuning, and the capo on it.
pub(in crate::cli) fn tuning_line(tuning: &TuningAnswer) -> String {
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
pub(super) fn capo_line<const N: usize>(
    tuning: &TuningAnswer,
    triads: [SpelledTriad; N],
) -> String {
    let capo = tuning.held_by();
    let Some(shapes) = behind_capo(capo, triads) else { return String::new() };
    let named = |triads: [SpelledTriad; N]| triads.map(|triad| triad.to_string()).join(" & ");
    let of = if N == 1 { "shape" } else { "shapes" };
    let (sounding, made, fret) = (named(triads), named(shapes), capo.fret());
    format!("sounds {sounding} · {of} of {made} behind the capo at {fret}\n")
}

/// The strings as they are tuned, those of one course joined: `E2+E3 A2+A3`.
fn courses(tuning: &TuningAnswer) -> String {
    match &tuning.courses {
        None => tuning.strings.join(" "),
        Some(courses) => courses.iter().map(|c| c.join("+")).collect::<Vec<_>>().join(" "),
    }
}
