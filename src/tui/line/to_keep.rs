//! What is kept of a line: its notes with their places and fingers, and all that it is made of.

use std::sync::Arc;

use fretloom_theory::ChordSymbol;

use super::made::Made;
use super::state::LineScreen;
use crate::answer::LineChords;
use crate::store::{Kept, KeptNote, KeptThing, NewKeeper, Session};
use crate::tui::shared::Shared;

impl LineScreen {
    /// The line as it is played; none where there is none.
    pub(in crate::tui) fn to_keep(&self, shared: &Shared) -> Option<NewKeeper> {
        let made = self.made()?;
        let notes = kept_notes(made);
        if notes.is_empty() {
            return None;
        }
        let mut screen = Session { screen: Some("line".to_owned()), ..Session::default() };
        self.keep(&mut screen);
        let chords = &made.answer.question.chords;
        let typed = (self.chosen.key == 0).then(|| self.chosen.chords.clone());
        let place = self.chosen.place;
        let kept = Kept {
            what: KeptThing::Line(notes),
            chord: Some(typed.unwrap_or_else(|| in_bars(chords))),
            scale: one_of(chords.chords().iter().map(|chord| format!("{:#}", chord.over.scale()))),
            pair: one_of(chords.chords().iter().map(|chord| format!("{:#}", chord.pair))),
            tuning: Some(Arc::new(shared.setup.tuning.clone())),
            view: place.view_word(),
            strings: place.strings,
            screen: screen.to_toml(),
            ..Kept::default()
        };
        Some(NewKeeper { kept, ..NewKeeper::default() })
    }
}

impl LineScreen {
    /// Is the line made of these notes, each at its place?
    pub(in crate::tui) fn plays(&self, notes: &[KeptNote]) -> bool {
        self.made().is_some_and(|made| kept_notes(made) == notes)
    }
}

/// The notes of a line as they are fingered.
fn kept_notes(made: &Made) -> Vec<KeptNote> {
    let places = made.way().map(|way| way.way.notes.as_slice()).unwrap_or_default();
    let notes = made.notes().iter().map(|told| &told.note).zip(places);
    let kept = notes.map(|(note, at)| KeptNote {
        onset: note.onset,
        length: note.duration,
        pitch: note.pitch,
        place: at.place,
        finger: Some(at.finger),
    });
    kept.collect()
}

/// What all of them are, if they are all the same.
fn one_of(mut all: impl Iterator<Item = String>) -> Option<String> {
    let first = all.next()?;
    all.all(|other| other == first).then_some(first)
}

/// The chords bar by bar: `Dm7 | G7 | Cmaj7 | %`.
fn in_bars(chords: &LineChords) -> String {
    let mut bars: Vec<(u64, Vec<String>)> = Vec::new();
    for (from, symbol) in chords.symbols().changes() {
        let Some(at) = chords.bars().at(*from) else { continue };
        let word = match symbol {
            ChordSymbol::Chord(chord) => format!("{chord:#}"),
            ChordSymbol::NoChord | ChordSymbol::Unread(_) => "N.C.".to_owned(),
        };
        let next = bars.last().map_or(0, |(bar, _)| bar + 1);
        if next > at.index
            && let Some((_, words)) = bars.last_mut()
        {
            words.push(word);
            continue;
        }
        bars.extend((next..at.index).map(|bar| (bar, vec!["%".to_owned()])));
        bars.push((at.index, vec![word]));
    }
    bars.iter().map(|(_, words)| words.join(" ")).collect::<Vec<_>>().join(" | ")
}
