//! Roles for colours: no view names a colour.
//!
//! Every role that tells something also has a shape or a modifier, so that the monochrome theme
//! loses nothing.

use ratatui::style::{Color, Modifier, Style};

/// The style of each role.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Theme {
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

impl Theme {
    /// The terminal's own palette: cyan and yellow differ for every kind of colour vision, and in
    /// grey.
    #[must_use]
    pub fn terminal() -> Theme {
        let plain = Style::new();
        Theme {
            text: plain,
            muted: plain.add_modifier(Modifier::DIM),
            title: plain.add_modifier(Modifier::BOLD),
            first: plain.fg(Color::Cyan),
            second: plain.fg(Color::Yellow),
            held: plain.add_modifier(Modifier::BOLD.union(Modifier::REVERSED)),
            string: plain,
            chosen: plain.add_modifier(Modifier::BOLD),
            key: plain.add_modifier(Modifier::BOLD),
            error: plain.fg(Color::Red).add_modifier(Modifier::BOLD),
        }
    }

    /// Modifiers only.
    #[must_use]
    pub fn monochrome() -> Theme {
        let Theme { text, error, .. } = Theme::terminal();
        let bold = text.add_modifier(Modifier::BOLD);
        Theme { first: bold, second: text, error: Style { fg: None, ..error }, ..Theme::terminal() }
    }

    /// The theme that the environment asks for: `NO_COLOR` and a dumb terminal get no colours.
    #[must_use]
    pub fn from_environment() -> Theme {
        let set = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
        let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
        if set("NO_COLOR") || dumb { Theme::monochrome() } else { Theme::terminal() }
    }
}
