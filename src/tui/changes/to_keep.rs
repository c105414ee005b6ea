//! What is kept of a tune: its chart with the plan as it is chosen, and where the hand stays.

use std::sync::Arc;

use fretloom_fretboard::FretRange;

use super::state::ChangesScreen;
use crate::library::text_of_chart;
use crate::store::{ChangesSession, Kept, KeptPlan, KeptThing, NewKeeper, Session};
use crate::tui::shared::Shared;
use crate::words::spaced;

impl ChangesScreen {
    /// The tune with its plan; none where there is no tune, or its plan is being found.
    pub(in crate::tui) fn to_keep(&self, shared: &Shared) -> Option<NewKeeper> {
        let chart = self.chosen.chart()?;
        self.plan()?;
        let mut screen = Session { screen: Some("changes".to_owned()), ..Session::default() };
        self.keep(&mut screen);
        let area = self.chosen.area;
        let plan = KeptPlan {
            chart: text_of_chart(chart),
            key: None,
            frets: (area.frets != FretRange::WHOLE_NECK).then(|| area.frets.to_string()),
        };
        let kept = Kept {
            what: KeptThing::Plan(plan),
            tuning: Some(Arc::new(shared.setup.tuning.clone())),
            view: area.position.map(|position| format!("position {position}")),
            strings: area.strings,
            screen: screen.to_toml(),
            ..Kept::default()
        };
        Some(NewKeeper { kept, name: chart.title.clone(), ..NewKeeper::default() })
    }
}

impl ChangesScreen {
    /// Opens a tune with its plan as it was kept. Where it was kept without a screen, its chart and
    /// where the hand stays are known.
    pub(in crate::tui) fn open_kept(
        &mut self,
        plan: &KeptPlan,
        kept: &Kept,
        screen: &Session,
        shared: &Shared,
    ) {
        let area = [
            kept.view.as_deref().and_then(|view| view.strip_prefix("position ")).map(str::to_owned),
            plan.frets.clone(),
            kept.strings.map(|strings| strings.to_string()),
        ];
        let area = spaced(area.into_iter().flatten());
        let known = ChangesSession {
            chart: Some(plan.chart.clone()),
            area: (!area.is_empty()).then_some(area),
            ..ChangesSession::default()
        };
        let changes = Some(screen.changes.clone().unwrap_or(known));
        self.take_up(&Session { changes, ..Session::default() }, shared);
    }
}
