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
            "target = \"3@3.1:below\"\n",
            "target = \"5@2.2 3@3.1\"\n[next]\nfrom = \"2.2&\"\n",
            "phrase question: the next phrase begins at 2.2& and would lie over the target 3@3.1",
        ),
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

/// Two phrases of F & G; the second begins on the first beat of bar 3. What each says of its place goes
/// in.
fn in_places(one: &str, two: &str) -> String {
    format!(
        "[one]\nfrom = \"1.1\"\nto = \"2.4\"\npair = \"F & G\"\npattern = \"1232 321\"\n{one}\n\
         [two]\nfrom = \"3.1\"\npair = \"F & G\"\npattern = \"123\"\n{two}\n"
    )
}

/// The line of these phrases, as the program tells it when it is asked so.
fn told_of(content: &str, asked: &[&str]) -> Said {
    let home = Home::new();
    let file = home.put("phrases.toml", content);
    let line = ["line", "| Dm7 | % | G7 | % |", "--phrases", file.to_str().unwrap()];
    home.run(&[line.as_slice(), asked].concat())
}

/// String and fret of each note of a phrase, in every way to play it that is told.
fn places(said: &Said, phrase: u32) -> Vec<(i64, i64)> {
    assert_eq!((said.status, said.err.as_str()), (Some(0), ""));
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    let notes = answer["notes"].as_array().unwrap().iter();
    let own = notes.filter(|note| note["phrase"] == phrase);
    own.map(|note| (note["string"].as_i64().unwrap(), note["fret"].as_i64().unwrap())).collect()
}

/// By the tab: for each bar, in every way one after another, the strings that have a fret in it, counted
/// from the one nearest the floor.
fn strings_by_bar(tab: &str) -> Vec<Vec<usize>> {
    let mut bars: Vec<Vec<usize>> = Vec::new();
    let mut first = 0;
    for row in tab.lines() {
        let Some((name, cells)) = row.split_once('|') else { continue };
        let Some(string) = name.split(' ').next().and_then(|it| it.parse::<usize>().ok()) else {
            continue;
        };
        // The first string begins a line of bars.
        first = if string == 1 { bars.len() } else { first };
        for (bar, cell) in cells.trim_end_matches('|').split('|').enumerate() {
            bars.resize(bars.len().max(first + bar + 1), Vec::new());
            if cell.contains(|sign: char| sign.is_ascii_digit()) {
                bars[first + bar].push(string);
            }
        }
    }
    bars
}

#[test]
fn each_phrase_lies_on_strings_of_its_own() {
    let numbers = |set: &str| -> Vec<usize> {
        set.split('-').map(|number| number.parse().unwrap()).collect()
    };
    for (one, two) in [("4-3-2", "3-2-1"), ("6-5-4", "3-2-1"), ("3-2-1", "5-4-3"), ("5", "2-1")] {
        let strings = |set: &str| format!("strings = \"{set}\"");
        let said = told_of(&in_places(&strings(one), &strings(two)), &["--ways", "5"]);
        assert_eq!((said.status, said.err.as_str()), (Some(0), ""), "{one} {two}");
        let bars = strings_by_bar(&said.out);
        assert!(bars.len() > 4 && bars.len().is_multiple_of(4), "{}", said.out);
        for (set, bar) in [one, one, two, two].into_iter().cycle().zip(bars) {
            let all_in = bar.iter().all(|string| numbers(set).contains(string));
            assert!(!bar.is_empty() && all_in, "{bar:?} {set}: {}", said.out);
        }
    }
}

/// The rest of the line stays in its own position, wherever the phrase goes.
#[test]
fn a_phrase_stays_in_a_position_of_its_own() {
    let fifth = ["--view", "position", "--position", "5", "--json"];
    for (position, frets) in [("II", 1..=6), ("IX", 8..=13), ("12", 11..=16)] {
        let own = format!("view = \"position\"\nposition = \"{position}\"");
        let said = told_of(&in_places("", &own), &fifth);
        let (one, two) = (places(&said, 1), places(&said, 2));
        assert!(one.len() > 8 && one.iter().all(|(_, fret)| (4..=9).contains(fret)), "{one:?}");
        assert!(two.len() > 8 && two.iter().all(|(_, fret)| frets.contains(fret)), "{two:?}");
    }
    // Where only frets are named, the rest is the line's.
    let said = told_of(&in_places("", "frets = \"12-16\""), &["--strings", "4-3-2", "--json"]);
    let all_in = |phrase, frets: std::ops::RangeInclusive<i64>| {
        let places = places(&said, phrase);
        let is_in = |(string, fret): &(i64, i64)| (2..=4).contains(string) && frets.contains(fret);
        !places.is_empty() && places.iter().all(is_in)
    };
    assert!(all_in(1, 0..=22) && all_in(2, 12..=16), "{}", said.out);
}

/// What `neck` shows of the pair under a view is where the phrase goes, and it goes to all of it.
#[test]
fn a_phrase_goes_along_a_view_of_its_own() {
    let home = Home::new();
    for (own, shown) in [
        ("view = \"two\"\nstrings = \"4-3-2\"", &["--view", "two", "--strings", "4-3-2"][..]),
        (
            "view = \"two\"\nposition = \"V\"\nchoice = 2",
            &["--view", "two", "--position", "V", "--choice", "2"],
        ),
        ("view = \"across\"", &["--view", "across"]),
        ("view = \"across\"\nchoice = 3", &["--view", "across", "--choice", "3"]),
        ("view = \"across\"\nfrets = \"5-17\"", &["--view", "across", "--frets", "5-17"]),
        ("view = \"set\"\nstrings = \"5-4-3\"", &["--view", "set", "--strings", "5-4-3"]),
    ] {
        let neck = ["neck", "Dm7", "--pair", "F & G", "--json"];
        let view: Value = serde_json::from_str(&home.run(&[&neck, shown].concat()).out).unwrap();
        let seen: Vec<(i64, i64)> = view["places"]
            .as_array()
            .unwrap()
            .iter()
            .map(|place| (place["string"].as_i64().unwrap(), place["fret"].as_i64().unwrap()))
            .collect();
        let said = told_of(&in_places("strings = \"6-5-4\"", own), &["--json"]);
        let played = places(&said, 2);
        assert!(played.len() > 8, "{own}: {played:?}");
        assert!(played.iter().all(|place| seen.contains(place)), "{own}: {played:?} {seen:?}");
        assert!(places(&said, 1).iter().all(|(string, _)| *string >= 4), "{own}");
    }
}

/// An answer lies where its question does, and a place of its own comes before that; in other keys
/// places stay, and phrases that are written out of order keep theirs.
#[test]
fn places_go_with_their_phrases() {
    let content = "[late]\nfrom = \"3.1\"\npair = \"F & G\"\npattern = \"123\"\nstrings = \"3-2-1\"\n\
                   [early]\nfrom = \"1.1\"\nto = \"2.1\"\nlike = \"late\"\nstrings = \"6-5-4\"\n\
                   [answer]\nfrom = \"2.1\"\nlike = \"early\"\n";
    let said = told_of(content, &["--keys", "fourths", "--json"]);
    assert_eq!((said.status, said.err.as_str()), (Some(0), ""));
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    let keys = answer["keys"].as_array().unwrap();
    assert_eq!(keys.len(), 12);
    for key in keys {
        let notes = key["notes"].as_array().unwrap();
        assert!((1..=3).all(|phrase| notes.iter().any(|note| note["phrase"] == phrase)));
        for note in notes {
            let is_low = note["string"].as_i64().unwrap() >= 4;
            assert_eq!(is_low, note["phrase"].as_i64().unwrap() < 3, "{note}");
        }
    }
}

#[test]
fn a_place_that_cannot_be_is_told() {
    for (own, words) in [
        ("view = \"across\"\nstrings = \"3-2-1\"", "expected no strings beside view = \"across\""),
        ("position = \"V\"", "expected view = \"position\" or \"two\" beside it"),
        ("view = \"set\"\nposition = \"V\"", "expected view = \"position\" or \"two\" beside it"),
        ("view = \"position\"\nchoice = 2", "expected view = \"across\" or \"two\" beside it"),
        ("view = \"sideways\"", "expected one of position, set, across, two"),
        ("view = \"two\"\nchoice = 0", "expected a whole number, 1 for the best way"),
        ("view = \"two\"\nchoice = 99999999999999999999", "expected a whole number"),
        ("view = \"two\"\nchoice = 99", "phrase two: there is no choice 99: expected a number"),
        ("strings = \"4-3-x\"", "expected a string number, 1 to 12 (character 5)"),
        ("strings = \"9-8-7\"", "phrase two: there are no strings 9-8-7"),
        ("strings = 3", "expected a text in quotes"),
        ("view = \"two\"\nstrings = \"4-2-1\"", "phrase two: 4-2-1 skips a string"),
        ("frets = \"30-36\"", "phrase two: there are no frets 30-36"),
        ("frets = \"9-2\"", "expected a fret not below the first"),
        ("view = \"position\"\nposition = \"XXX\"", "phrase two: there is no position XXX"),
        ("frets = \"1-1\"\nstrings = \"6\"", "cannot make the line: phrase 2: "),
    ] {
        let said = told_of(&in_places("", own), &[]);
        assert_eq!((said.status, said.out.as_str()), (Some(1), ""), "{own}: {}", said.err);
        assert!(said.err.contains(words) && said.err.contains("expected"), "{own}: {}", said.err);
    }
}

/// An idea for each section, over bars that say where they begin.
const IDEAS: &str = r#"
[verse]
from = "[A]"
pattern = "123"
travel = "up"
start = "root"
strings = "4-3-2"

[bridge]
from = "[B]"
like = "verse"
at-change = "again"
strings = "3-2-1"
frets = "5-17"
"#;

fn over_sections(content: &str, options: &[&str]) -> Said {
    let home = Home::new();
    let file = home.put("phrases.toml", content);
    let chords = "[A] Dm7 | G7 | [B] Fm7 | Bb7";
    let pairs = "F & G, F & G, Ab & Bb, Fm & Gm";
    let file = file.to_str().unwrap();
    let arguments = ["line", chords, "--pair", pairs, "--phrases", file, "--json"];
    home.run(&[&arguments[..], options].concat())
}

/// Over A the pattern runs on where the chord changes, since F & G stays: F A C, G B D, A C F, B D G,
/// C F A, the first note of D G B. Over B it begins again with Fm & Gm, near to where it was.
#[test]
fn each_section_has_its_idea_and_its_place() {
    let said = over_sections(IDEAS, &[]);
    assert_eq!((said.status, said.err.as_str()), (Some(0), ""));
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    let notes = answer["notes"].as_array().unwrap();
    let in_bars = |from: f64, to: f64| -> Vec<&Value> {
        notes.iter().filter(|it| (from..to).contains(&it["onset"].as_f64().unwrap())).collect()
    };
    let midi = |notes: &[&Value]| -> Vec<i64> {
        notes.iter().map(|note| note["midi"].as_i64().unwrap()).collect()
    };
    assert_eq!(
        midi(&in_bars(0.0, 8.0)),
        [53, 57, 60, 55, 59, 62, 57, 60, 65, 59, 62, 67, 60, 65, 69, 62]
    );
    let again = in_bars(12.0, 16.0);
    assert_eq!(again[0]["of"], "Fm");
    let before = *midi(&in_bars(8.0, 12.0)).last().unwrap();
    assert!((midi(&again)[0] - before).abs() <= 3, "{before} {:?}", midi(&again));
    for (from, to, strings, frets) in
        [(0.0, 8.0, [4, 3, 2], 0..=22), (8.0, 16.0, [3, 2, 1], 5..=17)]
    {
        for note in in_bars(from, to) {
            assert!(strings.contains(&note["string"].as_i64().unwrap()), "{note}");
            assert!(frets.contains(&note["fret"].as_i64().unwrap()), "{note}");
        }
    }
}

/// Cut with its last whole group: of 8 eighths two groups of three are played, and two eighths rest.
#[test]
fn a_pattern_is_cut_where_the_chord_changes() {
    let cut = IDEAS.replace("\"again\"", "\"cut\"");
    let answer: Value = serde_json::from_str(&over_sections(&cut, &[]).out).unwrap();
    let onsets: Vec<f64> = answer["notes"]
        .as_array()
        .unwrap()
        .iter()
        .map(|note| note["onset"].as_f64().unwrap())
        .filter(|onset| *onset >= 8.0)
        .collect();
    assert_eq!(onsets[..7], [8.0, 8.5, 9.0, 9.5, 10.0, 10.5, 12.0]);
}

#[test]
fn sections_that_are_not_there_are_told() {
    for (from, more, words) in [
        ("[C]", "", "phrase one: there is no section C: expected one of A, B"),
        ("[B]", "to = \"4.1\"", "it is for section B and lasts until that ends"),
        ("[B]", "target = \"3@2.1\"", "the target 3@2.1 does not lie in section B"),
    ] {
        let said = over_sections(&format!("[one]\nfrom = \"{from}\"\n{more}\n"), &[]);
        assert_eq!((said.status, said.out.as_str()), (Some(1), ""));
        assert!(said.err.contains(words), "{}", said.err);
    }
    let home = Home::new();
    let file = home.put("phrases.toml", "[one]\nfrom = \"[A]\"\n");
    let said = home.run(&["line", "| Dm7 | G7 |", "--phrases", file.to_str().unwrap()]);
    assert!(said.err.contains("there is no section A, since none has a name"), "{}", said.err);
}
