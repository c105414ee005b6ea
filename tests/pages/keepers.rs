//! Sheets of what is kept: opened as it was kept, for oneself and for others.

use crate::program::Home;
use crate::xml::drawn;

/// A keeper of every kind, as the program writes them.
const KEPT: &str = r##"format = 1
next_id = 11

[[keeper]]
id = 1
what = "pair"
chord = "Gmaj7#11"
scale = "G Lydian"
scale_notes = "G A B C# D E F#"
pair = "G & A"
view = "position V"
tuning = { id = "guitar-drop-d", name = "Guitar, drop D", instrument = "guitar", strings = ["D2", "A2", "D3", "G3", "B3", "E4"], frets = 22, scale_mm = 648, capo = 2 }
name = "bridge, second time"
notes = "Begin on the low inversion.\nLeave the 7 to the bass."

[[keeper]]
id = 2
what = "shape"
chord = "G7"
scale = "G Mixolydian"
pair = "F & G"
shape = { triad = "G", strings = "4-3-2", frets = [9, 7, 8], fingers = [4, 1, 2] }
tuning = { id = "guitar-standard", name = "Guitar, standard", instrument = "guitar", strings = ["E2", "A2", "D3", "G3", "B3", "E4"], frets = 22, scale_mm = 648 }

[[keeper]]
id = 3
what = "ladder"
chord = "Dm7"
pair = "F & G"
strings = "4-3-2"
tuning = { id = "guitar-standard", name = "Guitar, standard", instrument = "guitar", strings = ["E2", "A2", "D3", "G3", "B3", "E4"], frets = 22, scale_mm = 648 }

[[keeper]]
id = 5
what = "line"
chord = "Dm7 | G7"
pair = "F & G"
line = [
  { onset = "0", length = "1/2", midi = 65, string = 4, fret = 15, finger = 4 },
  { onset = "1/2", length = "1/2", midi = 69, string = 3, fret = 14, finger = 2 },
  { onset = "1", length = "1", midi = 71, string = 3, fret = 16 },
  { onset = "4", length = "2", midi = 74, string = 2, fret = 15, finger = 3 },
]
screen = "[line]\ntempo = 96\nmeter = \"4/4\"\n"
tuning = { id = "guitar-standard", name = "Guitar, standard", instrument = "guitar", strings = ["E2", "A2", "D3", "G3", "B3", "E4"], frets = 22, scale_mm = 648 }

[[keeper]]
id = 7
what = "plan"
plan = { chart = "title = \"Slow lamp\"\n\n[[section]]\nname = \"A\"\nbars = \"| Am7 | D7 |\"\n", key = "C" }

[[keeper]]
id = 8
pair = "F & G"

[[keeper]]
id = 9
what = "line"
chord = "Gm7"
line = [{ onset = "0", length = "4", midi = 58, string = 3, fret = 3, finger = 3 }]
screen = "[line]\nchords = \"Dm7\"\neach = [\"Dm7; D Aeolian; Dm & C\"]\nbars = 1\nkey = 1\n"
tuning = { id = "guitar-standard", name = "Guitar, standard", instrument = "guitar", strings = ["E2", "A2", "D3", "G3", "B3", "E4"], frets = 22, scale_mm = 648 }

[[keeper]]
id = 10
what = "plan"
plan = { chart = "title = \"Slow lamp\"\n\n[[section]]\nname = \"A\"\nbars = \"| Am7 | D7 |\"\n", frets = "4-9" }
strings = "4-3-2"
screen = "[changes]\narea = \"V 4-3-2\"\nplan = 2\n"
"##;

fn home() -> Home {
    let home = Home::new();
    home.put("data/fretloom/keepers.toml", KEPT);
    home
}

/// The texts of a file, in order.
fn texts(home: &Home, file: &str) -> Vec<String> {
    let svg = std::fs::read_to_string(home.folder().join(file)).unwrap();
    drawn(&svg)
        .into_iter()
        .filter(|it| it.name == "text")
        .map(|it| it.text.trim().to_owned())
        .collect()
}

fn sheet(home: &Home, id: &str, more: &[&str]) -> Vec<String> {
    let file = format!("{id}.svg");
    let call = ["sheet", "--keeper", id, "--svg", &file, "--overwrite"];
    let words: Vec<&str> = call.iter().chain(more).copied().collect();
    home.run(&words).printed();
    texts(home, &file)
}

fn assert_has(texts: &[String], wanted: &[&str]) {
    for wanted in wanted {
        assert!(texts.iter().any(|text| text.contains(wanted)), "{wanted} in {texts:#?}");
    }
}

#[test]
fn a_pair_stands_on_the_instrument_and_in_the_view_that_it_was_kept_in() {
    let texts = sheet(&home(), "1", &[]);
    assert_has(
        &texts,
        &[
            "Gmaj7♯11",
            "G Lydian",
            "Guitar, drop D",
            "capo at 2",
            "position V",
            "bridge, second time",
            "Begin on the low inversion.",
            "Leave the 7 to the bass.",
            "in the cycle of fourths",
            "stop when it hurts",
        ],
    );
}

#[test]
fn a_shape_has_the_fingers_that_it_had() {
    let home = home();
    let svg = || std::fs::read_to_string(home.folder().join("2.svg")).unwrap();
    assert_has(&sheet(&home, "2", &[]), &["G7", "1st inversion 4-3-2"]);
    let fingers = |svg: &str| -> Vec<String> {
        let marks = drawn(svg).into_iter().filter(|it| it.name == "text" && !it.titles.is_empty());
        // Those of the box do not say their triad.
        let says = marks.map(|it| it.titles.last().unwrap().clone());
        says.filter(|says| says.contains(": string ") && !says.ends_with("triad")).collect()
    };
    let held = ["2: string 2, fret 8", "1: string 3, fret 7", "4: string 4, fret 9"];
    assert_eq!(fingers(&svg()), held);
    // Tuned in fourths throughout, as common practice has it, the same pitches lie elsewhere.
    let texts = sheet(&home, "2", &["--tuning", "guitar-all-fourths"]);
    assert_has(&texts, &["all fourths", "1st inversion"]);
    assert_ne!(fingers(&svg()), held);
    // B3 lies below the lowest string of a ukulele, which is C4.
    let ukulele = sheet(&home, "2", &["--tuning", "ukulele-high-g"]);
    assert_has(&ukulele, &["The shape sounds an octave higher, where this instrument has it."]);
    let bass = sheet(&home, "2", &["--tuning", "bass-4-string"]);
    assert_has(&bass, &["The shape sounds an octave lower, where this instrument has it."]);
}

#[test]
fn a_ladder_is_there_whole() {
    let texts = sheet(&home(), "3", &[]);
    // Close shapes of F and G with their lowest notes on the D string between the nut and fret 22, counted
    // by hand: G at 0, F at 3, G at 5, F at 7, G at 9, F at 10, G at 12, and five more an octave higher.
    let shapes = texts.iter().filter(|text| text.ends_with("4-3-2")).count();
    assert_eq!(shapes, 12);
    assert_has(
        &texts,
        &["Dm7", "root position 4-3-2", "1st inversion 4-3-2", "2nd inversion 4-3-2"],
    );
}

#[test]
fn a_line_is_played_as_it_was_and_moved_for_others() {
    let home = home();
    let own = sheet(&home, "5", &["--sentences"]);
    assert_has(&own, &["Dm7 G7", "♩ = 96, 4/4", "Dm7: D Dorian, F & G", "15", "14", "16"]);
    // Between them stand fingers, after them empty necks.
    let frets = own.iter().filter(|text| text.parse().is_ok_and(|fret: u8| fret > 9));
    assert_eq!(frets.take(4).collect::<Vec<_>>(), ["15", "14", "16", "15"]);
    let bass = sheet(&home, "5", &["--tuning", "bass-4-string"]);
    // An octave lower it would lie beyond the ninth position.
    assert_has(&bass, &["The line sounds 2 octaves lower, where this instrument has it."]);
    let plain = home.run(&["sheet", "--keeper", "5", "--ascii"]).printed();
    assert!(plain.contains("15") && plain.contains("Dm7"), "{plain}");
}

/// What was chosen on the screen goes along into the key in which the line stood, a fourth up.
#[test]
fn a_line_has_the_scales_and_pairs_of_its_screen() {
    let texts = sheet(&home(), "9", &[]);
    assert_has(&texts, &["Gm7", "Gm7: G Aeolian, Gm & F"]);
}

#[test]
fn a_plan_is_the_one_that_was_chosen_where_the_hand_was() {
    let home = home();
    let chosen = sheet(&home, "10", &[]);
    assert_has(&chosen, &["the hand stays on strings 4-3-2, frets 4 to 9"]);
    home.put("data/fretloom/keepers.toml", &KEPT.replace("plan = 2", "plan = 0"));
    assert_ne!(sheet(&home, "10", &[]), chosen, "another plan");
}

#[test]
fn a_plan_is_a_chart_with_or_without_what_is_played_over_it() {
    let home = home();
    assert_has(
        &sheet(&home, "7", &[]),
        &["Slow lamp", "Am7", "D7", "D Mixolydian", "name", "date"],
    );
    let blank = sheet(&home, "7", &["--no-answers"]);
    assert_has(&blank, &["Slow lamp", "Am7", "D7"]);
    assert!(!blank.iter().any(|text| text.contains("Mixolydian")), "{blank:?}");
}

#[test]
fn several_keepers_stand_in_one_file_or_in_one_each() {
    let home = home();
    let call = ["sheet", "--keeper", "2", "--keeper", "7"];
    let with = |more: &[&str]| {
        let words: Vec<&str> = call.iter().chain(more).copied().collect();
        home.run(&words)
    };
    assert_eq!(with(&["--pdf", "all.pdf"]).printed(), "written: all.pdf\n");
    let pdf = std::fs::read(home.folder().join("all.pdf")).unwrap();
    let pages = String::from_utf8_lossy(&pdf).matches("/Type /Page\n").count();
    assert_eq!(pages, 2);
    let refused = with(&["--svg", "all.svg"]);
    assert_eq!(refused.status, Some(1));
    assert!(
        refused.err.contains("expected {keeper} in its name, as in sheet-{keeper}.svg"),
        "{}",
        refused.err
    );
    let of_each = "written: 2.svg\nwritten: 7.svg\n";
    assert_eq!(with(&["--svg", "{keeper}.svg"]).printed(), of_each);
    let readers = ["--reader", "Mira,bass-4-string", "--reader", "Jo,no-answers"];
    let words: Vec<&str> = readers.iter().chain(&["--pdf", "{reader}.pdf"]).copied().collect();
    assert_eq!(with(&words).printed(), "written: Mira.pdf\nwritten: Jo.pdf\n");
    let words: Vec<&str> =
        readers.iter().chain(&["--svg", "{reader}-{keeper}.svg"]).copied().collect();
    let written = with(&words).printed();
    assert_eq!(written.lines().count(), 4, "{written}");
    assert!(written.contains("written: Jo-7.svg\n"));
}

#[test]
fn what_cannot_be_opened_is_refused() {
    let home = home();
    for (call, status, told) in [
        (&["--keeper", "4"][..], 1, "there is no keeper \"4\"; expected the number of one that"),
        (&["--keeper", "x"], 1, "there is no keeper \"x\"; expected the number of one that"),
        (&["--keeper", "8"], 1, "keeper 8: it names neither a chord nor a scale for its pair"),
        (
            &["--keeper", "5", "--tuning", "A7 A7 A7"],
            1,
            "keeper 5: the instrument does not have the",
        ),
        (&["Dm7", "--keeper", "3"], 2, "cannot be used with"),
        (&["--keeper", "3", "--scale", "altered"], 2, "cannot be used with"),
        (&[], 2, "required"),
    ] {
        let words: Vec<&str> = ["sheet"].iter().chain(call).copied().collect();
        let said = home.run(&words);
        assert_eq!((said.status, said.out.as_str()), (Some(status), ""), "{call:?}: {}", said.err);
        assert!(said.err.contains(told), "{call:?}: {}", said.err);
    }
}
