//! The rooms of the house, and what each may import.

/// A room: its path, and the rooms that it may import, without `src/`.
///
/// A room's files are `src/<path>.rs` and all in the folder of that name; a file that lies in two
/// rooms belongs to the inner one. To add a room: a row here, and its name in the rows of those
/// above it.
struct Room {
    path: &'static str,
    imports: &'static [&'static str],
}

const fn room(path: &'static str, imports: &'static [&'static str]) -> Room {
    Room { path, imports }
}

/// From the ground up.
#[rustfmt::skip]
const ROOMS: &[Room] = &[
    room("theory", &[]),
    room("fretboard", &["theory"]),
    room("words", &["theory", "fretboard"]),
    room("glyphs", &[]),
    room("library", &["theory", "fretboard", "words"]),
    room("store", &["theory", "fretboard", "words", "library"]),
    room("practice", &["theory", "fretboard", "store"]),
    room("score_file", &["theory", "fretboard", "words"]),
    room("picture", &["theory", "fretboard", "words", "glyphs"]),
    room("export", &["theory", "fretboard", "words", "glyphs", "picture"]),
    // Music on pages.
    room("engraving", &["theory", "fretboard", "words", "glyphs", "score_file", "picture"]),
    room("sound", &["theory", "fretboard", "words"]),
    room("settings", &["theory", "fretboard", "words", "glyphs", "library", "store", "practice", "picture",
                       "sound"]),
    room("answer", &["theory", "fretboard", "words", "glyphs", "library", "store", "practice", "score_file",
                     "picture", "sound"]),
    // Answers on pages.
    room("sheet", &["theory", "fretboard", "words", "glyphs", "library", "store", "score_file", "picture", "engraving", "export", "sound",
                    "answer"]),
    room("json", &["theory", "fretboard", "words", "glyphs", "library", "store", "practice", "score_file",
                   "picture", "sound",
                   "answer"]),
    // What every screen is given, the loop, and the terminal; the screens stand above it.
    room("tui", &["theory", "fretboard", "words", "glyphs", "library", "store", "practice", "settings", "picture",
                  "sound", "answer"]),
    room("tui/explore", &["theory", "fretboard", "words", "glyphs", "library", "store", "settings",
                          "picture", "export", "sound", "answer", "tui"]),
    room("tui/line", &["theory", "fretboard", "words", "glyphs", "library", "store", "settings",
                       "picture", "export", "sound", "answer", "tui"]),
    room("tui/changes", &["theory", "fretboard", "words", "glyphs", "library", "store", "settings",
                          "picture", "export", "sound", "answer", "tui"]),
    room("tui/keepers", &["theory", "fretboard", "words", "glyphs", "library", "store", "practice", "settings",
                          "picture", "export", "sound", "answer", "tui"]),
    room("tui/program", &["theory", "fretboard", "words", "glyphs", "library", "store", "settings",
                          "sound", "answer", "tui", "tui/explore", "tui/line", "tui/changes",
                          "tui/keepers"]),
    // What commands print knows no screen; the commands themselves start it.
    room("cli/text", &["theory", "fretboard", "words", "glyphs", "library", "store", "score_file", "picture", "engraving", "sheet",
                       "export", "sound", "answer", "cli", "practice"]),
    room("cli", &["theory", "fretboard", "words", "glyphs", "library", "store", "settings", "score_file",
                  "picture", "engraving", "export", "sound", "answer", "sheet", "json", "tui", "tui/program", "cli/text", "practice"]),
    room("lib", &[]),
    room("main", &["cli"]),
];

/// Does this import go where the importing room may not look?
pub(crate) fn points_up(from: &str, to: &str) -> bool {
    let (from, to) = (room_of(from), room_of(to));
    from.path != to.path && !from.imports.contains(&to.path)
}

fn room_of(file: &str) -> &'static Room {
    let inner = ROOMS.iter().filter(|room| room.holds(file)).max_by_key(|room| room.path.len());
    inner.unwrap_or_else(|| {
        panic!("{file} lies in no room; tests/house/rooms.rs says how to add one")
    })
}

impl Room {
    fn holds(&self, file: &str) -> bool {
        let inside = file.strip_prefix("src/").and_then(|file| file.strip_prefix(self.path));
        inside.is_some_and(|rest| rest == ".rs" || rest.starts_with('/'))
    }
}

#[test]
fn every_room_imports_rooms_that_there_are() {
    for room in ROOMS {
        for import in room.imports {
            assert!(ROOMS.iter().any(|other| other.path == *import), "{}: {import}", room.path);
        }
    }
}

#[test]
fn a_file_lies_in_the_innermost_room() {
    assert_eq!(room_of("src/tui/theme/read.rs").path, "tui");
    assert_eq!(room_of("src/tui/explore.rs").path, "tui/explore");
    assert_eq!(room_of("src/tui/explore/view/head.rs").path, "tui/explore");
    assert!(points_up("src/theory/chord.rs", "src/fretboard/neck.rs"));
    assert!(points_up("src/tui/theme.rs", "src/tui/explore/hit.rs"));
    assert!(!points_up("src/tui/explore/hit.rs", "src/tui/theme.rs"));
    assert!(!points_up("src/theory/chord.rs", "src/theory/chord/read.rs"));
}
