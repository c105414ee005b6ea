//! Any bytes are a chart, as TOML, typed bars or a score, or are told what was expected.

#![no_main]

use fretloom::answer::read_chart;
use fretloom::library::{ReadChart, text_of_chart};
use fretloom_theory::{Chart, OptionalChords};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let read = match read_chart("typed", bytes, &[]) {
        Ok(read) => read,
        Err(refusal) => return assert!(refusal.to_string().contains("expected"), "{refusal}"),
    };
    for problem in &read.problems {
        assert!(problem.to_string().contains("expected"), "{problem}");
    }
    let chart = read.chart;
    let chorus = chart.chorus(OptionalChords::Played);
    assert!(chorus.heard.len() <= 10_000);
    for choice in &chart.choices {
        assert!(Chart::moment_of(&chorus, choice).is_some());
    }
    let text = text_of_chart(&chart);
    let again = ReadChart::of_text("written", &text, &[]);
    assert_eq!(again.map(|read| read.chart), Ok(chart), "{text}");
});
