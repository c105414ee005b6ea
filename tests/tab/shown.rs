//! Tabs that a person has looked at, as a player at a music stand would.

use fretloom::export::text::TabText;
use fretloom::glyphs::to_ascii;
use fretloom::library::LoadedTunings;
use fretloom::picture::{Tab, TabBelow, TabLook, TabMusic, TimesFrom};
use fretloom_fretboard::{Capo, Fret, Tuning};
use fretloom_theory::{Bars, ChordSymbol, Meter, Quarters, Tempo, TempoMap, Timeline};

use crate::notation::notes;

/// What stands around the notes.
struct Sheet {
    title: &'static str,
    tuning: Tuning,
    bars: Bars,
    tempo: u64,
    /// Each with the quarter note on which it begins.
    chords: Vec<(u32, &'static str)>,
    /// More bars at the end.
    rest: Quarters,
    look: TabLook,
}

impl Sheet {
    fn new(title: &'static str, tuning: &str, meter: &str) -> Sheet {
        Sheet {
            title,
            tuning: built_in(tuning),
            bars: Bars::of(meter.parse().unwrap()),
            tempo: 120,
            chords: Vec::new(),
            rest: Quarters::ZERO,
            look: TabLook::default(),
        }
    }

    fn shown(&self, text: &str) -> String {
        let (events, end) = notes(text);
        let chord = |(at, text): &(u32, &str)| (Quarters::whole(*at), ChordSymbol::read(text));
        let music = TabMusic {
            title: Some(self.title),
            bars: &self.bars,
            tempi: &TempoMap::steady(Tempo::new(self.tempo, 1).unwrap()),
            chords: &Timeline::of(self.chords.iter().map(chord)),
            end: end.checked_add(self.rest).unwrap(),
            times: TimesFrom::Writing,
        };
        let tab = Tab::new(&music, &self.tuning, &events);
        TabText::new(&tab, &self.look).to_string()
    }
}

fn built_in(id: &str) -> Tuning {
    let tunings = LoadedTunings::load(None);
    let found = tunings.iter().find(|(tuning, _)| tuning.id() == id);
    found.map_or_else(|| Tuning::read(id).unwrap(), |(tuning, _)| tuning.clone())
}

/// Keeps a tab beside the screens.
fn keep(name: &str, text: &str) {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path("../snapshots");
    settings.set_prepend_module_to_snapshot(false);
    settings.bind(|| insta::assert_snapshot!(format!("tab__{name}"), text));
}

/// F & G in threes up the ladder on strings 4-3-2 over Dm7.
#[test]
fn threes_up_the_ladder() {
    let mut sheet = Sheet::new("F & G in threes, up 4-3-2", "guitar-standard", "4/4");
    sheet.chords = vec![(0, "Dm7")];
    sheet.look = TabLook { below: TabBelow::Degrees, triads: true, ..TabLook::default() };
    let text = sheet.shown(
        "1/2 [4.3df4@II:b3 [3.2uf2:5 [2.1df1:b7 (4.5uf3@III:11 (3.4df2:13 (2.3uf1:1 [4.7df3@V:5 \
         [3.5uf1:b7 [2.6df2:b3 (4.9uf3@VII:13 (3.7df1:1 (2.8uf2:11 [4.10df1@X:b7 [3.10uf1:b3 \
         [2.10df1:5 (4.12uf1@XII:1 (3.12df1:11 (2.12uf1:13 2 [3.14df3:5 1 r",
    );
    keep("threes_up_the_ladder", &text);
}

/// 4+3 over the first chord, an approach note into B, a breath, and E at the end.
#[test]
fn a_line_over_three_chords() {
    let mut sheet = Sheet::new("Two five one", "guitar-standard", "4/4");
    sheet.tempo = 152;
    sheet.chords = vec![(0, "Dm7"), (4, "G7"), (8, "Cmaj7")];
    sheet.look = TabLook { below: TabBelow::Degrees, triads: true, ..TabLook::default() };
    let text = sheet.shown(
        "1/2 r [4.7uf3@V:5 [3.5df1:b7 [2.6uf2:b3 [3.5df1:b7 (2.8uf4:11 (3.7df3:13 (4.9u:13 \
         4.8df3:b3 4.9uf4:3 [3.10d@VII:b7 ~ r [2.8uf2:1 [3.9d^:6 [3.7u:5 4 2.5d>:3",
    );
    keep("a_line_over_three_chords", &text);
}

/// Triplets, sixteenths, slurs, grace notes and accents.
#[test]
fn ornaments() {
    let mut sheet = Sheet::new("Ornaments", "guitar-standard", "4/4");
    sheet.chords = vec![(0, "Cm7"), (4, "F7")];
    let text = sheet.shown(
        "1/3 1.8d>^ 1.11^ 1.8u 1/2 2.11d 2.8u 1/4 g3.9^ 3.10d 3.8u 4.10d 4.8u 1/2 3.10d 3.8u^ \
         3/4 3.7d 1/4 3.8u 1/3 3.10d 2.8u 1.8d 1/6 1.10^ 1.11^ 1.10^ 1.8u 2.11d 2.8u 1/2 2.10d> r",
    );
    keep("ornaments", &text);
}

/// Triplets of quarter notes, dotted notes and ties over the bar line.
#[test]
fn ties_and_long_notes() {
    let mut sheet = Sheet::new("Held over", "guitar-standard", "4/4");
    sheet.chords = vec![(0, "Fmaj7"), (4, "Em7"), (6, "A7"), (8, "Dm7")];
    let text = sheet.shown(
        "3/2 2.10 1/2 2.8 ~ 3/2 1.8 1 ~ r 2/3 2.7 2.8 2.10 1/2 r 1.7 1 ~ r 1/2 r 3.10 4 ~ 3 ~",
    );
    keep("ties_and_long_notes", &text);
}

/// Beats are dotted quarters; frets count from the capo.
#[test]
fn six_eight_behind_a_capo() {
    let mut sheet = Sheet::new("Six eight", "guitar-dadgad", "6/8");
    sheet.tuning = sheet.tuning.with_capo(Capo::full(Fret::new(3).unwrap())).unwrap();
    sheet.chords = vec![(0, "Dm"), (3, "G"), (6, "Bbmaj7")];
    let text = sheet.shown(
        "1/2 6.0 4.0 3.0 2.0 3.2 2.3 6.5 4.5 3.4 2.5 1 1.5 1/4 6.8 6.10 5.0 4.0 3.2 2.3 1/2 1.0 r \
         r 3/2 1.3+2.0+6.3 3/2 ~",
    );
    keep("six_eight_behind_a_capo", &text);
}

/// The short string is the bottom line; its 0 is the string open, the next number 6.
#[test]
fn a_banjo() {
    let mut sheet = Sheet::new("Rolls", "banjo-open-g", "2/4");
    sheet.chords = vec![(0, "G"), (4, "C"), (6, "D7")];
    let text = sheet.shown(
        "1/4 3.0 2.0 5.0 1.0 3.0 2.0 5.0 1.0 3.5 2.7 5.0 1.9 3.5 2.7 5.7 1.9 2.1 3.0 5.0 1.2 2.1 \
         3.0 5.0 1.2 3.10 2.10 5.12 1.12 1/2 1.14 1.12",
    );
    keep("a_banjo", &text);
}

/// A pick-up, and string 4 sounds higher than string 3.
#[test]
fn a_ukulele() {
    let mut sheet = Sheet::new("Waltz", "ukulele-high-g", "3/4");
    let three = Meter::new(3, 4).unwrap();
    sheet.bars = Bars::with_pick_up(three, Quarters::ONE).unwrap();
    sheet.chords = vec![(1, "F6"), (4, "C7/G"), (7, "F6"), (10, "N.C.")];
    let text = sheet
        .shown("1/2 1.0 1.3 1 1.5 2.5 4.2 1.7 3.4 1/2 4.0 3.2 2 4.5 1/2 4.2 1 4.0+3.0+2.1 r r r");
    keep("a_ukulele", &text);
}

/// Frets of two digits need more room: two bars a line.
#[test]
fn high_on_the_neck() {
    let mut sheet = Sheet::new("Twelfth position", "guitar-standard", "4/4");
    sheet.chords = vec![(0, "Ebmaj7#11"), (4, "F#m7b5"), (6, "B7alt")];
    let text = sheet.shown(
        "1/2 4.13 3.12 2.11 3.12 4.15 3.14 2.13 3.14 4.17 3.15 2.15 3.15 4.12 3.11 2.10 3.11 4.9 \
         3.10 2.12 1.11 1.12 2.13 3.12 4.14 4 4.13",
    );
    keep("high_on_the_neck", &text);
}

/// A bass that goes on under chords, and bars of rest.
#[test]
fn chords_over_a_bass_and_many_bars_of_rest() {
    let mut sheet = Sheet::new("Stabs", "guitar-7-string", "4/4");
    sheet.chords = vec![(0, "Am7"), (24, "D7"), (28, "N.C.")];
    sheet.rest = Quarters::whole(34);
    let (mut held, _) = notes("4 7.10 ~");
    let (chords, end) = notes(
        "1/2 r 1 2.5+3.5+4.5 1/2 r 1 2.7+3.7+4.7> r r 1/2 2.5+3.5+4.5 1/2 2.3+3.4+4.5 2 r 4 r r r r \
         1 4.4+3.5 r 4.5 r",
    );
    held.extend(chords);
    let chord = |(at, text): &(u32, &str)| (Quarters::whole(*at), ChordSymbol::read(text));
    let music = TabMusic {
        title: Some(sheet.title),
        bars: &sheet.bars,
        tempi: &TempoMap::default(),
        chords: &Timeline::of(sheet.chords.iter().map(chord)),
        end: end.checked_add(sheet.rest).unwrap(),
        times: TimesFrom::Writing,
    };
    let tab = Tab::new(&music, &sheet.tuning, &held);
    keep("chords_over_a_bass_and_many_bars_of_rest", &TabText::new(&tab, &sheet.look).to_string());
}

/// Fives and sevens, a bar too wide for a narrow page, changing meters, in ASCII.
#[test]
fn odd_groups_on_a_narrow_page() {
    let mut sheet = Sheet::new("Odd groups", "guitar-standard", "5/4");
    let bars = Bars::of(Meter::new(5, 4).unwrap());
    let bars = bars.changing(Quarters::whole(5), Meter::new(7, 8).unwrap()).unwrap();
    sheet.bars = bars.changing(Quarters::whole(11), Meter::COMMON).unwrap();
    sheet.chords = vec![(0, "Gbmaj7#11"), (3, "Ab13")];
    sheet.look = TabLook { width: 56, ..TabLook::default() };
    let text = sheet.shown(
        "1/5 3.6d 3.8u 3.10d 2.7u 2.9d 1/7 2.11u 1.8d 1.9u 1.11d 1.9u 1.8d 2.11u 1/8 2.9d 2.11u 2.9d \
         2.7u 3.10d 3.8u 3.6d 3.5u 1/2 4.8d 4.6u 1 5.8 1/2 2.7 3.8 3.6 2.7 3.8 3.6 3.5 2.7 3.8 3.6 \
         2.7 3.8 1 3.6 2 4.8",
    );
    keep("odd_groups_on_a_narrow_page", &to_ascii(&text));
}
