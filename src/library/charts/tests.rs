//! Charts of files, by hand.

mod edited;
mod loaded;
mod round_trip;

use std::fs;
use std::path::PathBuf;

use fretloom_theory::{OptionalChords, ScaleKind};

use super::of_text::is_toml;
use super::*;

/// A folder of the test, gone when it is over.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Folder {
        let folder = std::env::temp_dir().join(format!("fretloom-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        Folder(folder)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn read(content: &str) -> ReadChart {
    ReadChart::of_text("own", content, &[]).unwrap_or_else(|problems| panic!("{problems:?}"))
}

/// What is told of a file, a line each; of one that is no chart too.
fn told(content: &str) -> Vec<String> {
    let problems = match ReadChart::of_text("own", content, &[]) {
        Ok(read) => read.problems,
        Err(problems) => problems,
    };
    problems.iter().map(ToString::to_string).collect()
}

/// A sound chart with this line at its beginning.
fn beginning(line: &str) -> String {
    format!("{line}\n[[section]]\nbars = \"| Dm7 | G7 |\"\n")
}

/// A sound chart with this choice.
fn choosing(lines: &str) -> String {
    format!("[[section]]\nbars = \"| Dm7 | G7 |\"\n[[choice]]\n{lines}\n")
}

#[test]
fn a_file_is_read_whole() {
    let read = read(
        "title = \"Two Doors\"\nkey = \"Bb\"\ntempo = 86.5\nmeter = \"3/4\"\nfeel = \"even\"\npickup = 1\n\
         [[section]]\nname = \"A\"\nbars = \"| F7 |: Bb6 | Cm7 F7 |1. Dm7 :|\"\n\
         [[section]]\nname = \"the end\"\nbars = '''\n|2. Bb6 |\n| % |'''\n\
         [[choice]]\nbar = 5\nbeat = \"2&\"\nscale = \"C Dorian\"\n\
         [[choice]]\nbar = 0\nbeat = 3\npair = \"Eb+ & A\"\n",
    );
    assert_eq!(read.problems, []);
    let chart = read.chart;
    assert_eq!(chart.title.as_deref(), Some("Two Doors"));
    assert_eq!(chart.key, "Bb".parse().ok());
    assert_eq!(chart.tempo.unwrap().to_string(), "86.5");
    assert_eq!(chart.feel.as_deref(), Some("even"));
    let written = "pickup=1 | 3/4 [A] F7 |: B♭6 | Cm7 F7 | 1. Dm7 :|\n| [the end] 2. B♭6 | % |";
    assert_eq!(chart.to_string(), written);
    let heard: Vec<usize> =
        chart.chorus(OptionalChords::Played).heard.iter().map(|bar| bar.written).collect();
    assert_eq!(heard, [0, 1, 2, 3, 1, 2, 4, 5]);
    let [first, second] = &chart.choices[..] else { panic!("{:?}", chart.choices) };
    assert_eq!((first.bar, first.beat), (0, "3".parse().unwrap()));
    assert_eq!(first.pair.unwrap().map(|triad| format!("{triad:#}")), ["Eb+", "A"]);
    assert_eq!((second.bar, second.beat), (5, "2&".parse().unwrap()));
    assert_eq!(second.scale.as_ref().unwrap().to_string(), "C Dorian");
}

#[test]
fn a_pick_up_is_a_number_of_beats() {
    for (written, beats) in
        [("1", "1"), ("0.5", "1/2"), ("1.5", "3/2"), ("\"1/3\"", "1/3"), ("\"2\"", "2")]
    {
        let read = read(&beginning(&format!("pickup = {written}")));
        assert_eq!(read.chart.bars.pick_up().unwrap().to_string(), beats, "{written}");
    }
}

#[test]
fn what_is_typed_is_bars_and_what_gives_values_is_toml() {
    for typed in ["Dm7 G7", "pickup=1 | C | F |", "# a = 1\n[A] C | F", "| C = F | C |"] {
        assert!(!is_toml(typed), "{typed}");
    }
    for toml in ["title = \"x\"", "# a\n  [[section]]\n", "a.b=1\nC", "[section]\nbars = \"C\""] {
        assert!(is_toml(toml), "{toml}");
    }
    assert_eq!(read("pickup=1 | A7 | 3/4 Dm7 | G7x |").problems[0].column, 29);
}

/// The player's own kinds of scales are known by their names.
#[test]
fn a_choice_may_name_a_scale_of_ones_own() {
    let degrees = ["1", "2", "3", "5", "6", "7"].map(|degree| degree.parse().unwrap());
    let own = [ScaleKind::own("six bright notes", &degrees).unwrap()];
    let content = choosing("bar = 1\nscale = \"D six bright notes\"");
    let read = ReadChart::of_text("own", &content, &own).unwrap();
    assert_eq!((read.problems.len(), read.chart.choices.len()), (0, 1));
    assert!(
        told(&content)[0].starts_with("own:5:9: found `\"D six bright notes\"`, expected a kind")
    );
}

/// Each costs itself: the bars are read.
#[test]
fn what_cannot_be_used_is_told_with_its_place() {
    for (content, said) in [
        (beginning("titel = \"x\""), "own:1:1: found `titel`, expected `title`, perhaps; this key"),
        (beginning("title = 3"), "own:1:9: found `3`, expected a title in quotes"),
        (beginning("key = \"H\""), "own:1:7: found `\"H\"`, expected a tonic, as in Bb or D minor"),
        (beginning("meter = \"5/3\""), "own:1:9: found `\"5/3\"`, expected "),
        (beginning("tempo = 5"), "own:1:9: found `5`, expected quarter notes a minute, 10 to 500"),
        (beginning("pickup = 0"), "own:1:10: found `0`, expected a number of beats, as in 1"),
        (beginning("pickup = 0.123456789"), "own:1:10: found `0.123456789`, expected a number of"),
        (beginning("feel"), "own:1:1: found `feel`, expected TOML ("),
        (choosing("beat = 1"), "own:3:1: found `[[choice]]`, expected a key `bar`: a bar that is"),
        (choosing("bar = 1"), "own:3:1: found `[[choice]]`, expected a key `scale` or `pair`"),
        (
            choosing("bar = 3\nscale = \"D Dorian\""),
            "own:4:7: found `3`, expected a bar that is heard, 1 to 2",
        ),
        (
            choosing("bar = 1\nbeat = 5\nscale = \"D Dorian\""),
            "own:5:8: found `5`, expected a beat that bar 1 has",
        ),
        (choosing("bar = 1\nbeat = 0"), "own:5:8: found `0`, expected a beat from 1"),
        (choosing("bar = 1\nbeat = \"x\""), "own:5:8: found `\"x\"`, expected a beat from 1"),
        (choosing("bar = 1\nscale = \"D Durian\""), "the nearest is Dorian (character 3)"),
        (choosing("bar = 1\npair = \"F\""), "own:5:8: found `\"F\"`, expected two triads, as in"),
        (choosing("bar = 1\npair = \"F & Fx\""), "expected nothing (major), m, dim,"),
        (choosing("bar = 1\npair = \"F & Am\""), "expected two triads without a common note"),
        (choosing("bar = 1\nscales = \"D Dorian\"\npair = \"F & G\""), "expected `scale`, perhaps"),
        (
            choosing(
                "bar = 1\npair = \"F & G\"\n[[choice]]\nbar = 1\nbeat = \"1\"\npair = \"F & G\"",
            ),
            "own:6:1: found `[[choice]]`, expected one choice for beat 1 of bar 1",
        ),
        (beginning("choice = 3"), "own:1:10: found `3`, expected choices, each as in [[choice]]"),
        (
            "[[section]]\nname = \"[A]\"\nbars = \"C | F\"".into(),
            "own:2:8: found `\"[A]\"`, expected",
        ),
        ("[[section]]\nnames = \"A\"\nbars = \"C | F\"".into(), "own:2:1: found `names`, expected"),
    ] {
        let read = read(&content);
        assert_eq!(read.chart.bars.bars().len(), 2, "{content}");
        let [problem] = &read.problems[..] else { panic!("{content}: {:?}", read.problems) };
        assert!(problem.to_string().contains(said), "{problem}");
    }
}

/// Bars have places of their own, also where the quotes go over several lines.
#[test]
fn a_bar_that_cannot_be_read_is_told_with_its_place() {
    for (bars, place) in [
        ("\"| Dm7 | G7x |\"", (2, 19)),
        ("'| Dm7 | G7x |'", (2, 19)),
        ("\"\"\"| Dm7 |\n| C | G7x |\"\"\"", (3, 9)),
        ("\"\"\"\n| Dm7 |\n| C | G7x |\n\"\"\"", (4, 9)),
        ("\"\"\"\r\n| G7x |\r\n| C |\r\n\"\"\"", (3, 5)),
        // A sign that stands for another hides the places after it.
        ("\"\\u007C Dm7 | G7x |\"", (2, 8)),
    ] {
        let read = read(&format!("[[section]]\nbars = {bars}\n"));
        let [problem] = &read.problems[..] else { panic!("{bars}: {:?}", read.problems) };
        assert_eq!((problem.line, problem.column), place, "{bars}");
        assert_eq!(problem.text, "G7x");
    }
}

/// Without its form a chart is none.
#[test]
fn an_uncertain_form_costs_the_chart() {
    for (content, said) in [
        ("title = \"x\"\n", "own:1:1: expected sections, each as in [[section]] above bars ="),
        ("section = 3\n", "own:1:11: found `3`, expected sections, each"),
        ("[section]\nbars = \"C\"\n", "expected sections, each as in [[section]] above bars ="),
        (
            "[[section]]\nname = \"A\"\n",
            "own:1:1: found `[[section]]`, expected a key `bars`: bars",
        ),
        ("[[section]]\nbars = 3\n", "own:2:8: found `3`, expected bars in quotes, as in"),
        ("[[section]]\nbars = \"\"\n", "own:2:9: expected a chord, or bars as in | Dm7 | G7 |"),
        ("[[section]]\nbars = \"|: C | F |\"\n", "own:2:9: found `|:`, expected a :| for this |:"),
        ("[[section]]\nbars = \"| Hx |\"\n", "own:2:11: found `Hx`, expected a note letter"),
        ("|: C | F |", "own:1:1: found `|:`, expected a :| for this |: before another one"),
    ] {
        let problems = ReadChart::of_text("own", content, &[]).unwrap_err();
        assert!(problems[0].to_string().contains(said), "{problems:?}");
    }
    let second =
        "[[section]]\nbars = \"| C |\"\n[[section]]\nbars = \"\"\"\n| F |\n| G D.S. |\"\"\"\n";
    assert_eq!(told(second)[0].split(", expected").next(), Some("own:6:5: found `D.S.`"));
}

/// A file of nothing but mistakes is told of in part, and soon.
#[test]
fn what_is_told_has_an_end() {
    let mut content = beginning("");
    for line in 0..40_000 {
        content += &format!("[[choice]]\nx{line} = 1\n");
    }
    let began = std::time::Instant::now();
    let told = told(&content);
    assert_eq!(told.len(), 200);
    let more = told.iter().filter(|told| told.contains("expected fewer mistakes"));
    assert_eq!(more.count(), 1, "{told:?}");
    assert!(began.elapsed().as_secs() < 10, "{:?}", began.elapsed());
    assert!(ReadChart::of_text("own", &" ".repeat(LONGEST_CHART + 1), &[]).is_err());
}
