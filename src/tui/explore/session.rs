//! The player's choices as they are kept for the next start, and taken up again.
//!
//! Every value is text as a player would type it. One that means nothing any more (a tuning whose
//! file is gone, strings that this instrument lacks) costs itself.

use fretloom_fretboard::{Capo, StringSet};
use fretloom_theory::{ScaleChoice, Spelling};

use super::in_hand::InHand;
use super::look::Look;
use super::{Explore, Handed, Top};
use crate::answer::{self, Families, Wishes};
use crate::glyphs::to_ascii;
use crate::picture::Labels;
use crate::store::Session;

impl Explore {
    /// Everything that is chosen now.
    #[must_use]
    pub fn session(&self) -> Session {
        let capo = self.neck().tuning().capo();
        let (place, fingers) = self.hand.as_ref().map(InHand::which).unwrap_or_default();
        let scale = self.choices.get(self.scale);
        let set = |set: StringSet| set.to_string();
        Session {
            chord: Some(self.symbol_in_ascii()),
            scale: scale.map(|choice| format!("{:#}", choice.scale())),
            pair: self.pair().map(|pair| format!("{:#}", pair.name())),
            tuning: Some(to_ascii(&self.asked_as(self.neck().tuning()))),
            capo: Some(capo.fret().number()),
            capo_strings: self.clamp.map(set),
            strings: self.strings().map(set),
            locked: Some(self.locked),
            rung: u32::try_from(self.rung).ok(),
            place: u32::try_from(place).ok(),
            fingers: u32::try_from(fingers).ok(),
            labels: Some(self.labels.word().to_owned()),
            spelling: Some(word_of(self.spelling).to_owned()),
            view: Some(self.look.words()),
            families: Some(self.families().0.to_string()),
            wishes: Some(to_ascii(&self.wishes.to_string())),
            left_handed: Some(self.handed == Handed::Left),
            upside_down: Some(self.top == Top::Last),
            fret_widths: Some(self.fret_widths.word().to_owned()),
            left_out: Some(self.shows_left_out),
            first_fret: Some(self.first_fret),
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
        if self.symbol.is_ascii() { self.symbol.clone() } else { format!("{:#}", self.read.chord) }
    }

    fn take_up_ways(&mut self, session: &Session) {
        let labels = Labels::ALL.iter().find(|one| Some(one.word()) == session.labels.as_deref());
        self.labels = labels.copied().unwrap_or(self.labels);
        let spellings = [Spelling::Plain, Spelling::Strict];
        let spelling = spellings.iter().find(|s| Some(word_of(**s)) == session.spelling.as_deref());
        self.spelling = spelling.copied().unwrap_or(self.spelling);
        if let Some(left) = session.left_handed {
            self.handed = if left { Handed::Left } else { Handed::Right };
        }
        if let Some(down) = session.upside_down {
            self.top = if down { Top::Last } else { Top::First };
        }
        self.locked = session.locked.unwrap_or(self.locked);
        let widths = session.fret_widths.as_deref().and_then(|word| word.parse().ok());
        self.fret_widths = widths.unwrap_or(self.fret_widths);
        self.shows_left_out = session.left_out.unwrap_or(self.shows_left_out);
    }

    fn take_up_music(&mut self, session: &Session) {
        let families = session.families.as_deref().and_then(|text| text.parse::<Families>().ok());
        let turn = families.and_then(|found| {
            Families::in_turn().iter().position(|(families, _)| *families == found)
        });
        self.families = turn.unwrap_or(self.families);
        let wishes = session.wishes.as_deref().and_then(|text| Wishes::read_line(text).ok());
        self.wishes = wishes.unwrap_or_default();
        if let Some(symbol) = &session.chord
            && let Ok(read) = symbol.parse()
        {
            self.take_chord(symbol, read);
            self.pages = super::History::new();
        }
        let named = |choice: &ScaleChoice| Some(format!("{:#}", choice.scale())) == session.scale;
        self.take_scale(self.choices.iter().position(named).unwrap_or(self.scale));
        if let Some(pair) = &session.pair {
            self.choose_pair(|name| format!("{name:#}") == *pair);
        }
    }

    fn take_up_instrument(&mut self, session: &Session) {
        let found = session.tuning.as_deref();
        let found = found.and_then(|text| answer::find_tuning(&self.library.tunings, text).ok());
        if let Some((tuning, _)) = found {
            self.take_tuning(tuning);
        }
        let fret = session.capo.map(|fret| fret.to_string());
        let capo = fret.and_then(|fret| Capo::read(&fret, session.capo_strings.as_deref()).ok());
        // A capo that does not go on this instrument is left off.
        if let Some(capo) = capo
            && self.put_capo(capo).is_err()
        {
            self.clamp = None;
        }
    }

    fn take_up_hand(&mut self, session: &Session) {
        let same = |set: &StringSet| Some(set.to_string()) == session.strings;
        self.set = self.sets().iter().position(same).unwrap_or(self.set);
        let count = self.neck().tuning().string_count();
        let look = session.view.as_deref().and_then(|words| Look::read(words, count));
        self.look = look.unwrap_or(self.look);
        self.lay_out();
        let index = |value: Option<u32>| value.and_then(|value| usize::try_from(value).ok());
        let rung = index(session.rung).filter(|rung| *rung < self.ladder.rungs().len());
        if let Some(rung) = rung {
            let held = (index(session.place), index(session.fingers));
            self.hold(rung, (held.0.unwrap_or_default(), held.1.unwrap_or_default()));
        }
        self.first_fret = session.first_fret.unwrap_or(self.first_fret).max(1);
        // An order stands only in a view that has one.
        if self.labels == Labels::Order && self.looked.is_none() {
            self.labels = Labels::default();
        }
    }
}

fn word_of(spelling: Spelling) -> &'static str {
    match spelling {
        Spelling::Plain => "plain",
        Spelling::Strict => "strict",
    }
}
