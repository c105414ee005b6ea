//! The choices on the line screen as they are kept for the next start, and taken up again.
//!
//! Every value is text as a player would type it. A value that means nothing any more is passed
//! over.

use fretloom_fretboard::StringNumber;
use fretloom_theory::{
    AtChange, Direction, LineStyle, NoteChange, NoteEdit, Pitch, Quarters, Start, Tempo, Travel,
};

use super::chosen::{Chosen, OfChord};
use super::cycles::{name_of_travel, starts, travels};
use super::state::{LineScreen, Outcome};
use super::targets::{read_targets, spaced};
use crate::answer::{BarBeat, LineChords, LineEdit, NoteAt};
use crate::library::{AskedPhrase, LoadedPatterns, phrases_of_text, text_of_phrases};
use crate::picture::Labels;
use crate::store::{LineSession, Session};
use crate::tui::line_place::LinePlace;

/// The longest text of chords that is taken up.
const LONGEST: usize = 2_000;

/// The longest text of phrases that is taken up.
const LONGEST_PHRASES: usize = 200_000;

/// What an exercise does at a change of chord, by its words.
const AT_CHANGES: [(&str, AtChange); 3] = [
    ("runs on", AtChange::RunsOn),
    ("begins again", AtChange::BeginsAgain),
    ("cut short", AtChange::CutShort),
];

/// Changes of a note, by their words.
const CHANGES: [(&str, NoteChange); 9] = [
    ("pair up", NoteChange::PairNote(Direction::Up)),
    ("pair down", NoteChange::PairNote(Direction::Down)),
    ("step up", NoteChange::ScaleStep(Direction::Up)),
    ("step down", NoteChange::ScaleStep(Direction::Down)),
    ("half step up", NoteChange::HalfStep(Direction::Up)),
    ("half step down", NoteChange::HalfStep(Direction::Down)),
    ("sounds on", NoteChange::SoundsOn),
    ("accent", NoteChange::Accent),
    ("silent", NoteChange::Silent),
];

impl LineScreen {
    /// Writes what is chosen here into a session; nothing where nobody asked for a line.
    pub(in crate::tui) fn keep(&self, session: &mut Session) {
        session.line = self.chosen.seed.is_some().then(|| kept(&self.chosen));
    }

    /// Takes up what was kept, as far as it still means something. The line is made when the screen
    /// comes to the front.
    pub(in crate::tui) fn take_up(&mut self, session: &Session) {
        if let Some(line) = &session.line {
            self.chosen = taken_up(line);
            (self.outcome, self.cursor) = (Outcome::NotYet, 0);
        }
    }
}

fn kept(chosen: &Chosen) -> LineSession {
    let of_chord = |chord: &OfChord| format!("{}; {}; {}", chord.symbol, chord.scale, chord.pair);
    let at_change = AT_CHANGES.iter().find(|(_, at_change)| *at_change == chosen.at_change);
    LineSession {
        made_of: chosen.seed.clone(),
        chords: Some(chosen.chords.clone()),
        each: chosen.each.iter().map(of_chord).collect(),
        bars: chosen.bars,
        meter: Some(chosen.meter.to_string()),
        tempo: Some(chosen.tempo.a_minute().round() as u32),
        exercise: Some(chosen.style == LineStyle::Exercise),
        pattern: chosen.pattern.as_ref().map(ToString::to_string),
        rhythm: chosen.rhythm.as_ref().map(ToString::to_string),
        travel: chosen.travel.map(|travel| name_of_travel(travel).to_owned()),
        start: chosen.start.and_then(word_of_start).map(str::to_owned),
        near: chosen.near.map(|near| near.midi()),
        at_change: at_change.map(|(word, _)| (*word).to_owned()),
        targets: (!chosen.targets.is_empty()).then(|| spaced(&chosen.targets)),
        phrases: (!chosen.phrases.is_empty()).then(|| text_of_phrases(&chosen.phrases)),
        place: Some(chosen.place.words()),
        edits: chosen.edits.iter().filter_map(words_of_edit).collect(),
        way: u32::try_from(chosen.way).ok(),
        key: u32::try_from(chosen.key).ok(),
        labels: Some(chosen.labels.word().to_owned()),
    }
}

fn taken_up(line: &LineSession) -> Chosen {
    let nothing = Chosen::nothing();
    let index = |value: Option<u32>| value.and_then(|value| usize::try_from(value).ok());
    let chords = line.chords.clone().filter(|chords| chords.len() <= LONGEST).unwrap_or_default();
    let tempo = line.tempo.and_then(|tempo| Tempo::new(u64::from(tempo), 1));
    let named = |travel: &Travel| Some(name_of_travel(*travel)) == line.travel.as_deref();
    let near = line.near.and_then(Pitch::from_midi);
    let start = |start: &Option<Start>| start.and_then(word_of_start) == line.start.as_deref();
    let at_change = |(word, _): &&(&str, AtChange)| Some(*word) == line.at_change.as_deref();
    Chosen {
        seed: line.made_of.clone(),
        each: line.each.iter().take(LONGEST).map(|words| of_chord(words)).collect(),
        bars: line.bars.map(|bars| bars.clamp(1, LineChords::MOST_BARS)),
        meter: line.meter.as_ref().and_then(|meter| meter.parse().ok()).unwrap_or(nothing.meter),
        tempo: tempo.unwrap_or(nothing.tempo),
        style: if line.exercise == Some(true) { LineStyle::Exercise } else { LineStyle::Music },
        pattern: line.pattern.as_ref().and_then(|pattern| pattern.parse().ok()),
        rhythm: line.rhythm.as_ref().and_then(|rhythm| rhythm.parse().ok()),
        travel: travels().into_iter().find(named),
        start: starts(near).into_iter().find(start).flatten(),
        near,
        at_change: AT_CHANGES.iter().find(at_change).map_or(nothing.at_change, |(_, at)| *at),
        targets: line.targets.as_ref().and_then(|text| read_targets(text).ok()).unwrap_or_default(),
        phrases: line.phrases.as_deref().map(phrases).unwrap_or_default(),
        place: line.place.as_deref().map_or(LinePlace::WHOLE_NECK, LinePlace::read),
        edits: line.edits.iter().take(Chosen::MOST_EDITS).filter_map(|words| edit(words)).collect(),
        way: index(line.way).unwrap_or_default(),
        key: index(line.key).filter(|key| *key < 12).unwrap_or_default(),
        labels: Labels::ALL
            .into_iter()
            .find(|labels| Some(labels.word()) == line.labels.as_deref())
            .unwrap_or(nothing.labels),
        chords,
    }
}

/// Phrases as they are kept. They are all taken up or none is: each begins where another ends.
fn phrases(text: &str) -> Vec<AskedPhrase> {
    if text.len() > LONGEST_PHRASES {
        return Vec::new();
    }
    let nothing = LoadedPatterns::of_text("", "");
    let read = phrases_of_text("", text, &nothing).unwrap_or_default();
    let from = |phrase: &AskedPhrase| {
        let at: BarBeat = phrase.from.parse().ok()?;
        Some((at.bar, at.beat, at.place.after(Quarters::ONE)?))
    };
    let in_order = read
        .is_sorted_by(|one, next| from(one).zip(from(next)).is_some_and(|(one, next)| one < next));
    if in_order && read.iter().all(|phrase| from(phrase).is_some()) { read } else { Vec::new() }
}

fn of_chord(words: &str) -> OfChord {
    let mut parts = words.split(';').map(|part| part.trim().to_owned());
    let mut next = || parts.next().unwrap_or_default();
    OfChord { symbol: next(), scale: next(), pair: next() }
}

/// `root`; `hand` for where the hand was.
fn word_of_start(start: Start) -> Option<&'static str> {
    match start {
        Start::Lowest(inversion) => Some(inversion.word()),
        Start::Near(_) => Some("hand"),
        Start::Bass(_) | Start::FromBefore => None,
    }
}

/// `1/2.0 pair up`; `3.0 string 4`, `3.0 string -`, `3.0 slur`.
fn words_of_edit(edit: &LineEdit) -> Option<String> {
    let (at, words) = match edit {
        LineEdit::Note(NoteEdit { onset, voice, change }) => {
            let (words, _) = CHANGES.iter().find(|(_, known)| known == change)?;
            (NoteAt { onset: *onset, voice: *voice }, (*words).to_owned())
        }
        LineEdit::String(at, Some(string)) => (*at, format!("string {string}")),
        LineEdit::String(at, None) => (*at, "string -".to_owned()),
        LineEdit::Slur(at) => (*at, "slur".to_owned()),
    };
    let (above, below) = (at.onset.numerator(), at.onset.denominator());
    Some(format!("{above}/{below}.{} {words}", at.voice))
}

fn edit(words: &str) -> Option<LineEdit> {
    let (at, words) = words.split_once(' ')?;
    let (onset, voice) = at.split_once('.')?;
    let (above, below) = onset.split_once('/')?;
    let onset = Quarters::new(above.parse().ok()?, below.parse().ok()?)?;
    let at = NoteAt { onset, voice: voice.parse().ok()? };
    if let Some((_, change)) = CHANGES.iter().find(|(known, _)| *known == words) {
        return Some(LineEdit::Note(NoteEdit { onset, voice: at.voice, change: *change }));
    }
    match words.split_once(' ') {
        Some(("string", "-")) => Some(LineEdit::String(at, None)),
        Some(("string", string)) => {
            Some(LineEdit::String(at, Some(StringNumber::new(string.parse().ok()?)?)))
        }
        _ => (words == "slur").then_some(LineEdit::Slur(at)),
    }
}

#[cfg(test)]
mod tests {
    use fretloom_fretboard::{Neck, Tuning};

    use super::*;
    use crate::tui::line_place::{ChordSeed, LineSeed};

    fn line() -> Chosen {
        let seed = LineSeed::of(
            ChordSeed {
                symbol: "Dm7".to_owned(),
                scale: "D Dorian".to_owned(),
                pair: "F & G".to_owned(),
            },
            LinePlace::read("position V; 4-3-2; 1-12"),
            Pitch::from_midi(53),
        );
        let at = NoteAt { onset: Quarters::EIGHTH, voice: 1 };
        let mut edits: Vec<LineEdit> = CHANGES
            .iter()
            .map(|(_, change)| {
                LineEdit::Note(NoteEdit { onset: Quarters::ONE, voice: 0, change: *change })
            })
            .collect();
        edits.push(LineEdit::String(at, StringNumber::new(4)));
        edits.push(LineEdit::String(at, None));
        edits.push(LineEdit::Slur(at));
        Chosen {
            bars: Some(8),
            meter: "3/4".parse().unwrap(),
            tempo: Tempo::new(96, 1).unwrap(),
            style: LineStyle::Exercise,
            pattern: Some("1232 321 a".parse().unwrap()),
            rhythm: Some("4. 8".parse().unwrap()),
            travel: Some(Travel::Arc),
            start: starts(None)[2],
            at_change: AtChange::CutShort,
            targets: vec!["3@2.1:below".parse().unwrap()],
            phrases: phrases(
                "[1]\nfrom = \"1.1&\"\npattern = \"132\"\ntarget = \"3@2.1\"\n[2]\n\
                              from = \"2.2+1/3\"\nlike = \"1\"\nview = \"position\"\n\
                              position = \"V\"\nstrings = \"4-3-2\"\nwide = true\n",
            ),
            edits,
            way: 2,
            key: 3,
            labels: Labels::Degree,
            ..Chosen::of(&seed)
        }
    }

    #[test]
    fn what_is_kept_is_taken_up() {
        assert_eq!(line().phrases.len(), 2);
        assert_eq!(taken_up(&kept(&line())), line());
        let nothing = Chosen { seed: Some(String::new()), ..Chosen::nothing() };
        assert_eq!(taken_up(&kept(&nothing)), nothing);
    }

    /// As it was kept before a phrase had a place of its own.
    #[test]
    fn a_session_without_places_of_phrases_is_taken_up() {
        let old = "{\"made_of\":\"Dm7; D Dorian; F & G; neck; 4-3-2; \",\"chords\":\"Dm7\",\
                   \"phrases\":\"[1]\\nfrom = \\\"1.1\\\"\\npattern = \\\"132\\\"\\n\",\
                   \"place\":\"neck; 4-3-2; \"}";
        let taken = taken_up(&serde_json::from_str(old).unwrap());
        assert_eq!(taken.phrases.len(), 1);
        assert_eq!(taken.phrases[0].area, None);
        let neck = Neck::new(Tuning::read("EADGBE").unwrap());
        assert_eq!(taken.place_of(Some(0), &neck), LinePlace::read("neck; 4-3-2; "));
    }

    #[test]
    fn what_means_nothing_is_passed_over() {
        let text = || Some("\u{1b}[31m 99999999999999999999".to_owned());
        let odd = LineSession {
            made_of: text(),
            chords: Some("x".repeat(10_000)),
            each: vec![String::new(), ";;;;".to_owned()],
            bars: Some(u32::MAX),
            meter: text(),
            tempo: Some(0),
            exercise: None,
            pattern: text(),
            rhythm: text(),
            travel: text(),
            start: text(),
            near: Some(200),
            at_change: text(),
            targets: text(),
            phrases: text(),
            place: text(),
            edits: vec!["1/0.0 pair up".to_owned(), "1/2 x".to_owned(), String::new()],
            way: Some(u32::MAX),
            key: Some(12),
            labels: text(),
        };
        let taken = taken_up(&odd);
        assert_eq!((taken.bars, taken.key, taken.edits.len()), (Some(LineChords::MOST_BARS), 0, 0));
        assert_eq!((taken.chords.as_str(), taken.pattern), ("", None));
        for odd in [
            "[1]\nfrom = \"2.1\"\n[2]\nfrom = \"1.1\"\n",
            "[1]\nfrom = \"1.1\"\n[2]\nfrom = \"1.1\"\n",
            "[1]\nfrom = \"one\"\n",
            "[1]\nfrom = \"1.1\"\nnotes = \"H3\"\n",
        ] {
            assert_eq!(phrases(odd), [], "{odd}");
        }
        assert_eq!(phrases(&"[1]\nfrom = \"1.1\"\n".repeat(20_000)), []);
    }
}
