//! Themes change colours and modifiers, each cell by its roles, and nothing else.

use std::iter::zip;

use fretloom::tui::program::Program;
use fretloom::tui::text_of;
use fretloom::tui::theme::{Depth, Theme, Themes};
use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Modifier, Style};

use super::blocks::{rows_of, text};
use super::{SCREENS, SIZES, drawn, in_state};

/// A theme whose roles are told from one another by their colour alone.
pub(super) fn tracer() -> Theme {
    let role = |index| Style::new().fg(Color::Indexed(index));
    Theme {
        screen: role(0).bg(Color::Indexed(255)),
        text: role(1),
        muted: role(2),
        title: role(3),
        first: role(4),
        second: role(5),
        held: Style::new().add_modifier(Modifier::REVERSED),
        string: role(6),
        chosen: role(7),
        key: role(8),
        error: role(9),
    }
}

/// The modifiers by which two more tracers tell which roles lie over one another in a cell; the
/// underline is the program's own.
const MARKS: [Modifier; 6] = [
    Modifier::BOLD,
    Modifier::DIM,
    Modifier::ITALIC,
    Modifier::SLOW_BLINK,
    Modifier::RAPID_BLINK,
    Modifier::CROSSED_OUT,
];

/// A theme that marks the roles from `first` on, as many as there are marks, and no other.
fn layers(first: usize) -> Theme {
    let mark = |role: usize| {
        let mark = role.checked_sub(first).and_then(|index| MARKS.get(index));
        Style::new().add_modifier(mark.copied().unwrap_or_default())
    };
    Theme {
        screen: mark(0),
        text: mark(1),
        muted: mark(2),
        title: mark(3),
        first: mark(4),
        second: mark(5),
        string: mark(6),
        chosen: mark(7),
        key: mark(8),
        error: mark(9),
        held: mark(10),
    }
}

fn roles(theme: &Theme) -> [Style; 11] {
    [
        theme.screen,
        theme.text,
        theme.muted,
        theme.title,
        theme.first,
        theme.second,
        theme.string,
        theme.chosen,
        theme.key,
        theme.error,
        theme.held,
    ]
}

/// What a screen is made of: the role on top of each cell, and all that lie there.
struct Traced {
    top: Buffer,
    layers: [Buffer; 2],
}

impl Traced {
    fn of(program: &mut Program, (columns, rows): (u16, u16)) -> Traced {
        let mut draw = |theme| {
            program.use_theme(theme);
            drawn(program, columns, rows)
        };
        let layers = [draw(layers(0)), draw(layers(MARKS.len()))];
        Traced { top: draw(tracer()), layers }
    }

    /// The style that a theme gives to a cell: colours from the role on top, modifiers from all.
    fn styled(&self, theme: &Theme, index: usize) -> Style {
        let top = self.top.content[index].style();
        let has = |modifier| top.add_modifier.contains(modifier);
        let mut style = Style::reset().patch(theme.screen);
        if let Some(Color::Indexed(role)) = top.fg {
            style = style.patch(roles(theme)[usize::from(role)]);
        }
        if has(Modifier::REVERSED) {
            style = style.patch(theme.held);
        }
        let of_role = |role: usize| {
            let layer = &self.layers[role / MARKS.len()].content[index];
            layer.modifier.contains(MARKS[role % MARKS.len()])
        };
        let there = roles(theme).into_iter().enumerate().filter(|(role, _)| of_role(*role));
        style.add_modifier = there.map(|(_, role)| role.add_modifier).collect();
        if has(Modifier::UNDERLINED) { style.add_modifier(Modifier::UNDERLINED) } else { style }
    }
}

/// Each cell has its sign in every theme, and the style of its roles.
#[test]
fn themes_change_styles_and_nothing_else() {
    let themes = Themes::load(None, Depth::Full);
    for (name, keys) in SCREENS {
        for size in SIZES {
            let program = &mut in_state("guitar-standard", keys, size);
            let traced = Traced::of(program, size);
            for of_theme in themes.names().filter(|name| size.0 == 80 || *name == "dark") {
                let told = format!("{name} {size:?} {of_theme}");
                assert_themed(program, &themes.get(of_theme).unwrap(), &traced, &told);
            }
        }
    }
}

#[test]
fn every_depth_has_the_styles_of_its_theme() {
    for depth in [Depth::Full, Depth::TwoHundredFiftySix, Depth::Sixteen, Depth::None] {
        let themes = Themes::load(None, depth);
        let program = &mut in_state("guitar-standard", "space", (80, 24));
        let traced = Traced::of(program, (80, 24));
        for name in themes.names() {
            let told = format!("{name} {depth:?}");
            assert_themed(program, &themes.get(name).unwrap(), &traced, &told);
        }
    }
}

fn assert_themed(program: &mut Program, theme: &Theme, traced: &Traced, told: &str) {
    program.use_theme(*theme);
    let buffer = drawn(program, traced.top.area.width, traced.top.area.height);
    for (index, (cell, top)) in zip(&buffer.content, &traced.top.content).enumerate() {
        let (column, row) = buffer.pos_of(index);
        let told = format!("{told}, column {column}, row {row}");
        assert_eq!(cell.symbol(), top.symbol(), "{told}");
        let (style, wanted) = (cell.style(), traced.styled(theme, index));
        assert_eq!((style.fg, style.bg), (wanted.fg, wanted.bg), "{told}");
        assert_eq!(style.add_modifier, wanted.add_modifier, "{told}");
    }
}

/// The chosen row, the marks of both triads, the shape in hand, the strings and the keys of the
/// footer have their roles on every screen that has them.
#[test]
fn every_place_of_a_screen_has_its_role() {
    let theme = tracer();
    for ((name, keys), (columns, rows)) in
        SCREENS.into_iter().flat_map(|screen| SIZES.map(|size| (screen, size)))
    {
        let program = &mut in_state("guitar-standard", keys, (columns, rows));
        program.use_theme(theme);
        let buffer = drawn(program, columns, rows);
        let told = format!("{name} {columns}x{rows}\n{}", text_of(&buffer));
        let footer = rows_of(&buffer).last().unwrap();
        for (key, meaning) in items(footer) {
            assert_eq!(key.style().fg, theme.key.fg, "{told}");
            assert!(meaning.is_none_or(|cell| cell.style().fg == theme.muted.fg), "{told}");
        }
        for two in buffer.content.windows(2).filter(|two| two[0].symbol() == "▸") {
            let role = match two[1].symbol() {
                "[" => theme.first,
                "(" => theme.second,
                _ => theme.chosen,
            };
            assert_eq!(two[0].style().fg, role.fg, "{told}");
        }
        for row in rows_of(&buffer).filter(|row| text(row).contains(['┃', '‹'])) {
            for cell in row {
                let roles: &[Style] = match cell.symbol() {
                    "[" | "]" => &[theme.first, theme.muted],
                    "(" | ")" => &[theme.second, theme.muted],
                    "┼" | "┤" | "├" | "┃" => &[theme.string, theme.muted],
                    _ => continue,
                };
                assert!(roles.iter().any(|role| role.fg == cell.style().fg), "{told}");
            }
        }
    }
}

/// The first cell of each key of a footer, and of its meaning; what counts at its end is no key.
fn items(row: &[Cell]) -> Vec<(&Cell, Option<&Cell>)> {
    let shown = text(row);
    let signs: Vec<char> = shown.chars().collect();
    let mut items = Vec::new();
    let mut at = 0;
    while let Some(start) = (at..signs.len()).find(|index| signs[*index] != ' ') {
        let is_space = |index: &usize| signs.get(*index) == Some(&' ');
        let end = (start..signs.len())
            .find(|index| is_space(index) && (index + 1 == signs.len() || is_space(&(index + 1))))
            .unwrap_or(signs.len());
        let word: String = signs[start..end].iter().collect();
        if !word.contains(" of ") {
            let meaning = (start..end).find(is_space).map(|space| &row[space + 1]);
            items.push((&row[start], meaning));
        }
        at = end;
    }
    items
}
