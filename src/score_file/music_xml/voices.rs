//! Voices by their names.

use fretloom_theory::Voice;

/// The voices of a part in the order in which they come up: each staff has its own.
#[derive(Default, Debug)]
pub(super) struct Voices {
    known: Vec<(u32, String)>,
}

impl Voices {
    /// How long the name of a voice may be, in characters; they are small numbers as a rule.
    const LONGEST: usize = 20;

    /// The voice of that name on a staff. Beyond 255, all others are the last.
    pub(super) fn voice(&mut self, staff: u32, name: &str) -> Voice {
        let name: String = name.chars().take(Voices::LONGEST).collect();
        let wanted = (staff, name);
        let index = self.known.iter().position(|known| *known == wanted);
        let index = index.unwrap_or_else(|| {
            if self.known.len() < usize::from(u8::MAX) {
                self.known.push(wanted);
            }
            self.known.len() - 1
        });
        u8::try_from(index + 1).ok().and_then(Voice::new).unwrap_or(Voice::FIRST)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn voices_are_counted_as_they_come_up() {
        let mut voices = Voices::default();
        let numbers = [(1, "1"), (1, "2"), (2, "1"), (1, "2"), (1, "1")];
        let numbers = numbers.map(|(staff, name)| voices.voice(staff, name).number());
        assert_eq!(numbers, [1, 2, 3, 2, 1]);
        let many = (0..1_000).map(|staff| voices.voice(staff, "x").number()).max();
        assert_eq!(many, Some(255));
    }
}
