//! What comping is asked to be.

use fretloom_fretboard::{CompedChord, CompingQuery, FretRange, Hand, Neck, Region, StringSet};
use fretloom_theory::Tempo;

use crate::answer::line::LineChords;
use crate::answer::refusal::Refusal;

/// Chords with their pairs, and how they are to be comped.
#[derive(Clone, PartialEq, Debug)]
pub struct CompingQuestion {
    /// The chords, each with its pair.
    pub chords: LineChords,
    /// How fast.
    pub tempo: Tempo,
    /// The strings; none for all.
    pub strings: Option<StringSet>,
    /// The frets; none where they may be any that lie side by side.
    pub frets: Option<FretRange>,
    /// How many frets lie side by side, where it is not said which.
    pub area: u8,
    /// May strings sound open?
    pub open_strings: bool,
    /// How many semitones the top voice goes at most.
    pub top: u8,
    /// Is it played once, so that the end leads nowhere?
    pub ends: bool,
    /// Whose hand it is.
    pub hand: Hand,
}

impl CompingQuestion {
    /// How many frets an area has, where nobody says: a position with a stretch on both sides.
    pub const AREA: u8 = 6;
    /// How many semitones the top voice goes at most, where nobody says.
    pub const TOP: u8 = 3;

    /// Comping over these chords, all else as a player would have it.
    #[must_use]
    pub fn over(chords: LineChords) -> CompingQuestion {
        CompingQuestion {
            chords,
            tempo: Tempo::USUAL,
            strings: None,
            frets: None,
            area: CompingQuestion::AREA,
            open_strings: true,
            top: CompingQuestion::TOP,
            ends: false,
            hand: Hand::default(),
        }
    }

    /// What the fretboard is asked for.
    pub(super) fn query(
        &self,
        neck: &Neck,
        chords: impl IntoIterator<Item = CompedChord>,
    ) -> Result<CompingQuery, Refusal> {
        let mut query = CompingQuery::over(chords)
            .in_any_area_of(self.area)
            .with_top_steps_up_to(self.top)
            .for_hand(self.hand);
        if let Some(strings) = self.strings {
            Refusal::unless_on(neck, strings)?;
            if strings.len() < 3 {
                return Err(Refusal::NotThreeStrings(strings));
            }
            query = query.on(strings);
        }
        if let Some(frets) = self.frets {
            Region::default().within(frets).check(neck)?;
            query = query.within(frets);
        }
        if !self.open_strings {
            query = query.without_open_strings();
        }
        Ok(if self.ends { query.once() } else { query })
    }
}
