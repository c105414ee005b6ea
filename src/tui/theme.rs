//! Roles for colours: no view names a colour.
//!
//! A [`Theme`] gives each role a style. Themes are TOML files, built in (`assets/themes/`) or the
//! player's own, and read by [`Themes`] for the [`Depth`] of colour that the terminal has. Every
//! role that tells something also has a shape or a modifier, so that no theme needs colour alone.

mod colour;
mod depth;
mod read;
mod themes;

use ratatui::style::{Modifier, Style};

pub use depth::Depth;
pub use themes::Themes;

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
struct Role {
    name: &'static str,
    style: fn(&mut Theme) -> &mut Style,
    fallback: fn(&Theme) -> Style,
}

/// Every role. A fallback uses only roles that stand before it.
const ROLES: &[Role] = &[
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

impl Theme {
    /// The theme that is used where none is chosen.
    pub const USUAL: &'static str = "terminal";

    /// The built-in theme of that name.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::tui::theme::{Depth, Theme};
    /// let dark = Theme::built_in("dark", Depth::Full).unwrap();
    /// assert_ne!(dark.first, dark.second);
    /// assert!(Theme::built_in("pink", Depth::Full).is_none());
    /// ```
    #[must_use]
    pub fn built_in(name: &str, depth: Depth) -> Option<Theme> {
        Themes::load(None, depth).get(name)
    }

    /// The terminal's own palette: cyan and yellow differ for every kind of colour vision, and in
    /// grey.
    #[must_use]
    pub fn terminal() -> Theme {
        Theme::built_in(Theme::USUAL, Depth::Sixteen).unwrap_or_default()
    }

    /// Modifiers only.
    #[must_use]
    pub fn monochrome() -> Theme {
        Theme::built_in("monochrome", Depth::None).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests;
