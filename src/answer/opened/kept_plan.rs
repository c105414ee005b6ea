//! A chart with the plan that was chosen for it.

use fretloom_theory::Melody;

use super::Opened;
use super::opening::Opening;
use crate::answer::changes::{ChangesAnswer, ChangesQuestion, TuneWishes};
use crate::answer::hand_area::HandArea;
use crate::answer::refusal::Refusal;
use crate::library::ReadChart;
use crate::store::{ChangesSession, KeptPlan};
use crate::words::spaced;

/// No screen has more of them.
const MOST_PLANS: usize = 8;

impl Opened<'_> {
    /// The plan that stood in front, with what was wished of it and where the hand stayed.
    pub(super) fn plan(
        &self,
        plan: &KeptPlan,
        opening: &Opening<'_>,
    ) -> Result<ChangesAnswer, Refusal> {
        let session = self.session.changes.clone().unwrap_or_default();
        let read = ReadChart::of_text("chart", &plan.chart, opening.own)
            .map_err(|problems| Refusal::Chart { problems })?;
        let melody = session.melody.as_deref().and_then(|notes| notes.parse::<Melody>().ok());
        let wishes = session.wishes.as_deref().map(|text| TuneWishes::read_line(text, None));
        let TuneWishes { plan: wishes, optional } =
            wishes.and_then(Result::ok).unwrap_or(TuneWishes::NONE);
        let number = session.plan.and_then(|plan| usize::try_from(plan).ok()).unwrap_or_default();
        let number = number.min(MOST_PLANS - 1);
        let question = ChangesQuestion {
            melody: melody.unwrap_or(read.melody),
            key: plan.key.as_ref().and_then(|key| key.parse().ok()),
            wishes,
            optional,
            own: opening.own.to_vec(),
            spelling: opening.spelling,
            region: self.area(plan, &session).and_then(|area| area.region()),
            plans: if number > 0 { MOST_PLANS } else { 1 },
            ..ChangesQuestion::of(read.chart)
        };
        Ok(ChangesAnswer::new(&self.neck, &question)?.preferring(number))
    }

    /// Where the hand stayed, where this neck has that.
    fn area(&self, plan: &KeptPlan, session: &ChangesSession) -> Option<HandArea> {
        let told = [
            self.kept.view.as_deref().and_then(|view| view.strip_prefix("position ")),
            plan.frets.as_deref(),
        ];
        let strings = self.kept.strings.map(|strings| strings.to_string());
        let told = spaced(told.into_iter().flatten().chain(strings.as_deref()));
        let area = HandArea::read_line(session.area.as_deref().unwrap_or(&told)).ok()?;
        area.check(&self.neck).is_ok().then_some(area)
    }
}
