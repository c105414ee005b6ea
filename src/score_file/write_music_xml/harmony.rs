//! Chord symbols.

use fretloom_theory::{Chord, ChordSymbol, NoteName};

use super::kind::KindOfChord;
use super::xml::Xml;

/// Writes a chord symbol, `offset` divisions after where the writer stands.
pub(super) fn write(xml: &mut Xml, symbol: &ChordSymbol, offset: u64) {
    xml.element("harmony", &[], |xml| {
        match symbol {
            ChordSymbol::Chord(chord) => chord_symbol(xml, chord),
            ChordSymbol::NoChord => without_root(xml, "none", "N.C."),
            ChordSymbol::Unread(text) => without_root(xml, "other", text),
        }
        if offset > 0 {
            xml.leaf("offset", &offset);
        }
        xml.leaf("staff", &1);
    });
}

fn chord_symbol(xml: &mut Xml, chord: &Chord) {
    let kind = KindOfChord::of(chord);
    xml.element("root", &[], |xml| note(xml, "root", chord.root()));
    xml.leaf_with("kind", &[("text", &text(chord))], kind.name);
    if let Some(bass) = chord.bass() {
        xml.element("bass", &[], |xml| note(xml, "bass", bass));
    }
    for degree in kind.degrees {
        // The text of the kind says it already.
        xml.element("degree", &[("print-object", "no")], |xml| {
            xml.leaf("degree-value", &degree.number);
            xml.leaf("degree-alter", &degree.alter);
            xml.leaf("degree-type", degree.change);
        });
    }
}

/// What stands after the root, in ASCII: `m7b5`.
fn text(chord: &Chord) -> String {
    let symbol = format!("{chord:#}");
    let root = format!("{:#}", chord.root());
    let body = symbol.strip_prefix(&root).unwrap_or(&symbol);
    let bass = chord.bass().map(|bass| format!("/{bass:#}")).unwrap_or_default();
    body.strip_suffix(&bass).unwrap_or(body).to_owned()
}

/// The format wants a root where there is none: one that is not shown.
fn without_root(xml: &mut Xml, kind: &str, text: &str) {
    xml.element("root", &[], |xml| xml.leaf_with("root-step", &[("text", "")], "C"));
    xml.leaf_with("kind", &[("text", text)], kind);
}

fn note(xml: &mut Xml, part: &str, name: NoteName) {
    xml.leaf(&format!("{part}-step"), &NoteName::natural(name.letter()));
    if name.accidental() != 0 {
        xml.leaf(&format!("{part}-alter"), &name.accidental());
    }
}
