//! What follows from the player's choices: everything that is shown.

use fretloom_fretboard::{Hand, Ladder, Neck, ShapeQuery, StringSet};
use fretloom_theory::{Families, ScaleChoice};

use super::chosen::Chosen;
use super::in_hand::InHand;
use super::neck_view::{PairOnNeck, ShownView};
use crate::answer::{
    self, Harmony, LeftOutPlace, PairAnswer, PairPlace, PairsAnswer, Refusal, TuningAnswer,
    places_left_out, places_of_pair,
};
use crate::library::Library;

/// What the player's choices lead to, in layers: scales and pairs; the neck; the pair's places and
/// ladders on it; the view; the shape in hand.
///
/// The invariant: it is what [`Shown::of`] would make of the choices that it was last made to
/// [`follow`](Shown::follow). A layer is made again only if something under it has changed.
pub(super) struct Shown {
    /// The choices that all this follows from.
    from: Chosen,
    /// The scales that fit the chord.
    pub(super) scales: Vec<ScaleChoice>,
    pub(super) pairs: PairsAnswer,
    pub(super) neck: Neck,
    pub(super) tuning: TuningAnswer,
    /// Where the notes of the pair lie.
    pub(super) places: Vec<PairPlace>,
    /// Where the notes lie that the pair leaves out.
    pub(super) left_out: Vec<LeftOutPlace>,
    /// Every close shape of the pair, on all strings, without fingers.
    pub(super) everywhere: Ladder,
    /// Those on the strings in use.
    pub(super) ladder: Ladder,
    /// What the view shows; none for the whole neck.
    pub(super) view: Option<ShownView>,
    /// The shape in hand; none where no rung is chosen.
    pub(super) hand: Option<InHand>,
}

/// What a player brings along, whatever is chosen.
#[derive(Clone, Copy)]
pub(super) struct Given<'a> {
    pub(super) library: &'a Library,
    /// The hand that climbs the ladder.
    pub(super) hand: Hand,
}

impl Shown {
    /// Everything that follows from these choices.
    ///
    /// # Errors
    ///
    /// Where no scale fits the chord, which does not happen: the chromatic scale fits every chord.
    pub(super) fn of(chosen: &Chosen, given: Given<'_>) -> Result<Shown, Refusal> {
        let scales = scales_of(chosen, given);
        let harmony = match scales.get(chosen.scale) {
            Some(choice) => harmony_of(chosen, choice),
            None => Harmony::of_chord(&chosen.chord.symbol)?,
        };
        let neck = Neck::new(chosen.tuning.clone());
        let mut shown = Shown {
            from: chosen.clone(),
            scales,
            pairs: pairs_of(chosen, &harmony),
            tuning: TuningAnswer::of(&given.library.tunings, chosen.tuning.clone()),
            places: Vec::new(),
            left_out: Vec::new(),
            everywhere: Ladder::default(),
            ladder: Ladder::default(),
            neck,
            view: None,
            hand: None,
        };
        shown.lay_out(chosen);
        shown.ladder = shown.ladder_of(chosen);
        shown.view = shown.view_of(chosen, given);
        shown.hand = shown.hand_of(chosen, given);
        Ok(shown)
    }

    /// Follows other choices.
    pub(super) fn follow(&mut self, chosen: &Chosen, given: Given<'_>) {
        let before = std::mem::replace(&mut self.from, chosen.clone());
        let chord = before.chord != chosen.chord;
        if chord {
            self.scales = scales_of(chosen, given);
        }
        let pairs = chord || asked_for_pairs(&before) != asked_for_pairs(chosen);
        if pairs && let Some(choice) = self.scales.get(chosen.scale) {
            self.pairs = pairs_of(chosen, &harmony_of(chosen, choice));
        }
        let tuning = before.tuning != chosen.tuning;
        if tuning {
            self.neck = Neck::new(chosen.tuning.clone());
            self.tuning = TuningAnswer::of(&given.library.tunings, chosen.tuning.clone());
        }
        let pair = pairs || tuning || (before.row, before.copy) != (chosen.row, chosen.copy);
        if pair {
            self.lay_out(chosen);
        }
        let strings = pair || before.set != chosen.set;
        if strings {
            self.ladder = self.ladder_of(chosen);
        }
        if strings || before.view != chosen.view {
            // Where only the way has changed, what there is to choose from was found before.
            let ways = !strings && chosen.view.is_searched() && before.view.is_like(chosen.view);
            self.view = match (self.view.take().filter(|_| ways), self.pair_on_neck(chosen)) {
                (Some(view), Some(pair)) => Some(view.taken(chosen.view, pair)),
                _ => self.view_of(chosen, given),
            };
        }
        if strings || before.rung != chosen.rung {
            self.hand = self.hand_of(chosen, given);
        } else if let Some(hand) = self.hand.take() {
            self.hand = Some(hand.turned(&self.neck, before.held, chosen.held));
        }
    }

    /// The pair that is chosen; none where the scale holds none.
    pub(super) fn pair(&self, chosen: &Chosen) -> Option<&PairAnswer> {
        self.pairs.pairs.get(self.pair_index(chosen)?)
    }

    /// The place of the chosen pair in the whole list.
    pub(super) fn pair_index(&self, chosen: &Chosen) -> Option<usize> {
        let fold = self.pairs.folds.get(chosen.row)?;
        match chosen.copy.checked_sub(1) {
            None => Some(fold.first),
            Some(copy) => fold.copies.get(copy).map(|(index, _)| *index),
        }
    }

    /// The sets of three neighbouring strings, from the floor up.
    pub(super) fn sets(&self) -> Vec<StringSet> {
        StringSet::neighbours(self.neck.tuning().string_count(), 3).collect()
    }

    /// The strings that the ladder climbs.
    pub(super) fn strings(&self, chosen: &Chosen) -> Option<StringSet> {
        self.sets().get(chosen.set).copied()
    }

    fn lay_out(&mut self, chosen: &Chosen) {
        let query = ShapeQuery::default().without_fingers();
        let pair = self.pair(chosen);
        let places = pair.map(|pair| places_of_pair(&self.neck, pair)).unwrap_or_default();
        let left_out = pair.map(|pair| places_left_out(&self.neck, pair)).unwrap_or_default();
        let everywhere = match pair {
            Some(pair) => Ladder::new(&self.neck, pair.pair(), &query),
            None => Ladder::default(),
        };
        (self.places, self.left_out, self.everywhere) = (places, left_out, everywhere);
    }

    fn ladder_of(&self, chosen: &Chosen) -> Ladder {
        let set = self.strings(chosen);
        set.map_or_else(Ladder::default, |set| self.everywhere.on(set))
    }

    fn pair_on_neck(&self, chosen: &Chosen) -> Option<PairOnNeck<'_>> {
        let (pair, strings) = (self.pair(chosen)?, self.strings(chosen));
        Some(PairOnNeck { neck: &self.neck, tuning: &self.tuning, pair, strings })
    }

    fn view_of(&self, chosen: &Chosen, given: Given<'_>) -> Option<ShownView> {
        ShownView::of(chosen.view, self.pair_on_neck(chosen)?, given.hand)
    }

    fn hand_of(&self, chosen: &Chosen, given: Given<'_>) -> Option<InHand> {
        let rung = self.ladder.rungs().get(chosen.rung?)?;
        Some(InHand::of(&self.neck, given.hand, rung, chosen.held))
    }
}

fn scales_of(chosen: &Chosen, given: Given<'_>) -> Vec<ScaleChoice> {
    ScaleChoice::for_chord_with(&chosen.chord.read.chord, given.library.scales.kinds())
}

fn harmony_of(chosen: &Chosen, choice: &ScaleChoice) -> Harmony {
    Harmony::with_choice(&chosen.chord.symbol, chosen.chord.read.clone(), choice)
}

fn pairs_of(chosen: &Chosen, harmony: &Harmony) -> PairsAnswer {
    let (families, _) = families_of(chosen);
    answer::pairs_over(harmony, &families, &chosen.wishes, chosen.spelling)
}

/// The choices that the pairs of a chord follow from.
fn asked_for_pairs(chosen: &Chosen) -> impl PartialEq + '_ {
    (chosen.scale, chosen.families, &chosen.wishes, chosen.spelling)
}

/// Which triads take part, and what that is called.
pub(super) fn families_of(chosen: &Chosen) -> (Families, &'static str) {
    let [tertian, sus, flat_five, all] = Families::in_turn();
    match chosen.families {
        0 => tertian,
        1 => sus,
        2 => flat_five,
        _ => all,
    }
}

#[cfg(test)]
mod tests {
    use super::super::Explore;
    use super::*;
    use crate::tui::event::Event;
    use crate::tui::runtime::App;

    /// Keys that change every layer, and go back over them.
    const KEYS: &str = "space v v v x x down t m s S f f w 7 enter w backspace enter p g down enter \
                        i i h o h v x x down space space c D m 7 enter T T 1 2 < > v v z z z Z e \
                        pagedown enter v v v x z z z z z z z z z Z Z Z";

    fn told(shown: &Shown) -> String {
        let names = shown.pairs.pairs.iter().map(PairAnswer::name).collect::<Vec<_>>();
        let view = shown.view.as_ref().map(|view| (&view.title, &view.told, &view.answer.places));
        let hand = shown.hand.as_ref().map(|hand| (hand.shape(), hand.told()));
        format!(
            "{:?}",
            (
                (&shown.scales, names, &shown.pairs.folds, &shown.neck, &shown.tuning),
                (&shown.places, &shown.left_out, &shown.everywhere, &shown.ladder, view, hand)
            )
        )
    }

    #[test]
    fn what_is_followed_step_by_step_is_what_would_be_made_at_once() {
        let library = Library::load(None);
        let open = Explore::open(None, "guitar-standard", library, Default::default());
        let mut explore = open.unwrap();
        for key in KEYS.split_whitespace() {
            explore.update(Event::Key(key.parse().unwrap()));
            let given = Given { library: &explore.library, hand: explore.player };
            let afresh = Shown::of(&explore.chosen, given).unwrap();
            assert_eq!(told(&explore.shown), told(&afresh), "after {key}");
        }
    }
}
