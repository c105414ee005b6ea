//! The view of the neck that is chosen, and what it shows.

use fretloom_fretboard::{
    ChainQuery, FretRange, Hand, HandPosition, Neck, Place, PositionView, SetView, StringSet,
    TwoAStringQuery, View,
};

use crate::answer::{AskedView, NamedHidden, NeckAnswer, PairAnswer, TuningAnswer, ViewQuestion};

/// All of the neck, or a view of it with its choice.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum NeckView {
    /// Every place of the pair.
    Whole,
    /// What lies under the hand.
    Position(HandPosition),
    /// What lies on some strings.
    Set(StringSet),
    /// A chain across the strings.
    Across(Across),
    /// Two notes on each of the strings in use; from which of the starting notes, from 0.
    Two(usize),
}

/// Which chain across the strings.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(super) struct Across {
    /// The shape that it goes over; none, if any chain will do.
    pub(super) through: Option<[Place; 3]>,
    /// Which of the chains over it, from 0.
    pub(super) way: usize,
}

impl NeckView {
    /// As the session has it: `neck`, `position V`, `set 3-2`, `across 2`, `two 1`.
    pub(super) fn words(self) -> String {
        match self {
            NeckView::Whole => "neck".to_owned(),
            NeckView::Position(position) => format!("position {position}"),
            NeckView::Set(set) => format!("set {set}"),
            NeckView::Across(chain) => format!("across {}", chain.way + 1),
            NeckView::Two(start) => format!("two {}", start + 1),
        }
    }

    /// Is it the same view, perhaps with another choice?
    pub(super) fn is_like(self, other: NeckView) -> bool {
        std::mem::discriminant(&self) == std::mem::discriminant(&other)
    }

    /// Are its choices found by a search: chains, or runs of two notes a string?
    pub(super) fn has_ways(self) -> bool {
        match self {
            NeckView::Across(_) | NeckView::Two(_) => true,
            NeckView::Whole | NeckView::Position(_) | NeckView::Set(_) => false,
        }
    }

    /// Is it one of the ways that were found together with another one?
    pub(super) fn is_found_with(self, other: NeckView) -> bool {
        self.has_ways() && self.in_way(0) == other.in_way(0)
    }

    /// The same view in the way with this number, from 0, if it has several ways.
    pub(super) fn in_way(self, way: usize) -> NeckView {
        match self {
            NeckView::Across(chain) => NeckView::Across(Across { way, ..chain }),
            NeckView::Two(_) => NeckView::Two(way),
            NeckView::Whole | NeckView::Position(_) | NeckView::Set(_) => self,
        }
    }

    /// Which of its ways is chosen, from 0.
    pub(super) fn way(self) -> usize {
        match self {
            NeckView::Across(Across { way, .. }) | NeckView::Two(way) => way,
            NeckView::Whole | NeckView::Position(_) | NeckView::Set(_) => 0,
        }
    }

    /// Are shapes held in it? Two notes a string are a run of single notes.
    pub(super) fn holds_shapes(self) -> bool {
        match self {
            NeckView::Whole | NeckView::Position(_) | NeckView::Across(_) => true,
            NeckView::Set(set) => set.three().is_some(),
            NeckView::Two(_) => false,
        }
    }

    /// Where the hand stands in it, if that is settled.
    pub(super) fn position(self) -> Option<HandPosition> {
        match self {
            NeckView::Position(position) => Some(position),
            NeckView::Whole | NeckView::Set(_) | NeckView::Across(_) | NeckView::Two(_) => None,
        }
    }

    /// The same view, or the nearest to it that a neck has: a position on the neck, and the strings
    /// in use instead of strings that are not there.
    pub(super) fn on(self, neck: &Neck, strings: Option<StringSet>) -> NeckView {
        match self {
            NeckView::Position(position) => {
                let last = HandPosition::new(neck.tuning().last_fret().number());
                let lowest = HandPosition::lowest_on(neck);
                NeckView::Position(position.min(last.unwrap_or(lowest)).max(lowest))
            }
            NeckView::Set(set) if !set.is_on(neck.tuning().string_count()) => {
                strings.map_or(NeckView::Whole, NeckView::Set)
            }
            NeckView::Whole | NeckView::Set(_) | NeckView::Across(_) | NeckView::Two(_) => self,
        }
    }

    /// Reads what a session has; none where that means nothing on so many strings.
    pub(super) fn read(words: &str, strings: usize) -> Option<NeckView> {
        let (view, choice) = words.split_once(' ').unwrap_or((words, ""));
        let index = || choice.parse::<usize>().ok()?.checked_sub(1);
        match view {
            "neck" => Some(NeckView::Whole),
            "position" => choice.parse().ok().map(NeckView::Position),
            "set" => {
                choice.parse().ok().filter(|set: &StringSet| set.is_on(strings)).map(NeckView::Set)
            }
            "across" => index().map(|way| NeckView::Across(Across { through: None, way })),
            "two" => index().map(NeckView::Two),
            _ => None,
        }
    }
}

/// What a view can be taken of: a pair on a neck, with the strings that are in use there.
#[derive(Clone, Copy)]
pub(super) struct PairOnNeck<'a> {
    pub(super) neck: &'a Neck,
    pub(super) tuning: &'a TuningAnswer,
    pub(super) pair: &'a PairAnswer,
    pub(super) strings: Option<StringSet>,
    /// The frets that are wanted.
    pub(super) frets: FretRange,
}

/// A view of the pair as it was answered.
pub(super) struct ShownView {
    asked: AskedView,
    pub(super) answer: NeckAnswer,
    /// Its name and its choice, for the line above the neck.
    pub(super) title: String,
    /// Where the hand goes, what the view hides, and what its signs mean.
    pub(super) told: String,
}

impl ShownView {
    /// What a view shows to this hand, in the way that is chosen or in the last one there is; none
    /// for the whole neck, and where the neck lacks the strings or the position. Where no chain goes
    /// over the wanted shape, any will do.
    pub(super) fn of(view: NeckView, of: PairOnNeck<'_>, hand: Hand) -> Option<ShownView> {
        let asked = question(view, of, hand)?.ask(of.neck, of.pair).ok()?;
        if asked.choices() == 0
            && let NeckView::Across(Across { through: Some(_), way }) = view
        {
            return ShownView::of(NeckView::Across(Across { through: None, way }), of, hand);
        }
        Some(ShownView::answered(view, of, asked))
    }

    /// The same view in another of its ways, which were found before.
    pub(super) fn taken(self, view: NeckView, of: PairOnNeck<'_>) -> ShownView {
        ShownView::answered(view, of, self.asked)
    }

    fn answered(view: NeckView, of: PairOnNeck<'_>, asked: AskedView) -> ShownView {
        let asked = if view.has_ways() { asked.taken(view.way() + 1) } else { asked };
        let answer = NeckAnswer::in_view(of.neck, of.tuning.clone(), of.pair, &asked);
        let title = title(view, of.strings, &asked);
        let told = told(&answer, &asked.positions());
        ShownView { asked, answer, title, told }
    }

    /// How many ways there are to choose from.
    pub(super) fn ways(&self) -> usize {
        self.asked.choices()
    }

    /// Which of the ways is shown, from 0.
    pub(super) fn way(&self) -> usize {
        self.asked.choice().saturating_sub(1)
    }

    /// The way whose run begins nearest to a position, from 0; of equals the first.
    pub(super) fn way_near(&self, position: HandPosition) -> usize {
        let away = |way: &usize| {
            let positions = self.asked.clone().taken(way + 1).positions();
            let here = positions.first().map(|there| there.number().abs_diff(position.number()));
            here.unwrap_or(u8::MAX)
        };
        (0..self.ways()).min_by_key(away).unwrap_or_default()
    }
}

/// The question for the first way of the view; none for the whole neck.
fn question(view: NeckView, of: PairOnNeck<'_>, hand: Hand) -> Option<ViewQuestion> {
    let view = match view {
        NeckView::Whole => return None,
        NeckView::Position(position) => View::Position(PositionView::at(position)),
        NeckView::Set(set) => View::Set(SetView::on(set)),
        NeckView::Across(chain) => {
            let query = ChainQuery::default();
            View::Across(chain.through.map_or(query, |places| query.through(places)))
        }
        NeckView::Two(_) => {
            let query = TwoAStringQuery::default();
            View::Two(of.strings.map_or(query, |set| query.on(set)))
        }
    };
    Some(ViewQuestion::new(view, hand, of.frets, 1))
}

fn title(view: NeckView, strings: Option<StringSet>, asked: &AskedView) -> String {
    let of = |way: usize| format!("{} of {}", way + 1, asked.choices());
    match view.in_way(asked.choice().saturating_sub(1)) {
        NeckView::Whole => String::new(),
        NeckView::Position(position) => format!("position {position}"),
        NeckView::Set(set) if set.len() == 1 => format!("string {set} alone"),
        NeckView::Set(set) => format!("strings {set} alone"),
        NeckView::Across(chain) => format!("across, chain {}", of(chain.way)),
        NeckView::Two(start) => {
            let set = strings.map(|set| set.to_string()).unwrap_or_default();
            format!("two a string {set}, {}", of(start))
        }
    }
}

/// Where the hand goes, what the view hides, and what its signs mean.
fn told(answer: &NeckAnswer, positions: &[HandPosition]) -> String {
    let seen = || answer.places.iter().filter_map(|place| place.in_view);
    let stretch = seen().any(|seen| seen.stretched).then(|| "~ a stretch".to_owned());
    let choice = seen()
        .any(|seen| seen.is_choice)
        .then(|| "where a note is there twice, one is enough".to_owned());
    let nothing = answer.places.is_empty().then(|| "nothing fits here".to_owned());
    let hides = answer.view.iter().flat_map(|view| view.hides.iter());
    let hides =
        hides.filter(|hidden| !hidden.is_among(answer.places.iter().map(|place| place.pitch)));
    let (dots, missing): (Vec<&NamedHidden>, _) = hides.partition(|hidden| hidden.is_elsewhere());
    let dots = dots.first().map(|dots| format!("dots: {dots}"));
    let missing = (!missing.is_empty()).then(|| listed(missing));
    let positions: Vec<String> = positions.iter().map(ToString::to_string).collect();
    let hand = (!positions.is_empty()).then(|| format!("position {}", positions.join(" then ")));
    let told: Vec<String> =
        [nothing, hand, stretch, choice, dots, missing].into_iter().flatten().collect();
    told.join(" · ")
}

/// `B3 is out of the box without a stretch; C4 is out of reach from here`
fn listed(missing: Vec<&NamedHidden>) -> String {
    missing.into_iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")
}
