//! What a keeper holds, opened as it was kept: on its own tuning, with its own strings, places and
//! fingers, whatever has become of tunings, scales and patterns since.

mod kept_line;
mod kept_pair;
mod kept_plan;
mod kept_shape;
mod kept_view;
mod opening;

use fretloom_fretboard::{FretRange, Neck, Region, ShapeQuery, StringSet};

use super::changes::ChangesAnswer;
use super::ladder::LadderAnswer;
use super::line::{InKey, LinesAnswer};
use super::refusal::Refusal;
use super::tunings::TuningAnswer;
use super::views::AskedView;
use crate::store::{Keeper, Kept, KeptThing, Session};

pub use kept_pair::PairOver;
pub use kept_shape::{HeldNote, HeldShape};
pub use opening::Opening;

/// What a keeper holds, opened.
#[derive(Clone, Debug)]
pub struct OpenedKeeper {
    /// The neck that it is on.
    pub neck: Neck,
    /// Its tuning, with its capo.
    pub tuning: TuningAnswer,
    /// The frets that were in use.
    pub frets: FretRange,
    /// What it is.
    pub thing: OpenedThing,
    /// How it came onto this neck, where that is another one than it was kept on.
    pub how: InKey,
}

/// What it is that was kept.
#[derive(Clone, PartialEq, Debug)]
pub enum OpenedThing {
    /// A pair over its chord.
    Pair {
        /// Chord, scale and pair.
        over: Box<PairOver>,
        /// The strings that were in use.
        strings: Option<StringSet>,
        /// How the neck was looked at; `None` for all of it.
        view: Option<AskedView>,
    },
    /// A shape of one of its triads.
    Shape {
        /// Chord, scale and pair.
        over: Box<PairOver>,
        /// The shape, as the hand held it.
        shape: HeldShape,
    },
    /// The shapes of both triads up some strings.
    Ladder {
        /// Chord, scale and pair.
        over: Box<PairOver>,
        /// The shapes.
        ladder: LadderAnswer,
    },
    /// A line, note by note.
    Line(Box<LinesAnswer>),
    /// A chart with its plan.
    Plan(Box<ChangesAnswer>),
}

impl OpenedKeeper {
    /// Opens a keeper. On another instrument its strings, its shape and its line are the nearest that
    /// this has.
    ///
    /// # Errors
    ///
    /// Where it holds something that nobody can read, or that the instrument does not have.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::answer::{OpenedKeeper, OpenedThing, Opening, find_tuning};
    /// use fretloom::library::LoadedTunings;
    /// use fretloom::store::{Keeper, KeeperId, Kept, NewKeeper};
    /// use fretloom_theory::Spelling;
    /// let tunings = LoadedTunings::load(None);
    /// let unsaid = find_tuning(&tunings, "guitar-standard").unwrap();
    /// let opening = Opening {
    ///     on: None,
    ///     unsaid: &unsaid,
    ///     tunings: &tunings,
    ///     own: &[],
    ///     spelling: Spelling::Plain,
    /// };
    /// let keeper = |pair: &str| {
    ///     let (chord, pair) = (Some("Dm7".to_owned()), Some(pair.to_owned()));
    ///     let kept = Kept { chord, pair, ..Kept::default() };
    ///     Keeper::new(KeeperId::new(3).unwrap(), NewKeeper { kept, ..NewKeeper::default() })
    /// };
    /// let opened = OpenedKeeper::open(&keeper("F & G"), &opening).unwrap();
    /// let OpenedThing::Pair { over, .. } = &opened.thing else { panic!() };
    /// assert_eq!(over.pair.name().to_string(), "F & G");
    /// let refused = OpenedKeeper::open(&keeper("F & H"), &opening).unwrap_err();
    /// assert!(refused.to_string().starts_with("keeper 3: "));
    /// ```
    pub fn open(keeper: &Keeper, opening: &Opening<'_>) -> Result<OpenedKeeper, Refusal> {
        let told = |refusal| Refusal::InKeeper { id: keeper.id, refusal: Box::new(refusal) };
        Opened::of(&keeper.kept, opening).thing(opening).map_err(told)
    }
}

/// A keeper on its way to being opened.
struct Opened<'a> {
    kept: &'a Kept,
    /// How the screens stood.
    session: Session,
    /// The tuning that it was kept with.
    home: TuningAnswer,
    /// The one that it is opened on.
    tuning: TuningAnswer,
    neck: Neck,
}

impl<'a> Opened<'a> {
    fn of(kept: &'a Kept, opening: &Opening<'_>) -> Opened<'a> {
        let screen = kept.screen.as_deref().unwrap_or_default();
        let own = kept.tuning.as_deref();
        let own = own.map(|tuning| TuningAnswer::of(opening.tunings, tuning.clone()));
        let home = own.unwrap_or_else(|| opening.unsaid.clone());
        let tuning = opening.on.unwrap_or(&home).clone();
        Opened {
            kept,
            // What cannot be read of it is as if it had never been kept.
            session: Session::of_toml(screen).unwrap_or_default(),
            neck: Neck::new(tuning.tuning.clone()),
            home,
            tuning,
        }
    }

    fn thing(self, opening: &Opening<'_>) -> Result<OpenedKeeper, Refusal> {
        let over = || PairOver::of(self.kept, opening).map(Box::new);
        let (thing, how) = match &self.kept.what {
            KeptThing::Pair => {
                let over = over()?;
                let view = self.view(&over.pair);
                (OpenedThing::Pair { strings: self.strings(), view, over }, InKey::Here)
            }
            KeptThing::Shape(shape) => {
                let (over, home) = (over()?, Neck::new(self.home.tuning.clone()));
                let (shape, how) = HeldShape::of(shape, &home)?.on(&home, &self.neck)?;
                (OpenedThing::Shape { over, shape }, how)
            }
            KeptThing::Ladder => {
                let over = over()?;
                let ladder = self.ladder(&over)?;
                (OpenedThing::Ladder { over, ladder }, InKey::Here)
            }
            KeptThing::Line(notes) => {
                let (line, how) = self.line(notes, opening)?;
                (OpenedThing::Line(Box::new(LinesAnswer::of_one(line))), how)
            }
            KeptThing::Plan(plan) => {
                (OpenedThing::Plan(Box::new(self.plan(plan, opening)?)), InKey::Here)
            }
        };
        let frets = self.frets();
        Ok(OpenedKeeper { neck: self.neck, tuning: self.tuning, frets, thing, how })
    }

    /// The strings that were in use, where this neck has them.
    fn strings(&self) -> Option<StringSet> {
        let count = self.neck.tuning().string_count();
        self.kept.strings.filter(|set| set.is_on(count))
    }

    /// The frets that were in use, where this neck has them.
    fn frets(&self) -> FretRange {
        let frets = self.session.frets.as_deref().and_then(|frets| frets.parse::<FretRange>().ok());
        let last = self.neck.tuning().last_fret();
        frets.filter(|frets| frets.first() <= last).unwrap_or(FretRange::WHOLE_NECK)
    }

    fn ladder(&self, over: &PairOver) -> Result<LadderAnswer, Refusal> {
        let three = || "3-2-1".parse().map_err(Refusal::Read);
        let strings = self.strings().filter(|set| set.three().is_some()).map_or_else(three, Ok)?;
        let query = ShapeQuery::default().in_region(Region::default().within(self.frets()));
        LadderAnswer::new(&self.neck, self.tuning.clone(), over.pair.name(), strings, &query)
    }
}
