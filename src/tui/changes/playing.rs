//! Playing the tune, and the bars and the neck that follow what is heard.

use std::sync::Arc;

use fretloom_fretboard::{Fret, FretRange, Neck};
use fretloom_theory::{Part, Quarters, Score, Tempo, TempoMap};

use super::state::ChangesScreen;
use crate::answer::{
    ChangesAnswer, CompingAnswer, CompingQuestion, HandArea, LineChords, TuningAnswer,
};
use crate::sound::{Performance, PlayStyle};
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;
use crate::tui::sound::{Piece, What};

/// How many frets lie under a hand that comps.
const FRETS_OF_A_HAND: u8 = 6;

impl ChangesScreen {
    /// Plays the tune from its beginning, or ends it.
    pub(super) fn play_or_stop(&mut self, shared: &mut Shared) -> Vec<ScreenEffect> {
        if shared.sound.what().is_some() {
            return vec![ScreenEffect::StopPlaying];
        }
        match self.piece(shared) {
            Some(piece) => vec![ScreenEffect::Play(piece)],
            None => {
                shared.tell("there is no plan to play yet");
                Vec::new()
            }
        }
    }

    /// The tune as it is to be heard: its pairs as stabs where the hand stays, over the chords.
    pub(in crate::tui) fn piece(&self, shared: &Shared) -> Option<Piece> {
        let heard = Heard {
            answer: Arc::clone(self.plans.answer()?),
            plan: self.chosen.plan,
            area: self.chosen.area,
            around: self.frets_around(),
            tempo: self.chosen.chart()?.tempo.unwrap_or(Tempo::USUAL),
            tuning: shared.tuning().clone(),
        };
        Some(Piece::new(What::Changes, move |style| heard.performance(style)))
    }

    /// The frets around the shape in hand over the first chord.
    fn frets_around(&self) -> Option<FretRange> {
        let hand = self.plan()?.chords.first()?.hand?;
        let lowest = hand.shape.shape.position().number().saturating_sub(1).max(1);
        let (low, high) =
            (Fret::new(lowest)?, Fret::new(lowest.saturating_add(FRETS_OF_A_HAND - 1))?);
        FretRange::new(low, high)
    }

    /// Goes to what is heard at a moment.
    pub(in crate::tui) fn follow(&mut self, moment: Quarters) {
        if let Some(cell) = self.sheet.at(moment) {
            self.cursor = cell;
        }
    }

    /// Which part of a bar the player is at.
    pub(in crate::tui) fn cursor(&self) -> usize {
        self.cursor
    }
}

/// What is to be heard.
struct Heard {
    answer: Arc<ChangesAnswer>,
    plan: usize,
    area: HandArea,
    around: Option<FretRange>,
    tempo: Tempo,
    tuning: TuningAnswer,
}

impl Heard {
    /// Stabs under the hand where it stays, in one area of the neck if that can be; without any the
    /// chords and the metronome alone.
    fn performance(self, style: &PlayStyle) -> Option<Performance> {
        let plan = self.answer.plans().nth(self.plan).unwrap_or(self.answer.best());
        let chords = LineChords::of_changes(&self.answer, plan);
        let neck = Neck::new(self.tuning.tuning.clone());
        let region = super::place::region(self.area).map(|region| region.frets());
        for frets in [self.around, region] {
            let question = CompingQuestion {
                tempo: self.tempo,
                strings: self.area.strings,
                frets,
                ..CompingQuestion::over(chords.clone())
            };
            if let Ok(comping) = CompingAnswer::new(&neck, self.tuning.clone(), &question) {
                return Some(comping.performance(style));
            }
        }
        let score = Score {
            bars: chords.bars().clone(),
            tempi: TempoMap::steady(self.tempo),
            chords: chords.symbols().clone(),
            parts: vec![Part::new([]).lasting(chords.end())],
            ..Score::default()
        };
        Some(Performance::new(&score, &[], style))
    }
}
