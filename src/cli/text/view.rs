//! A view of the neck as text: its picture, what is played, and what is hidden.

use fretloom_fretboard::{
    Finger, Fret, FretRange, Neck, SetStep, SetView, StringSet, View as NeckView,
};
use fretloom_theory::WhichTriad;

use super::neck::neck_head;
use super::shapes::{care, hardest, shape_row};
use super::table::table;
use crate::answer::{self, AskedView, Harmony, NamedHidden, NeckAnswer, PairAnswer, PairPlace};
use crate::export;
use crate::picture::{Labels, NeckPicture};
use crate::words::spaced;

/// A view that is printed, and where.
pub(in crate::cli) struct View<'a> {
    pub(in crate::cli) neck: &'a Neck,
    pub(in crate::cli) harmony: &'a Harmony,
    pub(in crate::cli) pair: &'a PairAnswer,
    pub(in crate::cli) asked: &'a AskedView,
    /// The frets to draw; none where the view decides.
    pub(in crate::cli) frets: Option<FretRange>,
    /// Turns the picture for the player's hand and stringing.
    pub(in crate::cli) turn: &'a dyn Fn(NeckPicture) -> NeckPicture,
}

/// `neck --view`
pub(in crate::cli) fn view(answer: &NeckAnswer, view: &View<'_>, labels: Labels) -> String {
    let head = neck_head(answer, view.harmony, view.pair) + &title(view) + "\n\n";
    if answer.places.is_empty() {
        return head + "nothing fits the wish\n";
    }
    let shapes = view.asked.shapes(view.neck, view.pair);
    let rows = match view.asked.set() {
        Some(set) => steps(set, view, &answer.places),
        None if shapes.is_empty() => notes(&answer.places),
        None => Vec::new(),
    };
    let hides = answer.view.iter().flat_map(|view| &view.hides);
    let hides: String = hides.map(|hidden| told(hidden, &answer.places)).collect();
    let parts = [
        export::text::neck(&view_picture(answer, view, labels)),
        table(&rows),
        table(&shapes.iter().map(shape_row).collect::<Vec<_>>()),
        hides,
    ];
    let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    head + &parts.join("\n") + &hardest(&shapes).map(care).unwrap_or_default()
}

/// `hidden: 56 more notes of the pair elsewhere on the neck`; what a stretch shows is not hidden.
fn told(hidden: &NamedHidden, shown: &[PairPlace]) -> String {
    if hidden.is_among(shown.iter().map(|place| place.pitch)) {
        format!("{hidden}\n")
    } else {
        format!("hidden: {hidden}\n")
    }
}

/// What is seen, in a line.
fn title(view: &View<'_>) -> String {
    let asked = view.asked;
    let choice = format!("{} of {}", asked.choice(), asked.choices());
    match asked.view() {
        NeckView::Position(position) => {
            format!("position {}: everything under one hand", position.position())
        }
        NeckView::Set(set) if set.set().len() == 1 => format!("string {}", set.set()),
        NeckView::Set(set) => format!("strings {}", set.set()),
        NeckView::Across(_) => format!("a chain across the strings, {choice}"),
        NeckView::Two(_) => {
            let positions = spaced(asked.positions());
            let whence = match positions.as_str() {
                "" => "beyond the hand".to_owned(),
                positions => format!("position {positions}"),
            };
            format!("six notes, two a string, {choice}, {whence}")
        }
    }
}

/// The neck with the places of the view, no longer than they need.
pub(in crate::cli) fn view_picture(
    answer: &NeckAnswer,
    view: &View<'_>,
    labels: Labels,
) -> NeckPicture {
    let frets = view.frets.unwrap_or_else(|| frets_around(&answer.places));
    let marks = answer::marks_in_view(&answer.places, &answer.places, labels);
    let picture = NeckPicture::new(view.neck, marks).within(frets);
    (view.turn)(match strings(&answer.places) {
        Some(set) => picture.locked_to(set),
        None => picture,
    })
}

/// The frets that are played on, and one more on either side.
fn frets_around(places: &[PairPlace]) -> FretRange {
    let frets = || places.iter().map(|place| place.place.fret).filter(|fret| !fret.is_open());
    let neighbour = |fret: Option<Fret>, by: i8| {
        let number = fret.map_or(0, Fret::number).saturating_add_signed(by);
        Fret::new(number).unwrap_or(Fret::HIGHEST)
    };
    let (lowest, highest) = (neighbour(frets().min(), -1), neighbour(frets().max(), 1));
    FretRange::new(lowest, highest).unwrap_or(FretRange::WHOLE_NECK)
}

/// The strings that something is played on.
fn strings(places: &[PairPlace]) -> Option<StringSet> {
    StringSet::of(places.iter().map(|place| place.place.string))
}

/// A note a row, in the order of playing.
fn notes(places: &[PairPlace]) -> Vec<Vec<String>> {
    let mut places: Vec<&PairPlace> = places.iter().collect();
    places.sort_by_key(|place| place.in_view.map(|seen| seen.order));
    places.into_iter().map(note).collect()
}

fn note(place: &PairPlace) -> Vec<String> {
    let finger = match place.in_view.and_then(|seen| seen.finger) {
        Some(Finger::Open) => "open".to_owned(),
        Some(finger) => format!("finger {}", finger.number()),
        None => String::new(),
    };
    let stretched = match place.in_view.map(|seen| (seen.stretched, seen.is_choice)) {
        Some((true, true)) => "stretched, one of several places to choose from",
        Some((true, false)) => "stretched",
        _ => "",
    };
    vec![
        marked(place),
        format!("string {}", place.place.string),
        format!("fret {}", place.fret),
        finger,
        stretched.to_owned(),
    ]
}

/// The note in the brackets of its triad.
fn marked(place: &PairPlace) -> String {
    match place.which {
        WhichTriad::First => format!("[{}]", place.note),
        WhichTriad::Second => format!("({})", place.note),
    }
}

/// A step along a string a row: from where to where, in frets, and how far a hand shifts.
fn steps(set: SetView, view: &View<'_>, places: &[PairPlace]) -> Vec<Vec<String>> {
    let at = |place| places.iter().find(|answer| answer.place == place);
    let row = |step: SetStep| {
        let (from, to) = (at(step.from)?, at(step.to)?);
        let noun = if step.frets == 1 { "fret" } else { "frets" };
        Some(vec![
            format!("string {}", step.from.string),
            format!("{} {} → {} {}", marked(from), step.from.fret, marked(to), step.to.fret),
            format!("{} {noun}", step.frets),
            format!("{:.0} mm", step.shift_mm),
        ])
    };
    set.steps(view.neck, view.pair.pair()).into_iter().filter_map(row).collect()
}
