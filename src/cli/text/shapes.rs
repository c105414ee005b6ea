//! Shapes, arpeggios and ladders as text.

use fretloom_fretboard::{Ease, Finger, Voicing};
use fretloom_theory::SpelledTriad;

use super::table::table;
use super::tunings::{capo_line, tuning_line};
use crate::answer::{
    ArpeggiosAnswer, LadderAnswer, NamedArpeggio, NamedShape, ShapesAnswer, TuningAnswer,
};
use crate::words::{dashed, inversion, spaced};

/// A shape as a row of a list.
pub(super) fn shape_row(named: &NamedShape) -> Vec<String> {
    let shape = &named.shape;
    let fingers = match shape.fingers() {
        Some(fingers) => format!("fingers {}", dashed(fingers.map(Finger::number))),
        None => "no hand holds it at once".to_owned(),
    };
    let barre = shape.barre().map(|barre| format!("barre {}", barre.strings));
    vec![
        named.triad.to_string(),
        dashed(named.frets),
        format!("on {}", shape.string_set()),
        inversion(shape.inversion(), shape.by_name_only()),
        match shape.voicing() {
            Voicing::Close => String::new(),
            Voicing::Open | Voicing::Wide => shape.voicing().to_string(),
        },
        fingers,
        barre.unwrap_or_default(),
        stretch(named.stretch_mm(), shape.ease()),
    ]
}

/// `44 mm`, and a word where that is much for the hand.
fn stretch(mm: f64, ease: Ease) -> String {
    match ease {
        Ease::Easy => format!("{mm:.0} mm"),
        Ease::Wide | Ease::Beyond => format!("{mm:.0} mm {ease}"),
    }
}

fn arpeggio_row(named: &NamedArpeggio) -> Vec<String> {
    let arpeggio = &named.arpeggio;
    let fingers = match arpeggio.fingers() {
        Some(fingers) => format!("fingers {}", dashed(fingers.into_iter().map(Finger::number))),
        None => "beyond the hand".to_owned(),
    };
    let mut strings: Vec<_> = arpeggio.notes().iter().map(|(place, _)| place.string).collect();
    strings.dedup();
    vec![
        named.triad.to_string(),
        dashed(&named.frets),
        format!("on {}", dashed(strings)),
        inversion(arpeggio.inversion(), arpeggio.by_name_only()),
        fingers,
        spaced(arpeggio.positions()),
        stretch(named.stretch_mm(), arpeggio.ease()),
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
    let named = triads.map(|triad| format!("{triad}   {}", spaced(triad.notes())));
    let head = named.join("   &   ") + "\n" + &tuning_line(tuning) + &capo_line(tuning, triads);
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
pub(in crate::cli) fn shapes(answer: &ShapesAnswer) -> String {
    let rows: Vec<Vec<String>> = answer.shapes.iter().map(shape_row).collect();
    let table = table(&rows) + &cut_off(answer.cut_off, &answer.tuning);
    listed(&answer.tuning, [answer.triad], &table, hardest(&answer.shapes))
}

/// `shapes --arpeggio`
pub(in crate::cli) fn arpeggios(answer: &ArpeggiosAnswer) -> String {
    let rows: Vec<Vec<String>> = answer.arpeggios.iter().map(arpeggio_row).collect();
    let hardest = answer.arpeggios.iter().map(|named| named.arpeggio.ease()).max();
    listed(&answer.tuning, [answer.triad], &table(&rows), hardest)
}

/// `ladder`: going up, the lowest shape first, with an empty line where the strings change.
pub(in crate::cli) fn ladder(answer: &LadderAnswer) -> String {
    let rows: Vec<Vec<String>> = answer.rungs.iter().map(shape_row).collect();
    let table = apart_by_strings(&table(&rows), &answer.rungs);
    let table = table + &cut_off(answer.cut_off, &answer.tuning);
    listed(&answer.tuning, answer.pair.names(), &table, hardest(&answer.rungs))
}

/// How hard the hardest of some shapes is; `None` where there are none.
pub(super) fn hardest(shapes: &[NamedShape]) -> Option<Ease> {
    shapes.iter().map(|named| named.shape.ease()).max()
}

/// A table, a line a rung, with an empty line where the strings change.
fn apart_by_strings(table: &str, rungs: &[NamedShape]) -> String {
    let mut text = String::new();
    let mut last = None;
    for (line, rung) in table.lines().zip(rungs) {
        let strings = rung.shape.string_set();
        if last.is_some_and(|last| last != strings) {
            text.push('\n');
        }
        last = Some(strings);
        text += &format!("{line}\n");
    }
    text
}

/// What is not listed because the neck ends; nothing where it cuts off none.
fn cut_off(shapes: usize, tuning: &TuningAnswer) -> String {
    let last = tuning.tuning.last_fret();
    match shapes {
        0 => String::new(),
        1 => format!("\n1 more shape would need frets above the last, {last}\n"),
        shapes => format!("\n{shapes} more shapes would need frets above the last, {last}\n"),
    }
}
