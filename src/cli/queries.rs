//! From arguments to what the neck is asked for.

use fretloom_fretboard::{
    ArpeggioQuery, ChainQuery, FingeringQuery, Fret, FretRange, HandPosition, Neck, PerString,
    PositionView, Region, SetView, ShapeQuery, StringSet, Taste, TwoAStringQuery, View, Voicing,
};
use fretloom_theory::WhichTriad;

use super::args::{self, ViewArgs, ViewWord, VoicingArg, WhereTo};
use crate::answer::Refusal;

/// The part of the neck that is meant.
fn region(where_to: &WhereTo, frets: FretRange) -> Region {
    let region = Region::default().within(frets);
    if where_to.no_open { region.without_open_strings() } else { region }
}

/// Where `shapes` and `ladder` look.
pub(super) fn query(where_to: &WhereTo, frets: FretRange) -> ShapeQuery {
    ShapeQuery::default().in_region(region(where_to, frets)).for_hand(where_to.hand.hand())
}

/// The shapes that are wanted.
pub(super) fn shape_query(shapes: &args::Shapes, frets: FretRange) -> ShapeQuery {
    let mut query = query(&shapes.where_to, frets);
    query = match shapes.voicing {
        VoicingArg::Close => query.voiced(Voicing::Close),
        VoicingArg::Open => query.voiced(Voicing::Open),
        VoicingArg::Both => query.of_both_voicings(),
        // What lies octaves apart is hardly ever on strings side by side.
        VoicingArg::Wide => query.voiced(Voicing::Wide).skipping_strings(),
        VoicingArg::All => query.of_all_voicings().skipping_strings(),
    };
    if shapes.skips {
        query = query.skipping_strings();
    }
    if let Some(inversion) = shapes.inversion {
        query = query.inverted(inversion.into());
    }
    if let Some(span) = shapes.span {
        query = query.up_to_mm(span);
    }
    query
}

/// The arpeggios that are wanted.
pub(super) fn arpeggio_query(
    shapes: &args::Shapes,
    per_string: PerString,
    frets: FretRange,
) -> ArpeggioQuery {
    let where_to = &shapes.where_to;
    let mut query = ArpeggioQuery::new(per_string)
        .in_region(region(where_to, frets))
        .for_hand(where_to.hand.hand());
    if let Some(inversion) = shapes.inversion {
        query = query.inverted(inversion.into());
    }
    match shapes.span {
        Some(span) => query.up_to_mm(span),
        None => query,
    }
}

/// How a line is to be fingered.
pub(super) fn fingering_query(
    wanted: &args::Finger,
    frets: FretRange,
) -> Result<FingeringQuery, Refusal> {
    let home = Fret::new(wanted.home).unwrap_or(Fret::HIGHEST);
    let taste = Taste::default().with_home(home);
    let taste = if wanted.like_open { taste.with_open_strings_at_mm(0.0) } else { taste };
    let hand = wanted.where_to.hand.hand();
    let region = region(&wanted.where_to, frets);
    let strings = args::strings(wanted.strings.as_deref())?;
    let region = strings.map_or(region, |strings| region.on(strings));
    let query = FingeringQuery::default().in_region(region).for_hand(hand).to_taste(taste);
    let position: Option<HandPosition> = args::read(wanted.position.as_deref())?;
    Ok(position.map_or(query, |position| query.in_positions(position, position)))
}

/// The part of the neck in which a line may be. The strings of the views set and two are the
/// view's own.
pub(super) fn line_region(
    wanted: &args::Line,
    strings: Option<StringSet>,
    frets: FretRange,
) -> Region {
    let region = Region::default().within(frets);
    let region = if wanted.no_open { region.without_open_strings() } else { region };
    match wanted.view.view {
        None | Some(ViewWord::Position) => strings.map_or(region, |strings| region.on(strings)),
        Some(ViewWord::Set | ViewWord::Across | ViewWord::Two) => region,
    }
}

/// The view that is asked for, if one is.
pub(super) fn view_of(
    wanted: &ViewArgs,
    strings: Option<StringSet>,
    neck: &Neck,
    frets: FretRange,
) -> Result<Option<View>, Refusal> {
    let Some(word) = wanted.view else { return Ok(None) };
    let position: Option<HandPosition> = args::read(wanted.position.as_deref())?;
    Ok(Some(match word {
        ViewWord::Position => {
            // Where only frets are named, the hand begins with them.
            let lowest = HandPosition::lowest_on(neck);
            let in_frets = HandPosition::new(frets.first().number()).unwrap_or(lowest).max(lowest);
            let view = PositionView::at(position.unwrap_or(in_frets));
            View::Position(if wanted.open { view.with_open_strings() } else { view })
        }
        ViewWord::Set => {
            let three = || "3-2-1".parse().map_err(Refusal::Read);
            View::Set(SetView::on(strings.map_or_else(three, Ok)?))
        }
        ViewWord::Across => View::Across(chain_query(wanted)),
        ViewWord::Two => {
            let query = TwoAStringQuery::default();
            let query = strings.map_or(query, |set| query.on(set));
            View::Two(position.map_or(query, |position| query.near(position)))
        }
    }))
}

/// One inversion is meant for both triads.
fn chain_query(wanted: &ViewArgs) -> ChainQuery {
    let query = ChainQuery::default();
    let query = wanted.overlap.map_or(query, |overlap| query.overlapping(overlap.into()));
    let sides = [WhichTriad::First, WhichTriad::Second].into_iter();
    let inversions = sides.zip(wanted.inversions.iter().cycle());
    inversions.fold(query, |query, (which, choice)| match choice.one() {
        Some(inversion) => query.inverted(which, inversion),
        None => query,
    })
}
