//! A string for each of several notes that sound together.

use crate::{Place, StringNumber};

const STRINGS: usize = StringNumber::HIGHEST.number() as usize;

/// Is there a choice of one place a note in which no string is used twice?
pub(super) fn have_strings_each(choices: &[Vec<Place>]) -> bool {
    let mut owners = [None; STRINGS];
    (0..choices.len()).all(|note| finds_a_string(choices, note, &mut owners, &mut 0))
}

/// Gives `note` a string, moving other notes to other strings where that helps (an augmenting path
/// of a bipartite matching). `asked` has a bit for each string already asked.
fn finds_a_string(
    choices: &[Vec<Place>],
    note: usize,
    owners: &mut [Option<usize>; STRINGS],
    asked: &mut u16,
) -> bool {
    choices[note].iter().any(|place| {
        let string = usize::from(place.string.number() - 1);
        if *asked & (1 << string) != 0 {
            return false;
        }
        *asked |= 1 << string;
        let free = match owners[string] {
            None => true,
            Some(owner) => finds_a_string(choices, owner, owners, asked),
        };
        if free {
            owners[string] = Some(note);
        }
        free
    })
}
