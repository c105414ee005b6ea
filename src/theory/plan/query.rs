//! What a plan is asked to be.

use std::collections::{HashMap, HashSet};
use std::rc::Rc;

use super::choices::{Choice, choices};
use super::chord::{PlanChord, StretchBegins};
use super::error::PlanError;
use super::form::{Form, FormChord, Round, Spot, Way};
use super::made::{Plan, PlannedChord};
use super::places::PairPlaces;
use super::step::PairStep;
use super::ways::{Couple, Ways};
use super::weights::{Count, PlanCost};
use super::why::PlanReason;
use super::wishes::{GuideTones, PairKinds, Sections, Wishes};
use crate::{ChordScale, PairSound, PitchClassSet, TriadPair};

/// The chords of a form and what is wanted of a plan for them; by default the cheapest, going round
/// from the last chord to the first.
#[derive(Clone, PartialEq, Debug)]
pub struct PlanQuery {
    chords: Vec<PlanChord>,
    wishes: Wishes,
    round: Round,
}

impl PlanQuery {
    /// The chords of a form, in order.
    pub fn over(chords: impl IntoIterator<Item = PlanChord>) -> PlanQuery {
        PlanQuery {
            chords: chords.into_iter().collect(),
            wishes: Wishes::NONE,
            round: Round::Closed,
        }
    }

    /// Only pairs of triads of these qualities.
    #[must_use]
    pub fn of_kinds(self, kinds: PairKinds) -> PlanQuery {
        PlanQuery { wishes: Wishes { kinds: Some(kinds), ..self.wishes }, ..self }
    }

    /// Only pairs that state these.
    #[must_use]
    pub fn stating(self, guide_tones: GuideTones) -> PlanQuery {
        PlanQuery { wishes: Wishes { guide_tones, ..self.wishes }, ..self }
    }

    /// So many different pairs in the whole form at most.
    ///
    /// A short form has the pairs with which its plan is the cheapest; for a longer one, of which not
    /// all can be tried, they are the best that were found: none of them can be exchanged for another
    /// that makes it cheaper. In [places](Self::plans_within) they are pairs that can be played there,
    /// chosen by what they cost anywhere.
    #[must_use]
    pub fn of_few_pairs(self, most: usize) -> PlanQuery {
        PlanQuery { wishes: Wishes { most_pairs: Some(most), ..self.wishes }, ..self }
    }

    /// Each section begins with another pair than the one before ends with.
    #[must_use]
    pub fn contrasting_sections(self) -> PlanQuery {
        PlanQuery { wishes: Wishes { sections: Sections::Contrasting, ..self.wishes }, ..self }
    }

    /// It is played once, and what its last chord leads to does not count.
    #[must_use]
    pub fn once(self) -> PlanQuery {
        PlanQuery { round: Round::Open, ..self }
    }

    /// The cheapest plan; of equal ones that with the better choice over the earliest chord.
    ///
    /// # Errors
    ///
    /// Where there is no chord, where a chord has no pair that does what is wanted, and where no pairs
    /// as few as are wanted serve the form.
    pub fn plan(&self) -> Result<Plan, PlanError> {
        let mut plans = self.plans(1)?;
        plans.pop().ok_or(PlanError::NoChords)
    }

    /// The cheapest plans that really differ, the best first: each has other pairs than every one
    /// before it over an eighth of the chords at least. Up to eight chords no plan is missing between
    /// those that are given; of a longer form the others have other pairs all through one eighth of
    /// it, or several.
    ///
    /// # Errors
    ///
    /// As for [`plan`](Self::plan).
    pub fn plans(&self, count: usize) -> Result<Vec<Plan>, PlanError> {
        let choices = self.of_few(self.each_choices()?, |_, _| true)?;
        let chords = self.form_chords(&choices, |_, choices| Ok(free_spots(choices, |_| true)))?;
        let form = self.form(&choices, chords, None);
        Ok(self.best(&choices, &form, count))
    }

    /// The cheapest plans with a place for each pair, where the way from place to place is weighed
    /// with all else; the rest as in [`plans`](Self::plans).
    ///
    /// Of a chord with more choices and places than 64 those are tried with which plans without places
    /// are the cheapest. Where going round a form exactly would take too long, the most promising
    /// rounds are tried, and that which is closed where the second of two rounds begins.
    ///
    /// # Errors
    ///
    /// As for [`plan`](Self::plan), and where a chord has no pair in these places.
    pub fn plans_within(
        &self,
        places: &dyn PairPlaces,
        count: usize,
    ) -> Result<Vec<Plan>, PlanError> {
        let has_place = |chord: usize, pair: TriadPair| {
            (0..places.count(pair)).any(|place| places.allows(chord, pair, place))
        };
        let choices = self.of_few(self.each_choices()?, has_place)?;
        let promising = self.promising(&choices, has_place)?;
        let spots = |chord: usize, choices: &[Choice]| {
            let of_choice = |choice: &usize| {
                let (choice, pair) = (*choice, choices[*choice].sound.pair());
                let allowed = move |place: &usize| places.allows(chord, pair, *place);
                let all = (0..places.count(pair)).filter(allowed);
                all.map(move |place| Spot { choice, place: Some(place) })
            };
            let tried = promising[chord].iter().flat_map(of_choice).take(MOST_SPOTS);
            let mut tried: Vec<Spot> = tried.collect();
            // Of equal plans that with the better choices is taken.
            tried.sort_by_key(|spot| (spot.choice, spot.place));
            Ok(tried)
        };
        let chords = self.form_chords(&choices, spots)?;
        let form = self.form(&choices, chords, Some(places));
        Ok(self.best(&choices, &form, count))
    }

    /// The choices of every chord, at least one; what is wanted alike is worked out once.
    fn each_choices(&self) -> Result<Vec<Rc<[Choice]>>, PlanError> {
        if self.chords.is_empty() {
            return Err(PlanError::NoChords);
        }
        let mut all: Vec<Rc<[Choice]>> = Vec::with_capacity(self.chords.len());
        for (chord, like) in self.first_like_each().into_iter().enumerate() {
            let choices = match all.get(like) {
                Some(known) => Rc::clone(known),
                None => choices(&self.chords[chord], self.wishes).into(),
            };
            if choices.is_empty() {
                return Err(PlanError::NoPair { chord });
            }
            all.push(choices);
        }
        Ok(all)
    }

    /// For each chord the first one of which the same is wanted.
    fn first_like_each(&self) -> Vec<usize> {
        let mut known: HashMap<(PitchClassSet, u32), Vec<usize>> = HashMap::new();
        let first_like = |(index, chord): (usize, &PlanChord)| {
            let near = known.entry((chord.reading.chord().set(), chord.thousandths)).or_default();
            let like = near.iter().copied().find(|known| self.chords[*known] == *chord);
            like.unwrap_or_else(|| {
                near.push(index);
                index
            })
        };
        self.chords.iter().enumerate().map(first_like).collect()
    }

    fn form_chords(
        &self,
        choices: &[Rc<[Choice]>],
        spots: impl Fn(usize, &[Choice]) -> Result<Vec<Spot>, PlanError>,
    ) -> Result<Vec<FormChord>, PlanError> {
        let mut all: Vec<FormChord> = Vec::with_capacity(choices.len());
        // The chords of which the same is wanted, the first of each that have the same spots.
        let mut kinds: HashMap<usize, Vec<usize>> = HashMap::new();
        let mut couples: HashMap<[PitchClassSet; 2], usize> = HashMap::new();
        for (chord, (choices, first)) in choices.iter().zip(self.first_like_each()).enumerate() {
            let spots = spots(chord, choices)?;
            let own = spots.iter().map(|spot| choices[spot.choice].cost.count()).collect();
            let kinds = kinds.entry(first).or_default();
            let alike = kinds.iter().copied().find(|known| all[*known].spots == spots);
            let alike = alike.unwrap_or_else(|| {
                kinds.push(chord);
                chord
            });
            let pairs = match all.get(alike) {
                Some(known) => known.pairs.clone(),
                None => {
                    let mut number = |spot: &Spot| {
                        let next = couples.len();
                        let couple = choices[spot.choice].sound.pair().couple();
                        *couples.entry(couple).or_insert(next)
                    };
                    spots.iter().map(&mut number).collect()
                }
            };
            all.push(FormChord { spots, pairs, own, alike });
        }
        Ok(all)
    }

    fn form(
        &self,
        choices: &[Rc<[Choice]>],
        chords: Vec<FormChord>,
        places: Option<&dyn PairPlaces>,
    ) -> Form {
        let ways = places.map(Ways::among);
        Form::new(chords, self.round, |chord, spots| {
            let before = (chord + choices.len() - 1) % choices.len();
            self.steps_to(chord, [&choices[before], &choices[chord]], spots, ways.as_ref())
        })
    }

    fn best(&self, choices: &[Rc<[Choice]>], form: &Form, count: usize) -> Vec<Plan> {
        form.ways(count).iter().map(|way| self.told(choices, form, way)).collect()
    }

    /// For each chord the choices that can be played, by what the cheapest plan with each of them costs
    /// wherever it is played.
    fn promising(
        &self,
        choices: &[Rc<[Choice]>],
        can_be_played: impl Fn(usize, TriadPair) -> bool,
    ) -> Result<Vec<Vec<usize>>, PlanError> {
        let form = self.form(choices, self.playable(choices, can_be_played)?, None);
        let in_order = |(chord, costs): (usize, Vec<u64>)| {
            let mut spots: Vec<(u64, usize)> = costs.into_iter().zip(0..).collect();
            spots.sort_unstable();
            spots.into_iter().map(|(_, index)| form.spot(chord, index).choice).collect()
        };
        Ok(form.through().into_iter().enumerate().map(in_order).collect())
    }

    /// The chords with the choices that can be played somewhere, one at least.
    fn playable(
        &self,
        choices: &[Rc<[Choice]>],
        can_be_played: impl Fn(usize, TriadPair) -> bool,
    ) -> Result<Vec<FormChord>, PlanError> {
        self.form_chords(choices, |chord, choices| {
            let spots = free_spots(choices, |choice| can_be_played(chord, choice.sound.pair()));
            if spots.is_empty() { Err(PlanError::NoPlace { chord }) } else { Ok(spots) }
        })
    }

    /// The choices of few pairs, where so many are wished for: by what they cost wherever they are
    /// played. Each chord has one at least that can be played.
    fn of_few(
        &self,
        choices: Vec<Rc<[Choice]>>,
        can_be_played: impl Fn(usize, TriadPair) -> bool,
    ) -> Result<Vec<Rc<[Choice]>>, PlanError> {
        let Some(most) = self.wishes.most_pairs else { return Ok(choices) };
        let form = self.form(&choices, self.playable(&choices, can_be_played)?, None);
        let Some(kept) = form.few_pairs(most) else {
            return Err(PlanError::TooFewPairs { most, enough: form.enough_pairs(most) });
        };
        let each = choices.iter().enumerate();
        let kept: HashSet<[PitchClassSet; 2]> = each
            .flat_map(|(chord, choices)| {
                let spots = form.spots_of(chord, &kept);
                spots.map(|spot| choices[spot.choice].sound.pair().couple())
            })
            .collect();
        let few = |choices: &Rc<[Choice]>| {
            let is_kept = |choice: &&Choice| kept.contains(&choice.sound.pair().couple());
            choices.iter().filter(is_kept).cloned().collect()
        };
        Ok(choices.iter().map(few).collect())
    }

    /// What it costs to come to each spot of a chord, from each of those before it.
    fn steps_to(
        &self,
        chord: usize,
        choices: [&[Choice]; 2],
        [before, here]: [&[Spot]; 2],
        ways: Option<&Ways<'_>>,
    ) -> Vec<Count> {
        let is_one_choice = |one: &Spot, other: &Spot| one.choice == other.choice;
        let mut all = Vec::with_capacity(before.len() * here.len());
        for to in here.chunk_by(is_one_choice) {
            let from_each: Vec<(&[Spot], Couple)> = before
                .chunk_by(is_one_choice)
                .map(|from| {
                    let pair =
                        |end: usize, spots: &[Spot]| choices[end][spots[0].choice].sound.pair();
                    let pairs = [pair(0, from), pair(1, to)];
                    let step = self.step_to(chord, pairs);
                    (from, Couple { step, ways: ways.map(|ways| ways.between(pairs)) })
                })
                .collect();
            for there in to {
                for (from, couple) in &from_each {
                    all.extend(
                        from.iter().map(|spot| couple.cost(spot.place, there.place).count()),
                    );
                }
            }
        }
        all
    }

    /// What it costs to come to a chord with one pair from another.
    fn step_to(&self, chord: usize, [from, to]: [TriadPair; 2]) -> PlanCost {
        let step = PairStep::between(from, to);
        match (self.chords[chord].begins, step) {
            (StretchBegins::More, PairStep::Kept) => PlanCost::GOES_ON,
            (StretchBegins::Section, PairStep::Kept)
                if self.wishes.sections == Sections::Contrasting =>
            {
                PlanCost::GOES_ON
            }
            (StretchBegins::More, PairStep::Moved(_) | PairStep::Changed { .. }) => PlanCost::ZERO,
            (StretchBegins::Chord | StretchBegins::Section, step) => step.cost(),
        }
    }

    fn told(&self, choices: &[Rc<[Choice]>], form: &Form, way: &Way) -> Plan {
        let spot = |chord: usize| form.spot(chord, way[chord]);
        let choice = |chord: usize| &choices[chord][spot(chord).choice];
        let mut kept = 1;
        let mut known: Vec<TriadPair> = Vec::new();
        let planned = |chord: usize| {
            let here = choice(chord);
            let before = choice((chord + way.len() - 1) % way.len());
            let comes = chord > 0 || self.round == Round::Closed;
            let step = comes.then(|| PairStep::between(before.sound.pair(), here.sound.pair()));
            kept = if step == Some(PairStep::Kept) && chord > 0 { kept + 1 } else { 1 };
            PlannedChord {
                over: here.over.clone(),
                sound: match self.chords[chord].pair {
                    Some(_) => here.sound.clone(),
                    None => as_known(&here.sound, &here.over, &mut known),
                },
                place: spot(chord).place,
                step,
                cost: here.cost + form.step_on(way, chord),
                why: PlanReason::of(&self.chords[chord], here, &before.over, step, kept),
            }
        };
        let chords: Vec<PlannedChord> = (0..way.len()).map(planned).collect();
        let cost = chords.iter().map(|chord| chord.cost).sum();
        Plan { chords, cost }
    }
}

/// A pair with its triads in the order in which the form has had them before.
fn as_known(sound: &PairSound, over: &ChordScale, known: &mut Vec<TriadPair>) -> PairSound {
    let pair = sound.pair();
    let [first, second] = pair.triads();
    let Some(before) = known.iter().find(|known| known.is_same_couple(pair)) else {
        known.push(pair);
        return sound.clone();
    };
    let turned = TriadPair::in_order(second, first).filter(|_| before.first().set() != first.set());
    turned.map_or_else(|| sound.clone(), |turned| PairSound::of(turned, over))
}

/// Choices, wherever they are played.
fn free_spots(choices: &[Choice], which: impl Fn(&Choice) -> bool) -> Vec<Spot> {
    let spots = (0..choices.len()).filter(|choice| which(&choices[*choice]));
    spots.map(|choice| Spot { choice, place: None }).collect()
}

/// The most choices with their places that are tried for a chord.
const MOST_SPOTS: usize = 64;
