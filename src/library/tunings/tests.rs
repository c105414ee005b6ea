use std::fs;

use super::*;
use std::sync::atomic::{AtomicU32, Ordering};

const BANJO: &str = "name = \"Banjo, open G\"\ninstrument = \"banjo\"\n\
    strings = [\"G4\", \"D3\", \"G3\", \"B3\", \"D4\"]\nfrets = 22\nscale_mm = 670.5\n\
    start_frets = [5, 0, 0, 0, 0]\n";

const GOOD: &str = "name = \"x\"\ninstrument = \"guitar\"\nstrings = [\"E2\", \"A2\", \"D3\"]\n\
    frets = 22\nscale_mm = 648\n";

/// A folder of a player's own, gone when the test is over.
struct Folder(PathBuf);

impl Folder {
    fn with(files: &[(&str, &str)]) -> Folder {
        static NEXT: AtomicU32 = AtomicU32::new(0);
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let name = format!("fretloom-tunings-{}-{number}", std::process::id());
        let folder = Folder(std::env::temp_dir().join(name));
        fs::create_dir_all(folder.0.join("tunings")).unwrap();
        for (file, content) in files {
            fs::write(folder.0.join("tunings").join(file), content).unwrap();
        }
        folder
    }

    fn load(&self) -> LoadedTunings {
        LoadedTunings::load(Some(&self.0))
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn said(content: &str) -> Vec<String> {
    let (_, problems) = read_tuning("t.toml", "t", content);
    problems.iter().map(Problem::to_string).collect()
}

#[test]
fn the_list_and_the_folder_agree() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tunings");
    let mut stems: Vec<String> = toml_files(&folder)
        .unwrap()
        .iter()
        .map(|path| path.file_stem().unwrap().to_str().unwrap().to_owned())
        .collect();
    stems.sort();
    let mut listed: Vec<&str> = BUILT_IN.iter().map(|(id, _)| *id).collect();
    listed.sort_unstable();
    assert_eq!(stems, listed);
}

/// Open pitches as the instruments are tuned: common practice, no source.
#[test]
fn built_in_tunings_are_all_there() {
    let tunings = LoadedTunings::load(None);
    assert_eq!(tunings.problems(), []);
    for (id, strings) in [
        ("guitar-standard", "E2 A2 D3 G3 B3 E4"),
        ("guitar-drop-d", "D2 A2 D3 G3 B3 E4"),
        ("guitar-dadgad", "D2 A2 D3 G3 A3 D4"),
        ("guitar-open-g", "D2 G2 D3 G3 B3 D4"),
        ("guitar-all-fourths", "E2 A2 D3 G3 C4 F4"),
        ("guitar-major-thirds", "E2 G♯2 C3 E3 G♯3 C4"),
        ("guitar-fifths-and-a-third", "C2 G2 D3 A3 E4 G4"),
        ("guitar-high-strung", "E3 A3 D4 G4 B3 E4"),
        ("guitar-tenor-fifths", "C3 G3 D4 A4"),
        ("guitar-tenor-chicago", "D3 G3 B3 E4"),
        ("guitar-7-string", "B1 E2 A2 D3 G3 B3 E4"),
        ("guitar-7-string-russian", "D2 G2 B2 D3 G3 B3 D4"),
        ("guitar-12-string", "E2 A2 D3 G3 B3 E4"),
        ("bass-4-string", "E1 A1 D2 G2"),
        ("bass-5-string", "B0 E1 A1 D2 G2"),
        ("ukulele-high-g", "G4 C4 E4 A4"),
        ("ukulele-baritone", "D3 G3 B3 E4"),
        ("mandolin-standard", "G3 D4 A4 E5"),
        ("banjo-open-g", "G4 D3 G3 B3 D4"),
        ("cuatro-venezuelan", "A3 D4 F♯4 B3"),
        ("charango-standard", "G4 C5 E5 A4 E5"),
    ] {
        let (tuning, source) = tunings.get(id).unwrap();
        assert_eq!(tuning.to_string(), strings);
        assert_eq!(source, &Source::BuiltIn);
        assert!(!tuning.octaves_inferred());
    }
    assert_eq!(tunings.iter().count(), BUILT_IN.len());
}

/// A structure is the steps from string to string, with the frets where strings start: moving
/// all strings alike makes no new one.
#[test]
fn built_in_tunings_are_many_and_different() {
    let tunings = LoadedTunings::load(None);
    let structure = |tuning: &Tuning| -> Vec<(i32, u8)> {
        let lowest = tuning.strings().next().unwrap().1.pitch();
        let steps = tuning
            .strings()
            .map(|(_, open)| (lowest.semitones_up_to(open.pitch()), open.starts_at().number()));
        steps.collect()
    };
    let mut structures: Vec<_> = tunings.iter().map(|(tuning, _)| structure(tuning)).collect();
    assert!(structures.len() >= 52, "{} tunings", structures.len());
    structures.sort();
    structures.dedup();
    assert!(structures.len() >= 36, "{} structures", structures.len());
}

/// Scale lengths in mm from the smallest to the largest of a family that are commonly built: from
/// memory.
const COMMON_SCALES: &[(&str, std::ops::RangeInclusive<f64>)] = &[
    ("guitar", 530.0..=760.0),
    ("bass", 760.0..=914.0),
    ("ukulele", 320.0..=530.0),
    ("mandolin", 330.0..=700.0),
    ("banjo", 500.0..=700.0),
    ("bouzouki", 600.0..=700.0),
    ("cuatro", 500.0..=580.0),
    ("cavaquinho", 320.0..=350.0),
    ("vihuela", 500.0..=560.0),
    ("charango", 350.0..=390.0),
];

#[test]
fn an_id_begins_with_the_instrument_and_its_scale_is_plausible() {
    for (tuning, _) in LoadedTunings::load(None).iter() {
        let (id, instrument) = (tuning.id(), tuning.instrument().word());
        assert!(id.strip_prefix(instrument).is_some_and(|rest| rest.starts_with('-')), "{id}");
        assert!(id.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'));
        assert!(tuning.name().is_ascii() && tuning.name().len() <= 28, "{}", tuning.name());
        let known = COMMON_SCALES.iter().find(|(word, _)| *word == instrument);
        assert!(known.unwrap().1.contains(&tuning.scale_mm()), "{id}: {}", tuning.scale_mm());
        assert!((9..=26).contains(&tuning.last_fret().number()), "{id}");
    }
}

/// Two of one name, or one instrument told twice, would leave a player to guess.
#[test]
fn no_two_built_in_tunings_have_one_name() {
    let tunings = LoadedTunings::load(None);
    let mut names: Vec<&str> = tunings.iter().map(|(tuning, _)| tuning.name()).collect();
    names.sort_unstable();
    let count = names.len();
    names.dedup();
    assert_eq!(names.len(), count);
}

/// Octaves on the four low courses and unisons on the rest: common practice, no source.
#[test]
fn the_courses_of_twelve_strings_are_six() {
    let tunings = LoadedTunings::load(None);
    let (tuning, _) = tunings.get("guitar-12-string").unwrap();
    assert_eq!(tuning.string_count(), 6);
    let semitones = tuning.strings().map(|(number, open)| {
        let [beside] = tuning.doublings(number) else { panic!("course {number}") };
        open.note().pitch().semitones_up_to(beside.pitch())
    });
    assert_eq!(semitones.collect::<Vec<_>>(), [12, 12, 12, 12, 0, 0]);
}

#[test]
fn courses_are_read_and_their_mistakes_told() {
    let with = |beside: &str| format!("{GOOD}beside = {beside}\n");
    let (tuning, problems) = read_tuning("t.toml", "t", &with("[[\"E3\"], [], [\"D3\", \"D4\"]]"));
    assert_eq!(problems, []);
    let tuning = tuning.unwrap();
    let counts: Vec<usize> = tuning.strings().map(|(n, _)| tuning.doublings(n).len()).collect();
    assert_eq!(counts, [1, 0, 2]);
    let lists = "a list for each string of the notes beside it, as in [[\"E3\"], [\"A3\"], []]";
    for (beside, message) in [
        ("[\"E3\"]", format!("t.toml:6:10: found `[\"E3\"]`, expected {lists}")),
        (
            "[[\"H3\"], [], []]",
            "t.toml:6:12: found `\"H3\"`, expected a note letter, A to G; H is written B here, and \
             B is Bb (character 1)"
                .to_owned(),
        ),
        (
            "[[\"E\"], [], []]",
            "t.toml:6:12: found `\"E\"`, expected an octave number from -1 to 9, as in E2 \
             (character 2)"
                .to_owned(),
        ),
        (
            "[[\"E3\"]]",
            "t.toml:6:10: found `[[\"E3\"]]`, expected a list of further notes for each of 3 \
             strings, not 1 lists"
                .to_owned(),
        ),
    ] {
        assert_eq!(said(&with(beside)), [message]);
        assert_eq!(read_tuning("t.toml", "t", &with(beside)).0, None);
    }
}

#[test]
fn a_players_file_is_added_and_may_take_the_place_of_a_built_in_one() {
    let folder = Folder::with(&[("banjo.toml", BANJO), ("guitar-drop-d.toml", GOOD)]);
    let tunings = folder.load();
    assert_eq!(tunings.problems(), []);
    let (banjo, source) = tunings.get("banjo").unwrap();
    let fifth = banjo.strings().next().unwrap().1;
    assert_eq!(fifth.starts_at().number(), 5);
    assert_eq!(banjo.scale_mm().to_bits(), 670.5f64.to_bits());
    assert_eq!(source, &Source::File(folder.0.join("tunings/banjo.toml")));
    let (replaced, source) = tunings.get("guitar-drop-d").unwrap();
    assert_eq!(replaced.name(), "x");
    assert_ne!(source, &Source::BuiltIn);
    assert_eq!(tunings.iter().count(), BUILT_IN.len() + 1);
}

#[test]
fn a_broken_file_costs_that_file_only() {
    let files = [("a.toml", "strings = ["), ("banjo.toml", BANJO), ("notes.txt", "?")];
    let folder = Folder::with(&files);
    fs::create_dir(folder.0.join("tunings/b.toml")).unwrap();
    fs::write(folder.0.join("tunings/c.toml"), [0xFF, 0xFE]).unwrap();
    fs::write(folder.0.join("tunings/d.toml"), " ".repeat(70_000)).unwrap();
    fs::write(folder.0.join("tunings/guitar-standard.toml"), "").unwrap();
    let tunings = folder.load();
    assert!(tunings.get("banjo").is_some());
    assert_eq!(tunings.get("guitar-standard").unwrap().1, &Source::BuiltIn);
    for file in ["a.toml", "b.toml", "c.toml", "d.toml", "guitar-standard.toml"] {
        let told = tunings.problems().iter().any(|problem| problem.file.ends_with(file));
        assert!(told, "{file}");
    }
}

#[test]
fn no_folder_is_no_problem() {
    let nowhere = std::env::temp_dir().join("fretloom-there-is-no-such-folder");
    assert_eq!(LoadedTunings::load(Some(&nowhere)), LoadedTunings::load(None));
}

#[test]
fn an_unknown_key_is_told_and_costs_nothing() {
    let content = format!("{GOOD}scale_mmm = 3\ncolour = \"red\"\n");
    let (tuning, _) = read_tuning("t.toml", "t", &content);
    assert!(tuning.is_some());
    assert_eq!(
        said(&content),
        [
            "t.toml:6:1: found `scale_mmm`, expected `scale_mm`, perhaps; this key is not used",
            "t.toml:7:1: found `colour`, expected one of name, instrument, strings, frets, \
             scale_mm, start_frets, beside; this key is not used",
        ]
    );
}

#[test]
fn mistakes_point_at_the_value() {
    for (good, bad, message) in [
        (
            "\"A2\"",
            "\"H2\"",
            "t.toml:3:18: found `\"H2\"`, expected a note letter, A to G; H is written B here, and \
             B is Bb (character 1)",
        ),
        (
            "\"A2\"",
            "\"A\"",
            "t.toml:3:18: found `\"A\"`, expected an octave number from -1 to 9, as in E2 \
             (character 2)",
        ),
        ("\"A2\", ", "", "t.toml:3:11: found `[\"E2\", \"D3\"]`, expected 3 to 12 strings, not 2"),
        (
            "\"A2\"",
            "7",
            "t.toml:3:11: found `[\"E2\", 7, \"D3\"]`, expected a list of notes with octaves, as \
             in [\"E2\", \"A2\", \"D3\"]",
        ),
        ("22", "37", "t.toml:4:9: found `37`, expected 0 to 36 frets, not 37"),
        ("22", "-1", "t.toml:4:9: found `-1`, expected a number of frets, 0 to 36"),
        (
            "648",
            "6480",
            "t.toml:5:12: found `6480`, expected a scale length of 100 to 1500 mm, not 6480",
        ),
        (
            "648",
            "nan",
            "t.toml:5:12: found `nan`, expected a scale length of 100 to 1500 mm, not NaN",
        ),
        (
            "648",
            "648\nstart_frets = [5]",
            "t.toml:6:15: found `[5]`, expected a list of fret numbers, one a string, as in \
             [5, 0, 0, 0, 0]",
        ),
        ("frets = 22\n", "", "t.toml:1:1: expected a key `frets`: a number of frets, 0 to 36"),
    ] {
        let content = GOOD.replace(good, bad);
        assert_eq!(said(&content), [message]);
        assert_eq!(read_tuning("t.toml", "t", &content).0, None);
    }
}

#[test]
fn every_mistake_of_a_file_is_told_at_once() {
    let content = GOOD.replace("E2", "X").replace("D3", "Y").replace("22", "\"many\"");
    let lines: Vec<usize> =
        read_tuning("t.toml", "t", &content).1.iter().map(|problem| problem.line).collect();
    assert_eq!(lines, [3, 3, 4]);
}

#[test]
fn what_is_not_toml_says_where() {
    let [problem] = &read_tuning("t.toml", "t", "name = \"x\"\nfrets = = 3\n").1[..] else {
        panic!("not one problem");
    };
    assert_eq!(problem.line, 2);
    assert!(problem.expected.starts_with("TOML ("), "{problem}");
}
