//! What stands over the staff: chord symbols, tempi, names of sections.

use fretloom_fretboard::Tuning;
use fretloom_theory::{ChordSymbol, Quarters, Swing, Tempo};

use super::harmony;
use super::xml::Xml;
use crate::score_file::written_score::WrittenScore;

/// What stands over the staff from a moment on.
#[derive(Clone, Copy)]
pub(super) struct Mark<'a> {
    pub(super) at: Quarters,
    what: What<'a>,
}

#[derive(Clone, Copy)]
enum What<'a> {
    Section(&'a str),
    Tempo(Tempo),
    Swing(Swing),
    /// A capo that holds some of the strings, which no number says.
    Capo(&'a Tuning),
    Chord(&'a ChordSymbol),
}

impl<'a> Mark<'a> {
    /// All of them, in order of time.
    pub(super) fn all(written: &'a WrittenScore) -> Vec<Mark<'a>> {
        let score = &written.score;
        let sections = written.sections.changes().iter();
        let mut marks: Vec<Mark<'a>> =
            sections.map(|(at, name)| Mark { at: *at, what: What::Section(name) }).collect();
        marks
            .extend(score.tempi.changes().map(|(at, tempo)| Mark { at, what: What::Tempo(tempo) }));
        let first = |what| Mark { at: Quarters::ZERO, what };
        if written.swing != Swing::STRAIGHT {
            marks.push(first(What::Swing(written.swing)));
        }
        if written.tuning.capo().strings().is_some() {
            marks.push(first(What::Capo(&written.tuning)));
        }
        let chords = score.chords.changes().iter();
        marks.extend(chords.map(|(at, symbol)| Mark { at: *at, what: What::Chord(symbol) }));
        marks.sort_by_key(|mark| mark.at);
        marks
    }

    /// Writes it, `offset` divisions after where the writer stands.
    pub(super) fn write(&self, xml: &mut Xml, offset: u64) {
        match self.what {
            What::Section(name) => {
                direction(xml, offset, |xml| xml.leaf("rehearsal", name), |_| {});
            }
            What::Tempo(tempo) => write_tempo(xml, offset, tempo),
            What::Swing(swing) => {
                // How eighths are played, which nobody sees.
                xml.element("sound", &[], |xml| write_swing(xml, swing));
            }
            What::Capo(tuning) => {
                direction(xml, offset, |xml| xml.leaf("words", &tuning.capo()), |_| {});
            }
            What::Chord(symbol) => harmony::write(xml, symbol, offset),
        }
    }
}

fn direction(
    xml: &mut Xml,
    offset: u64,
    kind: impl FnOnce(&mut Xml),
    sound: impl FnOnce(&mut Xml),
) {
    xml.element("direction", &[("placement", "above")], |xml| {
        xml.element("direction-type", &[], kind);
        if offset > 0 {
            xml.leaf("offset", &offset);
        }
        xml.leaf("staff", &1);
        sound(xml);
    });
}

fn write_tempo(xml: &mut Xml, offset: u64, tempo: Tempo) {
    let a_minute = tempo.to_string();
    let metronome = |xml: &mut Xml| {
        xml.element("metronome", &[], |xml| {
            xml.leaf("beat-unit", "quarter");
            xml.leaf("per-minute", &a_minute);
        });
    };
    direction(xml, offset, metronome, |xml| xml.empty("sound", &[("tempo", &a_minute)]));
}

fn write_swing(xml: &mut Xml, swing: Swing) {
    let (first, second) = swing.parts();
    xml.element("swing", &[], |xml| {
        xml.leaf("first", &first);
        xml.leaf("second", &second);
        xml.leaf("swing-type", "eighth");
    });
}
