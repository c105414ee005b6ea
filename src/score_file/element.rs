//! A small element with everything in it.

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

    /// The text of the first child of that name, without the space around it.
    pub(super) fn child_text(&self, name: &str) -> Option<&str> {
        self.child(name).map(|child| child.text.trim())
    }

    /// The number in the first child of that name, where one can be read.
    pub(super) fn readable<T: std::str::FromStr>(&self, name: &str) -> Option<T> {
        self.child_text(name).and_then(|text| text.parse().ok())
    }

    /// The staff that it belongs to, 1 unless it says otherwise.
    pub(super) fn staff(&self) -> u32 {
        self.readable("staff").unwrap_or(1)
    }
}
