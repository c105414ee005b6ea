//! The numbers by which one practises; each is a setting.

use fretloom_theory::KeyCycle;

use super::ladder::LadderRules;
use super::spacing::Spacing;

/// How much is practised in a day, and how.
///
/// The usual numbers are small on purpose: what ends is begun (common practice, no source).
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct PracticeRules {
    /// For how long, in minutes.
    pub minutes: u16,
    /// How many things at most.
    pub items: u8,
    /// In how many keys at most each.
    pub keys: u8,
    /// How many things at most that were never tried.
    pub new: u8,
    /// How many questions by ear at most.
    pub questions: u8,
    /// How long one turn is, in minutes.
    pub turn_minutes: u8,
    /// After how many minutes a rest is proposed.
    pub rest_minutes: u8,
    /// In which order keys come, where a keeper says nothing else.
    pub key_order: KeyCycle,
    /// How tempos rise and fall.
    pub ladder: LadderRules,
    /// When something comes back.
    pub spacing: Spacing,
}

impl Default for PracticeRules {
    fn default() -> PracticeRules {
        PracticeRules {
            minutes: 20,
            items: 5,
            keys: 3,
            new: 1,
            questions: 10,
            turn_minutes: 2,
            rest_minutes: 15,
            key_order: KeyCycle::Fourths,
            ladder: LadderRules::default(),
            spacing: Spacing::default(),
        }
    }
}

impl PracticeRules {
    /// How many turns a day has, at least one.
    #[must_use]
    pub fn turns(&self) -> usize {
        usize::from(self.minutes / u16::from(self.turn_minutes.max(1))).max(1)
    }

    /// Is it time to propose a rest, so many minutes after the last one?
    #[must_use]
    pub fn proposes_rest(&self, minutes: u16) -> bool {
        minutes >= u16::from(self.rest_minutes.max(1))
    }
}
