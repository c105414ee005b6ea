//! How the player looks at the neck: all of it, or a view with its choices.

use fretloom_fretboard::{
    ChainQuery, FretRange, HandPosition, PositionView, SetView, StringSet, TwoAStringQuery, View,
};

use super::Explore;
use super::update::wrapped;
use crate::answer::{AskedView, NeckAnswer, ViewWish};
use crate::tui::command::Command;

/// What is looked at.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Look {
    /// Every place of the pair.
    Whole,
    /// What lies under the hand.
    Position(HandPosition),
    /// What lies on some strings.
    Set(StringSet),
    /// A chain across the strings; which of them, from 0.
    Across(usize),
    /// Two a string on the strings in use; from which start, from 0.
    Two(usize),
}

impl Look {
    /// As it is kept: `neck`, `position V`, `set 3-2`, `across 2`, `two 1`.
    pub(super) fn words(self) -> String {
        match self {
            Look::Whole => "neck".to_owned(),
            Look::Position(position) => format!("position {position}"),
            Look::Set(set) => format!("set {set}"),
            Look::Across(chain) => format!("across {}", chain + 1),
            Look::Two(start) => format!("two {}", start + 1),
        }
    }

    /// Can a close shape be seen whole in it?
    pub(super) fn shows_shapes(self) -> bool {
        match self {
            Look::Position(_) | Look::Across(_) => true,
            Look::Set(set) => set.three().is_some(),
            Look::Whole | Look::Two(_) => false,
        }
    }

    /// Reads what was kept; none where it means nothing on that many strings.
    pub(super) fn read(words: &str, strings: usize) -> Option<Look> {
        let (view, choice) = words.split_once(' ').unwrap_or((words, ""));
        let index = || choice.parse::<usize>().ok()?.checked_sub(1);
        match view {
            "neck" => Some(Look::Whole),
            "position" => choice.parse().ok().map(Look::Position),
            "set" => {
                choice.parse().ok().filter(|set: &StringSet| set.is_on(strings)).map(Look::Set)
            }
            "across" => index().map(Look::Across),
            "two" => index().map(Look::Two),
            _ => None,
        }
    }
}

/// A view of the pair as it was answered.
pub(super) struct Looked {
    asked: AskedView,
    pub(super) answer: NeckAnswer,
    /// What is seen, for the rule over the neck.
    pub(super) title: String,
    /// What is not, and what signs mean.
    pub(super) told: String,
}

impl Explore {
    /// The view after this one, or before it; after the last comes the whole neck again.
    pub(super) fn step_view(&mut self, by: isize) {
        let position = self.shape_in_hand().map_or(HandPosition::FIRST, |shape| shape.position());
        let set = self.strings().map(Look::Set);
        let all = [
            Some(Look::Whole),
            Some(Look::Position(position)),
            set,
            Some(Look::Across(0)),
            Some(Look::Two(0)),
        ];
        let all: Vec<Look> = all.into_iter().flatten().collect();
        let same = |look: &Look| std::mem::discriminant(look) == std::mem::discriminant(&self.look);
        let here = all.iter().position(same).unwrap_or_default();
        self.look = all.get(wrapped(here, by, all.len())).copied().unwrap_or(Look::Whole);
        self.ask_view();
        self.follow_hand();
    }

    /// The next choice of the view, or the one before.
    pub(super) fn step_choice(&mut self, by: isize) {
        let asked = self.looked.as_ref().map(|looked| looked.asked.clone());
        let count = asked.as_ref().map_or(0, AskedView::choices);
        self.look = match self.look {
            Look::Whole => {
                let key = self.key_of(Command::NextView);
                self.notice = Some(format!("the whole neck has no choices: {key} takes a view"));
                Look::Whole
            }
            Look::Position(position) => {
                let last = usize::from(self.neck().tuning().last_fret().number());
                let at = wrapped(usize::from(position.number()).saturating_sub(1), by, last) + 1;
                let at = u8::try_from(at).ok().and_then(HandPosition::new);
                Look::Position(at.unwrap_or(HandPosition::FIRST))
            }
            Look::Set(set) => {
                let sets = self.sets_to_look_at();
                let at = sets.iter().position(|one| *one == set).unwrap_or_default();
                Look::Set(sets.get(wrapped(at, by, sets.len())).copied().unwrap_or(set))
            }
            Look::Across(chain) => Look::Across(wrapped(chain, by, count)),
            Look::Two(start) => Look::Two(wrapped(start, by, count)),
        };
        match (self.look, asked) {
            // Only the choice has changed: what there is to choose from was found before.
            (Look::Across(_) | Look::Two(_), Some(asked)) => self.look_at(Some(asked)),
            _ => self.ask_view(),
        }
        self.follow_hand();
    }

    /// Asks again what the view shows: the pair, the neck or the view has changed.
    pub(super) fn ask_view(&mut self) {
        let asked = self.wish().zip(self.pair());
        self.look_at(asked.and_then(|(wish, pair)| wish.ask(self.neck(), pair).ok()));
    }

    /// Looks at a view the way that is chosen, or at the last one there is.
    fn look_at(&mut self, asked: Option<AskedView>) {
        let asked = asked.map(|asked| match &mut self.look {
            Look::Across(choice) | Look::Two(choice) => {
                *choice = (*choice).min(asked.choices().saturating_sub(1));
                asked.taken(*choice + 1)
            }
            _ => asked,
        });
        self.looked = asked.and_then(|asked| self.looked_at(asked));
    }

    fn looked_at(&self, asked: AskedView) -> Option<Looked> {
        let tuning = self.instrument.tuning.clone();
        let answer = NeckAnswer::seen(self.neck(), tuning, self.pair()?, &asked);
        let (title, told) = (self.title(&asked), told(&answer, &asked.positions()));
        Some(Looked { asked, answer, title, told })
    }

    /// The view as it is asked for, with the first of its ways; none for the whole neck.
    fn wish(&self) -> Option<ViewWish> {
        let view = match self.look {
            Look::Whole => return None,
            Look::Position(position) => View::Position(PositionView::at(position)),
            Look::Set(set) => View::Set(SetView::on(set)),
            Look::Across(_) => View::Across(ChainQuery::default()),
            Look::Two(_) => {
                let query = TwoAStringQuery::default();
                View::Two(self.strings().map_or(query, |set| query.on(set)))
            }
        };
        Some(ViewWish::new(view, self.player, FretRange::WHOLE_NECK, 1))
    }

    /// Three, two and single strings, from the floor up.
    fn sets_to_look_at(&self) -> Vec<StringSet> {
        let count = self.neck().tuning().string_count();
        [3, 2, 1].into_iter().flat_map(|size| StringSet::neighbours(count, size)).collect()
    }

    fn title(&self, asked: &AskedView) -> String {
        let of = |choice: usize| format!("{} of {}", choice + 1, asked.choices());
        match self.look {
            Look::Whole => String::new(),
            Look::Position(position) => format!("position {position}"),
            Look::Set(set) if set.len() == 1 => format!("string {set} alone"),
            Look::Set(set) => format!("strings {set} alone"),
            Look::Across(chain) => format!("across, chain {}", of(chain)),
            Look::Two(start) => {
                let set = self.strings().map(|set| set.to_string()).unwrap_or_default();
                format!("two a string {set}, {}", of(start))
            }
        }
    }
}

/// Where the hand goes, what the view hides, and what its signs mean.
fn told(answer: &NeckAnswer, positions: &[String]) -> String {
    let seen = || answer.places.iter().filter_map(|place| place.seen.as_ref());
    let stretch = seen().any(|seen| seen.stretched).then(|| "~ a stretch".to_owned());
    let choice = seen()
        .any(|seen| seen.is_choice)
        .then(|| "where a note is there twice, one is enough".to_owned());
    let nothing = answer.places.is_empty().then(|| "nothing fits here".to_owned());
    let hides: Vec<String> = answer
        .view
        .iter()
        .flat_map(|view| view.hides.iter().rev())
        .map(ToString::to_string)
        .collect();
    let hides = (!hides.is_empty()).then(|| format!("hidden: {}", hides.join("; ")));
    let hand = (!positions.is_empty()).then(|| format!("position {}", positions.join(" then ")));
    let told: Vec<String> = [nothing, hand, stretch, choice, hides].into_iter().flatten().collect();
    told.join(" · ")
}
