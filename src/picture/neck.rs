//! The drawn neck: string 1 on top, the nut at the left, every note of a pair in its place; the
//! other way up, or mirrored for a left hand, where the player wants that.
//!
//! The two triads differ by their brackets, `[G]` and `(A)`, before they differ by colour. A
//! [`NeckPicture`] says what to draw: strings, frets with their distances, marks. Writers that set
//! one sign a column take its runs; others place marks by millimetres.

use std::cmp::Reverse;

use fretloom_fretboard::{
    Fret, FretRange, Inlay, Neck, OpenString, Place, Shape, StringNumber, StringSet, Tuning,
};

use super::columns::{Frets, NeckColumns, TextWidths};
use super::fret_widths::FretWidths;
use super::lie::{Handed, Top};
use super::mark::{Mark, MarkRole};

/// What is drawn of a neck.
///
/// # Example
///
/// ```
/// use fretloom::export::text;
/// use fretloom::picture::{Mark, MarkRole, NeckPicture};
/// use fretloom_fretboard::{Fret, Neck, Place, StringNumber, Tuning};
/// use fretloom_theory::WhichTriad;
///
/// let neck = Neck::new(Tuning::read("G C E A")?);
/// let at = |string, fret| {
///     Some(Place::new(StringNumber::new(string)?, Fret::new(fret)?))
/// };
/// let mark = |place, which, label: &str| Mark::new(place, MarkRole::Triad(which), label.to_owned());
/// let marks = [at(1, 0).map(|a| mark(a, WhichTriad::First, "A")), at(2, 1).map(|f| mark(f, WhichTriad::Second, "F"))];
/// let picture = NeckPicture::new(&neck, marks.into_iter().flatten().collect());
/// let text = text::neck(&picture.within("0-3".parse()?));
/// assert_eq!(text.lines().nth(1), Some(" 1 A4 [A]┃─────┼─────┼─────›"));
/// assert_eq!(text.lines().nth(2), Some(" 2 E4    ┃─(F)─┼─────┼─────›"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct NeckPicture {
    /// From the top down: string 1 first, unless the picture is upside down.
    pub strings: Vec<NeckString>,
    /// Every fret of the neck by its number, from 0, the nut; more than are shown, perhaps.
    pub frets: Vec<NeckFret>,
    /// The notes: a later one lies over an earlier one.
    pub marks: Vec<Mark>,
    /// For which hand.
    pub handed: Handed,
    /// How wide frets are where columns are counted.
    pub fret_widths: FretWidths,
    /// The first fret shown, from 1.
    pub first_fret: Fret,
    /// The last fret to be shown, where there is room; below the first on a neck without frets.
    pub last_fret: Fret,
}

/// One string of a drawn neck.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct NeckString {
    /// Its number.
    pub number: StringNumber,
    /// What it is called: the open note, with the octave where the strings do not rise to string 1.
    pub name: String,
    /// The fret it starts at, 0 for the nut.
    pub starts_at: Fret,
    /// The fret where a capo holds it, 0 where none does.
    pub capo: Fret,
    /// Is it drawn quietly, since it is not in use now?
    pub is_quiet: bool,
}

/// One fret of a drawn neck.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct NeckFret {
    /// How far its wire is from the nut, in millimetres.
    pub wire_mm: f64,
    /// The mark on the fingerboard before it.
    pub inlay: Inlay,
}

impl NeckPicture {
    /// A whole neck from the nut with these notes on it.
    #[must_use]
    pub fn new(neck: &Neck, marks: Vec<Mark>) -> NeckPicture {
        let tuning = neck.tuning();
        let line = |(number, open)| NeckString::new(tuning, number, open);
        let mut strings: Vec<NeckString> = tuning.strings().map(line).collect();
        strings.sort_by_key(|string| string.number);
        let last_fret = tuning.last_fret();
        let frets = (0..=last_fret.number()).filter_map(Fret::new);
        NeckPicture {
            strings,
            frets: frets.map(|fret| NeckFret::new(neck, fret)).collect(),
            marks,
            handed: Handed::Right,
            fret_widths: FretWidths::Even,
            first_fret: FIRST_FRET,
            last_fret,
        }
    }

    /// With the fingers of a shape as labels of its places.
    #[must_use]
    pub fn fingered(mut self, shape: &Shape) -> NeckPicture {
        for (place, finger) in shape.places().into_iter().zip(shape.fingers().into_iter().flatten())
        {
            self.marks_at(place).for_each(|mark| mark.label = finger.number().to_string());
        }
        self
    }

    /// With this shape in hand.
    #[must_use]
    pub fn holding(self, shape: &Shape) -> NeckPicture {
        self.holding_at(shape.places())
    }

    /// With these places in hand.
    #[must_use]
    pub fn holding_at(mut self, places: impl IntoIterator<Item = Place>) -> NeckPicture {
        for place in places {
            self.marks_at(place).for_each(|mark| mark.is_held = true);
        }
        self
    }

    /// With these places marked as staying from the pair before.
    #[must_use]
    pub fn keeping(mut self, places: impl IntoIterator<Item = Place>) -> NeckPicture {
        for place in places {
            self.marks_at(place).for_each(|mark| mark.stays = true);
        }
        self
    }

    /// With frets as wide as that.
    #[must_use]
    pub fn with_fret_widths(mut self, widths: FretWidths) -> NeckPicture {
        self.fret_widths = widths;
        self
    }

    /// With the strings outside this set drawn quietly.
    #[must_use]
    pub fn locked_to(mut self, set: StringSet) -> NeckPicture {
        for string in &mut self.strings {
            string.is_quiet = !set.iter().any(|used| used == string.number);
        }
        self
    }

    /// Only these frets, of those the neck has; the open strings stay in view beside the nut.
    #[must_use]
    pub fn within(mut self, frets: FretRange) -> NeckPicture {
        let end = self.end();
        self.last_fret = frets.last().min(end);
        self.first_fret = frets.first().clamp(FIRST_FRET, self.last_fret.max(FIRST_FRET));
        self
    }

    /// As a player sees it who frets with this hand. Numbers, strings and fingers stay what they are.
    #[must_use]
    pub fn for_hand(mut self, handed: Handed) -> NeckPicture {
        self.handed = handed;
        self
    }

    /// With this string on top.
    #[must_use]
    pub fn with_top(mut self, top: Top) -> NeckPicture {
        match top {
            Top::First => self.strings.sort_by_key(|string| string.number),
            Top::Last => self.strings.sort_by_key(|string| Reverse(string.number)),
        }
        self
    }

    /// Rows that the picture takes where each string is a row: the fret numbers, the strings, the
    /// inlays.
    #[must_use]
    pub fn height(&self) -> u16 {
        self.strings.len() as u16 + 2
    }

    /// Where everything goes in a picture that is so many columns wide.
    #[must_use]
    pub fn columns(&self, width: u16) -> NeckColumns {
        NeckColumns::new(width, self.text_widths(), &self.frets_to_show())
    }

    /// Columns that show every fret, at their narrowest.
    #[must_use]
    pub fn narrowest_width(&self) -> u16 {
        NeckColumns::narrowest_width(self.text_widths(), &self.frets_to_show())
    }

    /// The last fret of the neck itself.
    pub(super) fn end(&self) -> Fret {
        let number = u8::try_from(self.frets.len().saturating_sub(1)).unwrap_or_default();
        Fret::new(number).unwrap_or(Fret::HIGHEST)
    }

    fn marks_at(&mut self, place: Place) -> impl Iterator<Item = &mut Mark> {
        self.marks.iter_mut().filter(move |mark| mark.place == place)
    }

    /// The widest string name, and the widest label of a note of the pair.
    fn text_widths(&self) -> TextWidths {
        let names = self.strings.iter().map(|string| string.name.chars().count());
        let of_pair = || self.marks.iter().filter(|mark| mark.role != MarkRole::LeftOut);
        let labels = of_pair().map(|mark| mark.label.chars().count());
        let signed = of_pair().map(|mark| mark.label.chars().count() + usize::from(mark.is_root));
        TextWidths {
            name: names.max().unwrap_or(1) as u16,
            label: labels.max().unwrap_or(1) as u16,
            signed_label: signed.max().unwrap_or(1) as u16,
        }
    }

    fn frets_to_show(&self) -> Frets {
        let before_first = usize::from(self.first_fret.number()).saturating_sub(1);
        let wires = self.frets.iter().take(usize::from(self.last_fret.number()) + 1);
        Frets {
            first: self.first_fret,
            wires_mm: wires.skip(before_first).map(|fret| fret.wire_mm).collect(),
            widths: self.fret_widths,
        }
    }
}

/// The fret beside the nut.
const FIRST_FRET: Fret = match Fret::new(1) {
    Some(fret) => fret,
    None => Fret::OPEN,
};

impl NeckString {
    fn new(tuning: &Tuning, number: StringNumber, open: OpenString) -> NeckString {
        NeckString {
            number,
            name: name_of(tuning, open),
            starts_at: open.starts_at(),
            capo: if open.is_behind_capo() { open.sounds_from() } else { Fret::OPEN },
            is_quiet: false,
        }
    }

    /// Where it sounds from: its start, or the capo. It has places above that only.
    #[must_use]
    pub fn sounds_from(&self) -> Fret {
        self.starts_at.max(self.capo)
    }
}

impl NeckFret {
    fn new(neck: &Neck, fret: Fret) -> NeckFret {
        NeckFret { wire_mm: neck.distance_mm(fret), inlay: neck.inlay(fret) }
    }
}

/// What an open string is called: with its octave where the strings do not rise to string 1, so
/// that their order by pitch is seen.
fn name_of(tuning: &Tuning, open: OpenString) -> String {
    let note = open.note();
    if tuning.is_reentrant() { note.to_string() } else { note.name().to_string() }
}
