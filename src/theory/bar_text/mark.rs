//! What stands in a bar beside its chords.

use std::fmt;

use super::pass::Pass;
use crate::Meter;

/// What stands before the chords of a bar and holds from its beginning.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum OpeningMark {
    /// `[A]`: a section begins; its name has no spaces.
    Section(Box<str>),
    /// `3/4`: the meter changes.
    Meter(Meter),
    /// `1.`: an ending begins, which is heard this time through. An ending that is heard more than
    /// once has several.
    Ending(Pass),
    /// Where `D.S.` goes back to.
    Segno,
    /// Where one goes on after `ToCoda`.
    Coda,
}

/// What stands after the chords of a bar and is obeyed at its end.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ClosingMark {
    /// On the way to the coda, from here there.
    ToCoda,
    /// After going back, the end.
    Fine,
    /// `D.C.`, `D.S.` and their like.
    Jump(Jump),
}

/// Going back once: `D.C.alFine`, `D.S.alCoda` and their like.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Jump {
    /// Where to.
    pub back_to: JumpTo,
    /// And until where.
    pub until: JumpUntil,
}

/// Where a [`Jump`] goes back to.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum JumpTo {
    /// `D.C.`: to the first whole bar.
    Beginning,
    /// `D.S.`: to the Segno.
    Segno,
}

/// JumpUntil where one plays after a [`Jump`].
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum JumpUntil {
    /// To the end, or to a Fine if there is one.
    End,
    /// `alCoda`: to the `ToCoda`, and from there to the Coda.
    Coda,
    /// `alFine`: to the Fine.
    Fine,
}

impl Jump {
    const ALL: [Jump; 6] = [
        Jump { back_to: JumpTo::Beginning, until: JumpUntil::End },
        Jump { back_to: JumpTo::Beginning, until: JumpUntil::Coda },
        Jump { back_to: JumpTo::Beginning, until: JumpUntil::Fine },
        Jump { back_to: JumpTo::Segno, until: JumpUntil::End },
        Jump { back_to: JumpTo::Segno, until: JumpUntil::Coda },
        Jump { back_to: JumpTo::Segno, until: JumpUntil::Fine },
    ];

    fn word(self) -> &'static str {
        match (self.back_to, self.until) {
            (JumpTo::Beginning, JumpUntil::End) => "D.C.",
            (JumpTo::Beginning, JumpUntil::Coda) => "D.C.alCoda",
            (JumpTo::Beginning, JumpUntil::Fine) => "D.C.alFine",
            (JumpTo::Segno, JumpUntil::End) => "D.S.",
            (JumpTo::Segno, JumpUntil::Coda) => "D.S.alCoda",
            (JumpTo::Segno, JumpUntil::Fine) => "D.S.alFine",
        }
    }
}

impl ClosingMark {
    /// Every one there is.
    pub(super) fn all() -> impl Iterator<Item = ClosingMark> {
        let jumps = Jump::ALL.into_iter().map(ClosingMark::Jump);
        [ClosingMark::ToCoda, ClosingMark::Fine].into_iter().chain(jumps)
    }

    /// How it is written.
    pub(super) fn word(self) -> &'static str {
        match self {
            ClosingMark::ToCoda => "ToCoda",
            ClosingMark::Fine => "Fine",
            ClosingMark::Jump(jump) => jump.word(),
        }
    }
}

impl fmt::Display for OpeningMark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            OpeningMark::Section(name) => write!(f, "[{name}]"),
            OpeningMark::Meter(meter) => meter.fmt(f),
            OpeningMark::Ending(pass) => write!(f, "{pass}."),
            OpeningMark::Segno => f.write_str("Segno"),
            OpeningMark::Coda => f.write_str("Coda"),
        }
    }
}

impl fmt::Display for ClosingMark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

impl fmt::Display for Jump {
    /// `D.S.alCoda`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}
