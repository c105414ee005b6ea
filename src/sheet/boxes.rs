//! Shapes side by side as upright boxes.

use fretloom_fretboard::{Finger, Neck, Place};
use fretloom_theory::{Pitch, SpelledTriad, WhichTriad};

use super::heading::Heading;
use crate::answer::{HeldShape, NamedArpeggio, NamedShape};
use crate::engraving::Answers;
use crate::picture::page::{Face, Figure, Flow, Item, Point, Text, points};
use crate::picture::{BoxLook, BoxNote, Handed, chord_box};
use crate::words::{dashed, inversion};

/// Something in an upright box, with what is said below it.
pub(super) struct Boxed {
    which: WhichTriad,
    notes: Vec<BoxedNote>,
    below: [String; 2],
    shows_fingers: bool,
    is_blank: bool,
}

/// A note with its name, and its finger where one is told.
struct BoxedNote {
    place: Place,
    name: String,
    finger: Option<Finger>,
    is_root: bool,
}

const STRING_GAP_MM: f64 = 5.4;
const NAME_SIZE: f64 = points(9.5);
const BELOW_SIZE: f64 = points(8.0);
/// Between two boxes, and between two rows of them.
const GAP_MM: f64 = 4.0;
const ROW_GAP_MM: f64 = 5.0;

impl Boxed {
    /// A shape of one of the triads of a heading.
    pub(super) fn of_shape(heading: &Heading, named: &NamedShape) -> Boxed {
        let shape = &named.shape;
        let fingers = shape.fingers();
        let notes = shape.places().into_iter().zip(shape.pitches()).enumerate();
        let note = |(index, (place, pitch)): (usize, (Place, Pitch))| {
            let finger = fingers.as_ref().and_then(|fingers| fingers.get(index)).copied();
            box_note(named.triad, place, pitch, finger)
        };
        let words = inversion(shape.inversion(), shape.by_name_only());
        Boxed {
            which: which_of(heading, named.triad),
            notes: notes.map(note).collect(),
            below: [named.triad.to_string(), format!("{words} {}", shape.string_set())],
            shows_fingers: true,
            is_blank: false,
        }
    }

    /// An arpeggio of the triad of a heading.
    pub(super) fn of_arpeggio(heading: &Heading, named: &NamedArpeggio) -> Boxed {
        let arpeggio = &named.arpeggio;
        let fingers = arpeggio.fingers();
        let note = |(index, (place, pitch)): (usize, &(Place, Pitch))| {
            let finger = fingers.as_ref().and_then(|fingers| fingers.get(index)).copied();
            box_note(named.triad, *place, *pitch, finger)
        };
        let mut strings: Vec<_> = arpeggio.notes().iter().map(|(place, _)| place.string).collect();
        strings.dedup();
        let words = inversion(arpeggio.inversion(), arpeggio.by_name_only());
        Boxed {
            which: which_of(heading, named.triad),
            notes: arpeggio.notes().iter().enumerate().map(note).collect(),
            below: [named.triad.to_string(), format!("{words} {}", dashed(strings))],
            shows_fingers: true,
            is_blank: false,
        }
    }

    /// A shape as the hand held it, of one of the triads of a heading.
    pub(super) fn of_held(heading: &Heading, held: &HeldShape) -> Boxed {
        let notes = held.notes.iter();
        let strings = dashed(notes.clone().map(|note| note.place.string));
        let words = held.inversion().map(|(one, by_name_only)| inversion(one, by_name_only));
        Boxed {
            which: which_of(heading, held.triad),
            notes: notes
                .map(|note| box_note(held.triad, note.place, note.pitch, note.finger))
                .collect(),
            below: [held.triad.to_string(), format!("{} {strings}", words.unwrap_or_default())],
            shows_fingers: true,
            is_blank: false,
        }
    }

    /// With or without fingers, and with notes or to be filled in.
    pub(super) fn shown(self, fingers: bool, answers: Answers) -> Boxed {
        Boxed { shows_fingers: fingers, is_blank: answers == Answers::Blank, ..self }
    }

    fn figure(&self, neck: &Neck, handed: Handed) -> Figure {
        let is_blank = self.is_blank;
        let look = BoxLook { which: self.which, handed, string_gap_mm: STRING_GAP_MM, is_blank };
        let note = |note: &BoxedNote| {
            let finger = note.finger.filter(|_| self.shows_fingers);
            let label = finger.map_or_else(|| note.name.clone(), |it| it.number().to_string());
            BoxNote { place: note.place, label, is_root: note.is_root }
        };
        let notes: Vec<BoxNote> = self.notes.iter().map(note).collect();
        let drawn = chord_box(neck, &notes, look);
        let middle = drawn.width_mm / 2.0 + 3.0;
        let (name_at, below_at) = (drawn.height_mm + NAME_SIZE, drawn.height_mm + NAME_SIZE * 2.2);
        let [name, below] = &self.below;
        let size = BELOW_SIZE.min(drawn.width_mm * 1.05 / Face::Plain.width_mm(below, 1.0));
        let name = Text::centred(Point::new(middle, name_at), name, Face::Bold, NAME_SIZE);
        let below = Text::centred(Point::new(middle, below_at), below, Face::Plain, size);
        let mut figure = drawn;
        figure.items.extend([name, below].map(Item::Text));
        figure.height_mm = below_at + 1.0;
        figure
    }
}

/// The second triad of a heading has shapes of its own.
fn which_of(heading: &Heading, triad: SpelledTriad) -> WhichTriad {
    let name = triad.to_string();
    let line = heading.triads.iter().find(|line| line.name == name);
    line.map_or(WhichTriad::First, |line| line.which)
}

fn box_note(triad: SpelledTriad, place: Place, pitch: Pitch, finger: Option<Finger>) -> BoxedNote {
    let member = triad.member(pitch.pitch_class());
    let name = member.map(|(_, note)| note.to_string()).unwrap_or_default();
    BoxedNote { place, name, finger, is_root: member.is_some_and(|(index, _)| index == 0) }
}

/// Puts boxes below what is there, as many in a row as fit.
pub(super) fn put_boxes(flow: &mut Flow, neck: &Neck, boxed: &[Boxed], handed: Handed) {
    let mut row = Figure::default();
    for figure in boxed.iter().map(|boxed| boxed.figure(neck, handed)) {
        if row.width_mm > 0.0 && row.width_mm + GAP_MM + figure.width_mm > flow.width_mm() {
            flow.put(std::mem::take(&mut row), ROW_GAP_MM);
        }
        row = row.beside(figure, GAP_MM);
    }
    if row.width_mm > 0.0 {
        flow.put(row, ROW_GAP_MM);
    }
}

/// Puts the first of these boxes below what is there, to the right of what the row begins with, as many as
/// fit side by side.
pub(super) fn put_row(
    flow: &mut Flow,
    begins: Figure,
    neck: &Neck,
    boxed: &[Boxed],
    handed: Handed,
) {
    let mut row = begins;
    for figure in boxed.iter().map(|boxed| boxed.figure(neck, handed)) {
        if row.width_mm > 0.0 && row.width_mm + GAP_MM + figure.width_mm > flow.width_mm() {
            break;
        }
        row = row.beside(figure, GAP_MM);
    }
    flow.put(row, ROW_GAP_MM);
}
