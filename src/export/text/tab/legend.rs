//! What the signs of a tab mean.

use std::fmt;

use crate::picture::{
    Count, Slur, Tab, TabBelow, TabColumn, TabLook, TabNote, TabRhythm, TabSystem, Turn,
};
use fretloom_theory::WhichTriad;

/// What the signs mean that stand in a tab; prints as lines of at most 80 columns.
///
/// Only what stands there is explained.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Legend {
    meanings: Vec<&'static str>,
}

impl Legend {
    /// What stands in what a look shows of a tab.
    pub(super) fn of(tab: &Tab, look: &TabLook, systems: &[TabSystem]) -> Legend {
        let is_counted = look.rhythm && tab.rhythm != TabRhythm::NotCounted;
        let counts =
            |fulfils: &dyn Fn(&TabColumn) -> bool| is_counted && tab.columns().any(fulfils);
        let notes = |fulfils: &dyn Fn(&TabNote) -> bool| {
            tab.columns().flat_map(|column| &column.notes).any(fulfils)
        };
        let says = |syllables: [&str; 2]| {
            counts(&|c| matches!(c.count, Count::Syllable(s) if syllables.contains(&s)))
        };
        let triad = |which| look.triads && notes(&|n| n.triad.is_some_and(|t| t.which == which));
        let rows = [
            (
                is_counted,
                "1 & 2 &: beats and halves; a note lasts until the next count that is written",
            ),
            (says(["e", "a"]), "e a: quarters of a beat"),
            (says(["la", "li"]), "la li: thirds of a beat"),
            (says(["ta", "ti"]), "ta ti: the first and the last sixth of a beat"),
            (counts(&|c| matches!(c.count, Count::Part { .. })), "2/5: that part of a beat"),
            (counts(&|c| c.count == Count::Between), "*: between the counts"),
            (counts(&|c| c.turn == Turn::GoesOn && c.count != Count::LeftOut), "~2: notes go on"),
            (counts(&|c| c.turn == Turn::Stops), "(2): silence"),
            (counts(&|c| c.count == Count::LeftOut), "..: the beats between"),
            (counts(&|c| c.count == Count::Grace), "g: a grace note before what follows"),
            (counts(&|c| c.count == Count::Rolled), "': with what is before it, rolled"),
            (held(tab), "=: that string goes on"),
            (
                tab.columns().any(|c| c.held.iter().any(|hold| hold.tied.is_some())),
                "(5) on a string: tied, not struck again",
            ),
            (notes(&|n| n.slur == Some(Slur::HammerOn)), "h5: hammered on"),
            (notes(&|n| n.slur == Some(Slur::PullOff)), "p5: pulled off"),
            (look.strokes && notes(&|n| n.stroke.is_some()), "⊓ V: down, up"),
            (look.strokes && notes(&|n| n.accent), ">: accent"),
            (systems.iter().any(|system| system.is_broken), ": for a bar line: the bar goes on"),
            (look.fingers && notes(&|n| n.finger.is_some()), "below: fingers"),
            (
                look.below == TabBelow::Degrees && notes(&|n| n.degree.is_some()),
                "below: degrees over the chord",
            ),
            (look.below == TabBelow::Names && notes(&|n| n.name.is_some()), "below: notes"),
            (triad(WhichTriad::First), "[ ]: first triad"),
            (triad(WhichTriad::Second), "( ) below: second triad"),
        ];
        Legend { meanings: rows.into_iter().filter(|(is, _)| *is).map(|(_, text)| text).collect() }
    }

    /// What stands in this or in another.
    #[must_use]
    pub fn and(mut self, other: &Legend) -> Legend {
        for meaning in &other.meanings {
            if !self.meanings.contains(meaning) {
                self.meanings.push(meaning);
            }
        }
        self
    }
}

fn held(tab: &Tab) -> bool {
    tab.columns().flat_map(|column| &column.held).any(|hold| hold.tied.is_none())
}

impl fmt::Display for Legend {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut width = 0;
        for (index, meaning) in self.meanings.iter().enumerate() {
            let length = meaning.chars().count();
            if index > 0 && width + length + 3 > TabLook::USUAL_WIDTH {
                writeln!(f)?;
                width = 0;
            }
            if width > 0 {
                f.write_str("   ")?;
                width += 3;
            }
            f.write_str(meaning)?;
            width += length;
        }
        if self.meanings.is_empty() { Ok(()) } else { writeln!(f) }
    }
}
