//! The program in a real pseudo-terminal: start, resize, suspend, quit, panic, signals.
//!
//! What these tests promise is in two words: the terminal always comes back, once.

#![cfg(unix)]
#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "pseudo_terminal/adverse.rs"]
mod adverse;
#[path = "support/bare_pty.rs"]
mod bare_pty;
#[path = "pseudo_terminal/keeping.rs"]
mod keeping;
#[cfg(target_os = "linux")]
#[path = "pseudo_terminal/linux.rs"]
mod linux;
#[path = "support/mistakes.rs"]
mod mistakes;
#[cfg(target_os = "linux")]
#[path = "pseudo_terminal/playing.rs"]
mod playing;
#[path = "support/program.rs"]
mod program;
#[path = "support/pty.rs"]
mod pty;

use std::process::{Command, Stdio};

use mistakes::mistakes;
use program::Home;

use pty::{DEADLINE, Session, count, positions};

const ENTER_SCREEN: &[u8] = b"\x1b[?1049h";
const LEAVE_SCREEN: &[u8] = b"\x1b[?1049l";
const SHOW_CURSOR: &[u8] = b"\x1b[?25h";
const PASTE_ON: &[u8] = b"\x1b[?2004h";
const PASTE_OFF: &[u8] = b"\x1b[?2004l";
const BEGIN_FRAME: &[u8] = b"\x1b[?2026h";
const END_FRAME: &[u8] = b"\x1b[?2026l";

/// The chord that the program opens with.
const FIRST_CHORD: &str = "Gmaj7♯11";

/// Stands once in every whole frame of the explorer, in one style and so in one run of bytes.
const ONCE_A_FRAME: &[u8] = b"shown: note";

/// What is said where there is no terminal.
const NEEDS_A_TERMINAL: &str = "fretloom: the screen needs a terminal, and this is none; these \
                                commands print text: pairs, scales, triads, chord, shapes, \
                                ladder, neck, line, sheet, changes, explain, finger, tunings (see \
                                fretloom --help)";

fn start(env: &[(&str, &str)]) -> Session {
    let session = Session::start(&[], 24, 80, env);
    session.wait_for(FIRST_CHORD, DEADLINE);
    session
}

/// Waits until a text has gone from the screen.
fn wait_until_gone(session: &Session, text: &str) {
    session.wait_until(&format!("{text:?} to go"), DEADLINE, |_, screen| {
        !screen.contents().contains(text)
    });
}

/// Sends a signal by the shell's own `kill`, which every system has.
fn signal(name: &str, process: u32) {
    let kill = format!("kill -s {name} {process}");
    let status = Command::new("sh").args(["-c", &kill]).status().unwrap();
    assert!(status.success());
}

/// The terminal was taken so many times and has come back as often, in this order.
fn assert_given_back(session: &Session, times: usize) {
    session.wait_for_bytes(SHOW_CURSOR, times, DEADLINE);
    let raw = session.raw();
    for taken in [ENTER_SCREEN, PASTE_ON] {
        assert_eq!(count(&raw, taken), times, "{}", taken.escape_ascii());
    }
    for given in [LEAVE_SCREEN, PASTE_OFF, SHOW_CURSOR] {
        assert_eq!(count(&raw, given), times, "{}", given.escape_ascii());
        let last_taken = positions(&raw, ENTER_SCREEN).last();
        assert!(positions(&raw, given).last() > last_taken);
    }
    assert!(!session.with_screen(|screen| {
        screen.alternate_screen() || screen.hide_cursor() || screen.bracketed_paste()
    }));
    assert!(session.is_in_line_mode());
}

#[test]
fn the_first_frame_comes_unasked_and_whole() {
    let session = start(&[]);
    session.wait_for_bytes(END_FRAME, 1, DEADLINE);
    assert!(session.with_screen(|screen| {
        screen.alternate_screen() && screen.hide_cursor() && screen.bracketed_paste()
    }));
    assert!(!session.is_in_line_mode());
    let raw = session.raw();
    let begin = positions(&raw, BEGIN_FRAME).next();
    let text = positions(&raw, FIRST_CHORD.as_bytes()).next();
    let end = positions(&raw, END_FRAME).next();
    assert!(begin < text && text < end);
    // Buttons and wheel; moves would wake an idle program.
    assert_eq!((count(&raw, b"\x1b[?1000h"), count(&raw, b"\x1b[?1003h")), (1, 0));
}

#[test]
fn a_resize_redraws_at_once() {
    let mut session = start(&[]);
    session.wait_for("frets 1–11 of 22", DEADLINE);
    session.resize(30, 100);
    session.wait_for("frets 1–14 of 22", DEADLINE);
    session.resize(1, 10);
    session.wait_until("the chord alone", DEADLINE, |_, screen| {
        screen.contents().trim() == FIRST_CHORD
    });
    session.resize(10, 40);
    session.wait_for("more from 40×15 on", DEADLINE);
}

/// No resize comes here: the size at the start must have been told.
#[test]
fn scrolling_follows_the_hand_in_a_window_that_was_narrow_from_the_start() {
    let mut session = Session::start(&[], 24, 60, &[]);
    session.wait_for("frets 1–8 of 22", DEADLINE);
    session.send("   ");
    session.wait_for("frets 11-9-10", DEADLINE);
    session.wait_for("frets 4–11 ─", DEADLINE);
}

/// Bars in place of a chord: the tune with the pairs of its chords, which come on their own.
#[test]
fn bars_open_the_changes_of_a_tune() {
    let mut session = Session::start(&["F#m7b5 | B7alt | Em6"], 24, 80, &[]);
    session.wait_for("▸1 F♯m7♭5", DEADLINE);
    session.wait_for("now ", DEADLINE);
    session.send("\x1b[C");
    session.wait_for("▸2 B7alt", DEADLINE);
    session.send("4");
    session.wait_for("frets 1–11 of 22", DEADLINE);
}

#[test]
fn keys_change_the_screen() {
    let mut session = start(&[]);
    let typed = [
        ("S", "scale 5 of 5:"),
        ("s", "scale 1 of 5:"),
        ("\x1b[B", "▸ G & F♯m"),
        ("\x1b[A", "▸ G & A "),
        (" ", "(A) root position"),
        ("\x1b[C", "frets 2–12 of 22"),
        ("?", "type another chord"),
        ("\x1b[6~", "the neck a fret down"),
        ("\r", "frets 2–12 of 22"),
    ];
    for (bytes, seen) in typed {
        session.send(bytes);
        session.wait_for(seen, DEADLINE);
    }
    // A key with Shift is another key, and nobody has given this one a meaning.
    session.send("\x1b[1;2Cn");
    session.wait_for("shown: degree", DEADLINE);
    session.wait_for("frets 2–12 of 22", DEADLINE);
}

#[test]
fn pasted_text_goes_into_the_chord_field_as_text() {
    let mut session = start(&[]);
    session.send("c");
    session.wait_for("Enter take it", DEADLINE);
    session.send("\x1b[200~quit? q\x1b[201~");
    session.wait_for("chord quit? q", DEADLINE);
    session.send("\x1b");
    wait_until_gone(&session, "chord quit? q");
    session.wait_for(FIRST_CHORD, DEADLINE);
    session.send("c\x1b[200~Dm7\x1b[201~\r");
    session.wait_for("D Dorian", DEADLINE);
}

#[test]
fn where_text_is_not_utf_8_every_byte_is_ascii() {
    let session = Session::start(&[], 24, 80, &[("LANG", "C")]);
    session.wait_for("Gmaj7#11", DEADLINE);
    session.wait_for("frets 1-11 of 22", DEADLINE);
    assert!(session.raw().is_ascii());
}

/// What is set by every escape code that sets the looks of text.
fn looks(raw: &[u8]) -> Vec<u16> {
    let text = String::from_utf8_lossy(raw);
    let codes = text.split("\x1b[").filter_map(|rest| {
        let end = rest.find(|c: char| !c.is_ascii_digit() && c != ';')?;
        rest[end..].starts_with('m').then(|| rest[..end].to_owned())
    });
    codes
        .flat_map(|code| code.split(';').map(|n| n.parse().unwrap_or(0)).collect::<Vec<_>>())
        .collect()
}

/// Does this code set a colour, rather than give the terminal's own back?
fn is_colour(code: &u16) -> bool {
    matches!(code, 30..=38 | 40..=48 | 90..=97 | 100..=107)
}

#[test]
fn no_color_leaves_no_colour_and_keeps_bold() {
    const BOLD: u16 = 1;
    let coloured = looks(&start(&[]).raw());
    assert!(coloured.iter().any(is_colour), "{coloured:?}");
    let plain = looks(&start(&[("NO_COLOR", "1")]).raw());
    assert!(!plain.iter().any(is_colour), "{plain:?}");
    assert!(plain.contains(&BOLD), "{plain:?}");
}

/// Starts in this player's home.
fn start_in(home: &Home, env: &[(&str, &str)]) -> Session {
    let folder = home.folder().to_str().unwrap();
    start(&[env, &[("XDG_CONFIG_HOME", folder)]].concat())
}

/// The foreground that `[G]` has where the neck is ruled off.
fn colour_of_first_triad(session: &Session) -> vt100::Color {
    session.wait_for("─ [G] & (A) ─", DEADLINE);
    session.with_screen(|screen| {
        let rows: Vec<String> = screen.rows(0, 80).collect();
        let row = rows.iter().position(|row| row.contains("─ [G] & (A) ─")).unwrap();
        let before = rows[row].split_once("[G]").unwrap().0.chars().count();
        let at = |number: usize| u16::try_from(number).unwrap();
        screen.cell(at(row), at(before + 1)).unwrap().fgcolor()
    })
}

#[test]
fn themes_are_shown_in_the_colours_that_there_are() {
    let home = Home::new();
    home.put("fretloom/settings.toml", "theme = \"dark\"\n");
    for (env, colour) in [
        (&[("COLORTERM", "truecolor")][..], vt100::Color::Rgb(0x56, 0xB4, 0xE9)),
        (&[], vt100::Color::Idx(74)),
        (&[("TERM", "xterm")], vt100::Color::Idx(14)),
        (&[("COLORTERM", "truecolor"), ("NO_COLOR", "1")], vt100::Color::Default),
    ] {
        assert_eq!(colour_of_first_triad(&start_in(&home, env)), colour, "{env:?}");
    }
}

#[test]
fn the_sample_of_settings_changes_nothing() {
    let (plain, settled) = (Home::new(), Home::new());
    settled.run(&["settings", "--write"]).printed();
    let whole = |home: &Home| {
        let session = start_in(home, &[]);
        session.wait_for_bytes(END_FRAME, 1, DEADLINE);
        session.screen()
    };
    assert_eq!(whole(&settled), whole(&plain));
}

#[test]
fn keys_and_settings_of_the_player_hold_on_the_screen() {
    let home = Home::new();
    home.put("fretloom/keys.toml", "[explore]\nlabels = [\"f5\", \"x\"]\n");
    let settings = "tuning = \"guitar-drop-d\"\nlabels = \"degree\"\nupside_down = true\n\
                    pedal = \"f12\"\n";
    home.put("fretloom/settings.toml", settings);
    let mut session = start_in(&home, &[]);
    session.wait_for("shown: degree", DEADLINE);
    session.wait_for("D A D G B E", DEADLINE);
    session.wait_for_bytes(END_FRAME, 1, DEADLINE);
    let screen = session.screen();
    assert!(screen.find(" 6 D ") < screen.find(" 1 E "), "{screen}");
    session.send("x");
    session.wait_for("shown: member", DEADLINE);
    let f12 = "\x1b[24~";
    session.wait_for("[G] root position", DEADLINE);
    session.send(f12);
    session.wait_for("(A) root position", DEADLINE);
}

#[test]
fn the_program_starts_with_every_mistake_and_says_that_there_is_one() {
    for mistake in mistakes() {
        let home = Home::new();
        home.put(&format!("fretloom/{}", mistake.place), &mistake.content);
        let mut session = start_in(&home, &[]);
        // Charts are read when one is opened.
        let is_chart = mistake.place.starts_with("charts/");
        session.wait_for(if is_chart { FIRST_CHORD } else { "in your files: " }, DEADLINE);
        session.send("\x03");
        assert_eq!(session.wait_exit(DEADLINE), 0, "{}", mistake.name);
    }
}

#[test]
fn quitting_gives_the_terminal_back_once() {
    let mut session = start(&[]);
    session.send("q");
    assert_eq!(session.wait_exit(DEADLINE), 0);
    assert_given_back(&session, 1);
}

/// Starts on nothing in particular, with state in this home, and waits until this is seen.
fn start_again(home: &Home, args: &[&str], seen: &str) -> Session {
    let folder = home.folder().to_str().unwrap();
    let session = Session::start(args, 24, 80, &[("XDG_STATE_HOME", folder)]);
    session.wait_for(seen, DEADLINE);
    session.wait_for_bytes(END_FRAME, 1, DEADLINE);
    session
}

#[test]
fn the_program_goes_on_where_it_was_left() {
    let home = Home::new();
    let mut first = start_again(&home, &[], FIRST_CHORD);
    first.send("cDm7\rjjgdrop d\riittlvx  hyWL>z");
    first.wait_for("taken back", DEADLINE);
    // The last row of the frame, which may still be on its way.
    first.wait_for("x position  z undo", DEADLINE);
    let left = first.screen();
    first.send("q");
    assert_eq!(first.wait_exit(DEADLINE), 0);
    let mut again = start_again(&home, &[], "D Dorian");
    let there = again.screen();
    let all = left.lines().zip(there.lines());
    let changed: Vec<_> = all.filter(|(left, there)| left.trim_end() != there.trim_end()).collect();
    // The line that told of the last key tells of the hand again, and what it pushed down moves up.
    assert!(changed.len() <= 2, "{changed:?}");
    again.send("q");
    assert_eq!(again.wait_exit(DEADLINE), 0);
    let asked = start_again(&home, &["A7alt"], "A altered").screen();
    assert!(asked.contains("capo 2"), "{asked}");
    assert!(asked.contains("─ position "), "{asked}");
    let asked = start_again(&home, &["--tuning", "ukulele-high-g"], "A altered").screen();
    assert!(asked.contains("G C E A"), "{asked}");
    start_again(&home, &["--fresh"], FIRST_CHORD);
}

#[test]
fn a_signal_keeps_the_session_too() {
    for name in ["TERM", "HUP"] {
        let home = Home::new();
        let mut first = start_again(&home, &[], FIRST_CHORD);
        first.send("j");
        first.wait_for("▸ G & F♯m", DEADLINE);
        signal(name, first.process_id());
        first.wait_exit(DEADLINE);
        start_again(&home, &[], "▸ G & F♯m");
    }
}

#[test]
fn a_session_that_cannot_be_used_is_no_hindrance() {
    let newer = "{\"format\":2}";
    let broken = "{\"format\":1,\"chord\":7}";
    let stale = "{\"format\":1,\"chord\":\"Hm7\",\"tuning\":\"gone\",\"capo\":40,\"rung\":999,\
                 \"strings\":\"12-11-10\",\"view\":\"set 9\",\"first_fret\":200,\"pair\":\"?\"}";
    let told = ["the session is of format 2, expected 1", "the session cannot be read, expected"];
    for (content, kept, told) in
        [(newer, true, told[0]), (broken, false, told[1]), (stale, false, FIRST_CHORD)]
    {
        let home = Home::new();
        let file = home.put("fretloom/session.json", content);
        let mut session = start_again(&home, &[], FIRST_CHORD);
        session.wait_for(told, DEADLINE);
        session.send("q");
        if kept {
            session.wait_for("nothing is kept for the next start", DEADLINE);
        }
        assert_eq!(session.wait_exit(DEADLINE), 0, "{content}");
        assert_eq!(std::fs::read_to_string(file).unwrap() == content, kept, "{content}");
    }
}

/// A file stands where the folder should be.
#[test]
fn a_session_that_cannot_be_kept_is_told_when_the_terminal_is_given_back() {
    let home = Home::new();
    home.put("fretloom", "no folder");
    let mut session = start_again(&home, &[], FIRST_CHORD);
    session.send("q");
    session.wait_for("fretloom: nothing is kept for the next start in", DEADLINE);
    assert_eq!(session.wait_exit(DEADLINE), 0);
}

/// The shape in hand at the start, its first line as base64.
#[test]
fn what_is_copied_goes_to_the_terminal_in_one_piece() {
    let mut session = start(&[]);
    session.send("H");
    session.wait_for("copied the shape in hand, 8 lines", DEADLINE);
    session.wait_for_bytes(b"\x1b]52;c;W0ddIHJvb3QgcG9zaXRpb24", 1, DEADLINE);
}

#[test]
fn the_mouse_chooses_until_it_is_freed() {
    let mut session = start(&[]);
    // The first button on the second pair, in row 5 and column 5.
    session.send("\x1b[<0;5;5M\x1b[<0;5;5m");
    session.wait_for("▸ G & F♯m", DEADLINE);
    session.send("M");
    session.wait_for("the mouse selects text", DEADLINE);
    session.wait_for_bytes(b"\x1b[?1000l", 1, DEADLINE);
    let mut plain = Session::start(&["--mouse=false"], 24, 80, &[]);
    plain.wait_for(FIRST_CHORD, DEADLINE);
    assert_eq!(count(&plain.raw(), b"\x1b[?1000h"), 0);
    plain.send("q");
    assert_eq!(plain.wait_exit(DEADLINE), 0);
}

/// Bytes as terminals send them: button or wheel (64 away, 65 towards the player), column and row
/// from 1; `M` for down, `m` for up (from memory of xterm's control sequences, mode 1006).
#[test]
fn lists_and_footer_hear_the_mouse_and_quit_can_be_clicked() {
    let mut session = start(&[]);
    session.send("\x1b[<0;3;24M\x1b[<0;3;24m");
    session.wait_for("lines 1–22 of", DEADLINE);
    session.send("\x1b[<65;40;10M\x1b[<65;40;10M\x1b[<64;40;10M");
    session.wait_for("lines 2–23 of", DEADLINE);
    session.send("\x1b");
    session.wait_for(FIRST_CHORD, DEADLINE);
    session.send("e\x1b[<0;5;3M\x1b[<0;5;3m");
    session.wait_for("▸ G Lydian augmented", DEADLINE);
    session.send("\x1b[<0;5;3M\x1b[<0;5;3m");
    session.wait_for("scale 2 of 5", DEADLINE);
    session.resize(24, 240);
    session.wait_for("q quit", DEADLINE);
    let footer = session.screen().lines().last().unwrap_or_default().to_owned();
    let column = footer.split_once("q quit").unwrap().0.chars().count() + 1;
    session.send(format!("\x1b[<0;{column};24M"));
    assert_eq!(session.wait_exit(DEADLINE), 0);
    assert_given_back(&session, 1);
}

#[test]
fn a_panic_gives_the_terminal_back_before_it_speaks() {
    for panic in ["FRETLOOM_PANIC_ON_KEY", "FRETLOOM_PANIC_IN_JOB_ON_KEY"] {
        assert_ends_in_words(panic);
    }
}

fn assert_ends_in_words(panic: &str) {
    let mut session = start(&[(panic, "x")]);
    session.send("x");
    assert_eq!(session.wait_exit(DEADLINE), 101, "{panic}");
    session.wait_for("the key for a panic is x", DEADLINE);
    assert_given_back(&session, 1);
    let raw = session.raw();
    let report = positions(&raw, b"panicked at").next();
    assert!(report.is_some());
    for given in [LEAVE_SCREEN, PASTE_OFF, SHOW_CURSOR] {
        assert!(positions(&raw, given).next() < report);
    }
}

#[test]
fn signals_from_outside_give_the_terminal_back() {
    for (name, status) in [("TERM", 143), ("HUP", 129), ("INT", 130), ("QUIT", 131)] {
        let mut session = start(&[]);
        signal(name, session.process_id());
        assert_eq!(session.wait_exit(DEADLINE), status, "{name}");
        assert_given_back(&session, 1);
    }
}

/// Every number that Linux has for a signal, but for those that cannot be caught (9, 19), that do
/// nothing (13 is ignored by every Rust program; 17, 23, 28), that continue (18) or stop (20 to 22) a
/// process, and that the C library keeps (32, 33): signal(7).
#[cfg(target_os = "linux")]
#[test]
fn every_deadly_signal_gives_the_terminal_back_and_keeps_the_session() {
    const OTHERS: [u32; 12] = [9, 13, 17, 18, 19, 20, 21, 22, 23, 28, 32, 33];
    let deadly: Vec<u32> = (1..=64).filter(|number| !OTHERS.contains(number)).collect();
    std::thread::scope(|scope| {
        for some in deadly.chunks(13) {
            scope.spawn(move || some.iter().for_each(|number| assert_deadly(*number)));
        }
    });
}

#[cfg(target_os = "linux")]
fn assert_deadly(number: u32) {
    let home = Home::new();
    let mut session = start_again(&home, &[], FIRST_CHORD);
    let kill = format!("kill -{number} {}", session.process_id());
    assert!(Command::new("sh").args(["-c", &kill]).status().unwrap().success());
    assert_eq!(session.wait_exit(DEADLINE), 128 + number);
    assert_given_back(&session, 1);
    assert!(home.folder().join("fretloom/session.json").exists(), "{number}");
}

#[test]
fn a_signal_ends_a_program_that_hangs() {
    let mut session = start(&[("FRETLOOM_HANG_ON_KEY", "x")]);
    session.send("x");
    signal("TERM", session.process_id());
    assert_eq!(session.wait_exit(DEADLINE), 143);
    assert_given_back(&session, 1);
}

#[test]
fn a_closed_terminal_ends_the_program() {
    let mut session = start(&[]);
    session.close_terminal();
    // Noticed by the signal, or by a frame that cannot be written: whichever comes first.
    let status = session.wait_exit(DEADLINE);
    assert!([1, 129].contains(&status), "{status}");
}

#[test]
fn without_a_terminal_it_says_so_and_writes_nothing() {
    let program = env!("CARGO_BIN_EXE_fretloom");
    let output = Command::new(program).stdin(Stdio::null()).output().unwrap();
    assert_eq!(output.status.code(), Some(1));
    assert_eq!(output.stdout, b"");
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(said, format!("{NEEDS_A_TERMINAL}\n"));

    let to_a_file = ["-c", "\"$0\" >/dev/null", program];
    let mut session = Session::start_program("sh", &to_a_file, 24, 80, &[]);
    assert_eq!(session.wait_exit(DEADLINE), 1);
    session.wait_for(NEEDS_A_TERMINAL, DEADLINE);
    assert!(session.is_in_line_mode());
}

#[test]
fn without_a_shell_to_come_back_from_ctrl_z_goes_on() {
    let mut session = start(&[]);
    session.send(b"\x1a");
    session.wait_for_bytes(ENTER_SCREEN, 2, DEADLINE);
    session.send("n");
    session.wait_for("shown: degree", DEADLINE);
    session.send("q");
    assert_eq!(session.wait_exit(DEADLINE), 0);
    assert_given_back(&session, 2);
}
