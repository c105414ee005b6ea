//! Every command of the real program, as text and as JSON.
//!
//! The promises checked here are those that scripts and readers lean on: the documented keys, no
//! escape codes, pure ASCII where it is asked for, status 0.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/program.rs"]
mod program;

use std::io::Read;
use std::process::Stdio;

use program::{Home, Said};
use serde_json::Value;

/// One call of each command, with the keys of its JSON object.
const EVERY_COMMAND: &[(&str, &[&str])] = &[
    ("format chord scale pairs", &["pairs", "Gmaj7#11"]),
    ("format chord scales", &["scales", "Am7"]),
    ("format scale triads", &["triads", "C melodic minor"]),
    ("format chord", &["chord", "Bbm7b5/Eb"]),
    ("format tuning shapes", &["shapes", "Bb"]),
    ("format tuning strings rungs", &["ladder", "Bb", "C"]),
    ("format tuning pair places", &["neck", "Bbmaj7#11"]),
    (
        "format tuning title tempo meter bars chords scales phrases notes comes_round",
        &["line", "| Dm7 | G7 | Cmaj7 |", "--strings", "4-3-2"],
    ),
    (
        "format tuning ways",
        &["finger", concat!(env!("CARGO_MANIFEST_DIR"), "/assets/lines/f-and-g.json")],
    ),
    (
        "format bars remarks",
        &[
            "explain",
            concat!(env!("CARGO_MANIFEST_DIR"), "/assets/lines/f-and-g.json"),
            "--chords",
            "Dm7",
        ],
    ),
    (
        "format title key bars distinct_pairs cost",
        &["changes", concat!(env!("CARGO_MANIFEST_DIR"), "/tests/changes/four_pairs.txt")],
    ),
    ("format tunings", &["tunings"]),
    ("format patterns", &["patterns"]),
    ("format charts", &["charts"]),
    ("format problems", &["check"]),
    ("format sets alone a b", &["tunings", "compare", "guitar-standard", "D A D G B E"]),
];

fn text(arguments: &[&str]) -> String {
    let text = Home::new().run(arguments).printed();
    assert!(!text.contains('\x1b'), "escape code: {text:?}");
    assert!(text.ends_with('\n'), "{text:?}");
    text
}

fn json(arguments: &[&str]) -> Value {
    let text = text(&[arguments, &["--json"]].concat());
    assert!(text.starts_with("{\"format\":1,"), "{text}");
    assert!(text.is_ascii(), "{text}");
    assert_eq!(text.lines().count(), 1);
    serde_json::from_str(&text).unwrap()
}

/// Fields may be added to an object, none may go.
fn assert_has_keys(object: &Value, keys: &str) {
    for key in keys.split(' ') {
        assert!(object.get(key).is_some(), "no {key} in {object}");
    }
}

fn words(list: &Value) -> String {
    let items = list.as_array().unwrap().iter();
    items.map(|item| item.as_str().unwrap()).collect::<Vec<_>>().join(" ")
}

fn numbers(list: &Value) -> String {
    let items = list.as_array().unwrap().iter();
    items.map(ToString::to_string).collect::<Vec<_>>().join("-")
}

fn pair_names(answer: &Value) -> Vec<&str> {
    let pairs = answer["pairs"].as_array().unwrap().iter();
    pairs.map(|pair| pair["name"].as_str().unwrap()).collect()
}

#[test]
fn every_command_prints_text_and_json_with_its_keys() {
    for (keys, command) in EVERY_COMMAND {
        assert!(!text(command).trim().is_empty(), "{command:?}");
        assert_has_keys(&json(command), keys);
    }
}

#[test]
fn every_command_can_print_pure_ascii() {
    let home = Home::new();
    for (_, command) in EVERY_COMMAND {
        let asked = text(&[*command, &["--ascii"]].concat());
        assert!(asked.is_ascii(), "{asked}");
        let by_locale = Said::by(home.program().args(*command).env("LANG", "C")).printed();
        assert_eq!(by_locale, asked, "{command:?}");
    }
    assert!(text(&["chord", "Bb7"]).contains("B♭"), "a UTF-8 locale gets signs");
}

#[test]
fn the_objects_inside_have_their_documented_keys() {
    let answer = json(&["pairs", "Gmaj7#11"]);
    assert_has_keys(&answer["chord"], "symbol root bass tones degrees assumed");
    assert_has_keys(&answer["scale"], "name root kind parent mode notes degrees why");
    let first = &answer["pairs"][0];
    let keys = "rank name first second left_out states_root states_third states_seventh tensions \
                rubs outside drops_named in_thirds interleaves also_fits forte prime_form \
                interval_vector why";
    assert_has_keys(first, keys);
    assert_has_keys(&first["first"], "root quality notes degrees");
    assert_has_keys(&first["left_out"][0], "note degree");
    assert_has_keys(&json(&["scales", "Am7"])["scales"][0], "rank name notes degrees why");
    assert_has_keys(&json(&["triads", "C Dorian"])["triads"][0], "degree root quality notes");
    let keys = "triad inversion by_name_only voicing strings frets pitches fingers stretch_mm \
                position";
    assert_has_keys(&json(&["shapes", "G"])["shapes"][0], keys);
    assert_has_keys(&json(&["ladder", "F", "G"])["rungs"][0], keys);
    let keys = "string fret midi note triad degree";
    assert_has_keys(&json(&["neck", "Gmaj7"])["places"][0], keys);
    let keys = "id name instrument strings courses start_frets capo frets scale_mm source";
    assert_has_keys(&json(&["tunings"])["tunings"][0], keys);
    let keys = "id name figures length source note bars strokes";
    assert_has_keys(&json(&["patterns"])["patterns"][0], keys);
    let keys = "id title key meter tempo feel bars source";
    assert_has_keys(&json(&["charts"])["charts"][0], keys);
}

#[test]
fn the_pair_of_the_first_chord_says_what_the_book_says() {
    let answer = json(&["pairs", "Gmaj7#11"]);
    assert_eq!(answer["scale"]["name"], "G Lydian");
    let pair = &answer["pairs"][0];
    assert_eq!(pair["name"], "G & A");
    assert_eq!(words(&pair["first"]["notes"]), "G B D");
    assert_eq!(words(&pair["second"]["degrees"]), "9 #11 13");
    assert_eq!(pair["left_out"][0]["note"], "F#");
    assert_eq!(pair["forte"], "6-33");
}

const SYMBOLS: &str = "Gmaj7#11\n\n  \nC7x\nBbm7\r\nnothing at all\n";

fn assert_reads_symbols(answer: &Value) {
    let chords = answer["chords"].as_array().unwrap();
    let symbols: Vec<&str> = chords.iter().map(|chord| chord["symbol"].as_str().unwrap()).collect();
    assert_eq!(symbols, ["Gmaj7#11", "C7x", "Bbm7", "nothing at all"]);
    assert_eq!(words(&chords[2]["tones"]), "Bb Db F Ab");
    assert_eq!(chords[1]["at"], 3);
    assert_has_keys(&chords[3], "symbol error at");
}

#[test]
fn a_list_of_symbols_costs_no_more_than_its_bad_lines() {
    let home = Home::new();
    let file = home.put("symbols.txt", SYMBOLS);
    let file = file.to_str().unwrap();
    assert_reads_symbols(&json(&["chord", "--file", file]));
    let piped =
        Said::by_piping(SYMBOLS, home.program().args(["chord", "--file", "-", "--json"])).printed();
    assert_reads_symbols(&serde_json::from_str(&piped).unwrap());
    let lines = text(&["chord", "--file", file]);
    assert_eq!(lines.lines().count(), 4);
    assert!(lines.lines().nth(1).unwrap().contains("\"C7x\" at character 3"), "{lines}");
}

#[test]
fn an_empty_list_of_symbols_is_an_empty_answer() {
    let home = Home::new();
    let mut program = home.program();
    let said = Said::by_piping("", program.args(["chord", "--file", "-", "--json"])).printed();
    assert_eq!(said, "{\"format\":1,\"chords\":[]}\n");
}

#[test]
fn wishes_choose_among_the_pairs() {
    let all = json(&["pairs", "Cmaj7", "--scale", "Lydian"]);
    let wished = json(&["pairs", "Cmaj7", "--scale", "Lydian", "--with=#11", "--without", "1"]);
    assert_eq!(pair_names(&all).len(), 7);
    assert!(!pair_names(&wished).is_empty() && pair_names(&wished).len() < 7);
    for pair in wished["pairs"].as_array().unwrap() {
        let degrees =
            format!("{} {}", words(&pair["first"]["degrees"]), words(&pair["second"]["degrees"]));
        let degrees: Vec<&str> = degrees.split(' ').collect();
        assert!(degrees.contains(&"#11") && !degrees.contains(&"1"), "{degrees:?}");
    }
    let none = text(&["pairs", "Cmaj7", "--scale", "Ionian", "--with=#11", "--without", "11"]);
    assert_eq!(none.lines().last(), Some("no pair fulfils the wish"), "{none}");
    let three = text(&["pairs", "Cmaj7", "--scale", "C E G"]);
    assert_eq!(three.lines().last(), Some("no pair of triads without a common note"));
}

/// Set, vector and symmetry of C and G flat: Forte's 6-30, as in the literature on Petrushka.
#[test]
fn a_pair_of_ones_own_says_more_than_its_row() {
    let asked = text(&["pairs", "C13b9", "--pair", "C & F#"]);
    let facts: Vec<&str> = asked.lines().skip_while(|line| !line.contains("C & G♭")).collect();
    assert_eq!(
        facts[1..4],
        [
            "",
            "     going up, the notes of the two triads take turns · set 6-30, interval vector 224223",
            "     the same six notes when moved by 6 frets",
        ]
    );
    assert!(facts[4].starts_with("     also serves ") && facts[4].contains("E♭13"), "{}", facts[4]);
    let whole_tones = text(&["pairs", "C7#5", "--pair", "C+ & D+"]);
    assert!(whole_tones.contains("moved by 2, 4, 6, 8 or 10 frets"), "{whole_tones}");
    let plain = text(&["pairs", "Cmaj7", "--pair", "C & D"]);
    assert!(!plain.contains("moved by"), "{plain}");
    assert!(text(&["pairs", "C13b9", "--pair", "C & F#", "--ascii"]).is_ascii());
}

#[test]
fn families_widen_the_choice() {
    let count = |families| pair_names(&json(&["pairs", "Gmaj7#11", "--families", families])).len();
    let tertian = count("tertian");
    assert_eq!(tertian, 7);
    assert!(count("tertian,sus") > tertian);
    assert!(count("all") >= count("tertian,sus"));
    let sus = json(&["pairs", "Gmaj7#11", "--families", "sus"]);
    assert!(sus["pairs"].as_array().unwrap().iter().all(|pair| pair["first"]["quality"] == "sus"));
}

#[test]
fn one_quality_can_be_asked_for() {
    let asked = |families| json(&["pairs", "Dm7", "--families", families]);
    assert_eq!(pair_names(&asked("major")), ["F & G"]);
    assert_eq!(pair_names(&asked("minor")), ["Dm & Em"]);
    assert_eq!(pair_names(&asked("minor,diminished")), ["Dm & Em", "Am & Bdim"]);
    assert_eq!(pair_names(&asked("augmented")), Vec::<&str>::new());
    assert_eq!(asked("augmented,major, minor,diminished"), asked("tertian"));
}

#[test]
fn strict_spelling_keeps_the_letters_of_the_scale() {
    let letters = |spelling| {
        let answer = json(&["pairs", "G7alt", "--spelling", spelling]);
        let of_pair = |pair: &Value| {
            format!("{} {}", words(&pair["first"]["notes"]), words(&pair["second"]["notes"]))
        };
        answer["pairs"].as_array().unwrap().iter().map(of_pair).collect::<Vec<_>>()
    };
    let scale = words(&json(&["triads", "G altered"])["scale"]["notes"]);
    let in_scale =
        |notes: &String| notes.split(' ').all(|note| scale.split(' ').any(|own| own == note));
    assert!(letters("strict").iter().all(in_scale), "{scale}");
    assert!(!letters("plain").iter().all(in_scale), "else the policies are one");
}

#[test]
fn a_scale_can_be_asked_with_a_chord_and_without() {
    let over = json(&["pairs", "G7", "--scale", "altered"]);
    assert_eq!(
        (&over["scale"]["name"], &over["chord"]["root"]),
        (&"G altered".into(), &"G".into())
    );
    for scale in ["C Dorian", "C D Eb F G A Bb", "C: 1 2 b3 4 5 6 b7"] {
        let alone = json(&["pairs", "--scale", scale]);
        assert_eq!(alone["chord"], Value::Null);
        assert_eq!(alone["scale"]["name"], "C Dorian");
        assert_eq!(pair_names(&alone).len(), 7);
    }
    assert_eq!(pair_names(&json(&["pairs", "--scale", "C half-whole"])).len(), 36);
}

#[test]
fn every_pair_there_is_can_be_listed() {
    let all = json(&["pairs", "--all"]);
    assert_eq!((&all["chord"], &all["scale"]), (&Value::Null, &Value::Null));
    assert_eq!(pair_names(&all).len(), 366);
    assert_eq!(all["pairs"][0]["first"]["degrees"], Value::Array(Vec::new()));
    assert_eq!(text(&["pairs", "--all"]).lines().count(), 366);
}

#[test]
fn a_neck_shows_the_pair_that_is_chosen() {
    let names = json(&["pairs", "Gmaj7"]);
    let second = pair_names(&names)[1];
    assert_eq!(json(&["neck", "Gmaj7", "--pair", "2"])["pair"], second);
    let outside = json(&["neck", "Gmaj7", "--pair", "F & G"]);
    assert_eq!(outside["pair"], "G & F");
    let places = outside["places"].as_array().unwrap();
    assert!(places.iter().any(|place| place["note"] == "F" && place["degree"] == "b7"));
}

#[test]
fn a_neck_keeps_to_its_frets() {
    let part = json(&["neck", "Gmaj7", "--frets", "3-5"]);
    let places = part["places"].as_array().unwrap();
    assert!(!places.is_empty());
    assert!(places.iter().all(|place| (3..=5).contains(&place["fret"].as_u64().unwrap())));
}

#[test]
fn the_marks_of_a_neck_are_notes_degrees_or_members() {
    let neck = |labels| text(&["neck", "Gmaj7#11", "--labels", labels]);
    assert_eq!(neck("note"), text(&["neck", "Gmaj7#11"]));
    assert!(neck("note").contains("[G]") && neck("note").contains("(C♯)"));
    assert!(neck("degree").contains("(♯11)"));
    assert!(neck("member").contains("[1]") && neck("member").contains("(3)"));
}

fn shapes(options: &[&str]) -> Vec<Value> {
    let answer = json(&[&["shapes", "G"], options].concat());
    answer["shapes"].as_array().unwrap().clone()
}

#[test]
fn shapes_are_chosen_by_their_options() {
    let every = |options: &[&str], wanted: &dyn Fn(&Value) -> bool| {
        let shapes = shapes(options);
        assert!(!shapes.is_empty(), "{options:?}");
        let odd = shapes.iter().find(|shape| !wanted(shape));
        assert_eq!(odd, None, "{options:?}");
    };
    let frets = |shape: &Value| -> Vec<u64> {
        shape["frets"].as_array().unwrap().iter().map(|fret| fret.as_u64().unwrap()).collect()
    };
    every(&[], &|shape| shape["voicing"] == "close");
    every(&["--voicing", "open"], &|shape| shape["voicing"] == "open");
    every(&["--strings", "4-3-2"], &|shape| numbers(&shape["strings"]) == "4-3-2");
    every(&["--inversion", "second"], &|shape| shape["inversion"] == "second");
    every(&["--span", "60"], &|shape| shape["stretch_mm"].as_f64().unwrap() <= 60.0);
    every(&["--no-open"], &|shape| !frets(shape).contains(&0));
    every(&["--frets", "5-9"], &|shape| frets(shape).iter().all(|fret| (5..=9).contains(fret)));
    let count = |options: &[&str]| shapes(options).len();
    assert!(count(&["--skips"]) > count(&[]));
    assert_eq!(count(&["--voicing", "both"]), count(&[]) + count(&["--voicing", "open"]));
}

#[test]
fn the_documented_shape_of_g_is_there() {
    let found = shapes(&["--strings", "4-3-2", "--inversion", "first"]);
    let shape = found.iter().find(|shape| numbers(&shape["frets"]) == "9-7-8").unwrap();
    assert_eq!(numbers(&shape["pitches"]), "59-62-67");
    assert_eq!(shape["position"], 7);
}

#[test]
fn a_typed_tuning_says_that_its_octaves_are_inferred() {
    let typed = json(&["shapes", "G", "--tuning", "D A D G B E"]);
    assert_eq!(words(&typed["tuning"]["strings"]), "D2 A2 D3 G3 B3 E4");
    assert_eq!(typed["tuning"]["octaves_inferred"], true);
    let inferred = "(octaves inferred)";
    for command in [&["shapes", "G"][..], &["ladder", "F", "G"], &["neck", "Gmaj7"]] {
        let typed = |tuning| text(&[command, &["--tuning", tuning]].concat());
        assert!(typed("D A D G B E").lines().take(3).any(|line| line.ends_with(inferred)));
        assert!(!typed("D2 A2 D3 G3 B3 E4").contains(inferred));
        assert!(!typed("guitar-drop-d").contains(inferred));
    }
}

/// Computed outside the project, from the pitches of the strings alone.
const LADDERS: &[(&str, &str)] = &[
    ("3-2-1", "F 2-1-1, G 4-3-3, F 5-6-5, G 7-8-7, F 10-10-8, G 12-12-10, F 14-13-13, G 16-15-15"),
    ("4-3-2", "G 0-0-0, F 3-2-1, G 5-4-3, F 7-5-6, G 9-7-8, F 10-10-10, G 12-12-12, F 15-14-13"),
    ("5-4-3", "G 2-0-0, F 3-3-2, G 5-5-4, F 8-7-5, G 10-9-7, F 12-10-10, G 14-12-12"),
    ("6-5-4", "G 3-2-0, F 5-3-3, G 7-5-5, F 8-8-7, G 10-10-9, F 13-12-10, G 15-14-12"),
];

#[test]
fn f_and_g_climb_the_four_string_sets_of_a_guitar() {
    for (strings, begins) in LADDERS {
        let answer = json(&["ladder", "F", "G", "--strings", strings]);
        assert_eq!(numbers(&answer["strings"]), *strings);
        let rung = |rung: &Value| {
            format!("{} {}", rung["triad"].as_str().unwrap(), numbers(&rung["frets"]))
        };
        let rungs: Vec<String> = answer["rungs"].as_array().unwrap().iter().map(rung).collect();
        let rungs = rungs.join(", ");
        assert!(rungs.starts_with(begins), "{strings}: {rungs}");
    }
}

#[test]
fn courses_are_shown_with_their_principal_first() {
    let list = json(&["tunings"]);
    let tunings = list["tunings"].as_array().unwrap();
    let of = |id: &str| tunings.iter().find(|tuning| tuning["id"] == id).unwrap();
    let charango = of("charango-standard")["courses"].as_array().unwrap();
    let courses: Vec<String> = charango.iter().map(words).collect();
    assert_eq!(courses, ["G4 G4", "C5 C5", "E5 E4", "A4 A4", "E5 E5"]);
    assert_eq!(words(&of("charango-standard")["strings"]), "G4 C5 E5 A4 E5");
    assert!(of("guitar-standard")["courses"].is_null());
    assert!(text(&["tunings"]).contains("  E2+E3 A2+A3 D3+D4 G3+G4 B3+B3 E4+E4  20 frets"));
}

#[test]
fn a_neck_is_printed_as_its_player_sees_it() {
    let rows = |options: &[&str]| -> Vec<String> {
        let said = text(&[&["neck", "Dm7", "--frets", "1-3"], options].concat());
        said.lines().skip(5).take(6).map(str::to_owned).collect()
    };
    let usual = rows(&[]);
    assert_eq!(usual[0], " 1 E    ┃•[F]─┼─────┼•(G)─›");
    let left = rows(&["--left-handed"]);
    assert_eq!(left[0], "‹─(G)•┼─────┼─[F]•┃    E  1");
    let mut turned = rows(&["--upside-down"]);
    turned.reverse();
    assert_eq!(turned, usual);
    let capoed = rows(&["--capo", "1", "--capo-strings", "3-2-1"]);
    assert_eq!(capoed[0], " 1 E•[F]┃     ║─────┼•(G)─›");
    assert_eq!(capoed[5], usual[5]);
}

#[test]
fn tunings_are_compared_set_by_set() {
    let compare = ["tunings", "compare", "guitar-standard", "D A D G B E"];
    let answer = json(&compare);
    let sets: Vec<String> = answer["sets"]
        .as_array()
        .unwrap()
        .iter()
        .map(|set| format!("{} {}", numbers(&set["a"]), set["shapes_survive"]))
        .collect();
    assert_eq!(sets, ["6-5-4 false", "5-4-3 true", "4-3-2 true", "3-2-1 true"]);
    assert_eq!(numbers(&answer["sets"][0]["b_steps"]), "7-5");
    assert!(answer["sets"][0]["why"].as_str().unwrap().ends_with("string 6 two frets up"));
    let pair = [&compare[..], &["--pair", "Eb & F"]].concat();
    let ladder = &json(&pair)["sets"][1]["ladder"];
    assert_eq!(ladder, "play the ladder of Eb & F on 5-4-3 as before");
    assert!(text(&pair).contains("\n6-5-4   shapes change\n  steps 5 5 become steps 7 5: "));
}

#[test]
fn a_comparison_fits_eighty_columns() {
    let list = json(&["tunings"]);
    for tuning in list["tunings"].as_array().unwrap() {
        let id = tuning["id"].as_str().unwrap();
        let said = text(&["tunings", "compare", "guitar-12-string", id, "--pair", "Ebm & Faug"]);
        for line in said.lines() {
            assert!(line.chars().count() <= 80, "{id}: {line}");
        }
    }
}

/// Computed from open pitches: with a capo at 2 the open strings 3-2-1 are A C♯ F♯.
#[test]
fn frets_behind_a_capo_are_written_as_the_capos() {
    let shapes = json(&["shapes", "F#m", "--strings", "3-2-1", "--capo", "2"]);
    assert_eq!(numbers(&shapes["shapes"][0]["frets"]), "2-2-2");
    assert_eq!(numbers(&shapes["shapes"][0]["fingers"]), "0-0-0");
    assert_eq!(shapes["tuning"]["capo"], 2);
    assert_eq!(words(&shapes["tuning"]["strings"]), "E2 A2 D3 G3 B3 E4");
    let ladder = json(&["ladder", "F#m", "E", "--capo", "2"]);
    assert_eq!(numbers(&ladder["rungs"][0]["frets"]), "2-2-2");
    // A range of frets is of those that are written.
    let lowest =
        |frets| json(&["shapes", "F#m", "--capo", "2", "--frets", frets])["shapes"].clone();
    assert!(lowest("0-1").as_array().unwrap().is_empty());
    assert_eq!(numbers(&lowest("2-5")[0]["frets"]), "2-2-2");
    let neck = json(&["neck", "Dm7", "--capo", "2", "--capo-strings", "6-5"]);
    assert_eq!(numbers(&neck["tuning"]["capo_strings"]), "6-5");
    for place in neck["places"].as_array().unwrap() {
        let number = |key: &str| place[key].as_u64().unwrap();
        assert!(number("string") < 5 || number("fret") >= 2, "{place}");
    }
}

#[test]
fn text_names_what_sounds_and_the_shape_behind_the_capo() {
    for (arguments, line) in [
        (&["shapes", "G"][..], "sounds G · shape of F behind the capo at 2"),
        (&["ladder", "F", "G"], "sounds F & G · shapes of E♭ & F behind the capo at 2"),
        (&["neck", "Dm7"], "sounds F & G · shapes of E♭ & F behind the capo at 2"),
    ] {
        let said = text(&[arguments, &["--capo", "2"]].concat());
        let tuning = "Guitar, standard   E2 A2 D3 G3 B3 E4   capo at 2";
        assert!(said.contains(&format!("{tuning}\n{line}\n")), "{said}");
        let partial = text(&[arguments, &["--capo", "2", "--capo-strings", "4-3-2"]].concat());
        assert!(partial.contains("   capo at 2 on 4-3-2\n") && !partial.contains("behind"));
        assert_eq!(text(arguments), text(&[arguments, &["--capo", "0"]].concat()));
    }
}

#[test]
fn options_that_every_command_takes_may_come_first() {
    assert_eq!(text(&["--json", "chord", "C7"]), text(&["chord", "C7", "--json"]));
    let first = text(&["--tuning", "guitar-dadgad", "shapes", "G"]);
    assert_eq!(first, text(&["shapes", "G", "--tuning", "guitar-dadgad"]));
}

/// As `fretloom pairs --all --json | head -1` does, with more text than any pipe holds.
#[test]
fn a_reader_that_leaves_early_is_no_error() {
    let home = Home::new();
    let mut program = home.program();
    let program = program.args(["pairs", "--all", "--json"]);
    let mut child = program.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let mut begun = [0; 12];
    let mut reader = child.stdout.take().unwrap();
    reader.read_exact(&mut begun).unwrap();
    drop(reader);
    let mut complaint = String::new();
    child.stderr.take().unwrap().read_to_string(&mut complaint).unwrap();
    assert_eq!(&begun, b"{\"format\":1,");
    assert_eq!((child.wait().unwrap().code(), complaint.as_str()), (Some(0), ""));
}

/// A tuning is named at the shell as the search of the screen finds it. Which tuning is meant: common
/// practice, no source.
/// By hand: two rounds of three eighths, in turns, meet the bar after 24 eighths; picking goes up on
/// the second one.
#[test]
fn patterns_are_listed_in_80_columns_and_the_players_own_among_them() {
    let home = Home::new();
    home.put("fretloom/patterns.toml", "my-cell = { name = \"my cell\", figures = \"1-2\" }\n");
    let list = home.run(&["patterns"]).printed();
    assert!(list.lines().all(|line| line.chars().count() <= 80 || line.contains("my cell")));
    let rows: Vec<Vec<&str>> = list
        .lines()
        .map(|line| line.split("  ").filter(|cell| !cell.is_empty()).collect())
        .collect();
    let row = |id: &str| rows.iter().find(|row| row.first() == Some(&id)).unwrap();
    let trimmed = |id| row(id).iter().map(|cell| cell.trim()).collect::<Vec<_>>();
    assert_eq!(trimmed("threes-up"), ["threes-up", "123", "⊓V⊓", "3", "3", "threes up"]);
    let [id, figures, strokes, long, bars, name] = trimmed("my-cell")[..] else { panic!("{list}") };
    assert_eq!([id, figures, strokes, long, bars], ["my-cell", "1-2", "⊓-⊓", "3", "3"]);
    assert!(name.starts_with("my cell (") && name.ends_with("patterns.toml)"), "{name}");
    let json = home.run(&["patterns", "--json"]).printed();
    assert!(json.contains("\"figures\":\"1-2\",\"length\":3,\"source\":\""), "{json}");
    home.put("fretloom/patterns.toml", "my-cell = { name = \"my cell\", figures = \"19\" }\n");
    let said = home.run(&["patterns"]);
    assert_eq!(said.status, Some(0));
    assert!(
        said.err.contains("patterns.toml:1:41: found `\"19\"`, expected a figure"),
        "{}",
        said.err
    );
}

/// A chart is listed by the name that the commands take. Bars by hand: the first ending, back, the second.
#[test]
fn charts_are_listed_in_80_columns_and_the_players_own_among_them() {
    let home = Home::new();
    home.put("fretloom/charts/mine.toml", "[[section]]\nbars = \"|: Dm7 | 1. G7 :| 2. C6 |\"\n");
    home.put("fretloom/charts/odd.toml", "[[section]]\nbars = \"|: Dm7 | Hx |\"\n");
    let said = home.run(&["charts"]);
    assert_eq!(said.status, Some(0));
    assert!(
        said.err.contains("odd.toml:2:9: found `|:`, expected a :| for this |:"),
        "{}",
        said.err
    );
    assert!(!said.out.contains("odd"), "{}", said.out);
    let lines: Vec<&str> = said.out.lines().collect();
    assert!(lines.iter().all(|line| line.chars().count() <= 80 || line.contains("mine")));
    let cells = |line: &str| line.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
    assert_eq!(
        cells(lines[1]).join(" "),
        "the-ferry-clerks-holiday 32 4/4 E♭ The Ferry Clerk's Holiday"
    );
    let mine = cells(lines[4]);
    assert_eq!(mine[..5], ["mine", "4", "4/4", "-", "-"]);
    assert!(mine[5].ends_with("mine.toml)"), "{mine:?}");
    let listed: Value = serde_json::from_str(&home.run(&["charts", "--json"]).out).unwrap();
    let charts = listed["charts"].as_array().unwrap();
    assert_eq!(charts.len(), 4);
    for chart in charts {
        let id = chart["id"].as_str().unwrap();
        let planned: Value =
            serde_json::from_str(&home.run(&["changes", id, "--json"]).out).unwrap();
        for key in ["title", "meter", "tempo", "feel"] {
            assert_eq!(planned[key], chart[key], "{id}");
        }
        let bars = planned["bars"].as_array().unwrap();
        assert_eq!(bars.len() as u64, chart["bars"].as_u64().unwrap(), "{id}");
        let line: Value =
            serde_json::from_str(&home.run(&["line", "--chart", id, "--json"]).out).unwrap();
        assert_eq!(line["title"], chart["title"]);
    }
}

#[test]
fn tunings_are_named_as_players_name_them() {
    for (typed, tuning) in [
        ("dadgad", "Guitar, DADGAD   D2 A2 D3 G3 A3 D4"),
        ("drop d", "Guitar, drop D   D2 A2 D3 G3 B3 E4"),
        ("Drop D bass", "Bass, drop D   D1 A1 D2 G2"),
        ("ukulele", "Ukulele, high G   G4 C4 E4 A4"),
        ("open g", "Guitar, open G   D2 G2 D3 G3 B3 D4"),
        ("e a d g b e", "Guitar, standard   E2 A2 D3 G3 B3 E4"),
    ] {
        let said = Home::new().run(&["shapes", "G", "--tuning", typed]).printed();
        assert_eq!(said.lines().nth(1), Some(tuning), "{typed}");
    }
}

/// What lies on a stand says what it is: chord, scale, pair, tuning and capo, or the triads with
/// their notes.
#[test]
fn a_printed_neck_says_what_it_is_of() {
    let neck = text(&["neck", "Dm7", "--capo", "3"]);
    let head: Vec<&str> = neck.lines().take(4).collect();
    assert_eq!(head[0], "Dm7   D Dorian");
    assert!(head[1].starts_with("[F] & (G)   "), "{}", head[1]);
    assert_eq!(head[2], "Guitar, standard   E2 A2 D3 G3 B3 E4   capo at 3");
    assert_eq!(head[3], "sounds F & G · shapes of D & E behind the capo at 3");
    assert_eq!(text(&["neck", "--scale", "D Dorian"]).lines().next(), Some("D Dorian"));
    assert_eq!(text(&["shapes", "Abm"]).lines().next(), Some("A♭m   A♭ C♭ E♭"));
    let ladder = text(&["ladder", "F", "Gm"]);
    assert_eq!(ladder.lines().next(), Some("F   F A C   &   Gm   G B♭ D"));
}

/// F & G in position V: the B is there by a stretch alone, on string 3 or on string 4. The places are
/// worked out by hand.
#[test]
fn stretches_are_printed_as_on_the_screen_and_not_called_hidden() {
    let view = text(&["neck", "Dm7", "--view", "position", "--position", "V"]);
    let row = |string: &str| view.lines().find(|line| line.starts_with(string)).unwrap().to_owned();
    assert!(row(" 3 G").contains("~(B)~"), "{view}");
    assert!(row(" 4 D").contains("~(B)~"), "{view}");
    assert_eq!(view.matches('~').count(), 4, "{view}");
    assert!(view.contains("\nB3 is out of the box without a stretch\n"), "{view}");
    // Where the frets leave no room for it, it is not there.
    let frets = text(&["neck", "Dm7", "--view", "position", "--frets", "5-8"]);
    assert!(frets.contains("\nposition V: everything under one hand\n"), "{frets}");
    assert!(frets.contains("hidden: B3 is out of the box without a stretch\n"), "{frets}");
}
