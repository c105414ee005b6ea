//! Keepers by the real program: listed, added, removed, by two programs at once, on a disk that takes
//! nothing, and killed while it saves.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/program.rs"]
mod program;

use std::fs;
use std::path::PathBuf;
use std::process::Stdio;

use program::{Home, Said};
use serde_json::{Value, json};

const FILE: &str = "data/fretloom/keepers.toml";

fn json_of(said: Said) -> Value {
    serde_json::from_str(&said.printed()).unwrap()
}

fn file(home: &Home) -> PathBuf {
    home.folder().join(FILE)
}

#[test]
fn what_is_added_is_listed_and_removed() {
    let home = Home::new();
    let added = home.run(&[
        "keepers",
        "add",
        "Gmaj7#11",
        "--strings",
        "4-3-2",
        "--notes",
        "low first",
        "--tag",
        "ballad",
        "--tempo",
        "60",
        "--json",
    ]);
    let today = jiff::ZonedDateTime::now().date().to_string();
    let keeper = json!({
        "id": 1, "kept": today, "what": "pair", "name": null, "chord": "Gmaj7#11",
        "scale": "G Lydian", "pair": "G & A", "tuning": "guitar-standard", "view": "set",
        "strings": [4, 3, 2], "notes": "low first", "tags": ["ballad"],
        "tempo": {"start": 60, "best": null}, "last": null, "next": null, "keys": null,
        "sets": [], "limits": [], "tries": [],
    });
    assert_eq!(json_of(added), json!({"format": 1, "keeper": keeper}));
    let text =
        home.run(&["keepers", "add", "Dm7", "--pair", "C & Bb", "--capo", "2", "--name", "odd"]);
    assert_eq!(
        text.printed(),
        "kept as 2: odd\n  scale   D Dorian\n  tuning  Guitar, standard E2 A2 D3 G3 B3 E4 capo at 2\n"
    );
    let list = json_of(home.run(&["keepers", "--json"]));
    assert_eq!(list["keepers"].as_array().unwrap().len(), 2);
    assert_eq!(list["keepers"][0], keeper);
    assert_eq!(list["keepers"][1]["pair"], "Bb & C");
    let removed = json_of(home.run(&["keepers", "remove", "1", "--json"]));
    assert_eq!(removed, json!({"format": 1, "keeper": keeper}));
    assert_eq!(home.run(&["keepers", "remove", "2"]).printed(), "removed 2: odd\n");
    let added = json_of(home.run(&["keepers", "add", "C", "--json"]));
    assert_eq!(added["keeper"]["id"], 3, "no number comes twice");
}

/// The ear has been asked of keeper 1 alone; keeper 7 is a plan, which has no pair of its own.
#[test]
fn what_is_to_be_named_by_ear_is_listed_without_its_answers() {
    let home = Home::new();
    assert!(home.run(&["listen"]).printed().contains("nothing is to be named by ear"));
    home.put(FILE, include_str!("keepers/format-1.toml"));
    let said = json_of(home.run(&["listen", "--json"]));
    let questions = said["questions"].as_array().unwrap();
    let keepers: Vec<u64> = questions.iter().map(|one| one["keeper"].as_u64().unwrap()).collect();
    assert_eq!(keepers, [1, 2, 3, 5, 1, 2, 3, 5, 1, 2]);
    let first = &questions[0];
    assert_eq!((&first["asked"], &first["why"]), (&json!("pair"), &json!("due")));
    assert_eq!(first["since"], "2026-05-09");
    // In its own key, or in the one in which it was got.
    let first = (first["up"].as_u64().unwrap(), first["chord"].as_str().unwrap());
    assert!(first == (0, "Gmaj7#11") || first == (5, "Cmaj7#11"), "{first:?}");
    for question in questions {
        let choices = question["choices"].as_array().unwrap().len();
        assert!((2..=7).contains(&choices) && question.get("right").is_none(), "{question}");
    }
    let text = home.run(&["listen", "--questions", "2", "--items", "1"]);
    let text = text.printed();
    assert!(text.contains(": 2 questions by ear\n"), "{text}");
    assert!(text.contains("1  bridge, second time"), "{text}");
    assert!(text.contains("which pair it is") && text.contains("due 2026-05-09"), "{text}");
}

#[test]
fn keepers_are_found_by_words_tags_and_kinds_of_chords() {
    let home = Home::new();
    home.put(FILE, include_str!("keepers/format-1.toml"));
    let ids = |words: &[&str]| -> Vec<u64> {
        let said = json_of(home.run(&[&["keepers", "--json"], words].concat()));
        said["keepers"].as_array().unwrap().iter().map(|one| one["id"].as_u64().unwrap()).collect()
    };
    assert_eq!(ids(&[]), [1, 2, 3, 5, 7]);
    assert_eq!(ids(&["LOW", "bridge"]), [1]);
    assert_eq!(ids(&["banjo"]), [3]);
    assert_eq!(ids(&["--tag", "gig"]), [7]);
    assert_eq!(ids(&["--sort", "newest"]), [7, 5, 3, 2, 1]);
    assert_eq!(ids(&["--sort", "due"])[0], 1);
    assert_eq!(ids(&["--sort", "name"]), [1, 3, 5, 2, 7]);
    // Two majors a tone apart lie on 4 and 5 of melodic minor, whose sixth mode is that of m7b5. The
    // plan has no pair, and no such chord.
    assert_eq!(ids(&["--serves", "m7b5"]), [1, 2, 3, 5]);
    // Such a pair lies on 1 and 2 of Lydian too.
    assert_eq!(ids(&["--serves", "maj7#11"]), [1, 2, 3, 5]);
    assert_eq!(ids(&["--serves", "dim7"]), [0; 0]);
    // Of the plan: Am7.
    assert_eq!(ids(&["--serves", "Fm7", "gig"]), [7]);
}

#[test]
fn mistakes_are_told_and_nothing_is_kept() {
    let home = Home::new();
    for (arguments, words) in [
        (&["keepers", "add", "Hm7"][..], "expected a note"),
        (&["keepers", "add", "Dm7", "--pair", "99"], "expected"),
        (&["keepers", "add", "Dm7", "--strings", "9-8-7"], "expected"),
        (&["keepers", "add", "Dm7", "--tuning", "zither"], "expected"),
        (&["keepers", "remove", "7"], "there is no keeper \"7\"; expected the number of one"),
        (&["keepers", "remove", "0"], "there is no keeper"),
        (&["keepers", "remove", "-1"], "there is no keeper"),
        (&["keepers", "remove", "♭"], "there is no keeper"),
    ] {
        let said = home.run(arguments);
        assert_eq!((said.status, said.out.as_str()), (Some(1), ""), "{arguments:?}: {}", said.err);
        assert!(said.err.contains(words), "{arguments:?}: {}", said.err);
    }
    assert!(!file(&home).exists());
    for (arguments, words) in [
        (&["keepers", "--serves", "xyz"][..], "--serves"),
        (&["keepers", "add", "Dm7", "--tempo", "5"], "20 to 400"),
        (&["practice", "--ladder-top", "401"], "20 to 400"),
        (&["practice", "--minutes", "0"], "a number from 1 to 240"),
        (&["listen", "--questions", "41"], "a number from 1 to 40"),
    ] {
        let said = home.run(arguments);
        assert_eq!((said.status, said.out.as_str()), (Some(2), ""), "{arguments:?}: {}", said.err);
        assert!(said.err.contains(words), "{arguments:?}: {}", said.err);
    }
}

#[test]
fn a_broken_file_is_told_on_standard_error_and_the_list_is_printed() {
    let home = Home::new();
    home.put(FILE, "[[keeper]\n");
    home.put("data/fretloom/keepers.backup.toml", include_str!("keepers/format-1.toml"));
    let said = home.run(&["keepers"]);
    assert_eq!(said.status, Some(0));
    assert!(said.err.contains("line 1, column 10") && said.err.contains("5 keepers come from"));
    assert!(said.out.contains("bridge, second time"), "{}", said.out);
}

/// Programs, not threads: the lock is the system's.
#[test]
fn what_several_programs_keep_at_once_all_survives() {
    let home = Home::new();
    let add = |number: usize| {
        let notes = format!("number {number}");
        let mut program = home.program();
        program.args(["keepers", "add", "Dm7", "--notes", &notes]).stdout(Stdio::null());
        program.spawn().unwrap()
    };
    for round in 0..5 {
        let programs: Vec<_> = (0..4).map(|program| add(round * 4 + program)).collect();
        for mut program in programs {
            assert!(program.wait().unwrap().success());
        }
    }
    let list = json_of(home.run(&["keepers", "--json"]));
    let keepers = list["keepers"].as_array().unwrap();
    let mut ids: Vec<u64> = keepers.iter().map(|one| one["id"].as_u64().unwrap()).collect();
    ids.sort_unstable();
    assert_eq!(ids, (1..=20).collect::<Vec<u64>>());
    let mut notes: Vec<&str> = keepers.iter().map(|one| one["notes"].as_str().unwrap()).collect();
    notes.sort_unstable();
    notes.dedup();
    assert_eq!(notes.len(), 20);
}

/// So many keepers that writing them takes a while.
fn many(count: u32) -> String {
    let mut text = format!("format = 1\nnext_id = {}\nchanged = 2020-01-01\n", count + 1);
    for id in 1..=count {
        let notes = "x".repeat(200);
        text += &format!("\n[[keeper]]\nid = {id}\nchord = \"Dm7\"\nnotes = \"{notes}\"\n");
    }
    text
}

#[cfg(unix)]
mod on_unix {
    use std::os::unix::fs::PermissionsExt;
    use std::os::unix::process::CommandExt;
    use std::process::Command;
    use std::thread;
    use std::time::{Duration, Instant};

    use fretloom::store::KeeperStore;

    use super::*;

    fn names(home: &Home) -> Vec<String> {
        let entries = fs::read_dir(file(home).parent().unwrap()).unwrap();
        let names = entries.map(|entry| entry.unwrap().file_name().into_string().unwrap());
        let mut names: Vec<String> = names.filter(|name| name != "keepers.lock").collect();
        names.sort();
        names
    }

    /// A limit for the length of files stands for a full disk: both fail in the middle of the file.
    #[test]
    fn a_disk_without_room_is_told_and_nothing_changes() {
        let home = Home::new();
        let before = many(300);
        home.put(FILE, &before);
        let program = env!("CARGO_BIN_EXE_fretloom");
        for blocks in [0, 1, 8, 64] {
            let script = format!("trap '' XFSZ; ulimit -f {blocks}; exec \"$0\" \"$@\"");
            let mut limited = Command::new("/bin/sh");
            limited.args(["-c", &script, program, "keepers", "add", "Dm7"]).env_clear();
            limited.env("XDG_DATA_HOME", home.folder().join("data")).env("LANG", "C.UTF-8");
            let said = Said::by(&mut limited);
            assert_eq!((said.status, said.out.as_str()), (Some(1), ""), "{blocks}: {}", said.err);
            assert!(said.err.contains("cannot keep anything in"), "{}", said.err);
            assert_eq!(fs::read_to_string(file(&home)).unwrap(), before);
            assert_eq!(names(&home), ["keepers.toml"]);
        }
        home.run(&["keepers", "add", "Dm7"]).printed();
    }

    #[test]
    fn a_folder_in_which_nothing_may_be_written_is_told_and_nothing_changes() {
        let home = Home::new();
        let before = many(3);
        home.put(FILE, &before);
        let folder = file(&home).parent().unwrap().to_owned();
        fs::set_permissions(home.folder(), fs::Permissions::from_mode(0o755)).unwrap();
        fs::set_permissions(&folder, fs::Permissions::from_mode(0o555)).unwrap();
        // Whoever may do everything may write there too: that one becomes nobody.
        let program = home.folder().join("fretloom");
        fs::copy(env!("CARGO_BIN_EXE_fretloom"), &program).unwrap();
        let run = |arguments: &[&str]| {
            let mut command = Command::new(&program);
            command.args(arguments).env_clear().env("LANG", "C.UTF-8").current_dir("/");
            command.env("XDG_DATA_HOME", home.folder().join("data"));
            if rustix::process::geteuid().is_root() {
                command.uid(65534);
            }
            Said::by(&mut command)
        };
        let said = run(&["keepers", "add", "Dm7"]);
        assert_eq!((said.status, said.out.as_str()), (Some(1), ""), "{}", said.err);
        assert!(said.err.contains("it may not be read or written"), "{}", said.err);
        assert!(run(&["keepers"]).printed().contains("Dm7"));
        fs::set_permissions(&folder, fs::Permissions::from_mode(0o755)).unwrap();
        assert_eq!(fs::read_to_string(file(&home)).unwrap(), before);
        assert_eq!(names(&home), ["keepers.toml"]);
    }

    /// How often it is killed: `FRETLOOM_KILLS=10000` for the long run.
    fn kills() -> u32 {
        std::env::var("FRETLOOM_KILLS").map_or(200, |kills| kills.parse().unwrap())
    }

    fn add(home: &Home) -> std::process::Child {
        let mut program = home.program();
        program.args(["keepers", "add", "Dm7"]).stdout(Stdio::null()).spawn().unwrap()
    }

    #[test]
    fn whenever_it_is_killed_the_old_file_or_the_new_one_is_there_whole() {
        let home = Home::new();
        let store = KeeperStore::in_folder(file(&home).parent().unwrap());
        let begun = Instant::now();
        home.put(FILE, &many(2000));
        assert!(add(&home).wait().unwrap().success());
        let whole = begun.elapsed();
        let (mut old, mut new, mut random) = (0, 0, 1u64);
        for kill in 0..kills() {
            if kill % 100 == 0 {
                home.put(FILE, &many(2000));
            }
            let before = fs::read_to_string(file(&home)).unwrap();
            let count = store.load().unwrap().list.len();
            let mut program = add(&home);
            random = random.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            let part = (random >> 33) as f64 / f64::from(u32::MAX >> 1);
            thread::sleep(Duration::from_secs_f64(whole.as_secs_f64() * part));
            program.kill().unwrap();
            program.wait().unwrap();
            let text = fs::read_to_string(file(&home)).unwrap();
            let kept = store.load().unwrap();
            assert_eq!(kept.remarks, [], "kill {kill}");
            if text == before {
                old += 1;
            } else {
                assert_eq!(kept.list.len(), count + 1, "kill {kill}");
                assert!(text.ends_with("\n\n"), "kill {kill}");
                new += 1;
            }
        }
        assert!(old > 0 && new > 0, "{old} old, {new} new");
        home.run(&["keepers", "add", "Dm7"]).printed();
    }
}
