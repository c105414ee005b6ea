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

    /// What sounds at `place`; `None` where there is no such place, as behind a capo.
    #[must_use]
    pub fn pitch_at(&self, place: Place) -> Option<Pitch> {
        let open = self.tuning.string(place.string)?;
        if place.fret.is_open() {
            return Some(open.pitch());
        }
        let start = open.sounds_from();
        if place.fret <= start || place.fret > self.tuning.last_fret() {
            return None;
        }
        let frets = place.fret.number() - start.number();
        open.pitch().up(i32::from(frets))
    }

    /// The one fret of `string` where `pitch` sounds, if there is one.
    #[must_use]
    pub(crate) fn fret_of(&self, pitch: Pitch, string: StringNumber) -> Option<Fret> {
        self.fret_on_endless(pitch, string).filter(|fret| *fret <= self.tuning.last_fret())
    }

    /// The same on a neck that goes on above its last fret.
    pub(crate) fn fret_on_endless(&self, pitch: Pitch, string: StringNumber) -> Option<Fret> {
        let open = self.tuning.string(string)?;
        let up = u8::try_from(open.pitch().semitones_up_to(pitch)).ok()?;
        if up == 0 {
            return Some(Fret::OPEN);
        }
        Fret::new(open.sounds_from().number().checked_add(up)?)
    }

    /// Everything that sounds at `place`: the pitch of the place, then, where the string is a
    /// course, what is stopped together with it. Nothing where there is no such place.
    pub fn course_at(&self, place: Place) -> impl Iterator<Item = Pitch> {
        let stopped = || {
            let open = self.tuning.string(place.string)?.pitch();
            Some(open.semitones_up_to(self.pitch_at(place)?))
        };
        let semitones = stopped();
        let open = self.tuning.course(place.string);
        open.filter_map(move |pitch| pitch.up(semitones?))
    }

    /// The number that is written for a place: its fret of the neck; for an open string 0, and the
    /// capo's fret where the capo holds it.
    #[must_use]
    pub fn fret_number(&self, place: Place) -> Fret {
        let held = self.tuning.string(place.string).filter(|open| open.is_behind_capo());
        match held {
            Some(open) if place.fret.is_open() => open.sounds_from(),
            _ => place.fret,
        }
    }

    /// The number that tablature has for a place: where a capo holds the string, frets count from
    /// it, so that the string behind it is 0.
    #[must_use]
    pub fn tab_number(&self, place: Place) -> Fret {
        let held = self.tuning.string(place.string).filter(|open| open.is_behind_capo());
        let behind = held.map_or(0, |open| open.sounds_from().number());
        Fret::new(place.fret.number().saturating_sub(behind)).unwrap_or(place.fret)
    }

    /// The fret where a string is stopped at a place: for an open string where it begins, at the nut,
    /// at its peg or behind a capo.
    pub(crate) fn stopped_at(&self, place: Place) -> Fret {
        let begins = self.tuning.string(place.string).map(|string| string.sounds_from());
        if place.fret.is_open() { begins.unwrap_or(Fret::OPEN) } else { place.fret }
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

    /// Where the neck begins for the hand: the fret of a capo that lies over all strings, else the
    /// nut. A partial capo leaves strings on which the hand can go behind it.
    #[must_use]
    pub const fn begins_at(&self) -> Fret {
        let capo = self.tuning.capo();
        if capo.strings().is_none() { capo.fret() } else { Fret::OPEN }
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
    pub(crate) fn span_mm(&self, one: Fret, other: Fret) -> f64 {
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

#[cfg(test)]
mod tests;
