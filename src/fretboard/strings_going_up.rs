//! Three strings by what they sound.

use fretloom_theory::Pitch;

use crate::{Neck, StringNumber, StringSet};

/// The strings of `set` with their open pitches, from the lowest sounding one up. None where two
/// sound alike: strings tuned in unison count as one, and never stand in one shape together.
pub(crate) fn strings_going_up(neck: &Neck, set: StringSet) -> Option<[(Pitch, StringNumber); 3]> {
    let [one, two, three] = set.three()?;
    let open = |string| Some((neck.tuning().string(string)?.pitch(), string));
    let mut strings = [open(one)?, open(two)?, open(three)?];
    strings.sort_unstable();
    let [lowest, middle, highest] = strings.map(|(pitch, _)| pitch);
    (lowest < middle && middle < highest).then_some(strings)
}
