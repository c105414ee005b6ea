//! What is kept.

use super::table::{row, table};
use crate::answer::{KeeperAnswer, KeepersAnswer, tempo_curve};
use crate::export::text::tuning_line;
use crate::store::{Keeper, KeptThing};
use crate::words::dashed;
use fretloom_fretboard::Place;

/// How many days of the curve are shown.
const DAYS: usize = 8;

/// `keepers`
pub(in crate::cli) fn keepers(answer: &KeepersAnswer) -> String {
    if answer.keepers.is_empty() {
        return "nothing is kept that would be listed; fretloom keepers add CHORD keeps a pair\n"
            .to_owned();
    }
    let head = row(["id", "what", "called", "strings", "last", "at", "tempos", "next", "tags"]);
    let rows = answer.keepers.iter().map(keeper);
    table(&std::iter::once(head).chain(rows).collect::<Vec<_>>())
}

/// `keepers add`
pub(in crate::cli) fn keeper_added(answer: &KeeperAnswer) -> String {
    let keeper = &answer.keeper;
    let kept = &keeper.kept;
    let rows = [
        ("scale", kept.scale.clone()),
        ("strings", kept.strings.map(|strings| strings.to_string())),
        ("tuning", kept.tuning.as_ref().map(|tuning| tuning_line(tuning))),
        ("tempo", keeper.practice.start.map(|start| start.to_string())),
        ("tags", (!keeper.tags.is_empty()).then(|| keeper.tags.join(", "))),
        ("notes", (!keeper.notes.is_empty()).then(|| keeper.notes.clone())),
    ];
    let rows = rows.into_iter().filter_map(|(word, value)| Some((word, value?)));
    let rows: Vec<Vec<String>> =
        rows.map(|(word, value)| row(["", word, &on_one_line(&value)])).collect();
    format!("kept as {}: {}\n{}", keeper.id, on_one_line(&keeper.title()), table(&rows))
}

/// `keepers remove`
pub(in crate::cli) fn keeper_removed(answer: &KeeperAnswer) -> String {
    format!("removed {}: {}\n", answer.keeper.id, on_one_line(&answer.keeper.title()))
}

fn keeper(keeper: &Keeper) -> Vec<String> {
    let practice = &keeper.practice;
    let strings = match &keeper.kept.what {
        KeptThing::Shape(shape) => shape_on(shape.places()),
        _ => keeper.kept.strings.map(|strings| strings.to_string()).unwrap_or_default(),
    };
    let best = practice.best().or(practice.start);
    vec![
        keeper.id.to_string(),
        keeper.kept.what.word().to_owned(),
        on_one_line(&keeper.title()),
        strings,
        practice.last().map_or_else(|| "never".to_owned(), |day| day.to_string()),
        best.map(|best| best.to_string()).unwrap_or_default(),
        tempo_curve(practice, DAYS),
        practice.next().map(|day| day.to_string()).unwrap_or_default(),
        on_one_line(&keeper.tags.join(", ")),
    ]
}

/// What a player has typed in several lines would break the table.
fn on_one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// `9-7-8 on 4-3-2`
fn shape_on(places: &[Place]) -> String {
    let frets = dashed(places.iter().map(|place| place.fret));
    format!("{frets} on {}", dashed(places.iter().map(|place| place.string)))
}
