//! The choices on the explorer as they are kept for the next start, and taken up again.
//!
//! Every value is text as a player would type it. A value that means nothing any more (a tuning
//! whose file is gone, strings that this instrument lacks) is passed over.

use fretloom_fretboard::{Capo, FretRange, Rung, Shape, StringSet, Tuning};
use fretloom_theory::{Families, Scale, ScaleChoice};

use super::chosen::TypedChord;
use super::in_hand::Held;
use super::neck_view::{Across, NeckView};
use super::shown::families_of;
use super::state::Explore;
use crate::answer::{Wishes, find_tuning};
use crate::glyphs::to_ascii;
use crate::picture::Labels;
use crate::store::{Kept, Session};
use crate::tui::shared::Shared;
use crate::words::dashed;

impl Explore {
    /// Writes what is chosen here into a session.
    pub(in crate::tui) fn keep(&self, session: &mut Session) {
        let chosen = &self.chosen;
        let scale = self.shown.scales.get(chosen.scale);
        session.chord = Some(chosen.chord.in_ascii());
        session.scale = scale.map(|choice| format!("{:#}", choice.scale()));
        session.pair = self.pair().map(|pair| format!("{:#}", pair.name()));
        session.strings = self.strings().map(|set| set.to_string());
        session.locked = Some(chosen.locked);
        session.rung = u32::try_from(chosen.rung.unwrap_or_default()).ok();
        session.place = u32::try_from(chosen.held.place).ok();
        session.fingers = u32::try_from(chosen.held.fingers).ok();
        session.labels = Some(chosen.labels.word().to_owned());
        session.view = Some(chosen.view.words());
        session.families = Some(families_of(chosen).0.to_string());
        session.wishes = Some(to_ascii(&chosen.wishes.to_string()));
        session.left_out = Some(chosen.shows_left_out);
        session.first_fret = Some(chosen.first_fret);
        session.frets = (chosen.frets != FretRange::WHOLE_NECK).then(|| chosen.frets.to_string());
        session.chain = self.chain_opened().map(|shape| places_in_words(&shape));
    }

    /// The shape that the chain in view was opened on.
    fn chain_opened(&self) -> Option<Shape> {
        let NeckView::Across(Across { through, .. }) = self.chosen.view else { return None };
        let is_it = |rung: &&Rung| Some(rung.shape.places()) == through;
        self.shown.everywhere.rungs().iter().find(is_it).map(|rung| rung.shape)
    }

    /// Takes up what was kept, as far as it still means something, and the instrument with it.
    pub(in crate::tui) fn take_up(&mut self, session: &Session, shared: &mut Shared) {
        let labels = Labels::ALL.iter().find(|one| Some(one.word()) == session.labels.as_deref());
        self.chosen.labels = labels.copied().unwrap_or(self.chosen.labels);
        let frets = session.frets.as_deref().and_then(|frets| frets.parse().ok());
        self.chosen.frets = frets.unwrap_or(self.chosen.frets);
        self.chosen.locked = session.locked.unwrap_or(self.chosen.locked);
        self.chosen.shows_left_out = session.left_out.unwrap_or(self.chosen.shows_left_out);
        self.take_up_music(session, shared);
        self.take_up_instrument(session, shared);
        self.take_up_hand(session, shared);
    }

    /// Takes an instrument with its capo, and the hand with it.
    pub(in crate::tui) fn take_instrument(&mut self, tuning: &Tuning, shared: &mut Shared) {
        self.take_tuning(tuning.clone(), shared);
        // The capo of the instrument before goes along with a tuning; this one has its own.
        if self.put_capo(tuning.capo(), shared).is_err() {
            shared.setup.capo_strings = None;
        }
    }

    /// Opens what was kept here, on an instrument that is taken already. Where it was kept without a
    /// screen, chord, scale and pair alone are known. False where its chord cannot be read: nothing
    /// has changed then.
    pub(in crate::tui) fn open_kept(
        &mut self,
        kept: &Kept,
        screen: Session,
        shared: &mut Shared,
    ) -> bool {
        let text = |there: Option<String>, kept: &Option<String>| there.or_else(|| kept.clone());
        let strings = kept.strings.map(|set| set.to_string());
        let view = match (kept.view.as_deref(), &strings) {
            (Some("set"), Some(set)) => Some(format!("set {set}")),
            (view, _) => view.map(str::to_owned),
        };
        let session = Session {
            chord: text(screen.chord, &kept.chord),
            scale: text(screen.scale, &kept.scale),
            pair: text(screen.pair, &kept.pair),
            view: text(screen.view, &view),
            strings: text(screen.strings, &strings),
            tuning: None,
            capo: None,
            ..screen
        };
        let symbol = session.chord.clone().unwrap_or_else(|| Explore::FIRST_CHORD.to_owned());
        let opened = TypedChord::read(&symbol).ok().and_then(|it| Explore::open(it, shared).ok());
        let Some(explore) = opened else { return false };
        *self = explore;
        self.take_up(&session, shared);
        self.take_scale_of(kept, &session, shared);
        true
    }

    /// Takes the scale by its notes, where its name is not the name of one that fits now.
    fn take_scale_of(&mut self, kept: &Kept, session: &Session, shared: &mut Shared) {
        let scale = kept.scale_notes.as_ref().and_then(|notes| notes.parse::<Scale>().ok());
        let Some(notes) = scale.map(|scale| scale.set()) else { return };
        let has_them = |choice: &ScaleChoice| choice.scale().set() == notes;
        let here = self.shown.scales.get(self.chosen.scale);
        if here.is_some_and(has_them) {
            return;
        }
        if let Some(scale) = self.shown.scales.iter().position(has_them) {
            self.take_scale(scale, shared);
            if let Some(pair) = &session.pair {
                self.choose_pair(|name| format!("{name:#}") == *pair, shared);
            }
            self.take_up_hand(session, shared);
        }
    }

    fn take_up_music(&mut self, session: &Session, shared: &Shared) {
        let families = session.families.as_deref().and_then(|text| text.parse::<Families>().ok());
        let turn = families.and_then(|found| {
            Families::usual().iter().position(|(families, _)| *families == found)
        });
        self.chosen.families = turn.unwrap_or(self.chosen.families);
        let wishes = session.wishes.as_deref().and_then(|text| Wishes::read_line(text).ok());
        self.chosen.wishes = wishes.unwrap_or_default();
        if let Some(symbol) = &session.chord
            && let Ok(chord) = TypedChord::read(symbol)
        {
            self.take_chord(chord, shared);
        }
        let named = |choice: &ScaleChoice| Some(format!("{:#}", choice.scale())) == session.scale;
        let scale = self.shown.scales.iter().position(named);
        self.take_scale(scale.unwrap_or(self.chosen.scale), shared);
        if let Some(pair) = &session.pair {
            self.choose_pair(|name| format!("{name:#}") == *pair, shared);
        }
    }

    fn take_up_instrument(&mut self, session: &Session, shared: &mut Shared) {
        let found = session.tuning.as_deref();
        let found = found.and_then(|text| find_tuning(&shared.library.tunings, text).ok());
        if let Some(found) = found {
            self.take_tuning(found.tuning, shared);
        }
        let fret = session.capo.map(|fret| fret.to_string());
        let capo = fret.and_then(|fret| Capo::read(&fret, session.capo_strings.as_deref()).ok());
        // A capo that does not go on this instrument is left off.
        if let Some(capo) = capo
            && self.put_capo(capo, shared).is_err()
        {
            shared.setup.capo_strings = None;
        }
    }

    fn take_up_hand(&mut self, session: &Session, shared: &Shared) {
        let same = |set: &StringSet| Some(set.to_string()) == session.strings;
        self.chosen.set = self.shown.sets.iter().position(same).unwrap_or(self.chosen.set);
        let count = shared.neck().tuning().string_count();
        let view = session.view.as_deref().and_then(|words| NeckView::read(words, count));
        self.chosen.view = view.unwrap_or(self.chosen.view);
        self.lay_out(shared);
        let index = |value: Option<u32>| value.and_then(|value| usize::try_from(value).ok());
        let rung =
            index(session.rung).and_then(|rung| self.shown.ladder.rungs().get(rung)).copied();
        if let Some(rung) = rung {
            let (place, fingers) = (index(session.place), index(session.fingers));
            let (place, fingers) = (place.unwrap_or_default(), fingers.unwrap_or_default());
            self.take_up_chain(session, &rung.shape, shared);
            self.hold_again(&rung.shape, Held { place, fingers }, shared);
        }
        self.chosen.first_fret = session.first_fret.unwrap_or(self.chosen.first_fret).max(1);
        // An order stands only in a view that has one.
        if self.chosen.labels == Labels::Order && self.shown.view.is_none() {
            self.chosen.labels = Labels::default();
        }
    }

    /// Takes up the chain that was in view: over the shape that it was opened on, or over that in
    /// hand.
    fn take_up_chain(&mut self, session: &Session, in_hand: &Shape, shared: &Shared) {
        let NeckView::Across(_) = self.chosen.view else { return };
        let way = session.view.as_deref().and_then(|words| NeckView::read(words, 0));
        let of_chain = |rung: &&Rung| Some(places_in_words(&rung.shape)) == session.chain;
        let opened = self.shown.everywhere.rungs().iter().find(of_chain).map(|rung| rung.shape);
        self.chosen.view = NeckView::Across(Across {
            through: Some(opened.unwrap_or(*in_hand).places()),
            way: way.map_or(0, NeckView::way),
        });
        self.let_go(shared);
        self.chosen.view = self.view_shown();
    }
}

/// `5-4-3 on 4-3-2`: frets and strings of a shape.
fn places_in_words(shape: &Shape) -> String {
    format!("{} on {}", dashed(shape.frets()), shape.string_set())
}
