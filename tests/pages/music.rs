//! Lines on pages: hundreds of made-up ones, on which nothing lies on anything else.

use fretloom::answer::{
    self, AskedChords, KeyCycle, KeyFingering, LineChords, LineQuestion, LinesAnswer, Slurring,
    TuningAnswer,
};
use fretloom::engraving::Answers;
use fretloom::library::LoadedTunings;
use fretloom::picture::page::{Extent, Face, Item, Page, Paper};
use fretloom::sheet::{self, LineLook};
use fretloom_fretboard::Neck;
use fretloom_theory::{LineStyle, Meter, Spelling};

use crate::overlap::overlaps;

const TUNINGS: [&str; 8] = [
    "guitar-standard",
    "bass-4-string",
    "guitar-7-string",
    "ukulele-high-g",
    "guitar-drop-d",
    "guitar-baritone-b",
    "guitar-all-fourths",
    "mandolin",
];
const CHORDS: [&str; 6] = [
    "Dm7",
    "| Dm7 | G7alt | Cmaj7 | % |",
    "| F#m7b5 B7alt | Em6 |",
    "| Ebm7 / / Ab7 | Dbmaj7#11 |",
    "| C#m7 F#7 | Bmaj7 | G#7alt C#m6 |",
    "| Bbmaj7#11(13) | A7b9sus4 Gm11 |",
];
const RHYTHMS: [&str; 8] =
    ["8", "triplets", "16", "4. 8~2", "8. 16 8 8~4", "8 -8 >4", "5:4(16) 4", "4 8 8 3:2(4)"];
const PATTERNS: [&str; 6] = ["123", "132 32", "(13) 2", "1232 321 a", "1 3 - 2", "123456"];
const METERS: [&str; 4] = ["4/4", "3/4", "6/8", "5/4"];

/// A tuning by its name.
pub(crate) fn tuning(name: &str) -> TuningAnswer {
    answer::find_tuning(&LoadedTunings::load(None), name).unwrap()
}

/// A line of these choices; `None` where it has no place on the instrument.
fn line(choice: usize) -> Option<LinesAnswer> {
    let pick = |of: &[&'static str], by: usize| of[(choice / by + choice) % of.len()];
    let tuning = tuning(pick(&TUNINGS, 1));
    let neck = Neck::new(tuning.tuning.clone());
    let asked = AskedChords {
        text: pick(&CHORDS, 3),
        meter: pick(&METERS, 7).parse::<Meter>().unwrap(),
        bars: Some(4),
        scales: None,
        pairs: None,
        spelling: Spelling::Plain,
        own: &[],
    };
    let question = LineQuestion {
        style: if choice.is_multiple_of(2) { LineStyle::Exercise } else { LineStyle::Music },
        pattern: Some(pick(&PATTERNS, 5).parse().unwrap()),
        rhythm: Some(pick(&RHYTHMS, 2).parse().unwrap()),
        slurring: if choice.is_multiple_of(3) { Slurring::IntoTheBeat } else { Slurring::Nothing },
        ..LineQuestion::over(LineChords::read(&asked).ok()?)
    };
    match choice % 10 {
        9 => LinesAnswer::in_keys(&neck, tuning, &question, KeyCycle::Fourths, KeyFingering::Anew),
        _ => LinesAnswer::in_one_key(&neck, tuning, &question),
    }
    .ok()
}

/// `FRETLOOM_SHEETS=2000` tries more of them.
#[test]
fn nothing_on_a_page_of_music_lies_on_something_else() {
    let wanted = std::env::var("FRETLOOM_SHEETS").ok().and_then(|count| count.parse().ok());
    let (mut made, mut found) = (0, Vec::new());
    for choice in 0..wanted.unwrap_or(240) {
        let Some(answer) = line(choice) else { continue };
        let look = LineLook {
            answers: if choice % 7 == 6 { Answers::Blank } else { Answers::Shown },
            fingers: choice % 5 != 4,
            sentences: choice % 4 == 1,
        };
        let paper = if choice.is_multiple_of(2) { Paper::A4 } else { Paper::Letter };
        let pages = sheet::line(&answer, look, Spelling::Plain, paper).unwrap();
        for (page, number) in pages.pages.iter().zip(1..) {
            found.extend(
                beyond_margins(page)
                    .into_iter()
                    .map(|told| format!("{choice}, page {number}: {told}")),
            );
            let told = overlaps(page);
            found.extend(told.into_iter().map(|told| format!("{choice}, page {number}: {told}")));
        }
        made += 1;
    }
    assert!(made > wanted.unwrap_or(240) / 2, "{made}");
    assert!(
        found.is_empty(),
        "{} of {made}:\n{}",
        found.len(),
        found[..found.len().min(40)].join("\n")
    );
}

/// What lies within fifteen millimetres of an edge, but for the descenders of the last line.
fn beyond_margins(page: &Page) -> Option<String> {
    let (width, height) = page.paper.size_mm();
    let around = page.items.iter().filter_map(Item::extent).reduce(Extent::and).unwrap();
    let is_within = around.left >= 14.9
        && around.top >= 14.9
        && around.right <= width - 14.9
        && around.bottom <= height - 14.0;
    let furthest = page.items.iter().max_by(|one, other| {
        let right = |item: &Item| item.extent().map_or(0.0, |extent| extent.right);
        right(one).total_cmp(&right(other))
    });
    (!is_within).then(|| format!("beyond the margins: {around:?}, {furthest:?}"))
}

/// Read at arm's length: frets of 10 points and more, chord symbols of 14, a staff 7 mm high.
#[test]
fn what_is_read_from_afar_is_large() {
    let answer = line(0).unwrap();
    let pages = sheet::line(&answer, LineLook::WHOLE, Spelling::Plain, Paper::A4).unwrap();
    let points = |mm: f64| mm * 72.0 / 25.4;
    let texts = pages.pages[0].items.iter().filter_map(|item| match item {
        Item::Text(text) if text.face == Face::Bold => Some(text),
        _ => None,
    });
    let mut frets = 0;
    for text in texts {
        if text.text.chars().all(|char| char.is_ascii_digit()) {
            assert!(points(text.size_mm) > 10.0);
            frets += 1;
        } else {
            assert!(points(text.size_mm) > 13.9, "{}", text.text);
        }
    }
    assert!(frets > 10, "{frets}");
    let lines = pages.pages[0].items.iter().filter_map(|item| match item {
        Item::Line(line) if line.from.y == line.to.y && line.to.x - line.from.x > 100.0 => {
            Some(line.from.y)
        }
        _ => None,
    });
    let lines: Vec<f64> = lines.take(5).collect();
    assert!((lines[4] - lines[0] - 7.0).abs() < 1e-9, "{lines:?}");
}
