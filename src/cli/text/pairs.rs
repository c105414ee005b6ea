//! Pairs as text.

use super::chords::chord_lines;
use super::scales::scale_line;
use super::table::{row, table};
use crate::answer::{PairAnswer, PairsAnswer, Wishes};
use crate::words::spaced;

/// `pairs`
pub(in crate::cli) fn pairs(answer: &PairsAnswer, wishes: &Wishes) -> String {
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
pub(in crate::cli) fn one_pair(answer: &PairsAnswer) -> String {
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
