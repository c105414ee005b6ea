//! Signs of music.

use super::extent::{Extent, Point};
use super::font::{music_advance, music_ink, music_outline};
use super::segment::Segment;
use super::shade::Shade;

/// A sign of music on a page. It is drawn as an outline, so that nobody needs its font.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct MusicSign {
    /// Where its origin lies.
    pub at: Point,
    /// Which sign.
    pub kind: SignKind,
    /// How far two lines of its staff are apart, in millimetres.
    pub space_mm: f64,
    /// How dark it is.
    pub shade: Shade,
}

/// Which sign. Its origin is at the left on the line or the space that it belongs to.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum SignKind {
    /// The treble clef, on its line.
    TrebleClef,
    /// The treble clef with an 8 below: it sounds an octave lower.
    TrebleClefOctaveLower,
    /// The bass clef, on its line.
    BassClef,
    /// The bass clef with an 8 below.
    BassClefOctaveLower,
    /// A digit of a time signature.
    TimeDigit(u8),
    /// The head of a whole note.
    WholeHead,
    /// The head of a half note.
    HalfHead,
    /// The head of shorter notes.
    BlackHead,
    /// A dot behind a note.
    Dot,
    /// So many flags on a stem that points up, from 1 to 8.
    FlagsUp(u8),
    /// So many flags on a stem that points down, from 1 to 8.
    FlagsDown(u8),
    /// An accidental: how many semitones up, from -2 to 2.
    Accidental(i8),
    /// A rest: 0 for a whole note's, 1 for a half note's and so on, to 10.
    Rest(u8),
    /// An accent over or under a note.
    Accent,
    /// The pick goes down.
    DownStroke,
    /// The pick goes up.
    UpStroke,
    /// A digit of a tuplet.
    TupletDigit(u8),
    /// The bar before once more.
    RepeatBar,
}

impl SignKind {
    /// The sign's number in the Standard Music Font Layout.
    const fn code(self) -> u32 {
        match self {
            SignKind::TrebleClef => 0xE050,
            SignKind::TrebleClefOctaveLower => 0xE052,
            SignKind::BassClef => 0xE062,
            SignKind::BassClefOctaveLower => 0xE064,
            SignKind::TimeDigit(digit) => 0xE080 + digit as u32,
            SignKind::WholeHead => 0xE0A2,
            SignKind::HalfHead => 0xE0A3,
            SignKind::BlackHead => 0xE0A4,
            SignKind::Dot => 0xE1E7,
            SignKind::FlagsUp(flags) => 0xE240 + 2 * (flags.saturating_sub(1) as u32),
            SignKind::FlagsDown(flags) => 0xE241 + 2 * (flags.saturating_sub(1) as u32),
            SignKind::Accidental(semitones) => match semitones {
                ..=-2 => 0xE264,
                -1 => 0xE260,
                0 => 0xE261,
                1 => 0xE262,
                2.. => 0xE263,
            },
            SignKind::Rest(halvings) => 0xE4E3 + halvings as u32,
            SignKind::Accent => 0xE4A0,
            SignKind::DownStroke => 0xE610,
            SignKind::UpStroke => 0xE612,
            SignKind::TupletDigit(digit) => 0xE880 + digit as u32,
            SignKind::RepeatBar => 0xE500,
        }
    }

    fn char(self) -> char {
        char::from_u32(self.code()).unwrap_or_default()
    }

    /// How it goes round, in staff spaces from its origin.
    #[must_use]
    pub fn outline(self) -> Vec<Segment> {
        music_outline(self.char())
    }

    /// How far the next sign stands from it, in staff spaces.
    #[must_use]
    pub fn advance(self) -> f64 {
        music_advance(self.char())
    }

    /// What it covers around its origin, in staff spaces; `None` for a number that there is no sign
    /// for.
    #[must_use]
    pub fn ink(self) -> Option<Extent> {
        music_ink(self.char())
    }
}

impl MusicSign {
    /// A black sign.
    #[must_use]
    pub const fn new(at: Point, kind: SignKind, space_mm: f64) -> MusicSign {
        MusicSign { at, kind, space_mm, shade: Shade::Black }
    }

    /// What it covers.
    #[must_use]
    pub fn extent(&self) -> Option<Extent> {
        let Extent { left, top, right, bottom } = self.kind.ink()?;
        let (Point { x, y }, space) = (self.at, self.space_mm);
        Some(Extent {
            left: x + left * space,
            top: y + top * space,
            right: x + right * space,
            bottom: y + bottom * space,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sign_has_an_outline() {
        use SignKind::*;
        let digits = (0..10).flat_map(|digit| [TimeDigit(digit), TupletDigit(digit)]);
        let flags = (1..=8).flat_map(|flags| [FlagsUp(flags), FlagsDown(flags)]);
        let signs = (-2..=2).map(Accidental).chain((0..=10).map(Rest)).chain(digits).chain(flags);
        let clefs = [TrebleClef, TrebleClefOctaveLower, BassClef, BassClefOctaveLower];
        let heads = [WholeHead, HalfHead, BlackHead, Dot, Accent, DownStroke, UpStroke, RepeatBar];
        for sign in signs.chain(clefs).chain(heads) {
            assert!(sign.ink().is_some() && !sign.outline().is_empty(), "{sign:?}");
        }
    }
}
