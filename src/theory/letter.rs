//! The seven letters that notes are named by.

/// One of the seven letters; the octave number changes at C.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
#[allow(missing_docs, reason = "the letters say themselves")]
pub enum Letter {
    C,
    D,
    E,
    F,
    G,
    A,
    B,
}

impl Letter {
    /// The seven, going up from C.
    pub const ALL: [Letter; 7] =
        [Letter::C, Letter::D, Letter::E, Letter::F, Letter::G, Letter::A, Letter::B];

    /// Semitones of the plain letter above C.
    #[must_use]
    pub const fn semitones_above_c(self) -> u8 {
        match self {
            Letter::C => 0,
            Letter::D => 2,
            Letter::E => 4,
            Letter::F => 5,
            Letter::G => 7,
            Letter::A => 9,
            Letter::B => 11,
        }
    }

    /// The letter `steps` up the alphabet, G being followed by A.
    #[must_use]
    pub const fn up(self, steps: u8) -> Letter {
        Letter::ALL[(self as usize + steps as usize) % 7]
    }

    /// How many letters to go up, 0 to 6, to meet `other`.
    pub(crate) const fn steps_up_to(self, other: Letter) -> u8 {
        ((other as usize + 7 - self as usize) % 7) as u8
    }

    /// Semitones from this letter up to the one `steps` above, both without accidentals.
    pub(crate) const fn semitones_up(self, steps: u8) -> i8 {
        let lower = self.semitones_above_c() as i8;
        let upper = self.up(steps).semitones_above_c() as i8;
        if upper < lower { upper + 12 - lower } else { upper - lower }
    }

    pub(crate) fn from_char(letter: char) -> Option<Letter> {
        Letter::ALL.into_iter().find(|candidate| candidate.to_char() == letter)
    }

    pub(crate) const fn to_char(self) -> char {
        match self {
            Letter::C => 'C',
            Letter::D => 'D',
            Letter::E => 'E',
            Letter::F => 'F',
            Letter::G => 'G',
            Letter::A => 'A',
            Letter::B => 'B',
        }
    }
}
