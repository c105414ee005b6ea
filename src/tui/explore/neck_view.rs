//! The view of the neck that is chosen, and what it shows.

use fretloom_fretboard::{
    ChainQuery, FretRange, Hand, HandPosition, Neck, PositionView, SetView, StringSet,
    TwoAStringQuery, View,
};

use crate::answer::{AskedView, NeckAnswer, PairAnswer, TuningAnswer, ViewQuestion};

/// All of the neck, or a view of it with its choice.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum NeckView {
    /// Every place of the pair.
    Whole,
    /// What lies under the hand.
    Position(HandPosition),
    /// What lies on some strings.
    Set(StringSet),
    /// A chain across the strings; which of them, from 0.
    Across(usize),
    /// Two notes on each of the strings in use; from which of the starting notes, from 0.
    Two(usize),
}

impl NeckView {
    /// As the session has it: `neck`, `position V`, `set 3-2`, `across 2`, `two 1`.
    pub(super) fn words(self) -> String {
        match self {
            NeckView::Whole => "neck".to_owned(),
            NeckView::Position(position) => format!("position {position}"),
            NeckView::Set(set) => format!("set {set}"),
            NeckView::Across(chain) => format!("across {}", chain + 1),
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

    /// The same view in the way with this number, from 0, if it has several ways.
    pub(super) fn in_way(self, way: usize) -> NeckView {
        match self {
            NeckView::Across(_) => NeckView::Across(way),
            NeckView::Two(_) => NeckView::Two(way),
            NeckView::Whole | NeckView::Position(_) | NeckView::Set(_) => self,
        }
    }

    /// Which of its ways is chosen, from 0.
    fn way(self) -> usize {
        match self {
            NeckView::Across(way) | NeckView::Two(way) => way,
            NeckView::Whole | NeckView::Position(_) | NeckView::Set(_) => 0,
        }
    }

    /// Can a close shape be seen whole in it?
    pub(super) fn shows_shapes(self) -> bool {
        match self {
            NeckView::Position(_) | NeckView::Across(_) => true,
            NeckView::Set(set) => set.three().is_some(),
            NeckView::Whole | NeckView::Two(_) => false,
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
            "across" => index().map(NeckView::Across),
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
    /// for the whole neck, and where the neck lacks the strings or the position.
    pub(super) fn of(view: NeckView, of: PairOnNeck<'_>, hand: Hand) -> Option<ShownView> {
        let asked = question(view, of.strings, hand)?.ask(of.neck, of.pair).ok()?;
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
}

/// The question for the first way of the view; none for the whole neck.
fn question(view: NeckView, strings: Option<StringSet>, hand: Hand) -> Option<ViewQuestion> {
    let view = match view {
        NeckView::Whole => return None,
        NeckView::Position(position) => View::Position(PositionView::at(position)),
        NeckView::Set(set) => View::Set(SetView::on(set)),
        NeckView::Across(_) => View::Across(ChainQuery::default()),
        NeckView::Two(_) => {
            let query = TwoAStringQuery::default();
            View::Two(strings.map_or(query, |set| query.on(set)))
        }
    };
    Some(ViewQuestion::new(view, hand, FretRange::WHOLE_NECK, 1))
}

fn title(view: NeckView, strings: Option<StringSet>, asked: &AskedView) -> String {
    let of = |way: usize| format!("{} of {}", way + 1, asked.choices());
    match view.in_way(asked.choice().saturating_sub(1)) {
        NeckView::Whole => String::new(),
        NeckView::Position(position) => format!("position {position}"),
        NeckView::Set(set) if set.len() == 1 => format!("string {set} alone"),
        NeckView::Set(set) => format!("strings {set} alone"),
        NeckView::Across(chain) => format!("across, chain {}", of(chain)),
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
    let hides: Vec<String> = answer
        .view
        .iter()
        .flat_map(|view| view.hides.iter().rev())
        .filter(|hidden| !hidden.is_among(answer.places.iter().map(|place| place.pitch)))
        .map(ToString::to_string)
        .collect();
    let hides = (!hides.is_empty()).then(|| format!("hidden: {}", hides.join("; ")));
    let positions: Vec<String> = positions.iter().map(ToString::to_string).collect();
    let hand = (!positions.is_empty()).then(|| format!("position {}", positions.join(" then ")));
    let told: Vec<String> = [nothing, hand, stretch, choice, hides].into_iter().flatten().collect();
    told.join(" · ")
}
