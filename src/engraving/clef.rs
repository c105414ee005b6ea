//! Clefs and key signatures on the staff.

use fretloom_theory::{KeySignature, Letter, NamedPitch};

use super::staff::{SPACE, y_of_step};
use crate::picture::page::{Item, MusicSign, Point, SignKind};
use crate::score_file::notation::Clef;

/// A clef as it stands on the staff.
#[derive(Clone, Copy)]
pub(super) struct StaffClef {
    pub(super) sign: SignKind,
    /// The step of the line on which its sign stands.
    on: i32,
    /// The letter that lies on the lowest line, in steps above C0.
    bottom: i32,
    /// How many steps lower a key signature stands than in the treble clef.
    lower: i32,
}

/// Steps above C0.
fn steps(letter: Letter, octave: i32) -> i32 {
    Letter::ALL.iter().position(|other| *other == letter).map_or(0, |index| index as i32)
        + 7 * octave
}

impl StaffClef {
    pub(super) fn of(clef: Clef) -> StaffClef {
        let octaves = i32::from(clef.octaves);
        if clef.sign == "F" {
            let sign = if octaves < 0 { SignKind::BassClefOctaveLower } else { SignKind::BassClef };
            StaffClef { sign, on: 6, bottom: steps(Letter::G, 2 + octaves), lower: 2 }
        } else {
            let sign =
                if octaves < 0 { SignKind::TrebleClefOctaveLower } else { SignKind::TrebleClef };
            StaffClef { sign, on: 2, bottom: steps(Letter::E, 4 + octaves), lower: 0 }
        }
    }

    /// How many steps a note lies above the lowest line.
    pub(super) fn step(self, pitch: NamedPitch) -> i32 {
        steps(pitch.name().letter(), i32::from(pitch.octave())) - self.bottom
    }

    /// The clef, its left edge there.
    pub(super) fn item(self, x: f64) -> Item {
        Item::Sign(MusicSign::new(Point::new(x, y_of_step(self.on)), self.sign, SPACE))
    }

    /// The signs of a key, the first one there, and how wide they are together. C major is told by the
    /// naturals of what held before.
    pub(super) fn signature(
        self,
        key: KeySignature,
        before: Option<KeySignature>,
        x: f64,
    ) -> (Vec<Item>, f64) {
        // From the lowest line of the treble clef. Common practice, no source.
        const SHARPS: [i32; 7] = [8, 5, 9, 6, 3, 7, 4];
        const FLATS: [i32; 7] = [4, 7, 3, 6, 2, 5, 1];
        let of = |key: KeySignature| {
            let steps = if key.sharps() < 0 { &FLATS } else { &SHARPS };
            steps.iter().take(usize::from(key.sharps().unsigned_abs()))
        };
        let (signs, sign): (Vec<i32>, i8) = match before.filter(|_| key.sharps() == 0) {
            Some(before) => (of(before).copied().collect(), 0),
            None => (of(key).copied().collect(), key.sharps().signum()),
        };
        let kind = SignKind::Accidental(sign);
        let advance = (kind.advance() + 0.12) * SPACE;
        let items = signs.iter().enumerate().map(|(index, step)| {
            let at = Point::new(x + advance * index as f64, y_of_step(step - self.lower));
            Item::Sign(MusicSign::new(at, kind, SPACE))
        });
        (items.collect(), advance * signs.len() as f64)
    }
}
