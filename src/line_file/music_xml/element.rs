//! A small element with everything in it.

use super::xml::Xml;
use crate::line_file::LineError;

/// An element that has been read whole. Scores are never held so, only notes and the like.
#[derive(Clone, PartialEq, Eq, Default, Debug)]
pub(super) struct Element {
    pub(super) name: String,
    pub(super) attributes: Vec<(String, String)>,
    /// The text right in it.
    pub(super) text: String,
    pub(super) children: Vec<Element>,
    /// Where its tag begins, in bytes.
    pub(super) offset: usize,
}

impl Element {
    /// The first child of that name.
    pub(super) fn child(&self, name: &str) -> Option<&Element> {
        self.children_named(name).next()
    }

    pub(super) fn children_named(&self, name: &str) -> impl Iterator<Item = &Element> {
        self.children.iter().filter(move |child| child.name == name)
    }

    pub(super) fn has(&self, name: &str) -> bool {
        self.child(name).is_some()
    }

    pub(super) fn attribute(&self, name: &str) -> Option<&str> {
        let found = self.attributes.iter().find(|(key, _)| key == name);
        found.map(|(_, value)| value.trim())
    }

    /// Its text as a number.
    pub(super) fn number(&self, xml: &mut Xml<'_>, expected: &str) -> Result<f64, LineError> {
        xml.number(&self.text, self.offset, expected)
    }

    /// The text of the first child of that name as a number, if there is such a child.
    pub(super) fn child_number(
        &self,
        name: &str,
        xml: &mut Xml<'_>,
        expected: &str,
    ) -> Result<Option<f64>, LineError> {
        self.child(name).map(|child| child.number(xml, expected)).transpose()
    }
}
