//! What stands between two bar lines.

use fretloom_theory::{ChordSymbol, Meter, Quarters};

/// What stands between two bar lines, as it is typed.
pub(super) struct Content {
    pub(super) words: String,
    /// How many chords stand on another moment than in the file.
    pub(super) moved: usize,
}

/// The finest parts of a bar that are written, since a bar holds no more chords.
const FINEST: u32 = 64;

/// The content of a bar with these chords, under which `carried` sounds until the first.
pub(super) fn content(
    chords: &[(Quarters, ChordSymbol)],
    carried: &ChordSymbol,
    length: Quarters,
    meter: Meter,
) -> Content {
    let mut all: Vec<(Quarters, &ChordSymbol)> = Vec::with_capacity(chords.len() + 1);
    if chords.first().is_none_or(|(at, _)| !at.is_zero()) {
        all.push((Quarters::ZERO, carried));
    }
    all.extend(chords.iter().filter(|(at, _)| *at < length).map(|(at, symbol)| (*at, symbol)));
    shared(&all, length)
        .or_else(|| by_beats(&all, length, meter))
        .or_else(|| in_fine_parts(&all, length))
        .unwrap_or_else(|| first_of(&all))
}

/// Chords that share the bar evenly.
fn shared(all: &[(Quarters, &ChordSymbol)], length: Quarters) -> Option<Content> {
    let share = length.divided_into(u32::try_from(all.len()).ok()?)?;
    let is_even = (0..).zip(all).all(|(before, (at, _))| share.times(before) == Some(*at));
    let words = all.iter().map(|(_, symbol)| word(symbol)).collect::<Vec<_>>().join(" ");
    is_even.then_some(Content { words, moved: 0 })
}

/// Chords on beats; one between two beats stands on the nearer one, or on the next. `None` where two
/// of them meet on a beat.
fn by_beats(all: &[(Quarters, &ChordSymbol)], length: Quarters, meter: Meter) -> Option<Content> {
    let beat = meter.beat();
    let (beats, rest) = length.divided_with_rest(beat)?;
    let beats = usize::try_from(beats).ok().filter(|_| rest.is_zero())?;
    let half = beat.divided_into(2)?;
    let mut words = vec!["/".to_owned(); beats];
    let mut moved = 0;
    for (at, symbol) in all {
        let (nearest, rest) = at.checked_add(half)?.divided_with_rest(beat)?;
        moved += usize::from(rest != half);
        let place = usize::try_from(nearest).ok()?;
        let place = words.get_mut(place).filter(|place| *place == "/")?;
        *place = word(symbol);
    }
    Some(Content { words: words.join(" "), moved })
}

/// Every chord exactly where it begins: each part of the bar has its own.
fn in_fine_parts(all: &[(Quarters, &ChordSymbol)], length: Quarters) -> Option<Content> {
    (1..=FINEST).find_map(|parts| {
        let part = length.divided_into(parts)?;
        let is_on_part = |(at, _): &(Quarters, _)| {
            at.divided_with_rest(part).is_some_and(|(_, rest)| rest.is_zero())
        };
        if !all.iter().all(is_on_part) {
            return None;
        }
        let words: Option<Vec<String>> = (0..parts)
            .map(|before| {
                let now = part.times(before)?;
                all.iter().rev().find(|(at, _)| *at <= now).map(|(_, symbol)| word(symbol))
            })
            .collect();
        Some(Content { words: words?.join(" "), moved: 0 })
    })
}

fn first_of(all: &[(Quarters, &ChordSymbol)]) -> Content {
    let words = all.first().map_or_else(|| "N.C.".to_owned(), |(_, symbol)| word(symbol));
    Content { words, moved: all.len().saturating_sub(1) }
}

/// A symbol as it is typed; one that cannot be read can be taken for nothing else.
fn word(symbol: &ChordSymbol) -> String {
    match symbol {
        ChordSymbol::Chord(chord) => format!("{chord:#}"),
        ChordSymbol::NoChord => "N.C.".to_owned(),
        ChordSymbol::Unread(text) => {
            let kept = |sign: &char| !sign.is_whitespace() && !sign.is_control() && *sign != '|';
            format!("?{}", text.chars().filter(kept).collect::<String>())
        }
    }
}
