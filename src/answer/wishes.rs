//! Which degrees the pairs of a list must hold, and which they must not.

use std::fmt;

use fretloom_theory::{ChordScale, Degree, PitchClassSet, ReadError};

use super::refusal::Refusal;

/// Degrees that the player wants to hear, and degrees not wanted.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Wishes {
    with: Vec<Degree>,
    without: Vec<Degree>,
}

impl Wishes {
    /// Wishes as two lists of degrees separated by commas, as in `7,#11`.
    ///
    /// # Errors
    ///
    /// Where one of the degrees cannot be read.
    pub fn read(with: &str, without: &str) -> Result<Wishes, Refusal> {
        Ok(Wishes { with: degrees(with)?, without: degrees(without)? })
    }

    /// Wishes as one line, as they are typed on the screen: `7 #11 -13` wants 7 and ♯11 and no 13.
    ///
    /// # Errors
    ///
    /// Where one of the degrees cannot be read.
    pub fn read_line(line: &str) -> Result<Wishes, Refusal> {
        let words = || line.split([',', ' ']).filter(|word| !word.is_empty());
        let with: Vec<&str> = words().filter(|word| !word.starts_with('-')).collect();
        let without: Vec<&str> = words().filter_map(|word| word.strip_prefix('-')).collect();
        Wishes::read(&with.join(" "), &without.join(" "))
    }

    /// Is nothing wished for?
    #[must_use]
    pub fn are_none(&self) -> bool {
        self.with.is_empty() && self.without.is_empty()
    }

    /// Does a set of notes over a chord and its scale fulfil them? Degrees are compared by sound.
    #[must_use]
    pub fn allow(&self, notes: PitchClassSet, over: &ChordScale) -> bool {
        let root = over.root().pitch_class();
        let holds = |degree: &Degree| notes.contains(degree.over(root));
        self.with.iter().all(holds) && !self.without.iter().any(holds)
    }
}

fn degrees(list: &str) -> Result<Vec<Degree>, ReadError> {
    let mut degrees = Vec::new();
    let mut at = 1;
    for word in list.split([',', ' ']) {
        if !word.is_empty() {
            let degree = word.parse::<Degree>();
            degrees.push(degree.map_err(|error| error.within("degrees", list, at))?);
        }
        at += word.chars().count() + 1;
    }
    Ok(degrees)
}

impl fmt::Display for Wishes {
    /// The line that [`read_line`](Wishes::read_line) reads.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let with = self.with.iter().map(|degree| format!("{degree}"));
        let without = self.without.iter().map(|degree| format!("-{degree}"));
        f.write_str(&with.chain(without).collect::<Vec<_>>().join(" "))
    }
}
