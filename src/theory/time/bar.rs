//! Bars.

use std::fmt;

use super::meter::Meter;
use super::quarters::Quarters;

/// What a bar is called: its number, or what a score writes in place of one.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub enum BarLabel {
    /// Counted; the first whole bar is usually 1, and the pick-up before it 0.
    Number(u64),
    /// As it is written, `12a` or `X1`.
    Text(Box<str>),
}

impl BarLabel {
    /// What the bar is called that comes `count` bars later, if numbers go on; `None` after text.
    pub(super) fn after(&self, count: u64) -> Option<BarLabel> {
        match self {
            BarLabel::Number(number) => number.checked_add(count).map(BarLabel::Number),
            BarLabel::Text(_) => None,
        }
    }
}

impl fmt::Display for BarLabel {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            BarLabel::Number(number) => write!(f, "{number}"),
            BarLabel::Text(text) => f.write_str(text),
        }
    }
}

/// A bar as a score has it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Bar {
    /// When it begins.
    pub from: Quarters,
    /// How long it is. It may be shorter or longer than its meter says.
    pub length: Quarters,
    /// Its meter.
    pub meter: Meter,
    /// How much of the meter's bar lies before its beginning: in a pick-up of one quarter in 4/4
    /// three quarters, so that its note stands on beat 4.
    pub missing: Quarters,
    /// What it is called.
    pub label: BarLabel,
}

impl Bar {
    /// Is it as long as its meter says?
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.length == self.meter.bar()
    }
}

/// A moment as players name it: which bar, and where in it.
///
/// Beats are those that a foot taps, counted from 1: in 6/8 the fourth eighth is beat 2.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct BarPosition {
    /// How many bars stand before this one.
    pub index: u64,
    /// The bar.
    pub bar: Bar,
    /// How long after its beginning.
    pub into: Quarters,
    /// The last beat that has begun, counted from 1.
    pub beat: u64,
    /// How long after that beat: half a quarter for the “and” of a quarter.
    pub after_beat: Quarters,
}
