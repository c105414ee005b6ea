//! What a real terminal shows of the first screen, for each kind of terminal that the environment can
//! name: kept as text with the runs of its looks, as the terminal itself has understood the bytes.

#![cfg(unix)]
#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/program.rs"]
mod program;
#[path = "support/pty.rs"]
mod pty;
#[path = "support/styled_text.rs"]
mod styled_text;

use program::Home;
use pty::{DEADLINE, Session};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Color, Modifier, Style};
use styled_text::styled_text;

const END_FRAME: &[u8] = b"\x1b[?2026l";

/// A name, and the environment.
const TERMINALS: [(&str, &[(&str, &str)]); 6] = [
    ("true_colour", &[("COLORTERM", "truecolor")]),
    ("256_colours", &[("TERM", "xterm-256color")]),
    ("16_colours", &[("TERM", "xterm")]),
    ("no_color", &[("COLORTERM", "truecolor"), ("NO_COLOR", "1")]),
    ("dumb", &[("COLORTERM", "truecolor"), ("TERM", "dumb")]),
    ("not_utf_8", &[("LANG", "C")]),
];

#[test]
fn every_kind_of_terminal_shows_what_it_can() {
    for (name, environment) in TERMINALS {
        let home = Home::new();
        home.put("fretloom/settings.toml", "theme = \"dark\"\n");
        let folder = home.folder().to_str().unwrap();
        let environment = [environment, &[("XDG_CONFIG_HOME", folder)]].concat();
        let session = Session::start(&[], 24, 80, &environment);
        session.wait_for_bytes(END_FRAME, 1, DEADLINE);
        session.wait_for("frets 1", DEADLINE);
        let shown = session.with_screen(buffer_of);
        insta::assert_snapshot!(format!("{name}_80x24"), styled_text(&shown));
    }
}

/// The terminal's screen, cell by cell.
fn buffer_of(screen: &vt100::Screen) -> Buffer {
    let (rows, columns) = screen.size();
    let (rows, columns) = (rows.get(), columns.get());
    let mut buffer = Buffer::empty(Rect::new(0, 0, columns, rows));
    for (row, column) in (0..rows).flat_map(|row| (0..columns).map(move |column| (row, column))) {
        let cell = screen.cell(row, column).unwrap();
        let symbol = if cell.has_contents() { cell.contents() } else { " " };
        buffer[(column, row)].set_symbol(symbol).set_style(style_of(cell));
    }
    buffer
}

fn style_of(cell: &vt100::Cell) -> Style {
    let modifiers = [
        (cell.bold(), Modifier::BOLD),
        (cell.dim(), Modifier::DIM),
        (cell.italic(), Modifier::ITALIC),
        (cell.underline(), Modifier::UNDERLINED),
        (cell.inverse(), Modifier::REVERSED),
    ];
    let modifiers: Modifier =
        modifiers.into_iter().filter(|(is_on, _)| *is_on).map(|(_, modifier)| modifier).collect();
    let style = Style::new().fg(colour_of(cell.fgcolor())).bg(colour_of(cell.bgcolor()));
    style.add_modifier(modifiers)
}

fn colour_of(colour: vt100::Color) -> Color {
    match colour {
        vt100::Color::Default => Color::Reset,
        vt100::Color::Idx(index) => Color::Indexed(index),
        vt100::Color::Rgb(red, green, blue) => Color::Rgb(red, green, blue),
    }
}
