//! Plain ASCII is the usual screen through the table of stand-ins.

use std::iter::zip;

use fretloom::glyphs::{make_ascii, to_ascii};
use fretloom::tui::text_of;
use fretloom::tui::theme::Theme;
use ratatui::buffer::Buffer;

use super::blocks::{rows_of, text};
use super::{SCREENS, SIZES, drawn, in_state};

/// Sign by sign through the table of stand-ins, and in the same style. Keys are named there, so that
/// their rows have the same items, as many as fit.
#[test]
fn ascii_is_the_screen_through_its_stand_ins() {
    for (name, keys) in SCREENS {
        for (columns, rows) in SIZES {
            let mut signs = in_state("guitar-standard", keys, (columns, rows));
            let mut ascii = in_state("guitar-standard", "", (columns, rows));
            ascii.use_ascii();
            super::press(&mut ascii, keys);
            signs.use_theme(Theme::monochrome());
            ascii.use_theme(Theme::monochrome());
            let (signs, ascii) =
                (drawn(&mut signs, columns, rows), drawn(&mut ascii, columns, rows));
            assert_stands_in(&signs, &ascii, &format!("{name} {columns}x{rows}"));
        }
    }
}

fn assert_stands_in(signs: &Buffer, ascii: &Buffer, told: &str) {
    let mut stand_ins = signs.clone();
    make_ascii(&mut stand_ins);
    assert!(text_of(ascii).is_ascii(), "{told}");
    let rows = zip(rows_of(&stand_ins), rows_of(ascii));
    for ((stand_ins, ascii), signs) in zip(rows, rows_of(signs)) {
        if text(signs).contains(['↑', '↓', '←', '→']) {
            assert_same_items(&text(signs), &text(ascii), told);
        } else {
            assert_eq!(stand_ins, ascii, "{told}\n{}\n{}", text(signs), text(ascii));
        }
    }
}

fn assert_same_items(signs: &str, ascii: &str, told: &str) {
    let named = [("↑", "Up"), ("↓", "Down"), ("←", "Left"), ("→", "Right")];
    let renamed =
        named.iter().fold(signs.to_owned(), |text, (sign, name)| text.replace(sign, name));
    let renamed = to_ascii(&renamed);
    let items = |text: &str| -> Vec<String> {
        text.split("  ")
            .map(|item| item.trim().to_owned())
            .filter(|item| !item.is_empty())
            .collect()
    };
    let (wanted, there) = (items(&renamed), items(ascii));
    assert!(wanted.starts_with(&there), "{told}\n{signs}\n{ascii}");
    if let Some(next) = wanted.get(there.len()) {
        let used = ascii.trim_end().len() + "  ".len() + next.len();
        assert!(used > ascii.len(), "{told}: there is room for {next}\n{ascii}");
    }
}
