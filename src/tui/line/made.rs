//! The line that is made of what is chosen.

use std::sync::Arc;

use fretloom_fretboard::{Neck, Tuning};
use fretloom_theory::{ExplainedBar, Explanation, Phrase};

use super::chosen::Chosen;
use crate::answer::{
    AskedChords, KeyCycle, KeyFingering, LineAnswer, LineChords, LineGround, LineQuestion, LineWay,
    LinesAnswer, PairPhrase, Refusal, Slurring, ToldNote,
};
use crate::picture::Tab;
use crate::tui::shared::Shared;

/// How many ways to finger a line there are to choose from.
const WAYS: usize = 5;

/// The line with all that is shown of it.
pub(super) struct Made {
    /// With what was changed note by note.
    pub(super) answer: LineAnswer,
    pub(super) explanation: Explanation,
    /// Which of the ways is taken.
    pub(super) way: usize,
    pub(super) tab: Tab,
    /// What it may use of the neck.
    pub(super) ground: Arc<LineGround>,
    grounds: Grounds,
    steps: Steps,
}

/// What was made on the way, and is good for as long as nothing under it has changed.
struct Steps {
    tuning: Tuning,
    asked: LineQuestion,
    /// In its twelve keys, once another key was asked for.
    keys: Option<Arc<LinesAnswer>>,
    /// In the key that is asked for, before single notes are changed.
    plain: Arc<LineAnswer>,
    key: usize,
}

impl Made {
    /// The line of these choices. What `before` made on the way is not made again.
    ///
    /// # Errors
    ///
    /// Where the chords, a scale or a pair cannot be read, where the line cannot be made on this
    /// neck, and where no hand can play it.
    pub(super) fn of(
        chosen: &Chosen,
        shared: &Shared,
        before: Option<&Made>,
    ) -> Result<Made, Refusal> {
        let asked = question(chosen, shared)?;
        let before = before.filter(|before| before.steps.tuning == shared.setup.tuning);
        let neck = shared.neck();
        let mut grounds = before.map(|before| before.grounds.clone()).unwrap_or_default();
        let steps = Steps::to(asked, chosen.key, shared, before, &mut grounds)?;
        let ground = grounds.of(&steps.plain.question, neck)?;
        let answer = steps.plain.edited(&ground, neck, &chosen.edits)?;
        let way = chosen.way.min(answer.ways.len().saturating_sub(1));
        let tab = answer.ways.get(way).map(|taken| answer.tab(taken));
        let nothing = || Refusal::NoChords { text: chosen.chords.clone() };
        let (explanation, tab) = (answer.explanation(), tab.ok_or_else(nothing)?);
        Ok(Made { answer, explanation, way, tab, ground, grounds, steps })
    }

    /// Its notes in order of time.
    pub(super) fn notes(&self) -> &[ToldNote] {
        &self.answer.notes
    }

    /// The way in which it is fingered.
    pub(super) fn way(&self) -> Option<&LineWay> {
        self.answer.ways.get(self.way)
    }

    /// What the phrase of a note makes of a pair, or else the first phrase that is made of one.
    pub(super) fn pair_phrase(&self, index: usize) -> Option<&PairPhrase> {
        let phrases = &self.answer.phrases;
        let here = self.notes().get(index).and_then(|told| phrases.get(told.note.phrase));
        let of_pair = here.and_then(|phrase| phrase.of_pair.as_ref());
        of_pair.or_else(|| phrases.iter().find_map(|phrase| phrase.of_pair.as_ref()))
    }

    /// The phrase of a note.
    pub(super) fn phrase_of(&self, index: usize) -> Option<&Phrase> {
        let phrase = self.notes().get(index).map_or(0, |told| told.note.phrase);
        self.answer.made_of().get(phrase)
    }

    /// Which of the phrases that are written out a note is of, from 0.
    pub(super) fn asked_phrase_of(&self, told: &ToldNote) -> usize {
        self.answer.asked_phrase(told.note.phrase)
    }

    /// What a phrase that is written out plays, up to the first note that it goes through.
    pub(super) fn played(&self, asked: usize) -> Option<&Phrase> {
        self.answer.made_of().get(self.answer.parts_of(asked).next()?)
    }

    /// The first of so many phrases that has no note, if one has none.
    pub(super) fn silent_phrase(&self, count: usize) -> Option<usize> {
        (0..count)
            .find(|index| self.notes().iter().all(|told| self.asked_phrase_of(told) != *index))
    }

    /// How many bars it has.
    pub(super) fn bar_count(&self) -> u32 {
        let chords = &self.answer.question.chords;
        let count = chords.bars().at(chords.end()).map_or(0, |at| at.index);
        u32::try_from(count).unwrap_or(u32::MAX)
    }

    /// What is said of the bar, or of the part of it under one chord, in which a note begins.
    pub(super) fn bar_of(&self, index: usize) -> Option<&ExplainedBar> {
        let onset = self.notes().get(index)?.note.onset;
        self.explanation.bars.iter().find(|bar| bar.from <= onset && onset < bar.to)
    }

    /// Which notes begin in the same bar as a note.
    pub(super) fn in_bar_of(&self, index: usize) -> Vec<usize> {
        let bars = self.answer.question.chords.bars();
        let bar = |index: usize| Some(bars.at(self.notes().get(index)?.note.onset)?.index);
        let here = bar(index);
        (0..self.notes().len()).filter(|other| bar(*other) == here).collect()
    }
}

/// What is asked for.
fn question(chosen: &Chosen, shared: &Shared) -> Result<LineQuestion, Refusal> {
    let (scales, pairs) = (chosen.scales(), chosen.pairs());
    let chords = LineChords::read(&AskedChords {
        text: &chosen.chords,
        meter: chosen.meter,
        bars: chosen.bars,
        scales: scales.as_deref(),
        pairs: pairs.as_deref(),
        spelling: shared.setup.spelling,
        own: shared.library.scales.kinds(),
    })?;
    LineQuestion {
        style: chosen.style,
        tempo: chosen.tempo,
        pattern: chosen.pattern.clone(),
        rhythm: chosen.rhythm.clone(),
        travel: chosen.travel,
        start: chosen.start,
        at_change: chosen.at_change,
        targets: chosen.targets.clone(),
        area: chosen.place.area(shared.hand),
        slurring: Slurring::Nothing,
        ways: WAYS,
        ..LineQuestion::over(chords)
    }
    .with_phrases(&chosen.phrases)
}

impl Steps {
    fn to(
        asked: LineQuestion,
        key: usize,
        shared: &Shared,
        before: Option<&Made>,
        grounds: &mut Grounds,
    ) -> Result<Steps, Refusal> {
        let (tuning, same) = (shared.setup.tuning.clone(), before.map(|before| &before.steps));
        let same = same.filter(|same| same.asked == asked);
        let keys = same.and_then(|same| same.keys.clone());
        if let Some(same) = same.filter(|same| same.key == key) {
            let plain = Arc::clone(&same.plain);
            return Ok(Steps { tuning, asked, keys, plain, key });
        }
        let neck = shared.neck();
        if key == 0 {
            let ground = grounds.of(&asked, neck)?;
            let plain = LineAnswer::on(&ground, neck, shared.tuning().clone(), &asked)?;
            return Ok(Steps { tuning, asked, keys, plain: Arc::new(plain), key });
        }
        let keys = match keys {
            Some(keys) => keys,
            None => {
                let (cycle, anew) = (KeyCycle::Fourths, KeyFingering::Anew);
                let tuning = shared.tuning().clone();
                Arc::new(LinesAnswer::in_keys(neck, tuning, &asked, cycle, anew)?)
            }
        };
        let nothing = || Refusal::NoChords { text: String::new() };
        let plain = keys.lines.get(key).map(|line| line.answer.clone()).ok_or_else(nothing)?;
        Ok(Steps { tuning, asked, keys: Some(keys), plain: Arc::new(plain), key })
    }
}

/// What lines may use of the neck, the last that was found first: to look for it takes long under
/// some views, and a player goes to and fro between them.
#[derive(Clone, Default)]
struct Grounds(Vec<Arc<LineGround>>);

impl Grounds {
    /// How many are kept.
    const MOST: usize = 12;

    /// What a question may use: what was found before, if it asks for the same.
    fn of(&mut self, question: &LineQuestion, neck: &Neck) -> Result<Arc<LineGround>, Refusal> {
        if let Some(found) = self.0.iter().find(|found| found.is_for(question)) {
            return Ok(Arc::clone(found));
        }
        let before = self.0.first().map(Arc::as_ref);
        let found = Arc::new(LineGround::after(before, neck, question)?);
        self.0.insert(0, Arc::clone(&found));
        self.0.truncate(Grounds::MOST);
        Ok(found)
    }
}

#[cfg(test)]
mod tests {
    use fretloom_fretboard::Place;
    use fretloom_theory::{LineStyle, Pitch, Quarters, Spelling};

    use super::super::phrases::{all_spelled_out, written_out};
    use super::super::state::LineScreen;
    use super::*;
    use crate::library::{Library, phrases_of_text, text_of_phrases};
    use crate::tui::command::{Command, Section};
    use crate::tui::line_place::{ChordSeed, LinePlace, LineSeed};

    /// Keys that change every step on the way, and go back over them.
    const KEYS: &str = "f p P right up o i y a l delete 7 down 7 u & & v 1 f right D v p f 1 v j 1 t t \
                        x X f x s s r b B m O + - h H v V 4 f 7 C f r p W A right right C j G L K C v v p v p V f";

    #[test]
    fn what_is_made_step_by_step_is_what_would_be_made_at_once() {
        let library = Library::load(None);
        let mut shared = Shared::new("guitar-standard", library, Spelling::Plain).unwrap();
        let mut screen = LineScreen::new();
        let seed = LineSeed::of(
            ChordSeed {
                symbol: "Dm7".to_owned(),
                scale: "D Dorian".to_owned(),
                pair: "F & G".to_owned(),
            },
            LinePlace::read("neck; 4-3-2; "),
            None,
        );
        screen.open(&seed, &mut shared);
        screen.chosen.chords = "Dm7 | G7".to_owned();
        screen.chosen.each.push(super::super::chosen::OfChord::default());
        screen.make_again(&shared);
        for key in KEYS.split_whitespace() {
            let command = shared.keys.command(Section::Line, key.parse().unwrap());
            let Some(Command::Line(command)) = command else { panic!("{key} is no command") };
            screen.update(command, &mut shared);
            let afresh = Made::of(&screen.chosen, &shared, None).unwrap();
            let made = screen.made().unwrap();
            assert_eq!(made.answer, afresh.answer, "after {key}");
            assert_eq!((&made.tab, made.way), (&afresh.tab, afresh.way), "after {key}");
        }
    }

    /// Every note of a line is changed in turn by every key that changes one; whatever the way to
    /// finger it, what lies outside its bar stays where it is.
    #[test]
    fn a_change_leaves_other_bars_where_they_are() {
        let mut shared =
            Shared::new("guitar-standard", Library::load(None), Spelling::Plain).unwrap();
        let (mut tried, mut moved) = (0, Vec::new());
        for (strings, way) in [("neck; 4-3-2; ", ""), ("neck; ; ", ""), ("neck; ; ", "h")] {
            let seed = LineSeed::of(
                ChordSeed {
                    symbol: "Dm7".to_owned(),
                    scale: "D Dorian".to_owned(),
                    pair: "F & G".to_owned(),
                },
                LinePlace::read(strings),
                Pitch::from_midi(53),
            );
            let mut screen = LineScreen::new();
            screen.open(&seed, &mut shared);
            press(&mut screen, &mut shared, way);
            let before = places(&screen);
            let plain = screen.chosen.clone();
            for cursor in 0..before.len() {
                for key in ["up", "down", "u", "d", "U", "D", "o", "y", "delete"] {
                    screen.cursor = cursor;
                    press(&mut screen, &mut shared, key);
                    let now = places(&screen);
                    let bar = before[cursor].0;
                    let outside = |all: &[(u64, Quarters, Place)]| -> Vec<_> {
                        all.iter().filter(|(at, ..)| *at != bar).copied().collect()
                    };
                    if outside(&now) != outside(&before) {
                        moved.push(format!("{strings} {way} {key} at note {cursor}"));
                    }
                    tried += 1;
                    screen.restore(plain.clone(), &shared);
                }
            }
        }
        // A held note may reach into the next bar, and its change with it.
        assert!(tried > 400 && moved.len() * 50 < tried, "{tried}: {moved:?}");
    }

    fn press(screen: &mut LineScreen, shared: &mut Shared, keys: &str) {
        for key in keys.split_whitespace() {
            let command = shared.keys.command(Section::Line, key.parse().unwrap());
            let Some(Command::Line(command)) = command else { panic!("{key} is no command") };
            screen.update(command, shared);
        }
    }

    /// The bar, the onset and the place of each note.
    fn places(screen: &LineScreen) -> Vec<(u64, Quarters, Place)> {
        let made = screen.made().unwrap();
        let bars = made.answer.question.chords.bars();
        let places = made.way().unwrap().way.notes.iter().map(|at| at.place);
        let onsets = made.notes().iter().map(|told| told.note.onset);
        onsets.zip(places).map(|(at, place)| (bars.at(at).unwrap().index, at, place)).collect()
    }

    /// Of phrases as they are written out comes the line that they were, and so it does of the file in
    /// which they are copied.
    #[test]
    fn written_out_it_is_the_same_line() {
        let shared = Shared::new("guitar-standard", Library::load(None), Spelling::Plain).unwrap();
        let seed = LineSeed::of(
            ChordSeed {
                symbol: "Dm7".to_owned(),
                scale: "D Dorian".to_owned(),
                pair: "F & G".to_owned(),
            },
            LinePlace::read("neck; 4-3-2; "),
            Pitch::from_midi(53),
        );
        let plain = Chosen::of(&seed);
        let each = vec![super::super::chosen::OfChord::default(); 3];
        let mut tried = 0;
        for meter in ["4/4", "3/4", "6/8", "7/8"] {
            for pattern in ["123", "132 32", "1232 321 a", "1_3 - 2s"] {
                for rhythm in ["8", "3:2(8 8 8)", "4. 8 -8 8"] {
                    for style in [LineStyle::Music, LineStyle::Exercise] {
                        let chosen = Chosen {
                            chords: "Dm7 | G7 | Cmaj7 | %".to_owned(),
                            each: each.clone(),
                            meter: meter.parse().unwrap(),
                            pattern: pattern.parse().ok(),
                            rhythm: rhythm.parse().ok(),
                            style,
                            ..plain.clone()
                        };
                        let Ok(made) = Made::of(&chosen, &shared, None) else { continue };
                        let phrases = written_out(&made.answer).unwrap();
                        let copied = all_spelled_out(&phrases, &made.answer);
                        let text = text_of_phrases(&copied);
                        let read =
                            phrases_of_text("own.toml", &text, &shared.library.patterns).unwrap();
                        for phrases in [phrases, read] {
                            let written = Chosen { phrases, ..chosen.clone() };
                            let again = Made::of(&written, &shared, None).unwrap();
                            assert_eq!(again.notes(), made.notes(), "{meter} {pattern} {rhythm}");
                        }
                        tried += 1;
                    }
                }
            }
        }
        assert!(tried > 60, "{tried}");
    }
}
