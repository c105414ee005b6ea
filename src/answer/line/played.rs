//! A way to play a line.

use fretloom_fretboard::{Alternatives, Fingering, LineNote, Neck, Pin};
use fretloom_theory::{PhraseNote, Quarters, Slur, Stroke, TempoMap};

use super::ground::LineGround;
use super::note::ToldNote;
use super::question::{LineQuestion, Slurring};
use super::slurs::into_the_beat;
use crate::answer::finger::WayAnswer;
use crate::answer::refusal::Refusal;

/// A way to play a line.
#[derive(Clone, PartialEq, Debug)]
pub struct LineWay {
    /// Places and fingers.
    pub way: WayAnswer,
    /// Which way the pick goes; `None` for a note that is slurred to.
    pub strokes: Vec<Option<Stroke>>,
    /// How each note is slurred to, if it is.
    pub slurs: Vec<Option<Slur>>,
}

/// Notes nearer to one another than this sound together for who puts them on a neck. A line is
/// slowed down for that, since each of its notes is played by itself.
const LEAST_GAP_S: f64 = 0.04;

impl LineWay {
    /// The ways to play notes, the best first; `pins` settle places beyond what the area settles.
    pub(super) fn all(
        neck: &Neck,
        question: &LineQuestion,
        ground: &LineGround,
        notes: &[ToldNote],
        pins: &[Pin],
    ) -> Result<Vec<LineWay>, Refusal> {
        let (query, line) = (ground.fingering(), line_notes(question, ground, notes, pins));
        let found = query.alternatives(neck, &line, question.ways.max(1));
        let found = found.map_err(|error| Refusal::Fingering {
            reason: format!("{error}; expected more strings or frets, or another view"),
        })?;
        let Alternatives { fingerings, .. } = found;
        let way = |fingering: Fingering| {
            let way = WayAnswer::new(fingering, neck, query.hand(), &line);
            LineWay::of(question, notes, way)
        };
        Ok(fingerings.into_iter().map(way).collect())
    }

    /// The way to play notes most of which are settled where they were before; `None` where no hand
    /// can.
    pub(super) fn as_before(
        neck: &Neck,
        question: &LineQuestion,
        ground: &LineGround,
        notes: &[ToldNote],
        pins: &[Pin],
    ) -> Option<LineWay> {
        let (query, line) = (ground.fingering(), line_notes(question, ground, notes, pins));
        let fingering = query.best(neck, &line).ok()?.as_before();
        let way = WayAnswer::new(fingering, neck, query.hand(), &line);
        Some(LineWay::of(question, notes, way))
    }

    pub(super) fn of(question: &LineQuestion, notes: &[ToldNote], way: WayAnswer) -> LineWay {
        let bars = question.chords.bars();
        let slurs = match question.slurring {
            Slurring::Nothing => vec![None; notes.len()],
            Slurring::IntoTheBeat => into_the_beat(bars, notes, &way.notes),
        };
        let places = notes.iter().zip(&way.notes);
        let picked: Vec<_> = places.map(|(told, at)| (told.note.onset, at.place.string)).collect();
        let strokes = question.picking.strokes(bars, &picked);
        let strokes =
            strokes.into_iter().zip(&slurs).map(|(stroke, slur)| slur.is_none().then_some(stroke));
        LineWay { strokes: strokes.collect(), slurs, way }
    }
}

fn line_notes(
    question: &LineQuestion,
    ground: &LineGround,
    notes: &[ToldNote],
    pins: &[Pin],
) -> Vec<LineNote> {
    let tempo = TempoMap::steady(question.tempo);
    let slower = slower(notes.iter().map(|told| &told.note), &tempo);
    let seconds = |moment: Quarters| tempo.seconds_at(moment) * slower;
    let of_note = |(index, told): (usize, &ToldNote)| {
        let onset_s = seconds(told.note.onset);
        let pin = pins.get(index).copied().unwrap_or_default();
        let note = LineNote::new(onset_s, seconds(told.note.end()) - onset_s, told.note.pitch)?;
        Some(ground.within(note.pinned(pin), &told.note))
    };
    notes.iter().enumerate().filter_map(of_note).collect()
}

/// How many times slower the notes are to come, so that none of them seem to sound together.
fn slower<'a>(notes: impl Iterator<Item = &'a PhraseNote>, tempo: &TempoMap) -> f64 {
    let onsets: Vec<f64> = notes.map(|note| tempo.seconds_at(note.onset)).collect();
    let gaps = onsets.windows(2).map(|two| two[1] - two[0]).filter(|gap| *gap > 0.0);
    let least = gaps.fold(f64::INFINITY, f64::min);
    if least < LEAST_GAP_S { LEAST_GAP_S / least } else { 1.0 }
}
