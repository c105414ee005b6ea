use super::*;
use crate::{Finger, Fret, Hand, HandPosition, Neck, Place, StringNumber, Tuning};
use fretloom_theory::Pitch;

mod bounds;
mod optimal;
mod passages;
mod rules;

fn neck(tuning: &str) -> Neck {
    Neck::new(Tuning::read(tuning).unwrap())
}

fn place(string: u8, fret: u8) -> Place {
    Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
}

/// Notes at these places, pinned there, `seconds` apart.
fn pinned(neck: &Neck, places: &[(u8, u8)], seconds: f64) -> Vec<LineNote> {
    let notes = places.iter().enumerate().map(|(index, (string, fret))| {
        let place = place(*string, *fret);
        let note = LineNote::new(index as f64 * seconds, seconds, neck.pitch_at(place).unwrap());
        note.unwrap().pinned(Pin { string: Some(place.string), fret: Some(place.fret) })
    });
    notes.collect()
}

/// Notes that sound as these do, free to lie anywhere.
fn free(midi: &[u8], seconds: f64) -> Vec<LineNote> {
    let notes = midi.iter().enumerate().map(|(index, midi)| {
        LineNote::new(index as f64 * seconds, seconds, Pitch::from_midi(*midi).unwrap()).unwrap()
    });
    notes.collect()
}

fn best(neck: &Neck, line: &[LineNote]) -> Fingering {
    FingeringQuery::default().best(neck, line).unwrap()
}

fn fingers(fingering: &Fingering) -> Vec<u8> {
    fingering.notes().iter().map(|note| note.finger.number()).collect()
}
