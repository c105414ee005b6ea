//! `changes`: from a chart to its plan.

use fretloom_fretboard::{FretRange, Region};
use fretloom_theory::{ChartChoice, OptionalChords};

use crate::answer::{ChangesAnswer, ChangesQuestion, ChartMoment, PlanWishes, Refusal};
use crate::cli::args::{self, Changes};
use crate::cli::call::Call;
use crate::cli::complain::complain;
use crate::cli::text;
use crate::library::ReadChart;

impl Call<'_> {
    pub(super) fn changes(&self, wanted: &Changes) -> Result<String, Refusal> {
        let (neck, tuning, frets) = self.neck_within(wanted.where_to.frets.as_deref())?;
        let chart = self.chart(&wanted.file)?;
        let question = self.changes_question(wanted, chart, frets)?;
        let answer = ChangesAnswer::new(&neck, &question)?;
        answer.passed_over.iter().for_each(|choice| complain(&passed_over(choice)));
        Ok(self.printed(&answer, |answer| text::changes(answer, &tuning)))
    }

    fn changes_question(
        &self,
        wanted: &Changes,
        read: ReadChart,
        frets: FretRange,
    ) -> Result<ChangesQuestion, Refusal> {
        let wishes = &wanted.wishes;
        let mut question = ChangesQuestion {
            melody: read.melody,
            key: args::read(wanted.key.as_deref())?,
            optional: match wishes.optional {
                true => OptionalChords::Played,
                false => OptionalChords::LeftOut,
            },
            wishes: PlanWishes {
                kinds: wishes.kinds,
                states_guide_tones: wishes.guide_tones,
                contrasts_sections: wishes.contrast,
                ends: wishes.once,
                never: Vec::new(),
            },
            region: region(wanted, frets)?,
            hand: wanted.where_to.hand.hand(),
            plans: wanted.plans.into(),
            own: self.own_scales().to_vec(),
            spelling: self.spelling(),
            ..ChangesQuestion::of(read.chart)
        };
        for settled in &wishes.settle {
            question = question.settling(settled, self.own_scales())?;
        }
        for never in &wishes.never {
            question = question.never(never.parse()?)?;
        }
        Ok(question)
    }
}

/// The part of the neck to which the hand is locked, where one is named.
fn region(wanted: &Changes, frets: FretRange) -> Result<Option<Region>, Refusal> {
    let strings = args::strings(wanted.strings.as_deref())?;
    if strings.is_none() && wanted.where_to.frets.is_none() {
        return Ok(None);
    }
    let region = Region::default().within(frets);
    let region = strings.map_or(region, |strings| region.on(strings));
    Ok(Some(match wanted.where_to.no_open {
        true => region.without_open_strings(),
        false => region,
    }))
}

fn passed_over(choice: &ChartChoice) -> String {
    let moment = ChartMoment { bar: choice.bar, beat: choice.beat };
    format!(
        "what is settled at {moment} is passed over: expected a beat at which a chord of the chart \
         sounds"
    )
}
