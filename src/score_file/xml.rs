//! XML piece by piece, within the limits.

use quick_xml::Reader;
use quick_xml::events::{BytesRef, BytesStart, Event};

use super::element::Element;
use super::error::ScoreFileError;
use super::limits::DEEPEST_NESTING;
use super::locator::Locator;

/// How many elements a note or the like may hold; real ones hold some twenty.
const MOST_ELEMENTS: usize = 2_000;

/// How many attributes of an element are kept; real ones have some ten, and those that matter stand
/// alone or nearly so.
const MOST_ATTRIBUTES: usize = 100;

/// How long the text of an element that is read may be; longer text is cut.
const LONGEST_TEXT: usize = 1_000;

/// A piece of XML that matters here.
pub(super) enum Piece {
    /// A tag opens; nothing of its content has been read.
    Open(Element),
    /// Text.
    Text(String),
    /// The innermost open tag closes.
    Close,
    /// The file ends, and every tag is closed.
    End,
}

/// Reads XML piece by piece.
pub(super) struct Xml<'a> {
    reader: Reader<&'a [u8]>,
    locator: Locator<'a>,
    depth: usize,
}

impl<'a> Xml<'a> {
    pub(super) fn new(text: &'a str) -> Xml<'a> {
        let mut reader = Reader::from_str(text);
        reader.config_mut().expand_empty_elements = true;
        Xml { reader, locator: Locator::new(text), depth: 0 }
    }

    /// An error at a byte offset.
    pub(super) fn fail(&mut self, offset: usize, wrong: String, expected: &str) -> ScoreFileError {
        ScoreFileError::new(self.locator.at(offset), wrong, expected.to_owned())
    }

    /// The error that a text at an offset is not what was expected.
    pub(super) fn found(&mut self, offset: usize, text: &str, expected: &str) -> ScoreFileError {
        ScoreFileError::found(self.locator.at(offset), text, expected.to_owned())
    }

    /// A finite number.
    pub(super) fn number(
        &mut self,
        text: &str,
        offset: usize,
        expected: &str,
    ) -> Result<f64, ScoreFileError> {
        let number = text.trim().parse().ok().filter(|number: &f64| number.is_finite());
        number.ok_or_else(|| self.found(offset, text, expected))
    }

    /// The text of an element as a finite number.
    pub(super) fn number_in(
        &mut self,
        element: &Element,
        expected: &str,
    ) -> Result<f64, ScoreFileError> {
        self.number(&element.text, element.offset, expected)
    }

    /// The text of the first child of that name as a finite number, if there is such a child.
    pub(super) fn number_in_child(
        &mut self,
        parent: &Element,
        name: &str,
        expected: &str,
    ) -> Result<Option<f64>, ScoreFileError> {
        parent.child(name).map(|child| self.number_in(child, expected)).transpose()
    }

    /// The next piece.
    pub(super) fn next(&mut self) -> Result<Piece, ScoreFileError> {
        loop {
            let offset = self.here();
            let event = match self.reader.read_event() {
                Ok(event) => event,
                Err(error) => return Err(self.unreadable(&error)),
            };
            match event {
                Event::Start(tag) => return self.open(&tag, offset),
                Event::End(_) => {
                    self.depth = self.depth.saturating_sub(1);
                    return Ok(Piece::Close);
                }
                Event::Text(text) => return Ok(Piece::Text(lossy(&text))),
                Event::CData(text) => return Ok(Piece::Text(lossy(&text))),
                Event::GeneralRef(reference) => return self.entity(&reference, offset),
                Event::Eof if self.depth > 0 => return Err(self.unclosed(offset)),
                Event::Eof => return Ok(Piece::End),
                Event::Empty(_)
                | Event::Comment(_)
                | Event::Decl(_)
                | Event::PI(_)
                | Event::DocType(_) => {}
            }
        }
    }

    /// All of an element that has just been opened.
    pub(super) fn whole(&mut self, opened: Element) -> Result<Element, ScoreFileError> {
        let mut above: Vec<Element> = Vec::new();
        let mut current = opened;
        let mut count = 0;
        loop {
            match self.next()? {
                Piece::Open(child) => {
                    count += 1;
                    if count > MOST_ELEMENTS {
                        let wrong = format!("more than {MOST_ELEMENTS} elements in one");
                        return Err(self.fail(child.offset, wrong, "a note as scores have them"));
                    }
                    above.push(std::mem::replace(&mut current, child));
                }
                Piece::Text(text) if current.text.len() < LONGEST_TEXT => {
                    current.text.extend(text.chars().take(LONGEST_TEXT));
                }
                Piece::Text(_) => {}
                Piece::Close => match above.pop() {
                    Some(mut parent) => {
                        parent.children.push(std::mem::take(&mut current));
                        current = parent;
                    }
                    None => return Ok(current),
                },
                Piece::End => return Ok(current),
            }
        }
    }

    /// Reads past an element that has just been opened.
    pub(super) fn skip(&mut self) -> Result<(), ScoreFileError> {
        let outside = self.depth.saturating_sub(1);
        while self.depth > outside {
            self.next()?;
        }
        Ok(())
    }

    /// The next element within the one that is open; `None` where that one closes.
    pub(super) fn next_child(&mut self) -> Result<Option<Element>, ScoreFileError> {
        loop {
            match self.next()? {
                Piece::Open(element) => return Ok(Some(element)),
                Piece::Text(_) => {}
                Piece::Close | Piece::End => return Ok(None),
            }
        }
    }

    /// The next element that opens anywhere; `None` at the end of the file.
    pub(super) fn next_element(&mut self) -> Result<Option<Element>, ScoreFileError> {
        loop {
            match self.next()? {
                Piece::Open(element) => return Ok(Some(element)),
                Piece::Text(_) | Piece::Close => {}
                Piece::End => return Ok(None),
            }
        }
    }

    fn here(&self) -> usize {
        offset(self.reader.buffer_position())
    }

    fn open(&mut self, tag: &BytesStart<'_>, offset: usize) -> Result<Piece, ScoreFileError> {
        self.depth += 1;
        if self.depth > DEEPEST_NESTING {
            let expected = format!("XML that nests at most {DEEPEST_NESTING} deep");
            return Err(self.fail(
                offset,
                "too many elements in one another".to_owned(),
                &expected,
            ));
        }
        let mut element =
            Element { name: lossy(tag.name().as_ref()), offset, ..Element::default() };
        // Looking for an attribute that stands twice compares each with all before it.
        for attribute in tag.attributes().with_checks(false) {
            let read = attribute.map_err(|error| error.to_string());
            let read = read.and_then(|attribute| {
                let value = attribute.unescape_value().map_err(|error| error.to_string())?;
                Ok((lossy(attribute.key.as_ref()), value.into_owned()))
            });
            let read = read.map_err(|wrong| self.not_xml(offset, wrong))?;
            if element.attributes.len() < MOST_ATTRIBUTES {
                element.attributes.push(read);
            }
        }
        Ok(Piece::Open(element))
    }

    /// The character that a reference stands for; only those of XML itself are known.
    fn entity(&mut self, reference: &BytesRef<'_>, offset: usize) -> Result<Piece, ScoreFileError> {
        if let Ok(Some(char)) = reference.resolve_char_ref() {
            return Ok(Piece::Text(char.to_string()));
        }
        let name = lossy(reference);
        match quick_xml::escape::resolve_predefined_entity(&name) {
            Some(text) => Ok(Piece::Text(text.to_owned())),
            None => Err(self.found(offset, &format!("&{name};"), "text: no entity is looked up")),
        }
    }

    fn unreadable(&mut self, error: &quick_xml::Error) -> ScoreFileError {
        let offset = offset(self.reader.error_position());
        self.not_xml(offset, error.to_string())
    }

    fn unclosed(&mut self, offset: usize) -> ScoreFileError {
        let open = self.depth;
        self.fail(offset, format!("the file ends within {open} open elements"), "their end tags")
    }

    fn not_xml(&mut self, offset: usize, said: String) -> ScoreFileError {
        self.fail(offset, said, "well-formed XML")
    }
}

/// A position, which no file here is long enough to lose.
fn offset(position: u64) -> usize {
    usize::try_from(position).unwrap_or(usize::MAX)
}

/// The file is known to be UTF-8, so nothing is lost.
fn lossy(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_attributes_without_end_a_hundred_are_kept() {
        let attributes: String = (0..400_000).map(|n| format!(" a{n}=\"\"")).collect();
        let text = format!("<note{attributes}/>");
        let Ok(Piece::Open(element)) = Xml::new(&text).next() else { panic!("no element") };
        assert_eq!(element.attributes.len(), 100);
        assert_eq!(element.attribute("a99"), Some(""));
    }
}
