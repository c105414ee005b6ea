//! The document: its title, which part is wanted, and what all parts say together.

use std::collections::BTreeMap;
use std::iter;

use fretloom_theory::{ChordSymbol, KeySignature, Quarters, Tempo};

use super::marks::{Marks, settled};
use super::part;
use super::reading::{Found, Notes};
use super::tempo_change::TempoChange;
use super::time::Time;
use super::unfolding::Unfolding;
use crate::score_file::element::Element;
use crate::score_file::error::ScoreFileError;
use crate::score_file::limits::LONGEST_NAME;
use crate::score_file::offer::{Called, Offer, listed, meant};
use crate::score_file::xml::{Piece, Xml};

/// What is taken from a score.
#[derive(Debug)]
pub(super) struct Document {
    pub(super) title: Option<String>,
    /// The wanted part.
    pub(super) part: Found,
    pub(super) part_name: Option<String>,
    /// Of all parts: many programs write them in the first only.
    pub(super) tempi: Vec<TempoChange>,
    /// Of the wanted part; where it has none, of the first that has.
    pub(super) chords: Vec<(Quarters, ChordSymbol)>,
    /// What sends the player elsewhere, in any part.
    pub(super) marks: BTreeMap<u64, Marks>,
    pub(super) remarks: Vec<String>,
}

impl Document {
    /// Puts the measures of the part in the order in which they are heard, with all that stands in
    /// them.
    pub(super) fn unfold(&mut self, order: &[usize]) -> Result<(), ScoreFileError> {
        let Found { measures, notes, bars, keys, end, .. } = &mut self.part;
        let unfolding = Unfolding::new(measures, order);
        *notes = unfolding.notes(notes)?;
        *bars = unfolding.bars(bars);
        if !keys.is_empty() {
            keys.insert(0, (Quarters::ZERO, KeySignature::NONE));
        }
        *keys = unfolding.changes(keys)?;
        *end = unfolding.end();
        self.chords = unfolding.changes(&self.chords)?;
        let written = self.tempi.iter().map(|change| (change.from.quarters(), change.tempo));
        // What is not written at the beginning holds there again when one comes back.
        let tempi: Vec<_> = iter::once((Quarters::ZERO, Tempo::USUAL)).chain(written).collect();
        let tempi = unfolding.changes(&tempi)?.into_iter();
        self.tempi = tempi.map(|(at, tempo)| TempoChange { from: Time::at(at), tempo }).collect();
        Ok(())
    }
}

/// Reads the chosen part, by its id, its number or its name; else the first one with notes.
pub(super) fn read(text: &str, chosen: Option<&str>) -> Result<Document, ScoreFileError> {
    let mut xml = Xml::new(text);
    enter(&mut xml)?;
    let mut parts = Parts { chosen, ..Parts::default() };
    while let Some(element) = xml.next_child()? {
        match element.name.as_str() {
            "part" => parts.read(&mut xml, &element)?,
            "part-list" => parts.read_names(&mut xml)?,
            "work" => parts.work_title = text_within(&mut xml, "work-title")?,
            "movement-title" => parts.movement_title = text_of(&mut xml, element)?,
            _ => xml.skip()?,
        }
    }
    finish(&mut xml)?;
    parts.into_document()
}

/// The text of an element that has just been opened, cut where it is long; `None` for none.
fn text_of(xml: &mut Xml<'_>, opened: Element) -> Result<Option<String>, ScoreFileError> {
    let element = xml.whole(opened)?;
    let text: String = element.text.trim().chars().take(LONGEST_NAME).collect();
    Ok(Some(text).filter(|text| !text.is_empty()))
}

/// The text of the last child of that name in an element that has just been opened.
fn text_within(xml: &mut Xml<'_>, name: &str) -> Result<Option<String>, ScoreFileError> {
    let mut text = None;
    while let Some(element) = xml.next_child()? {
        if element.name == name {
            text = text_of(xml, element)?;
        } else {
            xml.skip()?;
        }
    }
    Ok(text)
}

/// Opens the score, whatever stands before it.
fn enter(xml: &mut Xml<'_>) -> Result<(), ScoreFileError> {
    const EXPECTED: &str = "MusicXML: an element score-partwise";
    loop {
        match xml.next()? {
            Piece::Open(root) if root.name == "score-partwise" => return Ok(()),
            Piece::Open(root) if root.name == "score-timewise" => {
                let expected = "score-partwise, as nearly every program writes it";
                return Err(xml.found(root.offset, &root.name, expected));
            }
            Piece::Open(root) => return Err(xml.found(root.offset, &root.name, EXPECTED)),
            Piece::Text(_) => {}
            Piece::Close | Piece::End => {
                return Err(ScoreFileError::whole("it holds no element", EXPECTED));
            }
        }
    }
}

/// Reads to the end of the file.
fn finish(xml: &mut Xml<'_>) -> Result<(), ScoreFileError> {
    loop {
        match xml.next()? {
            Piece::End => return Ok(()),
            Piece::Open(element) => {
                return Err(xml.found(element.offset, &element.name, "nothing after the score"));
            }
            Piece::Text(_) | Piece::Close => {}
        }
    }
}

/// The parts so far.
#[derive(Default)]
struct Parts<'a> {
    chosen: Option<&'a str>,
    work_title: Option<String>,
    movement_title: Option<String>,
    /// Those in the list of parts, in its order: id and name.
    names: Vec<(String, Option<String>)>,
    /// Those that have been read.
    offers: Vec<Offer>,
    /// The wanted part with its number.
    part: Option<(usize, Found)>,
    tempi: Vec<TempoChange>,
    /// Of the first part that has any.
    chords: Vec<(Quarters, ChordSymbol)>,
    marks: BTreeMap<u64, Marks>,
}

impl Parts<'_> {
    /// Reads the names in the list of parts.
    fn read_names(&mut self, xml: &mut Xml<'_>) -> Result<(), ScoreFileError> {
        while let Some(element) = xml.next_child()? {
            if element.name == "score-part" {
                let name = text_within(xml, "part-name")?;
                let id = element.attribute("id").unwrap_or_default();
                self.names.push((cut(id), name));
            } else {
                xml.skip()?;
            }
        }
        Ok(())
    }

    fn read(&mut self, xml: &mut Xml<'_>, element: &Element) -> Result<(), ScoreFileError> {
        let id = element.attribute("id").filter(|id| !id.is_empty()).map(cut);
        let number = self.offers.len() + 1;
        let named = self.names.iter().find(|(of, _)| Some(of) == id.as_ref());
        let name = named.and_then(|(_, name)| name.clone());
        let is_wanted = self.is_wanted(number, id.as_deref())?;
        let notes = if is_wanted { Notes::Kept } else { Notes::Counted };
        let mut found = part::read(xml, &mut self.tempi, notes)?;
        self.offers.push(Offer { number, id, name, tally: part::tally(&found) });
        for (measure, marks) in std::mem::take(&mut found.marks) {
            self.marks.entry(measure).or_default().merge(marks);
        }
        if self.chords.is_empty() {
            self.chords.clone_from(&found.chords);
        }
        if is_wanted {
            self.part = Some((number, found));
        }
        Ok(())
    }

    /// Is this the part that is wanted, as far as can be told?
    fn is_wanted(&self, number: usize, id: Option<&str>) -> Result<bool, ScoreFileError> {
        let Some(chosen) = self.chosen else {
            return Ok(self.part.as_ref().is_none_or(|(_, found)| found.notes.is_empty()));
        };
        if self.part.is_some() {
            return Ok(false);
        }
        let listed = self.names.iter().zip(1..).map(|((id, name), number)| Called {
            number,
            id: Some(id),
            name: name.as_deref(),
        });
        match *meant(chosen, &listed.collect::<Vec<_>>()) {
            // A score may have parts that its list does not.
            [] => Ok(id == Some(chosen) || number.to_string() == chosen),
            [meant] => Ok(self.names.get(meant - 1).map(|(id, _)| id.as_str()) == id),
            [_, _, ..] => Ok(false),
        }
    }

    fn into_document(self) -> Result<Document, ScoreFileError> {
        let Some((number, mut part)) = self.part else { return Err(self.none_meant()) };
        let mut remarks = part::remarks(&part);
        if self.chosen.is_none() && self.offers.len() > 1 {
            let listed = listed(&self.offers);
            let took = if number == 1 { "the first".to_owned() } else { format!("part {number}") };
            remarks.push(format!(
                "the score has several parts; took {took} (--part chooses: {listed})"
            ));
        }
        let own = std::mem::take(&mut part.chords);
        Ok(Document {
            title: self.work_title.or(self.movement_title),
            part,
            part_name: self.offers.into_iter().nth(number - 1).and_then(|offer| offer.name),
            tempi: self.tempi,
            chords: if own.is_empty() { self.chords } else { own },
            marks: settled(self.marks),
            remarks,
        })
    }

    /// Why no part is the one that was chosen.
    fn none_meant(&self) -> ScoreFileError {
        let Some(chosen) = self.chosen else {
            return ScoreFileError::whole("the score has no parts", "at least one part");
        };
        let called: Vec<_> = self.offers.iter().map(Offer::called).collect();
        let (wrong, expected) = match meant(chosen, &called).len() {
            0 => (format!("there is no part {chosen}"), "the number or the name of one"),
            _ => (format!("several parts are called {chosen}"), "the number of one"),
        };
        let listed = listed(&self.offers);
        ScoreFileError::whole(wrong, format!("{expected}: {listed}"))
    }
}

/// A text that may be long.
fn cut(text: &str) -> String {
    text.chars().take(LONGEST_NAME).collect()
}
