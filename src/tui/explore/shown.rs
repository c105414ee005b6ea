//! What follows from the player's choices: everything that is shown.

use fretloom_fretboard::{FretRange, Hand, Ladder, Neck, ShapeQuery, StringSet, Tuning};
use fretloom_theory::{Families, ScaleChoice, Spelling};

use super::chosen::Chosen;
use super::in_hand::{InHand, Player};
use super::neck_view::{PairOnNeck, ShownView};
use crate::answer::{
    self, Harmony, LeftOutPlace, PairAnswer, PairPlace, PairsAnswer, Refusal, places_left_out,
    places_of_pair,
};
use crate::tui::shared::Shared;

/// What the player's choices lead to, in layers: scales and pairs; the pair's places and ladders on
/// the neck; the view; the shape in hand.
///
/// The invariant: it is what [`Shown::of`] would make of the choices that it was last made to
/// [`follow`](Shown::follow). A layer is made again only if something under it has changed.
pub(super) struct Shown {
    /// What all this follows from.
    from: Basis,
    /// The scales that fit the chord.
    pub(super) scales: Vec<ScaleChoice>,
    pub(super) pairs: PairsAnswer,
    /// The sets of three neighbouring strings, from the floor up.
    pub(super) sets: Vec<StringSet>,
    /// Where the notes of the pair lie.
    pub(super) places: Vec<PairPlace>,
    /// Those of them at the frets that are wanted; none where all are.
    pub(super) within: Option<Vec<PairPlace>>,
    /// Where the notes lie that the pair leaves out.
    pub(super) left_out: Vec<LeftOutPlace>,
    /// Every close shape of the pair at the wanted frets, on all strings, without fingers.
    pub(super) everywhere: Ladder,
    /// Those on the strings in use.
    pub(super) ladder: Ladder,
    /// What the view shows; none for the whole neck.
    pub(super) view: Option<ShownView>,
    /// The shape in hand; none where no rung is chosen.
    pub(super) hand: Option<InHand>,
}

/// What is chosen on the explorer, and of what all screens share that from which something follows.
struct Basis {
    chosen: Chosen,
    tuning: Tuning,
    spelling: Spelling,
    hand: Hand,
}

impl Basis {
    fn of(chosen: &Chosen, shared: &Shared) -> Basis {
        Basis {
            chosen: chosen.clone(),
            tuning: shared.setup.tuning.clone(),
            spelling: shared.setup.spelling,
            hand: shared.hand,
        }
    }

    /// What the pairs follow from.
    fn asks_for_pairs(&self) -> impl PartialEq + '_ {
        let Chosen { chord, scale, families, wishes, .. } = &self.chosen;
        (chord, scale, families, wishes, self.spelling)
    }
}

impl Shown {
    /// Everything that follows from these choices.
    ///
    /// # Errors
    ///
    /// Where no scale fits the chord, which does not happen: the chromatic scale fits every chord.
    pub(super) fn of(chosen: &Chosen, shared: &Shared) -> Result<Shown, Refusal> {
        let scales = scales_of(chosen, shared);
        let harmony = match scales.get(chosen.scale) {
            Some(choice) => harmony_of(chosen, choice),
            None => Harmony::of_chord(&chosen.chord.symbol)?,
        };
        let mut shown = Shown {
            from: Basis::of(chosen, shared),
            scales,
            pairs: pairs_of(chosen, shared, &harmony),
            sets: sets_of(shared),
            places: Vec::new(),
            within: None,
            left_out: Vec::new(),
            everywhere: Ladder::default(),
            ladder: Ladder::default(),
            view: None,
            hand: None,
        };
        shown.lay_out(chosen, shared.neck());
        shown.ladder = shown.ladder_of(chosen);
        shown.view = shown.view_of(chosen, shared);
        shown.hand = shown.hand_of(chosen, shared);
        Ok(shown)
    }

    /// Follows other choices.
    pub(super) fn follow(&mut self, chosen: &Chosen, shared: &Shared) {
        let before = std::mem::replace(&mut self.from, Basis::of(chosen, shared));
        let was = &before.chosen;
        if was.chord != chosen.chord {
            self.scales = scales_of(chosen, shared);
        }
        let pairs = before.asks_for_pairs() != self.from.asks_for_pairs();
        if pairs && let Some(choice) = self.scales.get(chosen.scale) {
            self.pairs = pairs_of(chosen, shared, &harmony_of(chosen, choice));
        }
        let tuning = before.tuning != self.from.tuning;
        if tuning {
            self.sets = sets_of(shared);
        }
        let place = (was.row, was.copy, was.frets) != (chosen.row, chosen.copy, chosen.frets);
        let pair = pairs || tuning || place;
        if pair {
            self.lay_out(chosen, shared.neck());
        }
        let strings = pair || was.set != chosen.set;
        if strings {
            self.ladder = self.ladder_of(chosen);
        }
        let hand = before.hand != self.from.hand;
        if strings || hand || was.view != chosen.view {
            // Where only the way has changed, what there is to choose from was found before.
            let anew = strings || hand || !chosen.view.is_found_with(was.view);
            let found = self.view.take().filter(|_| !anew);
            self.view = match (found, self.pair_on_neck(chosen, shared)) {
                (Some(view), Some(pair)) => Some(view.taken(chosen.view, pair)),
                _ => self.view_of(chosen, shared),
            };
        }
        let position = was.view.position() != chosen.view.position();
        if strings || hand || position || was.rung != chosen.rung {
            self.hand = self.hand_of(chosen, shared);
        } else if let Some(hand) = self.hand.take() {
            self.hand = Some(hand.turned(shared.neck(), was.held, chosen.held));
        }
    }

    /// The pair that is chosen; none where the scale holds none.
    pub(super) fn pair(&self, chosen: &Chosen) -> Option<&PairAnswer> {
        self.pairs.pairs.get(self.pair_index(chosen)?)
    }

    /// The place of the chosen pair in the whole list.
    pub(super) fn pair_index(&self, chosen: &Chosen) -> Option<usize> {
        let class = self.pairs.classes.get(chosen.row)?;
        match chosen.copy.checked_sub(1) {
            None => Some(class.first),
            Some(copy) => class.transpositions.get(copy).map(|(index, _)| *index),
        }
    }

    /// The strings that the ladder climbs.
    pub(super) fn strings(&self, chosen: &Chosen) -> Option<StringSet> {
        self.sets.get(chosen.set).copied()
    }

    /// Lays the pair out on the neck and on all strings.
    fn lay_out(&mut self, chosen: &Chosen, neck: &Neck) {
        let query = ShapeQuery::default().within(chosen.frets).without_fingers();
        let pair = self.pair(chosen);
        let places = pair.map(|pair| places_of_pair(neck, pair)).unwrap_or_default();
        let left_out = pair.map(|pair| places_left_out(neck, pair)).unwrap_or_default();
        let everywhere = match pair {
            Some(pair) => Ladder::new(neck, pair.pair(), &query),
            None => Ladder::default(),
        };
        let within =
            || places.iter().filter(|at| chosen.frets.contains(at.fret)).copied().collect();
        self.within = (chosen.frets != FretRange::WHOLE_NECK).then(within);
        (self.places, self.left_out, self.everywhere) = (places, left_out, everywhere);
    }

    fn ladder_of(&self, chosen: &Chosen) -> Ladder {
        let set = self.strings(chosen);
        set.map_or_else(Ladder::default, |set| self.everywhere.on(set))
    }

    fn pair_on_neck<'a>(&'a self, chosen: &Chosen, shared: &'a Shared) -> Option<PairOnNeck<'a>> {
        let (pair, strings) = (self.pair(chosen)?, self.strings(chosen));
        let (neck, tuning, frets) = (shared.neck(), shared.tuning(), chosen.frets);
        Some(PairOnNeck { neck, tuning, pair, strings, frets })
    }

    fn view_of(&self, chosen: &Chosen, shared: &Shared) -> Option<ShownView> {
        ShownView::of(chosen.view, self.pair_on_neck(chosen, shared)?, shared.hand)
    }

    fn hand_of(&self, chosen: &Chosen, shared: &Shared) -> Option<InHand> {
        let rung = self.ladder.rungs().get(chosen.rung?)?;
        let player = Player { hand: shared.hand, position: chosen.view.position() };
        Some(InHand::of(shared.neck(), player, rung, chosen.held))
    }
}

fn scales_of(chosen: &Chosen, shared: &Shared) -> Vec<ScaleChoice> {
    ScaleChoice::for_chord_with(&chosen.chord.read.chord, shared.library.scales.kinds())
}

fn harmony_of(chosen: &Chosen, choice: &ScaleChoice) -> Harmony {
    Harmony::with_choice(&chosen.chord.symbol, chosen.chord.read.clone(), choice)
}

fn pairs_of(chosen: &Chosen, shared: &Shared, harmony: &Harmony) -> PairsAnswer {
    let (families, _) = families_of(chosen);
    answer::pairs_over(harmony, &families, &chosen.wishes, shared.setup.spelling)
}

fn sets_of(shared: &Shared) -> Vec<StringSet> {
    StringSet::neighbours(shared.neck().tuning().string_count(), 3).collect()
}

/// Which triads take part, and what that is called.
pub(super) fn families_of(chosen: &Chosen) -> (Families, &'static str) {
    let [tertian, sus, flat_five, all] = Families::usual();
    match chosen.families {
        0 => tertian,
        1 => sus,
        2 => flat_five,
        _ => all,
    }
}

#[cfg(test)]
mod tests {
    use fretloom_fretboard::Place;

    use super::super::chosen::TypedChord;
    use super::super::neck_view::NeckView;
    use super::super::state::Explore;
    use super::*;
    use crate::library::Library;
    use crate::tui::command::{Command, Section};

    /// Keys that change every layer, and go back over them.
    const KEYS: &str = "space v v v x x down t m s S f f p i i h o h v x x down space space T T 1 2 v \
                        v W r y L n s s v v v x X X x";

    fn told(shown: &Shown) -> String {
        let names = shown.pairs.pairs.iter().map(PairAnswer::name).collect::<Vec<_>>();
        let view = shown.view.as_ref().map(|view| (&view.title, &view.told, &view.answer.places));
        let hand = shown.hand.as_ref().map(|hand| (hand.shape(), hand.told()));
        format!(
            "{:?}",
            (
                (&shown.scales, names, &shown.pairs.classes, &shown.sets),
                (&shown.places, &shown.left_out, &shown.everywhere, &shown.ladder, view, hand)
            )
        )
    }

    #[test]
    fn what_is_followed_step_by_step_is_what_would_be_made_at_once() {
        let library = Library::load(None);
        let mut shared = Shared::new("guitar-standard", library, Spelling::Plain).unwrap();
        let chord = TypedChord::read("Gmaj7#11").unwrap();
        let mut explore = Explore::open(chord, &shared).unwrap();
        let first = explore.chosen.clone();
        for key in KEYS.split_whitespace() {
            let command = shared.keys.command(Section::Explore, key.parse().unwrap());
            let Some(Command::Explore(command)) = command else { panic!("{key} is no command") };
            explore.update(command, &mut shared);
            let afresh = Shown::of(&explore.chosen, &shared).unwrap();
            assert_eq!(told(&explore.shown), told(&afresh), "after {key}");
        }
        explore.restore(first, &mut shared);
        let afresh = Shown::of(&explore.chosen, &shared).unwrap();
        assert_eq!(told(&explore.shown), told(&afresh));
    }

    /// The same where no chain goes over the shape that a view of chains is opened on: going to other
    /// strings finds the chain that was there before.
    #[test]
    fn a_chain_is_found_again_where_none_goes_over_the_shape() {
        let mut without = 0;
        for climbs in 0..12 {
            let library = Library::load(None);
            let mut shared = Shared::new("ukulele-high-g", library, Spelling::Plain).unwrap();
            let chord = TypedChord::read("F#m7b5").unwrap();
            let mut explore = Explore::open(chord, &shared).unwrap();
            let keys = ["space"].repeat(climbs).join(" ") + " v v v X t 1 2 T";
            for key in keys.split_whitespace() {
                let command = shared.keys.command(Section::Explore, key.parse().unwrap());
                let Some(Command::Explore(command)) = command else { panic!("{key}") };
                explore.update(command, &mut shared);
                let afresh = Shown::of(&explore.chosen, &shared).unwrap();
                assert_eq!(told(&explore.shown), told(&afresh), "{climbs} climbs, after {key}");
            }
            let through = match explore.chosen.view {
                NeckView::Across(across) => across.through,
                _ => None,
            };
            let places = explore.view_places().unwrap();
            let is_seen = |place: &Place| places.iter().any(|seen| seen.place == *place);
            without += usize::from(!through.unwrap().iter().all(is_seen));
        }
        assert!(without > 0, "every shape has a chain here");
    }
}
