//! The roles, and what each looks like where a file does not say.

use ratatui::style::{Modifier, Style};

/// The style of each role.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Theme {
    /// What lies under everything: the background, and the colour of what has no other role.
    pub screen: Style,
    /// Running text.
    pub text: Style,
    /// What is there but not spoken of.
    pub muted: Style,
    /// The chord, headings.
    pub title: Style,
    /// The first triad.
    pub first: Style,
    /// The second triad.
    pub second: Style,
    /// Laid over a triad's style where the shape is in hand.
    pub held: Style,
    /// Strings and wires.
    pub string: Style,
    /// The row that is chosen.
    pub chosen: Style,
    /// A key in the footer.
    pub key: Style,
    /// Something is wrong.
    pub error: Style,
}

/// A role of the table: its name in the files, its place in a theme, and what it looks like where a
/// file does not say.
pub(super) struct Role {
    pub(super) name: &'static str,
    pub(super) style: fn(&mut Theme) -> &mut Style,
    pub(super) fallback: fn(&Theme) -> Style,
}

/// Every role. A fallback uses only roles that stand before it.
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
