//! What a line or a phrase aims at, as it is typed: targets with spaces between them.

use crate::answer::{LineChords, LineTarget, Refusal};
use crate::library::AskedPhrase;

/// Targets as they are typed; none of nothing.
///
/// # Errors
///
/// Where one of them cannot be read.
pub(super) fn read_targets(text: &str) -> Result<Vec<LineTarget>, Refusal> {
    let targets = text.split_whitespace().map(str::parse::<LineTarget>);
    Ok(targets.collect::<Result<_, _>>()?)
}

/// Targets as they are typed, in ASCII.
pub(super) fn spaced(targets: &[LineTarget]) -> String {
    targets.iter().map(|target| format!("{target:#}")).collect::<Vec<_>>().join(" ")
}

/// What a phrase aims at, in order of time.
pub(super) fn aims_of(phrase: &AskedPhrase, chords: &LineChords) -> Vec<LineTarget> {
    let mut aims =
        phrase.target.as_deref().and_then(|text| read_targets(text).ok()).unwrap_or_default();
    aims.sort_by_key(|aim| chords.moment(aim.moment()));
    aims
}

/// What a phrase aims at, as it is written; nothing where that is none.
pub(super) fn written_aims(aims: &[LineTarget]) -> Option<String> {
    (!aims.is_empty()).then(|| spaced(aims))
}
