//! A view of a pair on a neck: what it shows, how, and what it hides.

use std::fmt;

use fretloom_fretboard::{
    FretRange, Hand, HandPosition, Hidden, Neck, Seen, SetView, TwoAString, View, ViewPlace,
    ViewWays,
};
use fretloom_theory::{NamedPitch, Pitch, Triad};

use super::{NamedShape, PairAnswer, Refusal};

/// A view that is asked for: checked against the neck when it is answered.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ViewWish {
    view: View,
    hand: Hand,
    frets: FretRange,
    choice: usize,
}

impl ViewWish {
    /// This view within some frets, for this hand; of several ways the one with this number, from 1.
    #[must_use]
    pub const fn new(view: View, hand: Hand, frets: FretRange, choice: usize) -> ViewWish {
        let view = match view {
            View::Across(query) => View::Across(query.within(frets)),
            View::Two(query) => View::Two(query.within(frets)),
            other => other,
        };
        ViewWish { view, hand, frets, choice }
    }

    /// The view of this pair on this neck, with every way to take it.
    ///
    /// # Errors
    ///
    /// Where the view names strings or a position that the neck does not have, or a way that is not
    /// there.
    pub fn ask(self, neck: &Neck, pair: &PairAnswer) -> Result<AskedView, Refusal> {
        self.check(neck)?;
        let ways = self.view.ways(neck, triads(pair), self.hand);
        let (number, count) = (self.choice, ways.count());
        if count > 0 && !(1..=count).contains(&number) {
            return Err(Refusal::NoSuchChoice { number, count });
        }
        Ok(AskedView { wish: self, ways })
    }

    fn check(&self, neck: &Neck) -> Result<(), Refusal> {
        let last = neck.tuning().last_fret();
        match &self.view {
            View::Position(view) if view.position().fret() > last => {
                Err(Refusal::NoSuchPosition { position: view.position(), last })
            }
            View::Position(view) if view.position() < HandPosition::lowest_on(neck) => {
                Err(Refusal::BehindCapo {
                    position: view.position(),
                    capo: neck.begins_at(),
                    lowest: HandPosition::lowest_on(neck),
                })
            }
            View::Set(view) => Refusal::unless_on(neck, view.set()),
            View::Two(query) => query.set().map_or(Ok(()), |set| unless_three(neck, set)),
            View::Position(_) | View::Across(_) => Ok(()),
        }
    }
}

/// A view of a pair on a neck. What is searched for is found already.
#[derive(Clone, PartialEq, Debug)]
pub struct AskedView {
    wish: ViewWish,
    ways: ViewWays,
}

impl AskedView {
    /// The same view taken another way: the one with this number, from 1, or the last.
    #[must_use]
    pub fn taken(self, number: usize) -> AskedView {
        let choice = number.min(self.choices()).max(1);
        AskedView { wish: ViewWish { choice, ..self.wish }, ..self }
    }

    /// The view.
    #[must_use]
    pub const fn view(&self) -> &View {
        &self.wish.view
    }

    /// How many ways there are to choose from; 1 where the view has only one.
    #[must_use]
    pub const fn choices(&self) -> usize {
        self.ways.count()
    }

    /// Which of the ways it is, from 1.
    #[must_use]
    pub const fn choice(&self) -> usize {
        self.wish.choice
    }

    /// The frets that are wanted.
    #[must_use]
    pub const fn frets(&self) -> FretRange {
        self.wish.frets
    }

    /// The shapes of the view in the order of playing: of a chain its links, of a set of three
    /// strings its ladder. The other views show single notes.
    #[must_use]
    pub fn shapes(&self, neck: &Neck, pair: &PairAnswer) -> Vec<NamedShape> {
        let rungs = match self.view() {
            View::Position(_) | View::Two(_) => Vec::new(),
            View::Across(_) => {
                self.ways.chain(self.index()).map(|it| it.rungs().to_vec()).unwrap_or_default()
            }
            View::Set(view) => {
                let ladder = view.ladder(neck, triads(pair), self.frets(), self.wish.hand);
                ladder.rungs().to_vec()
            }
        };
        rungs.iter().map(|rung| NamedShape::of_rung(neck, pair.name(), rung)).collect()
    }

    /// The steps along the strings of a set, as places with frets and millimetres.
    #[must_use]
    pub const fn set(&self) -> Option<SetView> {
        match self.wish.view {
            View::Set(view) => Some(view),
            _ => None,
        }
    }

    /// Where the hand stands one after another, for six notes two a string; else empty.
    #[must_use]
    pub fn positions(&self) -> Vec<String> {
        let run = self.ways.run(self.index());
        let positions = run.map(TwoAString::positions).unwrap_or_default();
        positions.iter().map(ToString::to_string).collect()
    }

    pub(super) fn seen(&self, neck: &Neck) -> Seen {
        self.ways.seen(neck, self.index())
    }

    const fn index(&self) -> usize {
        self.wish.choice.saturating_sub(1)
    }
}

/// Two a string needs three strings side by side.
fn unless_three(neck: &Neck, set: fretloom_fretboard::StringSet) -> Result<(), Refusal> {
    Refusal::unless_on(neck, set)?;
    Refusal::unless_side_by_side(set)?;
    Refusal::unless_three(set)
}

fn triads(pair: &PairAnswer) -> [Triad; 2] {
    [pair.first.name.triad(), pair.second.name.triad()]
}

/// Which view an answer shows, and what that hides.
#[derive(Clone, PartialEq, Debug)]
pub struct ViewAnswer {
    /// The word for the view.
    pub word: &'static str,
    /// What it does not show.
    pub hides: Vec<HiddenAnswer>,
}

impl ViewAnswer {
    /// `others` places of the pair are not shown.
    pub(super) fn new(
        view: &View,
        pair: &PairAnswer,
        hides: &[Hidden],
        others: usize,
    ) -> ViewAnswer {
        let counted = (others > 0).then_some(Hidden::Places(others));
        let lost = hides.iter().copied().filter(|hidden| !matches!(hidden, Hidden::Places(_)));
        let answer = |hidden| HiddenAnswer {
            hidden,
            names: [pair.first.name.notes(), pair.second.name.notes()],
        };
        ViewAnswer { word: view.word(), hides: lost.chain(counted).map(answer).collect() }
    }
}

/// Something that a view hides, with its pitches spelled as the pair is.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct HiddenAnswer {
    hidden: Hidden,
    names: [[fretloom_theory::NoteName; 3]; 2],
}

impl HiddenAnswer {
    /// The pitch as the pair spells its note.
    fn spelled(&self, pitch: Pitch) -> Option<NamedPitch> {
        let names = self.names.iter().flatten();
        let mut named = names.filter(|name| name.pitch_class() == pitch.pitch_class());
        let name = *named.next()?;
        let mut octaves = (-2..=10).filter_map(|octave| NamedPitch::new(name, octave));
        octaves.find(|named| named.pitch() == pitch)
    }
}

impl fmt::Display for HiddenAnswer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let ascii = f.alternate();
        f.write_str(&self.hidden.words(|pitch| match self.spelled(pitch) {
            Some(named) if ascii => format!("{named:#}"),
            Some(named) => named.to_string(),
            None => format!("pitch {}", pitch.midi()),
        }))
    }
}

/// How a view shows a place.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SeenAnswer {
    /// Which finger, 0 for open; none where the view gives no fingers.
    pub finger: Option<u8>,
    /// Does the finger leave its fret for it?
    pub stretched: bool,
    /// When it is played, from 1.
    pub order: usize,
    /// Is there another stretch for the same pitch?
    pub is_choice: bool,
}

impl SeenAnswer {
    pub(super) fn new(place: &ViewPlace) -> SeenAnswer {
        SeenAnswer {
            finger: place.finger.map(|finger| finger.number()),
            stretched: place.stretched,
            order: place.order,
            is_choice: place.is_choice,
        }
    }

    /// When it is played, where the view has an order.
    pub(super) fn turn(&self) -> Option<usize> {
        (self.order > 0).then_some(self.order)
    }
}
