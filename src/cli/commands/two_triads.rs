//! A pair of the player's own, as it is typed.

use fretloom_theory::SpelledTriad;

use crate::answer::Refusal;

/// `F & G` as two triads; `None` where there is no `&`.
pub(super) fn two_triads(text: &str) -> Option<Result<[SpelledTriad; 2], Refusal>> {
    let (one, other) = text.split_once('&')?;
    let read = || -> Result<[SpelledTriad; 2], Refusal> {
        Ok([one.trim().parse()?, other.trim().parse()?])
    };
    Some(read())
}

/// A pair of the player's own.
pub(super) fn read_pair(text: &str) -> Result<[SpelledTriad; 2], Refusal> {
    let text = text.trim();
    two_triads(text).ok_or_else(|| Refusal::NotTwoTriads { text: text.to_owned() })?
}
