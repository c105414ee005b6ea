//! The pairs of the plan as stabs over its chords: where the hand takes them, or why it takes none.

use std::sync::{Arc, OnceLock};

use fretloom_fretboard::{CompingError, Fret, FretRange, Hand, Neck, Region};
use fretloom_theory::{Part, Quarters, Score, Tempo, TempoMap};

use super::place;
use crate::answer::{
    ChangesAnswer, CompedStab, CompingAnswer, CompingQuestion, HandArea, LineChords, NamedShape,
    Refusal, TuningAnswer,
};
use crate::export::text::TabText;
use crate::picture::TabLook;
use crate::sound::{Performance, PlayStyle, Track};
use crate::tui::command::{ChangesCommand, Command, ProgramCommand};
use crate::tui::music_file::MusicFileKind;
use crate::tui::shared::Shared;
use crate::tui::sound::Manner;

/// How many frets lie under a hand that comps.
const FRETS_OF_A_HAND: u8 = 6;

/// A tune with its plan, and where the hand is that comps it.
pub(super) struct Comped {
    pub(super) answer: Arc<ChangesAnswer>,
    /// Which of its plans, from 0.
    pub(super) plan: usize,
    pub(super) area: HandArea,
    /// The shape in hand over the first chord.
    pub(super) first: Option<NamedShape>,
    /// Is it played once, so that the end leads nowhere?
    pub(super) ends: bool,
    pub(super) hand: Hand,
    pub(super) tempo: Tempo,
    pub(super) tuning: TuningAnswer,
}

/// What is comped, as far as it has been found: whoever lays out what is heard finds it, once, and the
/// screen shows it from then on.
pub(super) struct Comping {
    of: Comped,
    found: OnceLock<Result<CompingAnswer, Refusal>>,
}

impl Comping {
    /// Stabs where the hand stays; nothing is found yet.
    pub(super) fn of(comped: Comped) -> Comping {
        Comping { of: comped, found: OnceLock::new() }
    }

    /// The tune as it is heard: stabs over its chords; without any the chords and the metronome alone.
    pub(super) fn performance(&self, style: &PlayStyle) -> Option<Performance> {
        if let Ok(comping) = self.found.get_or_init(|| self.find()) {
            return Some(comping.performance(style));
        }
        let chords = self.chords();
        let score = Score {
            bars: chords.bars().clone(),
            tempi: TempoMap::steady(self.of.tempo),
            chords: chords.symbols().clone(),
            parts: vec![Part::new([]).lasting(chords.end())],
            ..Score::default()
        };
        Some(Performance::new(&score, &[], style))
    }

    /// The stabs that come from one moment to another; none where none are known.
    pub(super) fn stabs(
        &self,
        from: Quarters,
        until: Quarters,
    ) -> impl Iterator<Item = &CompedStab> {
        let found = self.found.get().and_then(|found| found.as_ref().ok());
        let all = found.map_or(&[][..], |found| &found.stabs);
        let first = all.partition_point(|stab| stab.onset < from);
        all.iter().skip(first).take_while(move |stab| stab.onset < until)
    }

    /// Why there are none, once that is known.
    pub(super) fn refusal(&self) -> Option<&Refusal> {
        self.found.get()?.as_ref().err()
    }

    /// Under the hand if that can be, otherwise anywhere in its part of the neck.
    fn find(&self) -> Result<CompingAnswer, Refusal> {
        let neck = Neck::new(self.of.tuning.tuning.clone());
        let within = |frets: Option<FretRange>| {
            let question = CompingQuestion {
                tempo: self.of.tempo,
                strings: self.of.area.strings,
                frets,
                open_strings: frets.is_none_or(|frets| frets.contains(Fret::OPEN)),
                ends: self.of.ends,
                hand: self.of.hand,
                ..CompingQuestion::over(self.chords())
            };
            CompingAnswer::new(&neck, self.of.tuning.clone(), &question)
        };
        match self.of.frets_around().map(|around| within(Some(around))) {
            Some(Ok(comping)) => Ok(comping),
            Some(Err(_)) | None => within(place::region(self.of.area).map(Region::frets)),
        }
    }

    /// The stabs as a file for other programs; in words why there is none.
    pub(super) fn file(
        &self,
        kind: MusicFileKind,
        manner: Manner,
        keys: &HelpfulKeys,
    ) -> Result<Vec<u8>, String> {
        let found = self.found.get_or_init(|| self.find());
        let comping = found.as_ref().map_err(|refusal| keys.why(refusal))?;
        let written = || comping.written(manner.swing(), manner.click_of_file());
        let made = match kind {
            MusicFileKind::Tab => return Ok(tab_text(comping).into_bytes()),
            MusicFileKind::Midi => written().midi(),
            MusicFileKind::MusicXml => written().music_xml(),
        };
        made.map_err(|error| error.to_string())
    }

    fn chords(&self) -> LineChords {
        let answer = &self.of.answer;
        let plan = answer.plans().nth(self.of.plan).unwrap_or(answer.best());
        LineChords::of_changes(answer, plan)
    }
}

impl Comped {
    /// The frets around the shape in hand over the first chord, as far as the hand stays there.
    fn frets_around(&self) -> Option<FretRange> {
        let within = place::region(self.area)?.frets();
        let lowest = self.first?.shape.position().number().saturating_sub(1).max(1);
        let last = Fret::new(lowest.saturating_add(FRETS_OF_A_HAND - 1))?;
        FretRange::new(Fret::new(lowest)?.max(within.first()), last.min(within.last()))
    }
}

fn tab_text(comping: &CompingAnswer) -> String {
    let tab = comping.tab(&Neck::new(comping.tuning.tuning.clone()));
    TabText::new(&tab, &TabLook::default()).to_string()
}

/// The keys that help where there are no stabs.
pub(super) struct HelpfulKeys {
    strings: String,
    frets: String,
    pair: String,
    wishes: String,
}

impl HelpfulKeys {
    pub(super) fn of(shared: &Shared) -> HelpfulKeys {
        let key = |command| shared.key_of(Command::Changes(command));
        HelpfulKeys {
            strings: key(ChangesCommand::NextStrings),
            frets: key(ChangesCommand::EditWhere),
            pair: key(ChangesCommand::NextPair),
            wishes: key(ChangesCommand::EditWishes),
        }
    }

    /// Why there are none: what fails, where, and the key that helps.
    fn why(&self, refusal: &Refusal) -> String {
        let Refusal::NoComping(why) = refusal else { return format!("no stabs here: {refusal}") };
        let HelpfulKeys { strings, frets, pair, wishes } = self;
        let elsewhere = format!("{strings} takes other strings, {frets} other frets");
        let helps = match why.error {
            CompingError::TopVoice { .. } => format!("{elsewhere}, {pair} another pair"),
            CompingError::NoRound { .. } => {
                format!("{elsewhere}; {wishes} once: the end leads nowhere")
            }
            _ => elsewhere,
        };
        format!("no stabs here: {}. {helps}", why.fails())
    }
}

/// Why no stabs are heard, and the keys that help.
pub(super) fn refusal_in_words(refusal: &Refusal, shared: &Shared) -> String {
    HelpfulKeys::of(shared).why(refusal) + &silence_in_words(shared)
}

/// The key that lets something be heard, where nothing else sounds.
fn silence_in_words(shared: &Shared) -> String {
    if !shared.sound.is_silent(Track::Drone) {
        return String::new();
    }
    let key = shared.key_of(Command::Program(ProgramCommand::SilenceDrone));
    format!("; {key} lets the chords sound")
}

#[cfg(test)]
mod tests {
    use fretloom_fretboard::CompingRelief;
    use fretloom_theory::{Spelling, WhichTriad};

    use super::*;
    use crate::answer::NoComping;
    use crate::library::Library;

    /// Every condition is told in words, with the place and the keys that help, and without what is
    /// typed in a shell.
    #[test]
    fn what_fails_is_told_with_keys() {
        let shared = Shared::new("guitar-standard", Library::load(None), Spelling::Plain).unwrap();
        let (relief, which) =
            (CompingRelief { semitones: Some(5), frets: Some(8) }, WhichTriad::First);
        let frets = "5-7".parse().unwrap();
        for (error, fails, helps) in [
            (
                CompingError::NoShape { chord: 1, which },
                "bar 2, G7 (F & G): F has no close shape on strings 4-3-2 at frets 5–7",
                "t takes other strings, / other frets",
            ),
            (
                CompingError::NotHeld { chord: 1, which },
                "bar 2, G7 (F & G): this hand holds no close shape of F on strings 4-3-2 at frets 5–7",
                "t takes other strings, / other frets",
            ),
            (
                CompingError::NoArea { frets: 6, relief },
                "no 6 frets side by side have a shape of every triad on strings 4-3-2",
                "t takes other strings, / other frets",
            ),
            (
                CompingError::TopVoice { chord: 1, semitones: 3, within: Some(frets), relief },
                "bar 2, G7 (F & G): the top voice would go further than 3 semitones on strings 4-3-2 \
                 at frets 5–7",
                "t takes other strings, / other frets, p another pair",
            ),
            (
                CompingError::NoRound { semitones: 1, relief },
                "from the end to the beginning the top voice would go further than 1 semitone on \
                 strings 4-3-2 at frets 5–7",
                "t takes other strings, / other frets; w once: the end leads nowhere",
            ),
        ] {
            let at = Some("bar 2, G7 (F & G)".to_owned());
            let (triad, strings) = (Some("F".to_owned()), "4-3-2".parse().ok());
            let why = NoComping { error, at, triad, strings, frets: Some(frets) };
            let told = refusal_in_words(&Refusal::NoComping(Box::new(why)), &shared);
            assert_eq!(told, format!("no stabs here: {fails}. {helps}; F6 lets the chords sound"));
        }
    }
}
