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
        ("2.1\"\nnotes", "2.1+3/2\"\nnotes", "expected a part of a beat"),
        (
            "2.1\"\nnotes",
            "2.1\"\ntarget = \"3@2.1\"\nnotes",
            "phrase stab: the next phrase begins at 2.1",
        ),
    ] {
        let said = run(&PHRASES.replace(from, to));
        assert_eq!((said.status, said.out.as_str()), (Some(1), ""), "{}", said.err);
        assert!(said.err.contains(words) && said.err.contains("expected"), "{}", said.err);
    }
    let home = Home::new();
    let said = home.run(&["line", "Dm7", "--phrases", "not-there.toml"]);
    assert!(said.err.contains("not-there.toml") && said.status == Some(1), "{}", said.err);
}

/// The onsets, in quarters, and the names of the notes of a phrase, by its number.
fn of_phrase(answer: &Value, number: u32) -> Vec<(f64, String, f64)> {
    let notes = answer["notes"].as_array().unwrap().iter();
    let told = notes.filter(|note| note["phrase"] == number).map(|note| {
        let [onset, duration] = ["onset", "duration"].map(|key| note[key].as_f64().unwrap());
        (onset, note["note"].as_str().unwrap().to_owned(), duration)
    });
    told.collect()
}

/// By hand, up the ladder of F & G: F A C, G in the first phrase; it runs on with B D, A C, then lands on
/// B, which is held until its end. What is wide has the A of F A C an octave up: 16
/// half steps up, 9 down.
#[test]
fn a_phrase_runs_on_holds_its_target_and_opens_its_triads() {
    let said = run(
        "[one]\nfrom = \"1.1\"\npattern = \"123\"\npair = \"F & G\"\ntravel = \"up\"\nstart = \"root\"\n\
                    [two]\nfrom = \"1.3\"\nruns-on = true\npair = \"F & G\"\npattern = \"123\"\ntravel = \"up\"\n\
                    target = \"3@2.1:any\"\nto = \"2.3\"\n\
                    [three]\nfrom = \"3.1\"\npair = \"F & G\"\npattern = \"123\"\nwide = true\nstart = \"root\"\n",
    );
    assert_eq!((said.status, said.err.as_str()), (Some(0), ""));
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    let [one, two, three] = [1, 2, 3].map(|number| of_phrase(&answer, number));
    let names = |notes: &[(f64, String, f64)]| {
        notes.iter().map(|(_, name, _)| name.as_str()).collect::<Vec<_>>().join(" ")
    };
    let pair = answer["phrases"][0]["pair"].as_str().unwrap().to_owned();
    assert_eq!(pair, "F & G");
    assert_eq!((names(&one), names(&two)), ("F A C G".into(), "B D A C B".into()));
    let (onset, _, held) = two.last().unwrap();
    assert_eq!((*onset, *held), (4.0, 2.0));
    assert!(names(&three).starts_with("F A C B D G"), "{}", names(&three));
    let midi: Vec<i64> = answer["notes"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|note| note["phrase"] == 3)
        .map(|note| note["midi"].as_i64().unwrap())
        .collect();
    assert_eq!((midi[1] - midi[0], midi[2] - midi[1]), (16, -9));
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
