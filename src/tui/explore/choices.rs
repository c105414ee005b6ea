//! What the player has chosen, in one piece: so it can be taken back, and found again tomorrow.

use fretloom_fretboard::{Neck, StringSet, Tuning};
use fretloom_theory::{ReadChord, ScaleChoice, Spelling};

use super::in_hand::InHand;
use super::look::Look;
use super::{Explore, Handed, Instrument, Top};
use crate::answer::{PairAnswer, PairName, TuningAnswer, Wishes};
use crate::picture::{FretWidths, Labels};
use crate::words::counted;

/// Every choice of the player. What is shown follows from it.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Choices {
    symbol: String,
    read: ReadChord,
    scale: usize,
    spelling: Spelling,
    labels: Labels,
    families: usize,
    wishes: Wishes,
    row: usize,
    copy: usize,
    /// With its capo.
    tuning: Tuning,
    clamp: Option<StringSet>,
    set: usize,
    locked: bool,
    rung: usize,
    /// Which place of the rung's notes, and which fingers there.
    held: (usize, usize),
    look: Look,
    handed: Handed,
    top: Top,
    fret_widths: FretWidths,
    shows_left_out: bool,
    first_fret: u8,
}

/// A chord that the player has been at, with the scale and the pair of that moment.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Page {
    symbol: String,
    read: ReadChord,
    scale: usize,
    /// None where the scale holds no pair.
    pair: Option<PairName>,
}

impl Explore {
    /// What is chosen now.
    pub(super) fn choices_made(&self) -> Choices {
        Choices {
            symbol: self.symbol.clone(),
            read: self.read.clone(),
            scale: self.scale,
            spelling: self.spelling,
            labels: self.labels,
            families: self.families,
            wishes: self.wishes.clone(),
            row: self.row,
            copy: self.copy,
            tuning: self.neck().tuning().clone(),
            clamp: self.clamp,
            set: self.set,
            locked: self.locked,
            rung: self.rung,
            held: self.hand.as_ref().map(InHand::which).unwrap_or_default(),
            look: self.look,
            handed: self.handed,
            top: self.top,
            fret_widths: self.fret_widths,
            shows_left_out: self.shows_left_out,
            first_fret: self.first_fret,
        }
    }

    /// Chooses all this again, and asks what follows from it.
    fn choose_again(&mut self, made: Choices) {
        self.choices = ScaleChoice::for_chord_with(&made.read.chord, self.library.scales.kinds());
        let tuning = TuningAnswer::of(&self.library.tunings, &made.tuning);
        self.instrument = Instrument { neck: Neck::new(made.tuning), tuning };
        (self.symbol, self.read, self.scale) = (made.symbol, made.read, made.scale);
        (self.families, self.wishes, self.spelling) = (made.families, made.wishes, made.spelling);
        (self.row, self.copy, self.labels) = (made.row, made.copy, made.labels);
        (self.clamp, self.set, self.locked) = (made.clamp, made.set, made.locked);
        (self.look, self.handed, self.top) = (made.look, made.handed, made.top);
        (self.fret_widths, self.shows_left_out) = (made.fret_widths, made.shows_left_out);
        self.ask_pairs();
        self.hold(made.rung, made.held);
        self.first_fret = made.first_fret;
    }

    /// Takes a rung in hand at one of its places, with some fingers.
    pub(super) fn hold(&mut self, rung: usize, held: (usize, usize)) {
        self.rung = rung;
        self.take_hand();
        let neck = &self.instrument.neck;
        if let Some(hand) = &mut self.hand {
            hand.turn_to(neck, held);
        }
    }

    /// Takes the last change back.
    pub(super) fn undo(&mut self) {
        let now = self.choices_made();
        let Some(before) = self.past.back(now) else {
            self.notice = Some("nothing to take back".to_owned());
            return;
        };
        self.choose_again(before);
        self.notice = Some(format!("taken back · {} before it", self.past.before()));
    }

    /// Makes again what was taken back last.
    pub(super) fn redo(&mut self) {
        let now = self.choices_made();
        let Some(after) = self.past.forward(now) else {
            self.notice = Some("nothing was taken back".to_owned());
            return;
        };
        self.choose_again(after);
        self.notice = Some(format!("made again · {} after it", self.past.after()));
    }

    /// The chord of the moment.
    pub(super) fn page(&self) -> Page {
        Page {
            symbol: self.symbol.clone(),
            read: self.read.clone(),
            scale: self.scale,
            pair: self.pair().map(PairAnswer::name),
        }
    }

    /// Back to the chord before, with the scale and the pair that it had.
    pub(super) fn page_back(&mut self) {
        let now = self.page();
        match self.pages.back(now) {
            Some(page) => self.turn_to_page(page),
            None => self.notice = Some("this is the first chord".to_owned()),
        }
    }

    /// Forward again to the chord that was left by going back.
    pub(super) fn page_forward(&mut self) {
        let now = self.page();
        match self.pages.forward(now) {
            Some(page) => self.turn_to_page(page),
            None => self.notice = Some("this is the last chord".to_owned()),
        }
    }

    fn turn_to_page(&mut self, page: Page) {
        self.choices = ScaleChoice::for_chord_with(&page.read.chord, self.library.scales.kinds());
        (self.symbol, self.read, self.scale) = (page.symbol, page.read, page.scale);
        self.ask_pairs();
        if let Some(pair) = page.pair {
            self.choose_pair(|name| name == pair);
        }
        let (before, after) = (self.pages.before(), self.pages.after());
        self.notice =
            Some(format!("{} before this one, {after} after it", counted(before, "chord")));
    }

    /// Chooses the pair whose name is the wanted one where the list has it, else the first one.
    pub(super) fn choose_pair(&mut self, wanted: impl Fn(PairName) -> bool) {
        let pairs = &self.pairs.pairs;
        let is_it = |index: &usize| pairs.get(*index).is_some_and(|pair| wanted(pair.name()));
        let place = self.pairs.folds.iter().enumerate().find_map(|(row, fold)| {
            let copies = fold.copies.iter().map(|(index, _)| *index);
            let copy = std::iter::once(fold.first).chain(copies).position(|index| is_it(&index))?;
            Some((row, copy))
        });
        (self.row, self.copy) = place.unwrap_or_default();
        self.lay_out();
    }
}
