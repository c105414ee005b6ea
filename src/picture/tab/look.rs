//! What of a tab is shown.

/// What of a tab is shown, and in how many columns. Rows that would be empty are left out anyway.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct TabLook {
    /// How many columns a line has at most.
    pub width: usize,
    /// Is it written above the strings how the notes are counted?
    pub rhythm: bool,
    /// Are the positions of the hand written above, as Roman numerals?
    pub positions: bool,
    /// Are pick strokes and accents written above?
    pub strokes: bool,
    /// Are the fingers written below?
    pub fingers: bool,
    /// What else stands below each note.
    pub below: TabBelow,
    /// Are the notes of one triad put in its brackets, below?
    pub triads: bool,
}

/// What stands below each note of a tab, besides its finger.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum TabBelow {
    /// Nothing.
    #[default]
    Nothing,
    /// What it is over the chord.
    Degrees,
    /// What it is called.
    Names,
}

impl TabLook {
    /// How wide a line is where nothing else is said: as a terminal, or a page of plain text.
    pub const USUAL_WIDTH: usize = 80;
}

impl Default for TabLook {
    /// 80 columns, with all that is known above the strings and the fingers below.
    fn default() -> TabLook {
        TabLook {
            width: TabLook::USUAL_WIDTH,
            rhythm: true,
            positions: true,
            strokes: true,
            fingers: true,
            below: TabBelow::Nothing,
            triads: false,
        }
    }
}
