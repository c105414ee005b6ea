//! The score: which part is wanted, and the tempi of all of them.

use super::element::Element;
use super::part::Part;
use super::xml::{Piece, Xml};
use crate::line_file::tempo::TempoChange;
use crate::line_file::{At, LineError};

/// What is taken from a score.
#[derive(Debug)]
pub(super) struct Score {
    pub(super) part: Part,
    /// Of all parts: many programs write them in the first only.
    pub(super) tempi: Vec<TempoChange>,
    pub(super) remarks: Vec<String>,
}

/// Reads the chosen part, by its id or counted from 1; else the first one.
pub(super) fn read(text: &str, chosen: Option<&str>) -> Result<Score, LineError> {
    let mut xml = Xml::new(text);
    enter(&mut xml)?;
    let mut parts = Parts { chosen, ids: Vec::new(), part: None, tempi: Vec::new() };
    while let Some(element) = xml.next_child()? {
        if element.name == "part" { parts.read(&mut xml, &element)? } else { xml.skip()? }
    }
    finish(&mut xml)?;
    parts.into_score()
}

/// Opens the score, whatever stands before it.
fn enter(xml: &mut Xml<'_>) -> Result<(), LineError> {
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
                return Err(LineError::whole("it holds no element", EXPECTED));
            }
        }
    }
}

/// Reads to the end of the file.
fn finish(xml: &mut Xml<'_>) -> Result<(), LineError> {
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
struct Parts<'a> {
    chosen: Option<&'a str>,
    ids: Vec<String>,
    part: Option<Part>,
    tempi: Vec<TempoChange>,
}

impl Parts<'_> {
    fn read(&mut self, xml: &mut Xml<'_>, element: &Element) -> Result<(), LineError> {
        let id = element.attribute("id").unwrap_or_default();
        self.ids.push(id.to_owned());
        let number = self.ids.len().to_string();
        let is_chosen =
            self.chosen.map_or(number == "1", |chosen| chosen == id || chosen == number);
        if is_chosen && self.part.is_none() {
            self.part = Some(Part::read(xml, &mut self.tempi)?);
            return Ok(());
        }
        Part::read_tempi(xml, &mut self.tempi)
    }

    fn into_score(self) -> Result<Score, LineError> {
        let listed = self.listed();
        let Some(part) = self.part else {
            let Some(chosen) = self.chosen else {
                return Err(LineError::whole("the score has no parts", "at least one part"));
            };
            let wrong = format!("there is no part {chosen}");
            return Err(LineError::new(At::Whole, wrong, format!("a part: {listed}")));
        };
        let mut remarks = part.remarks();
        if self.chosen.is_none() && self.ids.len() > 1 {
            remarks.push(format!("the score has several parts; took the first (--part {listed})"));
        }
        Ok(Score { part, tempi: self.tempi, remarks })
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
