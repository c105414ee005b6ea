//! The moments of a bar side by side: how much room each needs.

use fretloom_theory::Quarters;

use super::look::{Answers, EngravingLook};
use super::music::{Music, SetBar};
use super::set_piece::SetPiece;
use super::staff::{SPACE, time_signature};
use super::tab;
use crate::picture::page::{Face, SignKind, points};

/// The size of chord symbols: they are read first, and from afar.
pub(super) const CHORD_SIZE: f64 = points(14.0);
/// Between two chord symbols.
const BETWEEN_CHORDS: f64 = 2.0;
/// Between what belongs to one moment and what belongs to the next.
const GAP: f64 = 0.9;
/// Between a bar line and the first moment, and between the last one and the next bar line.
const PAD: f64 = 1.8;
/// How wide a quarter note is where there is room; others by their length.
const QUARTER: f64 = 11.0;
/// Twice as long is so much wider: a half note does not need twice the room of a quarter.
const WIDER: f64 = 0.62;
/// A bar with words below it is no narrower.
const WORDS: f64 = 36.0;
/// Nor is one without notes.
const EMPTY: f64 = 16.0;

/// A bar as columns.
#[derive(Clone, Debug)]
pub(super) struct BarColumns {
    /// The room of a new key or meter at its beginning.
    pub(super) lead: f64,
    /// By time, at least one.
    pub(super) moments: Vec<Quarters>,
    /// How far the first moment lies from the bar line at least.
    first: f64,
    /// How far each lies from the next at least, the last one from the end of the bar.
    least: Vec<f64>,
    /// How far it would like to.
    natural: Vec<f64>,
}

impl BarColumns {
    pub(super) fn of(music: &Music<'_>, bar: &SetBar, index: usize, look: &EngravingLook) -> Self {
        let moments = moments(bar);
        let room = |at: &Quarters| room_at(music, bar, *at, look);
        let rooms: Vec<(f64, f64)> = moments.iter().map(room).collect();
        let end = bar.bar.from.checked_add(bar.bar.length).unwrap_or(bar.bar.from);
        let nexts = moments.iter().skip(1).copied().chain([end]);
        let natural = moments.iter().zip(nexts).map(|(at, next)| natural(*at, next)).collect();
        let after_last = [PAD].into_iter();
        let befores = rooms.iter().skip(1).map(|(before, _)| before + GAP).chain(after_last);
        let least = rooms.iter().zip(befores).map(|((_, after), before)| after + before).collect();
        let lead = lead(music, bar, index);
        let first = lead + PAD + rooms.first().map_or(0.0, |(before, _)| *before);
        let mut columns = BarColumns { lead, moments, first, least, natural };
        columns.make_room_for_chords(bar, end);
        let has_words = look.words.iter().any(|words| words.bar == index);
        columns.widen_to(if has_words { WORDS } else { EMPTY });
        columns
    }

    /// How wide the bar is where every moment has so much of the room that it would like.
    pub(super) fn width(&self, ease: f64) -> f64 {
        self.first + self.steps(ease).sum::<f64>()
    }

    /// Where each moment lies, from the left edge of the bar.
    pub(super) fn places(&self, ease: f64) -> Vec<f64> {
        let mut x = self.first;
        let mut places = Vec::with_capacity(self.moments.len());
        for step in self.steps(ease) {
            places.push(x);
            x += step;
        }
        places
    }

    fn steps(&self, ease: f64) -> impl Iterator<Item = f64> {
        self.least.iter().zip(&self.natural).map(move |(least, natural)| least.max(natural * ease))
    }

    /// A symbol is no wider than the moments until the next one.
    fn make_room_for_chords(&mut self, bar: &SetBar, end: Quarters) {
        for (index, (at, symbol)) in bar.chords.iter().enumerate() {
            let until = bar.chords.get(index + 1).map_or(end, |(next, _)| *next);
            let needed = Face::Bold.width_mm(&symbol.to_string(), CHORD_SIZE) + BETWEEN_CHORDS;
            self.widen(*at, until, needed);
        }
    }

    fn widen(&mut self, from: Quarters, until: Quarters, needed: f64) {
        let inside = |at: &Quarters| from <= *at && *at < until;
        let of_steps = self.moments.iter().zip(&mut self.least).filter(|(at, _)| inside(at));
        let steps: Vec<&mut f64> = of_steps.map(|(_, step)| step).collect();
        let there: f64 = steps.iter().map(|step| **step).sum();
        let (count, missing) = (steps.len() as f64, needed - there);
        if missing > 0.0 {
            steps.into_iter().for_each(|step| *step += missing / count);
        }
    }

    fn widen_to(&mut self, width: f64) {
        let missing = width - self.first - self.least.iter().sum::<f64>();
        let count = self.least.len() as f64;
        if missing > 0.0 {
            self.least.iter_mut().for_each(|step| *step += missing / count);
        }
    }
}

/// Where something begins: a note, a rest, a chord symbol; the beginning of the bar in any case.
fn moments(bar: &SetBar) -> Vec<Quarters> {
    let pieces = bar.voices.iter().flatten().map(|piece| piece.piece.from);
    let chords = bar.chords.iter().map(|(at, _)| *at);
    let mut moments: Vec<Quarters> = pieces.chain(chords).chain([bar.bar.from]).collect();
    moments.sort_unstable();
    moments.dedup();
    moments
}

fn natural(at: Quarters, next: Quarters) -> f64 {
    let length = next.checked_sub(at).unwrap_or_default().to_f64();
    QUARTER * length.powf(WIDER)
}

/// The room that all pieces of a moment need, left of the heads and from their left edge on.
fn room_at(music: &Music<'_>, bar: &SetBar, at: Quarters, look: &EngravingLook) -> (f64, f64) {
    if look.answers == Answers::Blank {
        return (0.0, 0.0);
    }
    let pieces = bar.voices.iter().flatten().filter(|piece| piece.piece.from == at);
    let sounding = pieces.clone().filter(|piece| !piece.heads.is_empty()).count();
    let rooms = pieces.map(|piece| room_of(music, piece));
    // Heads of several voices may stand side by side.
    rooms.fold((0.0, 0.0), |(before, after), room| match sounding {
        2.. => (room.0.max(before), room.0 + room.1 + after),
        _ => (room.0.max(before), room.1.max(after)),
    })
}

fn room_of(music: &Music<'_>, piece: &SetPiece) -> (f64, f64) {
    let head = piece.head_sign().advance() * SPACE;
    if piece.heads.is_empty() {
        return (0.0, head);
    }
    let signs = piece.heads.iter().filter_map(|head| head.sign);
    let signs: f64 = signs.map(|sign| SignKind::Accidental(sign).advance() + 0.25).sum();
    let displaced = if piece.has_second() { head } else { 0.0 };
    let dot = if piece.is_dotted() { SPACE } else { 0.0 };
    let flag = if piece.flags() > 0 && piece.beams.is_empty() { 1.1 * SPACE } else { 0.0 };
    let digits = tab::widest_fret(music, piece);
    let middle = head / 2.0;
    let before = (signs * SPACE + displaced).max(digits / 2.0 - middle);
    let after = (head + displaced + dot + flag).max(digits / 2.0 + middle);
    (before, after)
}

/// The width of a new key and a new meter.
fn lead(music: &Music<'_>, bar: &SetBar, index: usize) -> f64 {
    let mut lead = 0.0;
    if bar.new_key {
        let before = index.checked_sub(1).and_then(|index| music.bars.get(index));
        let (_, width) = music.clef.signature(bar.key, before.map(|before| before.key), 0.0);
        lead += 1.2 + width;
    }
    if bar.new_meter {
        lead += 1.2 + time_signature(bar.bar.meter, 0.0).1;
    }
    lead
}
