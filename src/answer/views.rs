//! A view of a pair on a neck: what it shows, how, and what it hides.

use std::fmt;

use fretloom_fretboard::{
    Finger, FretRange, Hand, HandPosition, Hidden, Neck, Rung, SetView, StringSet, TwoAString,
    View, ViewChoices, ViewContents, ViewPlace,
};
use fretloom_theory::{NamedPitch, NoteName, Pitch, TriadPair};

use super::pairs::{NamedPair, PairAnswer};
use super::refusal::Refusal;
use super::shapes::NamedShape;

/// A view that is asked for: checked against the neck when it is answered.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ViewQuestion {
    view: View,
    hand: Hand,
    frets: FretRange,
    choice: usize,
}

impl ViewQuestion {
    /// This view within some frets, for this hand; of several ways the one with this number, from 1.
    #[must_use]
    pub const fn new(view: View, hand: Hand, frets: FretRange, choice: usize) -> ViewQuestion {
        let view = match view {
            View::Across(query) => View::Across(query.within(frets)),
            View::Two(query) => View::Two(query.within(frets)),
            other => other,
        };
        ViewQuestion { view, hand, frets, choice }
    }

    /// The same view within other frets.
    #[must_use]
    pub const fn within(self, frets: FretRange) -> ViewQuestion {
        ViewQuestion::new(self.view, self.hand, frets, self.choice)
    }

    /// The view of this pair on this neck, with every way to take it.
    ///
    /// # Errors
    ///
    /// Where the view names strings or a position that the neck does not have, or a way that is not
    /// there.
    pub fn ask(self, neck: &Neck, pair: &PairAnswer) -> Result<AskedView, Refusal> {
        self.check(neck)?;
        let found = self.view.choices(neck, pair.pair(), self.hand);
        let (number, count) = (self.choice, found.count());
        if count > 0 && !(1..=count).contains(&number) {
            return Err(Refusal::NoSuchChoice { number, count });
        }
        Ok(AskedView { question: self, found })
    }

    /// The view.
    #[must_use]
    pub const fn view(&self) -> &View {
        &self.view
    }

    /// Where the view shows the notes of a pair, within the frets that are wanted.
    pub(super) fn places(&self, neck: &Neck, pair: TriadPair) -> Result<Vec<ViewPlace>, Refusal> {
        self.check(neck)?;
        let found = self.view.choices(neck, pair, self.hand);
        let (number, count) = (self.choice, found.count());
        if count > 0 && !(1..=count).contains(&number) {
            return Err(Refusal::NoSuchChoice { number, count });
        }
        let contents = found.contents(neck, number.saturating_sub(1));
        let wanted = |at: &&ViewPlace| self.frets.contains(neck.fret_number(at.place));
        Ok(contents.places().iter().filter(wanted).copied().collect())
    }

    fn check(&self, neck: &Neck) -> Result<(), Refusal> {
        match &self.view {
            View::Position(view) => Refusal::unless_reached(neck, view.position()),
            View::Set(view) => Refusal::unless_on(neck, view.set()),
            View::Two(query) => query.set().map_or(Ok(()), |set| unless_three(neck, set)),
            View::Across(_) => Ok(()),
        }
    }
}

/// A view of a pair on a neck. What is searched for is found already.
#[derive(Clone, PartialEq, Debug)]
pub struct AskedView {
    question: ViewQuestion,
    found: ViewChoices,
}

impl AskedView {
    /// The same view taken another way: the one with this number, from 1, or the last.
    #[must_use]
    pub fn taken(self, number: usize) -> AskedView {
        let choice = number.min(self.choices()).max(1);
        AskedView { question: ViewQuestion { choice, ..self.question }, ..self }
    }

    /// The view.
    #[must_use]
    pub const fn view(&self) -> &View {
        &self.question.view
    }

    /// How many ways there are to choose from; 1 where the view has only one.
    #[must_use]
    pub const fn choices(&self) -> usize {
        self.found.count()
    }

    /// Which of the ways it is, from 1.
    #[must_use]
    pub const fn choice(&self) -> usize {
        self.question.choice
    }

    /// The frets that are wanted.
    #[must_use]
    pub const fn frets(&self) -> FretRange {
        self.question.frets
    }

    /// The shapes of the view in the order of playing: of a chain its links, of a set of three
    /// strings its ladder. The other views show single notes.
    #[must_use]
    pub fn shapes(&self, neck: &Neck, pair: &PairAnswer) -> Vec<NamedShape> {
        let named = |rung: &Rung| NamedShape::of_rung(neck, pair.name(), rung);
        match self.view() {
            View::Position(_) | View::Two(_) => Vec::new(),
            View::Across(_) => {
                let chain = self.found.chain(self.index());
                chain.map_or_else(Vec::new, |chain| chain.rungs().iter().map(named).collect())
            }
            View::Set(view) => {
                let ladder = view.ladder(neck, pair.pair(), self.frets(), self.question.hand);
                ladder.rungs().iter().map(named).collect()
            }
        }
    }

    /// The steps along the strings of a set, as places with frets and millimetres.
    #[must_use]
    pub const fn set(&self) -> Option<SetView> {
        match self.question.view {
            View::Set(view) => Some(view),
            View::Position(_) | View::Across(_) | View::Two(_) => None,
        }
    }

    /// Where the hand stands one after another, for six notes two a string; else empty.
    #[must_use]
    pub fn positions(&self) -> Vec<HandPosition> {
        self.found.run(self.index()).map(TwoAString::positions).unwrap_or_default()
    }

    pub(super) fn contents(&self, neck: &Neck) -> ViewContents {
        self.found.contents(neck, self.index())
    }

    const fn index(&self) -> usize {
        self.question.choice.saturating_sub(1)
    }
}

/// Two a string needs three strings side by side.
fn unless_three(neck: &Neck, set: StringSet) -> Result<(), Refusal> {
    Refusal::unless_on(neck, set)?;
    Refusal::unless_side_by_side(set)?;
    Refusal::unless_three(set)
}

/// Which view an answer shows, and what that hides.
#[derive(Clone, PartialEq, Debug)]
pub struct ViewAnswer {
    /// The view.
    pub view: View,
    /// What it does not show.
    pub hides: Vec<NamedHidden>,
}

impl ViewAnswer {
    /// `others` places of the pair are not shown.
    pub(super) fn new(view: View, pair: NamedPair, hides: &[Hidden], others: usize) -> ViewAnswer {
        let counted = (others > 0).then_some(Hidden::Places(others));
        let lost = hides.iter().copied().filter(|hidden| !matches!(hidden, Hidden::Places(_)));
        let named = |hidden| NamedHidden { hidden, pair };
        ViewAnswer { view, hides: lost.chain(counted).map(named).collect() }
    }
}

/// Something that a view hides, in words, with its pitches spelled as the pair is; prints with signs
/// (`{}`) or in ASCII (`{:#}`).
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct NamedHidden {
    hidden: Hidden,
    pair: NamedPair,
}

impl NamedHidden {
    /// Is it a pitch that is among the shown ones all the same, as a stretch?
    #[must_use]
    pub fn is_among(&self, shown: impl IntoIterator<Item = Pitch>) -> bool {
        let pitch = self.hidden.pitch();
        pitch.is_some_and(|pitch| shown.into_iter().any(|shown| shown == pitch))
    }

    /// Is it what the pair has elsewhere on the neck, rather than a pitch that is missing here?
    #[must_use]
    pub const fn is_elsewhere(&self) -> bool {
        self.hidden.pitch().is_none()
    }

    /// The pitch as the pair spells its note.
    fn spelled(&self, pitch: Pitch) -> Option<NamedPitch> {
        let is_it = |name: &NoteName| name.pitch_class() == pitch.pitch_class();
        let mut names = self.pair.names().into_iter().flat_map(|triad| triad.notes());
        let name = names.find(is_it)?;
        let mut octaves = (-2..=10).filter_map(|octave| NamedPitch::new(name, octave));
        octaves.find(|named| named.pitch() == pitch)
    }
}

impl fmt::Display for NamedHidden {
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
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct InView {
    /// Which finger; `None` where the view gives no fingers.
    pub finger: Option<Finger>,
    /// Does the finger leave its fret for it?
    pub stretched: bool,
    /// When it is played, from 1.
    pub order: usize,
    /// Is there another stretch for the same pitch, so that the player chooses?
    pub is_choice: bool,
}

impl InView {
    pub(super) fn new(place: &ViewPlace) -> InView {
        let ViewPlace { finger, stretched, order, is_choice, .. } = *place;
        InView { finger, stretched, order, is_choice }
    }
}
