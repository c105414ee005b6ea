//! A drawn screen as short text: what stands in its cells, and below that how it looks.
//!
//! ```text
//!  G & A
//! --- styles: columns × style, row by row; rows in plain a are left out
//! a = plain
//! b = cyan bold
//!  1: a1 b1 a4
//! ```

use std::fmt::Write as _;

use fretloom::tui::text_of;
use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Style};

/// The text of a screen, the table of its styles, and the runs of each row.
pub(crate) fn styled_text(buffer: &Buffer) -> String {
    let mut table = vec![Style::reset()];
    let width = usize::from(buffer.area.width).max(1);
    let rows: Vec<String> = buffer.content.chunks(width).map(|row| runs(row, &mut table)).collect();
    let mut text = text_of(buffer);
    text += "--- styles: letter and columns, row by row; rows all in a are left out\n";
    for (style, index) in table.iter().zip(0..) {
        writeln!(text, "{} = {}", letter(index), words(*style)).unwrap();
    }
    for (row, number) in
        rows.iter().zip(1..).filter(|(row, _)| row.contains(' ') || !row.starts_with('a'))
    {
        writeln!(text, "{number:>2}: {row}").unwrap();
    }
    text
}

/// `a1 b8 a71`
fn runs(row: &[Cell], table: &mut Vec<Style>) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for cell in row {
        let style = cell.style();
        let known = table.iter().position(|one| *one == style);
        let index = known.unwrap_or_else(|| {
            table.push(style);
            table.len() - 1
        });
        match runs.last_mut() {
            Some((last, count)) if *last == index => *count += 1,
            _ => runs.push((index, 1)),
        }
    }
    let words: Vec<String> =
        runs.iter().map(|(index, count)| format!("{}{count}", letter(*index))).collect();
    words.join(" ")
}

/// A screen has no more styles than there are letters.
fn letter(index: usize) -> char {
    (b'a'..=b'z').nth(index).map(char::from).unwrap()
}

/// `#56B4E9 on #101318 bold`
fn words(style: Style) -> String {
    let mut words = Vec::new();
    words
        .extend(style.fg.filter(|colour| *colour != Color::Reset).map(|colour| colour.to_string()));
    let chord_scale = style.bg.filter(|colour| *colour != Color::Reset);
    words.extend(chord_scale.map(|colour| format!("on {colour}")));
    let modifiers = style.add_modifier.iter_names().map(|(name, _)| name.to_lowercase());
    words.extend(modifiers);
    if words.is_empty() { "plain".to_owned() } else { words.join(" ") }
}
