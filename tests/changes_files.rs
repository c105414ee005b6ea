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
