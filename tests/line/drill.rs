//! A drill computed once more, by plain numbers: it shares nothing with the program.

/// Semitones of the members of a triad above its root.
pub(crate) const MAJOR: [i32; 3] = [0, 4, 7];
pub(crate) const MINOR: [i32; 3] = [0, 3, 7];

/// A triad by its root's pitch class and its members.
#[derive(Clone, Copy)]
pub(crate) struct Triad(pub(crate) i32, pub(crate) [i32; 3]);

impl Triad {
    /// All its notes, going up, on the neck and beyond.
    fn notes(self) -> Vec<i32> {
        let is_member = |midi: &i32| self.1.contains(&(midi - self.0).rem_euclid(12));
        (0..128).filter(is_member).collect()
    }
}

/// The way from group to group.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Way {
    Ladder,
    /// To the nearest note of the other triad, the higher of two.
    Linked,
}

/// The figures of groups, as in `132 32`: 1 is the lowest note of the inversion in hand.
pub(crate) fn drill(
    triads: [Triad; 2],
    figures: &[&[usize]],
    way: Way,
    neck: (i32, i32),
    count: usize,
) -> Vec<i32> {
    let notes = triads.map(Triad::notes);
    let mut played: Vec<i32> = Vec::new();
    let mut at = 0;
    for (index, group) in figures.iter().cycle().enumerate() {
        let own = &notes[index % 2];
        // Of the last group only what is played has to be on the neck.
        let heard = &group[..group.len().min(count - played.len())];
        let fits = |bass: usize| {
            let mut heard = heard.iter().map(|figure| own.get(bass + figure - 1));
            heard.all(|midi| midi.is_some_and(|midi| (neck.0..=neck.1).contains(midi)))
        };
        let mut basses = (0..own.len()).filter(|bass| fits(*bass));
        let before = notes[(index + 1) % 2].get(at).copied();
        at = match way {
            _ if index == 0 => basses.find(|bass| (own[*bass] - triads[0].0) % 12 == 0).unwrap(),
            // The first shape whose lowest note is above that of the one before.
            Way::Ladder => basses.find(|bass| Some(own[*bass]) > before).unwrap(),
            Way::Linked => {
                let last = *played.last().unwrap();
                let by = |bass: usize| own[bass + group[0] - 1] - last;
                basses.min_by_key(|bass| (by(*bass).abs(), by(*bass) < 0)).unwrap()
            }
        };
        for figure in *group {
            played.push(own[at + figure - 1]);
            if played.len() == count {
                return played;
            }
        }
    }
    played
}
