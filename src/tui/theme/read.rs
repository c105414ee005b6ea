//! Reads a theme file: one role a line.
//!
//! ```toml
//! screen = "#D8DCE2 on #101318"
//! first = "#56B4E9/cyan bold"
//! ```

use ratatui::style::{Modifier, Style};
use toml::de::DeValue;

use super::colour;
use super::depth::Depth;
use super::roles::{ROLES, Theme};
use crate::library::Problem;
use crate::library::fields::Fields;
use crate::words::nearest;

/// The modifiers that a theme may use.
const MODIFIERS: [(&str, Modifier); 5] = [
    ("bold", Modifier::BOLD),
    ("dim", Modifier::DIM),
    ("italic", Modifier::ITALIC),
    ("underline", Modifier::UNDERLINED),
    ("reverse", Modifier::REVERSED),
];

/// The theme in the text of a file. The role of a wrong line has its fallback.
pub(super) fn read(file: &str, content: &str, depth: Depth) -> (Theme, Vec<Problem>) {
    let mut intact = String::new();
    let mut fields = Fields::salvage(file, content, &mut intact);
    let names: Vec<&str> = ROLES.iter().map(|role| role.name).collect();
    fields.report_unknown(&names);
    let mut theme = Theme::default();
    for role in ROLES {
        let style = fields.read_key(role.name, |value| style(value, depth));
        let style = style.unwrap_or_else(|| (role.fallback)(&theme));
        *(role.style)(&mut theme) = style;
    }
    (theme, fields.into_problems())
}

fn style(value: &DeValue<'_>, depth: Depth) -> Result<Style, String> {
    let text =
        value.as_str().ok_or("colours and modifiers in quotes, as in \"#56B4E9 on black bold\"")?;
    let mut style = Style::new();
    let (mut front, mut back) = (None, None);
    let mut words = text.split_whitespace();
    while let Some(word) = words.next() {
        if let Some((_, modifier)) = MODIFIERS.iter().find(|(name, _)| *name == word) {
            style = style.add_modifier(*modifier);
            continue;
        }
        let (word, place) = match word {
            "on" => (words.next().ok_or("a colour after `on`")?, &mut back),
            _ => (word, &mut front),
        };
        let read = colour::read(word, depth).ok_or_else(|| expected(word))?;
        if place.replace(read).is_some() {
            return Err(format!("one colour, and one more after `on`; `{word}` is too many"));
        }
    }
    Ok(Style { fg: front.flatten(), bg: back.flatten(), ..style })
}

fn expected(word: &str) -> String {
    let names = colour::NAMED.iter().map(|(name, _)| *name);
    let modifiers = MODIFIERS.iter().map(|(name, _)| *name);
    let near = nearest(word, names.chain(modifiers));
    let near = near.map(|near| format!("; did you mean `{near}`?")).unwrap_or_default();
    format!(
        "a colour (#RRGGBB, or a name as `cyan`, `bright-blue`), or bold, dim, italic, underline, \
         reverse, instead of `{word}`{near}"
    )
}
