//! A drawn screen as an SVG picture: every cell in its place, colours as a dark terminal shows them.

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
            write_run(&mut svg, &cells[from..from + run], from, row);
            from += run;
        }
    }
    svg + "</svg>\n"
}

/// Everything that makes two cells look different, their letters aside.
fn look(cell: &Cell) -> (Color, Modifier) {
    (cell.fg, cell.modifier)
}

fn write_run(svg: &mut String, cells: &[Cell], column: usize, row: usize) {
    let text: String = cells.iter().map(Cell::symbol).collect();
    let (color, modifier) = look(&cells[0]);
    if text.trim().is_empty() && !modifier.contains(Modifier::REVERSED) {
        return;
    }
    let (x, y) = (10 + column * CELL.0, 10 + row * CELL.1);
    let mut ink = ink(color);
    if modifier.contains(Modifier::REVERSED) {
        let width = cells.len() * CELL.0;
        let height = CELL.1;
        writeln!(
            svg,
            "<rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" fill=\"{ink}\"/>"
        )
        .unwrap();
        ink = GROUND;
    }
    let weight = if modifier.contains(Modifier::BOLD) { " font-weight=\"bold\"" } else { "" };
    let dim = if modifier.contains(Modifier::DIM) { " opacity=\"0.65\"" } else { "" };
    let length = cells.len() * CELL.0;
    let escaped = text.replace('&', "&amp;").replace('<', "&lt;");
    writeln!(
        svg,
        "<text x=\"{x}\" y=\"{}\" textLength=\"{length}\" xml:space=\"preserve\" \
         fill=\"{ink}\"{weight}{dim}>{escaped}</text>",
        y + 14
    )
    .unwrap();
}

fn ink(color: Color) -> &'static str {
    match color {
        Color::Cyan => "#56b4e9",
        Color::Yellow => "#e6c229",
        Color::Red => "#ff6b5e",
        _ => TEXT,
    }
}
