//! MusicXML 4.0, score-partwise, written.
//!
//! One part with a staff of notes and, where every note has a place, tablature below it. The staff has
//! the clef in which the instrument is read, an octave clef for guitars, banjos and basses, so that
//! pitches are as they sound and nothing is transposed. A note that no single value says, or that
//! crosses a bar line, is several tied ones; silences are rests; every bar is full.
//!
//! Fingers, pick strokes and accents stand on the staff of notes; strings and frets, which count from
//! the capo, on the tablature; slurs on both. Swing is a matter of sound: the eighths stay eighths.

mod attributes;
mod divisions;
mod harmony;
mod kind;
mod marks;
mod measure;
mod note;
mod staves;
mod xml;

use fretloom_fretboard::Neck;

use super::notation::{Piece, Voices, of_voice, slurs_of};
use super::write_error::ScoreWriteError;
use super::written_score::WrittenScore;
use divisions::Divisions;
use marks::Mark;
use measure::Measures;
use note::Notes;
use staves::Staves;
use xml::Xml;

const DOCUMENT_TYPE: &str = "score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\" \
                             \"http://www.musicxml.org/dtds/partwise.dtd\"";

impl WrittenScore {
    /// The bytes of a MusicXML file.
    ///
    /// # Errors
    ///
    /// Where there are too many bars, where a note lies below C0, which the format has no number for,
    /// and where notes are so fine that no common unit holds them.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::score_file::{self, Choice, WrittenScore};
    /// use fretloom_fretboard::Tuning;
    /// use fretloom_theory::{Note, Part, Quarters, Score};
    ///
    /// let long = Quarters::new(5, 4).unwrap(); // a quarter tied to a sixteenth
    /// let note = Note::new(Quarters::ONE, long, "B3".parse().unwrap()).unwrap();
    /// let score = Score { parts: vec![Part::new([note])], ..Score::default() };
    /// let written = WrittenScore::of(score, Tuning::read("EADGBE").unwrap());
    /// let read = score_file::read(&written.music_xml().unwrap(), &Choice::default()).unwrap();
    /// assert_eq!(read.score().parts[0].notes()[0].duration(), long);
    /// ```
    pub fn music_xml(&self) -> Result<Vec<u8>, ScoreWriteError> {
        self.check_octaves()?;
        let (bars, voices, marks) = (self.bars()?, Voices::of(self), Mark::all(self));
        // All moments fit into what is counted with, if they have a common unit.
        let ends = self.played().flat_map(|(note, _)| [note.onset(), note.end()]);
        Divisions::of(ends)?;
        let of_voice = |voice: &Vec<usize>| of_voice(&voices, voice, &bars);
        let pieces: Option<Vec<Vec<Vec<Piece>>>> = voices.voices.iter().map(of_voice).collect();
        let pieces = pieces.ok_or(ScoreWriteError::TooFine)?;
        let lengths = pieces.iter().flatten().flatten().map(|piece| piece.length);
        let lengths = lengths.chain(bars.iter().map(|bar| bar.length));
        let divisions = Divisions::of(lengths.chain(marks.iter().map(|mark| mark.at)))?;
        let notes = Notes {
            played: self.played().collect(),
            slurs: slurs_of(self),
            neck: Neck::new(self.tuning.clone()),
            divisions,
            staves: Staves::of(self),
        };
        let measures = Measures {
            written: self,
            bars: &bars,
            notes: &notes,
            struck: &voices.struck,
            voices: &pieces,
            marks: &marks,
        };
        Ok(document(self, &measures))
    }

    fn check_octaves(&self) -> Result<(), ScoreWriteError> {
        let mut pitches = self.played().map(|(note, _)| note.pitch());
        match pitches.find(|pitch| pitch.octave() < 0) {
            Some(pitch) => Err(ScoreWriteError::TooLow(pitch)),
            None => Ok(()),
        }
    }
}

fn document(written: &WrittenScore, measures: &Measures<'_>) -> Vec<u8> {
    let mut xml = Xml::new(DOCUMENT_TYPE);
    xml.element("score-partwise", &[("version", "4.0")], |xml| {
        if let Some(title) = &written.score.title {
            xml.element("work", &[], |xml| xml.leaf("work-title", title));
        }
        xml.element("identification", &[], |xml| {
            xml.element("encoding", &[], |xml| {
                xml.leaf("software", concat!("fretloom ", env!("CARGO_PKG_VERSION")));
            });
        });
        let name = written.part().and_then(|part| part.name()).unwrap_or("Line");
        xml.element("part-list", &[], |xml| {
            xml.element("score-part", &[("id", "P1")], |xml| xml.leaf("part-name", name));
        });
        xml.element("part", &[("id", "P1")], |xml| measures.write(xml));
    });
    xml.into_bytes()
}
