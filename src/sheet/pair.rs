//! A sheet of a pair over a chord.

use std::collections::BTreeMap;

use fretloom_fretboard::{
    FretRange, Hand, HandPosition, Neck, PositionView, Region, ShapeQuery, StringSet, View,
};
use fretloom_theory::{LineStyle, Meter, Spelling, Tempo};

use super::heading::Heading;
use super::idea::{Idea, IdeaShapes, UnderHand};
use crate::answer::{
    self, AskedChords, AskedView, InKey, LadderAnswer, LineArea, LineChords, LineQuestion,
    LinesAnswer, NeckAnswer, PairOver, Refusal, TuningAnswer, ViewQuestion,
};
use crate::picture::{Labels, NeckPicture};

/// Where a pair is shown.
#[derive(Clone, Debug)]
pub struct PairPlacing {
    /// The tuning of the neck, with its capo.
    pub tuning: TuningAnswer,
    /// The frets in use.
    pub frets: FretRange,
    /// The three strings of the shapes; where none are named, or the neck does not have them, 3-2-1.
    pub strings: Option<StringSet>,
    /// How the neck is looked at; `None` for all of it.
    pub view: Option<AskedView>,
    /// What stands in the marks.
    pub labels: Labels,
    /// How triads are written.
    pub spelling: Spelling,
}

/// How many bars the line of a sheet has that nobody has asked for.
const BARS: u32 = 2;
/// How many quarter notes a minute it has: slow enough for what is new.
const TEMPO: u64 = 80;

impl Idea {
    /// Both triads on the neck, under the hand, and as the lowest shapes of their ladder, with a line of
    /// them and the twelve keys.
    ///
    /// # Errors
    ///
    /// Where the neck does not have three strings for the shapes.
    pub fn of_pair(
        neck: Neck,
        over: &PairOver,
        at: &PairPlacing,
        line: Option<LinesAnswer>,
    ) -> Result<Idea, Refusal> {
        let PairOver { harmony, pair } = over;
        let query = ShapeQuery::default().in_region(Region::default().within(at.frets));
        let ladder = LadderAnswer::new(
            &neck,
            at.tuning.clone(),
            pair.name(),
            three_strings(&neck, at.strings)?,
            &query,
        )?;
        Ok(Idea {
            heading: Heading::of_pair(harmony, pair, &at.tuning),
            notes: Vec::new(),
            picture: Some(whole_neck(&neck, over, at)),
            position: under_hand(&neck, over, at, line.as_ref()),
            shapes: IdeaShapes::Lowest(ladder),
            keys: line
                .as_ref()
                .and_then(|line| Some(line.lines.first()?.answer.question.chords.clone())),
            line,
            how: InKey::Here,
            neck,
        })
    }
}

fn three_strings(neck: &Neck, strings: Option<StringSet>) -> Result<StringSet, Refusal> {
    let count = neck.tuning().string_count();
    let named = strings.filter(|set| set.is_on(count) && set.three().is_some());
    match named {
        Some(named) => Ok(named),
        None => Ok("3-2-1".parse()?),
    }
}

/// All of the neck, or what a view shows of it with dots elsewhere.
fn whole_neck(neck: &Neck, over: &PairOver, at: &PairPlacing) -> NeckPicture {
    let answer = NeckAnswer::new(neck, at.tuning.clone(), &over.pair, at.frets);
    let marks = match &at.view {
        Some(view) if !matches!(view.view(), View::Position(_)) => {
            let seen = NeckAnswer::in_view(neck, at.tuning.clone(), &over.pair, view);
            answer::marks_in_view(&answer.places, &seen.places, at.labels)
        }
        Some(_) | None => answer::marks(&answer.places, at.labels),
    };
    NeckPicture::new(neck, marks).within(at.frets)
}

/// What lies under the hand: in the position of the view, or where the line is mostly played.
fn under_hand(
    neck: &Neck,
    over: &PairOver,
    at: &PairPlacing,
    line: Option<&LinesAnswer>,
) -> Option<UnderHand> {
    let of_view = at.view.as_ref().and_then(|view| match view.view() {
        View::Position(view) => Some(view.position()),
        View::Set(_) | View::Across(_) | View::Two(_) => None,
    });
    let position = of_view.or_else(|| most_played(line?))?;
    let view = View::Position(PositionView::at(position));
    let asked = ViewQuestion::new(view, Hand::default(), FretRange::WHOLE_NECK, 1);
    let asked = asked.ask(neck, &over.pair).ok()?;
    let places = NeckAnswer::in_view(neck, at.tuning.clone(), &over.pair, &asked).places;
    Some(UnderHand { position, places, labels: at.labels })
}

/// The position in which most notes of a line are played, the lowest of several.
fn most_played(line: &LinesAnswer) -> Option<HandPosition> {
    let way = line.lines.first()?.answer.ways.first()?;
    let mut counts: BTreeMap<HandPosition, usize> = BTreeMap::new();
    for at in &way.way.notes {
        *counts.entry(at.position).or_default() += 1;
    }
    let most = counts.values().max().copied()?;
    counts.into_iter().find(|(_, count)| *count == most).map(|(position, _)| position)
}

/// The chord with its scale and its pair, as lines are made over it; `None` over a scale by itself.
fn chords_of(over: &PairOver, spelling: Spelling) -> Option<LineChords> {
    let chord = over.harmony.chord()?;
    let scale = format!("{:#}", over.harmony.scale().scale());
    let asked = AskedChords {
        text: &chord.symbol,
        meter: Meter::COMMON,
        bars: Some(BARS),
        scales: Some(&scale),
        pairs: Some(&format!("{:#}", over.pair.name())),
        spelling,
        own: &[],
    };
    LineChords::read(&asked).ok()
}

/// A line of two bars of a pair over its chord, as an exercise; `None` over a scale by itself, and where
/// the neck does not have room for it.
pub(super) fn line_of_pair(neck: &Neck, over: &PairOver, at: &PairPlacing) -> Option<LinesAnswer> {
    let region = Region::default().within(at.frets);
    let question = LineQuestion {
        style: LineStyle::Exercise,
        tempo: Tempo::new(TEMPO, 1)?,
        area: LineArea { region, ..LineArea::whole_neck() },
        ..LineQuestion::over(chords_of(over, at.spelling)?)
    };
    LinesAnswer::in_one_key(neck, at.tuning.clone(), &question).ok()
}
