//! A neck on a page.

use fretloom_fretboard::Neck;

use super::boxes::{Boxed, put_boxes};
use super::care;
use super::heading::Heading;
use crate::answer::NamedShape;
use crate::picture::page::{Face, Figure, Pages, Paper, points};
use crate::picture::{Labels, Mark, NeckPicture, NeckSize, Presence};

/// How far strings are apart.
const STRING_GAP_MM: f64 = 7.0;
const LEGEND_SIZE: f64 = points(8.0);

/// A neck under what it is about, and the shapes that a view lists.
#[must_use]
pub fn neck(
    heading: &Heading,
    neck: &Neck,
    picture: &NeckPicture,
    labels: Labels,
    shapes: &[NamedShape],
    paper: Paper,
) -> Pages {
    let mut flow = heading.begin(paper);
    let size = NeckSize { width_mm: flow.width_mm(), string_gap_mm: STRING_GAP_MM };
    flow.put(picture.figure(size), 6.0);
    let legend =
        Figure::paragraph(&legend(picture, labels), Face::Plain, LEGEND_SIZE, size.width_mm);
    flow.put(legend, 2.0);
    let boxed: Vec<Boxed> = shapes.iter().map(|shape| Boxed::of_shape(heading, shape)).collect();
    put_boxes(&mut flow, neck, &boxed, picture.handed);
    care::put(&mut flow);
    flow.pages()
}

/// What stands in the marks, and what else is drawn at them.
fn legend(picture: &NeckPicture, labels: Labels) -> String {
    let has = |is_it: fn(&Mark) -> bool| picture.marks.iter().any(is_it);
    let shows = match labels {
        Labels::Note => "in the marks: notes",
        Labels::Degree => "in the marks: degrees over the chord",
        Labels::Member => "in the marks: degrees of the triad",
        Labels::Finger => "in the marks: fingers, 0 for an open string",
        Labels::Order => "in the marks: the order of playing",
    };
    let signs = [
        (has(|_| true), shows),
        (has(|mark| mark.is_root), "a second line around one: a root"),
        (has(|mark| mark.presence == Presence::Stretched), "underlined: a stretch"),
        (has(|mark| mark.presence == Presence::Hidden), "dots: elsewhere on the neck"),
    ];
    let told: Vec<&str> =
        signs.iter().filter(|(is_there, _)| *is_there).map(|(_, told)| *told).collect();
    told.join(" · ")
}
