//! What is played of a keeper when it is practised: one phrase in one key, heard, answered and judged.

mod moved;
mod phrase;

use std::sync::Arc;

use fretloom_fretboard::{Hand, Neck, Place};
use fretloom_theory::{
    ClickBeats, DroneChord, Meter, NoteName, Part, Quarters, Role, Swing, Tempo, Timeline,
    WhichTriad,
};

use super::heard::performed;
use super::line::{LineAnswer, LineChords};
use super::opened::{OpenedKeeper, OpenedThing, Opening};
use super::refusal::Refusal;
use super::tunings::TuningAnswer;
use crate::score_file::WrittenScore;
use crate::sound::{Performance, PlayStyle, drone_side};
use crate::store::{Beats, Keeper, Unit};

/// How a phrase is practised: it is heard, then the player answers for as long, and then two bars are left
/// in which to say that it was got. A tune is played through, with nothing heard before.
#[derive(Clone, Debug)]
pub struct Drill {
    /// The neck that it is played on.
    pub neck: Neck,
    /// Its tuning, with its capo.
    pub tuning: TuningAnswer,
    /// The chords with their pairs, in the key in which it is practised.
    pub chords: LineChords,
    /// The phrase, fingered; `None` for a tune, over which the player plays what they like.
    pub phrase: Option<Arc<LineAnswer>>,
    tempo: Tempo,
}

/// What is practised, and for whom.
#[derive(Clone, Copy, Debug)]
pub struct DrillQuestion<'a> {
    /// The keeper.
    pub keeper: &'a Keeper,
    /// The key, the strings and the limit.
    pub unit: &'a Unit,
    /// With what it is opened.
    pub opening: Opening<'a>,
    /// The player's hand.
    pub hand: Hand,
}

/// Where one is in a try.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum DrillPart {
    /// The phrase is heard.
    Heard,
    /// The player plays it.
    Answered,
    /// It is to be said whether it was got.
    Judged,
}

/// How many bars there are at the end to say that it was got.
const JUDGED_BARS: usize = 2;

impl Drill {
    /// What is played.
    ///
    /// # Errors
    ///
    /// Where what was kept cannot be read, or cannot be played on its instrument in that key.
    pub fn new(asked: &DrillQuestion<'_>) -> Result<Drill, Refusal> {
        let opened = OpenedKeeper::open(asked.keeper, &asked.opening)?;
        let (chords, phrase) = match &opened.thing {
            OpenedThing::Plan(changes) => {
                let chords = LineChords::of_changes(changes, changes.best());
                (chords.short_enough()?, None)
            }
            OpenedThing::Line(lines) => {
                let line = lines.lines.first().map(|line| &line.answer);
                let line = line.ok_or_else(|| Refusal::NoChords { text: asked.keeper.title() })?;
                let phrase = asked.moved(&opened, line)?;
                (phrase.question.chords.clone(), Some(phrase))
            }
            OpenedThing::Shape { shape, .. } => {
                let phrase = asked.of_shape(&opened, shape)?;
                (phrase.question.chords.clone(), Some(phrase))
            }
            OpenedThing::Pair { .. } | OpenedThing::Ladder { .. } => {
                let phrase = asked.exercise(&opened)?;
                (phrase.question.chords.clone(), Some(phrase))
            }
        };
        let OpenedKeeper { neck, tuning, .. } = opened;
        let phrase = phrase.map(Arc::new);
        Ok(Drill { neck, tuning, chords, phrase, tempo: Tempo::USUAL })
    }

    /// The same at another tempo.
    #[must_use]
    pub fn at(&self, tempo: Beats) -> Drill {
        let tempo = Tempo::new(tempo.a_minute().into(), 1).unwrap_or(Tempo::USUAL);
        Drill { tempo, ..self.clone() }
    }

    /// How long the phrase is, or the tune.
    fn length(&self) -> Quarters {
        self.phrase.as_ref().map_or(self.chords.end(), |phrase| phrase.end())
    }

    /// When the player begins to play.
    #[must_use]
    pub fn answered_from(&self) -> Quarters {
        self.phrase.as_ref().map_or(Quarters::ZERO, |phrase| phrase.end())
    }

    /// When it begins to be asked whether it was got.
    #[must_use]
    pub fn judged_from(&self) -> Quarters {
        let (from, length) = (self.answered_from(), self.length());
        from.checked_add(length).unwrap_or(length)
    }

    /// When it is taken for not got.
    #[must_use]
    pub fn ends(&self) -> Quarters {
        let (from, bars) = (self.judged_from(), self.judged_bars());
        from.checked_add(bars).unwrap_or(from)
    }

    /// How long a bar is at its end.
    fn bar(&self) -> Quarters {
        let bars = self.chords.bars();
        let end = bars.at(self.chords.end());
        let last = end.and_then(|at| bars.bar(at.index.saturating_sub(1)));
        last.map_or(Meter::COMMON, |bar| bar.meter).bar()
    }

    fn judged_bars(&self) -> Quarters {
        let bars = std::iter::repeat_n(self.bar(), JUDGED_BARS);
        bars.fold(Quarters::ZERO, |all, bar| all.checked_add(bar).unwrap_or(all))
    }

    /// Which part of a try a moment is in.
    ///
    /// A phrase of two bars is heard from beat 1 on, answered from beat 9 on, and judged from beat 17 on.
    #[must_use]
    pub fn part_at(&self, moment: Quarters) -> DrillPart {
        match moment {
            _ if moment >= self.judged_from() => DrillPart::Judged,
            _ if moment >= self.answered_from() => DrillPart::Answered,
            _ => DrillPart::Heard,
        }
    }

    /// Is it the last bar before it is judged, or later? What comes next is shown then.
    #[must_use]
    pub fn is_near_its_end(&self, moment: Quarters) -> bool {
        moment.checked_add(self.bar()).is_some_and(|soon| soon >= self.judged_from())
    }

    /// Which moment of the phrase a moment of a try is, while it is heard or answered.
    #[must_use]
    pub fn in_phrase(&self, moment: Quarters) -> Option<Quarters> {
        match self.part_at(moment) {
            DrillPart::Heard => Some(moment),
            DrillPart::Answered => moment.checked_sub(self.answered_from()),
            DrillPart::Judged => None,
        }
    }

    /// A whole try as it is heard: the phrase, a gap as long, and the bars in which it is judged, with the
    /// drone and the click through all of it.
    #[must_use]
    pub fn performance(&self, style: &PlayStyle) -> Performance {
        performed(&self.written(), style)
    }

    /// The music of a whole try.
    #[must_use]
    pub fn written(&self) -> WrittenScore {
        let name = String::new;
        let gap = self.silent(self.length());
        let judged = self.silent(self.judged_bars());
        match self.phrase.as_ref().and_then(|phrase| Some((phrase, phrase.ways.first()?))) {
            Some((phrase, way)) => {
                let heard = phrase.written(way, Swing::STRAIGHT, ClickBeats::Off);
                let heard = WrittenScore {
                    score: fretloom_theory::Score {
                        tempi: fretloom_theory::TempoMap::steady(self.tempo),
                        ..heard.score.clone()
                    },
                    ..heard
                };
                heard.followed_by(gap, name()).followed_by(judged, name())
            }
            None => gap.followed_by(judged, name()),
        }
    }

    /// The chords without notes, as long as that.
    fn silent(&self, until: Quarters) -> WrittenScore {
        let mut score = self.chords.score(Part::new([]).lasting(until), self.tempo);
        let changes = score.chords.changes().iter().filter(|(from, _)| *from < until);
        score.chords = Timeline::of(changes.cloned());
        let tuning = self.tuning.tuning.clone();
        let drone = DroneChord::all(&score, drone_side(&tuning));
        WrittenScore { drone, ..WrittenScore::of(score, tuning) }
    }

    /// Where the notes of the phrase lie, each place once: what is called what there, and whose it is.
    #[must_use]
    pub fn places(&self) -> Vec<(Place, NoteName, Option<WhichTriad>)> {
        let Some(phrase) = &self.phrase else { return Vec::new() };
        let at = phrase.ways.first().map(|way| way.way.notes.as_slice()).unwrap_or_default();
        let mut places: Vec<(Place, NoteName, Option<WhichTriad>)> = Vec::new();
        for (told, at) in phrase.notes.iter().zip(at) {
            let which = match told.note.role {
                Role::Triad(which) => Some(which),
                Role::Free => None,
            };
            if places.iter().all(|(place, ..)| *place != at.place) {
                places.push((at.place, told.name, which));
            }
        }
        places
    }
}
