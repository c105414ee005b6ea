//! Shapes, arpeggios and ladders on pages.

use fretloom_fretboard::{Neck, Place};
use fretloom_theory::{Pitch, WhichTriad};

use super::boxes::{Boxed, put_boxes};
use super::care;
use super::heading::Heading;
use crate::answer::{ArpeggiosAnswer, ClimbedStrings, LadderAnswer, NamedShape, ShapesAnswer};
use crate::picture::page::{Pages, Paper};
use crate::picture::{Handed, Mark, MarkRole, NeckPicture, NeckSize};

/// On which paper, and for which hand.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct PageLook {
    /// The paper.
    pub paper: Paper,
    /// The hand that frets.
    pub handed: Handed,
}

/// The shapes of a triad, each in a box with its fingers.
#[must_use]
pub fn shapes(answer: &ShapesAnswer, neck: &Neck, look: PageLook) -> Pages {
    let heading = Heading::of_triads([answer.triad], &answer.tuning);
    let boxed = answer.shapes.iter().map(|shape| Boxed::of_shape(&heading, shape));
    in_boxes(&heading, neck, &boxed.collect::<Vec<_>>(), look)
}

/// The arpeggios of a triad, each in a box with its fingers.
#[must_use]
pub fn arpeggios(answer: &ArpeggiosAnswer, neck: &Neck, look: PageLook) -> Pages {
    let heading = Heading::of_triads([answer.triad], &answer.tuning);
    let boxed = answer.arpeggios.iter().map(|named| Boxed::of_arpeggio(&heading, named));
    in_boxes(&heading, neck, &boxed.collect::<Vec<_>>(), look)
}

fn in_boxes(heading: &Heading, neck: &Neck, boxed: &[Boxed], look: PageLook) -> Pages {
    let mut flow = heading.begin(look.paper);
    put_boxes(&mut flow, neck, boxed, look.handed);
    care::put(&mut flow);
    flow.pages()
}

/// The ladder of a pair: its notes on the neck, and each rung in a box, going up.
#[must_use]
pub fn ladder(answer: &LadderAnswer, neck: &Neck, look: PageLook) -> Pages {
    let heading = Heading::of_triads(answer.pair.names(), &answer.tuning);
    let mut flow = heading.begin(look.paper);
    let size = NeckSize { width_mm: flow.width_mm(), string_gap_mm: 6.5 };
    flow.put(ladder_neck(answer, neck).for_hand(look.handed).figure(size), 6.0);
    let boxed = answer.rungs.iter().map(|rung| Boxed::of_shape(&heading, rung));
    put_boxes(&mut flow, neck, &boxed.collect::<Vec<_>>(), look.handed);
    care::put(&mut flow);
    flow.pages()
}

/// The neck with all notes of a ladder.
pub(super) fn ladder_neck(answer: &LadderAnswer, neck: &Neck) -> NeckPicture {
    let mut marks: Vec<Mark> = Vec::new();
    for rung in &answer.rungs {
        for (place, pitch) in rung.shape.places().into_iter().zip(rung.shape.pitches()) {
            if marks.iter().all(|mark| mark.place != place) {
                marks.extend(mark(answer, rung, place, pitch));
            }
        }
    }
    let picture = NeckPicture::new(neck, marks);
    match answer.strings {
        ClimbedStrings::One(set) => picture.locked_to(set),
        ClimbedStrings::Across(_) => picture,
    }
}

fn mark(answer: &LadderAnswer, rung: &NamedShape, place: Place, pitch: Pitch) -> Option<Mark> {
    use WhichTriad::{First, Second};
    let (index, note) = rung.triad.member(pitch.pitch_class())?;
    let [first, _] = answer.pair.names();
    let which = if rung.triad == first { First } else { Second };
    let mark = Mark::new(place, MarkRole::Triad(which), note.to_string());
    Some(Mark { is_root: index == 0, ..mark })
}
