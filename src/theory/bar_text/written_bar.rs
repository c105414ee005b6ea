//! Bars as they are written.

use super::fault::UnreadBar;
use super::mark::{ClosingMark, OpeningMark};
use super::pass::Pass;
use crate::{ChordSymbol, Meter};

/// A bar as it is written. `%%` is one, though it is heard as two.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct WrittenBar {
    /// The comment lines before it, without their `#`.
    pub comments: Vec<Box<str>>,
    /// Does a repeat begin here, with `|:`?
    pub repeat_begins: bool,
    /// What stands before its chords, in that order.
    pub opening: Vec<OpeningMark>,
    /// What sounds.
    pub content: BarContent,
    /// What stands after its chords, in that order.
    pub closing: Vec<ClosingMark>,
    /// Where `:|` ends it: the last time through that is heard.
    pub repeat_ends: Option<Pass>,
}

/// What is written into a bar.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum BarContent {
    /// Chords that share the bar evenly; at least one.
    Shared(Vec<WrittenChord>),
    /// One sign a beat.
    Beats(Vec<BeatSign>),
    /// `%`: the bar before once more.
    BarBefore,
    /// `%%`: the two bars before once more.
    TwoBarsBefore,
    /// What cannot be read, in a text whose faults are marked.
    Unread(UnreadBar),
}

/// What stands on a beat of a bar that is written beat by beat.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum BeatSign {
    /// A chord.
    Chord(WrittenChord),
    /// `/`: the chord before goes on.
    Slash,
}

/// A chord as it is written.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct WrittenChord {
    /// The chord, or `N.C.`
    pub symbol: ChordSymbol,
    /// Is it in round brackets, so that it may be left out?
    pub optional: bool,
}

impl WrittenBar {
    /// The section that begins here.
    #[must_use]
    pub fn section(&self) -> Option<&str> {
        self.opening.iter().rev().find_map(|mark| match mark {
            OpeningMark::Section(name) => Some(&**name),
            OpeningMark::Meter(_)
            | OpeningMark::Ending(_)
            | OpeningMark::Segno
            | OpeningMark::Coda => None,
        })
    }

    /// The meter that begins here.
    #[must_use]
    pub fn meter(&self) -> Option<Meter> {
        self.opening.iter().rev().find_map(|mark| match mark {
            OpeningMark::Meter(meter) => Some(*meter),
            OpeningMark::Section(_)
            | OpeningMark::Ending(_)
            | OpeningMark::Segno
            | OpeningMark::Coda => None,
        })
    }

    /// The ending that begins here: which times through it is heard, and where among the opening
    /// marks that stands.
    pub(super) fn endings(&self) -> impl Iterator<Item = (usize, Pass)> {
        self.opening.iter().enumerate().filter_map(|(index, mark)| match mark {
            OpeningMark::Ending(pass) => Some((index, *pass)),
            OpeningMark::Section(_)
            | OpeningMark::Meter(_)
            | OpeningMark::Segno
            | OpeningMark::Coda => None,
        })
    }

    /// Does an ending begin here that is not heard the first time?
    pub(super) fn begins_later_ending(&self) -> bool {
        self.endings().next().is_some_and(|(_, pass)| pass != Pass::FIRST)
    }

    /// As how many bars it is heard.
    pub(super) fn heard_bars(&self) -> usize {
        match self.content {
            BarContent::Shared(_)
            | BarContent::Beats(_)
            | BarContent::BarBefore
            | BarContent::Unread(_) => 1,
            BarContent::TwoBarsBefore => 2,
        }
    }
}
