//! Music as it is to be set: bars with what is written in them.

use fretloom_fretboard::Neck;
use fretloom_theory::{Bar, ChordSymbol, KeySignature, NamedPitch, Note, Quarters};

use super::accidentals::signs_of_bar;
use super::clef::StaffClef;
use super::set_piece::{Head, SetPiece};
use crate::score_file::notation::{Beam, Clef, NotatedBar, Notation, Piece, Slurs, Struck};
use crate::score_file::{ScoreWriteError, WrittenNote, WrittenScore};

/// Music as it is to be set.
pub(super) struct Music<'a> {
    pub(super) written: &'a WrittenScore,
    pub(super) notes: Vec<(&'a Note, WrittenNote)>,
    pub(super) slurs: Vec<Slurs>,
    pub(super) struck: Vec<Struck>,
    pub(super) bars: Vec<SetBar>,
    pub(super) clef: StaffClef,
    pub(super) neck: Neck,
    /// Is there tablature? Only where every note has a place.
    pub(super) has_tab: bool,
}

/// A bar.
pub(super) struct SetBar {
    pub(super) bar: Bar,
    /// The key that holds in it.
    pub(super) key: KeySignature,
    /// What is new in it, apart from the first bar, where everything is.
    pub(super) new_key: bool,
    pub(super) new_meter: bool,
    /// What begins with it.
    pub(super) section: Option<String>,
    /// The chord symbols that begin in it.
    pub(super) chords: Vec<(Quarters, ChordSymbol)>,
    /// What each voice that sounds plays in it.
    pub(super) voices: Vec<Vec<SetPiece>>,
}

impl<'a> Music<'a> {
    pub(super) fn of(written: &'a WrittenScore) -> Result<Music<'a>, ScoreWriteError> {
        let notation = Notation::of(written)?;
        let notes: Vec<(&Note, WrittenNote)> = written.played().collect();
        let clef = StaffClef::of(Clef::of(&written.tuning));
        let has_tab = notes.iter().all(|(_, beside)| beside.place.is_some());
        let mut music = Music {
            slurs: notation.slurs,
            struck: notation.struck,
            bars: Vec::with_capacity(notation.bars.len()),
            neck: Neck::new(written.tuning.clone()),
            written,
            notes,
            clef,
            has_tab,
        };
        let voices = notation.voices;
        for (index, bar) in notation.bars.into_iter().enumerate() {
            let of_voice = voices.iter().map(|bars| bars.get(index).cloned().unwrap_or_default());
            let bar = music.set_bar(bar, of_voice.collect());
            music.bars.push(bar);
        }
        Ok(music)
    }

    fn set_bar(&self, bar: Bar, voices: Vec<NotatedBar>) -> SetBar {
        let end = bar.from.checked_add(bar.length).unwrap_or(bar.from);
        let within = |at: Quarters| bar.from <= at && at < end;
        let chords = self.written.score.chords.changes().iter();
        let chords = chords.filter(|(at, _)| within(*at)).cloned().collect();
        let sections = self.written.sections.changes().iter();
        let mut sections = sections.filter(|(at, _)| within(*at));
        let key = self.written.score.keys.at(bar.from).copied().unwrap_or(KeySignature::NONE);
        let before = self.bars.last();
        let mut voices: Vec<Vec<SetPiece>> =
            voices.into_iter().map(|voice| self.set_voice(voice)).collect();
        signs_of_bar(&mut voices, key, |note| self.pitch(note));
        let is_silent = |voice: &Vec<SetPiece>| voice.iter().all(|piece| piece.heads.is_empty());
        let first = voices.iter().position(|voice| !is_silent(voice)).unwrap_or(0);
        let mut index = 0;
        voices.retain(|voice| {
            index += 1;
            index == first + 1 || !is_silent(voice)
        });
        SetBar {
            key,
            new_key: before.is_some_and(|before| before.key != key),
            new_meter: before.is_some_and(|before| before.bar.meter != bar.meter),
            section: sections.next().map(|(_, name)| name.clone()),
            chords,
            voices,
            bar,
        }
    }

    fn set_voice(&self, NotatedBar { pieces, beams }: NotatedBar) -> Vec<SetPiece> {
        let beams = beams.into_iter().chain(std::iter::repeat(Vec::new()));
        pieces.into_iter().zip(beams).map(|(piece, beams)| self.set_piece(piece, beams)).collect()
    }

    fn set_piece(&self, piece: Piece, beams: Vec<Beam>) -> SetPiece {
        let struck = piece.struck.and_then(|index| self.struck.get(index));
        let head = |note: &usize| {
            let step = self.clef.step(self.pitch(*note)?);
            Some(Head { note: *note, step, sign: None })
        };
        let notes = struck.map_or(&[][..], |struck| &struck.notes);
        let mut heads: Vec<Head> = notes.iter().filter_map(head).collect();
        heads.sort_by_key(|head| head.step);
        SetPiece {
            beams,
            heads,
            is_tied_to: struck.is_some_and(|struck| struck.from < piece.from),
            is_tied_on: struck.is_some_and(|struck| piece.end() < struck.to),
            piece,
        }
    }

    fn pitch(&self, note: usize) -> Option<NamedPitch> {
        self.notes.get(note).map(|(note, _)| note.pitch())
    }
}
