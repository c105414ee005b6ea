//! The program with a keyboard and a mouse, whose screen and state are told in a few words.

#![allow(dead_code, reason = "each test program uses its own part of this")]

use std::ops::RangeInclusive;
use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::Duration;

use fretloom::answer::NamedShape;
use fretloom::library::Library;
use fretloom::sound::{Player as _, Samples, SilentPlayer};
use fretloom::store::KeeperStore;
use fretloom::tui::event::{Event, SoundNews};
use fretloom::tui::key::Key;
use fretloom::tui::mouse::{Pointed, Pointer};
use fretloom::tui::program::{Effect, Program};
use fretloom::tui::runtime::App;
use fretloom::tui::text_of;
use fretloom::tui::theme::Theme;
use fretloom_theory::Spelling;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use crate::neck_reader::DrawnNeck;

/// What the first line says at the beginning, on Gmaj7♯11.
pub(crate) const OPENED: &str =
    "Gmaj7♯11   G Lydian, the notes of D major        Guitar, standard  E A D G B E";
/// The first line of the help page, and its first heading.
pub(crate) const HELP_TOP: &str = "Every key, or type a word:";
pub(crate) const HELP_FIRST: &str = "Chord, pairs and neck";

/// The program with a keyboard, and the effects it has asked for.
pub(crate) struct Player {
    pub(crate) program: Program,
    columns: u16,
    rows: u16,
    pub(crate) effects: Vec<Effect>,
    /// What it plays, by a clock of the test's own.
    pub(crate) sound: SilentPlayer,
    /// The greatest sample that was heard.
    pub(crate) loudest: Arc<Mutex<f32>>,
}

/// Samples on their way to the player of sound.
struct Tapped {
    samples: Box<dyn Samples>,
    loudest: Arc<Mutex<f32>>,
}

impl Samples for Tapped {
    fn fill(&mut self, block: &mut [f32]) -> usize {
        let given = self.samples.fill(block);
        let mut loudest = self.loudest.lock().unwrap();
        *loudest = block[..given].iter().fold(*loudest, |most, sample| most.max(sample.abs()));
        given
    }
}

impl Player {
    pub(crate) fn with(chord: &str) -> Player {
        Player::on(chord, "guitar-standard")
    }

    pub(crate) fn on(chord: &str, tuning: &str) -> Player {
        let library = Library::load(None);
        let open = Program::open(Some(chord), tuning, library, Spelling::Plain);
        Player::of(open.unwrap())
    }

    pub(crate) fn of(mut program: Program) -> Player {
        program.use_theme(Theme::monochrome());
        let mut player = Player {
            program,
            columns: 0,
            rows: 0,
            effects: Vec::new(),
            sound: SilentPlayer::new(),
            loudest: Arc::default(),
        };
        player.resize(80, 24);
        player
    }

    /// A player who keeps things in that folder, on the sixth of May.
    pub(crate) fn keeping_in(folder: &Path) -> Player {
        let mut player = Player::with("Gmaj7#11");
        player.program.use_keepers(KeeperStore::in_folder(folder));
        player.at("2026-05-06T09:00[UTC]");
        player
    }

    /// Tells the time.
    pub(crate) fn at(&mut self, time: &str) {
        self.tell(Event::Time(time.parse().unwrap()));
    }

    pub(crate) fn after(chord: &str, keys: &str) -> Player {
        let mut player = Player::with(chord);
        player.press(keys);
        player
    }

    pub(crate) fn press(&mut self, keys: &str) {
        for key in keys.split_whitespace() {
            let key: Key = key.parse().unwrap();
            self.tell(Event::Key(key));
        }
    }

    /// Tells the program something, and does what it asks for as the runtime does: jobs at once.
    pub(crate) fn tell(&mut self, event: Event) {
        let effects = self.program.update(event);
        self.carry_out(effects);
    }

    fn carry_out(&mut self, effects: Vec<Effect>) {
        for effect in effects {
            match effect {
                Effect::Work(job) => {
                    let effects = self.program.finish(job.run());
                    self.carry_out(effects);
                }
                Effect::Play(samples) => {
                    let loudest = Arc::clone(&self.loudest);
                    self.sound.start(Box::new(Tapped { samples, loudest }));
                }
                Effect::StopPlaying => self.sound.stop(),
                Effect::KeepFrame => {}
                other => self.effects.push(other),
            }
        }
    }

    /// Lets time pass, and has the program told of it as often as the runtime does.
    pub(crate) fn wait(&mut self, milliseconds: u64) {
        const TICK: u64 = 20;
        let mut left = milliseconds;
        while left > 0 {
            self.sound.advance(Duration::from_millis(left.min(TICK)));
            left = left.saturating_sub(TICK);
            self.tell_of_sound();
        }
    }

    /// What the player of sound is doing.
    pub(crate) fn sounds(&self) -> String {
        format!("{:?}", self.sound.state())
    }

    /// Tells how what is played is going.
    pub(crate) fn tell_of_sound(&mut self) {
        let (state, position) = (self.sound.state(), self.sound.position());
        self.tell(Event::Sound(SoundNews { state, position, way: None }));
    }

    pub(crate) fn paste(&mut self, text: &str) {
        self.tell(Event::Paste(text.to_owned()));
    }

    /// Points at where a text begins on the screen, some columns on.
    pub(crate) fn point(&mut self, text: &str, on: u16, what: Pointed) {
        let (column, row) = self.place_of(text, on);
        self.point_at(column, row, what);
    }

    /// Column and row of where a text begins on the screen, some columns on.
    pub(crate) fn place_of(&self, text: &str, on: u16) -> (u16, u16) {
        let screen = self.screen();
        let (row, line) = screen.lines().enumerate().find(|(_, line)| line.contains(text)).unwrap();
        let column = line.split_once(text).unwrap().0.chars().count();
        (u16::try_from(column).unwrap() + on, u16::try_from(row).unwrap())
    }

    pub(crate) fn point_at(&mut self, column: u16, row: u16, what: Pointed) {
        self.tell(Event::Mouse(Pointer { column, row, what }));
    }

    pub(crate) fn resize(&mut self, columns: u16, rows: u16) {
        (self.columns, self.rows) = (columns, rows);
        self.tell(Event::Resize { columns, rows });
    }

    pub(crate) fn buffer(&self) -> Buffer {
        let area = Rect::new(0, 0, self.columns, self.rows);
        let mut buffer = Buffer::empty(area);
        self.program.draw(area, &mut buffer);
        buffer
    }

    pub(crate) fn screen(&self) -> String {
        text_of(&self.buffer())
    }

    pub(crate) fn shows(&self, text: &str) -> bool {
        self.screen().contains(text)
    }

    /// A line of the screen, without the spaces before it.
    pub(crate) fn line(&self, row: usize) -> String {
        self.screen().lines().nth(row).unwrap_or_default().trim().to_owned()
    }

    /// What the line that a list marks begins with.
    pub(crate) fn marked(&self) -> String {
        let screen = self.screen();
        let marked = screen.lines().find_map(|line| line.trim_start().strip_prefix("▸ "));
        let words = marked.unwrap_or_default();
        words.split("  ").next().unwrap_or_default().to_owned()
    }

    /// The frets that the drawn neck numbers, as `1-11`.
    pub(crate) fn frets(&self) -> String {
        let frets = self.frets_drawn();
        format!("{}-{}", frets.start(), frets.end())
    }

    pub(crate) fn frets_drawn(&self) -> RangeInclusive<u8> {
        DrawnNeck::read(&self.buffer()).unwrap().frets
    }

    pub(crate) fn chord(&self) -> String {
        let answer = self.program.explore().pairs().harmony.chord().unwrap();
        answer.read.chord.to_string()
    }

    pub(crate) fn scale(&self) -> String {
        self.program.explore().pairs().harmony.scale().scale().to_string()
    }

    pub(crate) fn pair(&self) -> String {
        format!("{:#}", self.program.explore().pair().unwrap().name())
    }

    /// The shape in hand.
    pub(crate) fn named_shape(&self) -> Option<NamedShape> {
        self.program.explore().shape(self.program.neck())
    }

    /// The shape in hand as `A 7-6-5`.
    pub(crate) fn shape(&self) -> String {
        let shape = self.named_shape().unwrap();
        format!("{:#} {}", shape.triad, shape.frets.map(|fret| fret.to_string()).join("-"))
    }

    pub(crate) fn strings(&self) -> String {
        self.program.explore().strings().unwrap().to_string()
    }

    pub(crate) fn tuning(&self) -> String {
        self.program.neck().tuning().id().to_owned()
    }

    /// The line below the one that says the shape in hand: numbers, strings and inlays lie between it
    /// and the rule over the neck.
    pub(crate) fn told(&self) -> String {
        let screen = self.screen();
        let rule = screen.lines().position(|line| line.starts_with("─ frets"));
        self.line(rule.unwrap() + self.program.neck().tuning().string_count() + 4)
    }

    /// What the rule over the neck says is looked at.
    pub(crate) fn looks(&self) -> String {
        let screen = self.screen();
        let rule = screen.lines().find(|line| line.starts_with("─ frets")).unwrap_or_default();
        rule.split(" ─ ").nth(2).unwrap_or_default().to_owned()
    }

    /// The fingers in hand as `3-2-1`.
    pub(crate) fn fingers(&self) -> String {
        let fingers = self.named_shape().unwrap().shape.fingers().unwrap();
        fingers.map(|finger| finger.number().to_string()).join("-")
    }

    pub(crate) fn capo(&self) -> String {
        self.program.neck().tuning().capo().to_string()
    }

    /// Is every fret of the shape in hand on the drawn neck?
    pub(crate) fn hand_is_in_view(&self) -> bool {
        let shown = self.frets_drawn();
        let shape = self.named_shape().unwrap();
        shape.frets.iter().all(|fret| fret.is_open() || shown.contains(&fret.number()))
    }
}
