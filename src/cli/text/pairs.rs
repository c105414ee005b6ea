//! Pairs as text.

use super::chords::chord_lines;
use super::scales::scale_line;
use super::table::{row, table};
use crate::answer::{EveryPairAnswer, PairAlone, PairAnswer, PairsAnswer, Wishes};
use crate::words::spaced;

/// `pairs`
pub(in crate::cli) fn pairs(answer: &PairsAnswer, wishes: &Wishes) -> String {
    let head = pairs_head(answer);
    if answer.pairs.is_empty() {
        let none = if wishes.are_none() { NO_PAIR } else { "no pair fulfils the wish" };
        return head + none + "\n";
    }
    head + &pair_table(answer)
}

const NO_PAIR: &str = "no pair of triads without a common note";

/// `pairs --all`
pub(in crate::cli) fn every_pair(answer: &EveryPairAnswer) -> String {
    if answer.pairs.is_empty() {
        return format!("{NO_PAIR}\n");
    }
    let rows = answer.pairs.iter().zip(1..).map(pair_alone_row);
    table(&rows.collect::<Vec<_>>())
}

/// The notes stand where a pair over a chord has its degrees; it leaves out none.
fn pair_alone_row((pair, rank): (&PairAlone, usize)) -> Vec<String> {
    vec![
        format!("{rank:>3}"),
        pair.name.to_string(),
        pair.name.names().map(|triad| spaced(triad.notes())).join(" · "),
        String::new(),
        pair.sentence().to_string(),
    ]
}

/// `pairs --pair`: the row of the list, and below it what the list has no room for.
pub(in crate::cli) fn one_pair(answer: &PairsAnswer) -> String {
    let facts = answer.pairs.iter().flat_map(pair_facts);
    let facts: String = facts.map(|fact| format!("     {fact}\n")).collect();
    format!("{}{}\n{facts}", pairs_head(answer), pair_table(answer))
}

/// The chord and the scale above the pairs.
fn pairs_head(answer: &PairsAnswer) -> String {
    let chord = answer.harmony.chord().map(chord_lines).unwrap_or_default();
    let scale = answer.harmony.scale();
    let why = scale.why().map(|why| format!("  {why}\n")).unwrap_or_default();
    format!("{chord}{}\n{why}\n", scale_line(scale))
}

fn pair_table(answer: &PairsAnswer) -> String {
    let mut rows = vec![row(["", "pair", "says", "leaves out", "why"])];
    rows.extend(answer.pairs.iter().map(pair_row));
    table(&rows)
}

/// What is true of a pair besides its row, a line each.
fn pair_facts(pair: &PairAnswer) -> Vec<String> {
    let mut facts = vec![pair.as_a_set()];
    if !pair.six_notes.symmetry.is_empty() {
        let moves = alternatives(&pair.six_notes.symmetry);
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
    vec![
        format!("{:>3}", pair.rank),
        pair.name().to_string(),
        format!("{} · {}", spaced(pair.first.degrees), spaced(pair.second.degrees)),
        left_out.join(", "),
        pair.why.to_string(),
    ]
}
