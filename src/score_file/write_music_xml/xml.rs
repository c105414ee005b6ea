//! Elements, one after another.

use std::fmt::Display;

use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesEnd, BytesStart, BytesText, Event};

/// A document that is written to memory, where nothing can fail.
pub(super) struct Xml {
    writer: Writer<Vec<u8>>,
}

/// Attributes by name.
pub(super) type Attributes<'a> = &'a [(&'a str, &'a str)];

impl Xml {
    /// The beginning of a document of that type.
    pub(super) fn new(document_type: &str) -> Xml {
        let mut xml = Xml { writer: Writer::new_with_indent(Vec::new(), b' ', 1) };
        xml.write(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)));
        xml.write(Event::DocType(BytesText::from_escaped(document_type)));
        xml
    }

    /// An element with what `within` writes in it.
    pub(super) fn element(
        &mut self,
        name: &str,
        attributes: Attributes<'_>,
        within: impl FnOnce(&mut Xml),
    ) {
        self.write(Event::Start(start(name, attributes)));
        within(self);
        self.write(Event::End(BytesEnd::new(name)));
    }

    /// An element that holds a text or a number.
    pub(super) fn leaf(&mut self, name: &str, text: &(impl Display + ?Sized)) {
        self.leaf_with(name, &[], text);
    }

    /// The same with attributes.
    pub(super) fn leaf_with(
        &mut self,
        name: &str,
        attributes: Attributes<'_>,
        text: &(impl Display + ?Sized),
    ) {
        let text = allowed(&text.to_string());
        self.write(Event::Start(start(name, attributes)));
        self.write(Event::Text(BytesText::new(&text)));
        self.write(Event::End(BytesEnd::new(name)));
    }

    /// An element without content.
    pub(super) fn empty(&mut self, name: &str, attributes: Attributes<'_>) {
        self.write(Event::Empty(start(name, attributes)));
    }

    pub(super) fn into_bytes(self) -> Vec<u8> {
        let mut bytes = self.writer.into_inner();
        bytes.push(b'\n');
        bytes
    }

    fn write(&mut self, event: Event<'_>) {
        // Memory takes all that is written to it.
        let _ = self.writer.write_event(event);
    }
}

fn start<'a>(name: &'a str, attributes: Attributes<'_>) -> BytesStart<'a> {
    let mut start = BytesStart::new(name);
    for (name, value) in attributes {
        start.push_attribute((*name, allowed(value).as_str()));
    }
    start
}

/// The text without the signs that no XML may hold.
fn allowed(text: &str) -> String {
    let is_allowed = |sign: &char| {
        let is_control = *sign < ' ' && !matches!(sign, '\t' | '\n' | '\r');
        !is_control && !matches!(sign, '\u{fffe}' | '\u{ffff}')
    };
    text.chars().filter(is_allowed).collect()
}
