//! The tunings that there are, and two of them compared.

use fretloom_fretboard::Tuning;
use fretloom_theory::SpelledTriad;

use super::table::table;
use crate::answer::{
    CompareAnswer, Compared, Survival, TuningAnswer, TuningsAnswer, sounds_behind_capo,
};
use crate::export::text::{self, strings_with_courses};

/// `tunings`
pub(in crate::cli) fn tunings(answer: &TuningsAnswer) -> String {
    let rows: Vec<Vec<String>> = answer
        .tunings
        .iter()
        .map(|TuningAnswer { tuning, source }| {
            vec![
                tuning.id().to_owned(),
                strings_with_courses(tuning),
                format!("{} frets", tuning.last_fret()),
                format!("{} mm", tuning.scale_mm()),
                tuning.name().to_owned(),
                source.to_string(),
            ]
        })
        .collect();
    table(&rows)
}

/// The width that `tunings compare` keeps to.
const COLUMNS: usize = 80;

/// `tunings compare`: a paragraph for each set, which fits 80 columns.
pub(in crate::cli) fn compare(answer: &CompareAnswer) -> String {
    let (a, b) = (&answer.a.tuning, &answer.b.tuning);
    let row = |word: &str, tuning: &Tuning| {
        vec![word.to_owned(), tuning.name().to_owned(), strings_with_courses(tuning)]
    };
    let mut text = table(&[row("from", a), row("to", b)]);
    for set in &answer.sets {
        let sets =
            if set.a == set.b { set.a.to_string() } else { format!("{} to {}", set.a, set.b) };
        text += &format!("\n{sets}   {}\n", verdict(set.shapes));
        text += &paragraph(&set.why);
        text += &paragraph(&set.ladder);
    }
    for set in &answer.alone {
        let tuning = match set.tuning {
            Compared::A => a.name(),
            Compared::B => b.name(),
        };
        text += &format!("\n{}   only on {tuning}\n{}", set.strings, paragraph(&set.why));
    }
    text
}

const fn verdict(shapes: Survival) -> &'static str {
    match shapes {
        Survival::Survive => "shapes survive",
        Survival::OnlyInversionsChange => "grips stay, inversions change",
        Survival::Change => "shapes change",
    }
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
pub(in crate::cli) fn tuning_line(answer: &TuningAnswer) -> String {
    text::tuning_line(&answer.tuning) + "\n"
}

/// What sounds, and what the hand makes behind the capo; nothing without one.
pub(super) fn capo_line<const N: usize>(
    tuning: &TuningAnswer,
    triads: [SpelledTriad; N],
) -> String {
    let line = sounds_behind_capo(&tuning.tuning, triads);
    line.map(|line| line + "\n").unwrap_or_default()
}
