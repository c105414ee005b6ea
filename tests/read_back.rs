//! The way back: a line of pairs, printed as a file and read again, is told by the pairs and the
//! groups that it was made of, wherever a bar lets both triads be heard.
//!
//! What was meant stands in the line's own answer; what is told comes from the text of the file, as
//! `fretloom line --json` prints it and `fretloom explain` reads it.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

#[path = "read_back/heard.rs"]
mod heard;

use fretloom::answer::{
    AskedChords, ExplainAnswer, LineChords, LineQuestion, LinesAnswer, TuningAnswer, find_tuning,
};
use fretloom::json;
use fretloom::library::{LoadedPatterns, LoadedTunings};
use fretloom::score_file::{self, Choice};
use fretloom_fretboard::Neck;
use fretloom_theory::{
    Direction, Explanation, Inversion, LineStyle, Link, Meter, Part, Spelling, Start, Travel,
};
use heard::bars;

/// A chord alone, a chord a bar, two in a bar, and one for two bars.
const CHORDS: [&str; 4] = [
    "Dm7",
    "| Dm7 | G7 | Cmaj7 | Cmaj7 |",
    "| Am7 D7 | Gmaj7 |",
    "| Fm7 | Bb7alt | Ebmaj7#11 | % |",
];
const TRAVELS: [Option<Travel>; 2] = [None, Some(Travel::Linked(Link::Nearest, Direction::Up))];

struct Guitar {
    neck: Neck,
    tuning: TuningAnswer,
}

impl Guitar {
    fn standard() -> Guitar {
        let tuning = find_tuning(&LoadedTunings::load(None), "guitar-standard").unwrap();
        Guitar { neck: Neck::new(tuning.tuning.clone()), tuning }
    }

    fn line(&self, question: &LineQuestion) -> Option<LinesAnswer> {
        LinesAnswer::in_one_key(&self.neck, self.tuning.clone(), question).ok()
    }
}

fn question(text: &str) -> LineQuestion {
    let asked = AskedChords::plain(text, Meter::COMMON);
    LineQuestion::over(LineChords::read(&asked).unwrap())
}

/// What `explain` says of a file.
fn explained(file: &str) -> Explanation {
    let read = score_file::read(file.as_bytes(), &Choice::default()).unwrap();
    ExplainAnswer::new(&read, None, Spelling::Plain).unwrap().explanation
}

/// What is said of the notes of a file, whatever it says of them itself.
fn of_notes_alone(file: &str) -> Explanation {
    let read = score_file::read(file.as_bytes(), &Choice::default()).unwrap();
    let none = Part::new([]);
    Explanation::of(read.score(), read.score().parts.first().unwrap_or(&none))
}

/// How many bars of a style there are, and of how many both triads can be heard.
fn read_back(style: LineStyle) -> (usize, usize) {
    let guitar = Guitar::standard();
    let patterns = LoadedPatterns::load(None);
    let (mut count, mut heard) = (0, 0);
    for pattern in patterns.patterns() {
        for (text, inversion) in
            CHORDS.iter().flat_map(|text| Inversion::ALL.map(|inversion| (text, inversion)))
        {
            for travel in TRAVELS {
                let question = LineQuestion {
                    style,
                    pattern: Some(pattern.figures.clone()),
                    start: Some(Start::Lowest(inversion)),
                    travel,
                    ..question(text)
                };
                let Some(lines) = guitar.line(&question) else { continue };
                let told = explained(&json::text(&lines));
                let on_screen = lines.lines[0].answer.explanation();
                assert_eq!(told, on_screen, "{} {text} {inversion} {travel:?}", pattern.id);
                for bar in bars(&lines.lines[0].answer, &told) {
                    let said = format!("{} {text} {inversion} {travel:?}: {bar:?}", pattern.id);
                    assert!(bar.is_told_as_meant(), "{said}");
                    count += 1;
                    heard += usize::from(bar.shows_its_pair());
                }
            }
        }
    }
    (count, heard)
}

#[test]
fn exercises_are_read_back_as_they_were_made() {
    let (count, heard) = read_back(LineStyle::Exercise);
    assert!(count > 2_500 && 100 * heard >= 98 * count, "{heard} of {count}");
}

/// A line of music breathes, lands and holds: bars with one note, or with two of one triad, show no
/// pair to anybody.
#[test]
fn music_is_read_back_as_it_was_made() {
    let (count, heard) = read_back(LineStyle::Music);
    assert!(count > 2_500 && 100 * heard >= 60 * count, "{heard} of {count}");
}

/// Twos of F & G over Dm7 are broken thirds to everybody who was not told; a line that says so is
/// believed as far as its notes agree.
#[test]
fn a_file_is_believed_as_far_as_its_notes_agree() {
    let question = LineQuestion {
        style: LineStyle::Exercise,
        pattern: Some("12".parse().unwrap()),
        ..question("Dm7")
    };
    let lines = Guitar::standard().line(&question).unwrap();
    let file = json::text(&lines);
    assert!(of_notes_alone(&file).bars.iter().all(|bar| bar.pair.is_none()));
    assert!(explained(&file).bars.iter().all(|bar| bar.pair.is_some()));
    // The first F becomes F sharp: its bar is no longer what it says, and the others are.
    let (before, after) = file.split_once("\"midi\":41").unwrap();
    let changed = explained(&format!("{before}\"midi\":42{after}"));
    let told: Vec<bool> = changed.bars.iter().map(|bar| bar.pair.is_some()).collect();
    assert_eq!(told, [false, true, true, true]);
    // What nobody plays, or what cannot be read, says nothing.
    for (said, instead) in [
        ("\"of\":\"F\"", "\"of\":\"G\""),
        ("\"of\":\"F\"", "\"of\":\"H\""),
        ("\"of\":\"F\"", "\"of\":7"),
        ("\"pair\":\"F & G\"", "\"pair\":\"F & F\""),
        ("\"pair\":\"F & G\"", "\"pair\":\"Bb & C\""),
        ("\"pair\":\"F & G\"", "\"pair\":[1]"),
        ("\"phrase\":1", "\"phrase\":0"),
        ("\"phrase\":1", "\"phrase\":9"),
        ("\"phrases\":[", "\"phrases\":[null,"),
    ] {
        assert!(file.contains(said), "{said}");
        let file = file.replace(said, instead);
        assert_eq!(explained(&file), of_notes_alone(&file), "{instead}");
    }
}

/// A scale that says it is a pair of which it holds one triad alone is a scale.
#[test]
fn a_pair_that_is_not_heard_is_not_told() {
    let note = |(at, midi): (usize, u8)| {
        let is_of_it = [2, 5, 9].contains(&(midi % 12));
        let of = if is_of_it { "\"of\":\"Dm\",\"phrase\":1,\"group\":1," } else { "" };
        format!("{{{of}\"onset\":{},\"duration\":0.5,\"midi\":{midi}}}", at as f64 / 2.0)
    };
    let notes: Vec<String> =
        [62, 64, 65, 67, 71, 72, 74, 76].into_iter().enumerate().map(note).collect();
    let file = format!(
        "{{\"phrases\":[{{\"pair\":\"Dm & Em\"}}],\"chords\":[{{\"onset\":0,\"symbol\":\"Dm7\"}}],\
         \"notes\":[{}]}}",
        notes.join(",")
    );
    assert_eq!(explained(&file).bars[0].pair, None);
}
