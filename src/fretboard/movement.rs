//! What the fingers do between two shapes.

use std::fmt;

use crate::{Finger, Fret, Shape, StringSet};

/// What the fretting hand does to go from one shape to another, finger by finger; prints as a player
/// would say it, as in `finger 1 stays, 2 up a fret, 3 to string 2`.
///
/// It speaks of the fingers that both shapes are held with: other fingers make another movement. Open
/// strings have none. Both shapes lie on the same neck.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Ladder, Movement, Neck, ShapeQuery, Tuning};
/// use fretloom_theory::{SpelledTriad, TriadPair};
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let [e, f] = ["E", "F"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
/// let pair = TriadPair::in_order(e, f).unwrap();
/// let ladder = Ladder::new(&neck, pair, &ShapeQuery::default().on("3-2-1".parse().unwrap()));
/// let [e, f] = [2, 3].map(|rung| ladder.rungs()[rung].shape); // E 4-5-4, F 5-6-5
/// assert_eq!(Movement::between(&e, &f).unwrap().to_string(), "the same grip up a fret");
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Movement {
    hand_frets: i8,
    fingers: Vec<(Finger, FingerMove)>,
}

/// What one finger does.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FingerMove {
    /// It stays where it is; a flat finger may press more or fewer strings.
    Stays,
    /// It slides on its string by so many frets; towards the nut they are negative.
    Slides(i8),
    /// It goes to other strings.
    Crosses(StringSet),
    /// It was free, and presses these strings.
    Joins(StringSet),
    /// It is free now.
    Lifts,
}

/// Where a finger presses.
#[derive(Clone, Copy)]
struct Press {
    fret: Fret,
    strings: StringSet,
}

const FINGERS: [Finger; 4] = [Finger::First, Finger::Second, Finger::Third, Finger::Fourth];

impl Movement {
    /// From one shape to another; `None` where one of them is held by no fingers.
    #[must_use]
    pub fn between(from: &Shape, to: &Shape) -> Option<Movement> {
        let (before, after) = (from.fingers()?, to.fingers()?);
        let move_of = |finger: Finger| {
            let there = [press(from, before, finger), press(to, after, finger)];
            FingerMove::of(there).map(|moves| (finger, moves))
        };
        let position = |shape: &Shape| i8::try_from(shape.position().number()).unwrap_or(i8::MAX);
        Some(Movement {
            hand_frets: position(to) - position(from),
            fingers: FINGERS.into_iter().filter_map(move_of).collect(),
        })
    }

    /// How many frets the hand goes up the neck; towards the nut they are negative.
    #[must_use]
    pub const fn hand_frets(&self) -> i8 {
        self.hand_frets
    }

    /// What each finger does, of those that press in one of the shapes, the first finger first.
    #[must_use]
    pub fn fingers(&self) -> &[(Finger, FingerMove)] {
        &self.fingers
    }

    /// By how many frets every finger slides, where they all slide alike.
    fn slide(&self) -> Option<i8> {
        let (_, first) = self.fingers.first()?;
        let alike = self.fingers.iter().all(|(_, moves)| moves == first);
        match first {
            FingerMove::Slides(frets) if alike => Some(*frets),
            FingerMove::Slides(_)
            | FingerMove::Stays
            | FingerMove::Crosses(_)
            | FingerMove::Joins(_)
            | FingerMove::Lifts => None,
        }
    }
}

/// Where a finger of a shape presses, if it does.
fn press(shape: &Shape, fingers: [Finger; 3], finger: Finger) -> Option<Press> {
    let held = shape.places().into_iter().zip(fingers);
    let mut places = held.filter(|(_, by)| *by == finger).map(|(place, _)| place);
    let first = places.next()?;
    let strings = places.fold(StringSet::only(first.string), |set, place| set.with(place.string));
    Some(Press { fret: first.fret, strings })
}

impl FingerMove {
    fn of([before, after]: [Option<Press>; 2]) -> Option<FingerMove> {
        Some(match (before, after) {
            (None, None) => return None,
            (None, Some(there)) => FingerMove::Joins(there.strings),
            (Some(_), None) => FingerMove::Lifts,
            (Some(here), Some(there)) => {
                let frets = i16::from(there.fret.number()) - i16::from(here.fret.number());
                let shares = here.strings.iter().any(|string| there.strings.contains(string));
                match (shares, i8::try_from(frets).unwrap_or(i8::MAX)) {
                    (false, _) => FingerMove::Crosses(there.strings),
                    (true, 0) => FingerMove::Stays,
                    (true, frets) => FingerMove::Slides(frets),
                }
            }
        })
    }
}

impl fmt::Display for FingerMove {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            FingerMove::Stays => f.write_str("stays"),
            FingerMove::Slides(frets) => frets_up(*frets).fmt(f),
            FingerMove::Crosses(strings) => write!(f, "to {}", strings_in_words(*strings)),
            FingerMove::Joins(strings) => write!(f, "joins on {}", strings_in_words(*strings)),
            FingerMove::Lifts => f.write_str("lifts"),
        }
    }
}

impl fmt::Display for Movement {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(frets) = self.slide() {
            return write!(f, "the same grip {}", frets_up(frets));
        }
        if self.fingers.iter().all(|(_, moves)| *moves == FingerMove::Stays) {
            return f.write_str("no finger moves");
        }
        let said =
            self.fingers.iter().map(|(finger, moves)| format!("{} {moves}", finger.number()));
        write!(f, "finger {}", said.collect::<Vec<_>>().join(", "))?;
        if self.hand_frets != 0 {
            write!(f, "; the hand {}", frets_up(self.hand_frets))?;
        }
        Ok(())
    }
}

/// `up a fret`, `down 3 frets`.
fn frets_up(frets: i8) -> String {
    let way = if frets < 0 { "down" } else { "up" };
    match frets.unsigned_abs() {
        1 => format!("{way} a fret"),
        count => format!("{way} {count} frets"),
    }
}

/// `string 2`, `strings 3-2`.
fn strings_in_words(strings: StringSet) -> String {
    if strings.len() == 1 { format!("string {strings}") } else { format!("strings {strings}") }
}

#[cfg(test)]
mod tests {
    use fretloom_theory::SpelledTriad;

    use super::*;
    use crate::{Hand, Neck, ShapeQuery, Tuning};

    /// The shape of a triad at these frets, with these fingers.
    fn shape(triad: &str, strings: &str, frets: [u8; 3], fingers: [u8; 3]) -> Shape {
        let neck = Neck::new(Tuning::read("EADGBE").unwrap());
        let triad = triad.parse::<SpelledTriad>().unwrap().triad();
        let shapes = ShapeQuery::default().on(strings.parse().unwrap()).shapes(&neck, triad);
        let meant = |shape: &&Shape| shape.frets().map(|fret| fret.number()) == frets;
        let shape = *shapes.iter().find(meant).unwrap();
        let grips = Hand::default().grips(&neck, shape.places());
        let taken = grips.iter().find(|grip| grip.fingers().map(Finger::number) == fingers);
        shape.gripped(*taken.unwrap())
    }

    /// Worked out by hand, finger by finger.
    #[test]
    fn fingers_stay_slide_cross_join_and_lift() {
        for (from, to, said) in [
            // The middle voice holds, the outer ones go a fret apart.
            (
                shape("G", "3-2-1", [7, 8, 7], [1, 2, 1]),
                shape("Eb", "3-2-1", [8, 8, 6], [2, 3, 1]),
                "finger 1 down a fret, 2 to string 3, 3 joins on string 2; the hand down a fret",
            ),
            (
                shape("Eb", "3-2-1", [8, 8, 6], [2, 3, 1]),
                shape("E", "3-2-1", [9, 9, 7], [2, 3, 1]),
                "the same grip up a fret",
            ),
            (
                shape("G", "4-3-2", [5, 4, 3], [3, 2, 1]),
                shape("A", "4-3-2", [7, 6, 5], [3, 2, 1]),
                "the same grip up 2 frets",
            ),
            (
                shape("G", "4-3-2", [5, 4, 3], [3, 2, 1]),
                shape("G", "4-3-2", [5, 4, 3], [3, 2, 1]),
                "no finger moves",
            ),
        ] {
            assert_eq!(Movement::between(&from, &to).unwrap().to_string(), said);
        }
    }

    /// There and back again every finger does the opposite.
    #[test]
    fn the_way_back_is_the_opposite() {
        let neck = Neck::new(Tuning::read("EADGBE").unwrap());
        let triads = ["C", "Ebm", "F#dim", "A+"].map(|name| {
            let triad = name.parse::<SpelledTriad>().unwrap().triad();
            ShapeQuery::default().shapes(&neck, triad)
        });
        let shapes = triads.concat();
        for from in shapes.iter().filter(|shape| shape.fingers().is_some()) {
            for to in shapes.iter().filter(|shape| shape.fingers().is_some()) {
                let [there, back] =
                    [(from, to), (to, from)].map(|(from, to)| Movement::between(from, to).unwrap());
                assert_eq!(there.hand_frets(), -back.hand_frets());
                for ((finger, goes), (same, comes)) in there.fingers().iter().zip(back.fingers()) {
                    assert_eq!(finger, same);
                    let is_opposite = match (goes, comes) {
                        (FingerMove::Slides(up), FingerMove::Slides(down)) => *up == -down,
                        (FingerMove::Joins(_), FingerMove::Lifts)
                        | (FingerMove::Lifts, FingerMove::Joins(_))
                        | (FingerMove::Stays, FingerMove::Stays)
                        | (FingerMove::Crosses(_), FingerMove::Crosses(_)) => true,
                        _ => false,
                    };
                    assert!(is_opposite, "{goes:?} and {comes:?}");
                }
            }
        }
    }
}
