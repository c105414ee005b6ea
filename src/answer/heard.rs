//! Answers as they are heard.

use fretloom_fretboard::{Neck, Place};
use fretloom_theory::{ClickBeats, Pitch, Score};

use super::line::{LineAnswer, LinesAnswer};
use crate::score_file::WrittenScore;
use crate::sound::{Performance, PlayStyle, Strike, Struck, struck_in_turn};

impl LinesAnswer {
    /// The line in all its keys, one after another, each in its first way. `None` without a line.
    #[must_use]
    pub fn performance(&self, style: &PlayStyle) -> Option<Performance> {
        let written = self.written(style.swing, ClickBeats::Off)?;
        Some(performed(&written, style))
    }
}

impl LineAnswer {
    /// The line in one of its ways, counted from 0, with the chords beside it; `None` beyond the last
    /// way.
    #[must_use]
    pub fn performance(&self, way: usize, style: &PlayStyle) -> Option<Performance> {
        let written = self.written(self.ways.get(way)?, style.swing, ClickBeats::Off);
        Some(performed(&written, style))
    }
}

/// A score as it is heard: each note on the string where it is played, with all of its course.
#[must_use]
pub fn performed(written: &WrittenScore, style: &PlayStyle) -> Performance {
    let neck = Neck::new(written.tuning.clone());
    let notes = written.score.parts.first().map_or(&[][..], |part| part.notes());
    let beside = written.notes.iter().map(Some).chain(std::iter::repeat(None));
    let struck = notes.iter().zip(beside).map(|(note, beside)| {
        let course = beside.and_then(|beside| beside.place).map(|place| course(&neck, place));
        let alone = || vec![note.pitch().pitch()];
        Struck {
            onset: note.onset(),
            end: note.end(),
            pitches: course.filter(|course| !course.is_empty()).unwrap_or_else(alone),
            accent: beside.is_some_and(|beside| beside.accent),
        }
    });
    let struck: Vec<Struck> = struck.collect();
    Performance::over(&written.drone, &written.score, &struck, style)
}

/// Shapes as they are heard one after another, from the lowest note of each up, at 120.
#[must_use]
pub fn struck_shapes(
    neck: &Neck,
    shapes: &[Vec<Place>],
    strike: Strike,
    style: &PlayStyle,
) -> Performance {
    let shape = |places: &Vec<Place>| {
        let mut courses: Vec<Vec<Pitch>> =
            places.iter().map(|place| course(neck, *place)).collect();
        courses.retain(|course| !course.is_empty());
        // What sounds first of a course is the note of its place.
        courses.sort_by_key(|course| course.first().copied());
        courses
    };
    let shapes: Vec<Vec<Vec<Pitch>>> = shapes.iter().map(shape).collect();
    Performance::new(&Score::default(), &struck_in_turn(&shapes, strike), style)
}

fn course(neck: &Neck, place: Place) -> Vec<Pitch> {
    neck.course_at(place).collect()
}
