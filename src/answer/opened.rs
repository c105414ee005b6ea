//! What a keeper holds, opened as it was kept: on its own tuning, with its own strings, places and
//! fingers, whatever has become of tunings, scales and patterns since.

mod kept_pair;
mod kept_shape;
mod kept_view;
mod opening;

use fretloom_fretboard::{FretRange, Neck, Region, ShapeQuery, StringSet};
use fretloom_theory::{LineStyle, Meter, Tempo};

use super::changes::{ChangesAnswer, ChangesQuestion};
use super::ladder::LadderAnswer;
use super::line::{
    AskedChords, InKey, LineAnswer, LineArea, LineChords, LineQuestion, LinesAnswer,
};
use super::refusal::Refusal;
use super::tunings::TuningAnswer;
use super::views::AskedView;
use crate::library::ReadChart;
use crate::store::{Keeper, Kept, KeptNote, KeptPlan, KeptThing, Session};

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
            session: toml::from_str(screen).unwrap_or_default(),
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

    /// The line, on its own neck as it was kept, on another one fingered anew.
    fn line(
        &self,
        notes: &[KeptNote],
        opening: &Opening<'_>,
    ) -> Result<(LineAnswer, InKey), Refusal> {
        let question = self.line_question(notes, opening)?;
        let home = Neck::new(self.home.tuning.clone());
        let line = LineAnswer::of_kept(&home, self.home.clone(), &question, notes)?;
        match opening.on {
            None => Ok((line, InKey::Here)),
            Some(tuning) => line.moved_to(&self.neck, tuning).ok_or(Refusal::LineDoesNotFit),
        }
    }

    fn line_question(
        &self,
        notes: &[KeptNote],
        opening: &Opening<'_>,
    ) -> Result<LineQuestion, Refusal> {
        let session = self.session.line.as_ref();
        let meter = session.and_then(|line| line.meter.as_ref()?.parse().ok());
        let tempo = session.and_then(|line| Tempo::new(u64::from(line.tempo?), 1));
        let bars = session.and_then(|line| line.bars);
        let chords = self.line_chords(meter.unwrap_or(Meter::COMMON), bars, notes, opening)?;
        Ok(LineQuestion {
            style: LineStyle::Exercise,
            tempo: tempo.unwrap_or(Tempo::USUAL),
            area: LineArea::whole_neck(),
            ..LineQuestion::over(chords)
        })
    }

    /// The chords below the line, as many bars as are written, and as many as it takes.
    fn line_chords(
        &self,
        meter: Meter,
        bars: Option<u32>,
        notes: &[KeptNote],
        opening: &Opening<'_>,
    ) -> Result<LineChords, Refusal> {
        let session = self.session.line.as_ref();
        let text = self.kept.chord.as_deref().or(session.and_then(|line| line.chords.as_deref()));
        let text = text.unwrap_or_default();
        let read = |bars: Option<u32>, scales: Option<&str>, pairs: Option<&str>| {
            let (spelling, own) = (opening.spelling, opening.own);
            LineChords::read(&AskedChords { text, meter, bars, scales, pairs, spelling, own })
        };
        let end = notes.iter().filter_map(|note| note.onset.checked_add(note.length)).max();
        let is_one = !text.trim().contains(['|', ' ']);
        let laid = read(bars.or(is_one.then_some(1)), None, None)?;
        let at = end.and_then(|end| Some((laid.bars().at(end)?, end)));
        let needed = at.map_or(1, |(at, end)| at.index + u64::from(at.bar.from < end));
        let written = laid.bars().at(laid.end()).map_or(0, |at| at.index);
        let bars = u32::try_from(needed.max(written)).unwrap_or(LineChords::MOST_BARS);
        // The choices of a screen are those of each chord; what stands beside them is one for all.
        let in_this_key = session.filter(|line| line.key.unwrap_or_default() == 0);
        let each = in_this_key.map(|line| line.each.as_slice()).unwrap_or_default();
        let of_each = |part: usize| {
            let parts = each.iter().map(|words| words.split(';').nth(part).unwrap_or("").trim());
            (!each.is_empty()).then(|| parts.collect::<Vec<_>>().join(", "))
        };
        let (scales, pairs) = (of_each(1), of_each(2));
        let kept = (self.kept.scale.as_deref(), self.kept.pair.as_deref());
        let each = (scales.as_deref(), pairs.as_deref());
        let each = if each == (None, None) { kept } else { each };
        let choices = [each, kept, (None, kept.1), (None, None)];
        let mut read = choices.into_iter().map(|(scales, pairs)| read(Some(bars), scales, pairs));
        let first = read.next().unwrap_or(Ok(laid));
        first.or_else(|refused| read.find_map(Result::ok).ok_or(refused))
    }

    fn plan(&self, plan: &KeptPlan, opening: &Opening<'_>) -> Result<ChangesAnswer, Refusal> {
        let read = ReadChart::of_text("chart", &plan.chart, opening.own)
            .map_err(|problems| Refusal::Chart { problems })?;
        let frets = plan.frets.as_ref().and_then(|frets| frets.parse::<FretRange>().ok());
        let region = Region::default();
        let within = frets.map(|frets| region.within(frets));
        let region = match self.strings() {
            Some(strings) => Some(within.unwrap_or(region).on(strings)),
            None => within,
        };
        let region = region.filter(|region| region.check(&self.neck).is_ok());
        let question = ChangesQuestion {
            melody: read.melody,
            key: plan.key.as_ref().and_then(|key| key.parse().ok()),
            own: opening.own.to_vec(),
            spelling: opening.spelling,
            region,
            ..ChangesQuestion::of(read.chart)
        };
        ChangesAnswer::new(&self.neck, &question)
    }
}
