//! `finger`: what its tablature shows is what its JSON says, whatever kind of file the line is in.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/program.rs"]
mod program;

use program::{Home, Said};
use serde_json::{Value, json};

/// A line in our JSON: seconds, MIDI number.
fn file(notes: &[(f64, u8)]) -> String {
    let note =
        |(onset, midi): &(f64, u8)| json!({ "onset_s": onset, "duration_s": 0.2, "midi": midi });
    json!({ "notes": notes.iter().map(note).collect::<Vec<_>>() }).to_string()
}

/// What is printed about a line in a file, with more arguments.
fn fingered(content: &str, more: &[&str]) -> Said {
    let home = Home::new();
    let file = home.put("line", content);
    let file = file.to_str().unwrap();
    home.run(&[&["finger", file], more].concat())
}

fn ways(content: &str, more: &[&str]) -> Vec<Value> {
    let printed = fingered(content, &[more, &["--json"]].concat()).printed();
    let answer: Value = serde_json::from_str(&printed).unwrap();
    answer["ways"].as_array().unwrap().clone()
}

fn numbers(way: &Value, key: &str) -> Vec<u64> {
    let notes = way["notes"].as_array().unwrap();
    notes.iter().map(|note| note[key].as_u64().unwrap()).collect()
}

/// The frets of a block of tablature by column and string, as they are drawn.
fn drawn(text: &str) -> Vec<(usize, u64, u64)> {
    let mut found = Vec::new();
    let mut block = 0;
    for line in text.lines().filter(|line| line.contains('|')) {
        let string: u64 = line.split_whitespace().next().unwrap().parse().unwrap();
        block += usize::from(string == 1);
        let from = line.find('|').unwrap();
        let mut column = from;
        for part in line[from..].split_inclusive(['-', '|']) {
            let digits = part.trim_end_matches(['-', '|']);
            if let Ok(fret) = digits.parse() {
                found.push((block * 1000 + column + digits.len(), string, fret));
            }
            column += part.len();
        }
    }
    found.sort_unstable();
    found
}

/// A long run up and down, two octaves and a half.
fn long_line() -> Vec<(f64, u8)> {
    let run = (45..75).chain((45..75).rev());
    run.enumerate().map(|(index, midi)| (index as f64 * 0.25, midi)).collect()
}

#[test]
fn the_tablature_shows_what_the_json_says() {
    let content = file(&long_line());
    let way = &ways(&content, &["--ways", "1"])[0];
    let text = fingered(&content, &["--ways", "1"]).printed();
    let drawn: Vec<(u64, u64)> =
        drawn(&text).into_iter().map(|(_, string, fret)| (string, fret)).collect();
    let said: Vec<(u64, u64)> =
        numbers(way, "string").into_iter().zip(numbers(way, "fret")).collect();
    assert_eq!(drawn, said);
}

#[test]
fn blocks_are_at_most_80_wide_and_their_strings_line_up() {
    let text = fingered(&file(&long_line()), &["--ways", "1"]).printed();
    let lines: Vec<&str> = text.lines().filter(|line| line.contains('|')).collect();
    assert!(lines.len() >= 12 && lines.len().is_multiple_of(6), "{text}");
    for block in lines.chunks(6) {
        let bars = |line: &str| line.match_indices('|').map(|(at, _)| at).collect::<Vec<_>>();
        let first = bars(block[0]);
        for (line, string) in block.iter().zip(1..) {
            assert!(line.chars().count() <= 80, "{line}");
            assert!(line.trim_start().starts_with(&string.to_string()), "{line}");
            assert_eq!(bars(line), first, "{text}");
        }
    }
}

#[test]
fn the_notes_keep_the_order_of_the_file_and_sound_where_they_are_put() {
    let notes = [(1.0, 64), (0.0, 60), (0.5, 62)];
    for way in ways(&file(&notes), &[]) {
        assert_eq!(numbers(&way, "midi"), [64, 60, 62]);
        // Open strings of standard tuning from string 1: E4 B3 G3 D3 A2 E2.
        let open = [64, 59, 55, 50, 45, 40];
        let places = numbers(&way, "string").into_iter().zip(numbers(&way, "fret"));
        let sounding: Vec<u64> =
            places.map(|(string, fret)| open[string as usize - 1] + fret).collect();
        assert_eq!(sounding, [64, 60, 62]);
    }
}

#[test]
fn notes_within_30_ms_stand_in_one_column() {
    let content = file(&[(0.0, 48), (0.029, 64), (0.2, 50), (0.24, 67)]);
    let text = fingered(&content, &["--ways", "1"]).printed();
    let mut columns: Vec<usize> = drawn(&text).into_iter().map(|(column, ..)| column).collect();
    columns.dedup();
    assert_eq!(columns.len(), 3, "{text}");
}

#[test]
fn settled_places_are_kept_unless_they_are_left_out() {
    let pinned = r#"{"notes":[{"onset_s":0,"duration_s":1,"midi":64,"string":5,"fret":19}]}"#;
    for way in ways(pinned, &[]) {
        assert_eq!((numbers(&way, "string"), numbers(&way, "fret")), (vec![5], vec![19]));
    }
    let wrong = pinned.replace("19", "18");
    assert_eq!(fingered(&wrong, &[]).status, Some(1));
    assert_eq!(fingered(&wrong, &["--no-pins"]).status, Some(0));
}

#[test]
fn only_the_wanted_strings_are_used() {
    let content = file(&[(0.0, 64), (0.5, 62), (1.0, 60)]);
    for way in ways(&content, &["--strings", "4-3"]) {
        assert!(numbers(&way, "string").iter().all(|string| [3, 4].contains(string)), "{way}");
    }
    let said = fingered(&content, &["--strings", "1"]);
    assert_eq!((said.status, said.out.as_str()), (Some(1), ""));
    assert!(said.err.contains("expected notes from E4 to D6"), "{}", said.err);
}

#[test]
fn at_most_so_many_ways_are_given_the_best_first() {
    let content = file(&[(0.0, 60), (0.5, 64)]);
    for count in 1..=4 {
        let ways = ways(&content, &["--ways", &count.to_string()]);
        assert!((1..=count).contains(&ways.len()));
        let costs: Vec<f64> = ways.iter().map(|way| way["cost"].as_f64().unwrap()).collect();
        assert!(costs.is_sorted(), "{costs:?}");
    }
    for count in ["0", "21", "x"] {
        assert_eq!(fingered(&content, &["--ways", count]).status, Some(2));
    }
}

#[test]
fn standard_input_is_a_file_like_any_other() {
    let content = file(&[(0.0, 60)]);
    let home = Home::new();
    let piped = Said::by_piping(&content, home.program().args(["finger", "-"]));
    assert_eq!(piped, fingered(&content, &[]));
}

#[test]
fn what_is_odd_about_a_file_is_said_beside_the_answer() {
    let score = "<score-partwise><part id=\"P1\"><measure><attributes><divisions>1</divisions>\
                 </attributes><note><pitch><step>C</step><octave>4</octave></pitch>\
                 <duration>1</duration></note><barline><repeat/></barline></measure></part>\
                 </score-partwise>";
    let said = fingered(score, &["--json"]);
    assert_eq!(said.status, Some(0));
    let told =
        "the part has repeats, which are not unfolded: 1 bar as written, 2 as heard (--unfold)";
    assert_eq!(said.err, format!("fretloom: {told}\n"));
    assert!(said.out.starts_with("{\"format\":1,\"tuning\":{"));
    let said = fingered(score, &["--json", "--unfold"]);
    assert_eq!(said.err, "fretloom: unfolded the repeats: 1 bar as written, 2 as heard\n");
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    let way = &answer["ways"][0];
    assert_eq!((numbers(way, "midi"), numbers(way, "bar")), (vec![60, 60], vec![1, 2]));
}

/// Chords, a tie over the bar line, four bars of rest and a pick-up, as the score has them. By hand.
#[test]
fn the_tablature_has_the_rhythm_the_chords_and_the_bars_of_a_score() {
    let note = |step: &str, duration: u8, more: &str| {
        format!(
            "<note><pitch><step>{step}</step><octave>4</octave></pitch><duration>{duration}\
             </duration>{more}</note>"
        )
    };
    let chord = |root: &str, kind: &str| {
        format!("<harmony><root><root-step>{root}</root-step></root><kind>{kind}</kind></harmony>")
    };
    let measure =
        |number: u8, inside: &str| format!("<measure number=\"{number}\">{inside}</measure>");
    let rest = "<note><rest/><duration>8</duration></note>";
    let music = [
        measure(
            0,
            &("<attributes><divisions>2</divisions><time><beats>4</beats><beat-type>4</beat-type>\
               </time></attributes>"
                .to_owned()
                + &note("D", 1, "")),
        ),
        measure(
            1,
            &(chord("D", "minor-seventh")
                + &note("F", 3, "")
                + &note("A", 1, "")
                + &chord("G", "dominant")
                + "<note><rest/><duration>2</duration></note>"
                + &note("B", 2, "<tie type=\"start\"/>")),
        ),
        measure(
            2,
            &(note("B", 4, "<tie type=\"stop\"/>") + "<note><rest/><duration>4</duration></note>"),
        ),
        measure(3, rest),
        measure(4, rest),
        measure(5, rest),
        measure(6, &(chord("C", "major") + &note("E", 8, ""))),
    ]
    .concat();
    let score = format!(
        "<score-partwise><work><work-title>A tune</work-title></work><part id=\"P1\">{music}</part>\
         </score-partwise>"
    );
    let text = fingered(&score, &["--ways", "1", "--position", "III"]).printed();
    let words = |line: &str| line.split_whitespace().collect::<Vec<_>>().join(" ");
    let printed: Vec<String> = text.lines().map(words).collect();
    for line in [
        "A tune",
        "4/4, 120 quarter notes a minute",
        "0 1 2 3-5 6",
        "Dm7 G7 C",
        "& 1 ~2 & (3) 4 ~1 ~2 (3 4) (3 bars) 1 ~2 ~3 ~4",
    ] {
        assert!(printed.contains(&line.to_owned()), "{line}\n{text}");
    }
}

/// A score whose tablature is in drop D behind a capo at 2; the lowest string sounds E2 there.
fn tablature(fret: u8, more: &str) -> String {
    let strings = [("D", 2), ("A", 2), ("D", 3), ("G", 3), ("B", 3), ("E", 4)];
    let strings = strings.iter().zip(1..).map(|((step, octave), line)| {
        let octave = format!("<tuning-octave>{octave}</tuning-octave>");
        format!(
            "<staff-tuning line=\"{line}\"><tuning-step>{step}</tuning-step>{octave}</staff-tuning>"
        )
    });
    format!(
        "<score-partwise><part id=\"P1\"><measure><attributes><divisions>1</divisions><clef><sign>TAB\
         </sign></clef><staff-details>{}<capo>2</capo></staff-details></attributes><note><pitch><step>E\
         </step><octave>2</octave></pitch><duration>1</duration>{more}<notations><technical><string>6\
         </string><fret>{fret}</fret></technical></notations></note></measure></part></score-partwise>",
        strings.collect::<String>()
    )
}

#[test]
fn tuning_and_capo_are_those_of_the_file_unless_options_say_otherwise() {
    let score = tablature(0, "");
    let said = fingered(&score, &["--json"]);
    let remarks = [
        "the tuning is that of the file: D2 A2 D3 G3 B3 E4 (--tuning)",
        "the capo is that of the file, at 2 (--capo)",
    ];
    assert_eq!(said.err, remarks.map(|remark| format!("fretloom: {remark}\n")).concat());
    let answer: Value = serde_json::from_str(&said.out).unwrap();
    assert_eq!(answer["tuning"]["id"], "guitar-drop-d");
    assert_eq!((answer["tuning"]["capo"].as_u64(), &answer["remarks"]), (Some(2), &json!(remarks)));
    let note = &answer["ways"][0]["notes"][0];
    assert_eq!((note["string"].as_u64(), note["fret"].as_u64()), (Some(6), Some(2)));
    // Without the capo it would be the second fret, on a standard guitar the open string.
    let said = fingered(&score, &["--capo", "0"]);
    assert!(said.err.contains("E2 at bar 1, beat 1 (line 1, column"), "{}", said.err);
    assert_eq!(fingered(&tablature(2, ""), &["--capo", "0"]).status, Some(0));
    let standard = ["--tuning", "guitar-standard", "--capo", "0", "--json"];
    let said = fingered(&score, &standard);
    assert_eq!((said.status, said.err.as_str()), (Some(0), ""));
}

#[test]
fn lines_are_moved_by_octaves_and_semitones() {
    let content = file(&[(0.0, 60), (0.5, 64)]);
    for (more, midi) in [
        (&["--octave", "-1"][..], [48, 52]),
        (&["--transpose", "-3"], [57, 61]),
        (&["--octave", "1", "--transpose", "-2"], [70, 74]),
    ] {
        assert!(ways(&content, more).iter().all(|way| numbers(way, "midi") == midi), "{more:?}");
    }
    let said = fingered(&content, &["--octave", "5", "--transpose", "9"]);
    assert!(said.err.contains("cannot be moved by 69 semitones; expected a move"), "{}", said.err);
    let pinned = r#"{"notes":[{"onset_s":0,"duration_s":1,"midi":64,"string":5,"fret":19}]}"#;
    let said = fingered(pinned, &["--transpose", "1"]);
    let left_out = "the strings and frets of the file are left out, since the line is moved";
    assert!(said.err.contains(left_out) && said.status == Some(0), "{}", said.err);
    let low = fingered(&file(&[(0.0, 30), (0.5, 52)]), &[]);
    assert!(low.err.ends_with("E2 to D6, where --octave 1 puts all of them\n"), "{}", low.err);
    let nowhere = fingered(&file(&[(0.0, 10), (0.5, 120)]), &[]);
    assert!(nowhere.err.ends_with("expected notes from E2 to D6\n"), "{}", nowhere.err);
}

/// B4 to E5 lie in position X and above only where the line stays there; an octave lower it is at
/// home.
#[test]
fn a_line_that_lies_high_is_told_how_it_is_played_lower() {
    let high = file(&[(0.0, 81), (0.25, 83), (0.5, 84), (0.75, 86)]);
    let hint = "the line lies high, half of it or more in position X or above: --octave -1 plays";
    let told = |more: &[&str]| fingered(&high, more).printed().contains(hint);
    assert!(told(&[]));
    assert!(!told(&["--octave", "-1"]));
    let pinned = high.replacen("\"midi\":81", "\"midi\":81,\"string\":1", 1);
    assert!(!fingered(&pinned, &[]).printed().contains(hint));
    let low = file(&[(0.0, 60), (0.25, 64)]);
    assert!(!fingered(&low, &[]).printed().contains(hint));
}

/// When each note is played, in the order of the file, which need not be that of time.
#[test]
fn each_note_says_when_it_is_played() {
    let content = file(&[(4.5, 64), (0.0, 60), (2.0, 62)]);
    for way in ways(&content, &[]) {
        let notes = way["notes"].as_array().unwrap().iter();
        let told: Vec<Value> =
            notes.map(|note| json!([note["onset_s"], note["duration_s"], note["bar"]])).collect();
        assert_eq!(told, [json!([4.5, 0.2, 3]), json!([0.0, 0.2, 1]), json!([2.0, 0.2, 2])]);
    }
}

/// Every note of `ways` fulfils this.
fn every_note(ways: &[Value], fulfils: impl Fn(u64, u64) -> bool) -> bool {
    ways.iter().all(|way| {
        let notes = way["notes"].as_array().unwrap().iter();
        notes.clone().count() > 0
            && notes.into_iter().all(|note| {
                fulfils(note["fret"].as_u64().unwrap(), note["position"].as_u64().unwrap())
            })
    })
}

#[test]
fn where_and_for_whose_hand_is_asked_by_options() {
    let line = file(&[(0.0, 52), (0.25, 55), (0.5, 59), (0.75, 64)]);
    assert!(every_note(&ways(&line, &["--frets", "5-9"]), |fret, _| (5..=9).contains(&fret)));
    assert!(every_note(&ways(&line, &["--no-open"]), |fret, _| fret > 0));
    assert!(every_note(&ways(&line, &["--position", "VII"]), |_, position| position == 7));
    let liked = &ways(&line, &["--like-open", "--ways", "1"]);
    assert!(numbers(&liked[0], "fret").contains(&0));
    let high = &ways(&line, &["--home", "12", "--ways", "1"]);
    assert_eq!(numbers(&high[0], "midi"), [52, 55, 59, 64]);
    let said = fingered(&line, &["--frets", "20-22"]);
    let expected = "no place under what is asked for E3 at note 1";
    assert!(said.err.contains(expected), "{}", said.err);
    assert_eq!((said.status, said.out.as_str()), (Some(1), ""));
}

/// Behind a capo at 2 an open string is written 2 in JSON and 0 in tablature, wherever it is pinned.
#[test]
fn behind_a_capo_frets_are_written_twice() {
    let note = json!({ "onset_s": 0, "duration_s": 1, "midi": 66, "string": 1, "fret": 2 });
    let line = json!({ "notes": [note] }).to_string();
    let found = ways(&line, &["--capo", "2"]);
    assert_eq!(numbers(&found[0], "fret"), [2]);
    assert_eq!(numbers(&found[0], "finger"), [0]);
    let text = fingered(&line, &["--capo", "2"]).printed();
    let blocks = drawn(&text);
    assert!(blocks.iter().all(|(_, string, fret)| (*string, *fret) == (1, 0)), "{text}");
    assert!(text.contains("capo at 2: frets and positions count from it"), "{text}");
}

/// Notes nine frets apart are beyond a hand, and E2 and F2 lie on one string alone: a way is given
/// all the same, and what is broken up is told with bar and notes.
#[test]
fn what_no_hand_plays_at_once_is_told_and_played_one_after_another() {
    let pinned = |string: u8, fret: u8, midi: u8| json!({ "onset_s": 2.5, "duration_s": 1, "midi": midi, "string": string, "fret": fret });
    let far = json!({ "notes": [pinned(3, 12, 67), pinned(2, 15, 74), pinned(1, 21, 85)] });
    let text = fingered(&far.to_string(), &["--ways", "1"]).printed();
    let told = "bar 2: no hand holds G4 D5 D♭6 at once, so they come one after another: \
                G4 D5, then D♭6\n";
    assert!(text.contains(told), "{text}");
    let mut columns: Vec<usize> = drawn(&text).into_iter().map(|(column, ..)| column).collect();
    columns.dedup();
    assert_eq!(columns.len(), 2, "{text}");
    let said = fingered(&far.to_string(), &["--ways", "1", "--json"]).printed();
    let answer: Value = serde_json::from_str(&said).unwrap();
    assert_eq!(answer["remarks"], json!([told.trim_end().replace('♭', "b")]));

    let low = fingered(&file(&[(0.0, 40), (0.0, 41)]), &["--ways", "1"]).printed();
    let told = "bar 1: no strings for E2 F2 at once, so they come one after another: E2, then F2\n";
    assert!(low.contains(told), "{low}");
    let held = fingered(&file(&[(0.0, 48), (0.0, 52)]), &["--json"]).printed();
    let answer: Value = serde_json::from_str(&held).unwrap();
    assert_eq!(answer["remarks"], json!([]));
}
