//! What a chord does by its degree in its home, where no neighbour says more.

use super::home::Home;
use super::motion::resolves_to;
use super::place::{Place, is_tonic, key_of};
use crate::function::{Arrival, KeyDegree};
use crate::{Degree, Function, ScaleKind, fits};

impl Place<'_> {
    pub(super) fn on_degree(&self) -> Function {
        let Some((home, above)) = self.degree() else { return Function::Alone };
        let key = home.key();
        let minor = self.chord.names(Degree::MINOR_THIRD);
        match above {
            0 if home.is_minor() && self.chord.is_minor() => return Function::TonicMinor,
            5 if minor => return Function::MinorFourth { home: key },
            7 if self.may_be_fifth(home) => {
                let follows = self.after.is_some_and(|next| is_tonic(next, key));
                let expected = || self.in_place_of(key).unwrap_or(Arrival::Expected);
                let arrival = if follows { Arrival::Follows } else { expected() };
                return Function::Dominant { home: key, arrival };
            }
            _ => {}
        }
        let degree = KeyDegree::at(above, key).filter(|degree| degree.holds(self.chord, key));
        degree
            .map(|degree| Function::DegreeOf { degree, home: key })
            .or_else(|| self.fifth_of_a_degree(home))
            .or_else(|| self.borrowed(home))
            .unwrap_or(Function::Alone)
    }

    /// Can a chord without a seventh be the V of a key: does its scale hold what is written?
    fn may_be_fifth(&self, home: Home) -> bool {
        let root = self.chord.root().pitch_class();
        let minor_third = self.chord.names(Degree::MINOR_THIRD);
        let scale = if home.is_minor() {
            // A chord without its third is the v of natural minor as well.
            if !self.chord.names(Degree::MAJOR_THIRD) {
                return false;
            }
            &ScaleKind::MIXOLYDIAN_FLAT_6
        } else {
            &ScaleKind::MIXOLYDIAN
        };
        !minor_third && fits(self.chord, scale.set_over(root))
    }

    /// A major chord that is foreign to the key and falls a fifth to a chord of the key is its V.
    fn fifth_of_a_degree(&self, home: Home) -> Option<Function> {
        let next = self.after.filter(|next| resolves_to(self.chord, next))?;
        KeyDegree::at(home.degree(next), home.key())?;
        let triad = self.is_major()
            && !self.chord.names(Degree::MAJOR_SEVENTH)
            && !self.chord.names(Degree::SHARP_FIFTH);
        triad.then(|| Function::Dominant { home: key_of(next), arrival: Arrival::Follows })
    }

    /// A major chord on a lowered degree of a major key.
    fn borrowed(&self, home: Home) -> Option<Function> {
        let degree = match home.degree(self.chord) {
            1 => KeyDegree::Second,
            3 => KeyDegree::Third,
            8 => KeyDegree::Sixth,
            10 => KeyDegree::Seventh,
            _ => return None,
        };
        let home = home.key();
        let lowered = !home.is_minor() || degree == KeyDegree::Second;
        (self.is_major() && lowered).then_some(Function::Lowered { degree, home })
    }

    fn is_major(&self) -> bool {
        self.chord.names(Degree::MAJOR_THIRD)
    }
}
