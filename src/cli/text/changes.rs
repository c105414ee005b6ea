//! A chart with its plan: the bars with chord and pair in each, then the reasons.

mod grid;

use fretloom_theory::Quarters;

use super::shapes::{care, hardest, shape_row};
use super::table::table;
use super::tunings::tuning_line;
use crate::answer::{
    ChangesAnswer, ChangesBar, ChangesChord, ChangesPlan, ChartMoment, NamedShape, ShapeInHand,
    TuningAnswer,
};
use crate::words::{counted, dashed, spaced, wrapped};

/// How wide the sentences are at most.
const COLUMNS: usize = 80;

/// So many shapes of a pair and fewer are few.
const FEW_SHAPES: usize = 3;

/// `changes`
pub(in crate::cli) fn changes(answer: &ChangesAnswer, tuning: &TuningAnswer) -> String {
    let best = answer.best();
    let pairs = counted(best.pairs.len(), "different pair");
    let others: String = answer
        .plans()
        .enumerate()
        .skip(1)
        .map(|(index, plan)| other(answer, index, plan))
        .collect();
    format!(
        "{}{}\n{pairs}, cost {} where a change of pair is 1\n\n{}{others}{}",
        head(answer, tuning),
        grid::grid(answer),
        best.cost,
        reasons(answer),
        care_of(best),
    )
}

/// Title, key, meter, tempo and feel; the part of the neck to which the hand is locked.
fn head(answer: &ChangesAnswer, tuning: &TuningAnswer) -> String {
    let chart = &answer.chart;
    let words = [
        chart.title.clone(),
        answer.key.map(|key| key.to_string()),
        Some(chart.bars.meter().to_string()),
        chart.tempo.map(|tempo| format!("♩={tempo}")),
        chart.feel.clone(),
    ];
    let words: Vec<String> = words.into_iter().flatten().collect();
    let locked = answer.region.map(|region| {
        let strings = region.strings().map(|strings| format!("strings {strings}, "));
        let frets = region.frets();
        let (first, last) = (frets.first(), frets.last());
        let strings = strings.unwrap_or_default();
        format!("{}the hand stays on {strings}frets {first} to {last}\n", tuning_line(tuning))
    });
    format!("{}\n{}", words.join("   "), locked.unwrap_or_default())
}

/// Each chord with its scale, what it does, its pair, and why.
fn reasons(answer: &ChangesAnswer) -> String {
    let labels: Vec<String> =
        answer.best().chords.iter().map(|chord| moment(answer, chord.from)).collect();
    let unread = answer.bars.iter().filter_map(|bar| {
        let unread = bar.unread.as_ref()?;
        Some((bar.from, bar.number.to_string(), vec![unread.error().to_string()]))
    });
    let planned = answer
        .best()
        .chords
        .iter()
        .zip(&labels)
        .enumerate()
        .map(|(index, (chord, label))| (chord.from, label.clone(), told(chord, index == 0)));
    let mut all: Vec<(Quarters, String, Vec<String>)> = planned.chain(unread).collect();
    all.sort_by_key(|(from, ..)| *from);
    let width = all.iter().map(|(_, label, _)| label.chars().count()).max().unwrap_or_default();
    let gap = " ".repeat(width + 2);
    let entry = |(_, label, sentences): &(Quarters, String, Vec<String>)| {
        let lines = sentences
            .iter()
            .flat_map(|sentence| wrapped(sentence, COLUMNS.saturating_sub(width + 2)));
        let lines: Vec<String> = lines.collect();
        format!("{label:>width$}  {}\n", lines.join(&format!("\n{gap}")))
    };
    all.iter().map(entry).collect()
}

/// Bar and beat of a moment; of a first beat the bar alone.
fn moment(answer: &ChangesAnswer, from: Quarters) -> String {
    let bar = answer.bars.partition_point(|bar| bar.from <= from).checked_sub(1);
    let bar: Option<&ChangesBar> = bar.and_then(|bar| answer.bars.get(bar));
    let Some(bar) = bar else { return String::new() };
    let chord = bar.chords.iter().find(|chord| chord.from == from);
    match chord.filter(|_| bar.from < from) {
        Some(chord) => ChartMoment { bar: bar.number, beat: chord.beat }.to_string(),
        None => bar.number.to_string(),
    }
}

/// What is told of a chord, a sentence each.
fn told(chord: &ChangesChord, is_first: bool) -> Vec<String> {
    let left_out = spaced(chord.left_out().iter().map(|left_out| left_out.note));
    let without = if left_out.is_empty() { left_out } else { format!(" without {left_out}") };
    let (symbol, scale, pair) = (chord.chord(), chord.over().scale(), chord.pair);
    let mut lines = vec![
        format!("{symbol}: {}; {scale}; {pair}{without}", chord.reading),
        chord.why().to_string(),
    ];
    if let Some(hand) = &chord.hand {
        lines.extend(in_hand(hand, chord, is_first));
    }
    lines
}

/// The shape in hand, and how the fingers come to it.
fn in_hand(hand: &ShapeInHand, chord: &ChangesChord, is_first: bool) -> Vec<String> {
    let row = shape_row(&hand.shape).into_iter().skip(2).filter(|cell| !cell.is_empty());
    let mut lines = vec![format!("{} {}", short(&hand.shape), row.collect::<Vec<_>>().join(", "))];
    if let Some((movement, before)) = hand.movement.zip(hand.before) {
        let from = if is_first { "from the last chord, " } else { "from " };
        let stays = before.shape.places() == hand.shape.shape.places();
        let movement = if stays { "nothing moves".to_owned() } else { movement.to_string() };
        lines.push(format!("{from}{}: {movement}", short(&before)));
    }
    if hand.choices <= FEW_SHAPES {
        let pair = chord.pair;
        lines.push(format!("{} of {pair} there, no more", counted(hand.choices, "shape")));
    }
    lines
}

/// `G 9-7-8`
fn short(shape: &NamedShape) -> String {
    format!("{} {}", shape.triad, dashed(shape.frets))
}

/// Another plan: the chords for which it has other pairs than the best.
fn other(answer: &ChangesAnswer, index: usize, plan: &ChangesPlan) -> String {
    let both = plan.chords.iter().zip(&answer.best().chords);
    let differ = both.filter(|(one, best)| !one.pair.pair().is_same_couple(best.pair.pair()));
    let rows: Vec<Vec<String>> = differ
        .map(|(chord, _)| {
            vec![
                format!("  {}", moment(answer, chord.from)),
                chord.chord().to_string(),
                chord.over().scale().to_string(),
                chord.pair.to_string(),
            ]
        })
        .collect();
    let pairs = counted(plan.pairs.len(), "different pair");
    format!("\nplan {}, {pairs}, cost {}\n{}", index + 1, plan.cost, table(&rows))
}

/// The line of care, where a shape in hand is wide.
fn care_of(plan: &ChangesPlan) -> String {
    let shapes: Vec<NamedShape> =
        plan.chords.iter().filter_map(|chord| Some(chord.hand?.shape)).collect();
    hardest(&shapes).map(care).unwrap_or_default()
}
