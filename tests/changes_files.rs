//! Tunes that are opened, saved and found again: nothing that is there is lost unasked.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;

use std::fs;
use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};

use fretloom::library::Library;
use fretloom::score_file;
use fretloom::store::{ChangesSession, Session};
use fretloom::tui::program::Program;
use fretloom_theory::Spelling;
use player::Player;

/// A folder that is gone when the test is over.
struct Folder(PathBuf);

impl Folder {
    fn new() -> Folder {
        static NEXT: AtomicU32 = AtomicU32::new(0);
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let name = format!("fretloom-tunes-{}-{number}", std::process::id());
        let folder = std::env::temp_dir().join(name);
        fs::create_dir_all(&folder).unwrap();
        Folder(folder)
    }

    fn path(&self, name: &str) -> String {
        self.0.join(name).display().to_string()
    }

    fn text(&self, name: &str) -> String {
        fs::read_to_string(self.0.join(name)).unwrap()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// Types a name into the field that a key opens, over what stands there.
fn name(player: &mut Player, key: &str, name: &str) {
    player.press(key);
    player.paste(name);
    player.press("enter");
}

fn tune(text: &str) -> Player {
    let mut player = Player::after("Dm7", "4 c");
    player.paste(text);
    player.press("enter");
    player
}

const TWO_DOORS: &str = "# as we play it\ntitle = \"Two Doors\"\nkey = \"C\"\ntempo = 144\n\n\
                         [[section]]\nname = \"A\"\nbars = \"| Dm7 | G7 | Cmaj7 | % |\"\n";

#[test]
fn a_tune_is_saved_and_opened_again() {
    let folder = Folder::new();
    let mut player = tune("[A] Dm7 | G7 | Cmaj7 | %");
    player.press("y T w o space D o o r s enter right p");
    let settled = format!("{:#}", player.program.changes().chord().unwrap().pair);
    name(&mut player, "x", &folder.path("two.toml"));
    assert!(player.shows("saved in "), "{}", player.screen());
    assert!(player.line(0).contains("two.toml"), "{}", player.line(0));
    assert!(!player.line(0).contains("changed"));
    let saved = folder.text("two.toml");
    assert!(saved.contains("Two Doors") && saved.contains(&settled), "{saved}");
    // What is changed is told, and saved in the same file without a question.
    player.press("home enter D m 9 enter");
    assert!(player.line(0).contains("two.toml, changed"), "{}", player.line(0));
    player.press("x");
    assert!(folder.text("two.toml").contains("Dm9"), "{}", folder.text("two.toml"));
    assert!(!player.line(0).contains("changed"), "{}", player.line(0));
    let mut other = Player::after("Dm7", "4");
    name(&mut other, "o", &folder.path("two.toml"));
    assert!(other.line(0).starts_with("Two Doors"), "{}", other.line(0));
    assert!(other.shows("1 Dm9"), "{}", other.screen());
    other.press("right");
    assert_eq!(format!("{:#}", other.program.changes().chord().unwrap().pair), settled);
    // Opening is a step like any other.
    other.press("z");
    assert!(other.line(0).starts_with("a tune without a name"), "{}", other.line(0));
    other.press("Z");
    assert!(other.line(0).starts_with("Two Doors"), "{}", other.line(0));
}

#[test]
fn no_file_is_written_over_unasked() {
    let folder = Folder::new();
    fs::write(folder.path("mine.toml"), TWO_DOORS).unwrap();
    let mut player = tune("C | F");
    name(&mut player, "x", &folder.path("mine.toml"));
    assert!(player.shows("is there already"), "{}", player.screen());
    assert_eq!(folder.text("mine.toml"), TWO_DOORS);
    // Leaving the field is an answer too.
    player.press("esc");
    name(&mut player, "x", &folder.path("mine.toml"));
    assert_eq!(folder.text("mine.toml"), TWO_DOORS);
    player.press("enter");
    assert!(player.shows("saved in "), "{}", player.screen());
    assert!(folder.text("mine.toml").contains("| C | F |"));
}

/// Two stabs a bar, the top voice moving three semitones at most, as every program reads them; nothing
/// that is there is lost unasked.
#[test]
fn the_stabs_are_written_to_files() {
    let folder = Folder::new();
    let mut player = tune("Dm7 | G7 | Cmaj7 | %");
    for (file, begins) in [("a.mid", "MThd"), ("a.musicxml", "<?xml"), ("a.txt", "Guitar, ")] {
        name(&mut player, "C", &folder.path(file));
        assert!(player.shows("written to "), "{}", player.screen());
        assert!(fs::read(folder.path(file)).unwrap().starts_with(begins.as_bytes()), "{file}");
    }
    let bytes = fs::read(folder.path("a.mid")).unwrap();
    let read = score_file::read(&bytes, &score_file::Choice::default()).unwrap();
    let notes = read.score().parts[0].notes();
    assert_eq!(notes.len(), 4 * 2 * 3);
    let stabs = notes.chunk_by(|one, other| one.onset() == other.onset());
    let tops: Vec<u8> = stabs
        .map(|stab| stab.iter().map(|note| note.pitch().pitch().midi()).max().unwrap())
        .collect();
    assert_eq!(tops.len(), 8);
    assert!(tops.windows(2).all(|pair| pair[0].abs_diff(pair[1]) <= 3), "{tops:?}");
    let tab = folder.text("a.txt");
    assert!(tab.lines().filter(|line| line.starts_with("2 B |")).count() >= 1, "{tab}");
    name(&mut player, "C", &folder.path("a.txt"));
    assert!(player.shows("once more replaces it"), "{}", player.screen());
    player.press("esc");
    // Where nothing can be held nothing is written, and the keys that help are named.
    player.press("/ 2 0 - 2 2 space 6 - 5 - 4 enter");
    name(&mut player, "C", &folder.path("none.mid"));
    assert!(player.shows("no stabs here: "), "{}", player.screen());
    assert!(player.shows("t takes other strings"), "{}", player.screen());
    assert!(!PathBuf::from(folder.path("none.mid")).exists());
}

/// A file of bars stays as its player typed it: nothing can be settled in it. What is wished has no place
/// in a chart, and that is said.
#[test]
fn a_file_of_bars_alone_stays_as_it_is() {
    let folder = Folder::new();
    fs::write(folder.path("blues.txt"), "C7 | F7 | C7 | %\n").unwrap();
    let mut player = Player::after("Dm7", "4");
    name(&mut player, "o", &folder.path("blues.txt"));
    player.press("p x");
    assert!(player.shows("holds bars alone"), "{}", player.screen());
    assert_eq!(folder.text("blues.txt"), "C7 | F7 | C7 | %\n");
    player.press("enter");
    assert!(player.shows("saved in "), "{}", player.screen());
    assert!(!player.shows("is not saved with it"), "{}", player.screen());
    assert!(folder.text("blues.toml").contains("[[choice]]"), "{}", folder.text("blues.toml"));
    assert_eq!(folder.text("blues.txt"), "C7 | F7 | C7 | %\n");
    player.press("w o n c e enter p x");
    let told = player.screen().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains("what is wished is not saved with it"), "{}", player.screen());
}

/// What somebody else has written meanwhile stays, and so does what a file says beside its bars.
#[test]
fn a_file_keeps_what_others_wrote() {
    let folder = Folder::new();
    fs::write(folder.path("two.toml"), TWO_DOORS).unwrap();
    let mut player = Player::after("Dm7", "4");
    name(&mut player, "o", &folder.path("two.toml"));
    assert!(player.line(0).contains("♩=144"), "{}", player.line(0));
    player.press("right p x");
    let saved = folder.text("two.toml");
    assert!(saved.starts_with("# as we play it") && saved.contains("[[choice]]"), "{saved}");
    let elsewhere = format!("{saved}# mended by ear\n");
    fs::write(folder.path("two.toml"), &elsewhere).unwrap();
    player.press("p x");
    assert!(player.shows("has been changed since it was read"), "{}", player.screen());
    assert_eq!(folder.text("two.toml"), elsewhere);
}

#[test]
fn what_cannot_be_opened_says_why_and_leaves_the_tune() {
    let folder = Folder::new();
    fs::write(folder.path("noise"), [0_u8, 159, 146, 150]).unwrap();
    fs::write(folder.path("open.txt"), "|: Dm7 | G7 |").unwrap();
    for (file, said) in [
        ("none.toml", "cannot read"),
        (".", "cannot read"),
        ("noise", "noise"),
        ("open.txt", "expected a :| for this |:"),
    ] {
        let mut player = tune("C | F");
        name(&mut player, "o", &folder.path(file));
        let screen = player.screen().split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(screen.contains(said), "{file}: {}", player.screen());
        player.press("esc esc");
        assert!(player.shows("1 C"), "{}", player.screen());
    }
    // One bar that cannot be read costs that bar.
    fs::write(folder.path("half.txt"), "| Dm7 | Gx7 | Cmaj7 |").unwrap();
    let mut player = tune("C | F");
    name(&mut player, "o", &folder.path("half.txt"));
    assert!(player.shows("found `Gx7`") && player.shows("2 ?"), "{}", player.screen());
    assert_eq!(player.program.changes().chord().unwrap().chord().to_string(), "Dm7");
    player.press("right enter");
    player.paste("G7");
    player.press("enter");
    assert!(player.shows("2 G7"), "{}", player.screen());
}

/// Everything is there tomorrow, where one was; what no longer means anything is passed over.
#[test]
fn the_tune_is_there_again_tomorrow() {
    let mut player = tune("[A] Dm7 | G7 | Cmaj7 | %");
    player.press("right p y T w o enter / V space 3 - 2 - 1 enter w o n c e enter n h");
    let (session, screen) = (player.program.session(), player.screen());
    let mut tomorrow = Player::with("Dm7");
    tomorrow.program.take_up(&session);
    tomorrow.resize(80, 24);
    let without_notice = |screen: &str| -> Vec<String> {
        screen.lines().filter(|line| !line.contains("settled")).map(str::to_owned).collect()
    };
    assert_eq!(without_notice(&tomorrow.screen()), without_notice(&screen));
    assert_eq!(tomorrow.program.session(), session);
    // Nobody who has not been here keeps anything of it, and an old session has nothing.
    assert_eq!(Player::with("Dm7").program.session().changes, None);
    let old: Session = serde_json::from_str("{\"chord\":\"Dm7\",\"screen\":\"changes\"}").unwrap();
    let mut program =
        Program::open(None, "guitar-standard", Library::load(None), Spelling::Plain).unwrap();
    program.take_up(&old);
    let odd = || Some("\u{1b}[31m 99999999999999999999".to_owned());
    program.take_up(&Session {
        changes: Some(ChangesSession {
            chart: odd(),
            melody: odd(),
            file: odd(),
            area: odd(),
            wishes: odd(),
            held: odd().into_iter().collect(),
            plan: Some(u32::MAX),
            at: Some(u32::MAX),
            labels: odd(),
        }),
        ..old
    });
    assert!(program.changes().plan().is_none());
}

/// Presses keys as a player would, and says how many.
fn keys(player: &mut Player, keys: &str) -> usize {
    player.press(keys);
    keys.split_whitespace().count()
}

/// Twelve bars typed, planned with the hand on three strings, gone through, overruled twice and written
/// as MIDI and tablature: so many keys are needed beside what is typed.
#[test]
fn a_tune_from_its_chords_to_its_files() {
    let folder = Folder::new();
    let mut player = Player::with("Dm7");
    let opened = keys(&mut player, "4 c");
    player
        .paste("F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7 | Am7b5 D7 | Gm7 | C7 | F7 D7 | Gm7 C7");
    assert_eq!(opened + keys(&mut player, "enter"), 3);
    // The plan is there, and the hand on strings 4-3-2 unless it is sent elsewhere.
    assert!(player.line(1).contains("pairs"), "{}", player.screen());
    assert!(player.shows("─ strings 4-3-2, frets 1–12 ─"), "{}", player.screen());
    for _ in 0..16 {
        let hand = player.program.changes().chord().unwrap().hand.unwrap();
        assert!(hand.shape.shape.places().iter().all(|at| (2..=4).contains(&at.string.number())));
        keys(&mut player, "right");
    }
    assert!(player.shows("▸ 1 F7"), "all sixteen chords, and back");
    assert_eq!(keys(&mut player, "right p"), 2);
    assert_eq!(keys(&mut player, "right right s"), 3);
    let chords = &player.program.changes().plan().unwrap().chords;
    let settled = chords.iter().filter(|chord| chord.settled.is_some());
    let settled: Vec<String> = settled.map(|chord| chord.chord().to_string()).collect();
    assert_eq!(settled, ["B♭7", "Cm7"]);
    let written = keys(&mut player, "W w");
    player.paste(&folder.path("blues.mid"));
    assert_eq!(written + keys(&mut player, "enter"), 3);
    assert!(player.shows("written to "), "{}", player.screen());
    assert!(fs::read(folder.0.join("blues.mid")).unwrap().starts_with(b"MThd"));
    name(&mut player, "w", &folder.path("blues.txt"));
    let tab = folder.text("blues.txt");
    for string in ["1 E", "5 A", "6 E"] {
        let mut lines = tab.lines().filter(|line| line.trim_start().starts_with(string)).peekable();
        assert!(lines.peek().is_some(), "{tab}");
        for line in lines {
            assert!(
                !line[line.find('|').unwrap()..].contains(|sign: char| sign.is_ascii_digit()),
                "{line}"
            );
        }
    }
    player.press("4");
    assert!(player.shows("B♭7"), "the tune is where it was");
}

/// A thousand bars whose chords differ, in twelve keys.
fn thousand_bars() -> String {
    let roots = ["C", "F", "Bb", "Eb", "Ab", "Db", "Gb", "B", "E", "A", "D", "G"];
    let kinds = ["m7", "7", "maj7", "m7b5", "7alt", "6", "7sus4", "m6"];
    let bar = |n: usize| format!("{}{}", roots[n * 5 % 12], kinds[(n + n / 12) % 8]);
    (0..1_000).map(bar).collect::<Vec<_>>().join(" | ")
}

/// A tune of a thousand bars is opened from its file, gone through, changed in one bar and saved; the
/// plan leaves what is settled far away where it was.
#[test]
fn a_thousand_bars_are_a_tune_like_any_other() {
    let folder = Folder::new();
    let before = thousand_bars();
    fs::write(folder.0.join("long.txt"), &before).unwrap();
    let mut player = Player::after("Dm7", "4");
    name(&mut player, "o", &folder.path("long.txt"));
    assert!(player.line(0).contains("1000 bars"), "{}", player.screen());
    player.press("right p");
    let settled = player.program.changes().chord().unwrap().pair;
    for size in [(80, 24), (200, 50), (40, 6)] {
        player.resize(size.0, size.1);
        player.press("end");
        assert!(player.shows("▸1000"), "{}", player.screen());
        player.press("up up left left right home down j pageup");
    }
    player.resize(80, 24);
    player.press("end enter E 7 a l t enter");
    assert_eq!(player.program.changes().chord().unwrap().chord().to_string(), "E7alt");
    player.press("home right");
    let chord = player.program.changes().chord().unwrap();
    assert!(chord.settled.is_some() && chord.pair == settled);
    name(&mut player, "X", &folder.path("long.toml"));
    let saved = folder.text("long.toml");
    assert!(saved.contains("E7alt") && saved.contains("[[choice]]"), "{saved:.200}");
    player.press("end z");
    assert!(player.shows("▸1000 "), "{}", player.screen());
}
