//! What the player has chosen, in one piece: so it can be taken back, and found again tomorrow.

use fretloom_fretboard::{FretRange, Shape};
use fretloom_theory::{Direction, ReadChord, ReadError};

use super::in_hand::Held;
use super::neck_view::NeckView;
use crate::answer::{NamedPair, Wishes};
use crate::picture::Labels;

/// Every choice of the player on the explorer. What is shown follows from it and from what all
/// screens share; nothing of it is kept elsewhere.
///
/// Where a choice is an index, it counts what follows from the choices before it, from 0.
#[derive(Clone, PartialEq, Debug)]
pub(in crate::tui) struct Chosen {
    pub(super) chord: TypedChord,
    /// Which of the scales that fit the chord.
    pub(super) scale: usize,
    /// Which of [`Families::usual`](fretloom_theory::Families::usual) are paired.
    pub(super) families: usize,
    pub(super) wishes: Wishes,
    /// Which row of the list of pairs: one fold of them.
    pub(super) row: usize,
    /// Which copy within the fold, 0 for its first pair.
    pub(super) copy: usize,
    /// Which set of three neighbouring strings the ladder climbs.
    pub(super) set: usize,
    /// Does the ladder stay on that set, the other strings drawn quietly?
    pub(super) locked: bool,
    /// Which rung of the ladder is in hand; none where the ladder has none.
    pub(super) rung: Option<usize>,
    /// Which way a climb goes on; it turns round where the ladder ends.
    pub(super) going: Direction,
    pub(super) held: Held,
    pub(super) view: NeckView,
    /// The frets at which the hand may stand.
    pub(super) frets: FretRange,
    pub(super) labels: Labels,
    /// Are the notes that the pair leaves out drawn?
    pub(super) shows_left_out: bool,
    /// The first fret in view, from 1.
    pub(super) first_fret: u8,
}

impl Chosen {
    /// The first choice over a chord; which strings and which shape, only the neck can say.
    pub(super) fn over(chord: TypedChord) -> Chosen {
        Chosen {
            chord,
            scale: 0,
            families: 0,
            wishes: Wishes::default(),
            row: 0,
            copy: 0,
            set: 0,
            locked: false,
            rung: None,
            going: Direction::Up,
            held: Held::default(),
            view: NeckView::Whole,
            frets: FretRange::WHOLE_NECK,
            labels: Labels::default(),
            shows_left_out: false,
            first_fret: 1,
        }
    }
}

/// A chord symbol as it was typed, and what it was read as.
#[derive(Clone, PartialEq, Debug)]
pub(in crate::tui) struct TypedChord {
    pub(super) symbol: String,
    pub(super) read: ReadChord,
}

impl TypedChord {
    /// Reads a symbol.
    ///
    /// # Errors
    ///
    /// Where it is no chord.
    pub(in crate::tui) fn read(symbol: &str) -> Result<TypedChord, ReadError> {
        Ok(TypedChord::new(symbol, symbol.trim().parse()?))
    }

    pub(super) fn new(symbol: &str, read: ReadChord) -> TypedChord {
        TypedChord { symbol: symbol.trim().to_owned(), read }
    }

    /// The symbol as it was typed, or as it is printed where signs were typed.
    pub(super) fn in_ascii(&self) -> String {
        if self.symbol.is_ascii() { self.symbol.clone() } else { format!("{:#}", self.read.chord) }
    }
}

/// A chord that the player has been at, with the scale, the pair and the shape of that moment.
#[derive(Clone, PartialEq, Debug)]
pub(in crate::tui) struct Page {
    pub(super) chord: TypedChord,
    pub(super) scale: usize,
    /// None where the scale holds no pair.
    pub(super) pair: Option<NamedPair>,
    /// The shape of the ladder that was in hand, and how it was held.
    pub(super) hand: Option<(Shape, Held)>,
}

impl Page {
    /// Is it of the same chord?
    pub(in crate::tui) fn is_like(&self, other: &Page) -> bool {
        self.chord.read.chord == other.chord.read.chord
    }
}
