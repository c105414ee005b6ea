//! Twenty pages of music as PDF and as SVG, beside the plainest thing that could be done with the same
//! pages: adding up how wide their text is.

#![allow(clippy::unwrap_used, missing_docs, reason = "a benchmark")]

use divan::{Bencher, black_box};
use fretloom::answer::{
    self, AskedChords, KeyCycle, KeyFingering, LineChords, LineQuestion, LinesAnswer,
};
use fretloom::export::{pdf, svg};
use fretloom::library::LoadedTunings;
use fretloom::picture::page::{Item, Pages, Paper};
use fretloom::sheet::{self, LineLook};
use fretloom_fretboard::Neck;
use fretloom_theory::{LineStyle, Meter, Spelling};

fn main() {
    divan::main();
}

/// A line of twenty bars in twelve keys.
fn lines() -> LinesAnswer {
    let tuning = answer::find_tuning(&LoadedTunings::load(None), "guitar-standard").unwrap();
    let neck = Neck::new(tuning.tuning.clone());
    let asked = AskedChords {
        bars: Some(20),
        ..AskedChords::plain("| Dm7 | G7alt | Cmaj7 | A7alt |", Meter::COMMON)
    };
    let question = LineQuestion {
        style: LineStyle::Exercise,
        ..LineQuestion::over(LineChords::read(&asked).unwrap())
    };
    LinesAnswer::in_keys(&neck, tuning, &question, KeyCycle::Fourths, KeyFingering::Anew).unwrap()
}

fn pages(answer: &LinesAnswer) -> Pages {
    let mut pages = sheet::line(answer, LineLook::WHOLE, Spelling::Plain, Paper::A4).unwrap();
    assert!(pages.pages.len() >= 20, "{}", pages.pages.len());
    pages.pages.truncate(20);
    pages
}

#[divan::bench]
fn engrave_twenty_pages(bencher: Bencher<'_, '_>) {
    let answer = lines();
    bencher.bench(|| pages(black_box(&answer)));
}

#[divan::bench]
fn write_twenty_pages_of_pdf(bencher: Bencher<'_, '_>) {
    let pages = pages(&lines());
    bencher.bench(|| pdf::pages(black_box(&pages)));
}

#[divan::bench]
fn write_twenty_pages_of_svg(bencher: Bencher<'_, '_>) {
    let pages = pages(&lines());
    bencher.bench(|| svg::pages(black_box(&pages)));
}

#[divan::bench]
fn baseline_add_up_the_widths_of_twenty_pages(bencher: Bencher<'_, '_>) {
    let pages = pages(&lines());
    bencher.bench(|| {
        let texts = pages.pages.iter().flat_map(|page| &page.items);
        let width = |item: &Item| if let Item::Text(text) = item { text.width_mm() } else { 0.0 };
        black_box(texts.map(width).sum::<f64>())
    });
}
