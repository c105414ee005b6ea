//! Lines of every kind, to be written.

use fretloom::answer::{
    AskedChords, KeyCycle, KeyFingering, LineChords, LineQuestion, LinesAnswer, Refusal, Slurring,
    TuningAnswer, find_tuning, put_capo,
};
use fretloom::library::LoadedTunings;
use fretloom::score_file::WrittenScore;
use fretloom_fretboard::{Capo, Fret, Neck, Picking};
use fretloom_theory::{ClickBeats, LineStyle, Meter, Rhythm, Swing, Tempo};
use proptest::prelude::*;

/// What a line is asked to be, as it is typed.
#[derive(Clone, Debug)]
pub(crate) struct Asked {
    pub(crate) chords: &'static str,
    pub(crate) meter: &'static str,
    pub(crate) bars: Option<u32>,
    pub(crate) pattern: Option<&'static str>,
    pub(crate) rhythm: Option<&'static str>,
    pub(crate) style: LineStyle,
    pub(crate) tempo: Tempo,
    pub(crate) tuning: &'static str,
    pub(crate) capo: u8,
    pub(crate) keys: Option<KeyCycle>,
}

impl Asked {
    pub(crate) fn over(chords: &'static str) -> Asked {
        Asked {
            chords,
            meter: "4/4",
            bars: None,
            pattern: None,
            rhythm: None,
            style: LineStyle::Music,
            tempo: Tempo::USUAL,
            tuning: "guitar-standard",
            capo: 0,
            keys: None,
        }
    }

    pub(crate) fn lines(&self) -> Result<LinesAnswer, Refusal> {
        let tuning = self.tuning();
        let neck = Neck::new(tuning.tuning.clone());
        let question = self.question()?;
        match self.keys {
            None => LinesAnswer::in_one_key(&neck, tuning, &question),
            Some(cycle) => {
                LinesAnswer::in_keys(&neck, tuning, &question, cycle, KeyFingering::Anew)
            }
        }
    }

    pub(crate) fn written(&self) -> Result<WrittenScore, Refusal> {
        let written = self.lines()?.written(Swing::new(2, 1).unwrap(), ClickBeats::TwoAndFour);
        Ok(written.unwrap())
    }

    fn tuning(&self) -> TuningAnswer {
        let found = find_tuning(&LoadedTunings::load(None), self.tuning).unwrap();
        put_capo(found, Capo::full(Fret::new(self.capo).unwrap())).unwrap()
    }

    fn question(&self) -> Result<LineQuestion, Refusal> {
        let asked = AskedChords {
            bars: self.bars,
            ..AskedChords::plain(self.chords, self.meter.parse().unwrap_or(Meter::COMMON))
        };
        Ok(LineQuestion {
            style: self.style,
            tempo: self.tempo,
            pattern: self.pattern.map(|pattern| pattern.parse().unwrap()),
            rhythm: self.rhythm.map(|rhythm| rhythm.parse::<Rhythm>().unwrap()),
            picking: Picking::WithTheBeat,
            slurring: Slurring::IntoTheBeat,
            ..LineQuestion::over(LineChords::read(&asked)?)
        })
    }
}

const CHORDS: &[&str] = &[
    "Dm7",
    "Gmaj7#11",
    "| Dm7 | G7alt | Cmaj7 | % |",
    "pickup=1 | G7 | Cm7 F7 | Bbmaj7 | N.C. |",
    "| F#m7b5 / B7b9 / | Em6 | 3/4 A7sus4 | D6/9 |",
    "| Ebm9 Ab13 | 5/4 Dbmaj9/F | 7/8 C7#9 | 6/8 Fm11 |",
];

const METERS: &[&str] = &["4/4", "3/4", "6/8", "5/4", "7/8", "12/8", "2/2"];

const PATTERNS: &[&str] = &["123", "132 32", "1232 321 a", "(13) 2 3", ">1 2 _ 3 -", "321 12"];

const RHYTHMS: &[&str] = &[
    "eighths",
    "triplets",
    "4. 8~2",
    "8 -8 >4",
    "16 16 8",
    "3:2(4 4 4)",
    "5:4(16 16 16 16 16)",
    "2.",
    "8. 16 4~16 -8.",
    "7:4(16 16 16 16 16 16 16)",
];

const TUNINGS: &[&str] = &[
    "guitar-standard",
    "guitar-7-string",
    "guitar-drop-d",
    "guitar-12-string",
    "guitar-baritone-b",
    "bass-4-string",
    "ukulele-high-g",
    "mandolin-standard",
    "banjo-open-g",
];

/// Any line; some of them have no answer.
pub(crate) fn any() -> impl Strategy<Value = Asked> {
    let pick = |of: &'static [&'static str]| proptest::sample::select(of);
    let music = (
        pick(CHORDS),
        pick(METERS),
        proptest::option::of(1u32..9),
        proptest::option::of(pick(PATTERNS)),
        proptest::option::of(pick(RHYTHMS)),
        proptest::bool::ANY,
    );
    let played = (10u64..500, 1u32..4, pick(TUNINGS), 0u8..6, proptest::bool::weighted(0.1));
    (music, played).prop_map(|((chords, meter, bars, pattern, rhythm, drill), played)| {
        let (above, below, tuning, capo, in_keys) = played;
        Asked {
            chords,
            meter,
            bars,
            pattern,
            rhythm,
            style: if drill { LineStyle::Exercise } else { LineStyle::Music },
            tempo: Tempo::new(above.max(10 * u64::from(below)), below).unwrap(),
            tuning,
            capo: if tuning.starts_with("banjo") { 0 } else { capo },
            keys: in_keys.then_some(KeyCycle::Fourths),
        }
    })
}

/// What is tried is not nothing: most of what is asked for can be made.
#[test]
fn most_lines_that_are_asked_for_are_made() {
    use proptest::strategy::ValueTree;
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let made = (0..60).filter(|_| {
        let asked = any().new_tree(&mut runner).unwrap().current();
        asked.written().is_ok()
    });
    let made = made.count();
    assert!(made >= 45, "{made} of 60");
}
