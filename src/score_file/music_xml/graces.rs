//! Grace notes that wait for their main note.

use fretloom_theory::Grace;

use super::time::Time;

/// Grace notes that have been read and still wait for their main note.
#[derive(Default, Debug)]
pub(super) struct Graces {
    /// By index, each with its number, counted from 1; those of a chord share theirs.
    waiting: Vec<(usize, u32)>,
}

impl Graces {
    /// The note `index` is a grace note; `is_chord` for a chord's other note.
    pub(super) fn wait(&mut self, index: usize, is_chord: bool) {
        let last = self.waiting.last().map_or(0, |(_, number)| *number);
        let number = if is_chord { last.max(1) } else { last.saturating_add(1) };
        self.waiting.push((index, number));
    }

    /// Those that wait, each with its place before the main note; `after` is when the note or rest
    /// before them begins. None waits any longer.
    pub(super) fn settle(
        &mut self,
        after: Option<Time>,
    ) -> impl Iterator<Item = (usize, Option<Grace>)> + use<> {
        let waiting = std::mem::take(&mut self.waiting);
        let of = waiting.last().map_or(0, |(_, number)| *number);
        let grace = move |number| Grace::new(of - number + 1, of, after.map(Time::quarters));
        waiting.into_iter().map(move |(index, number)| (index, grace(number)))
    }
}
