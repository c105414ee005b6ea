//! The player's choices as they are kept for the next start, and taken up again.
//!
//! Every value is text as a player would type it. One that means nothing any more (a tuning whose
//! file is gone, strings that this instrument lacks) costs itself.

use fretloom_fretboard::{Capo, StringSet};
use fretloom_theory::{Families, ScaleChoice, Spelling};

use super::Explore;
use super::in_hand::Held;
use super::neck_view::NeckView;
use super::shown::families_of;
use crate::answer::{self, Wishes};
use crate::glyphs::to_ascii;
use crate::picture::{Handed, Labels, Top};
use crate::store::Session;

impl Explore {
    /// Everything that is chosen now.
    #[must_use]
    pub fn session(&self) -> Session {
        let capo = self.neck().tuning().capo();
        let scale = self.shown.scales.get(self.chosen.scale);
        let set = |set: StringSet| set.to_string();
        Session {
            chord: Some(self.symbol_in_ascii()),
            scale: scale.map(|choice| format!("{:#}", choice.scale())),
            pair: self.pair().map(|pair| format!("{:#}", pair.name())),
            tuning: Some(to_ascii(&self.asked_as(self.neck().tuning()))),
            capo: Some(capo.fret().number()),
            capo_strings: self.chosen.capo_strings.map(set),
            strings: self.strings().map(set),
            locked: Some(self.chosen.locked),
            rung: u32::try_from(self.chosen.rung.unwrap_or_default()).ok(),
            place: u32::try_from(self.chosen.held.place).ok(),
            fingers: u32::try_from(self.chosen.held.fingers).ok(),
            labels: Some(self.chosen.labels.word().to_owned()),
            spelling: Some(word_of(self.chosen.spelling).to_owned()),
            view: Some(self.chosen.view.words()),
            families: Some(families_of(&self.chosen).0.to_string()),
            wishes: Some(to_ascii(&self.chosen.wishes.to_string())),
            left_handed: Some(self.chosen.handed == Handed::Left),
            upside_down: Some(self.chosen.top == Top::Last),
            fret_widths: Some(self.chosen.fret_widths.word().to_owned()),
            left_out: Some(self.chosen.shows_left_out),
            first_fret: Some(self.chosen.first_fret),
        }
    }

    /// Takes up what was kept, as far as it still means something. Nothing of it can be taken back:
    /// the player's evening begins here.
    pub fn take_up(&mut self, session: &Session) {
        self.take_up_ways(session);
        self.take_up_music(session);
        self.take_up_instrument(session);
        self.take_up_hand(session);
        self.notice = None;
    }

    /// The symbol as it was typed, or as it is printed where signs were typed.
    fn symbol_in_ascii(&self) -> String {
        if self.chosen.chord.symbol.is_ascii() {
            self.chosen.chord.symbol.clone()
        } else {
            format!("{:#}", self.chosen.chord.read.chord)
        }
    }

    fn take_up_ways(&mut self, session: &Session) {
        let labels = Labels::ALL.iter().find(|one| Some(one.word()) == session.labels.as_deref());
        self.chosen.labels = labels.copied().unwrap_or(self.chosen.labels);
        let spellings = [Spelling::Plain, Spelling::Strict];
        let spelling = spellings.iter().find(|s| Some(word_of(**s)) == session.spelling.as_deref());
        self.chosen.spelling = spelling.copied().unwrap_or(self.chosen.spelling);
        if let Some(left) = session.left_handed {
            self.chosen.handed = if left { Handed::Left } else { Handed::Right };
        }
        if let Some(down) = session.upside_down {
            self.chosen.top = if down { Top::Last } else { Top::First };
        }
        self.chosen.locked = session.locked.unwrap_or(self.chosen.locked);
        let widths = session.fret_widths.as_deref().and_then(|word| word.parse().ok());
        self.chosen.fret_widths = widths.unwrap_or(self.chosen.fret_widths);
        self.chosen.shows_left_out = session.left_out.unwrap_or(self.chosen.shows_left_out);
    }

    fn take_up_music(&mut self, session: &Session) {
        let families = session.families.as_deref().and_then(|text| text.parse::<Families>().ok());
        let turn = families.and_then(|found| {
            Families::in_turn().iter().position(|(families, _)| *families == found)
        });
        self.chosen.families = turn.unwrap_or(self.chosen.families);
        let wishes = session.wishes.as_deref().and_then(|text| Wishes::read_line(text).ok());
        self.chosen.wishes = wishes.unwrap_or_default();
        if let Some(symbol) = &session.chord
            && let Ok(read) = symbol.parse()
        {
            self.take_chord(symbol, read);
            self.pages = super::History::new();
        }
        let named = |choice: &ScaleChoice| Some(format!("{:#}", choice.scale())) == session.scale;
        self.take_scale(self.shown.scales.iter().position(named).unwrap_or(self.chosen.scale));
        if let Some(pair) = &session.pair {
            self.choose_pair(|name| format!("{name:#}") == *pair);
        }
    }

    fn take_up_instrument(&mut self, session: &Session) {
        let found = session.tuning.as_deref();
        let found = found.and_then(|text| answer::find_tuning(&self.library.tunings, text).ok());
        if let Some(found) = found {
            self.take_tuning(found.tuning);
        }
        let fret = session.capo.map(|fret| fret.to_string());
        let capo = fret.and_then(|fret| Capo::read(&fret, session.capo_strings.as_deref()).ok());
        // A capo that does not go on this instrument is left off.
        if let Some(capo) = capo
            && self.put_capo(capo).is_err()
        {
            self.chosen.capo_strings = None;
        }
    }

    fn take_up_hand(&mut self, session: &Session) {
        let same = |set: &StringSet| Some(set.to_string()) == session.strings;
        self.chosen.set = self.sets().iter().position(same).unwrap_or(self.chosen.set);
        let count = self.neck().tuning().string_count();
        let look = session.view.as_deref().and_then(|words| NeckView::read(words, count));
        self.chosen.view = look.unwrap_or(self.chosen.view);
        self.lay_out();
        let index = |value: Option<u32>| value.and_then(|value| usize::try_from(value).ok());
        let rung = index(session.rung).filter(|rung| *rung < self.shown.ladder.rungs().len());
        if rung.is_some() {
            self.hold(rung, Held::default());
            self.hold_as(Held {
                place: index(session.place).unwrap_or_default(),
                fingers: index(session.fingers).unwrap_or_default(),
            });
        }
        self.chosen.first_fret = session.first_fret.unwrap_or(self.chosen.first_fret).max(1);
        // An order stands only in a view that has one.
        if self.chosen.labels == Labels::Order && self.shown.view.is_none() {
            self.chosen.labels = Labels::default();
        }
    }

    /// Holds the rung in hand that way, as far as there is such a place and are such fingers.
    fn hold_as(&mut self, held: Held) {
        self.chosen.held = held;
        self.follow();
        let possible = self.shown.hand.as_ref().map(|hand| hand.possible(held));
        self.chosen.held = possible.unwrap_or_default();
        self.follow();
    }
}

fn word_of(spelling: Spelling) -> &'static str {
    match spelling {
        Spelling::Plain => "plain",
        Spelling::Strict => "strict",
    }
}
