//! What comping is asked to be.

use fretloom_theory::WhichTriad;

use super::chord::CompedChord;
use super::error::{CompingError, CompingRelief};
use super::laid::{Held, Laid};
use super::made::Comping;
use super::search::{Stuck, cheapest};
use crate::{Fret, FretRange, Hand, Ladder, Neck, Region, Rung, ShapeQuery, StringSet};

/// The pairs of a form and how they are to be comped; by default anywhere on the neck in one area of
/// six frets, with close shapes, the top voice going three semitones at most, and round from the last
/// chord to the first.
///
/// Six frets are those of a position with a stretch on both sides.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{CompedChord, CompingQuery, Neck, Tuning};
/// use fretloom_theory::{SpelledTriad, TriadPair};
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let pair = |one: &str, other: &str| {
///     let triad = |name: &str| name.parse::<SpelledTriad>().unwrap().triad();
///     CompedChord::Both(TriadPair::in_order(triad(one), triad(other)).unwrap())
/// };
/// let form = [pair("F", "G"), pair("Eb", "F")];
/// let comping = CompingQuery::over(form).comping(&neck).unwrap();
/// assert_eq!(comping.stabs().len(), 4);
/// for two in comping.stabs().windows(2) {
///     assert!(two[0].top().semitones_up_to(two[1].top()).abs() <= 3);
/// }
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct CompingQuery {
    chords: Vec<CompedChord>,
    shapes: ShapeQuery,
    region: Region,
    area: Area,
    top: u8,
    round: Round,
}

/// Between which frets all lies.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Area {
    /// Between these.
    Frets(FretRange),
    /// Between any that are so many.
    Any(u8),
}

/// Does the last chord lead to the first?
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Round {
    Closed,
    Open,
}

/// How many frets an area has, where nobody says.
const AREA: u8 = 6;
/// How many semitones the top voice goes at most, where nobody says.
const TOP: u8 = 3;
/// With how many semitones it is tried whether more would help.
const OCTAVE: u8 = 12;

impl CompingQuery {
    /// The chords of a form, in order.
    pub fn over(chords: impl IntoIterator<Item = CompedChord>) -> CompingQuery {
        CompingQuery {
            chords: chords.into_iter().collect(),
            shapes: ShapeQuery::default(),
            region: Region::WHOLE_NECK,
            area: Area::Any(AREA),
            top: TOP,
            round: Round::Closed,
        }
    }

    /// On these strings only.
    #[must_use]
    pub fn on(self, strings: StringSet) -> CompingQuery {
        CompingQuery { region: self.region.on(strings), ..self }
    }

    /// Without open strings.
    #[must_use]
    pub fn without_open_strings(self) -> CompingQuery {
        CompingQuery { region: self.region.without_open_strings(), ..self }
    }

    /// Between these frets, which are the area then.
    #[must_use]
    pub fn within(self, frets: FretRange) -> CompingQuery {
        CompingQuery { area: Area::Frets(frets), ..self }
    }

    /// In one area of so many frets, wherever that is cheapest; of equal ones nearest to the nut.
    #[must_use]
    pub fn in_any_area_of(self, frets: u8) -> CompingQuery {
        CompingQuery { area: Area::Any(frets.max(1)), ..self }
    }

    /// With a top voice that goes so many semitones at most.
    #[must_use]
    pub fn with_top_steps_up_to(self, semitones: u8) -> CompingQuery {
        CompingQuery { top: semitones, ..self }
    }

    /// Held by this hand.
    #[must_use]
    pub fn for_hand(self, hand: Hand) -> CompingQuery {
        CompingQuery { shapes: self.shapes.for_hand(hand), ..self }
    }

    /// It is played once, and the last chord leads nowhere.
    #[must_use]
    pub fn once(self) -> CompingQuery {
        CompingQuery { round: Round::Open, ..self }
    }

    /// The comping whose [cost](Comping::cost) is least.
    ///
    /// # Errors
    ///
    /// Where there is none: the condition that fails, and what would help.
    pub fn comping(&self, neck: &Neck) -> Result<Comping, CompingError> {
        if self.chords.is_empty() {
            return Err(CompingError::NoChords);
        }
        let held = self.held(neck)?;
        self.best(neck, &held).map_err(|failed| self.told(neck, &held, failed))
    }

    /// The shapes of each pair that a hand holds; at least one for each triad that is played.
    fn held(&self, neck: &Neck) -> Result<Held, CompingError> {
        let region = match self.area {
            Area::Frets(frets) => self.region.within(frets),
            Area::Any(_) => self.region,
        };
        let query = self.shapes.in_region(region);
        let mut held = Held::default();
        for (chord, comped) in self.chords.iter().enumerate() {
            let all = held.of_pair(comped.pair(), || {
                Ladder::new(neck, comped.pair(), &query).rungs().to_vec()
            });
            let missing = |which: &WhichTriad| {
                let own = all.iter().filter(|rung| rung.which == *which);
                let held: Vec<bool> = own.map(|rung| rung.shape.grip().is_some()).collect();
                match (held.is_empty(), held.contains(&true)) {
                    (true, _) => Some(CompingError::NoShape { chord, which: *which }),
                    (false, false) => Some(CompingError::NotHeld { chord, which: *which }),
                    (false, true) => None,
                }
            };
            let missing: Vec<CompingError> = WhichTriad::BOTH.iter().filter_map(missing).collect();
            if let Some(error) = missing.get(2 - comped.stabs()) {
                return Err(*error);
            }
        }
        held.drop_unheld();
        Ok(held)
    }

    /// The cheapest comping of all areas.
    fn best(&self, neck: &Neck, held: &Held) -> Result<Comping, Failed> {
        let mut best: Option<Comping> = None;
        let mut failed = Failed::NoArea;
        for area in self.areas(neck) {
            match self.in_area(neck, held, area) {
                Ok(comping) if best.as_ref().is_none_or(|best| comping.cost < best.cost) => {
                    best = Some(comping);
                }
                Ok(_) => {}
                Err(here) => failed = failed.max(here),
            }
        }
        best.ok_or(failed)
    }

    /// The areas that are tried, from the nut up.
    fn areas(&self, neck: &Neck) -> Vec<FretRange> {
        let count = match self.area {
            Area::Frets(frets) => return vec![frets],
            Area::Any(count) => count,
        };
        let (first, last) = (neck.begins_at().number(), neck.tuning().last_fret().number());
        let highest = (last + 1).saturating_sub(count).max(first);
        let area = |low: u8| {
            let high = Fret::new(low.saturating_add(count - 1).min(last))?;
            FretRange::new(Fret::new(low)?, high)
        };
        (first..=highest).filter_map(area).collect()
    }

    fn in_area(&self, neck: &Neck, held: &Held, area: FretRange) -> Result<Comping, Failed> {
        let lies_there = |rung: &Rung| {
            let mut places = rung.shape.places().into_iter();
            places.all(|place| area.contains(neck.fret_number(place)))
        };
        let there = Laid::of(neck, &self.chords, held, lies_there).ok_or(Failed::NoArea)?;
        let (stages, home) = there.stages(self.top);
        let home = (self.round == Round::Closed).then_some(&*home);
        match cheapest(&stages, home) {
            Ok((cost, way)) => Ok(Comping { stabs: there.stabs(&way), area, cost }),
            Err(Stuck::At(stab)) => Err(Failed::TopVoice(there.chord_of(stab))),
            Err(Stuck::Home) => Err(Failed::NoRound),
        }
    }

    /// What fails, and what would help.
    fn told(&self, neck: &Neck, held: &Held, failed: Failed) -> CompingError {
        let relief = self.relief(neck, held);
        let semitones = self.top;
        match failed {
            Failed::NoArea => CompingError::NoArea { frets: self.frets_wanted(), relief },
            Failed::TopVoice(chord) => {
                let within = match self.area {
                    Area::Frets(frets) => Some(frets),
                    Area::Any(_) => None,
                };
                CompingError::TopVoice { chord, semitones, within, relief }
            }
            Failed::NoRound => CompingError::NoRound { semitones, relief },
        }
    }

    fn frets_wanted(&self) -> u8 {
        match self.area {
            Area::Frets(frets) => frets.last().number() - frets.first().number() + 1,
            Area::Any(count) => count,
        }
    }

    /// The least of each condition with which there is comping.
    fn relief(&self, neck: &Neck, held: &Held) -> CompingRelief {
        let works = |query: CompingQuery| query.best(neck, held).is_ok();
        let mut tops = self.top.saturating_add(1)..=OCTAVE;
        let semitones = tops.find(|top| works(self.clone().with_top_steps_up_to(*top)));
        let last = neck.tuning().last_fret().number();
        let frets = match self.area {
            Area::Frets(_) => None,
            Area::Any(count) => {
                let mut counts = count.saturating_add(1)..=last.saturating_add(1);
                counts.find(|count| works(self.clone().in_any_area_of(*count)))
            }
        };
        CompingRelief { semitones, frets }
    }
}

/// What fails, the last what is furthest from the beginning.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
enum Failed {
    NoArea,
    /// On the way to this chord.
    TopVoice(usize),
    NoRound,
}
