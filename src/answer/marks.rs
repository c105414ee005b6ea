//! Places of an answer as the marks of a drawn neck.

use fretloom_fretboard::{Finger, Place};
use fretloom_theory::Degree;

use super::neck::{LeftOutPlace, PairPlace};
use crate::picture::{Labels, Mark, MarkRole, Presence};

/// The marks of these places.
#[must_use]
pub fn marks(places: &[PairPlace], labels: Labels) -> Vec<Mark> {
    places.iter().map(|place| place.mark(labels)).collect()
}

/// The marks of a pair as a view shows it: its own places as they are, with its stretches; all other
/// places of the pair hidden.
#[must_use]
pub fn marks_in_view(pair: &[PairPlace], view: &[PairPlace], labels: Labels) -> Vec<Mark> {
    let in_view = |place: Place| view.iter().find(|seen| seen.place == place);
    let mark = |place: &PairPlace| match in_view(place.place) {
        Some(seen) => Mark { presence: seen.presence(), ..seen.mark(labels) },
        None => Mark { presence: Presence::Hidden, ..place.mark(labels) },
    };
    pair.iter().map(mark).collect()
}

/// The marks of places that the pair leaves out.
#[must_use]
pub fn marks_left_out(places: &[LeftOutPlace], labels: Labels) -> Vec<Mark> {
    let mark = |left: &LeftOutPlace| Mark::new(left.place, MarkRole::LeftOut, left.label(labels));
    places.iter().map(mark).collect()
}

impl PairPlace {
    /// What stands in its mark.
    #[must_use]
    pub fn label(&self, labels: Labels) -> String {
        match labels {
            Labels::Note => self.note.to_string(),
            Labels::Degree => self.degree.to_string(),
            Labels::Member => self.member.to_string(),
            Labels::Finger => {
                let finger = self.in_view.and_then(|seen| seen.finger);
                self.numbered(finger.map(Finger::number))
            }
            Labels::Order => self.numbered(self.in_view.map(|seen| seen.order)),
        }
    }

    fn mark(&self, labels: Labels) -> Mark {
        let mark = Mark::new(self.place, MarkRole::Triad(self.which), self.label(labels));
        Mark { is_root: self.member == Degree::ROOT, ..mark }
    }

    fn presence(&self) -> Presence {
        let stretched = self.in_view.is_some_and(|seen| seen.stretched);
        if stretched { Presence::Stretched } else { Presence::Shown }
    }

    /// A number where there is one, else the note.
    fn numbered<N: ToString>(&self, number: Option<N>) -> String {
        number.map_or_else(|| self.note.to_string(), |number| number.to_string())
    }
}

impl LeftOutPlace {
    /// What stands there: the note has no place in a triad, no finger and no turn.
    fn label(&self, labels: Labels) -> String {
        match labels {
            Labels::Degree => self.left_out.degree.to_string(),
            Labels::Note | Labels::Member | Labels::Finger | Labels::Order => {
                self.left_out.note.to_string()
            }
        }
    }
}
