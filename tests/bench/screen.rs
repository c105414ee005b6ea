//! From a key to the drawn frame, beside filling the same cells with letters.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use std::cell::Cell;
use std::io::{self, Write};
use std::rc::Rc;
use std::time::{Duration, Instant};

use divan::{Bencher, black_box};
use effort::Effort;
use fretloom::library::Library;
use fretloom::store::{ChangesSession, Session};
use fretloom::tui::command::{COMMANDS, Section};
use fretloom::tui::event::Event;
use fretloom::tui::key::Key;
use fretloom::tui::keys::Keys;
use fretloom::tui::program::{Effect, Program};
use fretloom::tui::runtime::App;
use fretloom_theory::Spelling;
use ratatui::backend::CrosstermBackend;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::{Terminal, TerminalOptions, Viewport};
use ratio::Ratios;

/// Columns and rows: the classic terminal, and a large one.
const SIZES: [(u16, u16); 2] = [(80, 24), (200, 50)];

/// What is asked for, with its built-in key.
const KEYS: [(&str, &str); 4] =
    [("next pair", "down"), ("climb", "space"), ("next scale", "s"), ("labels", "n")];

/// The explorer on a screen, as the runtime has it.
struct Screen {
    program: Program,
    buffer: Buffer,
}

impl Screen {
    fn of((columns, rows): (u16, u16)) -> Screen {
        let library = Library::load(None);
        let program = Program::open(None, "guitar-standard", library, Spelling::Plain);
        let mut program = program.unwrap();
        program.update(Event::Resize { columns, rows });
        Screen { program, buffer: Buffer::empty(Rect::new(0, 0, columns, rows)) }
    }

    fn press(&mut self, event: &Event) {
        self.program.update(black_box(event.clone()));
        self.buffer.reset();
        self.program.draw(self.buffer.area, &mut self.buffer);
    }

    /// Does what is to be worked out, and what follows from that.
    fn work(&mut self, effects: Vec<Effect>) {
        for effect in effects {
            if let Effect::Work(job) = effect {
                let effects = self.program.finish(job.run());
                self.work(effects);
            }
        }
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

/// The changes screen with a tune of so many bars whose chords differ, its plan found; of what is typed
/// from then on the bars are drawn at once, and their plan is left to a job.
struct Tune {
    screen: Screen,
    typed: Vec<Vec<Event>>,
    next: usize,
}

impl Tune {
    fn of(bars: usize, size: (u16, u16)) -> Tune {
        let roots = ["C", "F", "Bb", "Eb", "Ab", "Db", "Gb", "B", "E", "A", "D", "G"];
        let kinds = ["m7", "7", "maj7", "m7b5", "7alt", "6", "7sus4", "m6"];
        let bar = |n: usize| format!("{}{}", roots[n * 5 % 12], kinds[(n + n / 12) % 8]);
        let bars: Vec<String> = (0..bars).map(bar).collect();
        let chart = format!("[[section]]\nbars = \"{}\"\n", bars.join(" | "));
        let changes = Some(ChangesSession {
            chart: Some(chart),
            area: Some("1-12 4-3-2".to_owned()),
            ..ChangesSession::default()
        });
        let mut screen = Screen::of(size);
        screen.program.take_up(&Session { changes, ..Session::default() });
        let effects = screen.program.update(key("4"));
        screen.work(effects);
        // A bar in the middle.
        for name in "end up up right right enter G 7 enter".split(' ') {
            let effects = screen.program.update(key(name));
            screen.work(effects);
        }
        let keys = |keys: &str| keys.split(' ').map(key).collect();
        let typed = vec![keys("enter D m 9 enter"), keys("enter G 1 3 enter")];
        Tune { screen, typed, next: 0 }
    }

    /// To the next chord, its bars, neck, words and lists drawn.
    fn step(&mut self) {
        self.screen.press(&key("right"));
    }

    /// Another chord typed in the bar in hand, drawn once.
    fn type_bar(&mut self) {
        self.next = 1 - self.next;
        for event in self.typed[self.next].clone() {
            black_box(self.screen.program.update(event));
        }
        self.screen.buffer.reset();
        self.screen.program.draw(self.screen.buffer.area, &mut self.screen.buffer);
    }
}

/// Counts what is written and keeps nothing of it.
struct Meter(Rc<Cell<usize>>);

impl Write for Meter {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.set(self.0.get() + bytes.len());
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// An evening's keys: every command of the explorer, and chords, lists and searches as they come.
const EVENING: &str = "c D m 7 enter down down up n n space space space backspace 1 2 2 T t l space \
    space l e down down enter down w 7 enter w backspace enter v x x X v x space v x v x V V V V h h \
    o o n n n p p c B b m a j 7 enter down space space space space s S g d r o p enter space space z \
    Z i i I I r r y y W W L L f f f f m right right left home end home 8 < > N H M M tab c a p o esc \
    esc ? pagedown pagedown esc c G 7 a l t enter down down down k j space space 2 2 a b u d s space \
    S e pagedown enter down down space e pageup enter space down down space D esc P V enter P enter 5 6 Y esc \
    f5 f6 f7 f5 f6 f7 3 3 4 4";

/// An hour with a line: every command of its screen, over three chords, with aims and in keys.
const LINE: &str = "3 c D m 7 | G 7 | C m a j 7 enter e 1 2 3 2 space 3 2 1 a enter E 8 enter g 3 @ 2 . 1 \
    space 3 @ 3 . 1 enter right right left up down u d U D o i i y a l delete z z z Z pagedown pageup \
    home end p P f F r R j k s S x X x t T v 1 2 v v v V / V enter / enter b B m O + - h H n n n n N \
    7 7 7 & & & right right up y a 8 C f F r j s p W A L K * G I B 3 : 4 space C 4 enter x X Q space \
    space Y esc w esc f5 f5 3 3 4 4";

/// The keys that ask for the most: the chromatic scale, and there 366, then up to 840 pairs.
const HARDEST: &str = "e pagedown enter down f f f f";

/// Each step of a walk, with the program's whole way from a key to what goes to the terminal. A
/// busy neighbour takes a step now and then, so the walk is walked many times from the same
/// beginning, and each step has the median of its times.
fn walk(name: &str, keys: &'static str, size: (u16, u16), rounds: usize) {
    let walks: Vec<Vec<Step>> = (0..rounds).map(|_| walked(keys, size)).collect();
    let mut steps: Vec<Step> = (0..walks[0].len())
        .map(|at| {
            let mut times: Vec<Step> = walks.iter().map(|walk| walk[at]).collect();
            times.sort_unstable();
            times[rounds / 2]
        })
        .collect();
    let mut sizes: Vec<usize> = steps.iter().map(|step| step.bytes).collect();
    steps.sort_unstable();
    sizes.sort_unstable();
    let at = |hundredths: usize| ((steps.len() - 1) * hundredths).div_ceil(100);
    let step = |hundredths| steps[at(hundredths)];
    let (p99, most) = (step(99), step(100));
    println!("\n{name}: {} keys at {}x{}, {rounds} times", steps.len(), size.0, size.1);
    println!(
        "  time   median {:.2?}, p99 {:.2?} (`{}`), most {:.2?} (`{}`)",
        step(50).time,
        p99.time,
        p99.key,
        most.time,
        most.key
    );
    println!("  bytes  median {}, most {}", sizes[at(50)], sizes[at(100)]);
}

/// Does the walk leave out no command?
fn is_whole(keys: &str, section: Section) -> bool {
    let (map, _) = Keys::built_in();
    let asked: Vec<Key> = keys.split_whitespace().map(|key| key.parse().unwrap()).collect();
    let mut rows = COMMANDS.iter().filter(|row| row.listed == section);
    rows.all(|row| map.of(row).iter().any(|key| asked.contains(key)))
}

/// A key and what it cost.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Step {
    time: Duration,
    key: &'static str,
    bytes: usize,
}

fn walked(keys: &'static str, (columns, rows): (u16, u16)) -> Vec<Step> {
    let written = Rc::new(Cell::new(0));
    let viewport = Viewport::Fixed(Rect::new(0, 0, columns, rows));
    let backend = CrosstermBackend::new(Meter(Rc::clone(&written)));
    let mut terminal = Terminal::with_options(backend, TerminalOptions { viewport }).unwrap();
    let mut screen = Screen::of((columns, rows));
    terminal.draw(|frame| screen.program.view(frame)).unwrap();
    let step = |name: &'static str| {
        let event = key(name);
        written.set(0);
        let start = Instant::now();
        screen.program.update(event);
        terminal.draw(|frame| screen.program.view(frame)).unwrap();
        Step { time: start.elapsed(), key: name, bytes: written.get() }
    };
    keys.split_whitespace().map(step).collect()
}

fn main() {
    divan::main();
    assert!(is_whole(EVENING, Section::Explore), "a command is left out");
    assert!(is_whole(LINE, Section::Line), "a command of the line screen is left out");
    let rounds = Effort::of_this_run().choose(41, 1);
    for size in SIZES {
        walk("an evening", EVENING, size, rounds);
        walk("the hardest", HARDEST, size, rounds);
        walk("a line", LINE, size, rounds);
    }
    for size @ (columns, rows) in SIZES {
        let mut filled = Screen::of(size);
        let mut ratios = Ratios::to("fill cell by cell", move || filled.fill());
        for (what, name) in KEYS {
            let (mut screen, event) = (Screen::of(size), key(name));
            ratios = ratios.and(what, move || screen.press(&event));
        }
        ratios.print(&format!("key to frame at {columns}x{rows}"));
    }
    for size @ (columns, rows) in SIZES {
        let mut filled = Screen::of(size);
        let mut ratios = Ratios::to("fill cell by cell", move || filled.fill());
        for bars in [16, 1_000] {
            let [mut stepped, mut typed] = [0, 1].map(|_| Tune::of(bars, size));
            ratios = ratios.and(&format!("next chord of {bars} bars"), move || stepped.step());
            ratios = ratios.and(&format!("one of {bars} bars typed"), move || typed.type_bar());
        }
        ratios.print(&format!("a tune, key to frame at {columns}x{rows}"));
    }
}
