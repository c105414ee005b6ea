//! The neck: places, pitches and millimetres.

use fretloom_theory::Pitch;

use crate::{Fret, Instrument, Place, StringNumber, Tuning};

/// The neck of a tuned instrument: which pitch sounds at which place, and how far apart frets are.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Fret, Neck, Place, StringNumber, Tuning};
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let place = Place::new(StringNumber::new(5).unwrap(), Fret::new(3).unwrap());
/// let c = neck.pitch_at(place).unwrap();
/// assert_eq!(c.midi(), 48);
/// assert_eq!(neck.places_of(c).count(), 2); // also string 6, fret 8
/// assert_eq!(neck.pitch_at(Place { fret: Fret::HIGHEST, ..place }), None);
/// ```
#[derive(Clone, Debug)]
pub struct Neck {
    tuning: Tuning,
    from_nut_mm: [f64; Neck::FRETS],
}

/// The mark on the fingerboard in front of a fret.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Inlay {
    /// No mark.
    Plain,
    /// One dot.
    Single,
    /// Two dots: the octave.
    Double,
}

impl Neck {
    const FRETS: usize = Fret::HIGHEST.number() as usize + 1;

    /// The neck of `tuning`.
    #[must_use]
    pub fn new(tuning: Tuning) -> Neck {
        let mut from_nut_mm = [0.0; Neck::FRETS];
        for (mm, fret) in from_nut_mm.iter_mut().zip(0u8..) {
            *mm = tuning.scale_mm() * (1.0 - (-f64::from(fret) / 12.0).exp2());
        }
        Neck { tuning, from_nut_mm }
    }

    /// Its tuning.
    #[must_use]
    pub fn tuning(&self) -> &Tuning {
        &self.tuning
    }

    /// What sounds at `place`; `None` where there is no such place.
    #[must_use]
    pub fn pitch_at(&self, place: Place) -> Option<Pitch> {
        let open = self.tuning.string(place.string)?;
        if place.fret.is_open() {
            return Some(open.pitch());
        }
        let start = open.starts_at();
        if place.fret <= start || place.fret > self.tuning.last_fret() {
            return None;
        }
        let frets = place.fret.number() - start.number();
        open.pitch().up(i32::from(frets))
    }

    /// The one fret of `string` where `pitch` sounds, if there is one.
    #[must_use]
    pub fn fret_of(&self, pitch: Pitch, string: StringNumber) -> Option<Fret> {
        let open = self.tuning.string(string)?;
        let up = u8::try_from(open.pitch().semitones_up_to(pitch)).ok()?;
        if up == 0 {
            return Some(Fret::OPEN);
        }
        Fret::new(open.starts_at().number() + up).filter(|fret| *fret <= self.tuning.last_fret())
    }

    /// Where `pitch` sounds, from string 1 up: at most one place on each string.
    pub fn places_of(&self, pitch: Pitch) -> impl Iterator<Item = Place> {
        StringNumber::up_to(self.tuning.string_count()).filter_map(move |string| {
            let fret = self.fret_of(pitch, string)?;
            Some(Place { string, fret })
        })
    }

    /// Every place there is with what sounds there, from string 1 up, each from its open note up.
    pub fn places(&self) -> impl Iterator<Item = (Place, Pitch)> {
        StringNumber::up_to(self.tuning.string_count()).flat_map(move |string| {
            let frets = self.tuning.last_fret().up_to_here();
            frets.filter_map(move |fret| {
                let place = Place { string, fret };
                Some((place, self.pitch_at(place)?))
            })
        })
    }

    /// Millimetres from the nut to the wire of `fret`, by the rule of equal temperament
    /// L · (1 − 2^(−n/12)); also beyond the last fret.
    #[must_use]
    pub fn distance_mm(&self, fret: Fret) -> f64 {
        let index = usize::from(fret.number());
        self.from_nut_mm.get(index).copied().unwrap_or_default()
    }

    /// Millimetres between two frets, whichever is the higher. A finger stands just behind its
    /// wire, so this is about the reach between two fingers.
    #[must_use]
    pub fn span_mm(&self, one: Fret, other: Fret) -> f64 {
        (self.distance_mm(other) - self.distance_mm(one)).abs()
    }

    /// The mark in front of `fret`, where such a neck commonly has one: 3 5 7 9 12 and on by the
    /// octave; ukuleles and mandolins mark 10 and not 9.
    #[must_use]
    pub fn inlay(&self, fret: Fret) -> Inlay {
        if fret.is_open() || fret > self.tuning.last_fret() {
            return Inlay::Plain;
        }
        let marks_ten =
            matches!(self.tuning.instrument(), Instrument::Ukulele | Instrument::Mandolin);
        match fret.number() % 12 {
            0 => Inlay::Double,
            3 | 5 | 7 => Inlay::Single,
            9 if !marks_ten => Inlay::Single,
            10 if marks_ten => Inlay::Single,
            _ => Inlay::Plain,
        }
    }
}

/// The values are computed from open pitches, outside this code, unless a source is named.
#[cfg(test)]
mod tests {
    use super::*;

    fn neck(tuning: &str) -> Neck {
        Neck::new(Tuning::read(tuning).unwrap())
    }

    fn place(string: u8, fret: u8) -> Place {
        Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
    }

    fn fret(number: u8) -> Fret {
        Fret::new(number).unwrap()
    }

    fn midi(text: &str) -> Pitch {
        text.parse::<fretloom_theory::NamedPitch>().unwrap().pitch()
    }

    /// How many different pitches, and how many pitches between the lowest and the highest are
    /// missing, in a box of `width` frets from the fifth.
    fn box_at_the_fifth(neck: &Neck, width: u8) -> (usize, usize, usize) {
        let mut pitches: Vec<u8> = neck
            .places()
            .filter(|(place, _)| (5..5 + width).contains(&place.fret.number()))
            .map(|(_, pitch)| pitch.midi())
            .collect();
        let places = pitches.len();
        pitches.sort_unstable();
        pitches.dedup();
        let range = usize::from(pitches[pitches.len() - 1] - pitches[0]) + 1;
        (places, pitches.len(), range - pitches.len())
    }

    #[test]
    fn standard_tuning_has_138_places_and_47_pitches() {
        let neck = neck("EADGBE");
        assert_eq!(neck.places().count(), 138);
        let counts: Vec<usize> = (0..128)
            .map(|n| neck.places_of(Pitch::from_midi(n).unwrap()).count())
            .filter(|count| *count > 0)
            .collect();
        assert_eq!(counts.len(), 47);
        for (places, pitches) in [(1, 10), (2, 9), (3, 10), (4, 10), (5, 8)] {
            let such = counts.iter().filter(|count| **count == places).count();
            assert_eq!(such, pitches, "{places} places");
        }
        for name in ["B3", "C4", "C#4", "D4", "E4", "F4", "F#4", "G4"] {
            assert_eq!(neck.places_of(midi(name)).count(), 5, "{name}");
        }
    }

    #[test]
    fn the_open_first_string_is_found_on_four_other_strings() {
        let neck = neck("EADGBE");
        let places: Vec<Place> = neck.places_of(midi("E4")).collect();
        let expected = [(1, 0), (2, 5), (3, 9), (4, 14), (5, 19)];
        assert_eq!(places, expected.map(|(string, fret)| place(string, fret)));
    }

    #[test]
    fn places_and_pitches_agree() {
        for tuning in ["EADGBE", "GCEA", "EADG", "DADGAD", "BEADGBE"] {
            let neck = neck(tuning);
            for (place, pitch) in neck.places() {
                assert_eq!(neck.pitch_at(place), Some(pitch));
                assert!(neck.places_of(pitch).any(|found| found == place));
            }
        }
    }

    #[test]
    fn octaves_lie_where_players_know_them() {
        let neck = neck("EADGBE");
        for (lower, upper, frets) in
            [(6, 4, 2), (5, 3, 2), (4, 2, 3), (3, 1, 3), (6, 3, -3), (5, 2, -2), (4, 1, -2)]
        {
            let low = neck.pitch_at(place(lower, 7)).unwrap();
            let high = neck.pitch_at(place(upper, 7u8.wrapping_add_signed(frets)));
            assert_eq!(high, low.up(12), "{lower} to {upper}");
        }
    }

    #[test]
    fn every_pitch_class_stands_six_times_in_twelve_frets() {
        let neck = neck("EADGBE");
        for first in 0..=11 {
            for class in fretloom_theory::PitchClass::all() {
                let here = neck.places().filter(|(place, pitch)| {
                    let fret = place.fret.number();
                    (first..first + 12).contains(&fret) && pitch.pitch_class() == class
                });
                assert_eq!(here.count(), 6, "{class:?} from fret {first}");
            }
        }
    }

    #[test]
    fn a_box_of_four_frets_misses_notes_and_one_of_five_does_not() {
        let standard = neck("EADGBE");
        assert_eq!(box_at_the_fifth(&standard, 4), (24, 24, 4));
        assert_eq!(box_at_the_fifth(&standard, 5), (30, 29, 0));
        let fourths = neck("EADGCF");
        assert_eq!(box_at_the_fifth(&fourths, 4), (24, 24, 5));
        assert_eq!(box_at_the_fifth(&fourths, 5), (30, 30, 0));
    }

    #[test]
    fn spans_in_millimetres() {
        let spans = [(1, 4), (1, 5), (1, 6), (5, 8), (5, 9), (5, 10), (12, 15), (12, 17)];
        for (scale_mm, expected) in [
            (648.0, [97, 126, 153, 77, 100, 122, 52, 81]),
            (628.0, [94, 122, 149, 75, 97, 118, 50, 79]),
            (864.0, [130, 168, 205, 103, 134, 162, 69, 108]),
            (345.0, [52, 67, 82, 41, 53, 65, 27, 43]),
        ] {
            let strings = Tuning::read("EADGBE").unwrap();
            let strings = strings.strings().map(|(_, open)| open).collect();
            let neck = Neck::new(Tuning::new(strings, 22, scale_mm).unwrap());
            for ((low, high), mm) in spans.into_iter().zip(expected) {
                let span = neck.span_mm(fret(high), fret(low));
                assert!((span - f64::from(mm)).abs() <= 0.5, "{low}-{high}: {span}");
            }
        }
    }

    /// The rule of 17.817 (the equal-temperament fret rule), and the octave at half the string.
    #[test]
    fn frets_stand_by_the_rule_of_equal_temperament() {
        let neck = neck("EADGBE");
        assert!((neck.distance_mm(fret(1)) - 648.0 / 17.817).abs() < 0.001);
        assert!((neck.distance_mm(fret(12)) - 324.0).abs() < 1e-9);
        assert!((neck.distance_mm(Fret::HIGHEST) - 567.0).abs() < 1e-9);
        assert_eq!(neck.distance_mm(Fret::OPEN), 0.0);
    }

    /// Computed from open pitches: 0 is G4, frets 1 to 5 do not exist, fret 7 is A4.
    #[test]
    fn the_short_string_of_a_banjo_counts_the_frets_of_the_neck() {
        let open = |note: &str| crate::OpenString::new(note.parse().unwrap());
        let short = crate::OpenString::starting_at(open("G4").note(), fret(5));
        let strings = vec![short, open("D3"), open("G3"), open("B3"), open("D4")];
        let neck = Neck::new(Tuning::new(strings, 22, 670.0).unwrap());
        assert_eq!(neck.pitch_at(place(5, 0)), Some(midi("G4")));
        for number in 1..=5 {
            assert_eq!(neck.pitch_at(place(5, number)), None, "fret {number}");
        }
        assert_eq!(neck.pitch_at(place(5, 7)), Some(midi("A4")));
        assert_eq!(neck.fret_of(midi("A4"), place(5, 0).string), Some(fret(7)));
        assert_eq!(neck.places().count(), 5 * 23 - 5);
    }

    #[test]
    fn inlays_follow_the_instrument() {
        let marked = |neck: &Neck, inlay| -> Vec<u8> {
            let frets = Fret::HIGHEST.up_to_here();
            let such = frets.filter(|fret| neck.inlay(*fret) == inlay);
            such.map(Fret::number).collect()
        };
        let guitar = neck("BEADGBE");
        let singles = [3, 5, 7, 9, 15, 17, 19, 21];
        assert_eq!(marked(&guitar, Inlay::Single), singles);
        assert_eq!(marked(&guitar, Inlay::Double), [12, 24]);
        assert_eq!(marked(&neck("GCEA"), Inlay::Single), [3, 5, 7, 10, 15]);
    }
}
