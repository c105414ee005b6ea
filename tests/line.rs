//! `line`: what it prints is what was asked for, and what cannot be made is told.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "line/drill.rs"]
mod drill;
#[path = "support/program.rs"]
mod program;

use drill::{MAJOR, MINOR, Triad, Way, drill};
use program::{Home, Said};
use serde_json::Value;

fn asked(arguments: &[&str]) -> Value {
    let words = [&["line"], arguments, &["--json"]].concat();
    serde_json::from_str(&Home::new().run(&words).printed()).unwrap()
}

fn refused(arguments: &[&str]) -> String {
    let words = [&["line"], arguments].concat();
    let said = Home::new().run(&words);
    assert_eq!((said.status, said.out.as_str()), (Some(1), ""), "{arguments:?}: {}", said.err);
    assert_eq!(said.err.lines().count(), 1, "{}", said.err);
    said.err
}

fn list(of: &Value) -> &[Value] {
    of.as_array().unwrap()
}

fn numbers(notes: &Value, field: &str) -> Vec<i32> {
    let number = |note: &Value| i32::try_from(note[field].as_i64().unwrap()).unwrap();
    list(notes).iter().map(number).collect()
}

fn times(notes: &Value, field: &str) -> Vec<f64> {
    list(notes).iter().map(|note| note[field].as_f64().unwrap()).collect()
}

fn words<'a>(notes: &'a Value, field: &str) -> Vec<&'a str> {
    list(notes).iter().map(|note| note[field].as_str().unwrap_or("-")).collect()
}

/// Those of these fields that are not there.
fn missing<'a>(of: &Value, fields: &'a str) -> Vec<&'a str> {
    fields.split(' ').filter(|field| of.get(*field).is_none()).collect()
}

/// The names are those of the interface; more may follow them.
#[test]
fn the_json_has_the_fields_that_others_read() {
    let line = asked(&["Gmaj7#11", "--pair", "G & A", "--exercise", "--tempo", "96.5"]);
    assert_eq!(missing(&line, "format tempo meter chords phrases notes"), Vec::<&str>::new());
    assert_eq!((line["tempo"].as_f64(), line["meter"].as_str()), (Some(96.5), Some("4/4")));
    assert_eq!(line["chords"], serde_json::json!([{"onset": 0.0, "symbol": "Gmaj7#11"}]));
    let phrase = serde_json::json!(
        {"phrase": 1, "bar": 1, "pair": "G & A", "pattern": "123", "target": null}
    );
    assert_eq!(line["phrases"], serde_json::json!([phrase]));
    let note = &line["notes"][3];
    let of_interface = "onset duration midi note degree triad phrase group string fret finger tie \
                        accent slur stroke";
    assert_eq!(missing(note, of_interface), Vec::<&str>::new());
    // By hand: G B D, then the lowest A: in eighths on the and of 2, the 9th, upward.
    let told =
        ["note", "degree", "triad", "of", "stroke"].map(|field| note[field].as_str().unwrap());
    assert_eq!(told, ["A", "9", "second", "A", "up"]);
    assert_eq!((note["onset"].as_f64(), note["duration"].as_f64()), (Some(1.5), Some(0.5)));
    assert_eq!((note["phrase"].as_i64(), note["group"].as_i64()), (Some(1), Some(2)));
    assert!(note["tie"].is_null() && note["slur"].is_null());
}

/// The lowest and the highest pitch of a guitar of 22 frets.
const NECK: (i32, i32) = (40, 86);

#[test]
fn exercises_are_the_pattern_computed_by_plain_numbers() {
    let (f, g, d, e) = (Triad(5, MAJOR), Triad(7, MAJOR), Triad(2, MINOR), Triad(4, MINOR));
    let (a, b) = (Triad(9, MAJOR), Triad(10, MAJOR));
    let pairs =
        [("Dm7", "F & G", [f, g]), ("Dm7", "Dm & Em", [d, e]), ("F#7alt", "Bb & A", [b, a])];
    let patterns: [(&str, &[&[usize]]); 5] = [
        ("123", &[&[1, 2, 3]]),
        ("321", &[&[3, 2, 1]]),
        ("132 32", &[&[1, 3, 2], &[3, 2]]),
        ("1232 321", &[&[1, 2, 3, 2], &[3, 2, 1]]),
        ("1423", &[&[1, 4, 2, 3]]),
    ];
    for (chord, name, triads) in pairs {
        for (pattern, figures) in patterns {
            let call = [chord, "--pair", name, "--pattern", pattern, "--exercise", "--bars", "2"];
            let midi = numbers(&asked(&call)["notes"], "midi");
            assert_eq!(midi, drill(triads, figures, Way::Ladder, NECK, 16), "{name} {pattern}");
            let linked = [&call[..], &["--travel", "linked"]].concat();
            let midi = numbers(&asked(&linked)["notes"], "midi");
            assert_eq!(midi, drill(triads, figures, Way::Linked, NECK, 16), "{name} {pattern}");
        }
    }
}

/// What is made unasked is music: it begins off the beat, breathes at least a beat in four bars, goes
/// by step into a third or seventh of each chord, and comes to rest on one.
#[test]
fn unasked_a_line_is_music() {
    for (chords, bars) in
        [("Dm7", 4.0), ("| Dm7 | G7 | Cmaj7 |", 3.0), ("| Em7b5 A7alt | Dm6 |", 2.0)]
    {
        let line = asked(&[chords, "--strings", "4-3-2-1", "--frets", "3-12"]);
        let notes = &line["notes"];
        let (onsets, lengths) = (times(notes, "onset"), times(notes, "duration"));
        assert_eq!(onsets[0], 0.5, "{chords}");
        let degrees = words(notes, "degree");
        let guide = |degree: &str| ["3", "b3", "7", "b7", "6", "bb7"].contains(&degree);
        for chord in &list(&line["chords"])[1..] {
            let at =
                onsets.iter().position(|onset| *onset == chord["onset"].as_f64().unwrap()).unwrap();
            assert!(guide(degrees[at]), "{chords}: {degrees:?}");
            let midi = numbers(notes, "midi");
            assert!((midi[at] - midi[at - 1]).abs() <= 2, "{chords}: {midi:?}");
        }
        assert!(guide(degrees[degrees.len() - 1]) && lengths[lengths.len() - 1] >= 1.0, "{chords}");
        let ends = onsets.iter().zip(&lengths).map(|(onset, length)| onset + length);
        let next = onsets.iter().copied().skip(1).chain([4.0 * bars]);
        let rest = ends.zip(next).map(|(end, next)| next - end).fold(0.0, f64::max);
        assert!(rest >= 1.0, "{chords}: {rest}");
    }
}

/// By hand: the 3 of G7 is B, the 5 of Cmaj7 is G.
#[test]
fn targets_are_reached_when_and_how_they_are_asked_for() {
    let chords = "| Dm7 | G7 | Cmaj7 |";
    for (target, onset, class, before) in [
        ("3@2.1:below", 4.0, 11, &[-1][..]),
        ("3@2.1:above", 4.0, 11, &[1]),
        ("3@2.1:enclosure", 4.0, 11, &[1, -1]),
        ("5@3.1:below:early", 7.5, 7, &[-1]),
        ("5@3.1:above:late", 8.5, 7, &[1]),
        ("3@2.3&:below", 6.5, 11, &[-1]),
    ] {
        let line = asked(&[chords, "--target", target, "--strings", "4-3-2-1"]);
        let (onsets, midi) = (times(&line["notes"], "onset"), numbers(&line["notes"], "midi"));
        let at = onsets.iter().position(|at| *at == onset).unwrap_or_else(|| panic!("{target}"));
        assert_eq!(midi[at] % 12, class, "{target}");
        let steps = midi[at - before.len()..at].iter().map(|leading| leading - midi[at]);
        let is_scale_step = |step: i32| before.len() == 2 && (step == 1 || step == 2);
        for (step, wanted) in steps.zip(before) {
            assert!(step == *wanted || (*wanted > 0 && is_scale_step(step)), "{target}: {midi:?}");
        }
        let told = words(&line["phrases"], "target");
        assert!(told.contains(&target), "{told:?}");
    }
}

/// A phrase with its lowest note at the beginning, as the intervals after it.
fn intervals(notes: &Value) -> Vec<i32> {
    let midi = numbers(notes, "midi");
    midi.iter().map(|note| note - midi[0]).collect()
}

#[test]
fn in_every_key_it_is_the_same_line_as_near_as_may_be() {
    for order in ["fourths", "semitones", "tones", "shuffled:7"] {
        let line = asked(&["| Dm7 | G7 | Cmaj7 |", "--frets", "0-15", "--keys", order]);
        let keys = list(&line["keys"]);
        assert_eq!(keys.len(), 12);
        assert_eq!(keys[0]["notes"], line["notes"]);
        let mut before = numbers(&keys[0]["notes"], "midi")[0];
        for key in &keys[1..] {
            assert_eq!(
                intervals(&key["notes"]),
                intervals(&line["notes"]),
                "{order} {}",
                key["key"]
            );
            let first = numbers(&key["notes"], "midi")[0];
            let octaves = i32::try_from(key["octaves"].as_i64().unwrap()).unwrap();
            // Nearest, but for the octaves that are told.
            assert!((first - 12 * octaves - before).abs() <= 6, "{order} {}", key["key"]);
            assert_eq!(key["how"].as_str() == Some("octaves"), octaves != 0);
            assert!(numbers(&key["notes"], "fret").iter().all(|fret| (0..=15).contains(fret)));
            before = first;
        }
        let mut names = words(&line["keys"], "key");
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), 12);
    }
    // By hand.
    let fourths = asked(&["| Dm7 | G7 | Cmaj7 |", "--keys", "fourths"]);
    let roots = ["C", "F", "Bb", "Eb", "Ab", "Db", "Gb", "B", "E", "A", "D", "G"];
    assert_eq!(words(&fourths["keys"], "key"), roots);
    let chords = words(&fourths["keys"][8]["chords"], "symbol");
    assert_eq!(chords, ["F#m7", "B7", "Emaj7"]);
}

#[test]
fn a_grip_moves_along_the_strings_as_it_is() {
    let call = ["| Dm7 | G7 | Cmaj7 |", "--no-open", "--strings", "4-3-2", "--keys", "semitones"];
    let line = asked(&[&call[..], &["--grip"]].concat());
    let first = &line["notes"];
    for key in list(&line["keys"]) {
        let notes = &key["notes"];
        for field in ["string", "finger"] {
            assert_eq!(numbers(notes, field), numbers(first, field), "{}", key["key"]);
        }
        let shift = numbers(notes, "fret")[0] - numbers(first, "fret")[0];
        let moved: Vec<i32> = numbers(first, "fret").iter().map(|fret| fret + shift).collect();
        assert_eq!(numbers(notes, "fret"), moved);
        let up: Vec<i32> = numbers(first, "midi").iter().map(|midi| midi + shift).collect();
        assert_eq!(numbers(notes, "midi"), up);
    }
}

/// Open strings cannot be moved; by hand: E minor and D in the first position need them.
#[test]
fn an_open_string_in_a_grip_is_told() {
    let call = ["Em7", "--pair", "Em & D", "--frets", "0-3", "--exercise", "--bars", "1"];
    let open = asked(&call);
    assert!(numbers(&open["notes"], "fret").contains(&0));
    let said = refused(&[&call[..], &["--keys", "tones", "--grip"]].concat());
    assert!(said.contains("it has an open string: expected --no-open"), "{said}");
}

#[test]
fn under_a_view_the_notes_of_the_pair_lie_where_it_shows_them() {
    let views: [&[&str]; 4] = [
        &["--view", "position", "--position", "5"],
        &["--view", "set", "--strings", "4-3-2"],
        &["--view", "across", "--choice", "2"],
        &["--view", "two", "--strings", "4-3-2", "--frets", "3-9"],
    ];
    for view in views {
        let line =
            asked(&[&["Dm7", "--pair", "F & G", "--exercise", "--bars", "2"], view].concat());
        let neck = [&["neck", "Dm7", "--pair", "F & G", "--json"], view].concat();
        let neck: Value = serde_json::from_str(&Home::new().run(&neck).printed()).unwrap();
        let shown: Vec<_> =
            list(&neck["places"]).iter().map(|at| (&at["string"], &at["fret"])).collect();
        assert!(!list(&line["notes"]).is_empty());
        for note in list(&line["notes"]) {
            assert!(shown.contains(&(&note["string"], &note["fret"])), "{view:?}: {note}");
        }
    }
}

/// Strokes by hand: `u` on every and, `d` on every beat, whatever rests.
#[test]
fn the_pick_follows_the_beat_the_notes_or_the_strings() {
    let strokes = |picking: &str| {
        let rhythm = ["--rhythm", "-8 8 8 8", "--picking", picking];
        let call = ["Dm7", "--exercise", "--bars", "1", "--strings", "4-3-2", "--start", "root"];
        let line = asked(&[&call[..], &rhythm].concat());
        let told = words(&line["notes"], "stroke");
        (
            told.iter().map(|stroke| &stroke[..1]).collect::<String>(),
            numbers(&line["notes"], "string"),
        )
    };
    assert_eq!(strokes("beat").0, "uduudu");
    assert_eq!(strokes("strict").0, "dududu");
    let (economy, strings) = strokes("economy");
    for (two, pair) in strings.windows(2).zip(economy.as_bytes().windows(2)) {
        match two[1].cmp(&two[0]) {
            std::cmp::Ordering::Less => assert_eq!(pair[1], b'd', "{economy} {strings:?}"),
            std::cmp::Ordering::Greater => assert_eq!(pair[1], b'u', "{economy} {strings:?}"),
            std::cmp::Ordering::Equal => assert_ne!(pair[0], pair[1], "{economy} {strings:?}"),
        }
    }
}

/// A slur joins two notes on one string, from an and into the beat, and the beat is not picked.
#[test]
fn slurs_lead_into_the_beat_on_one_string() {
    let line = asked(&["| Dm7 | G7 | Cmaj7 |", "--slurs", "--strings", "4-3-2"]);
    let notes = list(&line["notes"]);
    let slurred: Vec<usize> = (0..notes.len()).filter(|at| !notes[*at]["slur"].is_null()).collect();
    assert!(!slurred.is_empty());
    for at in slurred {
        let (before, note) = (&notes[at - 1], &notes[at]);
        assert_eq!(before["string"], note["string"]);
        assert_eq!((note["onset"].as_f64().unwrap() % 1.0, note["stroke"].is_null()), (0.0, true));
        let [low, high] = [before, note].map(|note| note["fret"].as_i64().unwrap());
        let expected = if low < high { "hammer-on" } else { "pull-off" };
        assert_eq!(note["slur"].as_str(), Some(expected));
    }
}

/// By hand: a whole note on beat 3 of 4/4 crosses one bar line.
#[test]
fn notes_are_tied_over_bar_lines() {
    let line = asked(&["Dm7", "--exercise", "--rhythm", "2 1", "--bars", "2"]);
    let notes = list(&line["notes"]);
    assert!(notes[0]["tie"].is_null());
    assert_eq!(
        (notes[1]["onset"].as_f64(), &notes[1]["tie"]),
        (Some(2.0), &serde_json::json!([4.0]))
    );
}

#[test]
fn the_chords_go_round_and_may_change_their_meter() {
    let line = asked(&["pickup=1 | Am7 | Dm7 | 3/4 G7 | Cmaj7 |", "--bars", "5", "--exercise"]);
    assert_eq!(line["bars"], serde_json::json!([0.0, 1.0, 5.0, 8.0, 11.0, 15.0]));
    let chords = words(&line["chords"], "symbol");
    assert_eq!(chords, ["Am7", "Dm7", "G7", "Cmaj7", "Dm7", "G7"]);
}

/// The program explains its own drills: of every built-in pattern whose groups are whole triads of at
/// most four notes, each full bar is the pair, or has it among its readings.
#[test]
fn built_in_patterns_explain_themselves() {
    let patterns: Value =
        serde_json::from_str(&Home::new().run(&["patterns", "--json"]).printed()).unwrap();
    let mut tried = 0;
    for pattern in list(&patterns["patterns"]) {
        let (id, figures) = (pattern["id"].as_str().unwrap(), pattern["figures"].as_str().unwrap());
        let is_whole = figures.split(' ').all(|group| {
            let mut classes: Vec<u32> = group
                .chars()
                .filter_map(|sign| sign.to_digit(10))
                .map(|figure| figure % 3)
                .collect();
            classes.sort_unstable();
            classes.dedup();
            classes.len() == 3
                && group.len() <= 4
                && group.chars().all(|sign| sign.is_ascii_digit())
        });
        if !is_whole {
            continue;
        }
        let home = Home::new();
        let words = ["line", "Dm7", "--pair", "F & G", "--pattern", id, "--exercise", "--json"];
        let line = home.run(&words).printed();
        let explained = Said::by_piping(&line, home.program().args(["explain", "-", "--json"]));
        let explained: Value = serde_json::from_str(&explained.printed()).unwrap();
        for bar in list(&explained["bars"]) {
            let is_it = |name: &Value| name.as_str() == Some("F & G");
            let read = is_it(&bar["pair"]) || list(&bar["readings"]).iter().any(is_it);
            assert!(read, "{id} {figures}: {bar}");
        }
        tried += 1;
    }
    assert!(tried >= 8, "{tried}");
}

/// What `line` prints is a line for `finger` too, which plays it where it was put.
#[test]
fn a_printed_line_is_fingered_where_it_lies() {
    let home = Home::new();
    let printed = home.run(&["line", "| Dm7 | G7 |", "--strings", "4-3-2", "--json"]).printed();
    let line: Value = serde_json::from_str(&printed).unwrap();
    let said =
        Said::by_piping(&printed, home.program().args(["finger", "-", "--ways", "1", "--json"]));
    let way = serde_json::from_str::<Value>(&said.printed()).unwrap()["ways"][0]["notes"].clone();
    for field in ["midi", "string", "fret"] {
        assert_eq!(numbers(&way, field), numbers(&line["notes"], field));
    }
}

#[test]
fn what_cannot_be_made_says_what_fails_and_what_would_help() {
    for (call, said) in [
        (
            &["Dm7", "--pattern", "128"][..],
            "pattern \"128\" at character 3: expected a figure from 0 to 6",
        ),
        (&["Dm7", "--pattern", ""], "expected at least one group of figures, as in 132 32"),
        (&["Dm7", "--pattern", "- -"], "expected at least one group of figures"),
        (&["Dm7", "--pattern", "threes-upp"], "the nearest is threes-up"),
        (&["Dm7", "--rhythm", "5"], "rhythm \"5\" at character 1: expected a value"),
        (&["Dm7", "--rhythm", "-8"], "expected at least one note"),
        (&["Dm7", "--meter", "4/5"], "meter \"4/5\": expected one as in 4/4 or 6/8"),
        (&["Dm7", "--meter", "0/4"], "meter \"0/4\""),
        (&["Dm7", "--tempo", "0"], "tempo \"0\": expected quarter notes a minute, 10 to 500"),
        (&["Dm7", "--tempo", "1e999"], "expected quarter notes a minute"),
        (&["Dm7", "--tempo", "NaN"], "expected quarter notes a minute"),
        (&["Dm7", "--bars", "0"], "number of bars \"0\": expected a number from 1 to 1000"),
        (&["Dm7", "--bars", "1001"], "expected a number from 1 to 1000"),
        (&["Dm7", "--bars", "-4"], "expected a number from 1 to 1000"),
        (
            &["Dm7", "--target", "3@9.1"],
            "3@9.1 does not lie in the line: expected a beat of bars 1 to 4",
        ),
        (&["Dm7", "--target", "3@1.1"], "3@1.1 does not lie in the line"),
        (&["Dm7", "--target", "3@2.5"], "3@2.5 does not lie in the line"),
        (
            &["Dm7", "--target", "3@1.1&:enclosure"],
            "nothing can lead to the target 3@1.1&:enclosure, it comes too soon",
        ),
        (
            &["Dm7", "--start", "lowest"],
            "start \"lowest\": expected root, first, second, or a note",
        ),
        (&["Dm7", "--start", "E3"], "it cannot begin with the first triad on that note"),
        (
            &["Dm7", "--strings", "1", "--frets", "1-3"],
            "no inversion of the first triad has all the notes",
        ),
        (&["Dm7", "--strings", "9-8"], "there are no strings 9-8 on this instrument"),
        (&["Dm7", "--frets", "30-33"], "there are no frets 30-33"),
        (&["Dm7", "--view", "position", "--position", "30"], "there is no position XXX"),
        (&["Dm7", "--view", "two", "--choice", "99"], "there is no choice 99"),
        (&["Dm7", "--keys", "thirds"], "order of keys \"thirds\": expected fourths, semitones"),
        (&["H7"], "at character 1: expected a note letter"),
        (&["| N.C. |"], "there is no chord in \"| N.C. |\" to make a line over"),
        (&[""], "expected a chord, or bars as in | Dm7 | G7 |"),
        (
            &["| Dm7 | G7 |", "--pair", "F & G, C & D, 1"],
            "3 pairs for 2 chords: expected one for all",
        ),
        (&["Dm7", "--pair", "99"], "cannot read the pair \"99\": expected its number in the list"),
        (&["Dm7", "--pair", "F & Am"], "F & Am are no pair: both hold A and C"),
        (&["Dm7", "--scale", "C major pentatonic"], "holds no two triads without a common note"),
        (&["| Dm7 | G7 |", "--scale", "Dorian, altered, Ionian"], "3 scales for 2 chords"),
    ] {
        let told = refused(call);
        assert!(told.contains(said), "{call:?}: {told}");
        assert!(told.contains("expected") || told.contains("nearest"), "{told}");
    }
}

/// A million groups, a thousand chords in a bar, and the longest line there may be.
#[test]
fn what_is_too_long_is_refused_at_once() {
    let groups = "1 ".repeat(60_000);
    assert!(refused(&["Dm7", "--pattern", &groups]).contains("expected at most"));
    let values = "8 ".repeat(60_000);
    assert!(refused(&["Dm7", "--rhythm", &values]).contains("expected at most"));
    let chords = format!("| {} |", "Dm7 G7 ".repeat(9_000));
    let said = Home::new().run(&["line", &chords, "--bars", "1", "--json"]);
    assert!(matches!(said.status, Some(0 | 1)), "{}", said.err);
    let long = ["Dm7", "--exercise", "--bars", "1000", "--meter", "255/1", "--rhythm", "64"];
    assert!(refused(&long).contains("the line would have more than 100,000 notes"));
}

/// Four and three with an approach in the place of the third note of the three: a stranger would not
/// tell a pair of five notes, the line knows that it was made of one.
#[test]
fn a_line_tells_the_pair_that_it_was_made_of() {
    let words = ["line", "| Dm7 | G7 | Cmaj7 |", "--strings", "4-3-2", "--pattern", "1232 321 a"];
    let said = Home::new().run(&words);
    assert_eq!(said.status, Some(0), "{}", said.err);
    assert!(
        said.out.contains("F & G over Dm7: F in second inversion, two notes of G"),
        "{}",
        said.out
    );
    assert!(said.out.contains("G & F over G7"), "{}", said.out);
}
