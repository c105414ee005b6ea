//! Lines through the changes of a chart, and its comping, as a player runs them.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

#[path = "support/program.rs"]
mod program;

use std::collections::BTreeSet;
use std::fs;

use fretloom::score_file::{self, Choice};
use program::{Home, Said};
use serde_json::Value;

/// Three bars with pairs of the player's own, and one that nobody can read.
const SETTLED: &str = r#"
title = "Two Doors"
tempo = 160

[[section]]
name = "A"
bars = "| Dm7 | G7 | Cmaj7 | Xyz |"

[[choice]]
bar = 1
pair = "F & G"

[[choice]]
bar = 2
pair = "F & G"

[[choice]]
bar = 3
pair = "G & Am"
"#;

/// Two sections in several keys, two chords in a bar, a bar without a chord, another meter.
const TUNE: &str = "[A] | Dm7 | G7 | Cmaj7 | % | [B] | Cm7 F7 | Bbmaj7 | N.C. | 3/4 Fm7 | Bb7 | \
                    4/4 Ebmaj7 | Em7b5 A7 | Dm7 G7 |";

fn answer(said: &Said) -> Value {
    assert_eq!(said.status, Some(0), "{}", said.err);
    serde_json::from_str(&said.out).unwrap()
}

/// The MIDI numbers of the notes that begin in each bar of 4/4.
fn in_bars(answer: &Value, count: u32) -> Vec<Vec<i64>> {
    let notes = answer["notes"].as_array().unwrap();
    let bar = |index: u32| {
        let from = f64::from(4 * index);
        let within = |note: &&Value| (from..from + 4.0).contains(&note["onset"].as_f64().unwrap());
        notes.iter().filter(within).map(|note| note["midi"].as_i64().unwrap()).collect()
    };
    (0..count).map(bar).collect()
}

fn exercise(more: &[&str]) -> Value {
    let home = Home::new();
    let chart = home.put("two-doors.toml", SETTLED);
    let chart = chart.to_str().unwrap();
    let words = ["line", "--chart", chart, "--exercise", "--start", "F3", "--json"];
    answer(&home.run(&[&words[..], more].concat()))
}

#[test]
fn the_tab_of_a_chart_begins_with_its_title() {
    let home = Home::new();
    let chart = home.put("two-doors.toml", SETTLED);
    let said = home.run(&["line", "--chart", chart.to_str().unwrap()]);
    assert_eq!(said.out.lines().next(), Some("Two Doors"));
    let typed = home.run(&["line", "| Dm7 |"]);
    assert!(typed.out.starts_with("Dm7  D Dorian"), "{}", typed.out);
}

/// F A C, G B D, A C F, B D G, C F A and the D of D G B; then with G & Am the nearest second note of Am up
/// is E of C E A, and D G B, E A C follow on the ladder. By hand.
#[test]
fn the_pattern_runs_on_through_the_changes() {
    let answer = exercise(&[]);
    assert_eq!(
        in_bars(&answer, 4),
        [
            vec![53, 57, 60, 55, 59, 62, 57, 60],
            vec![65, 59, 62, 67, 60, 65, 69, 62],
            vec![64, 69, 62, 67, 71, 64, 69, 72],
            vec![],
        ]
    );
    assert_eq!(answer["tempo"], 160.0);
    assert_eq!(answer["title"], "Two Doors");
    assert_eq!(answer["chords"].as_array().unwrap().len(), 4);
}

/// Near to C is A, of A C F; near to F is G, of G B D. By hand.
#[test]
fn the_pattern_begins_again_at_the_nearest_note() {
    assert_eq!(
        in_bars(&exercise(&["--at-change", "again"]), 4),
        [
            vec![53, 57, 60, 55, 59, 62, 57, 60],
            vec![57, 60, 65, 59, 62, 67, 60, 65],
            vec![67, 71, 74, 69, 72, 76, 71, 74],
            vec![],
        ]
    );
    let cut = in_bars(&exercise(&["--at-change", "cut"]), 4);
    assert_eq!(cut.iter().map(Vec::len).collect::<Vec<_>>(), [6, 6, 6, 0]);
}

/// Asked for, the line lands on the third of Cmaj7 from a half step, stays on its strings and frets, and
/// goes as fast as it is told.
#[test]
fn a_line_of_a_chart_is_asked_like_any_other() {
    let home = Home::new();
    let chart = home.put("two-doors.toml", SETTLED);
    let said = home.run(&[
        "line",
        "--chart",
        chart.to_str().unwrap(),
        "--json",
        "--tempo",
        "90",
        "--target",
        "3@3.1:below",
        "--strings",
        "4-3-2",
        "--frets",
        "5-12",
    ]);
    let answer = answer(&said);
    assert_eq!(answer["tempo"], 90.0);
    let notes = answer["notes"].as_array().unwrap();
    for note in notes {
        assert!((2..=4).contains(&note["string"].as_i64().unwrap()), "{note}");
        assert!((5..=12).contains(&note["fret"].as_i64().unwrap()), "{note}");
    }
    let landed = notes.iter().position(|note| note["onset"] == 8.0).unwrap();
    assert_eq!(notes[landed]["note"], "E");
    let [before, at] = [landed - 1, landed].map(|index| notes[index]["midi"].as_i64().unwrap());
    assert_eq!(at - before, 1);
}

/// A phrase that goes through several guide tones, of sections that come twice: each sounds when it is asked
/// for and is led to by a half step, all but the last for an eighth, the last until the section ends. By hand:
/// the sevenths and thirds of Dm7 G7 Cmaj7, Fm7 Bb7 in bars 2, 3, 4 and 6, 8.
#[test]
fn a_phrase_goes_through_several_targets() {
    let home = Home::new();
    let chart = home.put("tune.txt", "[A] | Dm7 | G7 | Cmaj7 | % | [B] | Fm7 | % | Bb7 | % |");
    let phrases = "[verse]\nfrom = \"[A]\"\ntarget = \"3@2.1:below 3@3.1:below b3@1.3:above\"\n\
                   [bridge]\nfrom = \"[B]\"\ntarget = \"b3@6.1:below b7@8.1:above\"\nat-change = \"again\"\n";
    let file = home.put("phrases.toml", phrases);
    let [chart, file] = [&chart, &file].map(|path| path.to_str().unwrap());
    let answer = answer(&home.run(&["line", "--chart", chart, "--phrases", file, "--json"]));
    let notes = answer["notes"].as_array().unwrap();
    for (onset, note, from, duration) in [
        (2.0, "F", 1, 0.5),
        (4.0, "B", -1, 0.5),
        (8.0, "E", -1, 8.0),
        (20.0, "Ab", -1, 0.5),
        (28.0, "Ab", 1, 4.0),
    ] {
        let at = notes.iter().position(|it| it["onset"] == onset).unwrap();
        assert_eq!((&notes[at]["note"], &notes[at]["duration"]), (&note.into(), &duration.into()));
        let [before, here] = [at - 1, at].map(|index| notes[index]["midi"].as_i64().unwrap());
        assert_eq!(before - here, from, "{onset}");
    }
    let landed =
        answer["phrases"].as_array().unwrap().iter().filter_map(|it| it["target"].as_str());
    assert_eq!(
        landed.collect::<Vec<_>>(),
        ["b3@1.3:above", "3@2.1:below", "3@3.1:below", "b3@6.1:below", "b7@8.1:above"]
    );
    for (from, to, words) in [
        (
            "3@2.1:below",
            "3@1.3&:below",
            "phrase verse: nothing can lead to the target 3@1.3&:below",
        ),
        ("3@2.1:below", "3@6.1:below", "3@6.1:below does not lie in section A"),
        ("3@2.1:below", "3@2.1:below,", "cannot read the target"),
    ] {
        home.put("phrases.toml", &phrases.replace(from, to));
        let said = home.run(&["line", "--chart", chart, "--phrases", file]);
        assert_eq!((said.status, said.out.as_str()), (Some(1), ""));
        assert!(said.err.contains(words) && said.err.contains("expected"), "{}", said.err);
    }
}

/// Every note of a pair is one of the chord's own pair or is free, whatever the chart.
#[test]
fn each_note_belongs_to_the_pair_of_its_phrase() {
    let home = Home::new();
    let chart = home.put("tune.txt", TUNE);
    let answer = answer(&home.run(&["line", "--chart", chart.to_str().unwrap(), "--json"]));
    let phrases = answer["phrases"].as_array().unwrap();
    let lands = |note: &Value| note["duration"].as_f64().unwrap() > 0.5;
    let notes = answer["notes"].as_array().unwrap();
    assert!(notes.len() > 40);
    for note in notes.iter().filter(|note| note["triad"] != "free" && !lands(note)) {
        let phrase = &phrases[note["phrase"].as_u64().unwrap() as usize - 1];
        let pair = phrase["pair"].as_str().unwrap();
        let of = note["of"].as_str().unwrap();
        let is_landing = phrase["target"]
            .as_str()
            .is_some_and(|it| it.starts_with(note["degree"].as_str().unwrap()));
        assert!(pair.split(" & ").any(|triad| triad == of) || is_landing, "{note} in {phrase}");
    }
}

/// Two stabs a bar and one for each chord of two; triads whole, held, in six frets, the highest note moving
/// three semitones at most, round the form too. Pitches are worked out from strings and frets here.
#[test]
fn comping_does_what_it_promises() {
    let home = Home::new();
    let chart = home.put("tune.txt", TUNE);
    let call = ["changes", chart.to_str().unwrap(), "--comping", "--json"];
    let answer = answer(&home.run(&call));
    let stabs = answer["comping"]["stabs"].as_array().unwrap();
    let bars = answer["bars"].as_array().unwrap();
    for bar in bars {
        let number = &bar["bar"];
        let own: Vec<&Value> = stabs.iter().filter(|stab| stab["bar"] == *number).collect();
        let is_silent = bar["chords"].as_array().unwrap().iter().all(|it| it["symbol"] == "N.C.");
        assert_eq!(own.len(), if is_silent { 0 } else { 2 }, "bar {number}");
        let [chord] = &bar["chords"].as_array().unwrap()[..] else { continue };
        if is_silent {
            continue;
        }
        let triads: BTreeSet<&str> = own.iter().map(|it| it["triad"].as_str().unwrap()).collect();
        let pair: BTreeSet<&str> = chord["pair"].as_str().unwrap().split(" & ").collect();
        assert_eq!(triads, pair, "bar {number}");
    }
    const OPEN: [i64; 6] = [64, 59, 55, 50, 45, 40];
    let list = |stab: &Value, key: &str| -> Vec<i64> {
        stab[key].as_array().unwrap().iter().map(|it| it.as_i64().unwrap()).collect()
    };
    let mut tops = Vec::new();
    let mut frets = Vec::new();
    for stab in stabs {
        let strings = list(stab, "strings");
        let sounding: Vec<i64> = strings
            .iter()
            .zip(list(stab, "frets"))
            .map(|(string, fret)| OPEN[usize::try_from(string - 1).unwrap()] + fret)
            .collect();
        assert_eq!(sounding, list(stab, "pitches"));
        assert!(stab["fingers"].is_array(), "{stab}");
        tops.push(*sounding.iter().max().unwrap());
        frets.extend(list(stab, "frets"));
    }
    let next = tops.iter().cycle().skip(1);
    assert!(tops.iter().zip(next).all(|(one, next)| (one - next).abs() <= 3), "{tops:?}");
    assert!(frets.iter().max().unwrap() - frets.iter().min().unwrap() <= 5, "{frets:?}");
}

/// Files of a chart's line and of its comping say what the answer says, read again.
#[test]
fn what_is_written_of_a_chart_is_read_again() {
    let home = Home::new();
    let chart = home.put("tune.txt", TUNE);
    let chart = chart.to_str().unwrap();
    for (name, more) in [("line", &[][..]), ("comping", &["--comping"])] {
        let [xml, midi, wav] =
            ["musicxml", "mid", "wav"].map(|kind| home.put(&format!("{name}.{kind}"), ""));
        let [to_xml, to_midi, to_wav] = [&xml, &midi, &wav].map(|file| file.to_str().unwrap());
        let words = [
            "changes",
            chart,
            "--musicxml",
            to_xml,
            "--midi",
            to_midi,
            "--wav",
            to_wav,
            "--overwrite",
        ];
        let said = home.run(&[&words[..], more].concat());
        assert_eq!((said.status, said.err.as_str()), (Some(0), ""));
        assert_eq!(said.out.matches("\nwritten: ").count(), 3, "{}", said.out);
        let read = |file| score_file::read(&fs::read(file).unwrap(), &Choice::default()).unwrap();
        let notes = |read: &score_file::ReadScore| -> BTreeSet<(String, u8)> {
            let told = |note: score_file::ReadNote<'_>| {
                (note.note.onset().to_string(), note.note.pitch().pitch().midi())
            };
            read.notes().map(told).collect()
        };
        let (of_xml, of_midi) = (read(&xml), read(&midi));
        assert!(notes(&of_xml).len() > 40, "{name}");
        assert_eq!(notes(&of_xml), notes(&of_midi), "{name}");
        // Dm7 G7 Cmaj7, Cm7 F7 Bbmaj7, N.C., Fm7 Bb7 Ebmaj7 Em7b5 A7 Dm7 G7.
        assert_eq!(of_xml.score().chords.changes().len(), 14, "{name}");
        assert!(fs::metadata(&wav).unwrap().len() > 1_000_000, "{name}");
        let plain = home.run(&["changes", chart, "--midi", to_midi]);
        assert_eq!(plain.status, Some(1));
        assert!(plain.err.contains("it is there already"), "{}", plain.err);
    }
}

/// An option that says nothing is refused, and what cannot be comped is told with what would help.
#[test]
fn mistakes_are_told() {
    let home = Home::new();
    let chart = home.put("tune.txt", TUNE);
    let chart = chart.to_str().unwrap();
    for (words, status, told) in [
        (&["changes", chart, "--top", "2"][..], 2, "--comping"),
        (&["changes", chart, "--comping", "--area", "8", "--frets", "1-8"], 2, "--area"),
        (&["changes", chart, "--swing", "2:1"], 2, "--play"),
        (&["changes", chart, "--reach", "100"], 2, "--reach says nothing to changes"),
        (&["line", "Dm7", "--chart", chart], 2, "--chart"),
        (&["line", "--chart", chart, "--pair", "F & G"], 2, "--pair"),
        (&["line"], 2, "CHORDS"),
        (
            &["changes", chart, "--comping", "--strings", "3-2-1", "--area", "2"],
            1,
            "cannot comp this: ",
        ),
        (&["changes", chart, "--comping", "--area", "0"], 2, "expected a number from 1 to 37"),
    ] {
        let said = home.run(words);
        assert_eq!(said.status, Some(status), "{words:?}: {}", said.err);
        assert!(said.err.contains(told), "{words:?}: {}", said.err);
        assert_eq!(said.out, "");
    }
}

/// What comes from outside is bounded: a chart with more bars than a line is made over.
#[test]
fn a_chart_that_is_too_long_is_refused() {
    let home = Home::new();
    let long = home.put("long.txt", &"| Dm7 | G7 ".repeat(600));
    let long = long.to_str().unwrap();
    for words in [&["line", "--chart", long][..], &["changes", long, "--comping"]] {
        let said = home.run(words);
        assert_eq!(said.status, Some(1));
        let told = "the chart has 1200 bars as it is heard: expected 1000 at most";
        assert!(said.err.contains(told), "{}", said.err);
    }
}
