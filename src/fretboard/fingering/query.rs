//! What is asked of a fingering.

use super::cheapest::Cheapest;
use super::cost::{Avoid, Cost};
use super::moment::{Moment, Moments};
use super::search::{Rest, total};
use super::ways;
use super::{FingeredNote, Fingering, FingeringError, LineNote, Why};
use crate::{Fret, FretRange, Hand, HandPosition, Neck, Place, StringSet};

/// A question for fingerings of a line. By default the whole neck, open strings too, an average
/// hand and taste.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{FingeringQuery, LineNote, Neck, Tuning};
/// use fretloom_theory::Pitch;
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// // G B D, an eighth note each.
/// let line: Vec<LineNote> = [(0.0, 55), (0.25, 59), (0.5, 62)]
///     .into_iter()
///     .filter_map(|(onset_s, midi)| LineNote::new(onset_s, 0.25, Pitch::from_midi(midi)?))
///     .collect();
/// let best = FingeringQuery::default().best(&neck, &line).unwrap();
/// let places = best.notes().iter().map(|note| note.place);
/// let places: Vec<String> = places.map(|at| format!("{}/{}", at.string, at.fret)).collect();
/// assert_eq!(places, ["4/5", "3/4", "2/3"]);
/// let positions = best.notes().iter().map(|note| note.position.to_string());
/// assert_eq!(positions.collect::<Vec<_>>(), ["III", "III", "III"]);
/// ```
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct FingeringQuery {
    hand: Hand,
    taste: Taste,
    strings: Option<StringSet>,
    frets: FretRange,
    positions: Option<(HandPosition, HandPosition)>,
    open_strings: bool,
}

/// What the player likes, where playing is not a matter of what is possible.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Fret, Taste};
/// let taste = Taste::default();
/// assert_eq!(taste.home().number(), 5);
/// let high = taste.with_home(Fret::new(9).unwrap()).with_open_strings_at_mm(0.0);
/// assert_eq!((high.home().number(), high.open_string_mm()), (9, 0.0));
/// ```
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Taste {
    home: Fret,
    open_string_mm: f64,
}

impl Default for Taste {
    /// As soloists play in the recordings that the cost was fitted to: the hand likes to be no
    /// higher than the fifth fret, and an open string is used where it saves a long way.
    fn default() -> Taste {
        Taste { home: HOME, open_string_mm: 180.0 }
    }
}

const HOME: Fret = match Fret::new(5) {
    Some(fret) => fret,
    None => Fret::OPEN,
};

impl Taste {
    /// The hand likes to be no higher than `fret`, counted from the nut or from a full capo.
    #[must_use]
    pub const fn with_home(self, fret: Fret) -> Taste {
        Taste { home: fret, ..self }
    }

    /// An open string costs as much as moving the hand by `mm` with time to spare; 0 for a player
    /// who likes them as well as any other note. Clamped to 0 to 1000.
    #[must_use]
    pub fn with_open_strings_at_mm(self, mm: f64) -> Taste {
        let mm = if mm.is_finite() { mm.clamp(0.0, 1000.0) } else { self.open_string_mm };
        Taste { open_string_mm: mm, ..self }
    }

    /// Up to where the hand likes to be.
    #[must_use]
    pub const fn home(self) -> Fret {
        self.home
    }

    /// That fret as a part of the sounding string, by the rule of equal temperament.
    pub(super) fn home_part(self) -> f64 {
        1.0 - (-f64::from(self.home.number()) / 12.0).exp2()
    }

    /// What an open string costs, in millimetres.
    #[must_use]
    pub const fn open_string_mm(self) -> f64 {
        self.open_string_mm
    }
}

impl Default for FingeringQuery {
    fn default() -> FingeringQuery {
        FingeringQuery {
            hand: Hand::default(),
            taste: Taste::default(),
            strings: None,
            frets: FretRange::WHOLE_NECK,
            positions: None,
            open_strings: true,
        }
    }
}

impl FingeringQuery {
    /// For this hand.
    #[must_use]
    pub const fn for_hand(mut self, hand: Hand) -> FingeringQuery {
        self.hand = hand;
        self
    }

    /// For this taste.
    #[must_use]
    pub const fn to_taste(mut self, taste: Taste) -> FingeringQuery {
        self.taste = taste;
        self
    }

    /// On these strings only.
    #[must_use]
    pub const fn on(mut self, strings: StringSet) -> FingeringQuery {
        self.strings = Some(strings);
        self
    }

    /// At these frets only, as they are [written](Neck::fret_number): open strings are fret 0, and
    /// behind a capo the capo's.
    #[must_use]
    pub const fn within(mut self, frets: FretRange) -> FingeringQuery {
        self.frets = frets;
        self
    }

    /// With the hand in these positions only, from the lower to the higher.
    #[must_use]
    pub const fn in_positions(mut self, low: HandPosition, high: HandPosition) -> FingeringQuery {
        self.positions = Some((low, high));
        self
    }

    /// Without open strings.
    #[must_use]
    pub const fn without_open_strings(mut self) -> FingeringQuery {
        self.open_strings = false;
        self
    }

    /// The strings that are asked for, where not all are.
    #[must_use]
    pub const fn strings(&self) -> Option<StringSet> {
        self.strings
    }

    /// The hand that it is asked for.
    #[must_use]
    pub const fn hand(&self) -> Hand {
        self.hand
    }

    pub(super) const fn taste(&self) -> Taste {
        self.taste
    }

    pub(super) fn allows_strings(&self, strings: StringSet) -> bool {
        self.strings.is_none_or(|mine| strings.iter().all(|string| mine.contains(string)))
    }

    pub(super) fn allows_place(&self, neck: &Neck, place: Place) -> bool {
        self.strings.is_none_or(|strings| strings.contains(place.string))
            && self.frets.contains(neck.fret_number(place))
            && (self.open_strings || !place.fret.is_open())
    }

    pub(super) const fn asks_for_positions(&self) -> bool {
        self.positions.is_some()
    }

    pub(super) fn allows_hand(&self, hand: HandPosition) -> bool {
        self.positions.is_none_or(|(low, high)| low <= hand && hand <= high)
    }

    /// The cheapest fingering. The same line always gets the same one.
    ///
    /// Time and memory grow with the length of the line and no faster.
    ///
    /// # Errors
    ///
    /// Where notes have no place: all of them are named.
    pub fn best(&self, neck: &Neck, line: &[LineNote]) -> Result<Fingering, FingeringError> {
        self.solve(neck, line, |_, rest| rest.fingering(&rest.best(), Why::Easiest))
    }

    /// The `count` cheapest fingerings, no two with the same places, the cheapest first; fewer
    /// where there are no more. Neighbours in this list often differ in one note: for choices that
    /// a player would care about see [`ways`](FingeringQuery::ways).
    ///
    /// # Errors
    ///
    /// As [`best`](FingeringQuery::best).
    pub fn cheapest(
        &self,
        neck: &Neck,
        line: &[LineNote],
        count: usize,
    ) -> Result<Vec<Fingering>, FingeringError> {
        if line.is_empty() {
            return Ok(Vec::new());
        }
        self.solve(neck, line, |moments, rest| {
            let paths = Cheapest::new(moments, rest).take(count);
            paths.map(|path| rest.fingering(&path, Why::NextCheapest)).collect()
        })
    }

    /// Up to `count` fingerings that differ musically, the cheapest first. Each is the best under a
    /// condition which its [`why`](Fingering::why) names: no shift, no open string, on one set of
    /// strings, in another part of the neck …
    ///
    /// # Errors
    ///
    /// As [`best`](FingeringQuery::best).
    pub fn ways(
        &self,
        neck: &Neck,
        line: &[LineNote],
        count: usize,
    ) -> Result<Vec<Fingering>, FingeringError> {
        ways::ways(self, neck, line, count)
    }

    /// What a fingering of `line` costs by this query's cost, whoever made it; `None` where it is
    /// none: another number of notes, a note that does not sound there, two on one string at once,
    /// a finger that cannot be there.
    #[must_use]
    pub fn cost_of(&self, neck: &Neck, line: &[LineNote], notes: &[FingeredNote]) -> Option<f64> {
        let cost = Cost::new(neck, self, Avoid::Nothing);
        let moments = Moments { neck, query: self, cost: &cost }.of(line).ok()?;
        let way = |moment: &Moment| moment.way_of(notes);
        let path: Vec<usize> = moments.iter().map(way).collect::<Option<_>>()?;
        (notes.len() == line.len()).then(|| total(&moments, &cost, &path))
    }

    /// The best without what is to be avoided, at its ordinary cost.
    pub(super) fn best_without(
        &self,
        neck: &Neck,
        line: &[LineNote],
        avoid: Avoid,
    ) -> Result<Fingering, FingeringError> {
        let dear = Cost::new(neck, self, avoid);
        let ordinary = Cost::new(neck, self, Avoid::Nothing);
        let moments = Moments { neck, query: self, cost: &ordinary }.of(line)?;
        let path = Rest::new(&moments, &dear).best();
        Ok(Rest::new(&moments, &ordinary).fingering(&path, Why::Easiest))
    }

    pub(super) fn solve<T>(
        &self,
        neck: &Neck,
        line: &[LineNote],
        answer: impl FnOnce(&[Moment], &Rest<'_>) -> T,
    ) -> Result<T, FingeringError> {
        let cost = Cost::new(neck, self, Avoid::Nothing);
        let moments = Moments { neck, query: self, cost: &cost }.of(line)?;
        let rest = Rest::new(&moments, &cost);
        Ok(answer(&moments, &rest))
    }
}
