//! Figures: notes of a triad, counted from the lowest of the inversion in hand.

use std::fmt;

/// A note of a triad, counted upward from the lowest of the inversion in hand: `1 2 3`, then
/// `4 5 6` an octave up; `0` is the highest an octave down.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Figure(u8);

impl Figure {
    /// The highest there is.
    pub const HIGHEST: u8 = 6;

    /// The figure with this number; `None` above 6.
    #[must_use]
    pub const fn new(number: u8) -> Option<Figure> {
        if number > Figure::HIGHEST { None } else { Some(Figure(number)) }
    }

    /// Its number.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.0
    }

    /// How many notes of the triad it lies above the lowest of the inversion; −1 for `0`.
    #[must_use]
    pub const fn steps_up(self) -> i32 {
        self.0 as i32 - 1
    }

    const fn bit(self) -> u8 {
        1 << self.0
    }
}

/// Figures that sound together, at least one.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Figures(u8);

impl Figures {
    /// The most that sound together.
    pub const MOST: usize = 3;

    /// One alone.
    #[must_use]
    pub const fn one(figure: Figure) -> Figures {
        Figures(figure.bit())
    }

    /// Both; `None` where `figure` is there already, or too many would sound.
    #[must_use]
    pub fn with(self, figure: Figure) -> Option<Figures> {
        let both = Figures(self.0 | figure.bit());
        (both != self && both.count() <= Figures::MOST).then_some(both)
    }

    /// How many there are.
    #[must_use]
    pub const fn count(self) -> usize {
        self.0.count_ones() as usize
    }

    /// From the lowest up.
    pub fn iter(self) -> impl DoubleEndedIterator<Item = Figure> {
        (0..=Figure::HIGHEST).map(Figure).filter(move |figure| self.0 & figure.bit() != 0)
    }

    /// With the middle note of the triad an octave higher.
    pub(super) fn wide(self) -> Figures {
        let raised = |figure: Figure| if figure.0 == 2 { Figure(5) } else { figure };
        Figures(self.iter().map(raised).fold(0, |all, figure| all | figure.bit()))
    }
}

impl fmt::Display for Figures {
    /// `2`, `(13)`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let digits: String = self.iter().map(|figure| figure.0.to_string()).collect();
        if self.count() > 1 { write!(f, "({digits})") } else { f.write_str(&digits) }
    }
}
