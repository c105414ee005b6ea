//! What the player has chosen, in one piece: so it can be taken back, and found again tomorrow.

use std::path::PathBuf;
use std::sync::Arc;

use fretloom_fretboard::FretRange;
use fretloom_theory::{BarText, Chart, ChartBeat, Meter};

use super::melody::MelodyInHand;
use super::sheet::Sheet;
use crate::answer::{ChartMoment, HandArea, HeldHere, NeverHere, TuneWishes};
use crate::picture::Labels;

/// Every choice of the player on the changes screen. What is shown follows from it and from what all
/// screens share.
#[derive(Clone, PartialEq, Debug)]
pub(in crate::tui) struct Chosen {
    /// The tune, with what is settled for its chords; none where there is none yet.
    pub(super) chart: Option<ChartInHand>,
    /// Its melody, which scales respect; empty where none is known.
    pub(super) melody: MelodyInHand,
    /// The file in which it is saved; none where there is none.
    pub(super) from: Option<PathBuf>,
    /// Where the hand stays.
    pub(super) area: HandArea,
    /// What is wished of it and its plan.
    pub(super) wishes: TuneWishes,
    /// The shapes that are held over single chords.
    pub(super) held: Vec<HeldHere>,
    /// Which of the plans, from 0.
    pub(super) plan: usize,
    pub(super) labels: Labels,
}

/// A chart that many states share.
#[derive(Clone, Debug)]
pub(super) struct ChartInHand(Arc<Chart>);

impl ChartInHand {
    pub(super) fn new(chart: Chart) -> ChartInHand {
        ChartInHand(Arc::new(chart))
    }

    /// The same one that others have.
    pub(super) fn sharing(chart: Arc<Chart>) -> ChartInHand {
        ChartInHand(chart)
    }

    pub(super) fn get(&self) -> &Chart {
        &self.0
    }

    pub(super) fn shared(&self) -> &Arc<Chart> {
        &self.0
    }
}

impl PartialEq for ChartInHand {
    /// The same one is equal without a look at its bars.
    fn eq(&self, other: &ChartInHand) -> bool {
        Arc::ptr_eq(&self.0, &other.0) || self.0 == other.0
    }
}

impl Chosen {
    /// How many plans there are to choose from, once another than the best is wanted.
    pub(super) const MOST_PLANS: usize = 8;

    /// A tune of one cadence, to begin with.
    const FIRST_BARS: &str = "| Dm7 | G7 | Cmaj7 | % |";

    /// What a player finds who has never been here.
    pub(super) fn first() -> Chosen {
        let bars = BarText::read(Chosen::FIRST_BARS, Meter::COMMON).ok();
        let (strings, frets) = ("4-3-2".parse().ok(), "1-12".parse().ok());
        let frets = frets.unwrap_or(FretRange::WHOLE_NECK);
        Chosen {
            chart: bars.map(Chart::of).map(ChartInHand::new),
            melody: MelodyInHand::default(),
            from: None,
            wishes: TuneWishes::NONE,
            area: HandArea { strings, frets, position: None },
            held: Vec::new(),
            plan: 0,
            labels: Labels::Note,
        }
    }

    /// The moments to which something belongs beside the chart: bars and beats.
    pub(super) fn moments(&self) -> Vec<(u64, ChartBeat)> {
        let never = self.wishes.plan.never.iter().map(|never| never.moment);
        let all = self.held.iter().map(|held| held.moment).chain(never);
        all.map(|moment| (moment.bar, moment.beat)).collect()
    }

    /// What belongs to those moments belongs to these; to none where there is none.
    pub(super) fn move_to(&mut self, moments: &[Option<(u64, ChartBeat)>]) {
        let mut moments = moments.iter().map(|moment| {
            let (bar, beat) = (*moment)?;
            Some(ChartMoment { bar, beat })
        });
        let mut next = || moments.next().flatten();
        let held = self.held.iter().filter_map(|held| Some(HeldHere { moment: next()?, ..*held }));
        self.held = held.collect();
        let never = &mut self.wishes.plan.never;
        *never = never.iter().filter_map(|it| Some(NeverHere { moment: next()?, ..*it })).collect();
    }

    /// The bars as they are heard.
    pub(super) fn sheet(&self) -> Sheet {
        Sheet::of(self.chart(), self.wishes.optional)
    }

    /// The tune.
    pub(super) fn chart(&self) -> Option<&Chart> {
        self.chart.as_ref().map(ChartInHand::get)
    }
}

/// What the screen was turned to: a tune, to which one can turn back.
#[derive(Clone, PartialEq, Debug)]
pub(in crate::tui) struct Page {
    pub(super) chosen: Chosen,
}

impl Page {
    /// Is it of the same tune, whatever has changed in it?
    pub(in crate::tui) fn is_like(&self, other: &Page) -> bool {
        let name = |page: &Page| {
            let title = page.chosen.chart().map(|chart| chart.title.clone());
            (title, page.chosen.from.clone())
        };
        name(self) == name(other)
    }
}
