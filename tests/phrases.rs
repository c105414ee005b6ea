//! Lines whose phrases are written in a file, as a player runs them.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

#[path = "support/program.rs"]
mod program;

use program::{Home, Said};
use serde_json::Value;

/// A stab and an approach entered one by one, then four and three of a pair into the third.
const PHRASES: &str = r#"
[stab]
from = "1.1&"
to = "2.1"
notes = "F3+A3:8 -:8 E4:8 Eb4:8"

[question]
from = "2.1"
pair = "F & G"
pattern = "1232 321 a"
target = "3@3.1:below"
"#;

fn run(content: &str) -> Said {
    let home = Home::new();
    let file = home.put("phrases.toml", content);
    home.run(&["line", "| Dm7 | G7 | Cmaj7 |", "--phrases", file.to_str().unwrap(), "--json"])
}

#[test]
fn written_phrases_are_played() {
    let said = run(PHRASES);
    assert_eq!((said.status, said.err.as_str()), (Some(0), ""));
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    let notes = answer["notes"].as_array().unwrap();
    let stab: Vec<(f64, i64)> = notes
        .iter()
        .take_while(|note| note["phrase"] == 1)
        .map(|note| (note["onset"].as_f64().unwrap(), note["midi"].as_i64().unwrap()))
        .collect();
    assert_eq!(stab, [(0.5, 53), (0.5, 57), (1.5, 64), (2.0, 63)]);
    assert!(notes.iter().take(4).all(|note| note["triad"] == "free" && note["of"].is_null()));
    // The third of Cmaj7 on the first beat of bar 3, from the half step below.
    let [before, last] = &notes[notes.len() - 2..] else { panic!() };
    assert_eq!((last["onset"].as_f64(), last["note"].as_str()), (Some(8.0), Some("E")));
    assert_eq!(last["midi"].as_i64().unwrap() - before["midi"].as_i64().unwrap(), 1);
    let phrases = answer["phrases"].as_array().unwrap();
    assert!(phrases[0]["pair"].is_null() && phrases[0]["pattern"].is_null());
    assert_eq!(
        (&phrases[1]["pair"], &phrases[1]["pattern"]),
        (&"F & G".into(), &"1232 321 a".into())
    );
}

#[test]
fn what_is_wrong_is_told_and_nothing_is_printed() {
    for (from, to, words) in [
        ("from = \"2.1\"", "", "expected a key `from`"),
        (
            "2.1\"\npair",
            "7.1\"\npair",
            "7.1 does not lie in the line: expected a beat of bars 1 to 3",
        ),
        ("to = \"2.1\"", "to = \"1.1\"", "phrase stab: it ends at quarter 0"),
        ("3@3.1:below", "3@3", "phrase question: cannot read the target"),
        ("1232 321 a", "1232 8", "a figure from 0 to 6"),
        ("F & G", "F & Am", "without a common note"),
        ("F3+A3", "F1+A3", "F1 is not among the notes that may be used"),
    ] {
        let said = run(&PHRASES.replace(from, to));
        assert_eq!((said.status, said.out.as_str()), (Some(1), ""), "{}", said.err);
        assert!(said.err.contains(words) && said.err.contains("expected"), "{}", said.err);
    }
    let home = Home::new();
    let said = home.run(&["line", "Dm7", "--phrases", "not-there.toml"]);
    assert!(said.err.contains("not-there.toml") && said.status == Some(1), "{}", said.err);
}

/// In another key everything goes along: the pair, the notes entered, and a target by its name.
#[test]
fn written_phrases_go_through_the_keys() {
    let home = Home::new();
    let file = home.put("phrases.toml", &PHRASES.replace("3@3.1:below", "E@3.1:below"));
    let said = home.run(&[
        "line",
        "| Dm7 | G7 | Cmaj7 |",
        "--keys",
        "tones",
        "--phrases",
        file.to_str().unwrap(),
        "--json",
    ]);
    assert_eq!((said.status, said.err.as_str()), (Some(0), ""));
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    let of = |key: &Value| -> Vec<i64> {
        let notes = key["notes"].as_array().unwrap();
        notes.iter().map(|note| note["midi"].as_i64().unwrap()).collect()
    };
    let keys = answer["keys"].as_array().unwrap();
    let d = keys.iter().find(|key| key["key"] == "D").unwrap();
    let by: Vec<i64> =
        of(&keys[0]).iter().zip(of(d)).map(|(c, d)| (d - c).rem_euclid(12)).collect();
    assert!(by.len() > 8 && by.iter().all(|by| *by == 2), "{by:?}");
    assert_eq!(d["phrases"][1]["pair"], "G & A");
}

/// The pair of a phrase lies in the view as those of the chords do.
#[test]
fn a_pair_of_its_own_lies_under_the_hand_too() {
    let home = Home::new();
    let file = home.put("phrases.toml", "[own]\nfrom = \"1.1\"\npair = \"Am & Bdim\"\n");
    let file = file.to_str().unwrap();
    let position = ["--view", "position", "--position", "5"];
    let asked = ["line", "Dm7", "--bars", "1", "--phrases", file, "--json"];
    let said = home.run(&[asked.as_slice(), &position].concat());
    assert_eq!((said.status, said.err.as_str()), (Some(0), ""));
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    for note in answer["notes"].as_array().unwrap() {
        let fret = note["fret"].as_i64().unwrap();
        assert!((4..=9).contains(&fret), "{note}");
        assert!(["Am", "Bdim"].contains(&note["of"].as_str().unwrap()), "{note}");
    }
}
