//! The explorer: a chord, its scale, its pairs, and both triads on the neck.
//!
//! [`Explore`] is the whole state: what the player has `chosen`, and what is `shown`, which follows
//! from it. `update.rs` changes it and says what is to be done outside, `view.rs` draws it. What is
//! shown is computed when the choice changes, never while drawing; but a pair of a long list is
//! worked out when it first comes into view.

mod chosen;
mod copying;
mod history;
mod in_hand;
mod lay_out;
mod neck_view;
mod over;
mod picker;
mod session;
mod shown;
mod stays;
mod suggest;
mod update;
mod view;

use fretloom_fretboard::{Capo, Hand, Neck, Rung, Shape, StringSet, Tuning};
use fretloom_theory::{Families, PitchClassSet, ReadChord, Spelling};

use super::command::Keys;
use super::gesture::Spot;
use super::mouse::Mouse;
use super::theme::Theme;
use super::widget::ListLine;
use crate::answer::{self, NamedShape, PairAnswer, PairPlace, PairsAnswer, Refusal, Wishes};
use crate::library::Library;
use crate::picture::{FretWidths, Handed, Labels, Top};
use crate::settings::Settings;
use chosen::{Chosen, Page, TypedChord};
use history::History;
use in_hand::{Held, InHand};

use neck_view::NeckView;
use over::Over;
use shown::{Given, Shown};

/// The chord of the demo: a major seventh with a raised eleventh, whose first pair is two majors.
const FIRST_CHORD: &str = "Gmaj7#11";

/// The state of the explorer.
pub struct Explore {
    keys: Keys,
    theme: Theme,
    ascii: bool,
    library: Library,
    /// The tuning that was typed last, if one was.
    typed: Option<Tuning>,
    /// The hand that climbs the ladder.
    player: Hand,
    chosen: Chosen,
    shown: Shown,
    /// The notes of the pair before that are in this one too, while they are marked.
    stays: PitchClassSet,
    /// What the last key has to tell.
    notice: Option<String>,
    /// The size last told of, so that scrolling can follow the hand.
    columns: u16,
    rows: u16,
    over: Over,
    mouse: Mouse,
    /// The line that the mouse chose last, as it was seen then, and in which list.
    pointed_at: Option<(Spot, ListLine)>,
    /// What was chosen before every change.
    past: History<Chosen>,
    /// The chords that the player has been at.
    pages: History<Page>,
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
        let symbol = symbol.unwrap_or(FIRST_CHORD).trim();
        let read: ReadChord = symbol.parse()?;
        let tuning = answer::find_tuning(&library.tunings, tuning)?.tuning;
        let known = library.tunings.get(tuning.id()).is_some();
        let typed = (!known).then(|| tuning.clone());
        let chosen = first_choice(TypedChord::new(symbol, read), tuning, spelling);
        let player = Hand::default();
        let mut explore = Explore {
            keys: Keys::built_in().0,
            theme: Theme::terminal(),
            ascii: false,
            typed,
            player,
            shown: Shown::of(&chosen, Given { library: &library, hand: player })?,
            library,
            chosen,
            stays: PitchClassSet::EMPTY,
            notice: None,
            columns: 80,
            rows: 24,
            over: Over::Nothing,
            mouse: Mouse::Free,
            pointed_at: None,
            past: History::new(),
            pages: History::new(),
        };
        explore.chosen.set = explore.usual_set();
        explore.lay_out();
        Ok(explore)
    }

    /// Puts a capo on the instrument; it stays there when another tuning is chosen.
    ///
    /// # Errors
    ///
    /// Where the capo lies above the last fret, or on strings that are not there.
    pub fn put_capo(&mut self, capo: Capo) -> Result<(), Refusal> {
        let tuning = self.chosen.tuning.clone();
        self.chosen.tuning = tuning.with_capo(capo).map_err(Refusal::Capo)?;
        self.chosen.capo_strings = capo.strings();
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
        self.chosen.families = families.unwrap_or_default();
        self.chosen.labels = settings.labels;
        self.player = settings.hand;
        self.chosen.handed = if settings.left_handed { Handed::Left } else { Handed::Right };
        self.chosen.top = if settings.upside_down { Top::Last } else { Top::First };
        self.mouse = if settings.mouse { Mouse::Taken } else { Mouse::Free };
        self.chosen.fret_widths = settings.fret_widths;
        self.lay_out();
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
        self.shown.pair(&self.chosen)
    }

    /// The pairs of the scale that is chosen.
    #[must_use]
    pub fn pairs(&self) -> &PairsAnswer {
        &self.shown.pairs
    }

    /// The shape in hand.
    #[must_use]
    pub fn shape(&self) -> Option<NamedShape> {
        let hand = self.shown.hand.as_ref()?;
        Some(self.shape_answer(&Rung { side: hand.side(), shape: hand.shape() }))
    }

    /// The line that the mouse chose last, if it was one of this kind.
    fn seen(&self, spot: Spot) -> Option<ListLine> {
        self.pointed_at.filter(|(there, _)| *there == spot).map(|(_, seen)| seen)
    }

    fn shape_in_hand(&self) -> Option<Shape> {
        self.shown.hand.as_ref().map(InHand::shape)
    }

    /// What the view shows of the pair; none for the whole neck.
    #[must_use]
    pub fn view_places(&self) -> Option<&[PairPlace]> {
        self.shown.view.as_ref().map(|view| view.answer.places.as_slice())
    }

    /// Where the notes of the pair lie.
    #[must_use]
    pub fn places(&self) -> &[PairPlace] {
        &self.shown.places
    }

    /// The neck that is shown.
    #[must_use]
    pub fn neck(&self) -> &Neck {
        &self.shown.neck
    }

    /// What stands in the marks.
    #[must_use]
    pub fn labels(&self) -> Labels {
        self.chosen.labels
    }

    /// The strings that the ladder climbs.
    #[must_use]
    pub fn strings(&self) -> Option<StringSet> {
        self.shown.strings(&self.chosen)
    }

    fn rung_in_hand(&self) -> Option<&Rung> {
        self.shown.ladder.rungs().get(self.chosen.rung?)
    }

    fn shape_answer(&self, rung: &Rung) -> NamedShape {
        let name = self.pair().map(|pair| {
            let first = rung.side == fretloom_fretboard::Side::First;
            if first { pair.first.name } else { pair.second.name }
        });
        let stacked = || {
            let root = self.chosen.chord.read.chord.root();
            fretloom_theory::SpelledTriad::stacked(root, rung.shape.triad().quality())
        };
        NamedShape::new(self.neck(), name.unwrap_or_else(stacked), &rung.shape)
    }

    /// The tunings to choose from: the library's, and the one that was typed.
    fn tunings(&self) -> Vec<&Tuning> {
        let library = self.library.tunings.iter().map(|(tuning, _)| tuning);
        library.chain(&self.typed).collect()
    }

    fn sets(&self) -> Vec<StringSet> {
        self.shown.sets()
    }

    /// 4-3-2 where there is one: triads speak there.
    fn usual_set(&self) -> usize {
        usize::from(self.sets().len() > 1)
    }
}

/// What is chosen at the beginning; which strings, which shape, only the neck can say.
fn first_choice(chord: TypedChord, tuning: Tuning, spelling: Spelling) -> Chosen {
    Chosen {
        chord,
        scale: 0,
        spelling,
        families: 0,
        wishes: Wishes::default(),
        row: 0,
        copy: 0,
        tuning,
        capo_strings: None,
        set: 0,
        locked: false,
        rung: None,
        held: Held::default(),
        view: NeckView::Whole,
        labels: Labels::default(),
        shows_left_out: false,
        handed: Handed::Right,
        top: Top::First,
        fret_widths: FretWidths::Even,
        first_fret: 1,
    }
}
