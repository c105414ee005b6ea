//! The answer of `changes FILE`.

use fretloom_fretboard::{FretRange, Neck, Region};
use fretloom_theory::{
    Chart, ChartChoice, Chorus, Key, Plan, PlanCost, PlanError, PlanQuery, Quarters, ScaleKind,
    Spelling, TriadPair,
};

use super::bar::{ChangesBar, bars};
use super::chord::ChangesChord;
use super::hand::Shapes;
use super::question::ChangesQuestion;
use super::stretch::{Stretch, at, beat_at, stretches};
use crate::answer::pairs::NamedPair;
use crate::answer::plan_refusal::{PairLacks, PlanRefusal};
use crate::answer::refusal::Refusal;

/// A chart as it is heard, and the plans for it.
///
/// # Example
///
/// ```
/// use fretloom::answer::{ChangesAnswer, ChangesQuestion};
/// use fretloom_fretboard::{Neck, Tuning};
/// use fretloom_theory::{BarText, Chart, Meter};
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let chart = Chart::of(BarText::read("|: Dm7 | G7 :| Cmaj7 |", Meter::COMMON).unwrap());
/// let answer = ChangesAnswer::new(&neck, &ChangesQuestion::of(chart)).unwrap();
/// assert_eq!(answer.bars.len(), 5);
/// let third = answer.bars[2].chords[0].sounding.chord().unwrap();
/// assert_eq!(answer.best().chords[third].reading.to_string(), "ii of C");
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct ChangesAnswer {
    /// The chart.
    pub chart: Chart,
    /// Its bars and chords in time.
    pub chorus: Chorus,
    /// The key of the tune, where it is known.
    pub key: Option<Key>,
    /// The bars as they are heard.
    pub bars: Vec<ChangesBar>,
    /// The part of the neck to which the hand is locked, where it is.
    pub region: Option<Region>,
    /// What is settled where nothing sounds that it could be settled for.
    pub passed_over: Vec<ChartChoice>,
    /// Scales of the player's own, which are offered too.
    pub own: Vec<ScaleKind>,
    /// How triads are written.
    pub spelling: Spelling,
    best: ChangesPlan,
    others: Vec<ChangesPlan>,
}

/// The scale and the pair of every chord.
#[derive(Clone, PartialEq, Debug)]
pub struct ChangesPlan {
    /// The chords in order of time, the same ones in every plan.
    pub chords: Vec<ChangesChord>,
    /// What the plan costs.
    pub cost: PlanCost,
    /// The pairs in use, each once, in the order in which they come.
    pub pairs: Vec<TriadPair>,
}

impl ChangesAnswer {
    /// Which scales and pairs serve this chart, under this hand?
    ///
    /// # Errors
    ///
    /// Where no chord of the chart can be planned, and where one has no pair that does what is wanted.
    pub fn new(neck: &Neck, question: &ChangesQuestion) -> Result<ChangesAnswer, Refusal> {
        let chorus = question.chart.chorus(question.optional);
        let stretches = stretches(question, &chorus);
        let chords = stretches.iter().map(|stretch| stretch.asked.clone());
        let query = question.wishes.asked_of(PlanQuery::over(chords));
        let shapes = Shapes::of(neck, question, &chorus, &stretches)?;
        let count = question.plans.max(1);
        let plans = match &shapes {
            Some(shapes) => query.plans_within(shapes, count),
            None => query.plans(count),
        };
        let plans = plans.map_err(|error| refused(error, &chorus, &stretches))?;
        let told = |plan| ChangesPlan::new(&stretches, plan, shapes.as_ref(), question.spelling);
        let mut plans = plans.iter().map(told);
        let best = plans.next().ok_or(PlanRefusal::NothingToPlan)?;
        Ok(ChangesAnswer {
            chart: question.chart.clone(),
            key: question.key(),
            bars: bars(&question.chart.bars, &chorus, &stretches),
            region: question.region.map(|region| on_neck(region, neck)),
            passed_over: passed_over(question, &chorus, &stretches),
            own: question.own.clone(),
            spelling: question.spelling,
            best,
            others: plans.collect(),
            chorus,
        })
    }

    /// The best plan.
    #[must_use]
    pub fn best(&self) -> &ChangesPlan {
        &self.best
    }

    /// All plans, the best first.
    pub fn plans(&self) -> impl Iterator<Item = &ChangesPlan> {
        [&self.best].into_iter().chain(&self.others)
    }

    /// The numbers of the bars in which two plans have different pairs, in order.
    #[must_use]
    pub fn bars_that_differ(&self, one: &ChangesPlan, other: &ChangesPlan) -> Vec<u64> {
        let pair =
            |plan: &ChangesPlan, chord: usize| plan.chords.get(chord).map(|it| it.pair.pair());
        let differs = |chord: usize| match (pair(one, chord), pair(other, chord)) {
            (Some(one), Some(other)) => !one.is_same_couple(other),
            (None, None) => false,
            (Some(_), None) | (None, Some(_)) => true,
        };
        let has_such = |bar: &&ChangesBar| {
            bar.chords.iter().filter_map(|chord| chord.sounding.chord()).any(differs)
        };
        self.bars.iter().filter(has_such).map(|bar| bar.number).collect()
    }

    /// The same with the plan with this number in front, from 0; as it is where there is none.
    #[must_use]
    pub fn preferring(mut self, number: usize) -> ChangesAnswer {
        let other = number.checked_sub(1).and_then(|index| self.others.get_mut(index));
        if let Some(other) = other {
            std::mem::swap(&mut self.best, other);
        }
        self
    }
}

impl ChangesPlan {
    fn new(
        stretches: &[Stretch],
        plan: &Plan,
        shapes: Option<&Shapes<'_>>,
        spelling: Spelling,
    ) -> ChangesPlan {
        let told = |(stretch, planned)| ChangesChord::new(stretch, planned, spelling);
        let mut chords: Vec<ChangesChord> = stretches.iter().zip(plan.chords()).map(told).collect();
        if let Some(shapes) = shapes {
            let pairs: Vec<NamedPair> = chords.iter().map(|chord| chord.pair).collect();
            for (chord, hand) in chords.iter_mut().zip(shapes.in_hand(plan, &pairs)) {
                chord.hand = hand;
            }
        }
        ChangesPlan { chords, cost: plan.cost(), pairs: plan.pairs() }
    }

    /// The chord that sounds at a moment, with its index; `None` where none does.
    #[must_use]
    pub fn at(&self, moment: Quarters) -> Option<(usize, &ChangesChord)> {
        let index = self.chords.partition_point(|chord| chord.from <= moment).checked_sub(1)?;
        let chord = self.chords.get(index).filter(|chord| moment < chord.until)?;
        Some((index, chord))
    }
}

/// What is settled for moments at which no chord is planned.
fn passed_over(
    question: &ChangesQuestion,
    chorus: &Chorus,
    stretches: &[Stretch],
) -> Vec<ChartChoice> {
    let is_heard = |choice: &&ChartChoice| {
        Chart::moment_of(chorus, choice).and_then(|moment| at(stretches, moment)).is_some()
    };
    question.chart.choices.iter().filter(|choice| !is_heard(choice)).cloned().collect()
}

/// Why there is no plan, told by the chord's bar.
fn refused(error: PlanError, chorus: &Chorus, stretches: &[Stretch]) -> PlanRefusal {
    let (chord, lacks) = match error {
        PlanError::NoPair { chord } => (chord, PairLacks::Wishes),
        PlanError::NoPlace { chord } => (chord, PairLacks::Places),
        PlanError::TooFewPairs { most, enough } => {
            return PlanRefusal::TooFewPairs { most, enough };
        }
        _ => return PlanRefusal::NothingToPlan,
    };
    let Some(stretch) = stretches.get(chord) else { return PlanRefusal::NothingToPlan };
    let bar = chorus.bars.at(stretch.from).map(|at| at.bar.label);
    PlanRefusal::NoPairHere {
        chord: stretch.asked.reading().chord().to_string(),
        bar: bar.map(|label| label.to_string()).unwrap_or_default(),
        beat: beat_at(chorus, stretch.from),
        lacks,
    }
}

/// A region without the frets that the neck does not have.
fn on_neck(region: Region, neck: &Neck) -> Region {
    let frets = region.frets();
    let last = frets.last().min(neck.tuning().last_fret());
    FretRange::new(frets.first(), last).map_or(region, |frets| region.within(frets))
}
