//! A part of a tune whose bars are a text of their own.

/// A part of a tune whose bars are a text of their own, as a chart in TOML has them.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct BarSection<'a> {
    /// Its name, as in `A`.
    pub name: Option<&'a str>,
    /// Its bars.
    pub text: &'a str,
}

impl<'a> BarSection<'a> {
    /// Bars under no name but those that they write themselves.
    #[must_use]
    pub const fn unnamed(text: &'a str) -> BarSection<'a> {
        BarSection { name: None, text }
    }

    /// A name as `[…]` has it: without brackets and strokes, and with single spaces. `None` where
    /// nothing is left of it, or it holds a sign that a name cannot have.
    #[must_use]
    pub fn name_in_brackets(name: &str) -> Option<String> {
        let name = name.split_whitespace().collect::<Vec<_>>().join(" ");
        let fits = !name.is_empty() && !name.contains(['[', ']', '|']);
        (fits && !name.chars().any(char::is_control)).then_some(name)
    }
}
