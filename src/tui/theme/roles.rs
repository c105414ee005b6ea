//! The roles that a theme gives styles to.

use ratatui::style::{Modifier, Style};

/// The style of each role.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Theme {
    /// Everything without a role of its own; its background lies under all others.
    pub screen: Style,
    /// Running text.
    pub text: Style,
    /// Text of less importance: reasons, headings of lists, separators.
    pub muted: Style,
    /// The chord and headings.
    pub title: Style,
    /// The first triad.
    pub first: Style,
    /// The second triad.
    pub second: Style,
    /// Added to a triad's style for the shape in hand.
    pub held: Style,
    /// Strings and frets of the drawn neck.
    pub string: Style,
    /// The chosen row of a list.
    pub chosen: Style,
    /// A key, as in the footer.
    pub key: Style,
    /// What is wrong.
    pub error: Style,
}

/// A role: its name in theme files, its field of [`Theme`], and its style where a file has none.
pub(super) struct Role {
    pub(super) name: &'static str,
    pub(super) style: fn(&mut Theme) -> &mut Style,
    pub(super) fallback: fn(&Theme) -> Style,
}

/// Every role. A fallback uses only roles that come before its own.
pub(super) const ROLES: &[Role] = &[
    role("screen", |theme| &mut theme.screen, |_| Style::new()),
    role("text", |theme| &mut theme.text, |_| Style::new()),
    role("muted", |theme| &mut theme.muted, |theme| theme.text),
    role("title", |theme| &mut theme.title, |theme| bold(theme.text)),
    role("first", |theme| &mut theme.first, |theme| theme.title),
    role("second", |theme| &mut theme.second, |theme| theme.text),
    role("held", |theme| &mut theme.held, |_| bold(Style::new()).add_modifier(Modifier::REVERSED)),
    role("string", |theme| &mut theme.string, |theme| theme.text),
    role("chosen", |theme| &mut theme.chosen, |theme| bold(theme.text)),
    role("key", |theme| &mut theme.key, |theme| theme.title),
    role("error", |theme| &mut theme.error, |theme| theme.title),
];

const fn role(
    name: &'static str,
    style: fn(&mut Theme) -> &mut Style,
    fallback: fn(&Theme) -> Style,
) -> Role {
    Role { name, style, fallback }
}

const fn bold(style: Style) -> Style {
    style.add_modifier(Modifier::BOLD)
}
