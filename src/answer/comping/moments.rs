//! When a player strikes.

use fretloom_fretboard::CompedChord;
use fretloom_theory::{Bar, Quarters, TriadPair};

use crate::answer::line::LineChords;

/// One stab or two over one pair.
pub(super) struct Struck {
    /// What the fretboard is asked for.
    pub(super) comped: CompedChord,
    /// When they come, one or two.
    pub(super) moments: Vec<Moment>,
}

/// When a stab comes, and over which chord.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Moment {
    pub(super) onset: Quarters,
    pub(super) duration: Quarters,
    /// Which of the chords, from 0.
    pub(super) chord: usize,
}

impl Moment {
    /// Where a chord begins in a bar: a beat, and no longer than it sounds.
    fn of(piece: &Piece) -> Moment {
        let length = piece.until.checked_sub(piece.from).unwrap_or_default();
        let duration = length.min(Quarters::ONE);
        Moment { onset: piece.from, duration, chord: piece.chord }
    }
}

/// A chord for as long as it sounds in a bar.
#[derive(Clone, Copy)]
struct Piece {
    from: Quarters,
    until: Quarters,
    chord: usize,
    pair: TriadPair,
}

/// The stabs of some chords, in order.
///
/// A bar has two: both triads of its pair, on its first beat and before its middle, as in 4/4 on 1 and on
/// the off-beat of 2 (common practice, no source). Where chords change within it, each is struck where
/// it begins: both triads then share two chords that have one pair. Where no chord is to sound, or
/// none that can be read, nothing is struck.
pub(super) fn struck(chords: &LineChords) -> Vec<Struck> {
    let bars = (0..).map_while(|index| chords.bars().bar(index));
    let bars = bars.take_while(|bar| bar.from < chords.end());
    let mut all = Vec::new();
    for bar in bars {
        let pieces = pieces(chords, &bar);
        match pieces.as_slice() {
            [alone] => all.push(both(alone, &bar)),
            several => {
                let alike = several.chunk_by(|one, next| one.pair.is_same_couple(next.pair));
                let twos = alike.flat_map(|alike| alike.chunks(2));
                all.extend(twos.filter_map(each_where_it_begins));
            }
        }
    }
    end_with_the_next(&mut all);
    all
}

/// What sounds in a bar.
fn pieces(chords: &LineChords, bar: &Bar) -> Vec<Piece> {
    let end = bar.from.checked_add(bar.length).unwrap_or(chords.end()).min(chords.end());
    let within = |moment: &Quarters| bar.from < *moment && *moment < end;
    let symbols = chords.symbols().changes();
    let first = symbols.partition_point(|(from, _)| *from <= bar.from);
    let symbols = symbols.iter().skip(first).map(|(from, _)| *from).take_while(within);
    let planned = chords.chords();
    let first = planned.partition_point(|chord| chord.from <= bar.from);
    let planned = planned.iter().skip(first).map(|chord| chord.from).take_while(within);
    let mut moments: Vec<Quarters> = [bar.from].into_iter().chain(symbols).chain(planned).collect();
    moments.sort_unstable();
    moments.dedup();
    let ends = moments.iter().skip(1).copied().chain([end]);
    let piece = |(from, until): (&Quarters, Quarters)| {
        chords.symbols().at(*from)?.chord()?;
        let chord = chords.chords().partition_point(|chord| chord.from <= *from).checked_sub(1)?;
        let pair = chords.chords().get(chord)?.pair.pair();
        Some(Piece { from: *from, until, chord, pair })
    };
    moments.iter().zip(ends).filter_map(piece).collect()
}

/// Two stabs over a chord; one where there is no time for two.
fn both(piece: &Piece, bar: &Bar) -> Struck {
    let length = piece.until.checked_sub(piece.from).unwrap_or_default();
    let first = Moment::of(piece);
    let second = second_of(length, bar).and_then(|into| piece.from.checked_add(into));
    match second {
        Some(onset) => {
            let moments = vec![first, Moment { onset, duration: lasting(onset, bar), ..first }];
            Struck { comped: CompedChord::Both(piece.pair), moments }
        }
        None => Struck { comped: CompedChord::Either(piece.pair), moments: vec![first] },
    }
}

/// How long after the first of two stabs the second comes, over a chord of some length: an eighth
/// before the middle where that is on a beat, and in 6/8 and its like on the beat in the middle or
/// before it. `None` where the chord has no two eighths.
fn second_of(length: Quarters, bar: &Bar) -> Option<Quarters> {
    let (eighths, _) = length.divided_with_rest(Quarters::EIGHTH)?;
    let beat = bar.meter.beat();
    let (in_a_beat, _) = beat.divided_with_rest(Quarters::EIGHTH)?;
    let is_dotted = beat.numerator().is_multiple_of(3) && in_a_beat > 0;
    let half = match eighths / 2 {
        half if is_dotted && half >= in_a_beat => half / in_a_beat * in_a_beat,
        half if !is_dotted && half >= 4 && half.is_multiple_of(2) => half - 1,
        half => half,
    };
    Quarters::EIGHTH.times(u32::try_from(half).ok()?).filter(|into| !into.is_zero())
}

/// A stab lasts a beat, off the beat an eighth.
fn lasting(onset: Quarters, bar: &Bar) -> Quarters {
    let into = onset.checked_sub(bar.from).unwrap_or_default();
    let is_on_a_beat = into.part_of(bar.meter.beat()).is_some_and(|(_, below)| below == 1);
    if is_on_a_beat { Quarters::ONE } else { Quarters::EIGHTH }
}

/// One stab for each of one or two chords over one pair.
fn each_where_it_begins(pieces: &[Piece]) -> Option<Struck> {
    let pair = pieces.first()?.pair;
    let moments: Vec<Moment> = pieces.iter().map(Moment::of).collect();
    let comped = match moments.len() {
        1 => CompedChord::Either(pair),
        _ => CompedChord::Both(pair),
    };
    Some(Struck { comped, moments })
}

/// No stab sounds into the next.
fn end_with_the_next(all: &mut [Struck]) {
    let mut next: Option<Quarters> = None;
    for moment in all.iter_mut().rev().flat_map(|struck| struck.moments.iter_mut().rev()) {
        if let Some(left) = next.and_then(|next| next.checked_sub(moment.onset)) {
            moment.duration = moment.duration.min(left);
        }
        next = Some(moment.onset);
    }
}
