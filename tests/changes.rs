//! `changes`: the plan of a chart, by the JSON of the real program.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/arithmetic.rs"]
mod arithmetic;
#[path = "support/program.rs"]
mod program;
#[path = "support/archive.rs"]
mod zip;

use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use arithmetic::{class_of, sorted};
use program::{Home, Said};
use serde_json::Value;
use zip::compressed;

fn run(chart: &str, more: &[&str]) -> Said {
    let home = Home::new();
    let file = home.put("chart", chart);
    home.run(&[&["changes", file.to_str().unwrap()], more].concat())
}

/// Each score of `tests/bad/lead_sheets/` with what stands on standard error, and whether the rest is planned:
/// `FRETLOOM_MISTAKES=write cargo test --test changes` writes what is said; read it before it is kept.
#[test]
fn each_mistake_of_a_score_is_told_by_its_bar() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad/lead_sheets");
    let paths = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let scores: Vec<PathBuf> =
        paths.filter(|path| path.extension().is_some_and(|it| it == "musicxml")).collect();
    assert!(scores.len() >= 8);
    for score in scores {
        let name = score.to_str().unwrap();
        let said = Home::new().run(&["changes", name]);
        let fate = if said.out.is_empty() { "refused" } else { "planned" };
        let told = format!("{fate}\n\n{}", said.err.replace(name, "FILE"));
        let message = score.with_extension("txt");
        if std::env::var_os("FRETLOOM_MISTAKES").is_some_and(|wish| wish == "write") {
            fs::write(&message, &told).unwrap();
        }
        assert_eq!(fs::read_to_string(&message).unwrap_or_default(), told, "{name}");
        assert_eq!(said.status, Some(if fate == "planned" { 0 } else { 1 }));
        assert!(said.err.lines().count() == 1 && said.err.contains("expected"), "{}", said.err);
    }
}

/// A score that is compressed is the same tune, for its plan as for its line.
#[test]
fn a_compressed_lead_sheet_is_a_chart() {
    let bar = |number: u8, step: &str, kind: &str| {
        format!(
            "<measure number=\"{number}\"><attributes><divisions>1</divisions></attributes>\
             <harmony><root><root-step>{step}</root-step></root><kind>{kind}</kind></harmony>\
             <note><rest/><duration>4</duration></note></measure>"
        )
    };
    let bars =
        bar(1, "D", "minor-seventh") + &bar(2, "G", "dominant") + &bar(3, "C", "major-seventh");
    let score = format!(
        "<score-partwise><work><work-title>Two Doors</work-title></work><part id=\"P1\">{bars}</part>\
         </score-partwise>"
    );
    let home = Home::new();
    let plain = home.put("tune.musicxml", &score);
    let packed = home.folder().join("tune.mxl");
    fs::write(&packed, compressed(score.as_bytes())).unwrap();
    for words in [&["changes", "FILE", "--json"][..], &["line", "--chart", "FILE", "--json"]] {
        let [of_plain, of_packed] = [&plain, &packed].map(|file| {
            let file = file.to_str().unwrap();
            let words: Vec<&str> =
                words.iter().map(|word| if *word == "FILE" { file } else { *word }).collect();
            home.run(&words).printed()
        });
        assert_eq!(of_plain, of_packed);
        assert!(of_plain.contains("\"title\":\"Two Doors\""), "{of_plain}");
    }
    let typed = planned("| Dm7 | G7 | Cmaj7 |", &[]);
    let sheet = serde_json::from_str::<Value>(
        &home.run(&["changes", packed.to_str().unwrap(), "--json"]).out,
    );
    assert_eq!(column(&chords(&sheet.unwrap()), "pair"), column(&chords(&typed), "pair"));
}

fn planned(chart: &str, more: &[&str]) -> Value {
    let said = run(chart, &[more, &["--json"]].concat());
    assert_eq!(said.status, Some(0), "{}", said.err);
    serde_json::from_str(&said.out).unwrap()
}

/// What stands in the bars, one after another.
fn chords(answer: &Value) -> Vec<Value> {
    let bars = answer["bars"].as_array().unwrap().iter();
    bars.flat_map(|bar| bar["chords"].as_array().unwrap().clone()).collect()
}

fn column<'a>(chords: &'a [Value], field: &str) -> Vec<&'a str> {
    chords.iter().map(|chord| chord[field].as_str().unwrap()).collect()
}

/// The pitch classes of a triad by its name: qualities are told by what follows the root.
fn triad(name: &str) -> Vec<i32> {
    let end = name.find(|sign: char| !matches!(sign, 'A'..='G' | 'b' | '#')).unwrap_or(name.len());
    let steps = match &name[end..] {
        "" => [0, 4, 7],
        "m" => [0, 3, 7],
        "dim" => [0, 3, 6],
        "+" => [0, 4, 8],
        other => panic!("no quality: {other}"),
    };
    sorted(steps.map(|step| class_of(&name[..end]) + step))
}

/// The two triads of a pair, in no order.
fn pair(name: &str) -> Vec<Vec<i32>> {
    let (one, other) = name.split_once(" & ").unwrap();
    let mut pair = vec![triad(one), triad(other)];
    pair.sort();
    pair
}

/// Sounding pitches of the open strings in standard tuning, string 1 first.
const OPEN: [i64; 6] = [64, 59, 55, 50, 45, 40];

/// How far a fret lies from the nut, in millimetres, on a neck of 648.
fn from_nut(fret: i64) -> f64 {
    648.0 * (1.0 - 2_f64.powf(-(fret as f64) / 12.0))
}

/// The longest way of a voice, worked out from two shapes; open strings take no finger.
fn longest_way(from: &Value, to: &Value) -> f64 {
    let frets = |shape: &Value| -> Vec<i64> {
        shape["frets"].as_array().unwrap().iter().map(|fret| fret.as_i64().unwrap()).collect()
    };
    let ways = frets(from).into_iter().zip(frets(to)).map(|(from, to)| {
        if from == 0 || to == 0 { 0.0 } else { (from_nut(to) - from_nut(from)).abs() }
    });
    ways.fold(0.0, f64::max)
}

/// What JSON says of pairs, shapes and ways, worked out once more from names and numbers.
fn assert_consistent(answer: &Value) {
    let chords: Vec<Value> = chords(answer);
    let sounding: Vec<&Value> = chords.iter().filter(|chord| chord["pair"].is_string()).collect();
    let mut pairs = Vec::new();
    for (index, chord) in sounding.iter().enumerate() {
        let before = sounding[(index + sounding.len() - 1) % sounding.len()];
        let here = pair(chord["pair"].as_str().unwrap());
        assert_eq!(chord["kept"], here == pair(before["pair"].as_str().unwrap()), "{chord}");
        pairs.push(here.clone());
        let notes: Vec<i32> = here.concat();
        assert_eq!(sorted(notes.clone()).len(), 6, "{chord}");
        let left_out = chord["left_out"].as_array().unwrap().iter();
        for note in left_out.map(|note| class_of(note.as_str().unwrap())) {
            assert!(!notes.contains(&note), "{chord}");
        }
        let shape = &chord["shape"];
        if shape.is_null() {
            assert_eq!(
                (&chord["moved_mm"], &chord["voices"]),
                (&Value::Null, &Value::from([0; 0].to_vec()))
            );
            continue;
        }
        let number = |list: &str, at: usize| shape[list][at].as_i64().unwrap();
        let sounds =
            (0..3).map(|at| OPEN[number("strings", at) as usize - 1] + number("frets", at));
        assert!(here.contains(&sorted(sounds.map(|pitch| pitch as i32))), "{chord}");
        let moved = chord["moved_mm"].as_f64().unwrap();
        assert!((moved - longest_way(&before["shape"], shape)).abs() < 0.06, "{chord}");
        for (at, voice) in chord["voices"].as_array().unwrap().iter().enumerate() {
            assert_eq!(voice["to"].as_i64().unwrap(), number("frets", at), "{chord}");
            assert_eq!(voice["from"], before["shape"]["frets"][at], "{chord}");
            let frets = voice["to"].as_i64().unwrap() - voice["from"].as_i64().unwrap();
            assert_eq!(voice["frets"], frets, "{chord}");
        }
    }
    pairs.sort();
    pairs.dedup();
    assert_eq!(answer["distinct_pairs"], pairs.len());
}

const EIGHT_BARS: &str = include_str!("changes/four_pairs.txt");

/// Scales and functions as players give them: common practice, no source.
#[test]
fn eight_bars_are_read_as_players_read_them() {
    let answer = planned(EIGHT_BARS, &[]);
    assert_consistent(&answer);
    let chords = chords(&answer);
    assert_eq!(
        column(&chords, "symbol"),
        ["Em7b5", "A7", "Cm7", "F7", "Fm7", "Bb7", "Ebmaj7", "Ab7"]
    );
    let functions = column(&chords, "function");
    for (at, begins) in [(0, "ii of D minor"), (1, "V of D minor"), (2, "ii of Bb"), (3, "V of Bb")]
    {
        assert!(functions[at].starts_with(begins), "{functions:?}");
    }
    let lists = |at: usize, scale: &str| {
        chords[at]["scales"].as_array().unwrap().iter().any(|known| known == scale)
    };
    for (at, scale) in
        ["E Locrian natural 2", "A altered", "C Dorian", "F Mixolydian"].iter().enumerate()
    {
        assert!(lists(at, scale), "{scale}");
    }
}

/// The worked table: its eight pairs are settled, four differ, and the hand need not move where one is kept.
#[test]
fn four_pairs_cover_eight_bars() {
    let pairs =
        ["D & Edim", "C#+ & Eb", "Eb & F", "Eb & F", "Ab & Bb", "Ab & Bb", "Eb & F", "Ab & Bb"];
    let scales = [
        "E Locrian natural 2",
        "A altered",
        "C Dorian",
        "F Mixolydian",
        "F Dorian",
        "Bb Mixolydian",
        "Eb Lydian",
        "Ab Lydian dominant",
    ];
    let left_out = ["C", "C", "D", "D", "G", "G", "D", "Gb"];
    let mut more = vec!["--strings".to_owned(), "4-3-2".to_owned()];
    for (bar, (wanted, scale)) in (1..).zip(pairs.iter().zip(scales)) {
        more.extend(["--settle".to_owned(), format!("{wanted}@{bar}")]);
        more.extend(["--settle".to_owned(), format!("{scale}@{bar}")]);
    }
    let answer = planned(EIGHT_BARS, &more.iter().map(String::as_str).collect::<Vec<_>>());
    assert_consistent(&answer);
    assert_eq!(answer["distinct_pairs"], 4);
    let chords = chords(&answer);
    assert_eq!(column(&chords, "pair"), pairs);
    assert_eq!(column(&chords, "scale"), scales);
    let kept: Vec<bool> = chords.iter().map(|chord| chord["kept"].as_bool().unwrap()).collect();
    assert_eq!(kept, [false, false, false, true, false, true, false, false]);
    for (chord, note) in chords.iter().zip(left_out) {
        let found: Vec<i32> = chord["left_out"]
            .as_array()
            .unwrap()
            .iter()
            .map(|it| class_of(it.as_str().unwrap()))
            .collect();
        assert_eq!(found, [class_of(note)], "{chord}");
        assert_eq!(chord["settled"], true);
        if chord["kept"] == true {
            assert_eq!(chord["moved_mm"], 0.0, "{chord}");
        }
    }
}

/// Nobody has to ask for few pairs: the cheapest plan has four, and the chord that rests has its third.
#[test]
fn four_pairs_cover_eight_bars_unasked() {
    let answer = planned(EIGHT_BARS, &[]);
    assert!(answer["distinct_pairs"].as_u64().unwrap() <= 4, "{answer}");
    let chords = chords(&answer);
    let pair = chords[6]["pair"].as_str().unwrap().to_owned();
    let notes = pair.split(" & ").flat_map(|name| {
        let triad: fretloom_theory::SpelledTriad = name.parse().unwrap();
        triad.notes().map(|note| note.pitch_class().number())
    });
    // The third of Ebmaj7 is G.
    assert!(notes.into_iter().any(|note| note == 7), "{pair}");
}

/// The same four pairs are found where so many are wished for, every third stated (by hand): one for Cm7,
/// F7 and Ebmaj7, one for Fm7, Bb7 and Ab7.
#[test]
fn four_pairs_are_found_that_cover_eight_bars() {
    for region in [&[][..], &["--strings", "4-3-2"], &["--strings", "3-2-1", "--frets", "3-12"]] {
        let more = [&["--most-pairs", "4", "--thirds"][..], region].concat();
        let answer = planned(EIGHT_BARS, &more);
        assert_consistent(&answer);
        assert_eq!(answer["distinct_pairs"], 4);
        let chords = chords(&answer);
        let thirds = ["G", "C#", "Eb", "A", "Ab", "D", "G", "C"];
        for (chord, third) in chords.iter().zip(thirds) {
            let left_out = chord["left_out"].as_array().unwrap();
            let lacks = |note: &Value| class_of(note.as_str().unwrap()) == class_of(third);
            assert!(!left_out.iter().any(lacks), "{chord}");
        }
        let scales = column(&chords, "scale");
        assert_eq!(scales[6..], ["Eb Lydian", "Ab Lydian dominant"]);
        let pair = |bar: usize| {
            let mut triads: Vec<&str> =
                chords[bar]["pair"].as_str().unwrap().split(" & ").collect();
            triads.sort_unstable();
            triads
        };
        assert!(pair(2) == pair(3) && pair(3) == pair(6));
        assert!(pair(4) == pair(5) && pair(5) == pair(7));
    }
}

/// The worked example of nearest shapes on strings 3-2-1: no voice moves more than one fret at a change.
#[test]
fn the_nearest_shapes_lie_a_fret_away() {
    let more = [
        "--strings",
        "3-2-1",
        "--settle",
        "G & A@1",
        "--settle",
        "Eb & C#+@2",
        "--settle",
        "E & F#m@3",
        "--settle",
        "D Lydian@3",
    ];
    // With the strings named alone, and in the part of the neck where the example lies.
    for frets in [&[][..], &["--frets", "6-11"]] {
        let more = [&more[..], &["--once"], frets].concat();
        assert_near(&planned("| Em7 | A7alt | Dmaj7 |", &more));
    }
}

fn assert_near(answer: &Value) {
    let chords = chords(answer);
    let shape = |at: usize| {
        let shape = &chords[at]["shape"];
        format!("{} {}", shape["triad"].as_str().unwrap(), shape["frets"])
    };
    let ways = [
        ["G [7,8,7]", "Eb [8,8,6]", "E [9,9,7]"],
        ["A [9,10,9]", "C#+ [10,10,9]", "F#m [11,10,9]"],
    ];
    let found = [shape(0), shape(1), shape(2)];
    assert!(ways.iter().any(|way| found == way.map(str::to_owned)), "{found:?}");
    for chord in &chords[1..] {
        for voice in chord["voices"].as_array().unwrap() {
            assert!(voice["frets"].as_i64().unwrap().abs() <= 1, "{voice}");
        }
    }
    assert_eq!(chords[0]["moved_mm"], Value::Null);
}

#[test]
fn bars_are_counted_as_they_are_heard() {
    let answer = planned("pickup=1 | G7 | [A] |: Dm7 G7 |1. Cmaj7 :|2. C6 | [B] 3/4 Fm7 |", &[]);
    assert_consistent(&answer);
    let told: Vec<String> = answer["bars"]
        .as_array()
        .unwrap()
        .iter()
        .map(|bar| {
            let chords = bar["chords"].as_array().unwrap().iter();
            let chords = chords.map(|it| {
                format!(" {}@{}+{}", it["symbol"].as_str().unwrap(), it["beat"], it["beats"])
            });
            let section = bar["section"].as_str().unwrap_or("-");
            format!("{} {section}{}", bar["bar"], chords.collect::<String>())
        })
        .collect();
    assert_eq!(
        told,
        [
            "0 - G7@4.0+1.0",
            "1 A Dm7@1.0+2.0 G7@3.0+2.0",
            "2 A Cmaj7@1.0+4.0",
            "3 A Dm7@1.0+2.0 G7@3.0+2.0",
            "4 A C6@1.0+4.0",
            "5 B Fm7@1.0+3.0",
        ]
    );
}

#[test]
fn a_bad_bar_among_good_ones_is_marked_and_told() {
    let said = run("| Dm7 | G7 Cx7 | % | Cmaj7 | N.C. |", &["--json"]);
    assert_eq!(said.status, Some(0));
    assert!(said.err.contains("chart:1:13: found `Cx7`, expected"), "{}", said.err);
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    assert_consistent_where_readable(&answer);
    for bar in [1, 2] {
        let bar = &answer["bars"][bar];
        assert!(bar["error"].as_str().unwrap().contains("expected"), "{bar}");
        assert_eq!(bar["chords"][0]["error"], bar["error"]);
        assert_eq!(
            (&bar["chords"][0]["symbol"], &bar["chords"][0]["at"]),
            (&"G7 Cx7".into(), &5.into())
        );
    }
    let silent = &answer["bars"][4]["chords"][0];
    assert_eq!((&silent["symbol"], &silent["pair"]), (&"N.C.".into(), &Value::Null));
    assert!(answer["bars"][0].get("error").is_none());
    let text = run("| Dm7 | G7 Cx7 | % | Cmaj7 |", &[]).out;
    assert!(text.contains("2  G7 Cx7"), "{text}");
    let none = run("| Cx7 | Hm |", &[]);
    assert_eq!((none.status, none.out.as_str()), (Some(1), ""), "{}", none.err);
}

fn assert_consistent_where_readable(answer: &Value) {
    let readable = chords(answer).into_iter().filter(|chord| chord.get("pair").is_some());
    assert_eq!(readable.filter(|chord| chord["pair"].is_string()).count(), 2);
}

#[test]
fn what_the_chart_has_settled_wins_and_options_win_over_it() {
    let chart = "title = \"Two Doors\"\nkey = \"C\"\ntempo = 160\nmeter = \"4/4\"\nfeel = \"swing\"\n\n\
                 [[section]]\nname = \"A\"\nbars = \"| Dm7 | G7 | Cmaj7 | N.C. |\"\n\n\
                 [[choice]]\nbar = 2\nbeat = 1\nscale = \"G altered\"\npair = \"Db & Eb\"\n\n\
                 [[choice]]\nbar = 4\nbeat = 1\npair = \"F & G\"\n";
    let said = run(chart, &["--json"]);
    let passed_over = "what is settled at 4.1 is passed over";
    assert!(said.err.contains(passed_over), "{}", said.err);
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    assert_eq!((&answer["title"], &answer["key"]), (&"Two Doors".into(), &"C".into()));
    assert_eq!((&answer["tempo"], &answer["feel"]), (&160.0.into(), &"swing".into()));
    let settled = &chords(&answer)[1];
    assert_eq!((&settled["scale"], &settled["pair"]), (&"G altered".into(), &"Db & Eb".into()));
    assert!(settled["why"].as_str().unwrap().contains("as you chose"), "{settled}");
    let answer = planned(chart, &["--settle", "F & G@2", "--key", "A minor"]);
    assert_eq!(answer["key"], "A minor");
    let settled = &chords(&answer)[1];
    assert_eq!((&settled["scale"], &settled["pair"]), (&"G altered".into(), &"F & G".into()));
}

#[test]
fn wishes_hold_for_every_chord() {
    let chart = "[A] | Dm7 | G7 | Cmaj7 | % | [B] Fm7 | Bb7 | Ebmaj7 | % |";
    for chord in chords(&planned(chart, &["--kinds", "major"])) {
        let names = chord["pair"].as_str().unwrap();
        let plain = |name: &str| name.chars().all(|sign| matches!(sign, 'A'..='G' | 'b' | '#'));
        assert!(names.split(" & ").all(plain), "{names}");
    }
    for chord in chords(&planned(chart, &["--never", "C@1", "--never", "5@7"])) {
        let notes = pair(chord["pair"].as_str().unwrap()).concat();
        let symbol = chord["symbol"].as_str().unwrap();
        assert!(symbol != "Dm7" || !notes.contains(&0), "{chord}");
        assert!(symbol != "Ebmaj7" || !notes.contains(&10), "{chord}");
    }
    let said = run(chart, &["--never", "C@9"]);
    assert_eq!(
        (said.status, said.err.as_str()),
        (
            Some(1),
            "fretloom: the chart has no beat 9.1: expected a beat of a bar up to 8, as it is heard\n"
        )
    );
}

#[test]
fn charts_come_by_standard_input_too() {
    let home = Home::new();
    let said =
        Said::by_piping("Dm7 | G7 | C6", home.program().args(["changes", "-", "--plans", "3"]));
    let text = said.printed();
    assert!(text.contains("plan 2, ") && text.contains("plan 3, "), "{text}");
}

#[test]
fn an_option_of_necks_is_refused_while_the_hand_is_free() {
    let said = run("| Dm7 |", &["--reach", "90"]);
    assert_eq!(said.status, Some(2));
    let words =
        "--reach says nothing to changes while the hand is free: expected --strings or --frets";
    assert!(said.err.contains(words), "{}", said.err);
}

/// Without open strings the same frets hold other shapes.
#[test]
fn open_strings_are_left_out_where_they_are_not_wanted() {
    let open = |more: &[&str]| {
        let more = [&["--strings", "3-2-1", "--frets", "0-3"], more].concat();
        let answer = planned("| Cmaj7 | Em7 | Am7 | Dm7 |", &more);
        assert_consistent(&answer);
        let chords = chords(&answer);
        chords.iter().any(|chord| chord["shape"]["frets"].as_array().unwrap().contains(&0.into()))
    };
    assert!(open(&[]) && !open(&["--no-open"]));
}

/// A thousand bars with chords that differ, planned within a locked region too; the bounds are wide, for
/// slow machines that do other things.
#[test]
fn a_thousand_bars_are_planned_in_time() {
    let roots = ["C", "F", "Bb", "Eb", "Ab", "Db", "Gb", "B", "E", "A", "D", "G"];
    let kinds = ["m7", "7", "maj7", "m7b5", "7alt", "6", "7sus4", "m6"];
    let bar = |n: usize| format!("| {}{} ", roots[n * 5 % 12], kinds[(n + n / 12) % 8]);
    let chart: String = (0..1_000).map(bar).collect();
    for more in [&[][..], &["--strings", "4-3-2", "--frets", "5-10"]] {
        let begun = Instant::now();
        let answer = planned(&chart, more);
        assert!(begun.elapsed() < Duration::from_secs(20), "{:?}", begun.elapsed());
        assert_eq!(answer["bars"].as_array().unwrap().len(), 1_000);
        assert_consistent(&answer);
    }
}

/// Where a part of the neck holds few shapes of a pair, it is said how many. By hand on strings 4-3-2: F
/// lies at 3-2-1, 7-5-6 and 10-10-10, G at 5-4-3, 9-7-8 and 12-12-12.
#[test]
fn few_shapes_are_counted() {
    let said = |frets: &str| {
        let more = ["--strings", "4-3-2", "--frets", frets, "--settle", "F & G@1"];
        run("| Dm7 |", &more).printed()
    };
    for (frets, words) in
        [("5-8", "1 shape of F & G there, no more"), ("5-9", "2 shapes of F & G there, no more")]
    {
        assert!(said(frets).contains(words), "{}", said(frets));
    }
    assert!(!said("1-12").contains("no more"));
}
