//! Sheets: one idea on one page, for one reader or for several.

use crate::music::tuning;
use crate::overlap::overlaps;
use crate::program::Home;
use crate::xml::drawn;

use fretloom::answer::{
    self, AskedChords, ChangesAnswer, ChangesQuestion, Harmony, LineChords, LineQuestion,
    LinesAnswer, PairOver, Wishes,
};
use fretloom::engraving::Answers;
use fretloom::library::Reader;
use fretloom::picture::page::{Pages, Paper};
use fretloom::picture::{Handed, Labels};
use fretloom::sheet::{self, Idea, IdeaLook, LineLook, PairPlacing};
use fretloom_fretboard::{FretRange, Neck};
use fretloom_theory::{BarText, Chart, Families, LineStyle, Meter, Spelling};

/// The texts of a page of a file, in order.
fn texts(home: &Home, file: &str) -> Vec<String> {
    let svg = std::fs::read_to_string(home.folder().join(file)).unwrap();
    drawn(&svg).into_iter().filter(|it| it.name == "text").map(|it| it.text).collect()
}

fn has(texts: &[String], wanted: &str) -> bool {
    texts.iter().any(|text| text.contains(wanted))
}

/// Three students, three instruments, from one call.
#[test]
fn every_reader_gets_the_idea_on_an_instrument_of_their_own() {
    let home = Home::new();
    let call = [
        "sheet",
        "Dm7",
        "--capo",
        "2",
        "--reader",
        "Mira,bass-4-string,left",
        "--reader",
        "Jo,ukulele-high-g,no-fingers",
        "--reader",
        "Ana B.,no-answers",
        "--svg",
        "dm7-{reader}.svg",
    ];
    let said = home.run(&call).printed();
    assert_eq!(said, "written: dm7-Mira.svg\nwritten: dm7-Jo.svg\nwritten: dm7-Ana-B.svg\n");
    for (reader, file, tuning) in [
        ("Mira", "dm7-Mira.svg", "Bass, 4 strings"),
        ("Jo", "dm7-Jo.svg", "Ukulele"),
        ("Ana B.", "dm7-Ana-B.svg", "Guitar, standard"),
    ] {
        let texts = texts(&home, file);
        for wanted in
            [reader, tuning, "Dm7", "D Dorian", "capo at 2", "tempo", "date", "stop when it hurts"]
        {
            assert!(has(&texts, wanted), "{file}: {wanted} in {texts:?}");
        }
        let foot = texts.iter().find(|text| text.starts_with("Dm7 · D Dorian · F & G · "));
        assert!(
            foot.is_some_and(|foot| foot.contains(tuning) && foot.contains("capo at 2")),
            "{file}"
        );
    }
    let mira = texts(&home, "dm7-Mira.svg");
    assert!(has(&mira, "The line sounds an octave lower, where this instrument has it."));
    let pairs = |texts: &[String]| texts.iter().filter(|text| text.contains(" & ")).count();
    // Twelve keys and the foot of the page; without answers the foot alone, and its line on the capo.
    assert!(pairs(&mira) >= 13, "{}", pairs(&mira));
    assert!(pairs(&texts(&home, "dm7-Ana-B.svg")) < 4);
}

#[test]
fn readers_come_from_a_file_too() {
    let home = Home::new();
    home.put("lesson.toml", "[[reader]]\nname = \"Mira\"\ntuning = \"bass-4-string\"\n\n[[reader]]\nname = \"Jo\"\nanswers = false\n");
    let call = ["sheet", "Dm7", "--readers", "lesson.toml", "--pdf", "{reader}.pdf"];
    assert_eq!(home.run(&call).printed(), "written: Mira.pdf\nwritten: Jo.pdf\n");
    home.put("bad.toml", "[[reader]]\nlefty = true\n");
    let said = home.run(&["sheet", "Dm7", "--readers", "bad.toml"]);
    assert_eq!((said.status, said.out.as_str()), (Some(1), ""));
    for told in ["bad.toml:1:1: ", "expected a key `name`", "`left`, perhaps"] {
        assert!(said.err.contains(told), "{told}: {}", said.err);
    }
}

#[test]
fn what_cannot_be_handed_out_is_refused() {
    let home = Home::new();
    for (more, status, told) in [
        (
            &["--reader", "A", "--reader", "B", "--pdf", "x.pdf"][..],
            1,
            "expected {reader} in its name",
        ),
        (&["--reader", "A b", "--reader", "A-b"], 1, "there are two readers named A-b"),
        (&["--reader", ",left"], 2, "is no reader: expected a name with a letter, up to"),
        (&["--reader", "A,no-such-tuning"], 1, "no-such-tuning"),
        (&["--strings", "9-8-7"], 1, "9"),
        (&["--bars", "0"], 1, "number of bars"),
        (&["--labels", "finger"], 2, "expected note, degree or member"),
        (&["--json"], 2, "--json says nothing to sheet"),
    ] {
        let words: Vec<&str> = ["sheet", "Dm7"].iter().chain(more).copied().collect();
        let said = home.run(&words);
        assert_eq!((said.status, said.out.as_str()), (Some(status), ""), "{more:?}: {}", said.err);
        assert!(said.err.contains(told), "{more:?}: {}", said.err);
    }
    assert_eq!(std::fs::read_dir(home.folder()).unwrap().count(), 0);
}

/// A reader's name cannot lead a file out of its folder.
#[test]
fn a_name_is_no_path() {
    let home = Home::new();
    let said = home.run(&["sheet", "C7", "--reader", "../../x y", "--pdf", "{reader}.pdf"]);
    assert_eq!(said.printed(), "written: x-y.pdf\n");
}

fn idea(chord: &str, instrument: &str) -> Option<Idea> {
    let tuning = tuning(instrument);
    let neck = Neck::new(tuning.tuning.clone());
    let harmony = Harmony::of_chord(chord).unwrap();
    let pairs =
        answer::pairs_over(&harmony, &Families::default(), &Wishes::default(), Spelling::Plain);
    let pair = pairs.pairs.iter().next().unwrap().clone();
    let asked = AskedChords { bars: Some(2), ..AskedChords::plain(chord, Meter::COMMON) };
    let question = LineQuestion {
        style: LineStyle::Exercise,
        ..LineQuestion::over(LineChords::read(&asked).unwrap())
    };
    let line = LinesAnswer::in_one_key(&neck, tuning.clone(), &question).ok()?;
    let over = PairOver { harmony, pair };
    let (frets, labels) = (FretRange::WHOLE_NECK, Labels::Note);
    let spelling = Spelling::Plain;
    let at = PairPlacing { tuning, frets, strings: None, view: None, labels, spelling };
    Idea::of_pair(neck, &over, &at, Some(line)).ok()
}

fn assert_apart(pages: &Pages, told: &str) {
    for (page, number) in pages.pages.iter().zip(1..) {
        let found = overlaps(page);
        assert!(found.is_empty(), "{told}, page {number}: {}", found.join("\n"));
    }
}

const CHORDS: [&str; 9] = [
    "Dm7",
    "Gmaj7#11",
    "Ab7alt",
    "Bbm7b5",
    "Ebmaj7#5",
    "F#7(b9,b13)",
    "Bbmaj7#11(13)/F",
    "C#m(maj7)",
    "E7sus4",
];
/// Those that are typed have ten and twelve strings, in fourths and thirds as common practice has it.
const INSTRUMENTS: [&str; 11] = [
    "guitar-standard",
    "bass-4-string",
    "ukulele-high-g",
    "guitar-7-string",
    "guitar-12-string",
    "bass-5-string",
    "mandolin",
    "banjo-open-g",
    "E2 A2 D3 G3 B3 E4 A4 D5 G5 C6",
    "B0 E1 A1 D2 G2 C3 F3 Bb3 Eb4 Ab4 C5 F5",
    "guitar-drop-d",
];
const LONG: &str = "Wilhelmina Theodora of the Long and Winding Surname the Third";

fn look(choice: usize) -> IdeaLook {
    let of = |by: usize| choice.is_multiple_of(by);
    let reader = match choice % 3 {
        0 => Some(Reader::named(LONG)),
        1 => Some(Reader::named("Jo")),
        _ => None,
    };
    IdeaLook {
        reader,
        handed: if of(2) { Handed::Left } else { Handed::Right },
        line: LineLook {
            answers: if choice % 5 == 4 { Answers::Blank } else { Answers::Shown },
            fingers: !of(7),
            sentences: choice % 4 < 2,
        },
        spelling: Spelling::Plain,
        paper: if choice % 8 < 4 { Paper::A4 } else { Paper::Letter },
    }
}

/// Of every chord and instrument, on both papers, with and without everything, for names that are too long
/// for their line, with notes of somebody's own. `FRETLOOM_SHEETS=2000` tries more of them.
#[test]
fn nothing_on_a_sheet_lies_on_something_else() {
    let wanted = std::env::var("FRETLOOM_SHEETS").ok().and_then(|count| count.parse().ok());
    let ideas: Vec<(String, Idea)> = CHORDS
        .iter()
        .flat_map(|chord| INSTRUMENTS.iter().map(move |instrument| (chord, instrument)))
        .filter_map(|(chord, on)| Some((format!("{chord} on {on}"), idea(chord, on)?)))
        .collect();
    assert!(ideas.len() > 80, "{}", ideas.len());
    for choice in 0..wanted.unwrap_or(300) {
        let (told, idea) = &ideas[choice % ideas.len()];
        let look = look(choice / 3);
        let notes = match choice % 4 {
            0 => vec!["bridge".to_owned(), format!("{LONG}, begin low.\nLeave the 7 to the bass.")],
            _ => Vec::new(),
        };
        let idea = Idea { notes, ..idea.clone() };
        let pages = sheet::idea(&idea, &look).unwrap();
        let most = if idea.neck.tuning().string_count() > 7 { 3 } else { 2 };
        assert!(pages.pages.len() <= most, "{told}: {} pages", pages.pages.len());
        assert_apart(&pages, &format!("{told}, {choice}: {look:?}"));
    }
}

/// Six strings and fewer have their whole idea on one page of A4.
#[test]
fn one_idea_is_one_page() {
    let mut pages = 0;
    for chord in CHORDS {
        for on in ["guitar-standard", "bass-4-string", "ukulele-high-g", "bass-5-string"] {
            let Some(idea) = idea(chord, on) else { continue };
            for sentences in [false, true] {
                let line = LineLook { sentences, ..LineLook::WHOLE };
                let look = IdeaLook { line, paper: Paper::A4, reader: None, ..look(1) };
                assert_eq!(sheet::idea(&idea, &look).unwrap().pages.len(), 1, "{chord} on {on}");
                pages += 1;
            }
        }
    }
    assert!(pages > 60, "{pages}");
}

/// Where a bar has several chords, a sentence for each stands below it, as sentences do.
#[test]
fn sentences_of_one_bar_follow_one_another() {
    let home = Home::new();
    home.run(&["sheet", "| Dm7 G7 | Cmaj7 |", "--sentences", "--svg", "x.svg"]).printed();
    let texts = texts(&home, "x.svg").join(" ");
    assert!(texts.contains("over Dm7") && texts.contains("over G7"), "{texts}");
    assert!(!texts.contains(".;") && !texts.contains(";."), "{texts}");
}

#[test]
fn nothing_on_a_chart_lies_on_something_else() {
    let neck = Neck::new(tuning("guitar-standard").tuning);
    for text in [
        "| Dm7 | G7alt | Cmaj7 | % |",
        "[A] | Em7b5 A7b9 | Dm7 / G7sus4 G7 | Cmaj7#11(13) | N.C. | [B] 3/4 | Ebmaj7/G | C#m7b5 F#7b9b13 | Bm |",
        "pickup=1 | G7 |: Cmaj7 A7 | Dm7 G7 :|3 Cmaj7 |",
    ] {
        let chart = Chart::of(BarText::read(text, Meter::COMMON).unwrap());
        let answer = ChangesAnswer::new(&neck, &ChangesQuestion::of(chart)).unwrap();
        for paper in [Paper::A4, Paper::Letter] {
            let pages = sheet::changes(&answer, &tuning("guitar-standard"), paper);
            assert_apart(&pages, text);
        }
    }
}
