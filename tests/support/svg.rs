//! A drawn screen as an SVG picture: every word in its place, colours as a dark terminal shows them.

use std::fmt::Write as _;

use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Modifier};

const CELL: (usize, usize) = (9, 19);
const GROUND: &str = "#16181d";
const TEXT: &str = "#d7dae0";

/// The whole buffer as one picture.
pub(crate) fn of_buffer(buffer: &Buffer) -> String {
    let (columns, rows) = (usize::from(buffer.area.width), usize::from(buffer.area.height));
    let (width, height) = (columns * CELL.0 + 20, rows * CELL.1 + 20);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" \
         font-family=\"DejaVu Sans Mono, Menlo, Consolas, monospace\" font-size=\"15\">\n\
         <rect width=\"100%\" height=\"100%\" rx=\"6\" fill=\"{GROUND}\"/>\n"
    );
    for (row, cells) in buffer.content.chunks(columns.max(1)).enumerate() {
        let mut from = 0;
        while from < cells.len() {
            let same = |cell: &&Cell| look(cell) == look(&cells[from]);
            let run = cells[from..].iter().take_while(same).count();
            write_ground(&mut svg, &cells[from..from + run], from, row);
            write_wood(&mut svg, &cells[from..from + run], from, row);
            write_words(&mut svg, &cells[from..from + run], from, row);
            from += run;
        }
    }
    svg + "</svg>\n"
}

/// Everything that makes two cells look different, their letters aside.
fn look(cell: &Cell) -> (Color, Modifier) {
    (cell.fg, cell.modifier)
}

/// What lies under cells that look reversed.
fn write_ground(svg: &mut String, cells: &[Cell], column: usize, row: usize) {
    if cells[0].modifier.contains(Modifier::REVERSED) {
        let (x, y) = (10 + column * CELL.0, 10 + row * CELL.1);
        let (width, height, ink) = (cells.len() * CELL.0, CELL.1, ink(cells[0].fg));
        writeln!(
            svg,
            "<rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" fill=\"{ink}\"/>"
        )
        .unwrap();
    }
}

/// The words of cells that look alike, each set at its own column, so that a font with other widths
/// shifts nothing.
fn write_words(svg: &mut String, cells: &[Cell], column: usize, row: usize) {
    let (color, modifier) = look(&cells[0]);
    let reversed = modifier.contains(Modifier::REVERSED);
    let ink = if reversed { GROUND } else { ink(color) };
    let weight = if modifier.contains(Modifier::BOLD) { " font-weight=\"bold\"" } else { "" };
    let dim = if modifier.contains(Modifier::DIM) { " opacity=\"0.65\"" } else { "" };
    let y = 10 + row * CELL.1 + 14;
    for (from, word) in words(cells) {
        let x = 10 + (column + from) * CELL.0;
        let escaped = word.replace('&', "&amp;").replace('<', "&lt;");
        writeln!(svg, "<text x=\"{x}\" y=\"{y}\" fill=\"{ink}\"{weight}{dim}>{escaped}</text>",)
            .unwrap();
    }
}

/// The stretches without spaces and lines, each with the cell it begins in.
fn words(cells: &[Cell]) -> Vec<(usize, String)> {
    let mut words: Vec<(usize, String)> = Vec::new();
    let mut in_word = false;
    for (index, cell) in cells.iter().enumerate() {
        let is_space = cell.symbol() == " " || strokes_of(cell.symbol()).is_some();
        match words.last_mut().filter(|_| in_word && !is_space) {
            Some((_, word)) => word.push_str(cell.symbol()),
            None if !is_space => words.push((index, cell.symbol().to_owned())),
            None => {}
        }
        in_word = !is_space;
    }
    words
}

/// The strokes of a sign that draws lines, within a cell of 9 by 19: as lines between two points. They
/// are drawn, since a font may lack them, or leave gaps between rows.
fn strokes_of(symbol: &str) -> Option<&'static str> {
    Some(match symbol {
        "─" => "h9",
        "╌" => "h3m3 0h3",
        "│" => "m4.5-9.5v19",
        "┃" => "m4-9.5v19m1-19v19",
        "║" => "m3-9.5v19m3-19v19",
        "┼" => "h9m-4.5-9.5v19",
        "┤" => "h4.5m0-9.5v19",
        "├" => "m4.5-9.5v19m0-9.5h4.5",
        "═" => "m0-1.5h9m-9 3h9",
        "╪" => "m0-1.5h9m-9 3h9m-4.5-11v19",
        _ => return None,
    })
}

/// The strings, wires and rules among cells that look alike, as one path.
fn write_wood(svg: &mut String, cells: &[Cell], column: usize, row: usize) {
    let y = 10.0 + (row * CELL.1) as f32 + CELL.1 as f32 / 2.0;
    let mut path = String::new();
    for (cell, column) in cells.iter().zip(column..) {
        if let Some(strokes) = strokes_of(cell.symbol()) {
            write!(path, "M{} {y}{strokes}", 10 + column * CELL.0).unwrap();
        }
    }
    if !path.is_empty() {
        let reversed = cells[0].modifier.contains(Modifier::REVERSED);
        let ink = if reversed { GROUND } else { ink(cells[0].fg) };
        let dim = if cells[0].modifier.contains(Modifier::DIM) { " opacity=\"0.65\"" } else { "" };
        writeln!(svg, "<path d=\"{path}\" stroke=\"{ink}\"{dim}/>").unwrap();
    }
}

fn ink(color: Color) -> &'static str {
    match color {
        Color::Cyan => "#56b4e9",
        Color::Yellow => "#e6c229",
        Color::Red => "#ff6b5e",
        _ => TEXT,
    }
}
