//! The rows of a line of tablature.

use fretloom_fretboard::StringNumber;

/// What a row holds. Rows stand in this order.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum TabRowKind {
    /// The numbers of the bars.
    Bars,
    /// The chords.
    Chords,
    /// Where the hand goes.
    Positions,
    /// The accents.
    Accents,
    /// The pick strokes.
    Strokes,
    /// How the moments are counted.
    Count,
    /// A string.
    String(StringNumber),
    /// The fingers: of the first note of each column, of the second, and so on.
    Fingers(u8),
    /// Degrees, names, and the brackets of triads, likewise.
    Below(u8),
}

/// A row of a line of tablature.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TabRow {
    /// What it holds.
    pub kind: TabRowKind,
    /// Its text, without spaces at its end. Every sign has one column.
    pub text: String,
}

/// A row that is being written.
#[derive(Clone, Default, Debug)]
pub(super) struct Canvas {
    signs: Vec<char>,
}

impl Canvas {
    /// A row of one sign throughout.
    pub(super) fn of(sign: char, width: usize) -> Canvas {
        Canvas { signs: vec![sign; width] }
    }

    /// Writes a text from a column on.
    pub(super) fn write(&mut self, column: usize, text: &str) {
        for (sign, column) in text.chars().zip(column..) {
            self.put(column, sign);
        }
    }

    /// Writes one sign.
    pub(super) fn put(&mut self, column: usize, sign: char) {
        if column >= self.signs.len() {
            self.signs.resize(column + 1, ' ');
        }
        if let Some(place) = self.signs.get_mut(column) {
            *place = sign;
        }
    }

    pub(super) fn into_text(self) -> String {
        let text: String = self.signs.into_iter().collect();
        text.trim_end().to_owned()
    }
}
