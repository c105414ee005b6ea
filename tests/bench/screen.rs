//! From a key to the drawn frame, beside filling the same cells with letters.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/ratio.rs"]
mod ratio;

use divan::{Bencher, black_box};
use fretloom::library::Library;
use fretloom::tui::event::Event;
use fretloom::tui::explore::Explore;
use fretloom::tui::runtime::App;
use fretloom_theory::Spelling;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratio::Ratios;

/// Columns and rows: the classic terminal, and a large one.
const SIZES: [(u16, u16); 2] = [(80, 24), (200, 50)];

/// What is asked for, with its built-in key.
const KEYS: [(&str, &str); 4] =
    [("next pair", "down"), ("climb", "space"), ("next scale", "s"), ("labels", "n")];

/// The explorer on a screen, as the runtime has it.
struct Screen {
    explore: Explore,
    buffer: Buffer,
}

impl Screen {
    fn of((columns, rows): (u16, u16)) -> Screen {
        let library = Library::load(None);
        let explore = Explore::open(None, "guitar-standard", library, Spelling::Plain);
        let mut explore = explore.unwrap();
        explore.update(Event::Resize { columns, rows });
        Screen { explore, buffer: Buffer::empty(Rect::new(0, 0, columns, rows)) }
    }

    fn press(&mut self, event: &Event) {
        self.explore.update(black_box(event.clone()));
        self.buffer.reset();
        self.explore.draw(self.buffer.area, &mut self.buffer);
    }

    /// No frame can be cheaper that writes every cell.
    fn fill(&mut self) {
        self.buffer.reset();
        for (cell, letter) in self.buffer.content.iter_mut().zip(('a'..='z').cycle()) {
            cell.set_char(black_box(letter));
        }
    }
}

fn key(name: &str) -> Event {
    Event::Key(name.parse().unwrap())
}

#[divan::bench(args = SIZES)]
fn fill_cell_by_cell(bencher: Bencher<'_, '_>, size: (u16, u16)) {
    let mut screen = Screen::of(size);
    bencher.bench_local(|| screen.fill());
}

#[divan::bench_group]
mod key_to_frame {
    use super::*;

    fn press(bencher: Bencher<'_, '_>, size: (u16, u16), name: &str) {
        let mut screen = Screen::of(size);
        let event = key(name);
        bencher.bench_local(|| screen.press(&event));
    }

    #[divan::bench(args = SIZES)]
    fn next_pair(bencher: Bencher<'_, '_>, size: (u16, u16)) {
        press(bencher, size, "down");
    }

    #[divan::bench(args = SIZES)]
    fn climb(bencher: Bencher<'_, '_>, size: (u16, u16)) {
        press(bencher, size, "space");
    }

    #[divan::bench(args = SIZES)]
    fn next_scale(bencher: Bencher<'_, '_>, size: (u16, u16)) {
        press(bencher, size, "s");
    }

    #[divan::bench(args = SIZES)]
    fn labels(bencher: Bencher<'_, '_>, size: (u16, u16)) {
        press(bencher, size, "n");
    }
}

fn main() {
    divan::main();
    for size @ (columns, rows) in SIZES {
        let mut filled = Screen::of(size);
        let mut ratios = Ratios::to("fill cell by cell", move || filled.fill());
        for (what, name) in KEYS {
            let (mut screen, event) = (Screen::of(size), key(name));
            ratios = ratios.and(what, move || screen.press(&event));
        }
        ratios.print(&format!("key to frame at {columns}x{rows}"));
    }
}
