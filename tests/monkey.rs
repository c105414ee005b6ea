//! A player who does anything: random commands, keys, clicks, pastes and sizes, and never a panic.
//!
//! Every run begins with the same seed. 20,000 steps belong to the usual tests, 2,000 where each step
//! is read from the screen; `FRETLOOM_MONKEY=1000000 cargo test --release --test monkey` takes a
//! million of both. Where one fails, the last events are told, and the step at which it did.

#![allow(
    clippy::unwrap_used,
    clippy::print_stderr,
    clippy::panic,
    reason = "a test may stop at the first surprise, and tells what led to it"
)]

#[path = "keepers/folder.rs"]
#[allow(dead_code, reason = "each test program uses its own part of this")]
mod folder;
#[path = "support/neck_reader.rs"]
mod neck_reader;

use std::collections::{BTreeSet, VecDeque};
use std::time::Duration;

use fretloom::library::Library;
use fretloom::sound::{Frames, Player as _, PlayerState, SilentPlayer, SoundError};
use fretloom::tui::command::COMMANDS;
use fretloom::tui::event::{Event, SoundNews};
use fretloom::tui::key::Key;
use fretloom::tui::keys::Keys;
use fretloom::tui::mouse::{Pointed, Pointer};
use fretloom::tui::program::{Effect, Program};
use fretloom::tui::runtime::{App, Subject};
use fretloom::tui::text_of;
use fretloom::tui::theme::Theme;
use fretloom_theory::Spelling;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use crate::folder::Folder;
use crate::neck_reader::DrawnNeck;

/// Steps of the usual run.
const STEPS: usize = 20_000;

/// Steps of the usual run that reads the screen after each of them.
const STEPS_READ: usize = 2_000;

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

fn steps(usual: usize) -> usize {
    let wished = std::env::var("FRETLOOM_MONKEY").ok();
    wished.map_or(usual, |steps| steps.parse().unwrap())
}

fn drawn(program: &Program, (columns, rows): (u16, u16)) -> Buffer {
    let area = Rect::new(0, 0, columns, rows);
    let mut buffer = Buffer::empty(area);
    program.draw(area, &mut buffer);
    buffer
}

/// What the program plays, heard by no one: jobs are done at once, and now and then not at all, as one
/// that another has replaced.
#[derive(Default)]
struct Sounding {
    player: SilentPlayer,
    jobs: u32,
    /// How often it was asked how it goes.
    news: u64,
}

impl Sounding {
    fn tell(&mut self, program: &mut Program, event: Event) {
        let effects = program.update(event);
        self.carry_out(program, effects);
    }

    fn carry_out(&mut self, program: &mut Program, effects: Vec<Effect>) {
        for effect in effects {
            match effect {
                // Nobody knows what names it types, so no file is read or written.
                Effect::Work(job) if job.subject() == Subject::File => {}
                Effect::Work(job) => {
                    self.jobs += 1;
                    if !self.jobs.is_multiple_of(5) {
                        let effects = program.finish(job.run());
                        self.carry_out(program, effects);
                    }
                }
                Effect::Play(samples) => self.player.start(samples),
                Effect::StopPlaying => self.player.stop(),
                _ => {}
            }
        }
    }

    /// Lets time pass, a little or much; now and then the player breaks off.
    fn hear(&mut self, program: &mut Program, milliseconds: u64) {
        self.news += 1;
        if !self.player.state().is_sounding() {
            return;
        }
        self.player.advance(Duration::from_millis(milliseconds % 40));
        let state = match self.news % 97 {
            0 => PlayerState::Failed(SoundError::ServerEnded),
            1 => PlayerState::Opening,
            2 => PlayerState::Stopping,
            _ => self.player.state(),
        };
        // Nobody waits for hours.
        let position = Frames(self.player.position().0 * (1 + milliseconds));
        let news = SoundNews { state, position, way: None };
        self.tell(program, Event::Sound(news));
    }
}

#[test]
fn whatever_is_pressed_every_screen_can_be_drawn() {
    let (keyboard, mut random, mut trail) = (Keyboard::new(), XorShift(0x5eed), Trail::default());
    let library = Library::load(None);
    let mut program = Program::open(None, "guitar-standard", library, Spelling::Plain).unwrap();
    let folder = Folder::holding(include_str!("keepers/format-1.toml"));
    program.use_keepers(folder.store());
    let mut minutes = 0;
    let (mut size, mut sounding) = ((80, 24), Sounding::default());
    for step in 0..steps(STEPS) {
        let event = keyboard.event(&mut random);
        trail.keep(&event);
        let resized = matches!(event, Event::Resize { .. });
        if let Event::Resize { columns, rows } = event {
            size = (columns, rows);
        }
        // Now and then a minute passes, and after many of them a day.
        minutes += u64::from(random.next() % 20 == 0);
        let now = Timestamp::from_second((29_635_200 + minutes as i64) * 60).unwrap();
        sounding.tell(&mut program, Event::Time(now.to_zoned_datetime(TimeZone::UTC)));
        sounding.tell(&mut program, event);
        sounding.hear(&mut program, random.next() % 3_000);
        // A frame costs more than a step, and what a key has broken stays broken for a while.
        if resized || step % 8 == 0 {
            let buffer = drawn(&program, size);
            assert_eq!(buffer.area, Rect::new(0, 0, size.0, size.1));
        }
    }
    program.update(Event::Resize { columns: 80, rows: 24 });
    for key in ["esc", "esc", "esc", "esc"] {
        program.update(Event::Key(key.parse().unwrap()));
    }
    let text = text_of(&drawn(&program, (80, 24)));
    assert!(text.contains("? help  c chord"), "{text}");
}

/// So large a window shows the whole neck.
const WHOLE: (u16, u16) = (200, 50);

/// What is typed into the field that a key opens.
const TYPED: [(&str, &[&str]); 3] = [
    ("c", &["Dm7", "G7alt", "Cmaj7", "Bbm6", "E7b9", "A13sus4", "F#m7b5", "Caug"]),
    (
        "P",
        &["V", "V 3-2-1", "1-12", "XII 4-3-2", "5-8", "3-2-1", "VII 5-9", "", "0-4 2-1-3", "9 9-9"],
    ),
    ("g", &["GCEA", "EADGBE", "EADGBE", "DADGAD", "Guitar, drop D", "EADG", "7 strings"]),
];

/// The keys that change nothing but what is held, where, and how it is looked at.
const HANDS: [&str; 27] = [
    "space",
    "space",
    "backspace",
    "1",
    "2",
    "1",
    "2",
    "t",
    "T",
    "l",
    "v",
    "v",
    "V",
    "x",
    "x",
    "X",
    "h",
    "o",
    "o",
    "down",
    "up",
    "s",
    "<",
    ">",
    "z",
    "Z",
    "n",
];

fn hand_events(random: &mut XorShift) -> Vec<Event> {
    let key = |key: &str| Event::Key(key.parse().unwrap());
    match random.below(40) {
        0..4 => {
            let (opens, texts) = *random.one_of(&TYPED);
            let text = (*random.one_of(texts)).to_owned();
            // What cannot be taken stays in its field, which is left.
            vec![key(opens), Event::Paste(text), key("enter"), key("esc"), key("esc")]
        }
        4 => {
            let (column, row) = (random.below(150), 8 + random.below(30));
            let place = |at| u16::try_from(at).unwrap();
            let what = Pointed::Click;
            vec![Event::Mouse(Pointer { column: place(column), row: place(row), what })]
        }
        5 => vec![key(random.one_of::<&str>(&["i", "I", "I", "f", "p", "m"]))],
        _ => vec![key(random.one_of::<&str>(&HANDS))],
    }
}

/// The words behind a mark on the screen, up to the next space.
fn word_behind<'a>(text: &'a str, mark: &str) -> Option<&'a str> {
    let behind = text.split_once(mark)?.1;
    behind.split([' ', ',']).next()
}

fn strings_of(words: &str) -> BTreeSet<u8> {
    words.split('-').map(|string| string.parse().unwrap()).collect()
}

/// I to XXXVI, by adding up what the letters are worth.
fn roman(numeral: &str) -> u8 {
    let worth = |letter| match letter {
        'I' => 1,
        'V' => 5,
        'X' => 10,
        _ => panic!("{numeral} is no numeral"),
    };
    let letters: Vec<u8> = numeral.chars().map(worth).collect();
    let less = letters.windows(2).filter(|two| two[0] < two[1]).map(|two| 2 * two[0]);
    letters.iter().sum::<u8>() - less.sum::<u8>()
}

/// Reads a screen as a player does: what is in hand is drawn as held, all of it, and lies in the
/// position that stands over the neck, on the strings that are said to be locked or alone, and at
/// the frets that are said to be the only ones; fingers on the neck are those of the line below.
fn assert_hand_is_where_it_is_said_to_be(buffer: &Buffer) {
    let screen = text_of(buffer);
    let Some(rule) = screen.lines().find(|line| line.starts_with("─ frets")) else {
        panic!("no neck:\n{screen}")
    };
    let neck = DrawnNeck::read(buffer).unwrap();
    let has_capo = !neck.bars.is_empty();
    let bar = neck.bars.iter().map(|(_, fret)| *fret).max().unwrap_or_default();
    let shape = screen.lines().find(|line| line.contains(" · frets ")).unwrap_or_default();
    let held: Vec<u8> = neck.held.iter().map(|(_, fret)| *fret).collect();
    let strings: BTreeSet<u8> = neck.held.iter().map(|(string, _)| *string).collect();
    assert_eq!(held.len(), if shape.is_empty() { 0 } else { 3 }, "{screen}");
    let fretted: Vec<u8> = held.iter().copied().filter(|fret| *fret > bar).collect();
    if let Some(frets) = word_behind(shape, " · frets ").filter(|_| !has_capo) {
        let said: BTreeSet<u8> = frets.split('-').map(|fret| fret.parse().unwrap()).collect();
        assert_eq!(held.iter().copied().collect::<BTreeSet<u8>>(), said, "{screen}");
    }
    if rule.contains("shown: finger")
        && let Some(fingers) = word_behind(shape, " · fingers ")
    {
        let label = |at: &(u8, u8)| {
            let mark = neck.marks.iter().find(|mark| (mark.string, mark.fret) == *at);
            mark.map(|mark| mark.label.clone()).unwrap_or_default()
        };
        // From the highest string number down, as grips are written.
        let drawn: Vec<String> = neck.held.iter().rev().map(label).collect();
        assert_eq!(drawn.join("-"), fingers, "{screen}");
    }
    if let Some(position) = word_behind(rule, "─ position ") {
        let position = roman(position);
        let reach = position.saturating_sub(1)..=position + 4;
        assert!(fretted.iter().all(|fret| reach.contains(fret)), "{screen}");
    }
    if let Some(locked) = word_behind(rule, "locked to ") {
        assert!(strings.is_empty() || strings == strings_of(locked), "{screen}");
    }
    let alone = rule.split_once(" alone").and_then(|(before, _)| before.rsplit(' ').next());
    if let Some(alone) = alone {
        assert!(strings.is_subset(&strings_of(alone)), "{screen}");
    }
    if let Some(only) = word_behind(&screen, "only frets ") {
        let (first, last) = only.split_once('–').unwrap();
        let [first, last]: [u8; 2] = [first, last].map(|fret| fret.parse().unwrap());
        let range = first..=last;
        // An open string behind a capo counts as its fret.
        assert!(fretted.iter().all(|fret| range.contains(fret)), "{screen}");
        assert!(has_capo || held.iter().all(|fret| range.contains(fret)), "{screen}");
    }
}

#[test]
fn what_is_in_hand_is_drawn_and_inside_view_and_lock() {
    let (mut random, mut trail) = (XorShift(0x5eed), Trail::default());
    let library = Library::load(None);
    let mut program = Program::open(None, "guitar-standard", library, Spelling::Plain).unwrap();
    program.use_theme(Theme::monochrome());
    program.update(Event::Resize { columns: WHOLE.0, rows: WHOLE.1 });
    let (mut with_shape, mut without) = (0, 0);
    for _ in 0..steps(STEPS_READ) {
        for event in hand_events(&mut random) {
            trail.keep(&event);
            program.update(event);
        }
        let buffer = drawn(&program, WHOLE);
        assert_hand_is_where_it_is_said_to_be(&buffer);
        let held = program.explore().shape(program.neck()).is_some();
        *(if held { &mut with_shape } else { &mut without }) += 1;
    }
    // Neither half of the promise is empty.
    assert!(with_shape > without && without > 0, "{with_shape} with a shape, {without} without");
}
