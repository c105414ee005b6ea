//! A drill of eighths, eight to a bar.

use fretloom::answer::{AskedChords, LineChords, LineQuestion, TuningAnswer, find_tuning};
use fretloom::library::LoadedTunings;
use fretloom_fretboard::Neck;
use fretloom_theory::{LineStyle, Meter};

/// What is asked for, and on which neck.
pub(crate) struct Drill {
    pub(crate) neck: Neck,
    pub(crate) tuning: TuningAnswer,
    pub(crate) question: LineQuestion,
}

impl Drill {
    /// F & G over Dm7, three notes and two in turn, on the whole neck of a guitar.
    pub(crate) fn of_bars(bars: u32) -> Drill {
        let tuning = find_tuning(&LoadedTunings::load(None), "guitar-standard").unwrap();
        let asked = AskedChords {
            bars: Some(bars),
            pairs: Some("F & G"),
            ..AskedChords::plain("Dm7", Meter::COMMON)
        };
        let question = LineQuestion {
            style: LineStyle::Exercise,
            pattern: Some("132 32".parse().unwrap()),
            ..LineQuestion::over(LineChords::read(&asked).unwrap())
        };
        Drill { neck: Neck::new(tuning.tuning.clone()), tuning, question }
    }
}
