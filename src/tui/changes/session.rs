//! The choices on the changes screen as they are kept for the next start, and taken up again.

use std::path::PathBuf;

use fretloom_theory::Melody;

use super::chosen::{ChartInHand, Chosen};
use super::melody::MelodyInHand;
use super::state::ChangesScreen;
use crate::answer::{HandArea, TuneWishes};
use crate::library::{LONGEST_CHART, ReadChart, text_of_chart};
use crate::picture::Labels;
use crate::store::{ChangesSession, Session};
use crate::tui::shared::Shared;

impl ChangesScreen {
    /// Writes what is chosen here into a session; nothing where nobody has been here.
    pub(in crate::tui) fn keep(&self, session: &mut Session) {
        session.changes = self.was_opened.then(|| self.kept());
    }

    fn kept(&self) -> ChangesSession {
        let Chosen { chart, melody, from, area, wishes, held, plan, labels } = &self.chosen;
        let melody = Some(melody.get()).filter(|melody| !melody.is_empty());
        let file = from.as_ref().and_then(|from| from.to_str()).map(str::to_owned);
        ChangesSession {
            chart: chart.as_ref().map(|chart| text_of_chart(chart.get())),
            melody: melody.map(ToString::to_string),
            file,
            wishes: (!wishes.are_none()).then(|| format!("{wishes:#}")),
            held: held.iter().map(ToString::to_string).collect(),
            area: (*area != HandArea::WHOLE_NECK).then(|| area.to_string()),
            plan: u32::try_from(*plan).ok(),
            at: u32::try_from(self.cursor).ok(),
            labels: Some(labels.word().to_owned()),
        }
    }

    /// Takes up what was kept, as far as it still means something. Its plan is found when the screen
    /// comes to the front.
    pub(in crate::tui) fn take_up(&mut self, session: &Session, shared: &Shared) {
        let Some(kept) = &session.changes else { return };
        self.was_opened = true;
        let own = shared.library.scales.kinds();
        let read = |text: &String| {
            let fits = text.len() <= LONGEST_CHART;
            fits.then(|| ReadChart::of_text("", text, own).ok()).flatten()
        };
        let index = |value: Option<u32>| value.and_then(|value| usize::try_from(value).ok());
        let area = kept.area.as_deref().map(HandArea::read_line).and_then(Result::ok);
        let wishes = kept.wishes.as_deref().map(|typed| TuneWishes::read_line(typed, None));
        let wishes = wishes.and_then(Result::ok);
        let labels = Labels::ALL.into_iter().find(|one| Some(one.word()) == kept.labels.as_deref());
        self.chosen = Chosen {
            chart: kept.chart.as_ref().and_then(read).map(|read| ChartInHand::new(read.chart)),
            melody: MelodyInHand::new(read_melody(kept)),
            from: kept.file.as_ref().map(PathBuf::from),
            wishes: wishes.unwrap_or(TuneWishes::NONE),
            held: kept.held.iter().filter_map(|held| held.parse().ok()).collect(),
            area: area.unwrap_or(HandArea::WHOLE_NECK),
            // As many as there may be; how many there are is known later.
            plan: index(kept.plan).unwrap_or_default().min(Chosen::MOST_PLANS - 1),
            labels: labels.unwrap_or(self.chosen.labels),
        };
        self.sheet = self.chosen.sheet();
        let last = self.sheet.cells.len().saturating_sub(1);
        self.cursor = index(kept.at).unwrap_or_default().min(last);
    }
}

/// The melody of a tune; none where what was kept cannot be read.
fn read_melody(kept: &ChangesSession) -> Melody {
    kept.melody.as_deref().and_then(|notes| notes.parse().ok()).unwrap_or_default()
}
