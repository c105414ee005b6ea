//! Shapes, arpeggios and ladders as text.

use fretloom_fretboard::{Ease, Voicing};
use fretloom_theory::SpelledTriad;

use super::table::table;
use super::tunings::{capo_line, tuning_line};
use crate::answer::{
    ArpeggioAnswer, ArpeggiosAnswer, LadderAnswer, ShapeAnswer, ShapesAnswer, TuningAnswer,
};
use crate::words::{dashed, inversion};

/// A shape as a row of a list.
pub(super) fn shape_row(shape: &ShapeAnswer) -> Vec<String> {
    let fingers = match &shape.fingers {
        Some(fingers) => format!("fingers {}", dashed(fingers)),
        None => "no hand holds it at once".to_owned(),
    };
    let barre = shape.barre.as_ref().map(|barre| format!("barre {}", dashed(&barre.strings)));
    vec![
        shape.triad.to_string(),
        dashed(&shape.frets),
        format!("on {}", dashed(&shape.strings)),
        inversion(shape.inversion, shape.by_name_only),
        if shape.voicing == Voicing::Close { String::new() } else { shape.voicing.to_string() },
        fingers,
        barre.unwrap_or_default(),
        stretch(shape.stretch_mm, shape.ease),
    ]
}

/// `44 mm`, and a word where that is much for the hand.
fn stretch(mm: f64, ease: Ease) -> String {
    match ease {
        Ease::Easy => format!("{mm:.0} mm"),
        Ease::Wide | Ease::Beyond => format!("{mm:.0} mm {ease}"),
    }
}

fn arpeggio_row(arpeggio: &ArpeggioAnswer) -> Vec<String> {
    let fingers = match &arpeggio.fingers {
        Some(fingers) => format!("fingers {}", dashed(fingers)),
        None => "beyond the hand".to_owned(),
    };
    let mut strings = arpeggio.strings.clone();
    strings.dedup();
    vec![
        arpeggio.triad.to_string(),
        dashed(&arpeggio.frets),
        format!("on {}", dashed(&strings)),
        inversion(arpeggio.inversion, arpeggio.by_name_only),
        fingers,
        arpeggio.positions.join(" "),
        stretch(arpeggio.stretch_mm, arpeggio.ease),
    ]
}

/// One sober line under wide grips.
pub(in crate::cli) const CARE: &str = "Wide stretches can strain the hand: warm up, start high on the neck, rest, and \
                    stop when it hurts.\n";

/// A table of shapes under the tuning, with the line of care where one of them is wide.
fn listed<const N: usize>(
    tuning: &TuningAnswer,
    triads: [SpelledTriad; N],
    shapes: &str,
    hardest: Option<Ease>,
) -> String {
    let head = tuning_line(tuning) + &capo_line(tuning, triads);
    let Some(hardest) = hardest else {
        return head + "\nno shape fits the wish\n";
    };
    format!("{head}\n{shapes}{}", care(hardest))
}

/// The line of care, where it is needed.
pub(super) fn care(hardest: Ease) -> String {
    if hardest == Ease::Easy { String::new() } else { format!("\n{CARE}") }
}

/// `shapes`
pub(in crate::cli) fn shapes(answer: &ShapesAnswer, triad: SpelledTriad) -> String {
    let shapes = || answer.shapes.iter().map(|listed| &listed.shape);
    let rows: Vec<Vec<String>> = shapes().map(shape_row).collect();
    let table = table(&rows) + &cut_off(answer.cut_off, &answer.tuning);
    listed(&answer.tuning, [triad], &table, shapes().map(|shape| shape.ease).max())
}

/// `shapes --arpeggio`
pub(in crate::cli) fn arpeggios(answer: &ArpeggiosAnswer, triad: SpelledTriad) -> String {
    let rows: Vec<Vec<String>> = answer.shapes.iter().map(arpeggio_row).collect();
    let hardest = answer.shapes.iter().map(|shape| shape.ease).max();
    listed(&answer.tuning, [triad], &table(&rows), hardest)
}

/// `ladder`: going up, the lowest shape first, with an empty line where the strings change.
pub(in crate::cli) fn ladder(answer: &LadderAnswer, triads: [SpelledTriad; 2]) -> String {
    let rows: Vec<Vec<String>> = answer.rungs.iter().map(shape_row).collect();
    let table = apart_by_strings(&table(&rows), &answer.rungs);
    let table = table + &cut_off(answer.cut_off, &answer.tuning);
    listed(&answer.tuning, triads, &table, answer.rungs.iter().map(|rung| rung.ease).max())
}

/// A table, a line a rung, with an empty line where the strings change.
fn apart_by_strings(table: &str, rungs: &[ShapeAnswer]) -> String {
    let mut text = String::new();
    let mut last = None;
    for (line, rung) in table.lines().zip(rungs) {
        if last.is_some_and(|strings| strings != rung.strings) {
            text.push('\n');
        }
        last = Some(rung.strings);
        text += &format!("{line}\n");
    }
    text
}

/// What is not listed because the neck ends; nothing where it cuts off none.
fn cut_off(shapes: usize, tuning: &TuningAnswer) -> String {
    let last = tuning.frets;
    match shapes {
        0 => String::new(),
        1 => format!("\n1 more shape would need frets above the last, {last}\n"),
        shapes => format!("\n{shapes} more shapes would need frets above the last, {last}\n"),
    }
}
