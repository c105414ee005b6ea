//! Notes, chords and rests.

use fretloom_fretboard::Neck;
use fretloom_theory::{NamedPitch, Note, NoteName, Slur, Stroke};

use super::divisions::Divisions;
use super::staves::{Staff, Staves};
use super::xml::Xml;
use crate::score_file::notation::{Accidentals, Beam, Piece, Slurs, Struck};
use crate::score_file::written_score::WrittenNote;

/// What all notes of a score are written with.
pub(super) struct Notes<'a> {
    pub(super) played: Vec<(&'a Note, WrittenNote)>,
    pub(super) slurs: Vec<Slurs>,
    pub(super) neck: Neck,
    pub(super) divisions: Divisions,
    pub(super) staves: Staves,
}

/// Where a piece is written.
#[derive(Clone, Copy)]
pub(super) struct Spot<'a> {
    pub(super) staff: Staff,
    pub(super) voice: usize,
    pub(super) beams: &'a [Beam],
}

impl Notes<'_> {
    pub(super) fn rest(&self, xml: &mut Xml, piece: &Piece, spot: Spot<'_>) {
        xml.element("note", &[], |xml| {
            let is_whole_bar = piece.value.is_none() && piece.tuplet.is_none();
            xml.empty("rest", if is_whole_bar { &[("measure", "yes")] } else { &[] });
            xml.leaf("duration", &self.divisions.count(piece.length));
            xml.leaf("voice", &spot.voice);
            self.value(xml, piece, None);
            self.staff(xml, spot.staff);
            if is_edge(piece) {
                xml.element("notations", &[], |xml| tuplet(xml, piece, spot.staff));
            }
        });
    }

    pub(super) fn chord(
        &self,
        xml: &mut Xml,
        piece: &Piece,
        struck: &Struck,
        spot: Spot<'_>,
        accidentals: &mut Accidentals,
    ) {
        for (order, index) in struck.notes.iter().enumerate() {
            let Some((note, beside)) = self.played.get(*index) else { continue };
            let tie = Tie { stops: struck.from < piece.from, starts: piece.end() < struck.to };
            let slurs = self.slurs.get(*index).copied().unwrap_or_default();
            let sign = accidentals.sign(note.pitch()).filter(|_| !tie.stops).map(word_of);
            xml.element("note", &[], |xml| {
                if order > 0 {
                    xml.empty("chord", &[]);
                }
                pitch(xml, note.pitch());
                xml.leaf("duration", &self.divisions.count(piece.length));
                tie.write(xml, "tie");
                xml.leaf("voice", &spot.voice);
                self.value(xml, piece, sign.filter(|_| spot.staff == Staff::Notes));
                self.staff(xml, spot.staff);
                if order == 0 {
                    beams(xml, spot.beams);
                }
                let first = if order == 0 { Some(piece) } else { None };
                self.notations(xml, first, tie, slurs, beside, spot.staff);
            });
        }
    }

    /// Type, dot, accidental and tuplet.
    fn value(&self, xml: &mut Xml, piece: &Piece, sign: Option<&str>) {
        if let Some(value) = piece.value {
            xml.leaf("type", value.name());
            if value.is_dotted() {
                xml.empty("dot", &[]);
            }
        }
        if let Some(sign) = sign {
            xml.leaf("accidental", sign);
        }
        if let Some(place) = piece.tuplet {
            xml.element("time-modification", &[], |xml| {
                xml.leaf("actual-notes", &place.tuplet.actual);
                xml.leaf("normal-notes", &place.tuplet.normal);
                if let Some(unit) = place.tuplet.unit {
                    xml.leaf("normal-type", unit.name());
                    if unit.is_dotted() {
                        xml.empty("normal-dot", &[]);
                    }
                }
            });
        }
    }

    fn staff(&self, xml: &mut Xml, staff: Staff) {
        if self.staves == Staves::NotesAndTab {
            xml.leaf("staff", &staff.number());
        }
    }

    fn notations(
        &self,
        xml: &mut Xml,
        first: Option<&Piece>,
        tie: Tie,
        slurs: Slurs,
        beside: &WrittenNote,
        staff: Staff,
    ) {
        // What is said of the attack is said once.
        let (slurs, beside) = match (tie.stops, staff) {
            (true, Staff::Notes) => (Slurs::default(), WrittenNote::default()),
            (true, Staff::Tab) => (Slurs::default(), WrittenNote { accent: false, ..*beside }),
            (false, _) => (slurs, *beside),
        };
        let first = first.filter(|piece| is_edge(piece));
        let is_technical = is_technical(&beside, staff);
        let is_slurred = slurs != Slurs::default();
        let is_marked = is_technical || is_slurred || beside.accent || first.is_some();
        if !is_marked && !tie.stops && !tie.starts {
            return;
        }
        xml.element("notations", &[], |xml| {
            tie.write(xml, "tied");
            slur(xml, slurs, staff);
            first.into_iter().for_each(|piece| tuplet(xml, piece, staff));
            if is_technical {
                xml.element("technical", &[], |xml| match staff {
                    Staff::Notes => by_hand(xml, &beside),
                    Staff::Tab => self.place(xml, &beside, slurs),
                });
            }
            if beside.accent {
                xml.element("articulations", &[], |xml| xml.empty("accent", &[]));
            }
        });
    }

    /// String and fret, and how the string is sounded without the pick.
    fn place(&self, xml: &mut Xml, beside: &WrittenNote, slurs: Slurs) {
        if let Some(slur) = slurs.to {
            xml.leaf_with(name_of(slur), &[("number", "1"), ("type", "stop")], "");
        }
        if let Some(slur) = slurs.from {
            let letter = slur.letter().to_ascii_uppercase();
            xml.leaf_with(name_of(slur), &[("number", "1"), ("type", "start")], &letter);
        }
        if let Some(place) = beside.place {
            xml.leaf("string", &place.string.number());
            xml.leaf("fret", &self.neck.tab_number(place).number());
        }
    }
}

/// Whether a piece is tied to the one before and to the one after.
#[derive(Clone, Copy)]
struct Tie {
    stops: bool,
    starts: bool,
}

impl Tie {
    /// As `tie`, which sounds, or `tied`, which is seen.
    fn write(self, xml: &mut Xml, name: &str) {
        let ways = [(self.stops, "stop"), (self.starts, "start")];
        ways.iter().filter(|(is_tied, _)| *is_tied).for_each(|(_, way)| {
            xml.empty(name, &[("type", way)]);
        });
    }
}

fn pitch(xml: &mut Xml, pitch: NamedPitch) {
    let name = pitch.name();
    xml.element("pitch", &[], |xml| {
        xml.leaf("step", &NoteName::natural(name.letter()));
        if name.accidental() != 0 {
            xml.leaf("alter", &name.accidental());
        }
        xml.leaf("octave", &pitch.octave());
    });
}

fn beams(xml: &mut Xml, beams: &[Beam]) {
    for (beam, number) in beams.iter().zip(1..) {
        let number: i32 = number;
        xml.leaf_with("beam", &[("number", &number.to_string())], beam.word());
    }
}

/// Each staff counts its own slurs, which would else be taken for one another.
fn slur(xml: &mut Xml, slurs: Slurs, staff: Staff) {
    let number = staff.number().to_string();
    if slurs.to.is_some() {
        xml.empty("slur", &[("number", &number), ("type", "stop")]);
    }
    if slurs.from.is_some() {
        xml.empty("slur", &[("number", &number), ("type", "start")]);
    }
}

fn tuplet(xml: &mut Xml, piece: &Piece, staff: Staff) {
    let Some(place) = piece.tuplet else { return };
    let number = staff.number().to_string();
    if place.is_first {
        let bracket = ("bracket", "yes");
        xml.empty("tuplet", &[("number", &number), ("type", "start"), bracket]);
    }
    if place.is_last {
        xml.empty("tuplet", &[("number", &number), ("type", "stop")]);
    }
}

/// Does a tuplet begin or end with it?
fn is_edge(piece: &Piece) -> bool {
    piece.tuplet.is_some_and(|place| place.is_first || place.is_last)
}

/// Is there anything to say of the hands?
fn is_technical(beside: &WrittenNote, staff: Staff) -> bool {
    match staff {
        Staff::Notes => beside.stroke.is_some() || beside.finger.is_some(),
        Staff::Tab => beside.place.is_some(),
    }
}

/// Finger and stroke.
fn by_hand(xml: &mut Xml, beside: &WrittenNote) {
    match beside.stroke {
        Some(Stroke::Down) => xml.empty("down-bow", &[]),
        Some(Stroke::Up) => xml.empty("up-bow", &[]),
        None => {}
    }
    if let Some(finger) = beside.finger {
        xml.leaf("fingering", &finger.number());
    }
}

/// What an accidental is called.
const fn word_of(semitones: i8) -> &'static str {
    match semitones {
        ..=-2 => "flat-flat",
        -1 => "flat",
        0 => "natural",
        1 => "sharp",
        2.. => "double-sharp",
    }
}

const fn name_of(slur: Slur) -> &'static str {
    match slur {
        Slur::HammerOn => "hammer-on",
        Slur::PullOff => "pull-off",
    }
}
