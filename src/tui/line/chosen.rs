//! What the player has chosen, in one piece: so it can be taken back, and found again tomorrow.

use fretloom_fretboard::Neck;
use fretloom_theory::{AtChange, LineStyle, Meter, Pattern, Pitch, Rhythm, Start, Tempo, Travel};

use super::phrases::{in_full, index_of};
use crate::answer::{LineEdit, LineTarget};
use crate::library::AskedPhrase;
use crate::picture::Labels;
use crate::tui::line_place::{ChordSeed, LinePlace, LineSeed, phrase_area_on};

/// Every choice of the player on the line screen. What is shown follows from it and from what all
/// screens share; nothing of it is kept elsewhere.
#[derive(Clone, PartialEq, Debug)]
pub(in crate::tui) struct Chosen {
    /// What the line was made of first, in words; none where nobody asked for one yet.
    pub(super) seed: Option<String>,
    /// The chords as they were typed.
    pub(super) chords: String,
    /// What is chosen for each chord of the text, in order.
    pub(super) each: Vec<OfChord>,
    /// How many bars; none for as many as are written.
    pub(super) bars: Option<u32>,
    pub(super) meter: Meter,
    pub(super) tempo: Tempo,
    pub(super) style: LineStyle,
    pub(super) pattern: Option<Pattern>,
    pub(super) rhythm: Option<Rhythm>,
    pub(super) travel: Option<Travel>,
    pub(super) start: Option<Start>,
    /// Where the hand was when the line was made first, to begin there.
    pub(super) near: Option<Pitch>,
    pub(super) at_change: AtChange,
    pub(super) targets: Vec<LineTarget>,
    /// The phrases in order of time, where the player has written them out; none where the line
    /// decides.
    pub(super) phrases: Vec<AskedPhrase>,
    pub(super) place: LinePlace,
    /// What was changed note by note.
    pub(super) edits: Vec<LineEdit>,
    /// Which of the ways to finger it, from 0.
    pub(super) way: usize,
    /// Which of the twelve keys, from 0, the one in which it was made; each a fourth up.
    pub(super) key: usize,
    pub(super) labels: Labels,
}

/// What is chosen for a chord of the text. What is empty is the usual.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub(in crate::tui) struct OfChord {
    /// The chord, in ASCII.
    pub(super) symbol: String,
    pub(super) scale: String,
    pub(super) pair: String,
}

impl Chosen {
    /// How many notes may be changed.
    pub(super) const MOST_EDITS: usize = 500;

    /// A line of these pairs over their chords, the rest as a player would have it.
    pub(super) fn of(seed: &LineSeed) -> Chosen {
        let LineSeed { chords, each, place, near } = seed.clone();
        let each = each.into_iter().map(|ChordSeed { symbol, scale, pair }| OfChord {
            symbol,
            scale,
            pair,
        });
        Chosen {
            seed: Some(seed.to_string()),
            chords,
            each: each.collect(),
            place,
            start: near.map(Start::Near),
            near,
            ..Chosen::nothing()
        }
    }

    /// Nothing is chosen yet.
    pub(super) fn nothing() -> Chosen {
        Chosen {
            seed: None,
            chords: String::new(),
            each: Vec::new(),
            bars: None,
            meter: Meter::COMMON,
            tempo: Tempo::USUAL,
            style: LineStyle::Music,
            pattern: None,
            rhythm: None,
            travel: None,
            start: None,
            near: None,
            at_change: AtChange::RunsOn,
            targets: Vec::new(),
            phrases: Vec::new(),
            place: LinePlace::WHOLE_NECK,
            edits: Vec::new(),
            way: 0,
            key: 0,
            labels: Labels::Order,
        }
    }

    /// Another line in the manner of this one: its pattern and rhythm, and how it goes.
    pub(super) fn in_this_manner(&self, seed: &LineSeed) -> Chosen {
        Chosen {
            meter: self.meter,
            tempo: self.tempo,
            style: self.style,
            pattern: self.pattern.clone(),
            rhythm: self.rhythm.clone(),
            travel: self.travel,
            at_change: self.at_change,
            labels: self.labels,
            ..Chosen::of(seed)
        }
    }

    /// The phrase with this index.
    pub(super) fn phrase(&mut self, index: Option<usize>) -> Option<&mut AskedPhrase> {
        self.phrases.get_mut(index?)
    }

    /// Where a phrase is played, or else the line. An answer that does not say is where its question
    /// is.
    pub(super) fn place_of(&self, phrase: Option<usize>, neck: &Neck) -> LinePlace {
        let own = phrase.and_then(|index| in_full(&self.phrases, index)?.area);
        own.map_or(self.place, |own| self.place.of_phrase(own, neck))
    }

    /// Where a phrase is played that does not say so itself.
    pub(super) fn place_unsaid(&self, phrase: usize, neck: &Neck) -> LinePlace {
        let like = self.phrases.get(phrase).and_then(|phrase| phrase.like.as_deref());
        self.place_of(like.and_then(index_of), neck)
    }

    /// Puts a phrase, or else the line, there. A phrase that is put where it is anyway goes along.
    pub(super) fn put(&mut self, phrase: Option<usize>, place: LinePlace, neck: &Neck) {
        let Some(index) = phrase else {
            self.place = place;
            return;
        };
        let is_own = place != self.place_unsaid(index, neck);
        let own = is_own.then(|| place.as_own(self.place, neck));
        if let Some(phrase) = self.phrases.get_mut(index) {
            phrase.area = own;
        }
    }

    /// The same on another neck, without places that this one does not have.
    pub(super) fn on(&self, neck: &Neck) -> Chosen {
        let area = |phrase: &AskedPhrase| phrase_area_on(phrase.area?, neck);
        let on = |phrase: &AskedPhrase| AskedPhrase { area: area(phrase), ..phrase.clone() };
        let phrases = self.phrases.iter().map(on).collect();
        Chosen { place: self.place.on(neck), phrases, ..self.clone() }
    }

    /// The same with every phrase where the line is.
    pub(super) fn without_own_places(&self) -> Chosen {
        let along = |phrase: &AskedPhrase| AskedPhrase { area: None, ..phrase.clone() };
        Chosen { phrases: self.phrases.iter().map(along).collect(), ..self.clone() }
    }

    /// The scales of all chords, as they are asked for; none where none is chosen.
    pub(super) fn scales(&self) -> Option<String> {
        joined(self.each.iter().map(|chord| chord.scale.as_str()))
    }

    /// Their pairs.
    pub(super) fn pairs(&self) -> Option<String> {
        joined(self.each.iter().map(|chord| chord.pair.as_str()))
    }
}

fn joined<'a>(texts: impl Iterator<Item = &'a str> + Clone) -> Option<String> {
    let is_any = texts.clone().any(|text| !text.is_empty());
    is_any.then(|| texts.collect::<Vec<_>>().join(", "))
}

/// What the screen was turned to: a line, to which one can turn back.
#[derive(Clone, PartialEq, Debug)]
pub(in crate::tui) struct Page {
    pub(super) chosen: Chosen,
}

impl Page {
    /// Is it of the same chords?
    pub(in crate::tui) fn is_like(&self, other: &Page) -> bool {
        self.chosen.chords == other.chosen.chords
    }
}
