//! The explorer: a chord, its scale, its pairs, and both triads on the neck.
//!
//! [`Explore`] is the whole state; `update.rs` changes it and says what is to be done outside,
//! `view.rs` draws it. What is shown is computed when the state changes, never while drawing;
//! but a pair of a long list is worked out when it first comes into view.

mod choices;
mod copying;
mod field;
mod finder;
mod history;
mod in_hand;
mod lay_out;
mod lines;
mod look;
mod over;
mod picker;
mod session;
mod stays;
mod suggest;
mod update;
mod view;

use fretloom_fretboard::{Capo, Hand, Ladder, Neck, Rung, Shape, StringSet, Tuning};
use fretloom_theory::{PitchClassSet, ReadChord, ScaleChoice, Spelling};

use super::command::Keys;
use super::gesture::Spot;
use super::mouse::Mouse;
use super::theme::Theme;
use crate::answer::{
    self, Families, Harmony, LeftOutPlace, PairAnswer, PairsAnswer, PlaceAnswer, Refusal,
    ShapeAnswer, TuningAnswer, Wishes,
};
use crate::library::Library;
use crate::picture::{FretWidths, Labels};
use crate::settings::Settings;
use choices::{Choices, Page};
use history::History;
use in_hand::InHand;
use lay_out::empty_ladder;
use lines::Seen;
use look::{Look, Looked};
use over::Over;

/// The chord of the demo: a major seventh with a raised eleventh, whose first pair is two majors.
const FIRST_CHORD: &str = "Gmaj7#11";

/// The state of the explorer.
pub struct Explore {
    keys: Keys,
    theme: Theme,
    ascii: bool,
    library: Library,
    /// The tuning that was typed at the start, if one was.
    typed: Option<Tuning>,
    /// The chord as it was typed and read.
    symbol: String,
    read: ReadChord,
    /// The scales that fit it.
    choices: Vec<ScaleChoice>,
    scale: usize,
    spelling: Spelling,
    labels: Labels,
    /// The hand that climbs the ladder.
    player: Hand,
    /// Which of [`Families::in_turn`] are paired.
    families: usize,
    wishes: Wishes,
    pairs: PairsAnswer,
    /// Which row of the list: one fold of the pairs.
    row: usize,
    /// Which copy within the fold, 0 for its first pair.
    copy: usize,
    instrument: Instrument,
    /// Which set of three neighbouring strings the ladder climbs.
    set: usize,
    locked: bool,
    ladder: Ladder,
    /// Every close shape of the pair, on all strings; of both ladders only the hand's has fingers.
    everywhere: Ladder,
    rung: usize,
    /// The shape of that rung as it is held; none where there is no rung.
    hand: Option<InHand>,
    places: Vec<PlaceAnswer>,
    look: Look,
    /// What the view shows; none for the whole neck.
    looked: Option<Looked>,
    /// The strings of the player's partial capo, kept while it is off; none for a full one.
    clamp: Option<StringSet>,
    handed: Handed,
    top: Top,
    fret_widths: FretWidths,
    /// Are the notes that the pair leaves out drawn?
    shows_left_out: bool,
    left_out: Vec<LeftOutPlace>,
    /// The notes of the pair before that are in this one too, while they are marked.
    stays: PitchClassSet,
    /// What the last key has to tell.
    notice: Option<String>,
    first_fret: u8,
    /// The size last told of, so that scrolling can follow the hand.
    columns: u16,
    rows: u16,
    over: Over,
    mouse: Mouse,
    /// The line that the mouse chose last, as it was seen then, and in which list.
    pointed_at: Option<(Spot, Seen)>,
    /// What was chosen before every change.
    past: History<Choices>,
    /// The chords that the player has been at.
    pages: History<Page>,
}

/// A tuning with its neck.
struct Instrument {
    neck: Neck,
    tuning: TuningAnswer,
}

/// Which hand frets.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Handed {
    Right,
    Left,
}

/// Which string is drawn on top.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Top {
    /// String 1, nearest the floor.
    First,
    /// The last one, as the neck looks from above.
    Last,
}

impl Explore {
    /// The explorer on a chord (its own, where none is given) and a tuning.
    ///
    /// # Errors
    ///
    /// Where the chord or the tuning cannot be read.
    pub fn open(
        symbol: Option<&str>,
        tuning: &str,
        library: Library,
        spelling: Spelling,
    ) -> Result<Explore, Refusal> {
        let symbol = symbol.unwrap_or(FIRST_CHORD).trim().to_owned();
        let read: ReadChord = symbol.parse()?;
        let (found, answer) = answer::find_tuning(&library.tunings, tuning)?;
        let instrument = Instrument { neck: Neck::new(found), tuning: answer };
        let choices = ScaleChoice::for_chord_with(&read.chord, library.scales.kinds());
        let harmony = match choices.first() {
            Some(choice) => Harmony::with_choice(&symbol, read.clone(), choice),
            // The chromatic scale fits every chord, so there is always a first choice.
            None => Harmony::of_chord(&symbol)?,
        };
        let (families, wishes) = (Families::default(), Wishes::default());
        let pairs = answer::pairs_over(&harmony, &families, &wishes, spelling);
        let known = library.tunings.get(instrument.neck.tuning().id()).is_some();
        let typed = (!known).then(|| instrument.neck.tuning().clone());
        let mut explore = Explore {
            keys: Keys::built_in().0,
            theme: Theme::terminal(),
            ascii: false,
            choices,
            library,
            typed,
            symbol,
            read,
            scale: 0,
            spelling,
            labels: Labels::default(),
            player: Hand::default(),
            families: 0,
            wishes,
            pairs,
            row: 0,
            copy: 0,
            ladder: empty_ladder(&instrument.neck),
            everywhere: empty_ladder(&instrument.neck),
            instrument,
            set: 0,
            locked: false,
            rung: 0,
            hand: None,
            places: Vec::new(),
            look: Look::Whole,
            looked: None,
            clamp: None,
            handed: Handed::Right,
            top: Top::First,
            fret_widths: FretWidths::Even,
            shows_left_out: false,
            left_out: Vec::new(),
            stays: PitchClassSet::EMPTY,
            notice: None,
            first_fret: 1,
            columns: 80,
            rows: 24,
            over: Over::Nothing,
            mouse: Mouse::Free,
            pointed_at: None,
            past: History::new(),
            pages: History::new(),
        };
        explore.set = explore.usual_set();
        explore.lay_out();
        Ok(explore)
    }

    /// Puts a capo on the instrument; it stays there when another tuning is chosen.
    ///
    /// # Errors
    ///
    /// Where the capo lies above the last fret, or on strings that are not there.
    pub fn put_capo(&mut self, capo: Capo) -> Result<(), Refusal> {
        let tuning = self.neck().tuning().clone();
        let (tuning, answer) = answer::put_capo(&self.library.tunings, tuning, capo)?;
        self.instrument = Instrument { neck: Neck::new(tuning), tuning: answer };
        self.clamp = capo.strings();
        self.lay_out();
        Ok(())
    }

    /// Draws b and # instead of signs.
    pub fn use_ascii(&mut self) {
        self.ascii = true;
    }

    /// Begins as the player has settled it. Tuning and spelling come with
    /// [`open`](Self::open), since an option may differ from them.
    pub fn use_settings(&mut self, settings: &Settings) {
        let mut turns = Families::in_turn().into_iter();
        let families = turns.position(|(families, _)| families == settings.families);
        self.families = families.unwrap_or_default();
        self.labels = settings.labels;
        self.player = settings.hand;
        self.handed = if settings.left_handed { Handed::Left } else { Handed::Right };
        self.top = if settings.upside_down { Top::Last } else { Top::First };
        self.mouse = if settings.mouse { Mouse::Taken } else { Mouse::Free };
        self.fret_widths = settings.fret_widths;
        self.ask_pairs();
    }

    /// Tells something, until the next key.
    pub fn tell(&mut self, notice: String) {
        self.notice = Some(notice);
    }

    /// Listens to these keys.
    pub fn use_keys(&mut self, keys: Keys) {
        self.keys = keys;
    }

    /// Draws with this theme.
    pub fn use_theme(&mut self, theme: Theme) {
        self.theme = theme;
    }

    /// The pair that is chosen; none where the scale holds none.
    #[must_use]
    pub fn pair(&self) -> Option<&PairAnswer> {
        self.pairs.pairs.get(self.index()?)
    }

    /// The place of the chosen pair in the whole list.
    fn index(&self) -> Option<usize> {
        let fold = self.pairs.folds.get(self.row)?;
        match self.copy.checked_sub(1) {
            None => Some(fold.first),
            Some(copy) => fold.copies.get(copy).map(|(index, _)| *index),
        }
    }

    /// The pairs of the scale that is chosen.
    #[must_use]
    pub fn pairs(&self) -> &PairsAnswer {
        &self.pairs
    }

    /// The shape in hand.
    #[must_use]
    pub fn shape(&self) -> Option<ShapeAnswer> {
        let hand = self.hand.as_ref()?;
        Some(self.shape_answer(&Rung { side: hand.side(), shape: hand.shape()? }))
    }

    /// The line that the mouse chose last, if it was one of this kind.
    fn seen(&self, spot: Spot) -> Option<Seen> {
        self.pointed_at.filter(|(there, _)| *there == spot).map(|(_, seen)| seen)
    }

    fn shape_in_hand(&self) -> Option<Shape> {
        self.hand.as_ref().and_then(InHand::shape)
    }

    /// What the view shows of the pair; none for the whole neck.
    #[must_use]
    pub fn view_places(&self) -> Option<&[PlaceAnswer]> {
        self.looked.as_ref().map(|looked| looked.answer.places.as_slice())
    }

    /// Where the notes of the pair lie.
    #[must_use]
    pub fn places(&self) -> &[PlaceAnswer] {
        &self.places
    }

    /// The neck that is shown.
    #[must_use]
    pub fn neck(&self) -> &Neck {
        &self.instrument.neck
    }

    /// What stands in the marks.
    #[must_use]
    pub fn labels(&self) -> Labels {
        self.labels
    }

    /// The strings that the ladder climbs.
    #[must_use]
    pub fn strings(&self) -> Option<StringSet> {
        self.sets().get(self.set).copied()
    }

    fn rung_in_hand(&self) -> Option<&Rung> {
        self.ladder.rungs().get(self.rung)
    }

    fn shape_answer(&self, rung: &Rung) -> ShapeAnswer {
        let name = self.pair().map(|pair| {
            let first = rung.side == fretloom_fretboard::Side::First;
            if first { pair.first.name } else { pair.second.name }
        });
        let stacked = || {
            let root = self.read.chord.root();
            fretloom_theory::SpelledTriad::stacked(root, rung.shape.triad().quality())
        };
        ShapeAnswer::new(self.neck(), name.unwrap_or_else(stacked), &rung.shape)
    }

    /// The tunings to choose from: the library's, and the one that was typed.
    fn tunings(&self) -> Vec<&Tuning> {
        let library = self.library.tunings.iter().map(|(tuning, _)| tuning);
        library.chain(&self.typed).collect()
    }

    fn sets(&self) -> Vec<StringSet> {
        StringSet::neighbours(self.instrument.neck.tuning().string_count(), 3).collect()
    }

    /// 4-3-2 where there is one: triads speak there.
    fn usual_set(&self) -> usize {
        usize::from(self.sets().len() > 1)
    }

    /// Which triads take part, and what that is called.
    fn families(&self) -> (Families, &'static str) {
        let [tertian, sus, flat_five, all] = Families::in_turn();
        match self.families {
            0 => tertian,
            1 => sus,
            2 => flat_five,
            _ => all,
        }
    }
}
