//! What is settled and wished for single chords, as it is typed.

use fretloom_theory::{ChartChoice, Chorus, Scale, ScaleKind, SpelledTriad};

use super::moment::ChartMoment;
use super::question::ChangesQuestion;
use super::wishes::NeverHere;
use crate::answer::pairs::NamedPair;
use crate::answer::plan_refusal::PlanRefusal;
use crate::answer::refusal::Refusal;

impl ChangesQuestion {
    /// The same with a pair or a scale settled for the chord at a moment, typed `F & G@5.1` or
    /// `altered@2`; what the chart has settled there is replaced. Scales of the player's `own` kinds are
    /// known by name.
    ///
    /// # Errors
    ///
    /// Where it is neither a pair nor a scale, where a scale alone has no chord there to stand on, and
    /// where the chart has no such moment.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::answer::ChangesQuestion;
    /// use fretloom_theory::{BarText, Chart, Meter};
    /// let chart = Chart::of(BarText::read("| Dm7 | G7 |", Meter::COMMON).unwrap());
    /// let question = ChangesQuestion::of(chart).settling("altered@2", &[]).unwrap();
    /// assert_eq!(question.chart.choices[0].scale.as_ref().unwrap().to_string(), "G altered");
    /// assert!(question.settling("altered@3", &[]).is_err());
    /// ```
    pub fn settling(mut self, text: &str, own: &[ScaleKind]) -> Result<ChangesQuestion, Refusal> {
        let Some((wanted, moment)) = text.rsplit_once('@') else {
            return Err(PlanRefusal::NothingSettled { text: text.to_owned() }.into());
        };
        let chorus = self.chart.chorus(self.optional);
        let moment = in_chart(moment.parse()?, &chorus)?;
        let there = self.chart.choice_at(moment.bar, moment.beat).cloned();
        let mut choice = there.unwrap_or_else(|| ChartChoice::nothing(moment.bar, moment.beat));
        match wanted.split_once('&') {
            Some((one, other)) => choice.pair = Some(pair(one, other)?),
            None => choice.scale = Some(scale(wanted.trim(), moment, &chorus, own)?),
        }
        self.chart.settle(choice);
        Ok(self)
    }

    /// The same where a note is never played over a chord.
    ///
    /// # Errors
    ///
    /// Where the chart has no such moment.
    pub fn never(mut self, never: NeverHere) -> Result<ChangesQuestion, Refusal> {
        in_chart(never.moment, &self.chart.chorus(self.optional))?;
        self.wishes.never.push(never);
        Ok(self)
    }
}

/// A moment that the chart has.
fn in_chart(moment: ChartMoment, chorus: &Chorus) -> Result<ChartMoment, Refusal> {
    let last = chorus.heard.len().saturating_sub(1) as u64;
    match moment.in_chorus(chorus) {
        Some(_) => Ok(moment),
        None => Err(PlanRefusal::MomentNotInChart {
            moment: moment.to_string(),
            last: chorus.bars.bar(last).map(|bar| bar.label.to_string()).unwrap_or_default(),
        }
        .into()),
    }
}

fn pair(one: &str, other: &str) -> Result<[SpelledTriad; 2], Refusal> {
    Ok(NamedPair::new([one.trim().parse()?, other.trim().parse()?])?.names())
}

/// A scale with its root, or a kind alone on the root of the chord.
fn scale(
    text: &str,
    moment: ChartMoment,
    chorus: &Chorus,
    own: &[ScaleKind],
) -> Result<Scale, Refusal> {
    let of_own = own.iter().find(|kind| kind.is_called(text));
    let Some(kind) = of_own.or_else(|| ScaleKind::named(text)) else {
        return Ok(Scale::read_with(text, own)?);
    };
    let sounding = moment.in_chorus(chorus).and_then(|at| chorus.chords.at(at));
    let chord = sounding.and_then(|symbol| symbol.chord());
    let chord = chord.ok_or_else(|| PlanRefusal::NoChordThere { moment: moment.to_string() })?;
    Ok(Scale::new(chord.root(), kind.clone()))
}
