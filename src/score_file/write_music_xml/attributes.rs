//! What holds from a bar on: key, meter, clefs, strings.

use fretloom_fretboard::Tuning;
use fretloom_theory::{KeySignature, Meter, NamedPitch, NoteName};

use super::staves::Staves;
use super::xml::Xml;
use crate::score_file::notation::Clef;

/// What changes at a bar.
#[derive(Default)]
pub(super) struct Attributes {
    pub(super) key: Option<KeySignature>,
    pub(super) meter: Option<Meter>,
}

/// Writes what holds from the first bar on.
pub(super) fn first(
    xml: &mut Xml,
    changes: &Attributes,
    divisions: u32,
    staves: Staves,
    tuning: &Tuning,
) {
    xml.element("attributes", &[], |xml| {
        xml.leaf("divisions", &divisions);
        key_and_meter(xml, changes);
        let clef = Clef::of(tuning);
        match staves {
            Staves::Notes => write_clef(xml, &[], clef),
            Staves::NotesAndTab => {
                xml.leaf("staves", &2);
                write_clef(xml, &[("number", "1")], clef);
                let tab = Clef { sign: "TAB", line: 5, octaves: 0 };
                write_clef(xml, &[("number", "2")], tab);
                strings(xml, tuning);
            }
        }
    });
}

/// Writes what changes at a later bar.
pub(super) fn later(xml: &mut Xml, changes: &Attributes) {
    if changes.key.is_some() || changes.meter.is_some() {
        xml.element("attributes", &[], |xml| key_and_meter(xml, changes));
    }
}

fn key_and_meter(xml: &mut Xml, changes: &Attributes) {
    if let Some(key) = changes.key {
        let is_minor = KeySignature::minor(key.sharps()) == Some(key);
        xml.element("key", &[], |xml| {
            xml.leaf("fifths", &key.sharps());
            xml.leaf("mode", if is_minor { "minor" } else { "major" });
        });
    }
    if let Some(meter) = changes.meter {
        xml.element("time", &[], |xml| {
            xml.leaf("beats", &meter.units());
            xml.leaf("beat-type", &meter.kind());
        });
    }
}

fn write_clef(xml: &mut Xml, attributes: super::xml::Attributes<'_>, clef: Clef) {
    xml.element("clef", attributes, |xml| {
        xml.leaf("sign", clef.sign);
        xml.leaf("line", &clef.line);
        if clef.octaves != 0 {
            xml.leaf("clef-octave-change", &clef.octaves);
        }
    });
}

/// The strings of the tablature, the highest number on the lowest line. Frets count from a capo that
/// lies on all strings; where it holds some of them, each is given as it sounds.
fn strings(xml: &mut Xml, tuning: &Tuning) {
    let capo = tuning.capo();
    let is_full = !capo.is_none() && tuning.strings().all(|(_, string)| string.is_behind_capo());
    xml.element("staff-details", &[("number", "2")], |xml| {
        xml.leaf("staff-lines", &tuning.string_count());
        for ((_, string), line) in tuning.strings().zip(1..) {
            let sounding = || NamedPitch::everyday(string.pitch());
            let open = if is_full || capo.is_none() { string.note() } else { sounding() };
            staff_tuning(xml, line, open);
        }
        if is_full {
            xml.leaf("capo", &capo.fret().number());
        }
    });
}

fn staff_tuning(xml: &mut Xml, line: u32, open: NamedPitch) {
    let name = open.name();
    xml.element("staff-tuning", &[("line", &line.to_string())], |xml| {
        xml.leaf("tuning-step", &NoteName::natural(name.letter()));
        if name.accidental() != 0 {
            xml.leaf("tuning-alter", &name.accidental());
        }
        xml.leaf("tuning-octave", &open.octave());
    });
}
