//! What is written in a bar: values, ties and tuplets.
//!
//! What sounds and what is silent is cut at bar lines. Where a note ends or begins at a moment that
//! plain values do not reach, the stretch around it is a tuplet: as short as may be, unless a longer
//! one needs fewer notes. The rest is cut where a reader looks for the beats.

use fretloom_theory::{Bar, Quarters};

use super::beats::Beats;
use super::piece::{InTuplet, Piece};
use super::tuplet::{Tuplet, is_plain};
use super::value::{Value, values_of};
use super::voices::{Struck, Voices};

/// A stretch of a bar in which one thing sounds, or nothing.
#[derive(Clone, Copy, Debug)]
struct Segment {
    from: Quarters,
    to: Quarters,
    struck: Option<usize>,
}

/// The pieces of a voice in each of the bars; a rest of the whole bar where it is silent. `None` where
/// no tuplet has the numbers that it takes.
pub(crate) fn of_voice(voices: &Voices, voice: &[usize], bars: &[Bar]) -> Option<Vec<Vec<Piece>>> {
    let mut first = 0;
    let mut pieces = Vec::with_capacity(bars.len());
    for bar in bars {
        let end = bar.from.checked_add(bar.length).unwrap_or(bar.from);
        let of_voice = |index: usize| {
            let index = *voice.get(index)?;
            voices.struck.get(index).map(|chord| (index, chord))
        };
        while of_voice(first).is_some_and(|(_, chord)| chord.to <= bar.from) {
            first += 1;
        }
        let within = (first..).map_while(of_voice).take_while(|(_, chord)| chord.from < end);
        let segments = segments(within, bar.from, end);
        pieces.push(of_bar(&segments, &Beats::of(bar))?);
    }
    Some(pieces)
}

/// What sounds in a bar, and the silences between.
fn segments<'a>(
    struck: impl Iterator<Item = (usize, &'a Struck)>,
    from: Quarters,
    to: Quarters,
) -> Vec<Segment> {
    let mut segments = Vec::new();
    let mut now = from;
    for (index, chord) in struck {
        let (begin, end) = (chord.from.max(from), chord.to.min(to));
        if now < begin {
            segments.push(Segment { from: now, to: begin, struck: None });
        }
        segments.push(Segment { from: begin, to: end, struck: Some(index) });
        now = end;
    }
    if now < to {
        segments.push(Segment { from: now, to, struck: None });
    }
    segments
}

fn of_bar(segments: &[Segment], beats: &Beats) -> Option<Vec<Piece>> {
    // The rest of a whole bar is that of its meter, which a pick-up is not.
    if let [Segment { from, to, struck: None }] = segments
        && beats.is_whole()
    {
        let length = to.checked_sub(*from).unwrap_or_default();
        let rest = Piece { from: *from, length, value: None, tuplet: None, struck: None };
        return Some(vec![rest]);
    }
    let mut pieces = Vec::new();
    let mut rest = segments;
    while let Some(first) = rest.first() {
        let count = count_until_plain(rest, beats);
        let (stretch, after) = rest.split_at(count);
        match stretch {
            [_] if is_plain(beats.into(first.to)) => pieces.extend(plain(first, beats)),
            _ => pieces.extend(uneven(stretch, beats)?),
        }
        rest = after;
    }
    Some(pieces)
}

/// How many segments there are until one ends where plain values end, or with the bar.
fn count_until_plain(segments: &[Segment], beats: &Beats) -> usize {
    let ends = segments.iter().position(|segment| is_plain(beats.into(segment.to)));
    ends.map_or(segments.len(), |index| index + 1)
}

fn plain(segment: &Segment, beats: &Beats) -> Vec<Piece> {
    let mut from = segment.from;
    let lengths = match segment.struck {
        Some(_) => beats.note(segment.from, segment.to),
        None => beats.rest(segment.from, segment.to),
    };
    let piece = |length: Quarters| {
        let value = Value::of(length);
        let piece = Piece { from, length, value, tuplet: None, struck: segment.struck };
        from = piece.end();
        piece
    };
    lengths.into_iter().map(piece).collect()
}

/// A stretch that holds tuplets: the whole as one where that is usual and needs no more pieces than
/// one in every beat.
fn uneven(stretch: &[Segment], beats: &Beats) -> Option<Vec<Piece>> {
    let mut by_beat = Vec::new();
    for cell in cut(stretch, beats) {
        by_beat.extend(of_cell(&cell, beats)?);
    }
    let whole = tuplet_of(stretch).filter(|tuplet| matches!(tuplet.actual, 3 | 5 | 7));
    match whole.and_then(|tuplet| in_tuplet(stretch, tuplet)) {
        Some(whole) if whole.len() < by_beat.len() => Some(whole),
        Some(_) | None => Some(by_beat),
    }
}

/// The segments of each beat that the stretch touches.
fn cut(stretch: &[Segment], beats: &Beats) -> Vec<Vec<Segment>> {
    let mut cells: Vec<Vec<Segment>> = vec![Vec::new()];
    for segment in stretch {
        let mut from = segment.from;
        for beat in beats.within(segment.from, segment.to) {
            put(&mut cells, Segment { from, to: beat, ..*segment });
            cells.push(Vec::new());
            from = beat;
        }
        put(&mut cells, Segment { from, ..*segment });
        if beats.is_beat(segment.to) {
            cells.push(Vec::new());
        }
    }
    cells
}

fn put(cells: &mut [Vec<Segment>], segment: Segment) {
    if let Some(cell) = cells.last_mut() {
        cell.push(segment);
    }
}

fn of_cell(cell: &[Segment], beats: &Beats) -> Option<Vec<Piece>> {
    match cell {
        [] => Some(Vec::new()),
        [one] if is_plain(length(one)) => Some(plain(one, beats)),
        _ => in_tuplet(cell, tuplet_of(cell)?),
    }
}

fn length(segment: &Segment) -> Quarters {
    segment.to.checked_sub(segment.from).unwrap_or_default()
}

fn tuplet_of(stretch: &[Segment]) -> Option<Tuplet> {
    let (first, last) = (stretch.first()?, stretch.last()?);
    let moments: Vec<Quarters> = stretch.iter().map(|segment| segment.to).collect();
    Tuplet::of(first.from, last.to, &moments)
}

fn in_tuplet(stretch: &[Segment], tuplet: Tuplet) -> Option<Vec<Piece>> {
    let mut pieces = Vec::new();
    for segment in stretch {
        let mut from = segment.from;
        for look in values_of(tuplet.looks(length(segment))?) {
            let length = tuplet.lasts(look)?;
            let place = InTuplet { tuplet, is_first: false, is_last: false };
            let struck = segment.struck;
            let piece = Piece { from, length, value: Value::of(look), tuplet: Some(place), struck };
            from = piece.end();
            pieces.push(piece);
        }
    }
    if let Some(place) = pieces.first_mut().and_then(|piece| piece.tuplet.as_mut()) {
        place.is_first = true;
    }
    if let Some(place) = pieces.last_mut().and_then(|piece| piece.tuplet.as_mut()) {
        place.is_last = true;
    }
    Some(pieces)
}
