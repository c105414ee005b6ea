//! Which heads of a bar need an accidental.

use fretloom_theory::{KeySignature, NamedPitch};

use super::set_piece::SetPiece;
use crate::score_file::notation::Accidentals;

/// Gives the heads of a bar their accidentals, in order of time. A head that is tied to needs none.
pub(super) fn signs_of_bar(
    voices: &mut [Vec<SetPiece>],
    key: KeySignature,
    pitch: impl Fn(usize) -> Option<NamedPitch>,
) {
    let mut pieces: Vec<&mut SetPiece> = voices.iter_mut().flatten().collect();
    pieces.sort_by_key(|piece| piece.piece.from);
    let mut accidentals = Accidentals::of_bar(key);
    for piece in pieces {
        let is_tied_to = piece.is_tied_to;
        for head in &mut piece.heads {
            let sign = pitch(head.note).and_then(|pitch| accidentals.sign(pitch));
            head.sign = sign.filter(|_| !is_tied_to);
        }
    }
}
