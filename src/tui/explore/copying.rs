//! What is copied: the neck as text, the shape in hand as tablature.

use fretloom_fretboard::FretRange;

use super::drawing::Drawing;
use super::state::Explore;
use crate::export;
use crate::picture::Tab;
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;

impl Drawing<'_> {
    /// Copies the whole neck with what is shown on it.
    pub(super) fn copy_neck(&self) -> Vec<ScreenEffect> {
        let text = format!("{}{}", self.copied_title(), self.neck_as_text());
        vec![ScreenEffect::Copy { what: "the neck", text }]
    }

    /// The shape in hand, as it is copied; none where no shape is in hand.
    fn copied_shape(&self) -> Option<String> {
        let shape = self.explore.shape_in_hand()?;
        let words = self.shape_in_words();
        let title = self.copied_title();
        let tab = export::text::shape_tab(&Tab::of_shape(self.shared.neck(), &shape));
        Some(format!("{}\n{title}{tab}", words.trim()))
    }

    /// `Dm7 · D Dorian · [F] & (G) · E2 A2 D3 G3 B3 E4 · capo 2, tablature counts from it`
    fn copied_title(&self) -> String {
        let mut words = vec![self.explore.chosen.chord.read.chord.to_string()];
        words.push(self.explore.shown.pairs.harmony.scale().scale().to_string());
        words.extend(
            self.explore
                .pair()
                .map(|pair| format!("[{}] & ({})", pair.first.name, pair.second.name)),
        );
        let tuning = self.shared.neck().tuning();
        words.push(tuning.to_string());
        let capo = tuning.capo().fret();
        if !capo.is_open() {
            words.push(format!("capo {}, tablature counts from it", capo.number()));
        }
        words.join(" · ") + "\n"
    }

    fn neck_as_text(&self) -> String {
        export::text::neck(&self.picture().within(FretRange::WHOLE_NECK))
    }
}

impl Explore {
    /// Copies the shape in hand, or says that there is none.
    pub(super) fn copy_shape(&self, shared: &mut Shared) -> Vec<ScreenEffect> {
        match Drawing::new(self, shared).copied_shape() {
            Some(text) => vec![ScreenEffect::Copy { what: "the shape in hand", text }],
            None => {
                shared.tell("no shape is in hand");
                Vec::new()
            }
        }
    }
}
