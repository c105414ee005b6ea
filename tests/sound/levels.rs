//! Nothing is ever cut off, no part covers another, nothing clicks, and the same is always the same.

use std::sync::Arc;

use fretloom::sound::{
    CountIn, Level, Mix, Performance, PlayStyle, Rounds, Samples, Struck, Track,
};
use fretloom_theory::{
    Bars, ChordSymbol, ClickBeats, Meter, Part, Pitch, Quarters, Score, Tempo, TempoMap, Timeline,
};
use proptest::prelude::*;

use crate::measure::{above_6_khz, energy, peak};

fn pitch(midi: u8) -> Pitch {
    Pitch::from_midi(midi).unwrap()
}

fn struck(onset: (u64, u32), length: (u64, u32), midi: &[u8], accent: bool) -> Struck {
    let [onset, length] =
        [onset, length].map(|(above, below)| Quarters::new(above, below).unwrap());
    let pitches = midi.iter().map(|midi| pitch(*midi)).collect();
    Struck { onset, end: onset.checked_add(length).unwrap(), pitches, accent }
}

fn score(tempo: u64, chords: &[(u32, &str)]) -> Score {
    let chord = |(from, text): &(u32, &str)| (Quarters::whole(*from), ChordSymbol::read(text));
    Score {
        bars: Bars::of(Meter::COMMON),
        tempi: TempoMap::steady(Tempo::new(tempo, 1).unwrap()),
        chords: Timeline::of(chords.iter().map(chord)),
        parts: vec![Part::new([]).lasting(Quarters::whole(8))],
        ..Score::default()
    }
}

/// All samples, asked for in blocks of this size, for at most so many frames.
fn all(samples: &mut dyn Samples, block: usize, most: usize) -> Vec<f32> {
    let mut heard = Vec::new();
    let mut buffer = vec![9.0; block];
    while heard.len() < most {
        let written = samples.fill(&mut buffer);
        heard.extend_from_slice(&buffer[..written]);
        if written < block {
            break;
        }
    }
    heard
}

/// Six full chords of six courses, as hard and as fast as can be, over the largest drone, with every
/// beat struck: the worst that there is.
#[test]
fn the_loudest_there_is_is_not_cut_off() {
    let courses: Vec<Struck> = (0..64)
        .map(|at| struck((at, 8), (1, 8), &[40, 52, 45, 57, 50, 62, 55, 67, 59, 59, 64, 64], true))
        .collect();
    let score = score(300, &[(0, "Bm7b5/F#"), (2, "Fm7b5/C"), (4, "Bm7b5/F#")]);
    let style =
        PlayStyle { click: ClickBeats::Every, rounds: Rounds::Endless, ..PlayStyle::default() };
    let performance = Performance::new(&score, &courses, &style);
    let heard = all(&mut *performance.samples(&Arc::new(Mix::full())), 480, 480_000);
    assert!((0.2..1.0).contains(&peak(&heard)), "{}", peak(&heard));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..Default::default() })]

    #[test]
    fn no_line_is_ever_cut_off(
        notes in prop::collection::vec((0..64u64, 1..24u64, 20..108u8, 1..4usize, any::<bool>()), 1..48),
        tempo in 40..500u64,
        root in 0..12usize,
    ) {
        let of = |&(at, length, midi, strings, accent): &(u64, u64, u8, usize, bool)| {
            let pitches: Vec<u8> = (0..strings).map(|string| (midi + 12 * string as u8).min(127)).collect();
            struck((at, 8), (length, 8), &pitches, accent)
        };
        let notes: Vec<Struck> = notes.iter().map(of).collect();
        let roots = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"];
        let chord = format!("{}m7b5/E", roots[root]);
        let score = score(tempo, &[(0, &chord), (1, "G7"), (2, "N.C."), (3, "C6")]);
        let style = PlayStyle {
            click: ClickBeats::Every,
            count_in: CountIn::OneBar,
            rounds: Rounds::Endless,
            swing: "2:1".parse().unwrap(),
            ..PlayStyle::default()
        };
        let performance = Performance::new(&score, &notes, &style);
        let heard = all(&mut *performance.samples(&Arc::new(Mix::full())), 480, 240_000);
        prop_assert!(peak(&heard) < 1.0, "{}", peak(&heard));
    }

    /// However it is asked for, and whenever.
    #[test]
    fn the_same_music_gives_the_same_samples(block in 1..3_000usize, from in 0..16u64) {
        let notes: Vec<Struck> =
            (0..16).map(|at| struck((at, 2), (1, 2), &[50 + 2 * at as u8], at % 3 == 0)).collect();
        let style = PlayStyle {
            click: ClickBeats::TwoAndFour,
            count_in: CountIn::OneBar,
            ..PlayStyle::default()
        };
        let made = || Performance::new(&score(200, &[(0, "Dm7"), (4, "G7")]), &notes, &style);
        let mix = Arc::new(Mix::default());
        let whole = all(&mut *made().samples(&mix), 4_096, usize::MAX);
        prop_assert_eq!(&all(&mut *made().samples(&mix), block, usize::MAX), &whole);
        // From the middle, what was struck shortly before rings on.
        let moment = Quarters::new(from, 2).unwrap();
        let begins = made().clock().frames_at(moment).0 as usize;
        let rest = all(&mut *made().samples_from(moment, &mix), block, usize::MAX);
        prop_assert_eq!(rest.len(), whole.len() - begins);
        // The click of the count-in is over after 50 ms.
        let differs = rest.iter().zip(&whole[begins..]).skip(2_400).find(|(one, other)| one != other);
        prop_assert_eq!(differs, None);
    }
}

/// A note alone at a level of 50 is a quarter as large as at 100; muted there is nothing.
#[test]
fn levels_and_mutes_do_what_they_say() {
    let notes = [struck((0, 1), (4, 1), &[57], false)];
    let performance = Performance::new(&score(120, &[]), &notes, &PlayStyle::default());
    let heard = |mix: Mix| peak(&all(&mut *performance.samples(&Arc::new(mix)), 480, 24_000));
    let full = heard(Mix::full());
    let half = Mix::full();
    half.set_level(Track::Line, Level::new(50).unwrap());
    assert!((heard(half) / full - 0.25).abs() < 1e-6);
    let muted = Mix::full();
    muted.mute(Track::Line);
    assert_eq!(heard(muted), 0.0);
}

/// The energy of 20 ms of noise 120 dB below the loudest there is.
const INAUDIBLE: f64 = 960.0 * 1e-12;

/// What a listener would hear as a click is energy above 6 kHz, where a low note that has rung for a while
/// has none.
#[test]
fn nothing_clicks_when_a_note_is_damped_or_a_track_is_muted() {
    let notes = [struck((0, 1), (2, 1), &[40], true)];
    let performance =
        Performance::new(&score(60, &[(0, "Dm7"), (1, "G7")]), &notes, &PlayStyle::default());
    let mix = Arc::new(Mix::full());
    let mut samples = performance.samples(&mix);
    let mut heard = all(&mut *samples, 480, 72_000);
    mix.mute(Track::Line);
    mix.mute(Track::Drone);
    heard.extend(all(&mut *samples, 480, usize::MAX));
    // Muted at 1.5 s: 20 ms from there beside as much before.
    let high = above_6_khz(&heard);
    let (before, round_it) = (energy(&high[70_900..71_860]), energy(&high[71_990..72_950]));
    println!("muted: {before:.2e} before, {round_it:.2e} then");
    assert!(round_it < INAUDIBLE, "{round_it:e} {before:e}");
    // Not muted, damped at 2 s.
    let heard = all(&mut *performance.samples(&Arc::new(Mix::full())), 480, usize::MAX);
    let high = above_6_khz(&heard);
    let (before, round_it) = (energy(&high[94_900..95_860]), energy(&high[95_990..96_950]));
    println!("damped: {before:.2e} before, {round_it:.2e} then");
    assert!(round_it < INAUDIBLE, "{round_it:e} {before:e}");
    // A cut is heard in the same way, so that this test would notice one.
    let mut cut = heard.clone();
    cut[96_000..].fill(0.0);
    let round_it = energy(&above_6_khz(&cut)[95_990..96_950]);
    println!("cut: {round_it:.2e}");
    assert!(round_it > 1_000.0 * INAUDIBLE, "{round_it:e}");
    // The very end is silence.
    assert!(peak(&heard[heard.len() - 48..]) < 1e-4);
}

/// Chords fade into one another: 20 ms from each change on, in time and in the seam of a round.
#[test]
fn chords_change_without_a_click() {
    let style = PlayStyle { rounds: Rounds::Endless, ..PlayStyle::default() };
    let score = score(60, &[(0, "Dm7"), (1, "G7alt"), (2, "N.C."), (3, "Cmaj7")]);
    let performance = Performance::new(&score, &[], &style);
    let high = above_6_khz(&all(&mut *performance.samples(&Arc::new(Mix::full())), 480, 480_000));
    for beat in [1, 2, 3, 8, 9] {
        let changes = energy(&high[beat * 48_000 - 10..beat * 48_000 + 950]);
        assert!(changes < INAUDIBLE, "{beat}: {changes:e}");
    }
}
