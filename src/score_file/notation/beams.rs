//! Beams: notes of a beat, or of a tuplet, that have flags.

use super::beats::Beats;
use super::piece::Piece;

/// What a piece does with a beam.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Beam {
    Begin,
    Continue,
    End,
    ForwardHook,
    BackwardHook,
}

impl Beam {
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Beam::Begin => "begin",
            Beam::Continue => "continue",
            Beam::End => "end",
            Beam::ForwardHook => "forward hook",
            Beam::BackwardHook => "backward hook",
        }
    }
}

/// The beams of each piece of a bar, the first for eighths, the next for sixteenths, and so on.
pub(crate) fn of_bar(pieces: &[Piece], beats: &Beats) -> Vec<Vec<Beam>> {
    let mut beams = Vec::with_capacity(pieces.len());
    let mut rest = pieces;
    while let Some((first, others)) = rest.split_first() {
        let together = others.iter().take_while(|piece| is_beamed(first, piece, beats)).count();
        let (group, after) = rest.split_at(together + 1);
        beams.extend((0..group.len()).map(|index| of_piece(group, index)));
        rest = after;
    }
    beams
}

/// Is a later piece beamed with the first, if all between are?
fn is_beamed(first: &Piece, piece: &Piece, beats: &Beats) -> bool {
    let have_flags = [first, piece].iter().all(|piece| flags(piece) > 0);
    // A new beat begins a new beam, but where it begins within a tuplet.
    let begins_anew = match piece.tuplet {
        Some(place) => place.is_first || first.tuplet.is_none(),
        None => first.tuplet.is_some(),
    };
    let passes_a_beat = piece.tuplet.is_none()
        && (beats.is_beat(piece.from) || beats.within(first.from, piece.from).next().is_some());
    have_flags && !begins_anew && !passes_a_beat
}

/// How many beams a piece has; none for a rest.
fn flags(piece: &Piece) -> u8 {
    let value = piece.value.filter(|_| piece.struck.is_some());
    value.map_or(0, |value| value.flags())
}

fn of_piece(group: &[Piece], index: usize) -> Vec<Beam> {
    let flags_at = |index: Option<usize>| index.and_then(|index| group.get(index)).map_or(0, flags);
    if group.len() < 2 {
        return Vec::new();
    }
    let before = flags_at(index.checked_sub(1));
    let after = flags_at(Some(index + 1));
    let beam = |level: u8| match (before >= level, after >= level) {
        (true, true) => Beam::Continue,
        (true, false) => Beam::End,
        (false, true) => Beam::Begin,
        (false, false) if index == 0 => Beam::ForwardHook,
        (false, false) => Beam::BackwardHook,
    };
    (1..=flags_at(Some(index))).map(beam).collect()
}
