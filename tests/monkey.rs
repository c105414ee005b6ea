//! A player who does anything: random commands, keys, clicks, pastes and sizes, and never a panic.
//!
//! Every run begins with the same seed. 20,000 steps belong to the usual tests;
//! `FRETLOOM_MONKEY=1000000 cargo test --release --test monkey` takes a million. Where one fails, the
//! last events are told, and the step at which it did.

#![allow(
    clippy::unwrap_used,
    clippy::print_stderr,
    reason = "a test may stop at the first surprise, and tells what led to it"
)]

use std::collections::VecDeque;

use fretloom::library::Library;
use fretloom::tui::command::COMMANDS;
use fretloom::tui::event::Event;
use fretloom::tui::key::Key;
use fretloom::tui::keys::Keys;
use fretloom::tui::mouse::{Pointed, Pointer};
use fretloom::tui::program::Program;
use fretloom::tui::runtime::App;
use fretloom::tui::text_of;
use fretloom_theory::Spelling;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// Steps of the usual run.
const STEPS: usize = 20_000;

/// Letters of chords, wishes and tunings, and keys that mean nothing.
const KEYS: &str = "C D E F G A B b # m a j 7 9 1 3 5 - + / , l t s u left right home end delete \
                    backspace tab backtab f12 alt-x shift-left ctrl-a é 漢 space enter esc";

const PASTES: [&str; 8] = [
    "Dm7",
    "C7alt\n",
    "\u{1b}[31m",
    "漢字 e\u{301}\u{200d}",
    "Bbmaj7#11/D",
    "D A D G B E",
    "7 #11 -13",
    "9999999999999999999999999999999999999999999999999999999999999999999999999999999999999999",
];

/// A small generator, so that the same events come in every run.
struct XorShift(u64);

impl XorShift {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn below(&mut self, count: usize) -> usize {
        usize::try_from(self.next() % count as u64).unwrap()
    }

    fn one_of<'a, T>(&mut self, all: &'a [T]) -> &'a T {
        &all[self.below(all.len())]
    }
}

/// Keys of every command, each command as likely as any other, and those of [`KEYS`].
struct Keyboard {
    commands: Vec<Vec<Key>>,
    others: Vec<Key>,
}

impl Keyboard {
    fn new() -> Keyboard {
        let (keys, _) = Keys::built_in();
        let others = KEYS.split_whitespace().filter_map(|key| key.parse().ok()).collect();
        Keyboard { commands: COMMANDS.iter().map(|row| keys.of(row).to_vec()).collect(), others }
    }

    fn event(&self, random: &mut XorShift) -> Event {
        match random.below(100) {
            0..2 => Event::Resize { columns: size(random, 240), rows: size(random, 70) },
            2..4 => Event::Paste((*random.one_of(&PASTES)).to_owned()),
            4..14 => Event::Mouse(pointer(random)),
            14..35 => Event::Key(*random.one_of(&self.others)),
            _ => {
                let command = random.below(self.commands.len());
                Event::Key(*random.one_of(&self.commands[command]))
            }
        }
    }
}

/// Anywhere, also where no window reaches; often in the rows of an everyday one.
fn pointer(random: &mut XorShift) -> Pointer {
    let what = *random.one_of(&[Pointed::Click, Pointed::WheelUp, Pointed::WheelDown]);
    Pointer { column: size(random, 240), row: size(random, 70), what }
}

/// Often tiny, as those are the sizes where things go wrong.
fn size(random: &mut XorShift, most: usize) -> u16 {
    let most = *random.one_of(&[3, 25, 90.min(most), most]);
    u16::try_from(random.below(most)).unwrap()
}

/// What came last; told where the test falls.
#[derive(Default)]
struct Trail {
    step: usize,
    last: VecDeque<Event>,
}

impl Trail {
    fn keep(&mut self, event: &Event) {
        self.step += 1;
        self.last.push_back(event.clone());
        if self.last.len() > 30 {
            self.last.pop_front();
        }
    }
}

impl Drop for Trail {
    fn drop(&mut self) {
        if std::thread::panicking() {
            eprintln!("at step {}, after {:?}", self.step, self.last);
        }
    }
}

fn steps() -> usize {
    let wished = std::env::var("FRETLOOM_MONKEY").ok();
    wished.map_or(STEPS, |steps| steps.parse().unwrap())
}

fn drawn(program: &Program, (columns, rows): (u16, u16)) -> Buffer {
    let area = Rect::new(0, 0, columns, rows);
    let mut buffer = Buffer::empty(area);
    program.draw(area, &mut buffer);
    buffer
}

#[test]
fn whatever_is_pressed_the_explorer_can_be_drawn() {
    let (keyboard, mut random, mut trail) = (Keyboard::new(), XorShift(0x5eed), Trail::default());
    let library = Library::load(None);
    let mut program = Program::open(None, "guitar-standard", library, Spelling::Plain).unwrap();
    let mut size = (80, 24);
    for step in 0..steps() {
        let event = keyboard.event(&mut random);
        trail.keep(&event);
        let resized = matches!(event, Event::Resize { .. });
        if let Event::Resize { columns, rows } = event {
            size = (columns, rows);
        }
        program.update(event);
        // A frame costs more than a step, and what a key has broken stays broken for a while.
        if resized || step % 8 == 0 {
            let buffer = drawn(&program, size);
            assert_eq!(buffer.area, Rect::new(0, 0, size.0, size.1));
        }
    }
    program.update(Event::Resize { columns: 80, rows: 24 });
    for key in ["esc", "esc", "esc"] {
        program.update(Event::Key(key.parse().unwrap()));
    }
    let text = text_of(&drawn(&program, (80, 24)));
    assert!(text.contains("? help  Tab commands"), "{text}");
}
