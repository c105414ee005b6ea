//! The document: its title, which part is wanted, and what all parts say together.

use fretloom_theory::{ChordSymbol, Quarters};

use super::part;
use super::reading::{Found, Notes};
use super::tempo_change::TempoChange;
use crate::score_file::element::Element;
use crate::score_file::error::{At, ScoreFileError};
use crate::score_file::limits::LONGEST_NAME;
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
    pub(super) remarks: Vec<String>,
}

/// Reads the chosen part, by its id or counted from 1; else the first one.
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
    /// By id, as the list of parts has them.
    names: Vec<(String, String)>,
    ids: Vec<String>,
    /// The wanted part with its id.
    part: Option<(String, Found)>,
    tempi: Vec<TempoChange>,
    /// Of the first part that has any.
    chords: Vec<(Quarters, ChordSymbol)>,
}

impl Parts<'_> {
    /// Reads the names in the list of parts.
    fn read_names(&mut self, xml: &mut Xml<'_>) -> Result<(), ScoreFileError> {
        while let Some(element) = xml.next_child()? {
            if element.name == "score-part" {
                let name = text_within(xml, "part-name")?;
                let id = element.attribute("id").unwrap_or_default().to_owned();
                self.names.extend(name.map(|name| (id, name)));
            } else {
                xml.skip()?;
            }
        }
        Ok(())
    }

    fn read(&mut self, xml: &mut Xml<'_>, element: &Element) -> Result<(), ScoreFileError> {
        let id = element.attribute("id").unwrap_or_default();
        self.ids.push(id.to_owned());
        let number = self.ids.len().to_string();
        let is_chosen =
            self.chosen.map_or(number == "1", |chosen| chosen == id || chosen == number);
        let is_wanted = is_chosen && self.part.is_none();
        let notes = if is_wanted { Notes::Kept } else { Notes::PassedOver };
        let found = part::read(xml, &mut self.tempi, notes)?;
        if is_wanted {
            self.part = Some((id.to_owned(), found));
        } else if self.chords.is_empty() {
            self.chords = found.chords;
        }
        Ok(())
    }

    fn into_document(self) -> Result<Document, ScoreFileError> {
        let listed = self.listed();
        let Some((id, mut part)) = self.part else {
            let Some(chosen) = self.chosen else {
                return Err(ScoreFileError::whole("the score has no parts", "at least one part"));
            };
            let wrong = format!("there is no part {chosen}");
            return Err(ScoreFileError::new(At::Whole, wrong, format!("a part: {listed}")));
        };
        let mut remarks = part::remarks(&part);
        if self.chosen.is_none() && self.ids.len() > 1 {
            remarks.push(format!("the score has several parts; took the first (--part {listed})"));
        }
        let own = std::mem::take(&mut part.chords);
        let named = self.names.into_iter().find(|(of, _)| *of == id);
        Ok(Document {
            title: self.work_title.or(self.movement_title),
            part,
            part_name: named.map(|(_, name)| name),
            tempi: self.tempi,
            chords: if own.is_empty() { self.chords } else { own },
            remarks,
        })
    }

    /// `1 to 2, or one of P1, P2`; of many ids the first few.
    fn listed(&self) -> String {
        const SHOWN: usize = 8;
        let shown = self.ids.iter().take(SHOWN);
        let ids: Vec<String> = shown.map(|id| id.chars().take(20).collect()).collect();
        let more = if self.ids.len() > SHOWN { " …" } else { "" };
        match self.ids.as_slice() {
            [] => "none is there".to_owned(),
            [_] => format!("1 or {}", ids.join("")),
            _ => format!("1 to {}, or one of {}{more}", self.ids.len(), ids.join(", ")),
        }
    }
}
